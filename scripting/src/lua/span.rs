//! `span(first, last, step)`: evenly spaced values, both ends included.

use super::place::{self, Placed};
use super::quantity::{self, Quantity, kind_of, plain_number, shown};
use super::word_slips;
use crate::fault::Fault;
use crate::fields::words;
use mlua::{IntoLua, Lua, MultiValue, Table, Value};
use railproof_engine::units::{Decimal, SpeedWord};

/// The most values one span may have.
pub const MOST_VALUES: usize = 100_000;

/// The last value is included when it is this close, in steps, to where it should be.
pub const LAST_WITHIN_STEPS: f64 = 1e-9;

/// The values first + i·step from `first` up (or down) to `last`.
///
/// Each is computed from its number, so nothing drifts: 1.5, 1.6, 1.7 and not 1.7000000000000002.
/// Of numbers that no short decimal gives, such as a third, a value that falls within
/// [`LAST_WITHIN_STEPS`] of `last` is `last` itself, one that close to zero is zero.
///
/// # Errors
/// With the number of the argument at fault: not finite, a zero step or one that leads away, or
/// more than [`MOST_VALUES`] values.
pub fn evenly(first: f64, last: f64, step: f64) -> Result<Vec<f64>, (usize, Fault)> {
    for (number, value) in [first, last, step].into_iter().enumerate() {
        if !value.is_finite() {
            return Err((
                number + 1,
                Fault::bad_input(format!("span needs finite values, not {value}")),
            ));
        }
    }
    let (from, to, by) = (shown(first), shown(last), shown(step));
    if step == 0.0 {
        return Err((3, Fault::bad_input("a span's step must not be zero")));
    }
    let steps = (last - first) / step;
    if steps < 0.0 {
        return Err((
            3,
            Fault::bad_input(format!("steps of {by} lead away from {to}, begun at {from}"))
                .with_hint("put the smaller end first, or a - before the step"),
        ));
    }
    let exact = exactly(first, last, step);
    let whole = match &exact {
        Some(exact) => exact.steps as f64,
        None => (steps + LAST_WITHIN_STEPS).floor(),
    };
    if whole >= MOST_VALUES as f64 {
        return Err((
            3,
            Fault::bad_input(format!(
                "a span from {from} to {to} in steps of {by} would have {} values; at most {MOST_VALUES} \
             are made",
                count_shown(whole + 1.0)
            )),
        ));
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between 0 and MOST_VALUES"
    )]
    let count = whole as usize;
    if let Some(exact) = exact {
        return Ok((0..=count).map(|i| exact.value(i)).collect());
    }
    // −0.3 + 3·0.1 is 6e-17, which no one means: rounding beside zero is zero.
    let placed =
        |value: f64| if value.abs() < LAST_WITHIN_STEPS * step.abs() { 0.0 } else { value };
    let mut values: Vec<f64> = (0..=count).map(|i| placed(first + i as f64 * step)).collect();
    if (steps - whole).abs() <= LAST_WITHIN_STEPS
        && let Some(end) = values.last_mut()
    {
        *end = last;
    }
    Ok(values)
}

/// A span whose three numbers were typed as decimals: its values are the decimals a person counts.
struct DecimalSpan {
    first: i128,
    step: i128,
    exponent: i32,
    steps: i128,
}

impl DecimalSpan {
    fn value(&self, number: usize) -> f64 {
        Decimal::of(self.first + number as i128 * self.step, self.exponent).nearest()
    }
}

fn exactly(first: f64, last: f64, step: f64) -> Option<DecimalSpan> {
    let typed = [Decimal::typed(first)?, Decimal::typed(last)?, Decimal::typed(step)?];
    let ([first, last, step], exponent) = Decimal::alike(typed)?;
    // One more product than there are values must fit.
    let steps = last.checked_sub(first)?.checked_div(step)?;
    steps.checked_add(1)?.checked_mul(step)?.checked_add(first)?;
    Some(DecimalSpan { first, step, exponent, steps })
}

fn count_shown(count: f64) -> String {
    if count < 1e16 { format!("{count:.0}") } else { "endlessly many".to_owned() }
}

/// Puts `span` into a table.
///
/// # Errors
/// Only when Lua has no memory left.
pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    let span = |lua: &Lua, (first, last, step, more): (Value, Value, Value, MultiValue)| {
        let outcome = match more.len() {
            0 => values(lua, &(first, last, step))?,
            extra => Err((4, too_many(3 + extra))),
        };
        outcome.map_err(|(number, fault)| {
            mlua::Error::from(fault.placed(place::argument(lua, "span", number)))
        })
    };
    into.raw_set("span", lua.create_function(span)?)
}

type SpanValues = Result<Table, (usize, Fault)>;

fn values(lua: &Lua, (first, last, step): &(Value, Value, Value)) -> mlua::Result<SpanValues> {
    if let Some(unit) = quantity::of_value(first) {
        let (end, by) = match (in_unit_of(unit, last, 2), in_unit_of(unit, step, 3)) {
            (Ok(end), Ok(by)) => (end, by),
            (Err(fault), _) | (_, Err(fault)) => return Ok(Err(fault)),
        };
        return match evenly(unit.amount(), end, by) {
            Ok(amounts) => {
                remark_on_the_end(lua, &amounts, end, by, unit.symbol());
                let quantities = amounts.into_iter().map(|amount| unit.with_amount(amount));
                match quantities.collect::<Result<Vec<Quantity>, Fault>>() {
                    Ok(all) => table(lua, all).map(Ok),
                    Err(fault) => Ok(Err((2, fault))),
                }
            }
            Err(fault) => Ok(Err(fault)),
        };
    }
    let mut numbers = [0.0; 3];
    for (number, value) in [first, last, step].into_iter().enumerate() {
        match plain_number(value) {
            Some(plain) => numbers[number] = plain,
            None => return Ok(Err((number + 1, not_alike(number + 1, "a plain number", value)))),
        }
    }
    match evenly(numbers[0], numbers[1], numbers[2]) {
        Ok(all) => {
            remark_on_the_end(lua, &all, numbers[1], numbers[2], "");
            table(lua, all).map(Ok)
        }
        Err(fault) => Ok(Err(fault)),
    }
}

/// Says it when the last value is not the end that was asked for.
fn remark_on_the_end(lua: &Lua, values: &[f64], end: f64, step: f64, unit: &str) {
    let Some(last) = values.last().copied().filter(|last| *last != end) else { return };
    let amount = |number: f64| format!("{} {unit}", shown(number)).trim_end().to_owned();
    place::remark(
        lua,
        &format!(
            "the span ends at {}: steps of {} do not reach {}",
            amount(last),
            amount(step),
            amount(end)
        ),
    );
}

fn too_many(given: usize) -> Fault {
    Fault::bad_input(format!("span takes three values, first, last and step, not {given}"))
        .with_hint("decimals take a point: 0.25, not 0,25")
}

fn table(lua: &Lua, values: Vec<impl IntoLua>) -> mlua::Result<Table> {
    lua.create_sequence_from(values)
}

fn in_unit_of(unit: Quantity, value: &Value, number: usize) -> Result<f64, (usize, Fault)> {
    quantity::of_value(value)
        .and_then(|other| unit.amount_of(other))
        .ok_or_else(|| (number, not_alike(number, unit.kind().described(), value)))
}

fn not_alike(number: usize, wanted: &str, value: &Value) -> Fault {
    let what = ["first value", "last value", "step"][(number - 1).min(2)];
    let is_speed = |text: &str| words::<SpeedWord>().contains(&text);
    let hint = match value.as_string().map(mlua::LuaString::to_string_lossy) {
        Some(text) if is_speed(&text) => word_slips::speed_words(),
        _ => "span takes first, last and step, all of one kind: span(mps(2), mps(6), mps(0.25))"
            .into(),
    };
    let message = if value.is_nil() {
        format!("the span's {what} is missing")
    } else {
        format!("the span's {what} is {}, not {wanted}", kind_of(value))
    };
    Fault::bad_input(message).with_hint(hint)
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "values are computed one way only")]

    use super::*;

    #[test]
    fn includes_both_ends_and_does_not_drift() {
        let values = evenly(1.25, 3.5, 0.25).unwrap();
        assert_eq!(values.len(), 10);
        assert_eq!((values[0], values[9]), (1.25, 3.5));
        let tenths = evenly(0.0, 0.3, 0.1).unwrap();
        assert_eq!(tenths.len(), 4, "0.3 / 0.1 is a little under 3 in binary");
        assert_eq!(tenths[3], 0.3);
        let many = evenly(0.0, 1000.0, 0.1).unwrap();
        assert_eq!(many.len(), 10_001);
        assert_eq!(many[5_000], 5_000.0 * 0.1);
        assert_eq!(evenly(3.0, 1.0, -1.0).unwrap(), [3.0, 2.0, 1.0]);
        assert_eq!(evenly(2.0, 2.0, 0.5).unwrap(), [2.0]);
        assert_eq!(evenly(0.0, 1.0, 0.4).unwrap(), [0.0, 0.4, 0.8]);
        assert_eq!(evenly(0.0, 1.0, 5.0).unwrap(), [0.0]);
        assert_eq!(evenly(-0.3, 0.3, 0.1).unwrap()[3], 0.0, "not 6e-17");
        // The decimal that a person counts, not the nearest sum.
        for (first, last, step, expected) in [
            (1.5, 1.8, 0.1, &[1.5, 1.6, 1.7, 1.8][..]),
            (1.4, 1.7, 0.1, &[1.4, 1.5, 1.6, 1.7]),
            (-0.2, 0.2, 0.1, &[-0.2, -0.1, 0.0, 0.1, 0.2]),
            (0.3, 0.1, -0.1, &[0.3, 0.2, 0.1]),
            (1e-3, 3e-3, 1e-3, &[0.001, 0.002, 0.003]),
            (0.0, 0.25, 0.1, &[0.0, 0.1, 0.2]),
        ] {
            assert_eq!(evenly(first, last, step).unwrap(), expected);
        }
        for (i, value) in evenly(0.0, 10.0, 0.01).unwrap().into_iter().enumerate() {
            assert_eq!(value.to_string(), (i as f64 / 100.0).to_string());
        }
        // A third was not typed.
        assert_eq!(evenly(0.0, 1.0, 1.0 / 3.0).unwrap(), [0.0, 1.0 / 3.0, 2.0 / 3.0, 1.0]);
    }

    #[test]
    fn says_which_argument_is_at_fault() {
        let refused = |first, last, step| evenly(first, last, step).unwrap_err();
        assert_eq!(refused(0.0, 1.0, 0.0).0, 3);
        assert_eq!(refused(0.0, 1.0, -0.1).0, 3);
        assert_eq!(refused(f64::NAN, 1.0, 0.1).0, 1);
        assert_eq!(refused(0.0, f64::INFINITY, 0.1).0, 2);
        assert!(refused(0.0, 1.0, 1e-12).1.message.contains("1000000000001 values"));
        assert_eq!(refused(-f64::MAX, f64::MAX, 1.0).0, 3);
    }
}
