//! A layout's text in which some keys vary: each has a plain value in the text, and other values are put
//! in its place.

use crate::fault::{Fault, Place};
use crate::yaml::InputText;
use std::ops::Range;

/// A text, and where the values of the keys stand in it.
#[derive(Debug, Clone)]
pub(crate) struct VariedLayout {
    source: InputText,
    /// The stretch of each key's value, in the order of the keys.
    places: Vec<Range<usize>>,
    /// The keys by their places in the text.
    order: Vec<usize>,
}

impl VariedLayout {
    /// Finds the keys, each told by the keys that lead to it and dots between them.
    ///
    /// # Errors
    /// A key that is not there, has no plain value, or stands twice; with its place among the keys.
    pub(crate) fn new<'k>(
        source: InputText,
        keys: impl Iterator<Item = &'k str>,
    ) -> Result<Self, (Option<usize>, Fault)> {
        let mut places: Vec<Range<usize>> = Vec::new();
        for (at, key) in keys.enumerate() {
            let place = value_at(&source, key).map_err(|fault| (Some(at), fault))?;
            if places.contains(&place) {
                let fault =
                    Fault::bad_input(format!("`{key}` stands for a key that varies already"));
                return Err((Some(at), fault));
            }
            places.push(place);
        }
        let mut order: Vec<usize> = (0..places.len()).collect();
        order.sort_by_key(|at| places[*at].start);
        Ok(Self { source, places, order })
    }

    /// The text with these values, in the order of the keys.
    pub(crate) fn with(&self, values: &[String]) -> InputText {
        let text = &self.source.text;
        let mut out = String::with_capacity(text.len() + 64);
        let mut from = 0;
        for at in &self.order {
            out.push_str(&text[from..self.places[*at].start]);
            out.push_str(values.get(*at).map_or("", String::as_str));
            from = self.places[*at].end;
        }
        out.push_str(&text[from..]);
        InputText { label: self.source.label.clone(), text: out.into() }
    }

    /// The value of a key as it was written.
    pub(crate) fn written(&self, at: usize) -> &str {
        &self.source.text[self.places[at].clone()]
    }

    /// The text with another value of one key.
    pub(crate) fn with_one(&self, at: usize, value: String) -> InputText {
        let written = |at| self.written(at).to_owned();
        let mut values: Vec<String> = (0..self.places.len()).map(written).collect();
        values[at] = value;
        self.with(&values)
    }

    /// The text as it was written.
    pub(crate) const fn source(&self) -> &InputText {
        &self.source
    }
}

/// The stretch of the plain value of a key; `x` and `y` after a key stand for the two parts of its value.
fn value_at(source: &InputText, key: &str) -> Result<Range<usize>, Fault> {
    let path: Vec<&str> = key.split('.').collect();
    let text = &*source.text;
    if let Some(place) = key_at(source, &path) {
        let after = after_colon(text, place.span().end);
        return plain(text, after).ok_or_else(|| {
            Fault::bad_input(format!("`{key}` has no plain value to be put in its place")).at(place)
        });
    }
    let part = match path.last().copied() {
        Some("x") => Some(0),
        Some("y") => Some(1),
        _ => None,
    };
    if let (Some(part), Some(place)) = (part, key_at(source, &path[..path.len() - 1])) {
        let open = after_colon(text, place.span().end);
        if text[open..].starts_with('[') {
            let comma = || text[open..].find(',').map(|comma| open + comma + 1);
            let from = if part == 0 { Some(open + 1) } else { comma() };
            if let Some(found) = from.and_then(|from| plain(text, past_blanks(text, from))) {
                return Ok(found);
            }
        }
    }
    Err(Fault::bad_input(format!("the layout has no key `{key}`"))
        .at(source.beginning())
        .with_hint("write it in the layout with a value first, even if that is its default, such as `speed: 3 m/s` \
            in `stroke`"))
}

/// The place of a key. A text that stops being keys on the way there is no place of one.
fn key_at(source: &InputText, path: &[&str]) -> Option<Place> {
    let place = source.find(path)?;
    let word = source.text[place.span()].trim_matches(['"', '\'']);
    (Some(word) == path.last().copied()).then_some(place)
}

fn past_blanks(text: &str, from: usize) -> usize {
    from + text[from..].bytes().take_while(|byte| matches!(byte, b' ' | b'\t')).count()
}

/// The first letter of the value after a key.
fn after_colon(text: &str, key_end: usize) -> usize {
    let colon = past_blanks(text, key_end);
    let after = if text[colon..].starts_with(':') { colon + 1 } else { colon };
    past_blanks(text, after)
}

/// The stretch of a value that is one word, number or quantity.
/// Behind an anchor (`&name`) it is the value of every alias (`*name`) too.
fn plain(text: &str, from: usize) -> Option<Range<usize>> {
    let anchor = text[from..].starts_with('&');
    let name = if anchor { text[from..].find([' ', '\n']).unwrap_or(0) } else { 0 };
    let from = past_blanks(text, from + name);
    let first = text[from..].chars().next()?;
    if matches!(first, '[' | '{' | '&' | '*' | '!' | '|' | '>' | '#' | '\n' | '\r') {
        return None;
    }
    let found = crate::yaml::extent(text, from);
    // A comma that does not end the value of a list would cut it short.
    let next = past_blanks(text, found.end);
    let ends = text[next..].chars().next();
    let ended = ends.is_none_or(|next| matches!(next, '\n' | '\r' | '#' | ',' | '}' | ']'));
    (ended && !found.is_empty()).then_some(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "balls:\n  cue: {position: [0.5 m, -2 in]}\n  object: {off_rail: 1 in, a: b}\n\
                        stroke:\n  speed: 4 m/s # firm\n  ball: 'cue'\n";

    fn varied(text: &str, keys: &[&str]) -> Result<VariedLayout, (Option<usize>, Fault)> {
        VariedLayout::new(InputText::new("l", text).expect("it is short"), keys.iter().copied())
    }

    fn with(keys: &[&str], values: &[&str]) -> String {
        let values: Vec<String> = values.iter().map(|value| (*value).to_owned()).collect();
        varied(TEXT, keys).expect("they are there").with(&values).text.to_string()
    }

    #[test]
    fn values_are_put_in_their_places_whatever_the_order_of_the_keys() {
        let keys = ["stroke.speed", "balls.object.off_rail", "balls.cue.position.y", "stroke.ball"];
        let text = with(&keys, &["3 m/s", "2 in", "7 cm", "\"white\""]);
        assert_eq!(
            text,
            "balls:\n  cue: {position: [0.5 m, 7 cm]}\n  object: {off_rail: 2 in, a: b}\n\
             stroke:\n  speed: 3 m/s # firm\n  ball: \"white\"\n"
        );
        assert!(with(&["balls.cue.position.x"], &["1 m"]).contains("[1 m, -2 in]"));
    }

    #[test]
    fn a_value_behind_an_anchor_varies_with_its_aliases() {
        let text = "a: {b: &shared 2, c: *shared}\n";
        let varied_one = varied(text, &["a.b"]).expect("it is there");
        assert_eq!(&*varied_one.with(&["3".to_owned()]).text, "a: {b: &shared 3, c: *shared}\n");
        assert!(varied(text, &["a.c"]).is_err());
    }

    #[test]
    fn keys_that_are_not_there_or_hold_more_are_refused() {
        let words = |key: &'static str| {
            let found = varied(TEXT, &[key]);
            found.expect_err("it is refused").1.message
        };
        assert_eq!(words("stroke.sped"), "the layout has no key `stroke.sped`");
        assert_eq!(words("stroke"), "`stroke` has no plain value to be put in its place");
        assert_eq!(
            words("balls.cue.position"),
            "`balls.cue.position` has no plain value to be put in its place"
        );
        let twice = varied(TEXT, &["stroke.speed", "stroke.speed"]);
        assert_eq!(twice.expect_err("it is refused").0, Some(1));
    }
}
