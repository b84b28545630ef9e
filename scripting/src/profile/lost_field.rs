//! A field that a profile's section has lost, told with the line that the nine-foot table has for it.

use super::shipped_text;
use crate::fault::Fault;
use railproof_engine::units::{leading_number, short_number};

/// Adds the lines to a fault of fields that a section lacks.
pub(super) fn with_lines(fault: Fault) -> Fault {
    if fault.hint.is_some() {
        return fault;
    }
    if let Some(hint) = by_its_other_side(&fault) {
        return fault.with_hint(hint);
    }
    match lines(&fault.message) {
        Some(lines) => {
            fault.with_hint(format!("the nine-foot table's, indented like the others: {lines}"))
        }
        None => fault,
    }
}

/// The line of a table's lost length from its width, or of its width from its length.
fn by_its_other_side(fault: &Fault) -> Option<String> {
    let sides = [("length", "width", 2.0), ("width", "length", 0.5)];
    let (lost, kept, times) = sides
        .into_iter()
        .find(|(lost, ..)| fault.message.ends_with(&format!("has no `{lost}`")))?;
    let text = fault.place.as_ref()?.source();
    let given = text.lines().find_map(|line| line.trim().strip_prefix(kept)?.strip_prefix(':'))?;
    let (number, unit) = leading_number(given.split('#').next()?.trim())?;
    let number = short_number(times * number, 4);
    let line = format!("{lost}: {number} {}", unit.trim());
    Some(format!(
        "a table is twice as long as it is wide: `{}`, indented like the others",
        line.trim_end()
    ))
}

/// The lines of the fields that a message misses: `` the `table` section has no `length` and no `width` ``.
fn lines(message: &str) -> Option<String> {
    let (section, missing) = message.split_once("` section has no `")?;
    let section = section.strip_prefix("the `")?;
    let text = shipped_text("nine-foot")?;
    let of_section = text
        .lines()
        .skip_while(|line| *line != format!("{section}:"))
        .skip(1)
        .take_while(|line| line.is_empty() || line.starts_with(' '));
    let lines = missing
        .trim_end_matches('`')
        .split("` and no `")
        .map(|field| {
            let line =
                of_section.clone().find(|line| line.trim().starts_with(&format!("{field}:")));
            line.map(|line| format!("`{}`", line.trim()))
        })
        .collect::<Option<Vec<String>>>()?;
    Some(lines.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fault::Place;

    #[test]
    fn every_lost_field_is_told_with_its_line() {
        let told = |message: &str| with_lines(Fault::bad_input(message)).hint;
        assert_eq!(
            told("the `table` section has no `width` and no `side_mouth`").as_deref(),
            Some(
                "the nine-foot table's, indented like the others: `width: 50 in`, `side_mouth: 5.125 in`"
            )
        );
        assert_eq!(told("the `table` section has no `depth`"), None);
        let of_bar_table = |message: &str, line: &str| {
            let place = Place::new("a.yaml", format!("table:\n  {line} # measured\n").into(), 0..5);
            with_lines(Fault::bad_input(message).at(place)).hint.unwrap_or_default()
        };
        let length = of_bar_table("the `table` section has no `length`", "width: 39 in");
        assert!(length.contains("`length: 78 in`"), "{length}");
        let width = of_bar_table("the `table` section has no `width`", "length: 1.98 m");
        assert!(width.contains("`width: 0.99 m`"), "{width}");
        assert_eq!(told("the `hall` section has no `width`"), None);
    }
}
