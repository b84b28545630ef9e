//! Words about a fault that anybody may be shown.

use railproof::exit::Exit;
use railproof::fault::{Fault, Style};

/// No message is longer, with its place in the file.
const LONGEST: usize = 8000;
/// Digits of a number that people are told, and of those that an input may hold itself.
const MOST_DIGITS: usize = 40;

/// Checks the words of a fault of an input: short, in letters that are seen, and blaming the input.
///
/// # Panics
/// Where it is otherwise.
pub(super) fn check_fault(fault: &Fault, input: &[u8]) {
    assert_ne!(fault.exit, Exit::Held, "{fault}");
    for text in [fault.to_string(), fault.render(Style::PLAIN)] {
        assert!(text.len() <= LONGEST, "{} bytes: {text}", text.len());
        let unseen = |letter: char| letter.is_control() && letter != '\n';
        assert!(!text.contains(unseen), "{text:?}");
        let own = longest_number(input);
        let told = longest_number(text.as_bytes());
        assert!(told <= own.max(MOST_DIGITS), "a number of {told} digits: {text}");
    }
}

fn longest_number(text: &[u8]) -> usize {
    text.split(|byte| !byte.is_ascii_digit()).map(<[u8]>::len).max().unwrap_or(0)
}
