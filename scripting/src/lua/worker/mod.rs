//! A scenario's Lua function called for every point of a sweep, from every thread.
//!
//! A Lua machine can't be shared between threads, so the function's own text is cut out of the
//! scenario and compiled again in one machine per thread. That is only right for a function that
//! needs nothing but its arguments, its own locals and the libraries, which is checked when it is
//! captured; and a function like that gives the same answer on any thread and in any order.

mod function_text;
mod names;

use super::host::Host;
use super::limits::Stopwatch;
use super::place::{CallSite, Placed, fault_from};
use super::quantity::{kind_of, plain_number};
use super::sandbox::{self, Purpose};
use super::source::Source;
use crate::fault::{Fault, Place};
use crate::lua::loops::in_order;
use mlua::chunk::{ChunkMode, Compiler};
use mlua::{Function, IntoLuaMulti, Lua, Value};
pub use names::{FunctionKind, declared};
use std::cell::RefCell;
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

/// The limits of one call.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CallLimits {
    /// Bytes of memory of the function's machine.
    pub memory_bytes: usize,
    /// Time of one call.
    pub time: Duration,
}

impl Default for CallLimits {
    fn default() -> Self {
        Self { memory_bytes: 16 << 20, time: Duration::from_secs(1) }
    }
}

/// Machines a thread keeps; the least recently used one goes first.
const MACHINES_PER_THREAD: usize = 8;

static NEXT_ID: AtomicU64 = AtomicU64::new(0);

/// A scenario's function, callable from any thread.
#[derive(Debug, Clone)]
pub struct WorkerFunction(Arc<FunctionCapture>);

#[derive(Debug)]
struct FunctionCapture {
    id: u64,
    file: Arc<str>,
    scenario: Arc<str>,
    chunk: String,
    place: Place,
    limits: CallLimits,
    kind: FunctionKind,
}

impl WorkerFunction {
    /// Takes a function of the running scenario.
    ///
    /// # Errors
    /// When it is not written in the scenario, can't be told from another that begins on the same
    /// line, or uses a name from outside itself.
    pub fn capture(
        lua: &Lua,
        function: &Function,
        limits: CallLimits,
        kind: FunctionKind,
    ) -> Result<Self, Fault> {
        let info = function.info();
        let found = info.source.as_deref().and_then(|chunk| Host::source_of(lua, chunk));
        let (Some(source), Some(line)) = (found, info.line_defined) else {
            let message = format!("{} must be written in the scenario itself", kind.noun());
            return Err(Fault::bad_input(message)
                .placed(CallSite::find(lua).map(|site| site.place_of_line())));
        };
        let cut = function_text::function_at(
            &source,
            line,
            info.num_params.into(),
            info.name.as_deref(),
        )?;
        names::check(&source, &cut, info.num_upvalues, kind)?;
        Ok(Self(Arc::new(FunctionCapture {
            id: NEXT_ID.fetch_add(1, Ordering::Relaxed),
            file: Arc::clone(source.name()),
            scenario: Arc::clone(source.text()),
            // The lines before keep the line numbers of messages right.
            chunk: format!("{}{}", "\n".repeat(line - 1), cut.chunk),
            place: source.place(cut.bytes.start, cut.head_end),
            limits,
            kind,
        })))
    }

    /// Takes a function from its text alone, as [`WorkerFunction::text`] gives it.
    ///
    /// # Errors
    /// When it is no function's text or too long.
    pub fn of_text(
        file: &str,
        text: &str,
        limits: CallLimits,
        kind: FunctionKind,
    ) -> Result<Self, Fault> {
        let refused = |why: &str| Err(Fault::bad_input(format!("its function {why}")));
        if text.len() > function_text::LONGEST {
            return refused(&format!("is longer than {} bytes", function_text::LONGEST));
        }
        if !["return function", "local function "].iter().any(|start| text.starts_with(start)) {
            return refused("must begin with `return function` or `local function`");
        }
        if let Err(error) = Compiler::new().compile(text) {
            return refused(&format!("is not Lua: {error}"));
        }
        // As a function of a scenario it may need nothing from outside, nor keep anything.
        let source = Source::new(file, text);
        names::check(&source, &function_text::only_function(&source)?, 0, kind)?;
        let scenario: Arc<str> = text.into();
        Ok(Self(Arc::new(FunctionCapture {
            id: NEXT_ID.fetch_add(1, Ordering::Relaxed),
            file: file.into(),
            chunk: text.to_owned(),
            place: Place::line(file, Arc::clone(&scenario), 1),
            scenario,
            limits,
            kind,
        })))
    }

    /// The function's own text, a chunk that gives the function.
    pub fn text(&self) -> &str {
        // The lines before it only keep the line numbers of messages right.
        self.0.chunk.trim_start_matches('\n')
    }

    /// Where the function stands in the scenario.
    pub fn place(&self) -> &Place {
        &self.0.place
    }

    /// The function's value for these arguments; pass numbers, not tables, which cost many times
    /// more.
    ///
    /// # Errors
    /// When the function raises one, uses up its time or memory, or gives anything but a finite
    /// number.
    pub fn call(&self, arguments: impl IntoLuaMulti) -> Result<f64, Fault> {
        let value = self.ask(|_| Ok(()), |_, function| function.call::<Value>(arguments))?;
        self.finite(&value)
    }

    /// The answer that `ask` gets of the function on this thread's machine. `register` gives a new
    /// machine its words.
    ///
    /// # Errors
    /// When it raises one, or uses up its time or memory.
    pub fn ask<T>(
        &self,
        register: impl FnOnce(&Lua) -> mlua::Result<()>,
        ask: impl FnOnce(&Lua, &Function) -> mlua::Result<T>,
    ) -> Result<T, Fault> {
        thread_local! {
            static MACHINES: RefCell<Vec<Machine>> = const { RefCell::new(Vec::new()) };
        }
        MACHINES.with_borrow_mut(|machines| {
            match machines.iter().position(|machine| machine.id == self.0.id) {
                Some(0) => {}
                Some(at) => machines[..=at].rotate_right(1),
                None => {
                    machines.truncate(MACHINES_PER_THREAD - 1);
                    let machine = Machine::new(&self.0, register);
                    machines.insert(0, machine.map_err(|error| self.fault(&error))?);
                }
            }
            let machine = &machines[0];
            machine.stopwatch.restart_lazily();
            let outcome = ask(&machine.lua, &machine.function);
            if let Some(fault) = machine.stopwatch.over() {
                machines.remove(0);
                return Err(fault.placed(Some(self.0.place.clone())));
            }
            outcome.map_err(|error| {
                // What a failed call left behind must not reach the next one.
                machines.remove(0);
                self.fault(&error)
            })
        })
    }

    fn finite(&self, value: &Value) -> Result<f64, Fault> {
        match plain_number(value) {
            Some(number) if number.is_finite() => Ok(number),
            other => {
                let found = other.map_or_else(|| kind_of(value), |number| number.to_string());
                Err(Fault::bad_input(format!("the function gave {found}, not a finite number"))
                    .placed(Some(self.0.place.clone())))
            }
        }
    }

    fn fault(&self, error: &mlua::Error) -> Fault {
        let source = Rc::new(Source::new(Arc::clone(&self.0.file), Arc::clone(&self.0.scenario)));
        fault_from(error, &|chunk| (chunk == CHUNK_NAME).then(|| Rc::clone(&source)))
            .placed(Some(self.0.place.clone()))
    }
}

/// The chunk's name inside its machine; messages show the scenario's name instead.
const CHUNK_NAME: &str = "function";

struct Machine {
    id: u64,
    lua: Lua,
    function: Function,
    stopwatch: Stopwatch,
}

impl Machine {
    fn new(
        captured: &FunctionCapture,
        register: impl FnOnce(&Lua) -> mlua::Result<()>,
    ) -> mlua::Result<Self> {
        let stopwatch = Stopwatch::new(captured.limits.time);
        let lua = sandbox::open(Purpose::Function, captured.limits.memory_bytes, &stopwatch)?;
        names::leave_only_libraries(&lua, captured.kind)?;
        register(&lua)?;
        sandbox::close(&lua)?;
        lua.globals().set_readonly(true);
        let function = lua
            .load(in_order(&captured.chunk).map_err(Fault::bad_input)?)
            .set_name(format!("={CHUNK_NAME}"))
            .set_mode(ChunkMode::Text)
            .call(())?;
        Ok(Self { id: captured.id, lua, function, stopwatch })
    }
}
