//! Rules read back from a plan's file through the constructors that check them.

use crate::fields::check_kept_name;
use crate::lua::worker::{CallLimits, FunctionKind};
use crate::lua::{LuaStart, WorkerFunction};
use railproof_engine::rail::{Line, Reading};
use railproof_engine::rule::{LineTable, NamedRule, Rule, WayBetween};
use serde::Deserialize;
use std::sync::Arc;

/// A rule as it stands in a file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NamedRuleEntry {
    name: String,
    rule: RuleEntry,
}

#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
enum RuleEntry {
    Linear { slope: f64, offset: f64, reading: Reading },
    Mirror,
    Lines { reading: Reading, lines: Vec<Line>, way: WayBetween },
    Function { name: String, reading: Reading, source: String },
}

impl NamedRuleEntry {
    /// The rule, checked.
    ///
    /// # Errors
    /// The rule's fault, in words.
    pub fn rule(self, file: &str) -> Result<NamedRule, String> {
        if self.name.trim().is_empty() {
            return Err("a rule has no name".to_owned());
        }
        let inner = match &self.rule {
            RuleEntry::Function { name, .. } => name.as_str(),
            _ => "",
        };
        for name in [self.name.as_str(), inner] {
            check_kept_name(name).map_err(|it| format!("a rule's name {}", it.message))?;
        }
        let refused = |error: &dyn std::fmt::Display| format!("the rule `{}`: {error}", self.name);
        let rule = match self.rule {
            RuleEntry::Linear { slope, offset, reading } => {
                Rule::linear(slope, offset, reading).map_err(|error| refused(&error))?
            }
            RuleEntry::Mirror => Rule::mirror(),
            RuleEntry::Lines { reading, lines, way } => {
                Rule::Lines(LineTable::new(reading, lines, way).map_err(|error| refused(&error))?)
            }
            RuleEntry::Function { name, reading, source } => {
                let function = WorkerFunction::of_text(
                    file,
                    &source,
                    CallLimits::default(),
                    FunctionKind::Rule,
                )
                .map_err(|fault| refused(&fault.message))?;
                Rule::function(reading, Arc::new(LuaStart::new(function, Some(name))))
            }
        };
        Ok(NamedRule::new(Some(self.name), rule))
    }
}
