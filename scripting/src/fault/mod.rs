//! The one error that people see: the fault, its place in their file, and advice.
//!
//! Nothing here decides what is wrong; that is for the readers and the script host.

mod digits;
mod place;
mod render;
mod style;
mod suggestion;
mod unseen;

pub use place::Place;
pub(crate) use render::{escaped_name, parted, tame};
pub use style::Style;
pub use suggestion::nearest;
pub(crate) use unseen::{is_plain, visible, visible_coloured, visible_json, visible_line};

use crate::exit::Exit;
use std::fmt;

/// Something that went wrong at the edge, told so that a person can put it right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The fault in one sentence without a full stop.
    pub message: String,
    /// Where in the user's file it stands, when it stands in a file.
    pub place: Option<Place>,
    /// Advice on a way out.
    pub hint: Option<String>,
    /// The exit of the process if nobody handles the fault.
    pub exit: Exit,
}

impl Fault {
    /// A fault with no place and no hint.
    pub fn new(exit: Exit, message: impl Into<String>) -> Self {
        Self { message: digits::shortened(message.into()), place: None, hint: None, exit }
    }

    /// A fault in the user's input: [`Exit::BadInput`].
    pub fn bad_input(message: impl Into<String>) -> Self {
        Self::new(Exit::BadInput, message)
    }

    /// The same fault at a place.
    #[must_use]
    pub fn at(mut self, place: Place) -> Self {
        self.place = Some(place);
        self
    }

    /// The same fault with a hint.
    #[must_use]
    pub fn with_hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// The whole message over several lines, with the source line and a caret when there is a
    /// place; ends with a line break. Control characters from the user's file are never passed
    /// on.
    pub fn render(&self, style: Style) -> String {
        render::render(&self.message, self.hint.as_deref(), self.place.as_ref(), style)
    }
}

/// One line: `file:line:column: message (hint)`.
impl fmt::Display for Fault {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(place) = &self.place {
            let (line, column) = place.line_column();
            write!(formatter, "{}:{line}:{column}: ", tame(place.label()))?;
        }
        formatter.write_str(&tame(&self.message))?;
        if let Some(hint) = &self.hint {
            write!(formatter, " ({})", tame(hint))?;
        }
        Ok(())
    }
}

impl std::error::Error for Fault {}
