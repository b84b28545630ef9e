//! The look of a cell, and the steps in which a shade deepens with the miss.

use super::colours::{Rgb, STEPS};
use railproof_engine::units::INCH_M;

/// The unit in which misses are shown.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum MissUnit {
    /// Whole ones.
    #[default]
    Millimetres,
    /// Tenths of them.
    Inches,
}

impl MissUnit {
    /// Its symbol.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Millimetres => "mm",
            Self::Inches => "in",
        }
    }

    /// So many millimetres are one.
    pub const fn mm(self) -> f64 {
        match self {
            Self::Millimetres => 1.0,
            Self::Inches => 1e3 * INCH_M,
        }
    }

    /// Its word in a sentence.
    pub(super) const fn word(self, fineness: Fineness) -> &'static str {
        match (self, fineness) {
            (Self::Millimetres, Fineness::Fine) => "mm",
            (Self::Millimetres, Fineness::Coarse) => "cm",
            (Self::Inches, Fineness::Fine) => "inches",
            (Self::Inches, Fineness::Coarse) => "whole inches",
        }
    }

    /// A miss as a cell shows it, in the unit of [`MissUnit::word`]; half a part is rounded up.
    pub(super) fn shown(self, micrometres: i64, fineness: Fineness) -> String {
        let parts = |size: i64| micrometres.saturating_add(size / 2) / size;
        match (self, fineness) {
            (Self::Millimetres, Fineness::Fine) => parts(1_000).to_string(),
            (Self::Millimetres, Fineness::Coarse) => parts(10_000).to_string(),
            (Self::Inches, Fineness::Fine) => {
                let tenths = parts(2_540);
                format!("{}.{}", tenths / 10, tenths % 10)
            }
            (Self::Inches, Fineness::Coarse) => parts(25_400).to_string(),
        }
    }
}

/// The size of a miss in micrometres, as [`CellText::Miss`] holds it.
pub(super) fn micrometres(miss_mm: f64) -> i64 {
    #[expect(clippy::cast_possible_truncation, reason = "the cast saturates")]
    let size = (miss_mm.abs() * 1e3).round() as i64;
    size
}

/// The decimals of the misses in the cells of a map: one for all, or they could not be compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fineness {
    /// Whole millimetres, tenths of inches.
    Fine,
    /// Whole centimetres, whole inches.
    Coarse,
}

/// A pattern over a shade, for states that must not hang on colour alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Texture {
    Plain,
    /// Level lines.
    Level,
    /// Level lines, close together.
    LevelDense,
    /// Upright lines.
    Upright,
    /// Level and upright lines.
    Crossed,
    /// Faint slanted lines, for cells without a bank.
    Falling,
}

/// The text in a cell with room for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum CellText {
    /// A letter, or nothing.
    Letter(&'static str),
    /// A letter, the size of the miss in micrometres, and the unit in which it is shown.
    Miss(&'static str, i64, MissUnit),
    /// A letter, if the shade needs one, and a chance in hundredths.
    Hundredths(&'static str, u8),
    /// The letters of two models.
    Pair(&'static str, &'static str),
}

impl CellText {
    /// The texts that may be written, the fullest first.
    pub(super) fn texts(self, fineness: Fineness) -> Vec<String> {
        match self {
            Self::Letter(letter) => vec![letter.to_owned()],
            Self::Miss(letter, size, unit) => {
                vec![format!("{letter} {}", unit.shown(size, fineness)), letter.to_owned()]
            }
            Self::Hundredths(letter, hundredths) => {
                let full = format!("{letter} {hundredths}");
                vec![full.trim_start().to_owned(), letter.to_owned()]
            }
            Self::Pair(first, second) => vec![format!("{first}·{second}")],
        }
    }
}

/// The look of a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct CellLook {
    pub(super) fill: Rgb,
    pub(super) texture: Texture,
    pub(super) mark: CellText,
    pub(super) flagged: bool,
}

/// Equal steps of the miss, the last one open, so that few far misses do not wash out the rest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Shading {
    /// In the unit.
    step: Option<f64>,
    unit: MissUnit,
}

/// Misses above this, mm, grade nothing: no table is ten kilometres long.
const LARGEST_MISS_MM: f64 = 1e7;

/// The share of misses that the closed steps are to cover.
const COVERED: f64 = 0.9;

impl Shading {
    pub(super) fn for_misses(misses_mm: impl Iterator<Item = f64>, unit: MissUnit) -> Self {
        let mut sizes: Vec<f64> =
            misses_mm.map(f64::abs).filter(|miss| *miss <= LARGEST_MISS_MM).collect();
        sizes.sort_by(f64::total_cmp);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a share of a length"
        )]
        let index = ((sizes.len().saturating_sub(1)) as f64 * COVERED).round() as usize;
        let step = sizes
            .get(index)
            .map(|covered| round_step(covered / unit.mm() / STEPS as f64))
            .filter(|step| step.is_finite() && *step > 0.0);
        Self { step, unit }
    }

    pub(super) const fn of_step(step: f64, unit: MissUnit) -> Self {
        Self { step: Some(step), unit }
    }

    pub(super) const fn step(&self) -> Option<f64> {
        self.step
    }

    pub(super) const fn unit(&self) -> MissUnit {
        self.unit
    }

    /// The step of a miss, 0 the lightest; a miss that is not known takes the middle one.
    pub(super) fn step_of(&self, miss_mm: Option<f64>) -> usize {
        let (Some(step), Some(miss)) = (self.step, miss_mm) else { return STEPS / 2 };
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "not negative, and the cast saturates"
        )]
        let index = (miss.abs() / self.unit.mm() / step) as usize;
        index.min(STEPS - 1)
    }

    /// The misses between one step and the next, in the unit, as text; none if no miss is known.
    pub(super) fn edges(&self) -> Vec<String> {
        let Some(step) = self.step else { return Vec::new() };
        (1..STEPS).map(|k| plain_number(step * k as f64, step)).collect()
    }
}

/// The smallest 1, 2, or 5 times a power of ten that is not below `least`; `least` must be
/// positive and finite for a useful answer.
pub(super) fn round_step(least: f64) -> f64 {
    if !(least.is_finite() && least > 0.0) {
        return 1.0;
    }
    let power = libm::pow(10.0, libm::log10(least).floor());
    // A grain of slack: 0.2 / 0.1 is not quite 2.
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|factor| factor * power)
        .find(|step| *step >= least * (1.0 - 1e-9))
        .unwrap_or(10.0 * power)
}

/// A number with as many decimals as steps of `step` need, and a true minus sign.
pub(super) fn plain_number(value: f64, step: f64) -> String {
    let exponent = libm::log10(step.abs()).floor();
    let largest = value.abs().max(step.abs());
    let text = if value == 0.0 {
        "0".to_owned()
    } else if largest >= 1e7 || exponent < -6.0 {
        format!("{value:.3e}")
    } else {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between 0 and 6"
        )]
        let decimals = (-exponent).clamp(0.0, 6.0) as usize;
        format!("{value:.decimals$}")
    };
    text.replace('-', "−")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_round_and_cover_most_misses() {
        let shading = Shading::for_misses((1..=100).map(f64::from), MissUnit::Millimetres);
        assert_eq!(shading.edges(), ["20", "40", "60", "80"]);
        assert_eq!(shading.step_of(Some(19.9)), 0);
        assert_eq!(shading.step_of(Some(-20.0)), 1);
        assert_eq!(shading.step_of(Some(5000.0)), STEPS - 1);
    }

    #[test]
    fn steps_are_round_in_the_unit_that_is_shown() {
        let shading = Shading::for_misses((1..=100).map(f64::from), MissUnit::Inches);
        assert_eq!(shading.edges(), ["1", "2", "3", "4"]);
        assert_eq!((shading.step_of(Some(25.3)), shading.step_of(Some(-25.5))), (0, 1));
        let text = |miss_mm| {
            let mark = CellText::Miss("L", micrometres(miss_mm), MissUnit::Inches);
            [Fineness::Fine, Fineness::Coarse].map(|fineness| mark.texts(fineness)[0].clone())
        };
        assert_eq!(
            [25.4, -241.0, 1.0].map(text),
            [["L 1.0", "L 1"], ["L 9.5", "L 9"], ["L 0.0", "L 0"]]
        );
    }

    #[test]
    fn one_far_miss_does_not_wash_out_the_rest() {
        let near = (1..=50).map(f64::from).chain([90_000.0]);
        assert_eq!(
            Shading::for_misses(near, MissUnit::Millimetres).edges(),
            ["10", "20", "30", "40"]
        );
    }

    #[test]
    fn misses_that_are_no_numbers_are_left_out() {
        let shading =
            Shading::for_misses([f64::NAN, f64::INFINITY].into_iter(), MissUnit::Millimetres);
        assert!(shading.edges().is_empty());
        assert_eq!(shading.step_of(Some(3.0)), STEPS / 2);
        let none = Shading::for_misses([0.0, 0.0].into_iter(), MissUnit::Millimetres);
        assert_eq!(none.edges().len(), STEPS - 1);
    }

    #[test]
    fn numbers_read_plainly() {
        assert_eq!(plain_number(-0.4, 0.2), "−0.4");
        assert_eq!(plain_number(1500.0, 500.0), "1500");
        assert_eq!(plain_number(0.1 + 0.2, 0.1), "0.3");
        assert_eq!(plain_number(2.0e9, 1.0e9), "2.000e9");
        assert!((round_step(0.2 / 0.1 * 0.1) - 0.2).abs() < 1e-15);
    }
}
