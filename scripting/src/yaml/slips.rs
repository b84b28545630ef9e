//! The slip of the finger behind text that is no YAML, or not the YAML that was meant.

use std::ops::Range;

/// A hint for the YAML reader's own message about a line of a text.
pub(super) fn hint(text: &str, line: usize, message: &str) -> Option<String> {
    if !message.contains("not valid YAML") && !message.contains("ends too early") {
        return message.contains(CURLY).then(|| STRAIGHT.to_owned());
    }
    if message.contains("quoted scalar") {
        const UNCLOSED: &str = "text in quotes has no closing quote";
        return Some(match unclosed_quote(text) {
            Some(line) => format!("{UNCLOSED}: look at line {line}"),
            None => UNCLOSED.to_owned(),
        });
    }
    if let Some(quoted) = text.lines().nth(line.saturating_sub(1)).and_then(quoted) {
        return Some(format!("text with a colon in it goes in quotes: write `{quoted}`"));
    }
    // The reader notices on a later line.
    let before: String = text.split_inclusive('\n').take(line.saturating_sub(1)).collect();
    if let Some(line) = unclosed(&before).or_else(|| unclosed(text)) {
        return Some(format!("a {{ or [ on line {line} is not closed"));
    }
    if text.contains(CURLY) {
        return Some(STRAIGHT.to_owned());
    }
    if message.contains("mapping values are not allowed") || message.contains("',' or") {
        return Some(
            "a comma is missing before this, or a field needs a line of its own".to_owned(),
        );
    }
    message.contains("expected key").then(|| {
        "a field is a name, a colon, a space and its value, indented like the others".to_owned()
    })
}

/// The line, counted from one, of the first value that opens a quote and does not close it there.
fn unclosed_quote(text: &str) -> Option<usize> {
    let opens = |line: &str| {
        let value = line.split_once(": ").map_or("", |(_, value)| value.trim_start());
        let quote = value.chars().next().filter(|first| ['"', '\''].contains(first));
        quote.is_some_and(|quote| !value[1..].contains(quote))
    };
    text.lines().position(opens).map(|at| at + 1)
}

const CURLY: [char; 4] = ['“', '”', '‘', '’'];
const STRAIGHT: &str = "curly quotes do not count as quotes here: write straight ones, or none";

/// The first line, at or before the end of a value, on which a field lacks its colon, and a hint on it. A field's
/// name is one word of small letters, set in like its neighbours.
pub(super) fn missing_colon(text: &str, upto: usize) -> Option<(usize, String)> {
    // Of words without any colon nobody knows what they were to be.
    if !text.contains(':') {
        return None;
    }
    let mut in_text = None;
    for (at, line) in text.lines().enumerate().take(upto) {
        let indent = line.len() - line.trim_start().len();
        let code = line.split(" #").next().unwrap_or_default().trim();
        if code.is_empty() || code.starts_with('#') {
            continue;
        }
        // A text that goes on over several lines is set in further than its field.
        if in_text.is_some_and(|field: usize| indent > field) {
            continue;
        }
        in_text = None;
        if let Some(hint) = lost_note(code) {
            return Some((at + 1, hint));
        }
        let name: &str = code.split([' ', ':']).next().unwrap_or_default();
        let head = code.split(['{', '[', '"']).next().unwrap_or_default();
        let is_name = name.chars().all(|letter| letter.is_ascii_lowercase() || letter == '_');
        if !is_name || name.is_empty() {
            continue;
        }
        let rest = code[name.len()..].trim_start();
        if let Some(value) =
            rest.strip_prefix(':').filter(|it| !it.is_empty() && !it.starts_with(' '))
        {
            let hint = format!("a space is missing on line {}: write `{name}: {value}`", at + 1);
            return Some((at + 1, hint));
        }
        // A name may be of several words.
        match head.split_once(": ").or_else(|| Some((head.strip_suffix(':')?, ""))) {
            Some((_, value)) => {
                // A value that begins here may go on below; a group has none.
                in_text = (!value.trim().is_empty() || head.len() < code.len()).then_some(indent);
            }
            None => {
                let rest = rest.strip_prefix('=').unwrap_or(rest).trim_start();
                let mended =
                    if rest.is_empty() { format!("{name}:") } else { format!("{name}: {rest}") };
                return Some((
                    at + 1,
                    format!("a colon is missing on line {}: write `{mended}`", at + 1),
                ));
            }
        }
    }
    None
}

/// A hint on a sentence where a field belongs: a note that has lost its #.
fn lost_note(line: &str) -> Option<String> {
    let words = line.split_whitespace().count();
    let is_sentence = line.starts_with(|letter: char| letter.is_ascii_uppercase()) && words > 3;
    let is_field = line.split(['{', '[', '"']).next().is_some_and(|head| head.contains(": "));
    (is_sentence && !is_field).then(|| {
        let beginning: Vec<&str> = line.split_whitespace().take(3).collect();
        format!("a note for people begins with #: write `# {} …`", beginning.join(" "))
    })
}

/// A hint on a value that a bracket without its partner lets run into the next line.
pub(super) fn run_on(text: &str, span: Range<usize>) -> Option<String> {
    let start = text[..span.start].rfind('\n').map_or(0, |at| at + 1);
    let end = text[span.start..].find('\n').map_or(text.len(), |at| span.start + at);
    let value = text[span.start..end].split(" #").next()?.trim_end();
    let next = text[end..].lines().find(|line| !line.trim().is_empty())?;
    let is_field = next.split_once(':').is_some_and(|(name, _)| !name.trim().contains(' '));
    let is_last = !value.contains([',', '}', ']', ':']);
    let open = unclosed(&text[start..end]) == Some(1);
    (open && is_last && is_field)
        .then(|| format!("a }} is missing at the end of the line: write `{value}}}`"))
}

/// A hint on a value with a semicolon in it.
pub(super) fn semicolon(text: &str, span: Range<usize>) -> Option<String> {
    let (value, next) = text[span].split_once(';')?;
    let next = next.trim().split([':', ' ']).next().unwrap_or_default();
    Some(format!("a comma stands between fields: write `{}, {next}: …`", value.trim()))
}

/// A hint on an unknown field of several words: in brackets, its name has taken in the value.
pub(super) fn colon_in_brackets(message: &str) -> Option<String> {
    let (_, field) = message.split_once(" has no field `")?;
    let (name, value) = field.split_once('`')?.0.split_once(' ')?;
    Some(format!("a colon is missing: write `{name}: {value}`"))
}

/// A hint on a field that a group does not have, on a line on which a bracket before it is not closed.
pub(super) fn taken_in(text: &str, span: Range<usize>, message: &str) -> Option<String> {
    let (_, field) = message.split_once(" has no field `")?;
    let (field, _) = field.split_once('`')?;
    let line = text[..span.start].rfind('\n').map_or(0, |at| at + 1);
    let end = text[span.start..].find('\n').map_or(text.len(), |at| span.start + at);
    let open = unclosed(&text[line..end])?;
    let before = text[line..span.start].trim_end().ends_with(',');
    (open == 1 && before).then(|| format!("a }} is missing before `, {field}`"))
}

/// A hint on a list where fields belong: a dash makes one.
pub(super) fn needless_dash(text: &str, span: Range<usize>, message: &str) -> Option<String> {
    let rest = text[span.start..].strip_prefix("- ")?;
    let (name, _) = rest.split_once(':')?;
    let is_name = name.chars().all(|letter| letter.is_ascii_alphanumeric() || letter == '_');
    (is_name && message.contains("must be a table of fields, not a list"))
        .then(|| format!("leave out the dash: write `{name}:`"))
}

/// A line that gives a text, with the text in quotes.
fn quoted(line: &str) -> Option<String> {
    let (key, text) = line.split_once(": ")?;
    let text = text.split(" #").next().unwrap_or_default().trim();
    let free = matches!(key.trim(), "name" | "about" | "title" | "subtitle")
        && !text.starts_with(['"', '\'']);
    (free && text.contains(':')).then(|| {
        if text.contains(['"', '\\']) {
            format!("{}: '{}'", key.trim(), text.replace('\'', "''"))
        } else {
            format!("{}: \"{text}\"", key.trim())
        }
    })
}

/// A hint on a number that ends at a decimal comma, which in brackets begins the next value: the value at
/// `span` is the one or the other half.
pub(super) fn decimal_comma(text: &str, span: Range<usize>) -> Option<String> {
    let digit = |byte: Option<&u8>| byte.is_some_and(u8::is_ascii_digit);
    let whole =
        |part: &str| part.len() - part.trim_end_matches(|it: char| it.is_ascii_digit()).len();
    let bytes = text.as_bytes();
    let comma = match span.start.checked_sub(1).and_then(|at| bytes.get(at)) {
        Some(b',') => span.start - 1,
        _ => span.end,
    };
    let after = comma + 1;
    if bytes.get(comma) != Some(&b',') || !digit(bytes.get(after)) || in_short_list(text, comma) {
        return None;
    }
    let length = whole(&text[..comma]);
    let before = &text[comma - length..comma];
    let ends = |it: char| matches!(it, ',' | '}' | ']' | '\n' | '#');
    let rest = text[after..].split(ends).next().unwrap_or_default().trim_end();
    (length > 0).then(|| format!("decimals take a point: `{before}.{rest}`"))
}

/// Whether a byte stands in a list with no more values than a place or a spin has.
fn in_short_list(text: &str, at: usize) -> bool {
    let open = text[..at].rfind(['[', '{']).filter(|open| text[*open..].starts_with('['));
    open.is_some_and(|open| {
        let list = text[open..].split(']').next().unwrap_or_default();
        list.matches(',').count() < 3
    })
}

/// A field that a group lacks and that stands on a line which is set in less than the group's others: the line, and
/// the field.
pub(super) fn too_far_left(text: &str, line: usize, message: &str) -> Option<(usize, String)> {
    let indent = |line: &str| line.len() - line.trim_start().len();
    let mut lines = text.lines().enumerate().skip(line.checked_sub(1)?);
    let (_, title) = lines.next()?;
    let says = |line: &str| !line.trim().is_empty() && !line.trim_start().starts_with('#');
    let mut lines = lines.filter(|(_, line)| says(line));
    let fields = lines.clone().map(|(_, line)| indent(line)).find(|it| *it > indent(title))?;
    let (at, next) = lines.find(|(_, line)| indent(line) < fields)?;
    let key = next.trim_start().split(':').next()?;
    message.contains(&format!("no `{key}`")).then(|| (at + 1, key.to_owned()))
}

/// A hint on a field that does not belong where it stands, below lines that are set in further.
pub(super) fn outdented(text: &str, line: usize, message: &str) -> Option<String> {
    let indent = |line: &str| line.len() - line.trim_start().len();
    let at = line.checked_sub(1)?;
    let field = text.lines().nth(at)?;
    let says = |line: &&str| !line.trim().is_empty() && !line.trim_start().starts_with('#');
    let above = text.lines().take(at).filter(says).last()?;
    let key = field.trim_start().split(':').next()?;
    let is_section = [field, above].iter().any(|line| line.trim_end().ends_with(':'));
    let is_name = key.chars().all(|it| it.is_ascii_alphanumeric() || it == '_');
    let is_stray = is_name && message.contains(&format!("has no field `{key}`")) && !is_section;
    (is_stray && indent(field) < indent(above)).then(|| {
        format!("if `{key}` belongs to the fields above it, line {line} is too far left: indent it like them")
    })
}

/// The line of the last bracket that nothing closes; comments and texts in quotes aside.
fn unclosed(text: &str) -> Option<usize> {
    let mut open = Vec::new();
    for (line, words) in text.lines().enumerate() {
        let mut quote = None;
        let mut before = ' ';
        for letter in words.chars() {
            match (quote, letter) {
                (Some(mark), _) if mark == letter => quote = None,
                (Some(_), _) => {}
                (None, '#') if before.is_whitespace() => break,
                (None, '"' | '\'') if matches!(before, ' ' | '[' | '{' | ',' | ':') => {
                    quote = Some(letter);
                }
                (None, '{' | '[') => open.push(line + 1),
                (None, '}' | ']') => drop(open.pop()),
                (None, _) => {}
            }
            before = letter;
        }
    }
    open.pop()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_comma_in_a_number_is_told_from_one_between_numbers() {
        let hint = |text: &str, value: &str| {
            let start = text.find(value).unwrap_or_default();
            decimal_comma(text, start..start + value.len())
        };
        let point = |number: &str| Some(format!("decimals take a point: `{number}`"));
        assert_eq!(hint("{off_rail: 2,5 in}", "2"), point("2.5 in"));
        assert_eq!(hint("{contact: 12,5, start: 4}", "5"), point("12.5"));
        assert_eq!(hint("[2,5 in, 3,5 in]", "2"), point("2.5 in"));
        assert_eq!(hint("[2,5 in]", "2"), None, "two values");
        assert_eq!(hint("{contact: 2, start: 4}", "2"), None);
    }

    #[test]
    fn slips_between_fields_are_told_by_what_to_write() {
        let at = |text: &str, value: &str| {
            let start = text.find(value).unwrap_or_default();
            start..start + value.len()
        };
        let lost = "a: {b: {c: 1}, d: 2 in\nstroke:\n";
        let hint = "a } is missing at the end of the line: write `2 in}`".to_owned();
        assert_eq!(run_on(lost, at(lost, "2 in")), Some(hint));
        let whole = "a: {b: {c: 1}, d: 2 in}\nstroke:\n";
        assert_eq!(run_on(whole, at(whole, "2 in")), None);
        let both = "{contact: 2; start: 4}";
        let hint = "a comma stands between fields: write `2, start: …`".to_owned();
        assert_eq!(semicolon(both, at(both, "2; start")), Some(hint));
        let note = "a note for people begins with #: write `# The ball lies …`".to_owned();
        assert_eq!(missing_colon("a: 1\nThe ball lies there\n", 9), Some((2, note)));
        let sign = "a colon is missing on line 1: write `b: 2 m`".to_owned();
        assert_eq!(missing_colon("b = 2 m\nc: 1\n", 9), Some((1, sign)));
    }

    #[test]
    fn a_colon_without_its_space_is_mended() {
        let hint = "a space is missing on line 2: write `length: 78 in`".to_owned();
        assert_eq!(missing_colon("table:\n  length:78 in\n", 3), Some((2, hint)));
    }

    #[test]
    fn a_field_without_its_colon_is_found_where_it_stands() {
        let found = |text: &str| missing_colon(text, 99);
        let told = |line: usize, field: &str| {
            Some((line, format!("a colon is missing on line {line}: write `{field}`")))
        };
        assert_eq!(found("just words\n"), None);
        assert_eq!(found("# a note\nstroke\n  speed: 4 m/s\n"), told(2, "stroke:"));
        assert_eq!(found("stroke:\n  speed 4 m/s # hard\n"), told(2, "speed: 4 m/s"));
        assert_eq!(found("about: a text\n  that goes on\nname: x\n"), None);
        assert_eq!(found("a: {b: 1,\n  c: 2}\nball_2: {x: 1}\n- one\n"), None);
        assert_eq!(missing_colon("a: 1\nb 2\n", 1), None, "below the fault");
    }

    #[test]
    fn a_bracket_is_open_until_its_partner_comes() {
        assert_eq!(unclosed("a: {b: 1, c: [2]}\n# {\nd: \"{\"\n"), None);
        assert_eq!(unclosed("a: {b: 1\nc: [2]\n"), Some(1));
    }
}
