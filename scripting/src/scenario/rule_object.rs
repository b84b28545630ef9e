//! A rule in a script's hands, and the readers that several calls about rules share.

use crate::fault::Fault;
use crate::lua::LuaStart;
use crate::lua::options::{Kind, Mismatch, Options, word};
use crate::lua::quantity::plain_number;
use mlua::Value;
use railproof_engine::rail::{Line, Reading};
use railproof_engine::rule::{LineTable, NamedRule, RuleError, WayBetween};
use std::rc::Rc;

/// A rule in a script's hands.
#[derive(Debug, Clone)]
pub struct RuleObject(pub Rc<ScriptRule>);

/// A rule, its name, and the Lua function it is made of, if it is.
#[derive(Debug)]
pub struct ScriptRule {
    pub named: NamedRule,
    pub function: Option<LuaStart>,
}

/// Known lines as a table; the fault of one is reported at that line.
pub fn table(
    options: &Options,
    reading: Reading,
    lines: Vec<Line>,
    way: WayBetween,
) -> Result<LineTable, Fault> {
    LineTable::new(reading, lines, way).map_err(|error| match error {
        RuleError::LinesOutOfOrder { position, .. } => {
            options.complain_of_item("lines", position, error.to_string())
        }
        _ => options.complain("lines", error.to_string()),
    })
}

/// The reading of the numbers of a rule or a line; the groove unless said.
pub fn reading(options: &Options) -> Result<Reading, Fault> {
    Ok(options.optional("reading", word::<Reading>())?.unwrap_or_default())
}

/// `{1.5, 3.3}`: a contact number and a start number.
#[derive(Debug, Clone, Copy)]
pub struct TwoNumbers;

impl Kind for TwoNumbers {
    type Output = Line;

    fn expected(&self) -> String {
        "two plain numbers, contact and start, like {1.5, 3.3}".to_owned()
    }

    fn read(&self, value: &Value) -> Result<Line, Mismatch> {
        let Value::Table(pair) = value else {
            return Err(Mismatch::other_sort(&self.expected(), value));
        };
        let item =
            |at: usize| pair.raw_get::<Value>(at).ok().and_then(|value| plain_number(&value));
        match (item(1), item(2), pair.pairs::<Value, Value>().count()) {
            (Some(contact), Some(start), 2) if contact.is_finite() && start.is_finite() => {
                Ok(Line::new(contact, start))
            }
            _ => Err(Mismatch::content(format!("must be {}", self.expected()))),
        }
    }
}
