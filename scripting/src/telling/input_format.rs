//! Values of an input, in the unit that its sweep was written in.

use super::axis_text::AxisText;
use crate::lua::quantity::{Quantity, shown};
use railproof_engine::sweep::Input;

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
    /// For the input of an axis, in the axis' unit.
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

    /// The unit's symbol, empty for a plain number.
    pub const fn unit(&self) -> &'static str {
        self.unit
    }

    fn rounded(&self, si: f64) -> AxisText {
        let amount = self.amount(si);
        let rounded = format!("{amount:.*}", self.decimals).parse().unwrap_or(amount);
        AxisText::of_numbers(self.input, self.unit, vec![rounded], vec![None])
    }

    /// With its unit: `3.41 m/s`.
    pub fn tick(&self, si: f64) -> String {
        self.rounded(si).tick_with_unit(0)
    }

    /// In words: `12.3 in off the rail`.
    pub fn say(&self, si: f64) -> String {
        self.rounded(si).say(0)
    }

    /// A value to the first digit of its margin, and that rounded up: `2.3 in ± 0.5 in`.
    pub fn within(&self, si: f64, margin: f64) -> String {
        let margin = self.amount(margin);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped to 0 to 9"
        )]
        let decimals = (-libm::log10(margin)).ceil().clamp(0.0, self.decimals as f64) as usize;
        let own = Self { decimals, ..*self };
        let grain = libm::pow(10.0, decimals as f64);
        let margin = format!("{:.decimals$} {}", (margin * grain).ceil() / grain, self.unit);
        format!("{} ± {}", own.tick(si), margin.trim_end())
    }

    /// A distance between two values, with its unit.
    pub fn apart(&self, si: f64) -> String {
        let digits = format!("{:.2e}", self.amount(si)).parse::<f64>().unwrap_or(f64::NAN);
        format!("{} {}", shown(digits), self.unit).trim_end().to_owned()
    }
}
