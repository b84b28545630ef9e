//! A rule with something added to its start numbers.

use super::{FunctionRule, LineTable, Rule, RuleError, StartFunction, mirror_line};
use crate::rail::{BankGeometry, Line, Reading};
use std::sync::Arc;

impl Rule {
    /// The same rule with so many diamonds added to every start number, in the rule's own reading.
    ///
    /// # Errors
    /// [`RuleError::NotFinite`].
    pub fn plus(&self, diamonds: f64, geometry: &BankGeometry) -> Result<Self, RuleError> {
        match self {
            Self::Linear(linear) => {
                Self::linear(linear.slope, linear.offset + diamonds, linear.reading)
            }
            Self::Mirror => {
                let (line, slope) = mirror_line(geometry);
                let offset = line.start - slope * line.contact;
                Self::linear(slope, offset + diamonds, Reading::Groove)
            }
            Self::Lines(table) => {
                let lines = table.lines().iter();
                let lines = lines.map(|line| Line::new(line.contact, line.start + diamonds));
                LineTable::new(table.reading(), lines.collect(), table.way()).map(Self::Lines)
            }
            Self::Function(function) => {
                let moved = MovedFunction { function: function.clone(), diamonds };
                Ok(Self::function(function.reading(), Arc::new(moved)))
            }
        }
    }
}

/// A function whose starts are moved.
struct MovedFunction {
    function: FunctionRule,
    diamonds: f64,
}

impl StartFunction for MovedFunction {
    fn start(&self, contact: f64) -> Result<f64, String> {
        self.function.function().start(contact).map(|start| start + self.diamonds)
    }

    fn name(&self) -> &str {
        self.function.function().name()
    }

    fn gave_up(&self) -> Option<String> {
        self.function.function().gave_up()
    }

    fn source(&self) -> Option<&str> {
        self.function.function().source()
    }
}
