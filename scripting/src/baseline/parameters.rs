//! The sentence that says which parameter moved.

use crate::record::MovedParameter;
use crate::telling::joined;
use railproof_engine::equipment::{EquipmentNumber, Parameter, Section};
use railproof_engine::sweep::Input;
use railproof_engine::units::plain;
use std::collections::BTreeSet;

/// `the cushion's restitution was 0.85, is 0.8`.
pub(super) fn moved(name: &str, what: &str, was: &str, is: &str) -> MovedParameter {
    let (was, is) = (shortened(was), shortened(is));
    let words = format!("{what} was {was}, is {is}");
    MovedParameter { name: name.to_owned(), was, is, words }
}

/// Values that are longer are cut: files of others hold what they like.
const LONGEST: usize = 200;

fn shortened(value: &str) -> String {
    if value.chars().count() <= LONGEST {
        return value.to_owned();
    }
    value.chars().take(LONGEST).chain(['…']).collect()
}

/// An input that is played at other values, as a baseline writes them; nothing where they are the same.
pub(super) fn moved_axis(input: Input, was: &[&str], is: &[&str]) -> Option<MovedParameter> {
    let sorted = |values: &[&str]| -> BTreeSet<String> {
        values.iter().map(|value| (*value).to_owned()).collect()
    };
    if was.is_empty() || is.is_empty() || sorted(was) == sorted(is) {
        return None;
    }
    let (was, mut is) = (in_words(input, was), in_words(input, is));
    if was == is {
        is += ", and others";
    }
    Some(moved(input.name(), &what_of(input), &was, &is))
}

/// More values are told by their number and their ends.
const MOST_LISTED: usize = 5;

/// `3 m/s`, `corner, side`, `17 values from 2 m/s to 6 m/s`.
fn in_words(input: Input, values: &[&str]) -> String {
    let numbers: Vec<f64> = values.iter().filter_map(|value| value.parse().ok()).collect();
    let Some(parameter) = input.parameter().filter(|_| numbers.len() == values.len()) else {
        return values.join(", ");
    };
    let amount = ParameterAmount(parameter);
    if let [only] = numbers.as_slice() {
        return amount.short(*only);
    }
    if numbers.len() <= MOST_LISTED {
        let each: Vec<String> = numbers.iter().map(|number| amount.short(*number)).collect();
        return joined(&each);
    }
    let low = numbers.iter().copied().fold(f64::INFINITY, f64::min);
    let high = numbers.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    format!("{} values from {} to {}", numbers.len(), amount.short(low), amount.short(high))
}

/// `the speed at launch`.
fn what_of(input: Input) -> String {
    match input {
        Input::Number(number) => title(number),
        _ => format!("the {}", input.title()),
    }
}

/// An input that had one value and has another one now, both as a baseline writes them.
pub(super) fn moved_input(input: Input, was: &str, is: &str) -> MovedParameter {
    let (was, is) = match (input.parameter(), was.parse(), is.parse()) {
        (Some(parameter), Ok(old), Ok(new)) => ParameterAmount(parameter).both(old, new),
        _ => (was.to_owned(), is.to_owned()),
    };
    moved(input.name(), &what_of(input), &was, &is)
}

/// Amounts of a parameter in words.
pub(super) struct ParameterAmount(pub(super) Parameter);

impl ParameterAmount {
    /// In the unit of its limits, without the last bits, which come from the change of unit.
    fn short(&self, si: f64) -> String {
        let shown = self.0.shown(si);
        let (number, unit) = shown.split_once(' ').unwrap_or((&shown, ""));
        let rounded = number.parse::<f64>().ok().and_then(|it| format!("{it:.9e}").parse().ok());
        let number = rounded.map_or_else(|| number.to_owned(), plain);
        format!("{number} {unit}").trim_end().to_owned()
    }

    /// Two amounts that differ, SI, with as many digits as set them apart.
    pub(super) fn both(&self, was: f64, is: f64) -> (String, String) {
        let (one, other) = (self.short(was), self.short(is));
        if one != other {
            return (one, other);
        }
        let symbol = self.0.dimension.si_symbol();
        let full = |si: f64| format!("{si} {symbol}").trim_end().to_owned();
        (full(was), full(is))
    }
}

/// `the cushion's restitution`.
pub(super) fn title(number: EquipmentNumber) -> String {
    let title = number.title();
    match number.section() {
        Section::Table => format!("the table's {title}"),
        Section::Cloth => format!("the cloth's {title}"),
        Section::Cushion => format!("the cushion's {title}"),
        Section::Ball | Section::BallContact | Section::Cue | Section::Speeds => {
            format!("the {title}")
        }
        Section::Whole => title.to_owned(),
    }
}
