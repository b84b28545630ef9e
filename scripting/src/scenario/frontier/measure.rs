//! Values and tolerances of a searched input, to and from scripts.

use crate::lua::options::{Kind, Mismatch, number, quantity};
use crate::lua::quantity::{Quantity, QuantityKind, of_value};
use crate::scenario::inputs::{NumberOf, SpeedOf, WrittenNumber};
use crate::telling::InputFormat;
use mlua::{IntoLua, Lua, Value};
use railproof_engine::equipment::SpokenSpeeds;
use railproof_engine::sweep::Input;
use railproof_engine::units::Dimension;

/// A value as a script sees it: a quantity, or a plain number.
pub fn lua_value(measured: &InputFormat, lua: &Lua, si: f64) -> mlua::Result<Value> {
    if measured.unit().is_empty() {
        return Ok(Value::Number(si));
    }
    Quantity::new(measured.amount(si), measured.unit())?.into_lua(lua)
}

/// A distance between two values of an input.
#[derive(Debug, Clone, Copy)]
pub struct Tolerance(pub Input);

impl Tolerance {
    fn dimension(self) -> Dimension {
        match self.0 {
            Input::Lag => Dimension::Ratio,
            input => input.parameter().map_or(Dimension::Ratio, |parameter| parameter.dimension),
        }
    }
}

impl Kind for Tolerance {
    type Output = f64;

    fn expected(&self) -> String {
        match self.dimension() {
            Dimension::Ratio => number().expected(),
            dimension => quantity(dimension).expected(),
        }
    }

    fn read(&self, value: &Value) -> Result<f64, Mismatch> {
        let lengths = of_value(value).filter(|it| it.kind() == QuantityKind::TableLengths);
        match (self.0, lengths) {
            (Input::Lag, Some(lengths)) => return Ok(lengths.amount()),
            (Input::Speed, Some(_)) => {
                return Err(Mismatch::message("must be in m/s, as the sweep gives its speeds")
                    .with_hint("write mps(0.05)"));
            }
            (Input::Lag, None) if of_value(value).is_some() => {
                return Err(Mismatch::message("must be in lengths, as the sweep gives its speeds")
                    .with_hint("write lengths(0.05)"));
            }
            _ => {}
        }
        match self.dimension() {
            Dimension::Ratio => number().read(value),
            dimension => quantity(dimension).read(value),
        }
    }
}

/// A value of an input, SI; a speed also by a word, where it is known how fast that is.
#[derive(Debug, Clone, Copy)]
pub struct ValueOf(pub Input, pub Option<SpokenSpeeds>);

impl Kind for ValueOf {
    type Output = f64;

    fn expected(&self) -> String {
        match (self.0, self.0.parameter()) {
            (Input::Speed | Input::Lag, _) => SpeedOf(self.0, None).expected(),
            (_, Some(parameter)) => NumberOf(parameter).expected(),
            (_, None) => number().expected(),
        }
    }

    fn read(&self, value: &Value) -> Result<f64, Mismatch> {
        let written = match (self.0, self.0.parameter()) {
            (Input::Speed | Input::Lag, _) => SpeedOf(self.0, self.1).read(value)?,
            (_, Some(parameter)) => NumberOf(parameter).read(value)?,
            (_, None) => WrittenNumber::plain(number().read(value)?),
        };
        if matches!(self.0, Input::Speed | Input::Lag)
            && written.in_lengths != (self.0 == Input::Lag)
        {
            let unit = if self.0 == Input::Lag { "lengths" } else { "m/s" };
            return Err(Mismatch::message(format!(
                "must be in {unit}, as the sweep gives its speeds"
            ))
            .with_hint(if self.0 == Input::Lag {
                "write lengths(2)"
            } else {
                "write mps(3)"
            }));
        }
        Ok(written.si)
    }
}
