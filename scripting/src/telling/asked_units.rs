//! The units of an answer: those in which the question was asked.

use super::wording::{WHOLE_FROM_MM, millimetres};
use crate::layout::Layout;
use railproof_engine::units::{Dimension, INCH_M, is_imperial, short_number, unit_of_length};

/// The units in which lengths and speeds are answered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AskedUnits {
    inches: bool,
    speed: (&'static str, f64),
}

impl AskedUnits {
    /// Millimetres and metres a second.
    pub const METRIC: Self = Self { inches: false, speed: ("m/s", 1.0) };

    /// Those of lengths and a speed as they were written. Feet and miles an hour ask for inches too;
    /// where no unit asks, the table's do.
    pub fn of(lengths: &[&str], speed: &str, table_in_inches: bool) -> Self {
        let units = Dimension::Speed.units().iter();
        // The longest unit that it ends with: `cm/s` would end with `m/s` too.
        let speed = units
            .filter(|unit| speed.trim().ends_with(unit.symbol))
            .max_by_key(|unit| unit.symbol.len())
            .map_or(Self::METRIC.speed, |unit| (unit.symbol, unit.si));
        let of_lengths = lengths.iter().any(|text| is_imperial(unit_of_length(text)));
        let metric = |symbol: &str| symbol.ends_with('m');
        let of_speed =
            is_imperial(speed.0) && !lengths.iter().any(|text| metric(unit_of_length(text)));
        let of_table =
            table_in_inches && lengths.iter().all(|text| unit_of_length(text).is_empty());
        Self { inches: of_lengths || of_speed || of_table, speed }
    }

    /// Whether lengths are told in inches.
    pub const fn in_inches(self) -> bool {
        self.inches
    }

    /// Those in which a scenario's lengths are shown.
    pub const fn of_scenario(in_inches: bool) -> Self {
        Self { inches: in_inches, ..Self::METRIC }
    }

    /// A distance from the middle of the mouth, with which side of it: `12.3 mm long`.
    pub fn miss(self, miss_m: f64) -> String {
        let size = self.tenth(miss_m.abs());
        match size.as_str() {
            "0.0 mm" => "0 mm".to_owned(),
            _ if miss_m > 0.0 => format!("{size} long"),
            _ => format!("{size} short"),
        }
    }

    /// A small length as a number and its unit.
    pub fn amount(self, metres: f64) -> (f64, &'static str) {
        if self.inches { (metres / INCH_M, "in") } else { (1e3 * metres, "mm") }
    }

    /// A length with its sign to a tenth of a millimetre, or as a ruler in inches has it.
    pub fn tenth(self, metres: f64) -> String {
        if self.inches {
            format!("{}{}", if metres < 0.0 { "−" } else { "" }, inches(metres.abs()))
        } else {
            format!("{:.1} mm", 1e3 * metres)
        }
    }

    /// A length with its sign to hundredths, to be told from another.
    pub fn hundredth(self, metres: f64) -> String {
        let (unit, per_unit) = if self.inches { ("in", INCH_M) } else { ("mm", 1e-3) };
        format!("{:.2} {unit}", metres / per_unit)
    }

    /// Those of a layout.
    pub fn of_layout(layout: &Layout) -> Self {
        let written = Dimension::Speed.units().iter().find(|it| it.symbol == layout.speed_unit);
        let speed = written.map_or(Self::METRIC.speed, |unit| (unit.symbol, unit.si));
        Self { inches: layout.in_inches, speed }
    }

    /// A length on a table, without a sign: `1 1/2 in`, `38 mm`.
    pub fn length(self, metres: f64) -> String {
        if self.inches { inches(metres.abs()) } else { millimetres(metres.abs()) }
    }

    /// The length that [`AskedUnits::length`] tells for this one, m, with its sign.
    pub fn told_m(self, metres: f64) -> f64 {
        let step_m = match (self.inches, metres.abs()) {
            (true, size) => INCH_M / inch_parts(size),
            (false, size) if 1e3 * size < WHOLE_FROM_MM => 1e-4,
            (false, _) => 1e-3,
        };
        (metres / step_m).round() * step_m
    }

    /// A difference of lengths that were told, with its sign, as fine as they are.
    pub fn signed_part(self, metres: f64) -> String {
        let sign = if metres < 0.0 { "−" } else { "+" };
        let size = metres.abs();
        if self.inches {
            return format!("{sign}{}", in_parts(size, 16.0));
        }
        format!("{sign}{} mm", short_number(1e3 * size, 1))
    }

    /// The same with its sign: `+38 mm`.
    pub fn signed(self, metres: f64) -> String {
        format!("{}{}", if metres < 0.0 { "−" } else { "+" }, self.length(metres))
    }

    /// A move of a hit, finer than a length on a table: `4.2 mm`, `3/32 in`.
    pub fn hit(self, metres: f64) -> String {
        if self.inches {
            in_parts(metres, 32.0)
        } else {
            format!("{} mm", short_number(1e3 * metres, 1))
        }
    }

    /// True where a length would be told as nothing.
    pub fn is_nothing(self, metres: f64) -> bool {
        metres.abs() < if self.inches { INCH_M / 32.0 } else { 1e-3 }
    }

    /// A speed to a decimal, as finely as people meter it, or below 1 to two; rounded by `round`.
    pub fn speed(self, m_s: f64, round: fn(f64) -> f64) -> String {
        let decimals = if m_s / self.speed.1 < 1.0 { 2 } else { 1 };
        self.speed_to(m_s, decimals, round)
    }

    /// A speed to some decimals.
    pub fn speed_to(self, m_s: f64, decimals: usize, round: fn(f64) -> f64) -> String {
        let (symbol, si) = self.speed;
        let parts = if decimals == 1 { 10.0 } else { 100.0 };
        // A round number is left as it is.
        let scaled = parts * m_s / si;
        let near = scaled.round();
        let counted = if (scaled - near).abs() < 1e-4 { near } else { round(scaled) };
        format!("{} {symbol}", short_number(counted / parts, decimals))
    }

    /// So many tenths of the unit of speed, m/s.
    pub fn speed_parts(self, tenths: f64) -> f64 {
        0.1 * tenths * self.speed.1
    }

    /// The small unit in which a sum is told, and so many metres of it make one count: tenths of a
    /// millimetre, hundredths of an inch.
    pub fn fine(self) -> (&'static str, f64, usize) {
        if self.inches { ("inches", 0.01 * INCH_M, 2) } else { ("mm", 1e-4, 1) }
    }
}

/// The symbol of the unit of a quantity as it was written; empty without one.
/// Inches in eighths, and in sixteenths below one: `1 1/2 in`.
fn inches(metres: f64) -> String {
    in_parts(metres, inch_parts(metres))
}

/// The parts of an inch in which a length is told.
const fn inch_parts(metres: f64) -> f64 {
    if metres < INCH_M { 16.0 } else { 8.0 }
}

fn in_parts(metres: f64, parts: f64) -> String {
    let size = metres / INCH_M;
    let whole = (size * parts).round() / parts;
    let (mut over, mut under) = ((whole.fract() * parts).round(), parts);
    while over > 0.0 && over % 2.0 == 0.0 {
        (over, under) = (over / 2.0, under / 2.0);
    }
    match (whole.trunc(), over) {
        (0.0, 0.0) => format!("under 1/{parts} in"),
        (whole, 0.0) => format!("{whole} in"),
        (0.0, over) => format!("{over}/{under} in"),
        (whole, over) => format!("{whole} {over}/{under} in"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_answer_is_in_the_units_of_the_question() {
        let units = |length: &str, speed: &str| AskedUnits::of(&[length], speed, false);
        assert_eq!(units("10 in", "3 m/s").length(0.0381), "1 1/2 in");
        assert_eq!(units("25 cm", "3 m/s").length(0.0381), "38 mm");
        assert_eq!(units("0", "7 mph").length(0.0381), "1 1/2 in");
        assert_eq!(units("25 cm", "7 mph").length(0.0381), "38 mm");
        assert_eq!(units("0", "medium"), AskedUnits::METRIC);
        let on_inches = |length| AskedUnits::of(&[length], "3 m/s", true).length(0.0381);
        assert_eq!(["0", "25 cm"].map(on_inches), ["1 1/2 in", "38 mm"]);
        assert_eq!(AskedUnits::METRIC.miss(0.0123), "12.3 mm long");
        assert_eq!(AskedUnits::METRIC.miss(-0.0123), "12.3 mm short");
        assert_eq!(AskedUnits::METRIC.miss(-1e-9), "0 mm");
        assert_eq!(AskedUnits::of_scenario(true).miss(-0.0381), "1 1/2 in short");
        assert_eq!(units("0", "7 mph").speed(3.12928, f64::ceil), "7 mph");
        assert_eq!(units("0", "2 ft/s").speed(0.3048, f64::ceil), "1 ft/s");
        assert_eq!(AskedUnits::METRIC.speed(1.0004, f64::ceil), "1.1 m/s");
        assert_eq!(AskedUnits::METRIC.speed(8.0799, f64::floor), "8 m/s");
    }

    #[test]
    fn inches_are_told_in_parts_that_a_ruler_has() {
        let told = [0.0005, 0.0016, 0.0254, 0.0857, 0.0190, 0.0251].map(inches);
        assert_eq!(told, ["under 1/16 in", "1/16 in", "1 in", "3 3/8 in", "3/4 in", "1 in"]);
    }

    #[test]
    fn what_is_told_adds_up() {
        let units = AskedUnits::of(&["10 in"], "3 m/s", false);
        let (told, part) = (0.0381 * 0.83 + 0.0262, 0.0262);
        let rest = units.told_m(told) - units.told_m(part);
        assert_eq!([units.length(told), units.length(part)], ["2 1/4 in", "1 in"]);
        assert_eq!(units.signed_part(rest), "+1 1/4 in");
        let metric = AskedUnits::METRIC;
        assert_eq!([metric.length(0.0354), metric.length(0.0094)], ["35 mm", "9.4 mm"]);
        let rest = metric.told_m(0.0354) - metric.told_m(0.0094);
        assert_eq!(metric.signed_part(-rest), "−25.6 mm");
    }
}
