//! Amounts to write instead of those that are refused.

use super::writing::{Writing, plain_shown};
use railproof_engine::equipment::Parameter;
use railproof_engine::units::{Dimension, leading_number, parse_quantity, unit_symbol};

/// The words for the two sides of a number's zero: its name, those above with what is +, those below
/// with what is −.
type Sides = (&'static str, &'static [&'static str], &'static [&'static str], [&'static str; 2]);

const SIDES: [Sides; 3] = [
    ("tip_side", &["right"], &["left"], ["right", "left"]),
    (
        "tip_height",
        &["high", "top", "above", "up", "follow", "roll"],
        &["low", "bottom", "below", "down", "draw"],
        ["above the middle", "below the middle"],
    ),
    (
        "running_side",
        &["running", "natural"],
        &["reverse", "check", "hold", "holding"],
        ["running side", "reverse side"],
    ),
];

/// A hint on a word where a number with a sign belongs.
pub(crate) fn signed_hint(name: &str, text: &str, writing: Writing) -> Option<String> {
    let (_, above, below, [plus, minus]) = SIDES.iter().find(|(own, ..)| *own == name)?;
    let shown = |number: f64| match writing {
        Writing::Lua => plain_shown(number),
        Writing::Yaml => format!("`{}`", plain_shown(number)),
    };
    let text = text.trim().to_ascii_lowercase();
    let words = || text.split_whitespace();
    let has = |side: &[&str]| words().any(|word| side.contains(&word));
    let amount = words().find_map(|word| word.parse().ok()).map_or(0.2, f64::abs);
    if has(above) {
        return Some(format!("{plus} is +, such as {}", shown(amount)));
    }
    if has(below) {
        return Some(format!("{minus} is −, such as {}", shown(-amount)));
    }
    // Left and right say nothing without the rail.
    has(&["left", "right"]).then(|| {
        format!("{plus} is +, such as {}; {minus} is −, such as {}", shown(amount), shown(-amount))
    })
}

/// An amount that a parameter accepts.
pub(super) fn example(parameter: &Parameter) -> String {
    let Parameter { dimension, low, high, unit, .. } = *parameter;
    let holds = |number: &f64| (low..=high).contains(number);
    match dimension {
        Dimension::Length if holds(&0.254) => "10 in".to_owned(),
        Dimension::Angle if holds(&0.5) => "30 deg".to_owned(),
        Dimension::Ratio if high <= 3.0 => {
            plain_shown([0.2, 0.5].into_iter().find(holds).unwrap_or(high))
        }
        _ => Writing::Yaml.quantity(3.0_f64.clamp(low, high), unit),
    }
}

/// A hint on a unit where none belongs.
pub(super) fn plain_hint(unit: &str, text: &str, parameter: &Parameter) -> String {
    let amount = leading_number(text).map_or(f64::NAN, |(amount, _)| amount);
    let percent = matches!(unit, "%" | "percent");
    let amount = if percent { amount / 100.0 } else { amount };
    match (parameter.check(amount), percent) {
        (Ok(amount), true) => format!("write `{}`", plain_shown(amount)),
        (Ok(amount), false) if is_field(unit) => {
            format!("a comma is missing: write `{}, {unit}`", plain_shown(amount))
        }
        (Ok(amount), false) => format!("it takes no unit: write `{}`", plain_shown(amount)),
        (Err(refused), _) => {
            format!("it takes no unit; it is from {} to {}", refused.low, refused.high)
        }
    }
}

/// Whether what stands behind a number is the next field's name, for all that is known.
fn is_field(unit: &str) -> bool {
    unit.len() > 2
        && unit.chars().all(|letter| letter.is_ascii_lowercase() || letter == '_')
        && everyday_unit(unit).is_none()
}

/// The unit that a spelling stands for, of those that people write behind a number.
pub(crate) fn everyday_unit(spelt: &str) -> Option<&'static str> {
    let symbol = unit_symbol(spelt);
    let of =
        [Dimension::Length, Dimension::Speed, Dimension::Angle, Dimension::Mass, Dimension::Time];
    let mut known = of.into_iter().flat_map(Dimension::units).map(|unit| unit.symbol);
    known.find(|known| *known == symbol)
}

/// The unit behind an amount without one with which a parameter accepts it, where its usual one would not do.
pub(super) fn fitting_unit(text: &str, parameter: &Parameter) -> Option<&'static str> {
    let accepted = |unit: &str| {
        let read = parse_quantity(&format!("{text} {unit}"), parameter.dimension);
        read.is_ok_and(|si| parameter.accepts(si))
    };
    let mut units = parameter.dimension.units().iter().map(|unit| unit.symbol);
    units.find(|unit| accepted(unit))
}

/// A hint on a length in feet and inches, or on two lengths in one.
pub(super) fn length_hint(text: &str) -> Option<String> {
    let (first, rest) = leading_number(text)?;
    if let Some(rest) = rest.strip_prefix(['x', 'X', '×', '*']) {
        let (_, unit) = leading_number(rest.trim())?;
        let unit = unit_symbol(unit);
        let known = Dimension::Length.units().iter().any(|known| known.symbol == unit);
        return known
            .then(|| format!("give one length in a field: `{} {unit}`", plain_shown(first)));
    }
    let spellings = ["feet", "foot", "ft.", "ft", "'", "′", "’"];
    let rest = spellings.iter().find_map(|foot| rest.strip_prefix(foot))?;
    let (inches, unit) = leading_number(rest.trim())?;
    let inches = if first < 0.0 { -inches } else { inches };
    matches!(unit_symbol(unit), "" | "in").then(|| {
        format!(
            "feet and inches are written as inches: `{} in`",
            plain_shown(12.0 * first + inches)
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn feet_and_inches_become_inches() {
        for text in ["3' 3\"", "3 ft 3 in", "3'3", "3 feet 3 inches", "3′ 3″"] {
            assert!(length_hint(text).is_some_and(|hint| hint.ends_with(" `39 in`")), "{text}");
        }
        assert!(length_hint("78x39 in").is_some_and(|hint| hint.ends_with(" `78 in`")));
        assert_eq!(length_hint("3 yards"), None);
    }
}
