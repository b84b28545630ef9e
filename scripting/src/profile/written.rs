//! Equipment as the text of a profile.

use super::fields::{FRICTION_LAW, RAIL_MODEL};
use railproof_engine::equipment::{Equipment, EquipmentNumber, Section};
use std::fmt::Write;

/// The profile of this equipment: every number in its SI unit with all its digits, so that it reads back as the
/// same. `about` is what it is, without line breaks.
pub fn profile_text(equipment: &Equipment, name: &str, about: &str) -> String {
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
            number_line(&mut text, "  ", equipment, number);
        }
    }
    text.push('\n');
    for number in Section::Whole.numbers() {
        number_line(&mut text, "", equipment, number);
    }
    text
}

fn number_line(text: &mut String, indent: &str, equipment: &Equipment, number: EquipmentNumber) {
    let parameter = number.parameter();
    let unit = parameter.dimension.si_symbol();
    let value = number.get(equipment);
    let spaced = if unit.is_empty() { String::new() } else { format!(" {unit}") };
    let _ = writeln!(text, "{indent}{}: {value}{spaced}  # {}", parameter.name, number.meaning());
}

/// In YAML's double quotes.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\"").replace('\n', " "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::profile::{find_profile, parse_profile, shipped_names};
    use std::path::Path;

    #[test]
    fn a_written_profile_reads_back_as_the_same() {
        for shipped in shipped_names().filter(|name| !name.contains('/')) {
            let equipment = find_profile(shipped, Path::new("")).expect("shipped");
            let text = profile_text(&equipment, "A \"quoted\" name", "made: for a test");
            let read =
                parse_profile(&text, "written").unwrap_or_else(|fault| panic!("{fault:?}\n{text}"));
            assert_eq!(read.name, "A \"quoted\" name");
            let (mut read, mut wanted) = (read, equipment);
            // A number that may be left out is written out.
            read.name.clear();
            wanted.name.clear();
            wanted.cushion.impact_cloth_friction = Some(wanted.impact_cloth_friction());
            assert_eq!(read, wanted, "{text}");
        }
    }
}
