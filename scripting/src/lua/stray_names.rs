//! Names that nothing is called by, where another name of the scenario is most likely meant: a name that was
//! changed in one place and not in the other.

use super::name_use::NameUse;
use super::own_names::{OwnName, reads};
use super::source::Source;
use super::tokens::TokenKind;
use crate::fault::nearest;

/// A global that is there before the scenario's first line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KnownName {
    /// Its name.
    pub name: String,
    /// Whether it is a function.
    pub function: bool,
}

/// Words beside which a name is asked for its truth alone: it may well be missing on purpose.
const BESIDE_A_TRUTH: [&str; 9] =
    ["if", "elseif", "while", "until", "not", "and", "or", "then", "do"];

/// The name of the scenario's own that a name without a value most likely stands for.
pub(super) fn meant<'a>(
    source: &Source,
    own: &[OwnName<'a>],
    known: &[KnownName],
    at: usize,
) -> Option<OwnName<'a>> {
    let next = source.tokens().get(at + 1);
    let next_is = |symbols: &[&str]| {
        next.is_some_and(|next| symbols.iter().any(|symbol| next.is(source.text(), symbol)))
    };
    let word = |at: Option<usize>| {
        at.and_then(|at| source.tokens().get(at)).map_or("", |it| it.text(source.text()))
    };
    if [at.checked_sub(1), Some(at + 1)].iter().any(|at| BESIDE_A_TRUTH.contains(&word(*at))) {
        return None;
    }
    let called = next_is(&["(", "{"]) || next.is_some_and(|next| next.kind == TokenKind::Text);
    let name = source.tokens()[at].text(source.text());
    let use_of = NameUse::of(source, source.tokens()[at].end).unwrap_or(NameUse::Other);
    let line = source.line_of(source.tokens()[at].start);
    let above = own.iter().filter(|own| own.outermost && own.line < line && own.function == called);
    let near = |unread: bool| {
        let names = above.clone().filter(|own| !(unread && own.read)).map(|own| own.name);
        let name = nearest(name, names)?;
        above.clone().find(|own| own.name == name).copied()
    };
    let alike = || above.clone().filter(|it| is_alike(use_of, it, own));
    let lonely = only(alike().filter(|own| !own.read));
    if let Some(known) = known.iter().find(|known| known.name == name) {
        // A function of the program's that is not called is no value to play with.
        let as_value = known.function && !called && !next_is(&[".", ":"]);
        return near(true).filter(|_| as_value);
    }
    let of_program = (called || next_is(&["."]))
        && nearest(name, known.iter().map(|known| known.name.as_str())).is_some();
    if of_program {
        return near(true);
    }
    let whole = || match use_of {
        NameUse::Equipment | NameUse::Banks | NameUse::Rule => only(alike()),
        NameUse::Asked
            if name == USUAL_MAP || is_drawn(source, name) || is_claimed_of(source, name) =>
        {
            only(above.clone().filter(|own| own.maker == "compare"))
        }
        _ => None,
    };
    near(true).or(lonely).or_else(|| near(false)).or_else(whole)
}

/// What the starter and the guide call a whole map.
const USUAL_MAP: &str = "map";

/// Whether a map's picture is asked of the name, which only a part of a map seldom is.
fn is_drawn(source: &Source, name: &str) -> bool {
    let word = |at: usize| source.tokens().get(at).map_or("", |token| token.text(source.text()));
    let reads = reads(source);
    let mut places = reads.get(name).into_iter().flatten();
    places.any(|at| (word(at + 1), word(at + 2)) == (":", "draw"))
}

/// Words of which one stands in the name of a part of a map: `frozen`, `ten_inches`, `soft_ones`.
const OF_A_PART: [&str; 34] = [
    "frozen", "off", "inch", "feet", "foot", "cm", "near", "far", "close", "soft", "medium",
    "firm", "slow", "fast", "hard", "speed", "stun", "roll", "draw", "side", "running", "reverse",
    "contact", "long", "short", "part", "some", "one", "two", "three", "four", "five", "six",
    "ten",
];

/// Whether a claim of the name's banks is all that is asked of it, once, and the name says no part of a map. A part
/// that a line had chosen is read more often, or says which it is.
fn is_claimed_of(source: &Source, name: &str) -> bool {
    let word = |at: usize| source.tokens().get(at).map_or("", |token| token.text(source.text()));
    let reads = reads(source);
    let [at] = reads.get(name).map_or(&[][..], Vec::as_slice) else { return false };
    let claimed = *at > 1
        && (word(at - 2), word(at - 1), word(at + 1), word(at + 2))
            == ("expect", "(", ":", "where");
    let lower = name.to_lowercase();
    let says_a_part = OF_A_PART.iter().any(|it| lower.contains(it))
        || lower.contains(|letter: char| letter.is_ascii_digit());
    claimed && !says_a_part
}

fn only<'a, 'b: 'a>(mut names: impl Iterator<Item = &'a OwnName<'b>>) -> Option<OwnName<'b>> {
    names.next().filter(|_| names.next().is_none()).copied()
}

/// Whether a value can only be what the name is used as.
fn is_alike(use_of: NameUse, value: &OwnName<'_>, own: &[OwnName<'_>]) -> bool {
    // A part of a map begins with the map's name.
    let whole = own.iter().find(|it| it.name == value.maker).map_or(value.maker, |it| it.maker);
    match use_of {
        NameUse::Called => value.function,
        use_of => use_of.makers().contains(&whole),
    }
}
