//! `expect(…):…` of what is asked of all the tables that one could be.

use super::band::EnsembleBand;
use super::ranking::EnsembleRanking;
use super::shares::Shares;
use super::starts::KnownStarts;
use super::words::of_hundred;
use crate::fault::Fault;
use crate::lua::options::{number, ranged};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::shown;
use crate::scenario::expect::open::{ClaimSubject, OpenExpectation, add_claim, only};
use crate::scenario::expect::subject::{Finding, argument, record};
use crate::scenario::first_place;
use crate::scenario::frontier::ValueOf;
use crate::scenario::inputs::spoken_on;
use mlua::{IntoLua, Lua, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::ask::{Agreement, BandLine, CredibleInterval, MemberShare};
use std::fmt::Write as _;

/// The claims on a value that is an answer of many tables.
///
/// # Errors
/// As of making a Lua value.
pub fn open(lua: &Lua, value: &Value) -> Option<mlua::Result<Value>> {
    let Value::UserData(data) = value else { return None };
    let open = || OpenExpectation::new(lua, "expect");
    if let Ok(of) = data.borrow::<Shares>() {
        return Some(open().and_then(|open| ShareClaims { of: of.clone(), open }.into_lua(lua)));
    }
    if let Ok(of) = data.borrow::<EnsembleRanking>() {
        return Some(open().and_then(|open| RankingClaims { of: of.clone(), open }.into_lua(lua)));
    }
    if let Ok(of) = data.borrow::<KnownStarts>() {
        return Some(open().and_then(|open| StartClaims { of: of.clone(), open }.into_lua(lua)));
    }
    if let Ok(of) = data.borrow::<EnsembleBand>() {
        return Some(open().and_then(|open| BandClaims { of: of.clone(), open }.into_lua(lua)));
    }
    None
}

/// Claims on one kind of answer.
macro_rules! claims {
    ($name:ident, $of:ty, $members:expr, $add:ident) => {
        #[derive(Debug, Clone)]
        struct $name {
            of: $of,
            open: OpenExpectation,
        }

        impl ClaimSubject for $name {
            fn open(&self) -> OpenExpectation {
                self.open
            }
        }

        impl UserData for $name {
            fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
                fields.add_meta_field("__type", "expectation");
            }

            fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
                $add(methods);
                only(methods, $members);
            }
        }
    };
}

const OF_SHARES: &[&str] =
    &["is_sure_to_hold", "depends", "is_sure_to_miss", "holds_on_at_least", "holds_on_at_most"];
const OF_STARTS: &[&str] = &["starts_within", "slope_within"];
const OF_BAND: &[&str] = &["is_sure_between", "depends_between", "misses_between"];

claims!(ShareClaims, Shares, OF_SHARES, add_share_claims);
claims!(RankingClaims, EnsembleRanking, first_place::CLAIMS, add_ranking_claims);
claims!(StartClaims, KnownStarts, OF_STARTS, add_start_claims);
claims!(BandClaims, EnsembleBand, OF_BAND, add_band_claims);

/// A share as an argument.
fn share_of(lua: &Lua, call: &str, value: &Value) -> Result<f64, Fault> {
    argument(lua, call, 1, value, ranged(number(), 0.0..=1.0, ""))
}

/// Two numbers as arguments, the lower first.
fn bounds(lua: &Lua, call: &str, (low, high): (&Value, &Value)) -> Result<(f64, f64), Fault> {
    let of = |place, value| argument(lua, call, place, value, number());
    in_order(lua, call, (of(1, low)?, of(2, high)?))
}

fn in_order(lua: &Lua, call: &str, (low, high): (f64, f64)) -> Result<(f64, f64), Fault> {
    if low > high {
        return Err(Fault::bad_input(format!("`{call}` takes the lower bound first"))
            .placed(place::argument(lua, call, 1)));
    }
    Ok((low, high))
}

impl ShareClaims {
    /// Whether every bank passes; the words name the first that does not.
    fn all(&self, passes: impl Fn(MemberShare) -> bool) -> Finding {
        let points = self.of.picked.points();
        let kept: Vec<(usize, MemberShare)> = points.into_iter().zip(self.of.kept()).collect();
        let passing = kept.iter().filter(|(_, share)| passes(*share)).count();
        let mut words = format!("{passing} of {} pass", kept.len());
        let first = kept.iter().find(|(_, share)| !passes(*share)).or(kept.first());
        if let Some((point, share)) = first {
            let row = self.of.picked.say_row(*point * self.of.picked.rules.len().max(1));
            let which = if passing == kept.len() { "the first" } else { "the first that fails" };
            let _ = write!(words, "; {which}, {row}: {} of a hundred hold", of_hundred(*share));
        }
        Finding { held: !kept.is_empty() && passing == kept.len(), words }
    }

    fn record(&self, lua: &Lua, call: &str, expected: &str, found: Finding) -> mlua::Result<Self> {
        record(lua, call, format!("{}: {expected}", self.of.picked.subject()), found)?;
        Ok(self.clone())
    }
}

fn add_share_claims<M: UserDataMethods<ShareClaims>>(methods: &mut M) {
    for (call, wanted, expected) in [
        ("is_sure_to_hold", Agreement::All, "sure to hold"),
        ("depends", Agreement::Depends, "depends on the table"),
        ("is_sure_to_miss", Agreement::None, "sure to miss"),
    ] {
        add_claim(methods, call, move |lua, this: &ShareClaims, ()| {
            let found = this.all(|share| share.agreement() == wanted);
            this.record(lua, call, expected, found)
        });
    }
    for (call, least) in [("holds_on_at_least", true), ("holds_on_at_most", false)] {
        add_claim(methods, call, move |lua, this: &ShareClaims, share: Value| {
            let asked = share_of(lua, call, &share)?;
            let passes = |found: MemberShare| {
                if least { found.share >= asked } else { found.share <= asked }
            };
            let bound = if least { "at least" } else { "at most" };
            let expected = format!("holds on {bound} {} of a hundred", shown(100.0 * asked));
            this.record(lua, call, &expected, this.all(passes))
        });
    }
}

fn add_ranking_claims<M: UserDataMethods<RankingClaims>>(methods: &mut M) {
    first_place::add_claims(methods, |this: &RankingClaims| &this.of);
}

fn add_start_claims<M: UserDataMethods<StartClaims>>(methods: &mut M) {
    add_claim(methods, "starts_within", |lua, this: &StartClaims, (low, high): (Value, Value)| {
        const CALL: &str = "starts_within";
        let (low, high) = bounds(lua, CALL, (&low, &high))?;
        let within = |from: f64, to: f64| low <= from && to <= high;
        let kept: Vec<_> = this.of.kept().collect();
        let passes = |start: &Option<CredibleInterval>| {
            start.is_some_and(|start| within(start.ninety.0, start.ninety.1))
        };
        let passing = kept.iter().filter(|(_, found)| passes(&found.start)).count();
        let mut words = format!("{passing} of {} pass", kept.len());
        if let Some((point, found)) = kept.iter().find(|(_, found)| !passes(&found.start)) {
            let told = found.start.map_or_else(
                || "no table has one".to_owned(),
                |start| format!("{:.2} to {:.2}", start.ninety.0, start.ninety.1),
            );
            let _ =
                write!(words, "; the first that fails, {}: {told}", this.of.picked.say_row(*point));
        }
        let held = !kept.is_empty() && passing == kept.len();
        let subject = this.of.picked.subject();
        let expected = format!(
            "{subject}: nine times in ten the start lies from {} to {}",
            shown(low),
            shown(high)
        );
        record(lua, CALL, expected, Finding { held, words })?;
        Ok(this.clone())
    });
    add_claim(methods, "slope_within", |lua, this: &StartClaims, (low, high): (Value, Value)| {
        const CALL: &str = "slope_within";
        let (low, high) = bounds(lua, CALL, (&low, &high))?;
        let slope = this.of.slope();
        let held = slope.is_some_and(|slope| low <= slope.ninety.0 && slope.ninety.1 <= high);
        let words = slope.map_or_else(
            || "no table has such a line".to_owned(),
            |slope| {
                let (from, to) = slope.ninety;
                format!("{:.3}, nine times in ten {from:.3} to {to:.3}", slope.middle)
            },
        );
        let subject = this.of.picked.subject();
        let expected = format!(
            "{subject}: nine times in ten the slope lies from {} to {}",
            shown(low),
            shown(high)
        );
        record(lua, CALL, expected, Finding { held, words })?;
        Ok(this.clone())
    });
}

fn add_band_claims<M: UserDataMethods<BandClaims>>(methods: &mut M) {
    for (call, wanted, expected) in [
        ("is_sure_between", Agreement::All, "sure to hold"),
        ("depends_between", Agreement::Depends, "depends on the table"),
        ("misses_between", Agreement::None, "sure to miss"),
    ] {
        add_claim(methods, call, move |lua, this: &BandClaims, (low, high): (Value, Value)| {
            let picked = &this.of.picked;
            let kind = ValueOf(picked.text(this.of.along).input, spoken_on(picked.plan()));
            let ends = (argument(lua, call, 1, &low, kind)?, argument(lua, call, 2, &high, kind)?);
            let (low, high) = in_order(lua, call, ends)?;
            let passes = |line: &BandLine| {
                line.stretches().iter().any(|stretch| {
                    stretch.agreement == wanted && stretch.from <= low && high <= stretch.to
                })
            };
            let lines: Vec<_> = this.of.lines().collect();
            let passing = lines.iter().filter(|(_, line)| passes(line)).count();
            let first = lines.iter().find(|(_, line)| !passes(line)).or(lines.first());
            let told = first.map_or_else(String::new, |line| this.of.sentence(line));
            let measured = this.of.measured();
            let expected = format!(
                "{}: {expected} from {} to {}",
                this.of.subject(),
                measured.tick(low),
                measured.tick(high)
            );
            let held = !lines.is_empty() && passing == lines.len();
            let words = format!("{passing} of {} pass; {told}", lines.len());
            record(lua, call, expected, Finding { held, words })?;
            Ok(this.clone())
        });
    }
}
