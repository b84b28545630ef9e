//! `expect_shots(set):…`: what must become of a sweep of shots.

use super::expect_shot::{AtArgument, MISSES};
use super::set::{ShotsObject, of_value};
use crate::fault::Fault;
use crate::lua::options::{choice, object, ranged};
use crate::record::ShotRow;
use crate::scenario::expect::{Found, argument, percent, record};
use crate::scenario::members;
use mlua::{Lua, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::verdict::PocketVerdict;

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
            format!("{}, {:.1} mm from the middle{kissed}", row.verdict_name(), 1e3 * miss)
        }
        (Ok(_), None) => format!("{}{kissed}", row.verdict_name()),
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
        let (mut held, mut compared) = (0_usize, 0_usize);
        let mut first = None;
        for ((at, own), (_, other)) in self.0.rows().zip(other.rows()) {
            let (Some(a), Some(b)) = (own.miss_m(), other.miss_m()) else { continue };
            compared += 1;
            if sign * (a - b) > 0.0 {
                held += 1;
            } else if first.is_none() {
                first = Some(format!(
                    "; the first that does not, {}: {:.1} mm beside {:.1} mm",
                    self.0.say_row(at),
                    1e3 * a,
                    1e3 * b
                ));
            }
        }
        if compared == 0 {
            return Err(Fault::bad_input("no pair of shots comes to the pocket in both")
                .at_argument(lua, call, 1));
        }
        let words = format!("{held} of {compared} go {word}{}", first.unwrap_or_default());
        Ok(Found { held: held == compared, words })
    }

    /// The misses along an axis, the rest fixed, each further than the one before.
    fn along(&self, lua: &Lua, call: &str, name: &Value, sign: f64) -> Result<Found, Fault> {
        let axes = &self.0.record.axes;
        let names: Vec<(&str, usize)> =
            axes.iter().enumerate().map(|(at, axis)| (axis.name.as_str(), at)).collect();
        let along = argument(lua, call, 1, name, choice(&names))?;
        if self.0.kept[along].len() < 2 {
            return Err(Fault::bad_input(
                "it has one value here, so nothing rises or falls along it",
            )
            .at_argument(lua, call, 1));
        }
        let rows: Vec<(Vec<usize>, Option<f64>, usize)> =
            self.0.rows().map(|(at, row)| (self.0.record.digits(at), row.miss_m(), at)).collect();
        let (mut held, mut steps) = (0_usize, 0_usize);
        let mut first = None;
        for (digits, miss, at) in &rows {
            let next = self.0.kept[along].iter().find(|place| **place > digits[along]);
            let Some(next) = next else { continue };
            let mut wanted = digits.clone();
            wanted[along] = *next;
            let after = rows.iter().find(|(digits, ..)| *digits == wanted).and_then(|it| it.1);
            let (Some(miss), Some(after)) = (miss, after) else { continue };
            steps += 1;
            if sign * (after - miss) > 0.0 {
                held += 1;
            } else if first.is_none() {
                first = Some(format!(
                    "; the first that does not, after {}: from {:.1} to {:.1} mm",
                    self.0.say_row(*at),
                    1e3 * miss,
                    1e3 * after
                ));
            }
        }
        if steps == 0 {
            return Err(Fault::bad_input("no two neighbours both come to the pocket")
                .at_argument(lua, call, 1));
        }
        let way = if sign > 0.0 { "rise" } else { "fall" };
        let words = format!("{held} of {steps} steps {way}{}", first.unwrap_or_default());
        Ok(Found { held: held == steps, words })
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
        for (name, word, sign) in
            [("miss_rises_along", "longer", 1.0), ("miss_falls_along", "shorter", -1.0)]
        {
            methods.add_method(name, move |lua, this, axis: Value| {
                let found = this.along(lua, name, &axis, sign)?;
                let title = axis.to_string()?;
                this.record(lua, name, &format!("goes ever {word} as {title} grows"), found)
            });
        }
        members::only(methods, "an expectation of shots", MEMBERS);
    }
}
