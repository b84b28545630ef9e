//! A field that a profile's section has lost, told with the line that the nine-foot table has for it.

use super::shipped_text;
use crate::fault::Fault;

/// Adds the lines to a fault of fields that a section lacks.
pub(super) fn with_lines(fault: Fault) -> Fault {
    if fault.hint.is_some() {
        return fault;
    }
    match lines(&fault.message) {
        Some(lines) => {
            let half = if fault.message.ends_with("no `width`") {
                "; yours is half its length"
            } else {
                ""
            };
            fault.with_hint(format!(
                "the nine-foot table's, indented like the others: {lines}{half}"
            ))
        }
        None => fault,
    }
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
        assert_eq!(told("the `hall` section has no `width`"), None);
    }
}
