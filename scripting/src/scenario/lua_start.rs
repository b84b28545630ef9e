//! A rule written as a Lua function: the engine asks it for a start number at every point.

use crate::fault::Fault;
use crate::lua::WorkerFunction;
use railproof_engine::rule::StartFunction;
use std::sync::Arc;

/// A function of the scenario as the engine sees it.
#[derive(Debug, Clone)]
pub struct LuaStart {
    function: WorkerFunction,
    name: Arc<str>,
}

impl LuaStart {
    pub fn new(function: WorkerFunction, name: Option<String>) -> Self {
        let name = name.unwrap_or_else(|| {
            let (line, _) = function.place().line_column();
            format!("the function at line {line}")
        });
        Self { function, name: name.into() }
    }

    /// What the function did wrong at a contact number, with its place in the scenario; nothing
    /// when it answers.
    pub fn fault_at(&self, contact: f64) -> Option<Fault> {
        let fault = self.function.call(contact).err()?;
        Some(Fault {
            message: format!(
                "the rule {} failed at contact {contact}: {}",
                self.name, fault.message
            ),
            ..fault
        })
    }
}

impl StartFunction for LuaStart {
    fn start(&self, contact: f64) -> Result<f64, String> {
        self.function.call(contact).map_err(|fault| fault.message)
    }

    fn name(&self) -> &str {
        &self.name
    }

    fn source(&self) -> Option<&str> {
        let place = self.function.place();
        place.source().get(place.span())
    }
}
