//! Expectations about misses: their size and sign, and their change along an axis.

use super::claims::all_rows;
use super::open::add_claim;
use super::steady::{Trend, steady, too_few};
use super::subject::{ExpectationSubject, Finding, argument};
use crate::fault::Fault;
use crate::lua::options::{quantity, text};
use crate::lua::place::{self, Placed};
use crate::scenario::results::{Misses, lines};
use mlua::{Lua, UserDataMethods, Value};
use railproof_engine::units::Dimension;
use std::fmt::Write as _;

/// A bound of the miss: the method, the words for rows that keep it, the expectation, the test.
type Bound = (&'static str, &'static str, &'static str, fn(f64, f64) -> bool);

const BOUNDS: &[Bound] = &[
    ("misses_within", "are as near", "misses by at most", |miss, most| miss.abs() <= most),
    (
        "misses_long_by_at_least",
        "are as long",
        "is long of the middle by at least",
        |miss, least| miss >= least,
    ),
    (
        "misses_short_by_at_least",
        "are as short",
        "is short of the middle by at least",
        |miss, least| -miss >= least,
    ),
];

pub fn add_methods<M: UserDataMethods<ExpectationSubject>>(methods: &mut M) {
    for (call, many, one, passes) in BOUNDS {
        add_claim(methods, call, move |lua, this, bound: Value| {
            let (bound_m, shown) = length(lua, call, &bound)?;
            let results = this.results();
            // A row without a miss never came to the mouth: it can't pass.
            let kept = |row| results.miss_m(row).is_some_and(|miss| passes(miss, bound_m));
            let mut found = all_rows(results, many, kept);
            let misses = Misses::of(results);
            if let Some(worst_m) = misses.worst_m().filter(|_| results.rows().len() > 1) {
                let _ = write!(found.words, "; the worst is {}", results.units().tenth(worst_m));
            }
            this.record(lua, call, &format!("{one} {shown}"), found)
        });
    }
    add_claim(methods, "spread_within", |lua, this, most: Value| {
        const CALL: &str = "spread_within";
        let (most_m, shown) = length(lua, CALL, &most)?;
        let results = this.results();
        let misses = Misses::of(results);
        let found = match misses.spread_m() {
            Some(spread_m) if misses.without == 0 => Finding {
                held: spread_m <= most_m,
                words: format!(
                    "largest minus smallest miss is {}",
                    results.units().tenth(spread_m)
                ),
            },
            _ => Finding {
                held: false,
                words: format!(
                    "{} of {} {}s never come to the mouth",
                    misses.without,
                    results.rows().len(),
                    results.noun()
                ),
            },
        };
        this.record(lua, CALL, &format!("misses lie within {shown} of each other"), found)
    });
    for (call, way) in [("miss_falls_along", Trend::FALLS), ("miss_rises_along", Trend::RISES)] {
        add_claim(methods, call, move |lua, this, axis: Value| along(lua, this, call, &axis, way));
    }
}

/// Whether the signed miss changes one way from each value of the axis to the next greater one, for
/// every value of everything else.
fn along(
    lua: &Lua,
    this: &ExpectationSubject,
    call: &str,
    axis: &Value,
    way: Trend,
) -> mlua::Result<ExpectationSubject> {
    let name = argument(lua, call, 1, axis, text())?;
    let at_argument = || place::argument(lua, call, 1);
    let results = this.results();
    let at = results.axis(&name).map_err(|(message, hint)| {
        Fault::bad_input(message).with_hint(hint).placed(at_argument())
    })?;
    let Some(lines) = lines(results, at) else {
        let kept = results.axes()[at].values.len();
        return Err(Fault::bad_input(too_few(&name, kept)).placed(at_argument()).into());
    };
    let found =
        steady(&lines, way, results.units(), |row| results.miss_m(row), |row| results.label(row));
    this.record(lua, call, &format!("the miss {} along {name}", way.verb), found)
}

/// A length as an argument, m.
fn length(lua: &Lua, call: &str, value: &Value) -> Result<(f64, String), Fault> {
    let kind = quantity(Dimension::Length);
    let metres = argument(lua, call, 1, value, kind)?;
    if metres < 0.0 {
        return Err(Fault::bad_input(format!("what {call} takes must not be negative"))
            .placed(place::argument(lua, call, 1)));
    }
    let shown = crate::lua::quantity::of_value(value).map_or_else(String::new, |q| q.to_string());
    Ok((metres, shown))
}
