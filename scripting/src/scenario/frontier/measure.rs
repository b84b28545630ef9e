//! A searched input in the unit that its sweep was written in.

use crate::lua::options::{Kind, Mismatch, number, quantity};
use crate::lua::quantity::Quantity;
use crate::scenario::axis_text::AxisText;
use crate::scenario::inputs::{NumberOf, SpeedOf, WrittenNumber};
use mlua::{IntoLua, Lua, Value};
use railproof_engine::sweep::Input;
use railproof_engine::units::Dimension;

/// The format of an input's values, to the decimals that a tolerance leaves.
#[derive(Debug, Clone, Copy)]
pub struct InputFormat {
    input: Input,
    unit: &'static str,
    /// SI value of one unit.
    si: f64,
    decimals: usize,
}

impl InputFormat {
    pub fn new(text: &AxisText, tolerance: f64) -> Self {
        let dimension = text.input.parameter().map(|parameter| parameter.dimension);
        let si = match (text.input, dimension) {
            (Input::Lag, _) | (_, None) => 1.0,
            (_, Some(dimension)) => {
                Quantity::new(1.0, text.unit).ok().and_then(|one| one.si(dimension)).unwrap_or(1.0)
            }
        };
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped to 0 to 9"
        )]
        let decimals = (-(tolerance / si).log10()).ceil().clamp(0.0, 9.0) as usize;
        Self { input: text.input, unit: text.unit, si, decimals }
    }

    /// An amount in the unit.
    pub fn amount(&self, si: f64) -> f64 {
        si / self.si
    }

    fn written(&self, si: f64) -> AxisText {
        let rounded: f64 =
            format!("{:.*}", self.decimals, self.amount(si)).parse().unwrap_or(self.amount(si));
        let written = WrittenNumber {
            si,
            amount: rounded,
            unit: self.unit,
            word: None,
            in_lengths: self.input == Input::Lag,
        };
        AxisText::written(self.input, &[written])
    }

    /// With its unit: `3.41 m/s`.
    pub fn tick(&self, si: f64) -> String {
        self.written(si).tick_with_unit(0)
    }

    /// In words: `12.3 in off the rail`.
    pub fn say(&self, si: f64) -> String {
        self.written(si).say(0)
    }

    /// A distance between two values, with its unit.
    pub fn apart(&self, si: f64) -> String {
        let digits = format!("{:.2e}", self.amount(si)).parse::<f64>().unwrap_or(f64::NAN);
        format!("{} {}", crate::lua::quantity::shown(digits), self.unit).trim_end().to_owned()
    }

    /// As a script sees it: a quantity, or a plain number.
    pub fn lua_value(&self, lua: &Lua, si: f64) -> mlua::Result<Value> {
        if self.unit.is_empty() {
            return Ok(Value::Number(si));
        }
        Quantity::new(self.amount(si), self.unit)?.into_lua(lua)
    }
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
        match self.dimension() {
            Dimension::Ratio => number().read(value),
            dimension => quantity(dimension).read(value),
        }
    }
}

/// A value of an input, SI.
#[derive(Debug, Clone, Copy)]
pub struct ValueOf(pub Input);

impl Kind for ValueOf {
    type Output = f64;

    fn expected(&self) -> String {
        match (self.0, self.0.parameter()) {
            (Input::Speed | Input::Lag, _) => SpeedOf(self.0).expected(),
            (_, Some(parameter)) => NumberOf(parameter).expected(),
            (_, None) => number().expected(),
        }
    }

    fn read(&self, value: &Value) -> Result<f64, Mismatch> {
        let written = match (self.0, self.0.parameter()) {
            (Input::Speed | Input::Lag, _) => SpeedOf(self.0).read(value)?,
            (_, Some(parameter)) => NumberOf(parameter).read(value)?,
            (_, None) => WrittenNumber::plain(number().read(value)?),
        };
        if matches!(self.0, Input::Speed | Input::Lag)
            && written.in_lengths != (self.0 == Input::Lag)
        {
            return Err(Mismatch::content(
                "must be in the measure that the sweep gives its speeds in",
            ));
        }
        Ok(written.si)
    }
}
