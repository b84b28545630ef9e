//! Quantities at the edges: a number, a unit, and the SI value inside.
//!
//! Inside the engine everything is SI and names carry their unit. This layer is where text such as
//! `12 in` becomes metres, with a clear refusal when the unit is of another kind.

mod decimal;
mod parse;
mod speed;
mod spelling;

pub use decimal::{Decimal, in_si, short_number};
pub use parse::{QuantityError, leading_number, parse_quantity, unit_of_length};
pub use speed::{NO_SUCH_LAG, Speed, SpeedWord};
pub use spelling::{is_imperial, unit_symbol};

/// Metres in an inch (exact, by definition of the international inch).
pub const INCH_M: f64 = 0.0254;
/// Metres in a foot (exact).
pub const FOOT_M: f64 = 0.3048;
/// Kilograms in an avoirdupois ounce (exact: 1/16 of 0.45359237 kg).
pub const OUNCE_KG: f64 = 0.028_349_523_125;
/// Metres per second in a mile per hour (exact).
pub const MPH_M_S: f64 = 0.447_04;
/// Metres per second in a kilometre per hour.
pub const KMH_M_S: f64 = 1.0 / 3.6;
/// Radians in a degree.
pub const DEGREE_RAD: f64 = core::f64::consts::PI / 180.0;
/// Standard gravity (exact; third General Conference on Weights and Measures, 1901).
pub const STANDARD_GRAVITY_M_S2: f64 = 9.806_65;

/// The kind of quantity of a number; it decides which units the number may carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dimension {
    /// Metres inside.
    Length,
    /// Metres per second inside.
    Speed,
    /// Radians inside.
    Angle,
    /// Radians per second inside.
    SpinRate,
    /// Radians per second squared inside.
    SpinDeceleration,
    /// Kilograms inside.
    Mass,
    /// Seconds inside.
    Time,
    /// Metres per second squared inside.
    Acceleration,
    /// Per (metre per second) inside: the change of a ratio with speed.
    PerSpeed,
    /// A plain number without unit.
    Ratio,
}

/// One accepted unit: its spelling, and its size in SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// As it is written after the number.
    pub symbol: &'static str,
    /// SI value of one such unit.
    pub si: f64,
}

const fn unit(symbol: &'static str, si: f64) -> Unit {
    Unit { symbol, si }
}

const LENGTH: &[Unit] =
    &[unit("m", 1.0), unit("cm", 0.01), unit("mm", 0.001), unit("in", INCH_M), unit("ft", FOOT_M)];
const SPEED: &[Unit] = &[
    unit("m/s", 1.0),
    unit("km/h", KMH_M_S),
    unit("mph", MPH_M_S),
    unit("ft/s", FOOT_M),
    unit("in/s", INCH_M),
];
const ANGLE: &[Unit] = &[unit("rad", 1.0), unit("mrad", 0.001), unit("deg", DEGREE_RAD)];
const SPIN_RATE: &[Unit] = &[
    unit("rad/s", 1.0),
    unit("rev/s", core::f64::consts::TAU),
    unit("rpm", core::f64::consts::TAU / 60.0),
];
const SPIN_DECELERATION: &[Unit] = &[unit("rad/s^2", 1.0)];
const MASS: &[Unit] = &[unit("kg", 1.0), unit("g", 0.001), unit("oz", OUNCE_KG)];
const TIME: &[Unit] = &[unit("s", 1.0), unit("ms", 0.001)];
const ACCELERATION: &[Unit] = &[unit("m/s^2", 1.0), unit("ft/s^2", FOOT_M)];
const PER_SPEED: &[Unit] = &[unit("s/m", 1.0)];

impl Dimension {
    /// The units a quantity of this kind may carry, the SI one first; empty for a plain ratio.
    pub const fn units(self) -> &'static [Unit] {
        match self {
            Self::Length => LENGTH,
            Self::Speed => SPEED,
            Self::Angle => ANGLE,
            Self::SpinRate => SPIN_RATE,
            Self::SpinDeceleration => SPIN_DECELERATION,
            Self::Mass => MASS,
            Self::Time => TIME,
            Self::Acceleration => ACCELERATION,
            Self::PerSpeed => PER_SPEED,
            Self::Ratio => &[],
        }
    }

    /// The unit that people at a table think in.
    pub fn usual_symbol(self) -> &'static str {
        match self {
            Self::Length => "in",
            Self::Angle => "deg",
            other => other.si_symbol(),
        }
    }

    /// SI value of one of this kind's units; 1 for any other text, so that a plain ratio has the
    /// empty unit.
    pub const fn si_of(self, symbol: &str) -> f64 {
        let units = self.units();
        let mut index = 0;
        while index < units.len() {
            if same(units[index].symbol, symbol) {
                return units[index].si;
            }
            index += 1;
        }
        1.0
    }

    /// The kind in words, for messages.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Speed => "speed",
            Self::Angle => "angle",
            Self::SpinRate => "spin",
            Self::SpinDeceleration => "spin deceleration",
            Self::Mass => "mass",
            Self::Time => "time",
            Self::Acceleration => "acceleration",
            Self::PerSpeed => "loss per speed",
            Self::Ratio => "plain number",
        }
    }

    /// The SI unit as written, empty for a plain ratio.
    pub fn si_symbol(self) -> &'static str {
        self.units().first().map_or("", |unit| unit.symbol)
    }
}

/// A name with its SI unit, as columns of files and keys of JSON have it: `speed` in metres a second is
/// `speed_m_s`, a plain number keeps its name.
pub fn column_name(name: &str, dimension: Dimension) -> String {
    match dimension.si_symbol() {
        "" => name.to_owned(),
        symbol => format!("{name}_{}", symbol.replace('/', "_").replace('^', "")),
    }
}

/// A number as people write it: very large and very small ones with an exponent instead of hundreds
/// of digits.
pub fn plain(number: f64) -> String {
    let size = number.abs();
    if number == 0.0 || !number.is_finite() || (1e-15..1e16).contains(&size) {
        number.to_string()
    } else {
        format!("{number:e}")
    }
}

/// Equality of texts, where constants are made.
const fn same(a: &str, b: &str) -> bool {
    let (a, b) = (a.as_bytes(), b.as_bytes());
    if a.len() != b.len() {
        return false;
    }
    let mut index = 0;
    while index < a.len() {
        if a[index] != b[index] {
            return false;
        }
        index += 1;
    }
    true
}
