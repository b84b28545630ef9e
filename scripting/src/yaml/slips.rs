//! The slip of the finger behind text that is no YAML.

/// A hint for the YAML reader's own message about a text.
pub(super) fn hint(text: &str, message: &str) -> Option<String> {
    if !message.contains("not valid YAML") && !message.contains("ends too early") {
        return message.contains(CURLY).then(|| STRAIGHT.to_owned());
    }
    if message.contains("quoted scalar") {
        return Some("a text in quotes has no closing quote".to_owned());
    }
    if let Some(line) = unclosed(text) {
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
        "a field is a name, a colon, a space and its value, set in like the others".to_owned()
    })
}

const CURLY: [char; 4] = ['“', '”', '‘', '’'];
const STRAIGHT: &str = "curly quotes are no quotes here: write straight ones, or none";

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
    fn a_bracket_is_open_until_its_partner_comes() {
        assert_eq!(unclosed("a: {b: 1, c: [2]}\n# {\nd: \"{\"\n"), None);
        assert_eq!(unclosed("a: {b: 1\nc: [2]\n"), Some(1));
    }
}
