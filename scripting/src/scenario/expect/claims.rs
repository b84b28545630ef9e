//! Expectations about outcomes: which words a row's outcome may be for a claim to be true of it.

use super::open::add_claim;
use super::subject::{ExpectationSubject, Finding, argument};
use crate::fault::Fault;
use crate::lua::options::{choice, number, ranged};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::shown;
use crate::scenario::results::Results;
use crate::scenario::session::fault_here;
use mlua::{Lua, UserDataMethods, Value};

/// A share in percent, as people read it.
pub fn percent(share: f64) -> String {
    format!("{} %", shown((1e4 * share).round() / 100.0))
}

/// The claims on a row.
#[derive(Clone, Copy)]
struct Claim {
    /// The method that says it, and its arguments.
    call: &'static str,
    word: Option<&'static str>,
    /// As in `it holds`, and as in `they hold`.
    one: &'static str,
    many: &'static str,
    /// The outcomes of which it is true.
    outcomes: &'static [&'static str],
}

const fn claim(
    call: &'static str,
    word: Option<&'static str>,
    (one, many): (&'static str, &'static str),
    outcomes: &'static [&'static str],
) -> Claim {
    Claim { call, word, one, many, outcomes }
}

/// The general claims on a row, of which shares are counted.
const SUCCESSES: &[&str] = &["holds", "drops"];

const CLAIMS: &[Claim] = &[
    claim("holds", None, ("holds", "hold"), &["holds"]),
    claim("drops", None, ("drops", "drop"), &["dropped-clean", "dropped-off-a-jaw"]),
    claim(
        "misses",
        None,
        ("misses", "miss"),
        &["long", "short", "missed-long", "missed-short", "missed-left", "missed-right"],
    ),
    claim("goes", Some("long"), ("goes long", "go long"), &["long", "missed-long"]),
    claim("goes", Some("short"), ("goes short", "go short"), &["short", "missed-short"]),
    claim("goes", Some("left"), ("goes left", "go left"), &["missed-left"]),
    claim("goes", Some("right"), ("goes right", "go right"), &["missed-right"]),
    claim(
        "stops",
        Some("before-rail"),
        ("stops before the rail", "stop before the rail"),
        &["stopped-before-rail"],
    ),
    claim(
        "stops",
        Some("before-mouth"),
        ("stops before the mouth", "stop before the mouth"),
        &["stopped-before-mouth"],
    ),
    claim(
        "touches",
        None,
        ("touches a point of the mouth", "touch a point"),
        &["touches-long-point", "touches-short-point"],
    ),
    claim("rattles_out", None, ("rattles out", "rattle out"), &["rattled-out"]),
    claim("scratches", None, ("scratches", "scratch"), &["scratched"]),
];

impl Claim {
    fn is_of(&self, results: &dyn Results) -> bool {
        self.outcomes.iter().any(|outcome| results.outcomes().contains(outcome))
    }

    fn is_true(&self, results: &dyn Results, row: usize) -> bool {
        self.outcomes.contains(&results.outcome(row))
    }
}

/// A method for each claim, and those that count shares.
pub fn add_methods<M: UserDataMethods<ExpectationSubject>>(methods: &mut M) {
    let mut calls: Vec<&'static str> = CLAIMS.iter().map(|claim| claim.call).collect();
    calls.dedup();
    for call in calls {
        add_claim(methods, call, move |lua, this, word: Value| {
            let (results, claim) = (this.results(), claimed(lua, this.results(), call, &word)?);
            let found = all_rows(results, claim.many, |row| claim.is_true(results, row));
            this.record(lua, call, claim.one, found)
        });
    }
    for (call, kissed, one, many) in
        [("kisses", true, "kisses", "kiss"), ("clears", false, "never kisses", "clear")]
    {
        add_claim(methods, call, move |lua, this, ()| {
            let results = this.results();
            if !results.sees_kisses() {
                return Err(unclaimed(lua, results, call).into());
            }
            let found = all_rows(results, many, |row| results.kissed(row) == Some(kissed));
            this.record(lua, call, one, found)
        });
    }
    for (call, bound, least) in
        [("share_at_least", "at least", true), ("share_at_most", "at most", false)]
    {
        add_claim(methods, call, move |lua, this, share: Value| {
            let asked = share_of(lua, call, 1, &share)?;
            let (found, many, words) = success(this.results());
            let held = if least { found >= asked } else { found <= asked };
            let expected = format!("{bound} {} {many}", percent(asked));
            this.record(lua, call, &expected, Finding { held, words })
        });
    }
    add_claim(methods, "share_within", |lua, this, (low, high): (Value, Value)| {
        const CALL: &str = "share_within";
        let (least, most) = (share_of(lua, CALL, 1, &low)?, share_of(lua, CALL, 2, &high)?);
        if least > most {
            return Err(Fault::bad_input(format!("`{CALL}` takes the lower bound first"))
                .placed(place::argument(lua, CALL, 1))
                .into());
        }
        let (found, many, words) = success(this.results());
        let expected = format!("from {} to {} {many}", percent(least), percent(most));
        this.record(lua, CALL, &expected, Finding { held: (least..=most).contains(&found), words })
    });
}

/// The claim that a call makes of these results.
fn claimed(lua: &Lua, results: &dyn Results, call: &str, word: &Value) -> Result<Claim, Fault> {
    let claims = CLAIMS.iter().filter(|claim| claim.call == call && claim.is_of(results)).copied();
    let words: Vec<(&'static str, Claim)> =
        claims.clone().filter_map(|claim| Some((claim.word?, claim))).collect();
    if !words.is_empty() {
        return argument(lua, call, 1, word, choice(&words));
    }
    let claim = claims.into_iter().next().ok_or_else(|| unclaimed(lua, results, call))?;
    if word.is_nil() {
        return Ok(claim);
    }
    let fault = Fault::bad_input(format!("`{call}` takes nothing in its brackets"))
        .placed(place::argument(lua, call, 1));
    Err(if call == "misses" { fault.with_hint("write `goes` to say which way") } else { fault })
}

/// A claim that can't be made of such rows.
fn unclaimed(lua: &Lua, results: &dyn Results, call: &str) -> Fault {
    let mut known: Vec<&str> =
        CLAIMS.iter().filter(|claim| claim.is_of(results)).map(|claim| claim.call).collect();
    known.dedup();
    fault_here(lua, call, format!("`{call}` is never true of a {}", results.noun()))
        .with_hint(format!("of a {} you may say: {}", results.noun(), known.join(", ")))
}

/// Whether every row passes; the words count them and name the first that does not.
pub fn all_rows(results: &dyn Results, many: &str, passes: impl Fn(usize) -> bool) -> Finding {
    let rows = results.rows();
    let passing = rows.iter().filter(|row| passes(**row)).count();
    let first_other = rows.iter().find(|row| !passes(**row));
    let named = |row: usize| match results.label(row) {
        label if label.is_empty() => results.sentence(row),
        label => format!("{label}: {}", results.sentence(row)),
    };
    let words = match (rows.as_slice(), first_other) {
        ([only], None) => results.sentence(*only),
        ([only], Some(_)) => named(*only),
        (_, None) => format!("{passing} of {} {many}", rows.len()),
        (_, Some(row)) => {
            format!("{passing} of {} {many}; the first that does not, {}", rows.len(), named(*row))
        }
    };
    Finding { held: !rows.is_empty() && passing == rows.len(), words }
}

/// A share as an argument.
pub fn share_of(lua: &Lua, call: &str, place: usize, value: &Value) -> Result<f64, Fault> {
    let kind = ranged(number(), 0.0..=1.0, "");
    argument(lua, call, place, value, kind).map_err(|fault| match fault.hint {
        None => fault.with_hint("a share is from 0 to 1: 0.9 is nine in ten"),
        Some(_) => fault,
    })
}

/// The share of rows that come out as is wanted in general, the verb for it, and both in words.
fn success(results: &dyn Results) -> (f64, &'static str, String) {
    let mut successes = CLAIMS.iter().filter(|claim| SUCCESSES.contains(&claim.call));
    let Some(claim) = successes.find(|claim| claim.is_of(results)) else {
        return (0.0, "", String::new());
    };
    let rows = results.rows();
    let count = rows.iter().filter(|row| claim.is_true(results, **row)).count();
    let share = if rows.is_empty() { 0.0 } else { count as f64 / rows.len() as f64 };
    let words = format!("{count} of {} {}: {}", rows.len(), claim.many, percent(share));
    (share, claim.many, words)
}
