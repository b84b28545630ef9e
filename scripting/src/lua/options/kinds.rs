//! The single values an option may have.

use crate::lua::calls::FieldPart;
use crate::lua::quantity::{self, QuantityKind, kind_of, plain_number};
use crate::renamed;
use mlua::{Function, Table, Value};
use railproof_engine::units::{Dimension, Speed};
use std::marker::PhantomData;

/// A kind of value: how it is read, and what is expected in words.
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

/// Why a value is not of its kind; the message follows the option's name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mismatch {
    /// The fault: "must be …, not …".
    pub message: String,
    /// Advice on a value to write.
    pub hint: Option<String>,
    /// The item of a list, counted from 1.
    pub item: Option<usize>,
    /// The thing that the caret stands under.
    pub mark: FieldPart,
    /// Whether the value is of the right sort and only its content is wrong.
    pub near: bool,
}

impl Mismatch {
    /// A value of another sort altogether.
    pub fn other_sort(expected: &str, value: &Value) -> Self {
        Self::message(format!("must be {expected}, not {}", kind_of(value)))
    }

    /// A message of one's own, under the option's name.
    pub fn message(message: impl Into<String>) -> Self {
        let message = message.into();
        Self { message, hint: None, item: None, mark: FieldPart::Key, near: false }
    }

    /// The right sort with the wrong content: the caret goes under the value.
    pub fn content(message: impl Into<String>) -> Self {
        Self { mark: FieldPart::Value, near: true, ..Self::message(message) }
    }

    /// The same with a hint.
    #[must_use]
    pub fn with_hint(self, hint: impl Into<String>) -> Self {
        Self { hint: Some(hint.into()), ..self }
    }
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
        "a plain number".to_owned()
    }

    fn read(&self, value: &Value) -> Result<f64, Mismatch> {
        match plain_number(value) {
            Some(number) if number.is_finite() => Ok(number),
            Some(number) => Err(Mismatch::content(format!("must be finite, not {number}"))),
            None => Err(Mismatch::other_sort(&self.expected(), value)),
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
        "a whole number".to_owned()
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
            Some(number) => Err(Mismatch::content(format!("must be a whole number, not {number}"))),
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
        format!("{} with its unit", QuantityKind::Of(self.0).described())
    }

    fn read(&self, value: &Value) -> Result<f64, Mismatch> {
        let wanted = QuantityKind::Of(self.0);
        match quantity::of_value(value) {
            Some(found) => found.si(self.0).ok_or_else(|| wrong_unit(wanted, &found.to_string())),
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
        "a speed with its unit".to_owned()
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
        let amount = if number.is_finite() { number } else { 1.0 };
        return Mismatch::message("needs a unit")
            .with_hint(format!("write {}", quantity::example(wanted, amount)));
    }
    if let Value::String(text) = value
        && let Ok(meant) = quantity::Quantity::parse(&text.to_string_lossy())
    {
        return Mismatch::message(format!("must be {}, not a text", wanted.described()))
            .with_hint(format!("write quantity \"{meant}\""));
    }
    Mismatch::other_sort(&format!("{} with its unit", wanted.described()), value)
        .with_hint(format!("write it like {}", quantity::example(wanted, 3.0)))
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
        let words: Vec<String> = self.0.iter().map(|(word, _)| format!("\"{word}\"")).collect();
        match words.split_last() {
            Some((last, [])) => last.clone(),
            Some((last, others)) => format!("{} or {last}", others.join(", ")),
            None => "nothing".to_owned(),
        }
    }

    fn read(&self, value: &Value) -> Result<T, Mismatch> {
        let Value::String(text) = value else {
            return Err(Mismatch::other_sort(&self.expected(), value));
        };
        let text = text.to_string_lossy();
        if let Some((_, meant)) = self.0.iter().find(|(word, _)| *word == text) {
            return Ok(meant.clone());
        }
        let mismatch =
            Mismatch::content(format!("must be {}, not {}", self.expected(), kind_of(value)));
        Err(match renamed::quoted_hint(&text, self.0.iter().map(|(word, _)| *word)) {
            Some(hint) => mismatch.with_hint(hint),
            None => mismatch,
        })
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
    Text, text, String, "a text", value => match value {
        Value::String(text) => text.to_str().ok().map(|text| text.to_owned()),
        _ => None,
    }
);
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
