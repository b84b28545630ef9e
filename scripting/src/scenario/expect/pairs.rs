//! Expectations about two selections, held against each other row by row.

use super::claims::{percent, share_of};
use super::open::add_claim;
use super::subject::{ExpectationSubject, Finding, SubjectKind, argument};
use crate::fault::Fault;
use crate::lua::place::{self, Placed};
use crate::scenario::results::{Misses, Results, pairs};
use mlua::{Lua, UserDataMethods, Value};
use std::fmt::Write as _;

/// Whether one miss is further the way that is expected than another.
type InOrder = fn(f64, f64) -> bool;

pub fn add_methods<M: UserDataMethods<ExpectationSubject>>(methods: &mut M) {
    let orders: [(&str, &str, InOrder); 2] = [
        ("longer_than", "longer", |one, other| one > other),
        ("shorter_than", "shorter", |one, other| one < other),
    ];
    for (call, word, in_order) in orders {
        add_claim(methods, call, move |lua, this, other: Value| {
            let other = argument(lua, call, 1, &other, SubjectKind)?;
            let (one, other) = (this.results(), other.results());
            let found = match pairs(one, other) {
                Some(pairs) => row_by_row(one, other, &pairs, word, in_order),
                None => on_the_mean(one, other, in_order),
            };
            this.record(lua, call, &format!("{word} than {}", other.subject()), found)
        });
    }
    add_claim(methods, "agrees_with", agrees_with);
}

fn row_by_row(
    one: &dyn Results,
    other: &dyn Results,
    pairs: &[(usize, usize)],
    word: &str,
    in_order: InOrder,
) -> Finding {
    // What never comes to the pocket passes no expectation about a miss.
    let passes = |(a, b): &(usize, usize)| matches!((one.miss_m(*a), other.miss_m(*b)), (Some(a), Some(b)) if in_order(a, b));
    let passing = pairs.iter().filter(|pair| passes(pair)).count();
    let mut words = format!("{passing} of {} pairs are {word}", pairs.len());
    let example = pairs.iter().find(|pair| !passes(pair)).or(pairs.first());
    if let Some(pair) = example {
        let which = if passing == pairs.len() { "the first" } else { "the first that is not" };
        let _ = write!(words, "; {which}{}", against(one, other, *pair));
    }
    Finding { held: !pairs.is_empty() && passing == pairs.len(), words }
}

/// A pair of rows in words, to go on with.
fn against(one: &dyn Results, other: &dyn Results, (a, b): (usize, usize)) -> String {
    let label = one.label(a);
    let named = if label.is_empty() { label } else { format!(", {label}") };
    let (one, other) = (one.sentence(a), other.sentence(b));
    format!("{named}: {}, against {}", one.trim_end_matches('.'), other.trim_end_matches('.'))
}

fn on_the_mean(one: &dyn Results, other: &dyn Results, in_order: InOrder) -> Finding {
    let (a, b) = (Misses::of(one), Misses::of(other));
    let without = a.without + b.without;
    if without > 0 {
        return Finding {
            held: false,
            words: format!(
                "{without} {}s never come to the mouth, so the means say nothing",
                one.noun()
            ),
        };
    }
    Finding {
        held: in_order(a.mean_m(), b.mean_m()),
        words: format!(
            "on average, since the two vary in different things: {} against {}",
            one.units().tenth(a.mean_m()),
            one.units().tenth(b.mean_m())
        ),
    }
}

fn agrees_with(
    lua: &Lua,
    this: &ExpectationSubject,
    (other, share): (Value, Value),
) -> mlua::Result<ExpectationSubject> {
    const CALL: &str = "agrees_with";
    let other = argument(lua, CALL, 1, &other, SubjectKind)?;
    let least = match share {
        Value::Nil => 1.0,
        given => share_of(lua, CALL, 2, &given)?,
    };
    let (one, other) = (this.results(), other.results());
    let Some(pairs) = pairs(one, other) else {
        let message =
            format!("the two vary in different things, so no {} has a partner", one.noun());
        return Err(Fault::bad_input(message)
            .with_hint("select with `where` until both vary in the same axes over the same values")
            .placed(place::argument(lua, CALL, 1))
            .into());
    };
    let agree = |(a, b): &(usize, usize)| one.outcome(*a) == other.outcome(*b);
    let agreeing = pairs.iter().filter(|pair| agree(pair)).count();
    let share = agreeing as f64 / pairs.len().max(1) as f64;
    let mut words = format!("{agreeing} of {} pairs agree: {}", pairs.len(), percent(share));
    if let Some(pair) = pairs.iter().find(|pair| !agree(pair)) {
        let _ = write!(words, "; the first that do not{}", against(one, other, *pair));
    }
    let expected = format!("at least {} agree with {}", percent(least), other.subject());
    this.record(lua, CALL, &expected, Finding { held: share >= least, words })
}
