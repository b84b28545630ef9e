//! A fault drawn with its source line, a caret and the hint.

use super::unseen::{is_break, is_unseen};
use super::{Place, Style};
use ariadne::{Config, Label, Report, ReportKind, Source};
use std::fmt::Write;
use std::path::Path;

/// Messages and hints are cut here; user text inside them can be as long as the file.
const LONGEST_TEXT: usize = 600;
/// The text of source lines longer than this is not shown, only the place.
const WIDEST_LINE: usize = 160;

/// Text safe to print: characters that are not seen are written as escapes, tabs and line breaks turned to spaces,
/// and it is not longer than a person would read. What a build server would take for a command begins otherwise.
pub(crate) fn tame(text: &str) -> String {
    let mut out = String::with_capacity(text.len().min(LONGEST_TEXT));
    for letter in text.chars().take(LONGEST_TEXT) {
        if is_break(letter) {
            out.push(' ');
        } else if is_unseen(letter) {
            out.extend(letter.escape_unicode());
        } else {
            out.push(letter);
        }
    }
    if text.chars().nth(LONGEST_TEXT).is_some() {
        out.push('…');
    }
    parted(out)
}

/// A path in one line that tells it from any other: breaks of a line are written as escapes, and not as the spaces of
/// [`tame`].
pub(crate) fn escaped_name(path: &Path) -> String {
    let mut out = String::new();
    for letter in path.display().to_string().chars() {
        if is_break(letter) { out.extend(letter.escape_default()) } else { out.push(letter) }
    }
    tame(&out)
}

/// What build servers take for a command, wherever it stands in a line, is parted: `::` at the start of a word, and
/// `##` before a letter or a bracket.
pub(crate) fn parted(text: String) -> String {
    if !text.contains("::") && !text.contains("##") {
        return text;
    }
    let letters: Vec<char> = text.chars().collect();
    let mut out = String::with_capacity(text.len() + 8);
    for (at, letter) in letters.iter().enumerate() {
        let before = at.checked_sub(1).map(|at| letters[at]);
        let next = letters.get(at + 1);
        let begins = before.is_none_or(|it| !it.is_alphanumeric() && it != ':');
        out.push(*letter);
        let colons = *letter == ':' && next == Some(&':') && begins;
        let after = letters.get(at + 2);
        let hashes = *letter == '#'
            && next == Some(&'#')
            && after.is_some_and(|it| *it == '[' || it.is_alphanumeric());
        if colons || hashes {
            out.push(' ');
        }
    }
    out
}

/// As [`tame`], a character for each: for lines in which places are counted. They stand after a frame.
fn tame_char(letter: char) -> char {
    if is_break(letter) {
        ' '
    } else if is_unseen(letter) {
        '\u{fffd}'
    } else {
        letter
    }
}

pub(super) fn render(
    message: &str,
    hint: Option<&str>,
    place: Option<&Place>,
    style: Style,
) -> String {
    let (message, hint) = (tame(message), hint.map(tame));
    let hint = hint.as_deref();
    place
        .and_then(|place| with_source(&message, hint, place, style))
        .unwrap_or_else(|| without_source(&message, hint, place))
}

fn without_source(message: &str, hint: Option<&str>, place: Option<&Place>) -> String {
    let mut out = format!("Error: {message}\n");
    if let Some(place) = place {
        let (line, column) = place.line_column();
        let _ = writeln!(out, "  at {}:{line}:{column}", tame(place.label()));
    }
    if let Some(hint) = hint {
        let _ = writeln!(out, "  Help: {hint}");
    }
    out
}

/// `None` when the line cannot be shown, for a very long line.
fn with_source(message: &str, hint: Option<&str>, place: &Place, style: Style) -> Option<String> {
    let (line, bytes) = place.first_line();
    if line.chars().count() > WIDEST_LINE {
        return None;
    }
    let (line_number, _) = place.line_column();
    // Only this one line is handed over, on its own line number: the rest of the file is neither
    // needed nor always safe to print. Spans are in characters, one for one after taming.
    let blank = "\n".repeat(line_number - 1);
    let start = blank.len() + line[..bytes.start].chars().count();
    let length = line[bytes.clone()].chars().count().max(1);
    let end = start + length;
    // A caret may stand just after the line's last character.
    let shown: String = line.chars().map(tame_char).chain([' ']).collect();
    let label = tame(place.label());
    let config = Config::new().with_color(style.color).with_compact(false);
    let mark = Label::new((label.as_str(), start..end)).with_message("here");
    let mark = if style.color { mark.with_color(ariadne::Color::Red) } else { mark };
    let mut report = Report::build(ReportKind::Error, (label.as_str(), start..end))
        .with_config(config)
        .with_message(message)
        .with_label(mark);
    if let Some(hint) = hint {
        report = report.with_help(hint);
    }
    let mut out = Vec::new();
    let source = Source::from(blank + &shown);
    report.finish().write((label.as_str(), source), &mut out).ok()?;
    String::from_utf8(out).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fault::Fault;

    fn fault(source: &str, span: std::ops::Range<usize>) -> Fault {
        Fault::bad_input("it is wrong").at(Place::new("f.yaml", source.into(), span))
    }

    #[test]
    fn the_caret_stands_under_the_place_in_any_script() {
        let source = "über: 1\nnaïve: 2 мм # ø\n";
        let at = source.find("мм").unwrap_or_default();
        let text = fault(source, at..at + 4).with_hint("try mm").render(Style::PLAIN);
        assert!(text.contains("f.yaml:2:10"), "{text}");
        assert!(text.contains("naïve: 2 мм # ø"), "{text}");
        assert!(text.contains("try mm"), "{text}");
        assert!(!text.contains('\u{1b}'), "{text}");
        let lines: Vec<&str> = text.lines().collect();
        let row = lines.iter().position(|line| line.contains("мм")).unwrap_or_default();
        let column = |line: &str, mark: char| line.chars().position(|letter| letter == mark);
        assert_eq!(
            column(lines[row + 1], '─').or(column(lines[row + 1], '┬')),
            column(lines[row], 'м'),
            "{text}"
        );
    }

    #[test]
    fn colour_only_when_asked() {
        assert!(fault("a", 0..1).render(Style { color: true }).contains('\u{1b}'));
        assert!(!fault("a", 0..1).render(Style::PLAIN).contains('\u{1b}'));
    }

    #[test]
    fn hostile_text_is_tamed() {
        let source = "\u{1b}[31mred\u{7}\u{202e}";
        let text = fault(source, 0..source.len()).render(Style::PLAIN);
        assert!(!text.contains(['\u{1b}', '\u{7}', '\u{202e}']), "{text:?}");
        let long = "x".repeat(1_000_000);
        assert!(fault(&long, 5..6).render(Style::PLAIN).len() < 1000);
        assert!(Fault::bad_input(long).render(Style::PLAIN).len() < 1000);
    }

    #[test]
    fn no_build_server_obeys() {
        for (text, told) in [
            ("::error::owned", ": :error::owned"),
            ("x ::set-output name=y::z", "x : :set-output name=y::z"),
            ("##vso[task.complete]", "# #vso[task.complete]"),
            ("##[group]a", "# #[group]a"),
            ("a::b ## title", "a::b ## title"),
        ] {
            assert_eq!(tame(text), told);
        }
    }

    #[test]
    fn empty_source_and_end_of_file_are_places_too() {
        assert!(fault("", 0..0).render(Style::PLAIN).contains("f.yaml:1:1"));
        assert!(fault("a\n", 2..2).render(Style::PLAIN).contains("f.yaml:2:1"));
    }
}
