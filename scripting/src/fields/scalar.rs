//! A single value as a language holds it, and why it is not what its field takes.

use super::writing::Writing;
use railproof_engine::equipment::Parameter;
use railproof_engine::units::Speed;

/// A single value as a language holds it.
pub(crate) trait Scalar {
    /// The language.
    const WRITING: Writing;

    /// The SI value and how it was written.
    ///
    /// # Errors
    /// When it is no finite quantity of the parameter's dimension.
    fn quantity(&self, parameter: &Parameter) -> Result<(f64, String), Mismatch>;

    /// A speed in units or in table lengths, and how it was written.
    ///
    /// # Errors
    /// When it is neither.
    fn speed(&self, parameter: &Parameter) -> Result<(Speed, String), Mismatch>;

    /// The text that it is, if it is one.
    fn text(&self) -> Option<String>;

    /// Whether it says yes or no.
    fn truth(&self) -> Option<bool>;

    /// The value's kind, in words that follow "not".
    fn described(&self) -> String;
}

/// Why a value is not of its kind; the message follows the field's name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mismatch {
    /// The fault: "must be …, not …".
    pub message: String,
    /// Advice on a value to write.
    pub hint: Option<String>,
    /// The item of a list, counted from 1.
    pub item: Option<usize>,
    /// Whether the value is of the right sort and only its content is wrong.
    pub near: bool,
}

impl Mismatch {
    /// A value of another sort altogether.
    pub(crate) fn other_sort(expected: &str, found: &impl Scalar) -> Self {
        Self::message(format!("must be {expected}, not {}", found.described()))
    }

    /// A message of one's own, under the field's name.
    pub fn message(message: impl Into<String>) -> Self {
        Self { message: message.into(), hint: None, item: None, near: false }
    }

    /// The right sort with the wrong content: the caret goes under the value.
    pub fn content(message: impl Into<String>) -> Self {
        Self { near: true, ..Self::message(message) }
    }

    /// The same with a hint.
    #[must_use]
    pub fn with_hint(self, hint: impl Into<String>) -> Self {
        Self { hint: Some(hint.into()), ..self }
    }

    /// The message about the field of a name.
    pub(crate) fn about(&self, name: &str) -> String {
        match self.item {
            Some(item) => format!("`{name}`, item {item}, {}", self.message),
            None => format!("`{name}` {}", self.message),
        }
    }
}
