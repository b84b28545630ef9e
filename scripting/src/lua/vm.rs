//! A scenario's machine: fresh, closed, and answering with one fault or none.

use super::limits::{Limits, Pause, Stopwatch};
use super::place::{self, CallSite, Placed};
use super::sandbox::{self, Purpose};
use super::source::Source;
use super::{hidden, quantity, span};
use crate::fault::Fault;
use mlua::chunk::ChunkMode;
use mlua::{Lua, Table, Value, Variadic};
use std::cell::RefCell;
use std::rc::Rc;

/// Longest chunk name: Lua cuts longer ones in its messages.
const CHUNK_NAME_BYTES: usize = 200;

/// What the machine's Rust functions can ask of the host.
#[derive(Debug, Clone)]
pub struct Host(Rc<Shared>);

#[derive(Debug)]
struct Shared {
    limits: Limits,
    stopwatch: Stopwatch,
    sources: RefCell<Vec<(String, Rc<Source>)>>,
    printed: RefCell<Printed>,
    remarks: RefCell<Vec<String>>,
}

/// The most remarks that are kept.
const MOST_REMARKS: usize = 20;

/// What `print` kept.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Printed {
    /// The kept lines, in order.
    pub lines: Vec<String>,
    /// Lines that no longer fitted.
    pub dropped: usize,
    bytes: usize,
}

impl Host {
    fn new(limits: Limits) -> Self {
        Self(Rc::new(Shared {
            limits,
            stopwatch: Stopwatch::new(limits.script_time),
            sources: RefCell::default(),
            printed: RefCell::default(),
            remarks: RefCell::default(),
        }))
    }

    /// The host of a scenario's machine; none for the machine of a rule function.
    pub fn of(lua: &Lua) -> Option<Self> {
        lua.app_data_ref::<Self>().map(|host| host.clone())
    }

    /// Stops the script's clock while a Rust function works for it.
    pub fn pause(lua: &Lua) -> Option<Pause> {
        Self::of(lua).map(|host| host.0.stopwatch.pause())
    }

    /// The text behind a chunk name as Lua gives it (`@name` or `name`).
    pub fn source_of(lua: &Lua, chunk: &str) -> Option<Rc<Source>> {
        Self::of(lua)?.source(chunk)
    }

    fn source(&self, chunk: &str) -> Option<Rc<Source>> {
        let name = chunk.strip_prefix(['@', '=']).unwrap_or(chunk);
        let sources = self.0.sources.borrow();
        sources.iter().find(|(known, _)| known == name).map(|(_, source)| Rc::clone(source))
    }

    fn add(&self, source: &Rc<Source>) -> String {
        let name = chunk_name(source.name());
        let mut sources = self.0.sources.borrow_mut();
        sources.retain(|(known, _)| *known != name);
        sources.push((name.clone(), Rc::clone(source)));
        format!("@{name}")
    }

    /// Keeps something that the person who wrote the scenario should know, once, with its line.
    pub fn remark(lua: &Lua, words: &str) {
        let Some(host) = Self::of(lua) else { return };
        let line = place::call_line(lua).map(|place| place.line_column().0);
        let text = line.map_or_else(|| words.to_owned(), |line| format!("line {line}: {words}"));
        let mut remarks = host.0.remarks.borrow_mut();
        if remarks.len() < MOST_REMARKS && !remarks.contains(&text) {
            remarks.push(text);
        }
    }

    fn print(&self, line: String) {
        let mut printed = self.0.printed.borrow_mut();
        // A line counts for more than its bytes, or empty lines would be free.
        let cost = line.len() + 16;
        if printed.dropped == 0 && printed.bytes + cost <= self.0.limits.print_bytes {
            printed.bytes += cost;
            printed.lines.push(line);
        } else {
            printed.dropped += 1;
        }
    }
}

/// The end of a long name: the file's own name is what tells files apart.
fn chunk_name(name: &str) -> String {
    let too_long = name.len().saturating_sub(CHUNK_NAME_BYTES);
    let from = (too_long..name.len()).find(|at| name.is_char_boundary(*at)).unwrap_or(0);
    name[from..].to_owned()
}

/// The machine of one scenario.
#[derive(Debug)]
pub struct ScenarioVm {
    lua: Lua,
    host: Host,
}

impl ScenarioVm {
    /// A fresh machine that knows quantities and `span`, and what `register` adds to its globals.
    ///
    /// # Errors
    /// When the memory limit is too small for that.
    pub fn new(
        limits: Limits,
        register: impl FnOnce(&Lua) -> mlua::Result<()>,
    ) -> Result<Self, Fault> {
        let host = Host::new(limits);
        let lua =
            Self::open(&host, register).map_err(|error| place::fault_from(&error, &|_| None))?;
        Ok(Self { lua, host })
    }

    fn open(host: &Host, register: impl FnOnce(&Lua) -> mlua::Result<()>) -> mlua::Result<Lua> {
        let lua = sandbox::open(Purpose::Scenario, host.0.limits.memory_bytes, &host.0.stopwatch)?;
        lua.set_app_data(host.clone());
        let globals = lua.globals();
        globals.raw_set("print", lua.create_function(print)?)?;
        quantity::install(&lua, &globals)?;
        span::install(&lua, &globals)?;
        register(&lua)?;
        refuse_unknown_names(&lua, &globals)?;
        sandbox::close(&lua)?;
        Ok(lua)
    }

    /// Runs a scenario's text; `name` is what messages call it.
    ///
    /// # Errors
    /// One fault with its place: text that is too long, is not text or is not Lua, an error raised
    /// while running, or a limit reached (also when the script caught that error).
    pub fn run(&self, name: &str, text: &[u8]) -> Result<(), Fault> {
        let source = Rc::new(Source::new(name, readable(text, &self.host.0.limits)?));
        let chunk = self.host.add(&source);
        let stopwatch = &self.host.0.stopwatch;
        stopwatch.start();
        // Luau takes text that begins with a tab for compiled code.
        let spaced = source.text().starts_with('\t').then(|| format!(" {}", source.text()));
        let text = spaced.as_deref().unwrap_or(source.text());
        let outcome = self.lua.load(text).set_name(chunk).set_mode(ChunkMode::Text).exec();
        stopwatch.stop();
        let fault =
            outcome.err().map(|error| place::fault_from(&error, &|chunk| self.host.source(chunk)));
        if stopwatch.exceeded() {
            let place = fault.and_then(|fault| fault.place);
            return Err(sandbox::out_of_time(stopwatch).placed(place));
        }
        fault.map_or(Ok(()), Err)
    }

    /// The machine itself, to register what scenarios may use.
    pub fn lua(&self) -> &Lua {
        &self.lua
    }

    /// What the scenario printed.
    pub fn printed(&self) -> Printed {
        self.host.0.printed.borrow().clone()
    }

    /// What should be known of the scenario although nothing is wrong.
    pub fn remarks(&self) -> Vec<String> {
        self.host.0.remarks.borrow().clone()
    }

    /// Time that Lua itself has run.
    pub fn script_time(&self) -> std::time::Duration {
        self.host.0.stopwatch.used()
    }
}

/// The text, if it is text of a bearable length.
fn readable<'a>(text: &'a [u8], limits: &Limits) -> Result<&'a str, Fault> {
    if text.len() > limits.source_bytes {
        return Err(Fault::bad_input(format!(
            "the scenario is {} bytes long; at most {} are read",
            text.len(),
            limits.source_bytes
        )));
    }
    // Compiled chunks of Lua hold control characters from their first byte on; text holds none.
    let control = |byte: &u8| byte.is_ascii_control() && !byte.is_ascii_whitespace();
    if text.iter().any(control) {
        return Err(Fault::bad_input("the scenario is not text; compiled Lua is not run"));
    }
    let text = std::str::from_utf8(text)
        .map_err(|_| Fault::bad_input("the scenario is not UTF-8 text"))?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(text))
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn print(lua: &Lua, values: Variadic<Value>) -> mlua::Result<()> {
    let Some(host) = Host::of(lua) else { return Ok(()) };
    let words = values.iter().map(hidden::told).collect::<mlua::Result<Vec<_>>>()?;
    for line in words.join("\t").split('\n') {
        host.print(line.to_owned());
    }
    Ok(())
}

/// Reading a name that nothing was given to is an error with a suggestion.
fn refuse_unknown_names(lua: &Lua, globals: &Table) -> mlua::Result<()> {
    let known: Vec<String> = globals
        .pairs::<String, Value>()
        .filter_map(|pair| pair.ok().map(|(name, _)| name))
        .collect();
    let metatable = lua.create_table()?;
    metatable.raw_set(
        "__index",
        lua.create_function(move |lua, (_, name): (Value, Value)| -> mlua::Result<Value> {
            let name = name.to_string()?;
            let mut fault = Fault::bad_input(format!("nothing is called `{name}` here"));
            let near = crate::fault::nearest(&name, known.iter().map(String::as_str));
            fault = fault.with_hint(match near {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("a text stands in quotes: \"{name}\""),
            });
            let place = CallSite::find(lua).map(|site| site.place_of_name(&name));
            Err(fault.placed(place).into())
        })?,
    )?;
    globals.set_metatable(Some(metatable))
}
