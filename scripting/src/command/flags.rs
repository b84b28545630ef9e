//! Numbers, quantities and words given as flags; every refusal names its flag.

use crate::fault::Fault;
use crate::fields::{self, Mismatch, Scalar, Worded, WrittenText, place_among, words};
use railproof_engine::equipment::Parameter;
use railproof_engine::units::Dimension;

pub(super) fn quantity(flag: &str, text: &str, parameter: Parameter) -> Result<f64, Fault> {
    // Nothing is nothing in every unit.
    match text.trim() {
        "0" => in_range(&format!("`{flag}`"), 0.0, Some(parameter)),
        _ => measured(flag, text, parameter),
    }
}

pub(super) fn measured(flag: &str, text: &str, parameter: Parameter) -> Result<f64, Fault> {
    let (si, shown) = WrittenText(text).quantity(&parameter).map_err(|it| {
        // A number with something behind it has help of its own.
        let begun =
            text.trim().starts_with(|letter: char| letter.is_ascii_digit() || letter == '-');
        match example(flag).filter(|_| !begun && it.hint.is_some()) {
            Some(example) => unfit(flag, it).with_hint(example),
            None => unfit(flag, it),
        }
    })?;
    fields::in_range(&parameter, si, &shown).map_err(|mismatch| unfit(flag, mismatch))
}

pub(super) fn number(flag: &str, text: &str, parameter: Option<Parameter>) -> Result<f64, Fault> {
    let any = Parameter::new("", Dimension::Ratio, f64::MIN, f64::MAX, "");
    quantity(flag, text, parameter.unwrap_or(any))
}

/// A value that makes sense of a flag whose value is none.
fn example(flag: &str) -> Option<&'static str> {
    Some(match flag {
        "--contact" => "give a number of diamonds, such as `2`",
        "--start" => "give a number of diamonds, such as `4.4`",
        "--slope" => "give a number, such as `2.2`",
        "--offset" => "give a number of diamonds, such as `0.1`; `0` is none",
        "--roll" => "give a number, such as `1` for rolling, `0` for stun or `-0.5` for draw",
        "--running-side" => {
            "give a number, such as `0.3` for running or `-0.3` for reverse side; `0` is none"
        }
        "--aim-error" => "write it like `2 mrad` or `0.1 deg`",
        _ => return None,
    })
}

pub(super) fn in_range(what: &str, value: f64, parameter: Option<Parameter>) -> Result<f64, Fault> {
    let Some(parameter) = parameter else { return Ok(value) };
    parameter.check(value).map_err(|error| {
        Fault::bad_input(format!(
            "{what} is {}; it must be from {} to {}",
            error.value, error.low, error.high
        ))
    })
}

pub(super) fn word<T: Worded>(flag: &str, text: &str) -> Result<T, Fault> {
    let place = place_among(&WrittenText(text.trim()), &words::<T>());
    place.map(|at| T::ALL[at]).map_err(|mismatch| unfit(flag, mismatch))
}

pub(super) fn unfit(flag: &str, mismatch: Mismatch) -> Fault {
    let fault = Fault::bad_input(mismatch.about(flag));
    match mismatch.hint {
        Some(hint) => fault.with_hint(hint),
        None => fault,
    }
}

/// A fault that stands in no file is one of the flag itself.
pub(super) fn in_flag(flag: &str, fault: Fault) -> Fault {
    match fault.place {
        Some(_) => fault,
        None => Fault { message: format!("`{flag}`: {}", fault.message), ..fault },
    }
}
