//! The single values an option may have.

use crate::fault::Fault;
use crate::fields::{
    Mismatch, Worded, Writing, check_name, listed, place_among, quantity_expected, words,
};
use crate::lua::quantity::{self, QuantityKind, plain_number};
use mlua::{Function, Table, Value};
use railproof_engine::units::{Dimension, Speed, leading_number, plain};
use std::marker::PhantomData;

/// A kind of value: its reader, and the words for it.
pub trait Kind {
    /// The result of reading.
    type Output;

    /// The expected kind, in words that follow "must be".
    fn expected(&self) -> String;

    /// Reads a value.
    ///
    /// # Errors
    /// When it is of another kind, without the option's name, which the caller knows.
    fn read(&self, value: &Value) -> Result<Self::Output, Mismatch>;
}

/// A finite plain number.
#[derive(Debug, Clone, Copy)]
pub struct Number;

/// A finite plain number.
pub const fn number() -> Number {
    Number
}

impl Kind for Number {
    type Output = f64;

    fn expected(&self) -> String {
        quantity_expected(Dimension::Ratio)
    }

    fn read(&self, value: &Value) -> Result<f64, Mismatch> {
        match plain_number(value) {
            Some(number) if number.is_finite() => Ok(number),
            Some(number) => Err(Mismatch::content(format!("must be finite, not {number}"))),
            None => {
                let other = Mismatch::other_sort(&self.expected(), value);
                let text = value.as_string().map(mlua::LuaString::to_string_lossy);
                let number = text.and_then(|text| text.trim().parse::<f64>().ok());
                Err(match number.filter(|number| number.is_finite()) {
                    Some(number) => {
                        other.with_hint(format!("without quotes: {}", quantity::shown(number)))
                    }
                    None => other,
                })
            }
        }
    }
}

/// A whole number that is not negative, up to 2^53.
#[derive(Debug, Clone, Copy)]
pub struct WholeNumber;

/// A whole number that is not negative, up to 2^53.
pub const fn whole_number() -> WholeNumber {
    WholeNumber
}

impl Kind for WholeNumber {
    type Output = u64;

    fn expected(&self) -> String {
        "a whole number from 0 on".to_owned()
    }

    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "checked to be whole and from 0 to 2^53"
    )]
    fn read(&self, value: &Value) -> Result<u64, Mismatch> {
        match plain_number(value) {
            Some(number)
                if number.fract() == 0.0 && (0.0..=9_007_199_254_740_992.0).contains(&number) =>
            {
                Ok(number as u64)
            }
            Some(number) => {
                let number = plain(number);
                Err(Mismatch::content(format!("must be {}, not {number}", self.expected())))
            }
            None => Err(Mismatch::other_sort(&self.expected(), value)),
        }
    }
}

/// A quantity of a dimension, as its SI value.
#[derive(Debug, Clone, Copy)]
pub struct OfDimension(Dimension);

/// A quantity of a dimension, as its SI value. For speeds [`speed`] also takes table lengths.
pub const fn quantity(dimension: Dimension) -> OfDimension {
    OfDimension(dimension)
}

impl Kind for OfDimension {
    type Output = f64;

    fn expected(&self) -> String {
        quantity_expected(self.0)
    }

    fn read(&self, value: &Value) -> Result<f64, Mismatch> {
        let wanted = QuantityKind::Of(self.0);
        match quantity::of_value(value) {
            Some(found) => found.si(self.0).ok_or_else(|| wrong_unit(wanted, &found.to_string())),
            // As in a text: the length 0 needs no unit.
            None if self.0 == Dimension::Length && plain_number(value) == Some(0.0) => Ok(0.0),
            None => Err(not_a_quantity(wanted, value)),
        }
    }
}

/// A speed in units or in table lengths.
#[derive(Debug, Clone, Copy)]
pub struct AnySpeed;

/// A speed in units or in table lengths.
pub const fn speed() -> AnySpeed {
    AnySpeed
}

impl Kind for AnySpeed {
    type Output = Speed;

    fn expected(&self) -> String {
        quantity_expected(Dimension::Speed)
    }

    fn read(&self, value: &Value) -> Result<Speed, Mismatch> {
        let wanted = QuantityKind::Of(Dimension::Speed);
        match quantity::of_value(value) {
            Some(found) => found.speed().ok_or_else(|| {
                let mismatch = wrong_unit(wanted, &found.to_string());
                let hint = mismatch.hint.clone().unwrap_or_default();
                mismatch.with_hint(format!("{hint}, lengths"))
            }),
            None => Err(not_a_quantity(wanted, value)),
        }
    }
}

fn wrong_unit(wanted: QuantityKind, found: &str) -> Mismatch {
    let QuantityKind::Of(dimension) = wanted else {
        return Mismatch::message(format!("must be {}, not {found}", wanted.described()));
    };
    let units: Vec<&str> = dimension.units().iter().map(|unit| unit.symbol).collect();
    Mismatch::message(format!("must be {}, not {found}", wanted.described()))
        .with_hint(format!("its unit is one of: {}", units.join(", ")))
}

fn not_a_quantity(wanted: QuantityKind, value: &Value) -> Mismatch {
    if let Some(number) = plain_number(value) {
        if number < 0.0 && matches!(wanted, QuantityKind::Of(Dimension::Speed)) {
            // Most likely two speeds with a dash between them.
            let hint = "no speed is below 0; a range is span(mps(1.5), mps(5), mps(0.25))";
            return Mismatch::message("needs a unit").with_hint(hint.to_owned());
        }
        let amount = if number.is_finite() { number } else { 1.0 };
        return Mismatch::message("needs a unit")
            .with_hint(format!("write {}", quantity::example(wanted, amount)));
    }
    let other = Mismatch::other_sort(&format!("{} with its unit", wanted.described()), value);
    if let Value::String(text) = value
        && let text = text.to_string_lossy()
        && let Some((amount, unit)) = leading_number(text.trim())
        && let Err(Fault { hint: Some(hint), .. }) = quantity::Quantity::parse(&text)
    {
        return other.with_hint(match unit {
            "" => format!("write {}", quantity::example(wanted, amount)),
            _ => hint,
        });
    }
    other.with_hint(format!("write it like {}", quantity::example(wanted, 3.0)))
}

/// One of a set of words, each standing for a value.
#[derive(Debug)]
pub struct Choice<'a, T>(&'a [(&'a str, T)]);

/// One of a set of words, each standing for a value.
pub const fn choice<'a, T: Clone>(words: &'a [(&'a str, T)]) -> Choice<'a, T> {
    Choice(words)
}

impl<T: Clone> Kind for Choice<'_, T> {
    type Output = T;

    fn expected(&self) -> String {
        listed(&self.words(), Writing::Lua)
    }

    fn read(&self, value: &Value) -> Result<T, Mismatch> {
        place_among(value, &self.words()).map(|at| self.0[at].1.clone())
    }
}

impl<'a, T> Choice<'a, T> {
    fn words(&self) -> Vec<&'a str> {
        self.0.iter().map(|(word, _)| *word).collect()
    }
}

/// A thing that people choose by its word.
#[derive(Debug, Clone, Copy)]
pub struct WordFor<T>(PhantomData<T>);

/// A thing that people choose by its word.
pub(crate) const fn word<T: Worded>() -> WordFor<T> {
    WordFor(PhantomData)
}

impl<T: Worded> Kind for WordFor<T> {
    type Output = T;

    fn expected(&self) -> String {
        listed(&words::<T>(), Writing::Lua)
    }

    fn read(&self, value: &Value) -> Result<T, Mismatch> {
        place_among(value, &words::<T>()).map(|at| T::ALL[at])
    }
}

/// Declares a kind that one sort of Lua value fits.
macro_rules! plain_kind {
    ($(#[$doc:meta])* $type:ident, $make:ident, $output:ty, $expected:literal, $value:ident => $read:expr) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy)]
        pub struct $type;

        $(#[$doc])*
        pub const fn $make() -> $type {
            $type
        }

        impl Kind for $type {
            type Output = $output;

            fn expected(&self) -> String {
                $expected.to_owned()
            }

            fn read(&self, $value: &Value) -> Result<$output, Mismatch> {
                let read: Option<$output> = $read;
                read.ok_or_else(|| Mismatch::other_sort($expected, $value))
            }
        }
    };
}

plain_kind!(
    /// `true` or `false`.
    Boolean, boolean, bool, "true or false", value => value.as_boolean()
);
plain_kind!(
    /// A text.
    Text, text, String, "text in quotes", value => match value {
        Value::String(text) => text.to_str().ok().map(|text| text.to_owned()),
        _ => None,
    }
);
/// A name that a person gives to something: one line of plain text.
#[derive(Debug, Clone, Copy)]
pub struct GivenName;

/// A name that a person gives to something: one line of plain text.
pub const fn name() -> GivenName {
    GivenName
}

impl Kind for GivenName {
    type Output = String;

    fn expected(&self) -> String {
        Text.expected()
    }

    fn read(&self, value: &Value) -> Result<String, Mismatch> {
        let name = Text.read(value)?;
        check_name(&name)?;
        Ok(name)
    }
}

plain_kind!(
    /// A table, to be read by its own rules.
    AnyTable, table, Table, "a table", value => value.as_table().cloned()
);
plain_kind!(
    /// A Lua function.
    AnyFunction, function, Function, "a function", value => value.as_function().cloned()
);

/// A thing that one of the host's own functions made.
#[derive(Debug, Clone, Copy)]
pub struct Object<T> {
    described: &'static str,
    made: PhantomData<T>,
}

/// A thing that one of the host's own functions made, copied out; `described` names it with its
/// article: "an equipment".
pub const fn object<T: Clone + 'static>(described: &'static str) -> Object<T> {
    Object { described, made: PhantomData }
}

impl<T: Clone + 'static> Kind for Object<T> {
    type Output = T;

    fn expected(&self) -> String {
        self.described.to_owned()
    }

    fn read(&self, value: &Value) -> Result<T, Mismatch> {
        let Value::UserData(data) = value else {
            return Err(Mismatch::other_sort(self.described, value));
        };
        match data.borrow::<T>() {
            Ok(object) => Ok(object.clone()),
            Err(_) => Err(Mismatch::other_sort(self.described, value)),
        }
    }
}
