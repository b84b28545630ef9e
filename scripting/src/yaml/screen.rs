//! Texts refused before the YAML reader sees them.

use super::InputText;
use crate::fault::Fault;

/// The YAML reader's time grows with the square of the depth of open brackets, so their number is
/// bounded; no layout needs nearly as many.
const MOST_BRACKETS: usize = 10_000;

/// Refuses blank text, characters that YAML does not allow, and text made of brackets.
pub(super) fn screen(source: &InputText) -> Result<(), Fault> {
    if source.is_blank() {
        return Err(Fault::bad_input("the file is empty").at(source.place(0..0)));
    }
    let mut brackets = 0;
    for (at, letter) in source.text.char_indices() {
        if !is_allowed(letter) {
            let fault = Fault::bad_input(format!(
                "the character U+{:04X} does not belong in a text file",
                u32::from(letter)
            ));
            return Err(fault.at(source.place(at..at + letter.len_utf8())));
        }
        if matches!(letter, '[' | '{') {
            brackets += 1;
            if brackets > MOST_BRACKETS {
                let fault =
                    Fault::bad_input(format!("there are more than {MOST_BRACKETS} brackets"));
                return Err(fault.at(source.place(at..at + 1)));
            }
        }
    }
    Ok(())
}

/// The printable characters of YAML 1.1, section 5.1.
fn is_allowed(letter: char) -> bool {
    matches!(letter,
        '\t' | '\n' | '\r' | '\u{20}'..='\u{7e}' | '\u{85}' | '\u{a0}'..='\u{d7ff}'
        | '\u{e000}'..='\u{fefe}' | '\u{ff00}'..='\u{fffd}' | '\u{10000}'..='\u{10ffff}')
}
