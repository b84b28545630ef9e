//! Equipment as the text of a profile.

use super::fields::{FRICTION_LAW, RAIL_MODEL};
use railproof_engine::equipment::{Equipment, EquipmentNumber, Section};
use railproof_engine::units::{Dimension, INCH_M, in_si};
use std::fmt::Write;

/// The profile of this equipment: every number with all its digits, so that it reads back as the same, in its SI
/// unit or, where it is a length and `in_inches`, in inches. `about` is what it is, without line breaks.
pub fn profile_text(equipment: &Equipment, name: &str, about: &str, in_inches: bool) -> String {
    let mut text =
        String::from("# Every quantity carries its unit; a plain number is a plain ratio.\n");
    let _ = writeln!(text, "name: {}\nabout: {}", quoted(name), quoted(about));
    for section in Section::ALL {
        let _ = writeln!(text, "\n{}:", section.name());
        match section {
            Section::Cushion => {
                let _ = writeln!(text, "  {RAIL_MODEL}: {}", equipment.cushion.rail_model.name());
            }
            Section::BallContact => {
                let law = equipment.ball_contact.friction_law.name();
                let _ = writeln!(text, "  {FRICTION_LAW}: {law}");
            }
            _ => {}
        }
        for number in section.numbers() {
            number_line(&mut text, "  ", (equipment, in_inches), number);
        }
    }
    text.push('\n');
    for number in Section::Whole.numbers() {
        number_line(&mut text, "", (equipment, in_inches), number);
    }
    text
}

fn number_line(
    text: &mut String,
    indent: &str,
    (equipment, in_inches): (&Equipment, bool),
    number: EquipmentNumber,
) {
    let parameter = number.parameter();
    let si = number.get(equipment);
    let is_length = in_inches && parameter.dimension == Dimension::Length;
    let (value, unit) = match inches_of(si).filter(|_| is_length) {
        Some(inches) => (inches, "in"),
        None => (si, parameter.dimension.si_symbol()),
    };
    let spaced = if unit.is_empty() { String::new() } else { format!(" {unit}") };
    let _ = writeln!(text, "{indent}{}: {value}{spaced}  # {}", parameter.name, number.meaning());
}

/// The inches that read back as this length, with the fewest decimals; none does for a few lengths.
fn inches_of(length_m: f64) -> Option<f64> {
    (0..=MOST_DECIMALS)
        .filter_map(|decimals| format!("{:.decimals$}", length_m / INCH_M).parse().ok())
        .find(|inches| in_si(*inches, INCH_M) == length_m)
}

/// More say nothing about lengths of a table.
const MOST_DECIMALS: usize = 19;

/// In YAML's double quotes.
pub(crate) fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\"").replace('\n', " "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::profile::{find_profile, parse_profile, shipped_names};
    use crate::yaml::InputText;
    use std::path::Path;

    #[test]
    fn a_written_profile_reads_back_as_the_same() {
        for shipped in shipped_names().filter(|name| !name.contains('/')) {
            let equipment = find_profile(shipped, Path::new("")).expect("shipped");
            for in_inches in [false, true] {
                let text =
                    profile_text(&equipment, "A \"quoted\" name", "made: for a test", in_inches);
                let read = parse_profile(&text, "written")
                    .unwrap_or_else(|fault| panic!("{fault:?}\n{text}"));
                assert_eq!(read.name, "A \"quoted\" name");
                let (mut read, mut wanted) = (read, equipment.clone());
                // A number that may be left out is written out.
                read.name.clear();
                wanted.name.clear();
                wanted.cushion.impact_cloth_friction = Some(wanted.impact_cloth_friction());
                assert_eq!(read, wanted, "{text}");
                assert_eq!(
                    text.contains("length: 100 in"),
                    in_inches && wanted.table.length_m == 2.54
                );
                assert_eq!(
                    InputText::new("written", &text).expect("text").in_inches(),
                    Some(in_inches)
                );
            }
        }
    }
}
