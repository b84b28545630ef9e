//! A rule written as a Lua function: the engine asks it for a start number at every point.

use super::WorkerFunction;
use crate::exit::Exit;
use crate::fault::Fault;
use railproof_engine::rule::StartFunction;
use railproof_engine::units::short_number;
use std::sync::{Arc, OnceLock};

/// A function of the scenario as the engine sees it.
#[derive(Debug, Clone)]
pub struct LuaStart {
    function: WorkerFunction,
    name: Arc<str>,
    /// The contact at which it first went over its time or memory, and the message. It is not
    /// asked again: each further answer could take as long.
    gave_up: Arc<OnceLock<(f64, Fault)>>,
}

impl LuaStart {
    /// A function under its name, or told by its line.
    pub fn new(function: WorkerFunction, name: Option<String>) -> Self {
        let name = name.unwrap_or_else(|| {
            let (line, _) = function.place().line_column();
            format!("the function at line {line}")
        });
        Self { function, name: name.into(), gave_up: Arc::default() }
    }

    /// The function's fault at a contact number, with its place in the scenario; nothing when it answers.
    pub fn fault_at(&self, contact: f64) -> Option<Fault> {
        let (contact, fault) = self.ask(contact).err()?;
        Some(Fault {
            message: format!(
                "the rule {} failed at contact {}: {}",
                self.name,
                short_number(contact, 3),
                fault.message
            ),
            ..fault
        })
    }

    /// Its start number; or what went wrong, and at which contact.
    fn ask(&self, contact: f64) -> Result<f64, (f64, Fault)> {
        if let Some(earlier) = self.gave_up.get() {
            return Err(earlier.clone());
        }
        self.function.call(contact).map_err(|fault| {
            if fault.exit == Exit::OverBudget {
                return self.gave_up.get_or_init(|| (contact, fault)).clone();
            }
            (contact, fault)
        })
    }
}

impl StartFunction for LuaStart {
    fn start(&self, contact: f64) -> Result<f64, String> {
        self.ask(contact).map_err(|(_, fault)| fault.message)
    }

    fn name(&self) -> &str {
        &self.name
    }

    fn gave_up(&self) -> Option<String> {
        self.gave_up.get().map(|(contact, fault)| {
            format!("the rule {} gave up at contact {contact}: {}", self.name, fault.message)
        })
    }

    fn source(&self) -> Option<&str> {
        Some(self.function.text())
    }
}
