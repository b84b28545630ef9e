//! Numbers in a message with so many digits as say something.

use railproof_engine::units::plain;

/// More digits say nothing: a number has seventeen.
const MOST_DIGITS: usize = 25;

/// The text with its long numbers as people write them.
pub(super) fn shortened(text: String) -> String {
    let is_part = |letter: char| letter.is_ascii_digit() || letter == '.';
    let is_long = |run: &str| run.bytes().filter(u8::is_ascii_digit).count() > MOST_DIGITS;
    if !text.split(|letter| !is_part(letter)).any(is_long) {
        return text;
    }
    let mut out = String::with_capacity(text.len());
    let mut rest = text.as_str();
    while let Some(from) = rest.find(is_part) {
        let length = rest[from..].find(|letter| !is_part(letter)).unwrap_or(rest.len() - from);
        let (before, run) = (&rest[..from], &rest[from..from + length]);
        out += before;
        // A full stop behind a number is none of its own.
        let digits = run.trim_end_matches('.');
        match digits.parse::<f64>().ok().filter(|it| it.is_finite() && is_long(digits)) {
            Some(number) => out = out + &plain(number) + &run[digits.len()..],
            None => out += run,
        }
        rest = &rest[from + length..];
    }
    out + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_numbers_alone_are_written_short() {
        let told = |text: &str| shortened(text.to_owned());
        assert_eq!(told(&format!("at {} m.", 1e300)), "at 1e300 m.");
        assert_eq!(told(&format!("{}, {:?}", 5.9e-157, -1e300)), "5.9e-157, -1e300");
        assert_eq!(told(&format!("at {:.40}.", 0.1)), "at 0.1.");
        for kept in ["3.25 of 12 ... 1.2.3", "1234567890123456789012345", "a.b. é 0.1"] {
            assert_eq!(told(kept), kept);
        }
    }
}
