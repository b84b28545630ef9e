//! Words that stand in a scenario without their quotes, where quotes alone would not do.

use super::source::Source;
use super::tokens::TokenKind;
use crate::fields::{Writing, words};
use railproof_engine::units::SpeedWord;

/// The list of the words for speeds, as a scenario writes it.
pub fn speed_words() -> String {
    let words: Vec<String> =
        words::<SpeedWord>().iter().map(|word| Writing::Lua.word(word)).collect();
    format!("words for speeds stand in a list: {{ {} }}", words.join(", "))
}

/// A hint on the name that ends at a byte: a word for a speed in a span, or the first half of a word with a
/// dash.
pub fn hint(source: &Source, end: usize) -> Option<String> {
    let (all, text) = (source.tokens(), source.text());
    let at = all.iter().position(|token| token.end == end)?;
    let word = |at: usize| all.get(at).map_or("", |token| token.text(text));
    let speed = words::<SpeedWord>().contains(&word(at));
    if speed && at > 1 && (word(at - 2), word(at - 1)) == ("span", "(") {
        return Some(speed_words());
    }
    let [name, dash, other] = all.get(at..at + 3)? else { return None };
    let touching = name.end == dash.start && dash.end == other.start;
    let halves = word(at + 1) == "-" && other.kind == TokenKind::Name;
    // A name that the text uses elsewhere may be subtracted.
    let used = all.iter().filter(|token| token.is(text, word(at + 2))).count() > 1;
    let whole = &text[name.start..other.end];
    (touching && halves && !used).then(|| format!("text goes in quotes: \"{whole}\""))
}
