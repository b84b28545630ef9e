//! A scenario's machine: fresh, closed, and answering with one fault or none.

use super::host::{Host, Printed, PrintedLines};
use super::limits::Limits;
use super::loops::in_order_where_clear;
use super::missing_value::UsualTable;
use super::place::{self, Placed};
use super::sandbox::{self, Purpose};
use super::source::Source;
use super::stray_names::KnownName;
use super::tokens::{TokenKind, tokens};
use super::{addresses, definition_slips, mends, quantity, span, unknown_name};
use crate::fault::Fault;
use crate::walls::{Budget, Stop};
use mlua::chunk::ChunkMode;
use mlua::{Lua, Table, Value, Variadic};
use std::borrow::Cow;
use std::rc::Rc;

/// The machine of one scenario.
#[derive(Debug)]
pub struct ScenarioVm {
    lua: Lua,
    host: Host,
    known: Vec<KnownName>,
}

impl ScenarioVm {
    /// A fresh machine that knows quantities, `span`, and all that `register` adds to its globals.
    ///
    /// # Errors
    /// When the memory limit is too small for that.
    pub fn new(
        limits: Limits,
        register: impl FnOnce(&Lua) -> mlua::Result<()>,
    ) -> Result<Self, Fault> {
        let host = Host::new(limits);
        let (lua, known) =
            Self::open(&host, register).map_err(|error| place::fault_from(&error, &|_| None))?;
        Ok(Self { lua, host, known })
    }

    fn open(
        host: &Host,
        register: impl FnOnce(&Lua) -> mlua::Result<()>,
    ) -> mlua::Result<(Lua, Vec<KnownName>)> {
        let lua = sandbox::open(Purpose::Scenario, host.0.limits.memory_bytes, &host.0.stopwatch)?;
        lua.set_app_data(host.clone());
        let globals = lua.globals();
        globals.raw_set("print", lua.create_function(print)?)?;
        suspect_errors(&lua, &globals)?;
        quantity::install(&lua, &globals)?;
        span::install(&lua, &globals)?;
        register(&lua)?;
        let known = known_names(&globals);
        unknown_name::refuse(&lua, &globals, known.clone())?;
        sandbox::close(&lua)?;
        Ok((lua, known))
    }

    /// Runs a scenario's text; `name` is what messages call it.
    ///
    /// # Errors
    /// One fault with its place: text that is too long, is not text or is not Lua, an error raised
    /// while running, or a limit reached (also when the script caught that error).
    pub fn run(&self, name: &str, text: &[u8]) -> Result<(), Fault> {
        let source = Rc::new(Source::new(name, readable(text, &self.host.0.limits)?));
        self.definitions_told(&source)?;
        self.play(&source, source.text())
    }

    fn definitions_told(&self, source: &Source) -> Result<(), Fault> {
        definition_slips::told(source, &self.known).map_or(Ok(()), Err)
    }

    /// As [`ScenarioVm::run`], with something in the place of names without a value, as far as that is clear;
    /// the function [`mends::STAND_IN`] must be there and notes it.
    ///
    /// # Errors
    /// As of [`ScenarioVm::run`].
    pub fn run_mended(&self, name: &str, text: &[u8], table: UsualTable) -> Result<(), Fault> {
        let source = Rc::new(Source::new(name, readable(text, &self.host.0.limits)?));
        self.definitions_told(&source)?;
        let (text, mends) = mends::mended(&source, &self.known, &table);
        self.lua.set_app_data(mends);
        self.lua.set_app_data(table);
        self.play(&source, &text)
    }

    /// Runs a text, which has the lines of its source.
    fn play(&self, source: &Rc<Source>, text: &str) -> Result<(), Fault> {
        let chunk = self.host.add(source);
        let stopwatch = &self.host.0.stopwatch;
        stopwatch.start();
        // Luau takes text that begins with a tab for compiled code.
        let spaced = text.starts_with('\t').then(|| format!(" {text}"));
        let text = in_order_where_clear(spaced.as_deref().unwrap_or(text));
        let outcome = self.lua.load(text.as_str()).set_name(chunk).set_mode(ChunkMode::Text).exec();
        stopwatch.stop();
        let fault =
            outcome.err().map(|error| place::fault_from(&error, &|chunk| self.host.source(chunk)));
        if let Some(over) = stopwatch.over() {
            let place = fault.and_then(|fault| fault.place);
            return Err(over.placed(place));
        }
        let suspected = self.host.0.suspected.take();
        fault.map_or(Ok(()), |fault| Err(fault.placed(suspected)))
    }

    /// The machine itself, to register what scenarios may use.
    pub fn lua(&self) -> &Lua {
        &self.lua
    }

    /// The lines that the scenario printed.
    pub fn printed(&self) -> PrintedLines {
        self.host.0.printed.lines()
    }

    /// The lines that it prints, as they come.
    pub fn shared_printed(&self) -> Printed {
        self.host.0.printed.clone()
    }

    /// Ends the script at its next call or turn of a loop once an end is asked for.
    pub fn heed(&self, stop: &Stop, budget: Budget) {
        self.host.0.stopwatch.heed(stop.clone(), budget);
    }

    /// Remarks on a scenario in which nothing is wrong.
    pub fn remarks(&self) -> Vec<String> {
        self.host.0.remarks.borrow().clone()
    }

    /// Time that Lua itself has run.
    pub fn script_time(&self) -> std::time::Duration {
        self.host.0.stopwatch.used()
    }
}

/// The text, if it is text of a bearable length.
fn readable<'a>(text: &'a [u8], limits: &Limits) -> Result<Cow<'a, str>, Fault> {
    if text.len() > limits.source_bytes {
        return Err(Fault::bad_input(format!(
            "the scenario is too long; at most {} bytes are read",
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
    Ok(plain_spaces(text.strip_prefix('\u{feff}').unwrap_or(text)))
}

/// The text with plain spaces for those that do not break a line, which word processors leave; texts in quotes stay
/// as they are, and every place.
fn plain_spaces(text: &str) -> Cow<'_, str> {
    const UNBROKEN: &str = "\u{a0}";
    if !text.contains(UNBROKEN) {
        return Cow::Borrowed(text);
    }
    let mut plain = String::new();
    let mut copied = 0;
    for token in tokens(text).iter().filter(|it| it.kind == TokenKind::Name) {
        plain.push_str(&text[copied..token.start]);
        plain.push_str(&token.text(text).replace(UNBROKEN, "  "));
        copied = token.end;
    }
    plain.push_str(&text[copied..]);
    Cow::Owned(plain)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn print(lua: &Lua, values: Variadic<Value>) -> mlua::Result<()> {
    let Some(host) = Host::of(lua) else { return Ok(()) };
    let words = values.iter().map(addresses::told).collect::<mlua::Result<Vec<_>>>()?;
    for line in words.join("\t").split('\n') {
        host.print(line.to_owned());
    }
    Ok(())
}

/// An error that is no text has no line of its own. Texts get theirs, from one function further up.
const ERROR_WITH_LINE: &str = "local suspect, raise, kind = ...
return function(value, level)
  if kind(value) ~= 'string' then suspect() end
  raise(value, if level == 0 then 0 else (level or 1) + 1)
end";

/// Remembers the line of an error that is no text.
fn suspect_errors(lua: &Lua, globals: &Table) -> mlua::Result<()> {
    let suspect = lua.create_function(|lua, ()| {
        place::suspect(lua);
        Ok(())
    })?;
    let (raise, kind): (Value, Value) = (globals.raw_get("error")?, globals.raw_get("type")?);
    let wrapped: Value =
        lua.load(ERROR_WITH_LINE).set_mode(ChunkMode::Text).call((suspect, raise, kind))?;
    globals.raw_set("error", wrapped)
}

/// The globals that are there before the scenario's first line.
fn known_names(globals: &Table) -> Vec<KnownName> {
    let pairs = globals.pairs::<String, Value>().filter_map(Result::ok);
    let pairs = pairs.filter(|(name, _)| name != mends::STAND_IN);
    pairs.map(|(name, value)| KnownName { name, function: value.is_function() }).collect()
}
