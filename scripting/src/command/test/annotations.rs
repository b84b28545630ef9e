//! Failures as annotations: the workflow commands that GitHub documents, a line each.

use super::stale::StaleBaseline;
use crate::fault::tame;
use crate::walled::{ToldFault, Trial};
use std::fmt::Write;

/// An annotation for each failure, for each warning and note of a baseline, and for each baseline that is stale.
pub(super) fn lines(
    tested: &[Trial],
    stale: &[StaleBaseline],
    (of_run, notes): (&[ToldFault], &[String]),
) -> String {
    let mut text = String::new();
    for fault in of_run {
        let _ = writeln!(text, "::error::{}", escaped(&fault.message));
    }
    for words in notes {
        let _ = writeln!(text, "::notice::{}", escaped(words));
    }
    for trial in tested {
        let file = trial.file.display().to_string();
        let failed = trial.expectations.iter().filter(|one| !one.passes());
        let failed = failed.map(|one| {
            let message = format!("expected: {}; found: {}", one.expected, one.found);
            (file.as_str(), one.at_line, message)
        });
        let faults = trial.left_out.iter().chain(&trial.stopped).chain(&trial.troubles);
        let faults = faults
            .map(|it| (it.at_file.as_deref().unwrap_or(&file), it.at_line, it.message.clone()));
        for (file, line, message) in failed.chain(faults) {
            let line = line.map_or_else(String::new, |line| format!(",line={line}"));
            let _ = writeln!(text, "::error file={}{line}::{}", property(file), escaped(&message));
        }
        for one in &trial.expectations {
            let line = one.at_line.map_or_else(String::new, |line| format!(",line={line}"));
            let warning = one.warnings.first().map(|head| {
                let rows: Vec<&str> = one.warnings[1..].iter().map(|row| row.trim()).collect();
                ("warning", format!("{head} {}", rows.join("; ")))
            });
            let notes = one.notes.iter().map(|words| ("notice", words.clone()));
            for (kind, words) in warning.into_iter().chain(notes) {
                let message = escaped(&format!("{}: {words}", one.expected));
                let _ = writeln!(text, "::{kind} file={}{line}::{message}", property(&file));
            }
        }
    }
    for one in stale {
        let kind = if one.link.is_some() { "notice" } else { "warning" };
        let file = property(&one.path.display().to_string());
        let _ = writeln!(text, "::{kind} file={file}::{}", escaped(&one.words()));
    }
    text
}

/// A message in one line: what would begin an escape is escaped.
fn escaped(text: &str) -> String {
    tame(text).replace('%', "%25")
}

/// A property: also what would end the property.
fn property(text: &str) -> String {
    escaped(text).replace(':', "%3A").replace(',', "%2C")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_in_a_name_ends_its_annotation() {
        assert_eq!(property("a,b:c%\n::error"), "a%2Cb%3Ac%25 %3A %3Aerror");
        assert_eq!(escaped("50 %\nlong\u{1b}"), "50 %25 long\\u{1b}");
    }
}
