//! `expect_number(value):within(low, high)` and `:near(value, tolerance)`, for numbers and quantities.

use super::open::{ClaimSubject, OpenExpectation, add_claim, only, taken};
use super::subject::{Finding, record};
use crate::fault::Fault;
use crate::lua::place::{self, Placed};
use crate::lua::quantity::{Quantity, kind_of, of_value, plain_number, shown};
use crate::scenario::left_out;
use mlua::{Lua, MultiValue, Table, UserData, UserDataFields, UserDataMethods, Value};

/// A number about which something is expected.
#[derive(Debug, Clone, Copy)]
struct ExpectedNumber {
    amount: Amount,
    open: OpenExpectation,
}

impl ClaimSubject for ExpectedNumber {
    fn open(&self) -> OpenExpectation {
        self.open
    }
}

/// A plain number, or a quantity.
#[derive(Debug, Clone, Copy)]
enum Amount {
    Plain(f64),
    Measured(Quantity),
}

impl Amount {
    fn read(lua: &Lua, call: &str, number: usize, value: &Value) -> Result<Self, Fault> {
        let complain =
            |message| Err(Fault::bad_input(message).placed(place::argument(lua, call, number)));
        match (plain_number(value), of_value(value)) {
            (Some(plain), _) if plain.is_finite() => Ok(Self::Plain(plain)),
            (Some(plain), _) => complain(format!("{call} needs finite numbers, not {plain}")),
            (None, Some(quantity)) => Ok(Self::Measured(quantity)),
            (None, None) => {
                complain(format!("{call} takes a number or a quantity, not {}", kind_of(value)))
            }
        }
    }

    /// Another amount in this one's unit.
    fn amount_of(self, other: Self) -> Option<f64> {
        match (self, other) {
            (Self::Plain(_), Self::Plain(other)) => Some(other),
            (Self::Measured(own), Self::Measured(other)) => own.amount_of(other),
            _ => None,
        }
    }

    fn amount(self) -> f64 {
        match self {
            Self::Plain(number) => number,
            Self::Measured(quantity) => quantity.amount(),
        }
    }

    fn shown(self) -> String {
        match self {
            Self::Plain(number) => shown(number),
            Self::Measured(quantity) => quantity.written(),
        }
    }

    /// Of what did not hold every digit may matter.
    fn found(self, held: bool) -> String {
        match self {
            Self::Measured(quantity) if held => quantity.to_string(),
            other => other.shown(),
        }
    }

    fn kind(self) -> String {
        match self {
            Self::Plain(_) => "a plain number".to_owned(),
            Self::Measured(quantity) => quantity.kind().described().to_owned(),
        }
    }
}

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    const CALL: &str = "expect_number";
    into.raw_set(
        CALL,
        lua.create_function(|lua, given: MultiValue| {
            left_out::unless_empty(lua, given, |given| {
                let value: Value = taken(lua, CALL, given)?;
                let amount = Amount::read(lua, CALL, 1, &value)?;
                Ok(ExpectedNumber { amount, open: OpenExpectation::new(lua, CALL)? })
            })
        })?,
    )
}

impl ExpectedNumber {
    /// An argument in the unit of the number itself.
    fn argument(
        self,
        lua: &Lua,
        call: &str,
        number: usize,
        value: &Value,
    ) -> Result<(f64, Amount), Fault> {
        let other = Amount::read(lua, call, number, value)?;
        let amount = self.amount.amount_of(other).ok_or_else(|| {
            Fault::bad_input(format!(
                "the number is {}, this is {}",
                self.amount.kind(),
                other.kind()
            ))
            .placed(place::argument(lua, call, number))
        })?;
        Ok((amount, other))
    }
}

impl UserData for ExpectedNumber {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "expectation");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        add_claim(methods, "within", |lua, this, (low, high): (Value, Value)| {
            let (least, low) = this.argument(lua, "within", 1, &low)?;
            let (most, high) = this.argument(lua, "within", 2, &high)?;
            if least > most {
                return Err(Fault::bad_input("`within` takes the lower bound first")
                    .placed(place::argument(lua, "within", 1))
                    .into());
            }
            let held = (least..=most).contains(&this.amount.amount());
            let expected = format!("a number from {} to {}", low.shown(), high.shown());
            record(lua, "within", expected, Finding { held, words: this.amount.found(held) })?;
            Ok(*this)
        });
        add_claim(methods, "near", |lua, this, (wanted, tolerance): (Value, Value)| {
            let (amount, wanted) = this.argument(lua, "near", 1, &wanted)?;
            let (most, tolerance) = this.argument(lua, "near", 2, &tolerance)?;
            if most < 0.0 {
                return Err(Fault::bad_input("a tolerance must not be negative")
                    .placed(place::argument(lua, "near", 2))
                    .into());
            }
            let held = (this.amount.amount() - amount).abs() <= most;
            let expected = format!("a number within {} of {}", tolerance.shown(), wanted.shown());
            record(lua, "near", expected, Finding { held, words: this.amount.found(held) })?;
            Ok(*this)
        });
        only(methods, &["within", "near"]);
    }
}
