//! `expect(layout:bank_or_cut { … }):…`.

use super::open::{ClaimSubject, OpenExpectation, add_claim, only};
use super::subject::{Finding, argument, record};
use crate::lua::options::{number, ranged};
use crate::lua::quantity::shown;
use crate::scenario::shots::ChoiceObject;
use crate::telling::{bank_or_cut_sentence, chance_words};
use mlua::{IntoLua, Lua, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::chance::Chance;
use railproof_engine::choice::{Better, ChoiceTally};

/// The claims on a value that is such an answer.
pub fn open(lua: &Lua, value: &Value) -> Option<mlua::Result<Value>> {
    let Value::UserData(data) = value else { return None };
    let of = data.borrow::<ChoiceObject>().ok()?.clone();
    let open = OpenExpectation::new(lua, "expect");
    Some(open.and_then(|open| ChoiceClaims { of, open }.into_lua(lua)))
}

/// Claims on whether to bank or to cut.
#[derive(Debug, Clone)]
struct ChoiceClaims {
    of: ChoiceObject,
    open: OpenExpectation,
}

impl ClaimSubject for ChoiceClaims {
    fn open(&self) -> OpenExpectation {
        self.open
    }
}

const CLAIMS: &[&str] =
    &["bank_is_better", "cut_is_better", "bank_made_at_least", "cut_made_at_least"];

impl UserData for ChoiceClaims {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "expectation");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        for (call, wanted, what) in [
            ("bank_is_better", Better::Bank, "the bank is better"),
            ("cut_is_better", Better::Cut, "the cut is better"),
        ] {
            add_claim(methods, call, move |lua, this: &Self, ()| {
                let found = &this.of.found;
                let held = found.choice.better() == wanted;
                let words = bank_or_cut_sentence(found);
                let expected = format!("{}: {what}, by more than twice the error", found.player);
                record(lua, call, expected, Finding { held, words })?;
                Ok(this.clone())
            });
        }
        for (call, bank) in [("bank_made_at_least", true), ("cut_made_at_least", false)] {
            add_claim(methods, call, move |lua, this: &Self, share: Value| {
                let asked = argument(lua, call, 1, &share, ranged(number(), 0.0..=1.0, ""))?;
                let found = &this.of.found;
                let way = if bank { found.bank() } else { found.cut() };
                let none = Chance { chance: 0.0, error: 0.0 };
                let made = way.and_then(|it| it.tally.as_ref()).map_or(none, ChoiceTally::chance);
                let expected = format!(
                    "{}: the best {} is made at least {} times in a hundred",
                    found.player,
                    if bank { "bank" } else { "cut" },
                    shown(100.0 * asked)
                );
                let words = chance_words(made);
                record(lua, call, expected, Finding { held: made.chance >= asked, words })?;
                Ok(this.clone())
            });
        }
        only(methods, CLAIMS);
    }
}
