//! `expect_shot(shot):…`: what must become of one shot.

use super::shot::ShotObject;
use crate::fault::Fault;
use crate::lua::options::{choice, object};
use crate::scenario::expect::{Found, argument, length, record};
use crate::scenario::members;
use mlua::{Lua, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::shot::Ending;
use railproof_engine::verdict::{Miss, PocketVerdict};

/// A shot about which something is expected.
#[derive(Clone)]
struct ExpectedShot(ShotObject);

/// The words for the sides of a miss.
pub(super) const MISSES: &[(&str, Miss)] =
    &[("long", Miss::Long), ("short", Miss::Short), ("left", Miss::Left), ("right", Miss::Right)];

const MEMBERS: &[&str] = &[
    "drops",
    "misses",
    "rattles_out",
    "scratches",
    "kisses",
    "clears",
    "misses_within",
    "longer_than",
    "shorter_than",
];

pub(super) fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(
        "expect_shot",
        lua.create_function(|lua, value: Value| {
            let shot = argument(lua, "expect_shot", 1, &value, object::<ShotObject>("a shot"))?;
            if shot.0.verdict.is_none() {
                return Err(Fault::bad_input(
                    "this shot has no target, so nothing can be expected of it",
                )
                .with_hint("give its layout a `pocket`")
                .at_argument(lua, "expect_shot", 1)
                .into());
            }
            Ok(ExpectedShot(shot))
        })?,
    )
}

/// A fault at an argument of the running call.
pub(super) trait AtArgument {
    fn at_argument(self, lua: &Lua, call: &str, number: usize) -> Self;
}

impl AtArgument for Fault {
    fn at_argument(self, lua: &Lua, call: &str, number: usize) -> Self {
        use crate::lua::place::{self, Placed};
        self.placed(place::argument(lua, call, number))
    }
}

impl ExpectedShot {
    fn record(&self, lua: &Lua, method: &str, expected: &str, held: bool) -> mlua::Result<Self> {
        let words = self.0.told();
        self.found(lua, method, expected, Found { held, words })
    }

    fn found(&self, lua: &Lua, method: &str, expected: &str, found: Found) -> mlua::Result<Self> {
        record(lua, method, format!("{}: {expected}", self.0.subject()), found)?;
        Ok(self.clone())
    }

    fn verdict(&self) -> Option<PocketVerdict> {
        self.0.0.verdict.map(|verdict| verdict.pocket)
    }

    fn kissed(&self) -> bool {
        self.0.0.kissed_s().is_some()
    }

    /// Another shot's miss beside this one's.
    fn beside(&self, lua: &Lua, call: &str, other: &Value) -> Result<(f64, f64), Fault> {
        let shot = argument(lua, call, 1, other, object::<ShotObject>("a shot"))?;
        match (self.0.miss_m(), shot.miss_m()) {
            (Some(own), Some(other)) => Ok((own, other)),
            (None, _) => {
                Err(Fault::bad_input("this shot never comes to its pocket, so it has no miss")
                    .at_argument(lua, call, 1))
            }
            (_, None) => {
                Err(Fault::bad_input("the other shot never comes to its pocket, so it has no miss")
                    .at_argument(lua, call, 1))
            }
        }
    }
}

impl UserData for ExpectedShot {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "expectation");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_method("drops", |lua, this, ()| {
            this.record(lua, "drops", "drops", this.verdict().is_some_and(PocketVerdict::is_made))
        });
        methods.add_method("misses", |lua, this, side: Value| {
            let (expected, held) = match side {
                Value::Nil => {
                    let missed = matches!(this.verdict(), Some(PocketVerdict::Missed(_)));
                    ("misses".to_owned(), missed)
                }
                given => {
                    let side = argument(lua, "misses", 1, &given, choice(MISSES))?;
                    let wanted = PocketVerdict::Missed(side);
                    (wanted.name().replace("missed", "misses"), this.verdict() == Some(wanted))
                }
            };
            this.record(lua, "misses", &expected, held)
        });
        methods.add_method("rattles_out", |lua, this, ()| {
            let held = this.verdict() == Some(PocketVerdict::RattledOut);
            this.record(lua, "rattles_out", "rattles out", held)
        });
        methods.add_method("scratches", |lua, this, ()| {
            let struck = this.0.0.layout.stroke.map(|stroke| stroke.ball);
            let dropped = struck
                .and_then(|ball| this.0.0.shot.ends.get(ball))
                .is_some_and(|end| matches!(end.ending, Ending::Pocketed(_)));
            this.record(lua, "scratches", "the cue ball drops", dropped)
        });
        methods.add_method("kisses", |lua, this, ()| {
            this.record(lua, "kisses", "a double kiss", this.kissed())
        });
        methods.add_method("clears", |lua, this, ()| {
            this.record(lua, "clears", "no double kiss", !this.kissed())
        });
        methods.add_method("misses_within", |lua, this, most: Value| {
            let (most_m, shown) = length(lua, "misses_within", &most)?;
            let held = this.0.miss_m().is_some_and(|miss| miss.abs() <= most_m);
            let expected = format!("within {shown} of the mouth's middle");
            this.record(lua, "misses_within", &expected, held)
        });
        for (name, word, sign) in
            [("longer_than", "longer", 1.0), ("shorter_than", "shorter", -1.0)]
        {
            methods.add_method(name, move |lua, this, other: Value| {
                let (own, other) = this.beside(lua, name, &other)?;
                let words = format!("{:.1} mm, beside {:.1} mm", 1e3 * own, 1e3 * other);
                let found = Found { held: sign * (own - other) > 0.0, words };
                this.found(lua, name, &format!("goes {word} than the other"), found)
            });
        }
        members::only(methods, "an expectation of a shot", MEMBERS);
    }
}
