//! Amounts written as on paper, which Lua does not read: a unit behind its number, a fraction, a range, a
//! decimal comma.

use super::source::Source;
use super::tokens::TokenKind;
use crate::fault::{Fault, Place};
use crate::fields::{CONSTRUCTORS, Writing, everyday_unit, plain_shown};
use railproof_engine::units::{leading_number, unit_symbol};

/// The fault behind a complaint about the grammar at a line, where an amount on it is the reason.
pub fn told(source: &Source, line: usize) -> Option<Fault> {
    let (start, end) = source.line_range(line);
    let on_line = || source.tokens().iter().filter(|it| it.start >= start && it.start < end);
    let end = on_line().next_back()?.end.min(end);
    on_line().filter(|it| it.kind == TokenKind::Number).find_map(|number| {
        let text = &source.text()[number.start..end.max(number.end)];
        let before = &source.text()[start..number.start];
        let (message, written, length) = slip(before, text)?;
        let mut fault = Fault::bad_input(message).with_hint(format!("write {written}"));
        fault.place = Some(source.place(number.start, number.start + length));
        Some(fault)
    })
}

/// The slip in a text that begins with a number: what it is, the amount as it is written, and how many
/// bytes of it are wrong.
fn slip(before: &str, text: &str) -> Option<(&'static str, String, usize)> {
    let (amount, rest) = leading_number(text)?;
    let length = text.len() - rest.len();
    if let Some((last, rest)) = rest.strip_prefix("to ").and_then(leading_number) {
        let (unit, _) = unit(rest).unwrap_or_default();
        let step = if (last - amount).abs() > 5.0 { 1.0 } else { 0.25 };
        let step = if last < amount { -step } else { step };
        let [first, last, step] = [amount, last, step].map(|it| Writing::Lua.quantity(it, unit));
        let length = text.len() - rest.len();
        return Some((
            "a range is written as a span: first, last and step",
            format!("span({first}, {last}, {step})"),
            text[..length].trim_end().len(),
        ));
    }
    if rest.trim_end_matches([')', ',', '}', ' ']) == "%" {
        let length = length + 1;
        return Some(("a share is written as a decimal", plain_shown(amount / 100.0), length));
    }
    if let Some((unit, spelt)) = unit(rest) {
        let written = Writing::Lua.quantity(amount, unit);
        return Some((
            "in a scenario a number's unit comes before it",
            written,
            length + spelt.len(),
        ));
    }
    if let Some(name) = constructor_before(before) {
        let written = format!("{name}({})", plain_shown(amount));
        return Some((
            "a unit's number stands in brackets",
            written,
            text[..length].trim_end().len(),
        ));
    }
    // Lua divides where one number alone is written as a fraction.
    let digits = text.find(|letter: char| !(letter.is_ascii_digit() || letter == '.'))?;
    // Of a number with two points the second is none of its own.
    let part = text.get(digits..length)?.trim();
    if part.is_empty() || part.starts_with('/') {
        return None;
    }
    let call = before.trim_end().strip_suffix('(').map(|before| {
        let name = |letter: char| letter.is_ascii_alphanumeric() || letter == '_';
        before.rsplit(|letter| !name(letter)).next().unwrap_or_default()
    });
    let written = match call {
        Some(call) if rest.starts_with(')') => format!("{call}({})", plain_shown(amount)),
        _ => plain_shown(amount),
    };
    Some(("a part of a whole is written as a decimal", written, text[..length].trim_end().len()))
}

/// The unit's name at the end of a text, with no bracket behind it.
fn constructor_before(text: &str) -> Option<&'static str> {
    let text = text.trim_end();
    let name = |letter: char| letter.is_ascii_alphanumeric() || letter == '_';
    let last = text.rsplit(|letter| !name(letter)).next()?;
    CONSTRUCTORS.into_iter().map(|(name, _)| name).find(|name| *name == last)
}

/// The unit that a text begins with: its symbol and its spelling.
fn unit(text: &str) -> Option<(&'static str, &str)> {
    let spelt = match text.chars().next()? {
        '"' | '\'' => &text[..1],
        _ => text.split([',', ';', ')', '}']).next()?.trim_end(),
    };
    let symbol = unit_symbol(spelt);
    if matches!(symbol, "lengths" | "length") {
        return Some(("lengths", spelt));
    }
    everyday_unit(spelt).map(|known| (known, spelt))
}

/// A hint on a whole number that stands where a name belongs: most likely the part behind a decimal comma.
pub fn value_without_name(place: &Place) -> Option<String> {
    let part = &place.source()[place.span()];
    let before = place.source()[..place.span().start].trim_end().strip_suffix(',')?.trim_end();
    let line = place.source()[..place.span().start].rsplit('\n').next()?;
    if let Some((name, first)) = line.rsplit_once('=').filter(|_| line.ends_with(", ")) {
        // Behind a name and a space several values are meant.
        let name = name.rsplit(|letter: char| !(letter.is_alphanumeric() || letter == '_'));
        let name = name.into_iter().find(|word| !word.is_empty())?;
        let end = place.source()[place.span().start..].split('\n').next()?;
        let rest = end.split("--").next()?.split('}').next()?.trim_end_matches([' ', ',']);
        return Some(format!(
            "several values stand in braces: {name} = {{ {}{rest} }}",
            first.trim_start()
        ));
    }
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let whole = before.rsplit(|letter: char| !letter.is_ascii_alphanumeric()).next()?;
    (digits(part) && digits(whole)).then(|| format!("decimals take a point: {whole}.{part}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn written(line: &str) -> (String, String) {
        let source = Source::new("a.lua", format!("grid {{\n  {line} -- in the hall\n}}\n"));
        let fault = told(&source, 2).expect("a slip");
        let place = fault.place.expect("a place");
        (place.source()[place.span()].to_owned(), fault.hint.unwrap_or_default())
    }

    #[test]
    fn a_number_with_two_points_is_no_amount() {
        let source = Source::new("a.lua", "slope = 6.607.76e8e160, 3".to_owned());
        assert!(told(&source, 1).is_none());
    }

    #[test]
    fn an_amount_on_paper_is_told_as_lua_writes_it() {
        for (line, wrong, right) in [
            ("off_rail = { 0, 6\", 12\" },", "6\"", "inches(6)"),
            ("off_rail = 5 in,", "5 in", "inches(5)"),
            ("off_rail = 5in,", "5in", "inches(5)"),
            ("off_rail = { 10 1/2 inches },", "10 1/2 inches", "inches(10.5)"),
            ("off_rail = inches(10 1/2),", "10 1/2", "inches(10.5)"),
            ("off_rail = inches(10½),", "10½", "inches(10.5)"),
            ("off_rail = inches 10,", "10", "inches(10)"),
            ("off_rail = { inches 0, inches(5) },", "0", "inches(0)"),
            ("contact = 1 1/2,", "1 1/2", "1.5"),
            ("contact = 1 to 3,", "1 to 3", "span(1, 3, 0.25)"),
            ("contact = 3 to 1,", "3 to 1", "span(3, 1, -0.25)"),
            ("off_rail = 0 to 10 in,", "0 to 10", "span(inches(0), inches(10), inches(1))"),
            ("speed = 3 m/s,", "3 m/s", "mps(3)"),
            ("speed = 2 lengths", "2 lengths", "lengths(2)"),
            ("ball_mass = 6 oz", "6 oz", "quantity \"6 oz\""),
        ] {
            assert_eq!(written(line), (wrong.to_owned(), format!("write {right}")), "{line}");
        }
    }

    #[test]
    fn an_amount_that_lua_reads_is_no_slip() {
        for line in
            ["off_rail = inches(1/2),", "contact = { 1, 2 },", "x = 1 + 2 * 3", "y = 2 or 3"]
        {
            let source = Source::new("a.lua", line);
            assert!(told(&source, 1).is_none(), "{line}");
        }
    }
}
