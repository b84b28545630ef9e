//! `expect_shots(set):…`: what must become of a sweep of shots.

use super::expect_shot::{AtArgument, MISSES};
use super::set::{ShotsObject, of_value};
use crate::fault::Fault;
use crate::lua::options::{choice, object, ranged};
use crate::record::{ShotRow, ShotValues};
use crate::scenario::expect::{Found, Way, argument, percent, record, steady, too_few};
use crate::scenario::members;
use crate::telling::phrase;
use mlua::{Lua, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::verdict::PocketVerdict;
use std::collections::BTreeMap;

/// Shots about which something is expected.
#[derive(Clone)]
struct ExpectedShots(ShotsObject);

const MEMBERS: &[&str] = &[
    "drop",
    "miss",
    "kiss",
    "clear",
    "share_made_within",
    "longer_than",
    "shorter_than",
    "miss_rises_along",
    "miss_falls_along",
];

pub(super) fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(
        "expect_shots",
        lua.create_function(|lua, value: Value| {
            let kind = object::<ShotsObject>("a sweep of shots or a selection of it");
            Ok(ExpectedShots(argument(lua, "expect_shots", 1, &value, kind)?))
        })?,
    )
}

/// A row's outcome in words.
fn words(row: &ShotRow) -> String {
    let kissed = if row.kissed() { ", after a double kiss" } else { "" };
    match (&row.outcome, row.miss_m()) {
        (Err(why), _) => why.clone(),
        (Ok(_), Some(miss)) => {
            format!("{}, {:.1} mm from the middle{kissed}", phrase(row.verdict_name()), 1e3 * miss)
        }
        (Ok(_), None) => format!("{}{kissed}", phrase(row.verdict_name())),
    }
}

impl ExpectedShots {
    fn record(&self, lua: &Lua, method: &str, expected: &str, found: Found) -> mlua::Result<Self> {
        record(lua, method, format!("{}: {expected}", self.0.subject()), found)?;
        Ok(self.clone())
    }

    /// Whether every row passes; the words count them and name the first that does not.
    fn all(&self, what: &str, passes: impl Fn(&ShotRow) -> bool) -> Found {
        let count = self.0.count();
        let passing = self.0.rows().filter(|(_, row)| passes(row)).count();
        let mut words_found = format!("{passing} of {count} {what}");
        if let Some((at, row)) = self.0.rows().find(|(_, row)| !passes(row)) {
            let told = format!("; the first that does not, {}: {}", self.0.say_row(at), words(row));
            words_found.push_str(&told);
        }
        Found { held: count > 0 && passing == count, words: words_found }
    }

    /// The rows of two sweeps side by side, whose axes must be as long.
    fn beside(
        &self,
        lua: &Lua,
        call: &str,
        value: &Value,
        sign: f64,
        word: &str,
    ) -> Result<Found, Fault> {
        let Some(other) = of_value(value) else {
            let kind = object::<ShotsObject>("a sweep of shots or a selection of it");
            argument(lua, call, 1, value, kind)?;
            return Ok(Found { held: false, words: String::new() });
        };
        if other.count() != self.0.count() {
            return Err(Fault::bad_input(format!(
                "there are {} shots here and {} in the other",
                self.0.count(),
                other.count()
            ))
            .with_hint("shots are compared one by one: select as many of each")
            .at_argument(lua, call, 1));
        }
        let (mut held, count) = (0_usize, self.0.count());
        let mut first = None;
        for ((at, own), (_, other)) in self.0.rows().zip(other.rows()) {
            let (a, b) = (own.miss_m(), other.miss_m());
            // What never comes to the pocket passes no expectation about a miss.
            if matches!((a, b), (Some(a), Some(b)) if sign * (a - b) > 0.0) {
                held += 1;
            } else if first.is_none() {
                let shown = |miss_m: Option<f64>| {
                    miss_m.map_or_else(
                        || "none".to_owned(),
                        |miss_m| format!("{:.1} mm", 1e3 * miss_m),
                    )
                };
                first = Some(format!(
                    "; the first that does not, {}: miss {} beside {}",
                    self.0.say_row(at),
                    shown(a),
                    shown(b)
                ));
            }
        }
        let words = format!("{held} of {count} go {word}{}", first.unwrap_or_default());
        Ok(Found { held: count > 0 && held == count, words })
    }

    /// The misses along an axis, the rest fixed, each further than the one before.
    fn along(&self, lua: &Lua, call: &str, name: &Value, way: Way) -> mlua::Result<Self> {
        let record = &self.0.record;
        let names: Vec<(&str, usize)> =
            record.axes.iter().enumerate().map(|(at, axis)| (axis.name.as_str(), at)).collect();
        let along = argument(lua, call, 1, name, choice(&names))?;
        let name = names[along].0;
        let kept = &self.0.kept[along];
        let values: &[f64] = match &record.axes[along].values {
            ShotValues::Numbers { si, .. } if kept.len() > 1 => si,
            _ => {
                return Err(Fault::bad_input(too_few(name, kept.len()))
                    .at_argument(lua, call, 1)
                    .into());
            }
        };
        let mut lines: BTreeMap<Vec<usize>, Vec<(f64, usize)>> = BTreeMap::new();
        for (at, _) in self.0.rows() {
            let mut others = record.digits(at);
            let place = others.remove(along);
            lines.entry(others).or_default().push((values[place], at));
        }
        let lines: Vec<Vec<usize>> = lines
            .into_values()
            .map(|mut line| {
                line.sort_by(|a, b| a.0.total_cmp(&b.0));
                line.into_iter().map(|(_, at)| at).collect()
            })
            .collect();
        let miss_m = |at: usize| record.rows.get(at).and_then(ShotRow::miss_m);
        let found = steady(&lines, way, miss_m, |at| self.0.say_row(at));
        self.record(lua, call, &format!("the miss {} along {name}", way.verb), found)
    }
}

impl UserData for ExpectedShots {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "expectation");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_method("drop", |lua, this, ()| {
            this.record(lua, "drop", "all drop", this.all("drop", ShotRow::is_made))
        });
        methods.add_method("miss", |lua, this, side: Value| {
            let side = argument(lua, "miss", 1, &side, choice(MISSES))?;
            let wanted = PocketVerdict::Missed(side);
            let what = wanted.name().replace("missed", "miss");
            let found = this.all(&what, |row| {
                row.outcome.as_ref().is_ok_and(|outcome| outcome.verdict.pocket == wanted)
            });
            this.record(lua, "miss", &format!("all {what}"), found)
        });
        methods.add_method("kiss", |lua, this, ()| {
            this.record(lua, "kiss", "all kiss", this.all("kiss", ShotRow::kissed))
        });
        methods.add_method("clear", |lua, this, ()| {
            let found = this.all("clear", |row| row.outcome.is_ok() && !row.kissed());
            this.record(lua, "clear", "none kisses", found)
        });
        methods.add_method("share_made_within", |lua, this, (low, high): (Value, Value)| {
            const CALL: &str = "share_made_within";
            let share = || ranged(crate::lua::options::number(), 0.0..=1.0, "");
            let least = argument(lua, CALL, 1, &low, share())?;
            let most = argument(lua, CALL, 2, &high, share())?;
            if least > most {
                return Err(Fault::bad_input("`share_made_within` takes the lower bound first")
                    .at_argument(lua, CALL, 1)
                    .into());
            }
            let found = this.0.share_made();
            let words =
                format!("{} of {} are made: {}", this.0.made(), this.0.count(), percent(found));
            let expected = format!("from {} to {} are made", percent(least), percent(most));
            let found = Found { held: (least..=most).contains(&found), words };
            this.record(lua, CALL, &expected, found)
        });
        for (name, word, sign) in
            [("longer_than", "longer", 1.0), ("shorter_than", "shorter", -1.0)]
        {
            methods.add_method(name, move |lua, this, other: Value| {
                let found = this.beside(lua, name, &other, sign, word)?;
                this.record(lua, name, &format!("each goes {word} than its counterpart"), found)
            });
        }
        for (name, way) in [("miss_rises_along", Way::RISES), ("miss_falls_along", Way::FALLS)] {
            methods
                .add_method(name, move |lua, this, axis: Value| this.along(lua, name, &axis, way));
        }
        members::only(methods, "an expectation of shots", MEMBERS);
    }
}
