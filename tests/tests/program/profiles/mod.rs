//! Equipment profiles and layouts: what ships, and what is refused, where and with what words.

mod faults;
mod hostile;
mod layouts;
mod partials;
mod shipped;

use railproof::fault::{Fault, Style};

/// The nine-foot profile with one stretch of its text replaced.
fn nine_foot_with(from: &str, to: &str) -> String {
    let text = railproof::profile::shipped_text("nine-foot").expect("nine-foot ships");
    assert_eq!(text.matches(from).count(), 1, "`{from}` must be in the profile once");
    text.replace(from, to)
}

/// Holds a fault to the place of the first `at` in the text, to words in its message, and to
/// words in its hint (none when empty).
fn assert_fault(fault: &Fault, text: &str, at: &str, message: &str, hint: &str) {
    let shown = fault.render(Style::PLAIN);
    let offset = text.find(at).unwrap_or_else(|| panic!("`{at}` is not in the text"));
    let before = &text[..offset];
    let line = 1 + before.matches('\n').count();
    let column = 1 + before.rsplit('\n').next().unwrap_or_default().chars().count();
    let place = fault.place.as_ref().unwrap_or_else(|| panic!("no place in {shown}"));
    assert_eq!(place.line_column(), (line, column), "{shown}");
    assert!(shown.contains(&format!(":{line}:{column}")), "{shown}");
    assert!(fault.message.contains(message), "`{message}` is not in:\n{shown}");
    let given = fault.hint.as_deref().unwrap_or_default();
    assert!(given.contains(hint), "`{hint}` is not in the hint of:\n{shown}");
    assert!(hint.is_empty() == given.is_empty(), "unexpected hint in:\n{shown}");
    assert!(!shown.contains('\u{1b}'), "colour codes in {shown}");
    assert_eq!(fault.exit.code(), 2);
}
