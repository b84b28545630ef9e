//! A scenario's machine: fresh, closed, and answering with one fault or none.

use super::host::{Host, PrintedLines};
use super::limits::Limits;
use super::place::{self, CallSite, Placed};
use super::sandbox::{self, Purpose};
use super::source::Source;
use super::{addresses, quantity, span, word_slips};
use crate::fault::{Fault, Place};
use mlua::chunk::ChunkMode;
use mlua::{Lua, Table, Value, Variadic};
use std::rc::Rc;

/// The machine of one scenario.
#[derive(Debug)]
pub struct ScenarioVm {
    lua: Lua,
    host: Host,
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
        let lua =
            Self::open(&host, register).map_err(|error| place::fault_from(&error, &|_| None))?;
        Ok(Self { lua, host })
    }

    fn open(host: &Host, register: impl FnOnce(&Lua) -> mlua::Result<()>) -> mlua::Result<Lua> {
        let lua = sandbox::open(Purpose::Scenario, host.0.limits.memory_bytes, &host.0.stopwatch)?;
        lua.set_app_data(host.clone());
        let globals = lua.globals();
        globals.raw_set("print", lua.create_function(print)?)?;
        suspect_errors(&lua, &globals)?;
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
        let suspected = self.host.0.suspected.take();
        fault.map_or(Ok(()), |fault| Err(fault.placed(suspected)))
    }

    /// The machine itself, to register what scenarios may use.
    pub fn lua(&self) -> &Lua {
        &self.lua
    }

    /// The lines that the scenario printed.
    pub fn printed(&self) -> PrintedLines {
        self.host.0.printed.borrow().clone()
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

/// The first letter after a place.
fn next_letter(place: &Place) -> Option<char> {
    place.source()[place.span().end..].trim_start().chars().next()
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
            let site = CallSite::find(lua);
            let place = site.as_ref().map(|site| site.place_of_name(&name));
            let slip = site.as_ref().zip(place.as_ref());
            let slip = slip.and_then(|(site, at)| word_slips::hint(site.source(), at.span().end));
            let hint = slip
                .or_else(|| crate::renamed::hint(&name, known.iter().map(String::as_str)));
            let called = place.as_ref().and_then(next_letter) == Some('(');
            let hint = hint.or_else(|| site.filter(|_| !called)?.hint_of_name(&name));
            fault = fault.with_hint(match (hint, place.as_ref().map(next_letter)) {
                _ if sandbox::REMOVED.contains(&name.as_str()) => {
                    "a scenario reads profiles and layouts by their names and runs no other code".to_owned()
                }
                (Some(hint), _) => hint,
                (None, Some(Some('('))) => {
                    "a quantity of any unit is written like quantity \"160 g\"; a function of your own \
                     stands above its first call"
                        .to_owned()
                }
                (None, Some(Some('.' | ':' | '['))) => {
                    format!("give it a value first: local {name} = …")
                }
                _ => format!("a text stands in quotes: \"{name}\""),
            });
            Err(fault.placed(place).into())
        })?,
    )?;
    globals.set_metatable(Some(metatable))
}
