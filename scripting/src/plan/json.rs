//! Faults of a plan's JSON in plain words, and where its keys stand.

use crate::fields::Within;
use crate::renamed;
use crate::yaml::{KeyFinder, found_in_words};
use serde::de::DeserializeSeed;
use std::ops::Range;

/// A fault of the JSON reader.
pub(super) struct JsonFault {
    pub(super) message: String,
    pub(super) hint: Option<String>,
}

impl JsonFault {
    /// The reader's own message without its place, in the words of the file instead of the program's.
    pub(super) fn of(error: &serde_json::Error) -> Self {
        let told = error.to_string();
        let told = told.rsplit_once(" at line ").map_or(told.as_str(), |(before, _)| before);
        let plain = |message: String| Self { message, hint: None };
        for kind in ["invalid type: ", "invalid value: "] {
            if let Some((found, expected)) =
                told.strip_prefix(kind).and_then(|rest| rest.split_once(", expected "))
            {
                let (found, expected) = (found_in_words(found), expected_in_words(expected));
                return plain(format!("found {found} where {expected} belongs"));
            }
        }
        for (kind, says) in [("unknown variant", "it is one of"), ("unknown field", "it can have")]
        {
            let rest = told.strip_prefix(kind).and_then(|rest| rest.split_once(", expected "));
            if let Some((name, known)) = rest {
                let name = name.trim().trim_matches('`');
                let known: Vec<&str> = known.split('`').skip(1).step_by(2).collect();
                let hint = renamed::hint_or_all(name, known.into_iter(), says);
                return Self {
                    message: format!("{kind} `{name}`").replace("variant", "word"),
                    hint: Some(hint),
                };
            }
        }
        if told.starts_with("invalid length") {
            return plain("found a list where a table of fields belongs".to_owned());
        }
        match told {
            "expected value" => plain("no value that could stand here".to_owned()),
            told => plain(told.to_owned()),
        }
    }
}

fn expected_in_words(expected: &str) -> &str {
    match expected {
        "u32" | "u64" | "usize" => "a whole number from 0 on",
        "f64" => "a number",
        "a sequence" => "a list",
        "a string" => "text",
        "a boolean" => "true or false",
        _ if expected.starts_with("struct ") || expected == "a map" => "a table of fields",
        _ => expected,
    }
}

/// Where the key stands to which steps lead.
pub(super) fn key_at(text: &str, path: &[Within]) -> Option<Range<usize>> {
    let Some(Within::Key(key)) = path.last() else { return None };
    let mut reader = serde_json::Deserializer::from_str(text);
    // The search ends with an error behind the key.
    let stopped = KeyFinder { path }.deserialize(&mut reader).err()?;
    let end = text[..place_of(text, stopped.line(), stopped.column() + 1)].trim_end().len();
    let written = serde_json::to_string(key).ok()?;
    let start = text[..end].ends_with(&written).then(|| end - written.len())?;
    Some(start..end)
}

/// The byte at a line and a column of the JSON reader, which counts lines and bytes from 1.
pub(super) fn place_of(text: &str, line: usize, column: usize) -> usize {
    let before = text.split_inclusive('\n').take(line.saturating_sub(1));
    let start = before.map(str::len).sum::<usize>();
    text.floor_char_boundary((start + column.saturating_sub(1)).min(text.len()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_key_is_found_at_the_end_of_its_steps() {
        let text = "{\"a\": [{\"b\": 1}, {\"b\" : 2, \"é\": [1]}],\n \"c\": {\"d\": null}}";
        let found = |path: &[Within]| key_at(text, path).map(|at| (at.start, &text[at]));
        let key = |key: &str| Within::Key(key.to_owned());
        assert_eq!(found(&[key("a"), Within::Item(2), key("b")]), Some((18, "\"b\"")));
        assert_eq!(found(&[key("a"), Within::Item(2), key("é")]), Some((27, "\"é\"")));
        assert_eq!(found(&[key("c"), key("d")]), Some((47, "\"d\"")));
        assert_eq!(found(&[key("c"), key("e")]), None);
    }
}
