//! Expectations about two selections, held against each other bank by bank.

use super::verdicts::{percent, words};
use super::{Expected, Found, argument};
use crate::fault::Fault;
use crate::lua::options::{number, object, ranged};
use crate::lua::place::{self, Placed};
use crate::scenario::inputs::same;
use crate::scenario::map::Map;
use crate::scenario::picked::{Dimension, Picked};
use mlua::{Lua, Value};
use railproof_engine::sweep::Row;
use std::fmt::Write as _;

/// Rows of two selections that differ only in what was selected; nothing when the two do not vary
/// in the same things over the same values.
///
/// A thing varies when more than one of its values is kept. Each bank of the one is paired with the
/// bank of the other that has the same values of all that varies.
fn pairs(first: &Map, second: &Map) -> Option<Vec<(usize, usize)>> {
    let (a, b) = (&first.picked, &second.picked);
    let named = |picked: &Picked| -> Vec<&'static str> {
        let mut names: Vec<_> = picked.varying().iter().map(|what| picked.name_of(*what)).collect();
        names.sort_unstable();
        names
    };
    if named(a) != named(b) {
        return None;
    }
    let mut ordered = b.clone();
    for what in a.varying() {
        match what {
            Dimension::Rules => {
                let places: Option<Vec<usize>> = a
                    .kept_rules
                    .iter()
                    .map(|rule| {
                        let name = a.rules.get(*rule);
                        b.kept_rules.iter().copied().find(|other| b.rules.get(*other) == name)
                    })
                    .collect();
                ordered.kept_rules = places?;
                if ordered.kept_rules.len() != b.kept_rules.len() {
                    return None;
                }
            }
            Dimension::Axis(at) => {
                let input = a.text(at).input;
                let other = b.place_of(input)?;
                let places: Option<Vec<usize>> = a.kept[at]
                    .iter()
                    .map(|place| {
                        b.kept[other]
                            .iter()
                            .copied()
                            .find(|there| alike(a, at, *place, b, other, *there))
                    })
                    .collect();
                let places = places?;
                if places.len() != b.kept[other].len() {
                    return None;
                }
                ordered.kept[other] = places;
            }
        }
    }
    // Rows come in the order of the plan's axes, which may differ between two sweeps.
    let order = |picked: &Picked| -> Vec<&'static str> {
        picked.varying().iter().map(|what| picked.name_of(*what)).collect()
    };
    (order(a) == order(&ordered)).then(|| a.rows().into_iter().zip(ordered.rows()).collect())
}

fn alike(a: &Picked, at: usize, place: usize, b: &Picked, other: usize, there: usize) -> bool {
    let (one, two) = (&a.plan().axes()[at].values, &b.plan().axes()[other].values);
    match (one.number(place), two.number(there)) {
        (Some(x), Some(y)) => same(x, y),
        _ => one.word(place).is_some() && one.word(place) == two.word(there),
    }
}

fn row(map: &Map, at: usize) -> Option<&Row> {
    map.record.rows.get(at)
}

fn miss(map: &Map, at: usize) -> Option<f64> {
    row(map, at).and_then(|row| row.outcome.miss_m())
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn longer_than(lua: &Lua, this: &Expected, other: Value) -> mlua::Result<Expected> {
    further(lua, this, "longer_than", &other, "longer", |one, other| one > other)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn shorter_than(lua: &Lua, this: &Expected, other: Value) -> mlua::Result<Expected> {
    further(lua, this, "shorter_than", &other, "shorter", |one, other| one < other)
}

fn further(
    lua: &Lua,
    this: &Expected,
    call: &str,
    other: &Value,
    word: &str,
    in_order: fn(f64, f64) -> bool,
) -> mlua::Result<Expected> {
    let other = argument(lua, call, 1, other, object::<Map>("a map or a selection"))?;
    let found = match pairs(&this.0, &other) {
        Some(pairs) => bank_by_bank(&this.0, &other, &pairs, word, in_order),
        None => on_the_mean(&this.0, &other, in_order),
    };
    this.record(lua, call, &format!("{word} than {}", other.picked.subject()), found)
}

fn bank_by_bank(
    one: &Map,
    other: &Map,
    pairs: &[(usize, usize)],
    word: &str,
    in_order: fn(f64, f64) -> bool,
) -> Found {
    let passes = |(a, b): &(usize, usize)| matches!((miss(one, *a), miss(other, *b)), (Some(a), Some(b)) if in_order(a, b));
    let passing = pairs.iter().filter(|pair| passes(pair)).count();
    let mut text = format!("{passing} of {} pairs are {word}", pairs.len());
    let shown = |map: &Map, at: usize| row(map, at).map(words).unwrap_or_default();
    let example = pairs.iter().find(|pair| !passes(pair)).or(pairs.first());
    if let Some((a, b)) = example {
        let which = if passing == pairs.len() { "the first" } else { "the first that is not" };
        let _ = write!(
            text,
            "; {which}, {}: {}, against {}",
            one.picked.say_row(*a),
            shown(one, *a),
            shown(other, *b)
        );
    }
    Found { held: !pairs.is_empty() && passing == pairs.len(), words: text }
}

fn on_the_mean(one: &Map, other: &Map, in_order: fn(f64, f64) -> bool) -> Found {
    let (a, b) = (one.summary(), other.summary());
    let without = (a.count - a.with_miss) + (b.count - b.with_miss);
    if without > 0 {
        return Found {
            held: false,
            words: format!("{without} banks never come to the mouth, so the means say nothing"),
        };
    }
    Found {
        held: in_order(a.mean_miss_m, b.mean_miss_m),
        words: format!(
            "on the mean, since the two vary in other things: {:.1} mm against {:.1} mm",
            1e3 * a.mean_miss_m,
            1e3 * b.mean_miss_m
        ),
    }
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn agrees_with(
    lua: &Lua,
    this: &Expected,
    (other, share): (Value, Value),
) -> mlua::Result<Expected> {
    const CALL: &str = "agrees_with";
    let other = argument(lua, CALL, 1, &other, object::<Map>("a map or a selection"))?;
    let least = match share {
        Value::Nil => 1.0,
        given => argument(lua, CALL, 2, &given, ranged(number(), 0.0..=1.0, ""))?,
    };
    let Some(pairs) = pairs(&this.0, &other) else {
        return Err(Fault::bad_input("the two vary in different things, so no bank has a partner")
            .with_hint("select with `where` until both vary in the same axes over the same values")
            .placed(place::argument(lua, CALL, 1))
            .into());
    };
    let verdicts = |(a, b): &(usize, usize)| {
        let verdict = |map, at| row(map, at).map(|row| row.outcome.verdict());
        verdict(&this.0, *a) == verdict(&other, *b)
    };
    let agreeing = pairs.iter().filter(|pair| verdicts(pair)).count();
    let share = agreeing as f64 / pairs.len().max(1) as f64;
    let mut text = format!("{agreeing} of {} pairs agree: {}", pairs.len(), percent(share));
    if let Some((a, b)) = pairs.iter().find(|pair| !verdicts(pair)) {
        let shown = |map: &Map, at: usize| row(map, at).map(words).unwrap_or_default();
        let _ = write!(
            text,
            "; the first that do not, {}: {}, against {}",
            this.0.picked.say_row(*a),
            shown(&this.0, *a),
            shown(&other, *b)
        );
    }
    let found = Found { held: share >= least, words: text };
    let subject = other.picked.subject();
    this.record(lua, CALL, &format!("at least {} agree with {subject}", percent(least)), found)
}
