//! The running scenario as the Rust functions of a machine know it: its texts, limits and clock, and the
//! lines that it has printed.

use super::limits::{Limits, Pause, Stopwatch};
use super::source::Source;
use crate::fault::Place;
use mlua::Lua;
use std::cell::RefCell;
use std::rc::Rc;
use std::sync::{Arc, Mutex, PoisonError};

/// Longest chunk name: Lua cuts longer ones in its messages.
const CHUNK_NAME_BYTES: usize = 200;

/// The host, as the machine's Rust functions ask it.
#[derive(Debug, Clone)]
pub struct Host(pub(super) Rc<HostState>);

#[derive(Debug)]
pub(super) struct HostState {
    pub(super) limits: Limits,
    pub(super) stopwatch: Stopwatch,
    pub(super) sources: RefCell<Vec<(String, Rc<Source>)>>,
    pub(super) printed: Printed,
    pub(super) remarks: RefCell<Vec<String>>,
    /// The last line that may be to blame for an error which does not tell its own.
    pub(super) suspected: RefCell<Option<Place>>,
}

/// The most remarks that are kept.
const MOST_REMARKS: usize = 20;

/// The lines that `print` kept.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct PrintedLines {
    /// The kept lines, in order.
    pub lines: Vec<String>,
    /// Lines that no longer fitted.
    pub dropped: usize,
    bytes: usize,
}

/// What a script prints, shared with those who may have to take it before its end.
#[derive(Debug, Clone, Default)]
pub struct Printed(Arc<Mutex<PrintedLines>>);

impl Printed {
    /// The lines up to now.
    pub fn lines(&self) -> PrintedLines {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// The lines after the first so many.
    pub fn after(&self, first: usize) -> Vec<String> {
        let printed = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        printed.lines.get(first..).unwrap_or_default().to_vec()
    }

    fn add(&self, line: String, most_bytes: usize) {
        let mut printed = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        // A line counts for more than its bytes, or empty lines would be free.
        let cost = line.len() + 16;
        if printed.dropped == 0 && printed.bytes + cost <= most_bytes {
            printed.bytes += cost;
            printed.lines.push(line);
        } else {
            printed.dropped += 1;
        }
    }
}

impl Host {
    pub(super) fn new(limits: Limits) -> Self {
        Self(Rc::new(HostState {
            limits,
            stopwatch: Stopwatch::new(limits.script_time),
            sources: RefCell::default(),
            printed: Printed::default(),
            remarks: RefCell::default(),
            suspected: RefCell::default(),
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

    pub(super) fn source(&self, chunk: &str) -> Option<Rc<Source>> {
        let name = chunk.strip_prefix(['@', '=']).unwrap_or(chunk);
        let sources = self.0.sources.borrow();
        sources.iter().find(|(known, _)| known == name).map(|(_, source)| Rc::clone(source))
    }

    pub(super) fn add(&self, source: &Rc<Source>) -> String {
        let name = chunk_name(source.name());
        let mut sources = self.0.sources.borrow_mut();
        sources.retain(|(known, _)| *known != name);
        sources.push((name.clone(), Rc::clone(source)));
        format!("@{name}")
    }

    /// Keeps something that the person who wrote the scenario should know, once.
    pub(super) fn keep_remark(&self, text: String) {
        let mut remarks = self.0.remarks.borrow_mut();
        if remarks.len() < MOST_REMARKS && !remarks.contains(&text) {
            remarks.push(text);
        }
    }

    pub(super) fn print(&self, line: String) {
        self.0.printed.add(line, self.0.limits.print_bytes);
    }
}

/// The end of a long name: the file's own name is what tells files apart.
fn chunk_name(name: &str) -> String {
    let too_long = name.len().saturating_sub(CHUNK_NAME_BYTES);
    let from = (too_long..name.len()).find(|at| name.is_char_boundary(*at)).unwrap_or(0);
    name[from..].to_owned()
}
