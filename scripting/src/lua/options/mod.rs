//! A call's table of options, read strictly: every key known, every value of its kind and unit, and
//! each complaint with its place under the key or value it is about.
//!
//! ```ignore
//! let options = Options::open(lua, "sweep", &argument, &["contact", "speed", "reading"])?;
//! let contact = options.required("contact", one_or_many(number()))?;
//! let speed = options.required("speed", one_or_many(speed()))?;
//! let reading = options.optional("reading", choice(READINGS))?.unwrap_or(Reading::Groove);
//! ```

mod compound;
mod fields;
mod kinds;
mod named;

pub use compound::{List, OneOrMany, Ranged, list, one_or_many, ranged};
pub(crate) use kinds::word;
pub use kinds::{
    Choice, Kind, boolean, choice, function, name, number, object, quantity, speed, table, text,
    whole_number,
};

pub use crate::fields::{Mismatch, Within};

use super::amount_slips::value_without_name;
use super::calls::{FieldPart, PathStep};
use super::place::{CallSite, Placed};
use super::quantity::{kind_of, of_value, plain_number, shown};
use crate::fault::{Fault, Place};
use crate::renamed;
use mlua::{Lua, Table, Value};
use railproof_engine::units::{Dimension, is_imperial};

/// The options of one call.
#[derive(Debug)]
pub struct Options {
    call: &'static str,
    site: Option<CallSite>,
    table: Table,
    known: &'static [&'static str],
}

impl Options {
    /// Takes the argument of a call of `call` (its last name: `draw` for `map:draw {…}`) as options
    /// with these known keys.
    ///
    /// # Errors
    /// When it is not a table or holds a key that is not known.
    pub fn open(
        lua: &Lua,
        call: &'static str,
        argument: &Value,
        known: &'static [&'static str],
    ) -> Result<Self, Fault> {
        Self::of(lua, call, argument, known)?.checked(|fault, _| Err(fault))
    }

    /// The same, but each key that is not known is told to `refused` with its name, and values without one too; they
    /// stand for nothing.
    ///
    /// # Errors
    /// When it is not a table, and those of `refused`.
    pub fn open_but(
        lua: &Lua,
        call: &'static str,
        argument: &Value,
        known: &'static [&'static str],
        refused: impl FnMut(Fault, Option<&str>) -> Result<(), Fault>,
    ) -> Result<Self, Fault> {
        Self::of(lua, call, argument, known)?.checked(refused)
    }

    /// The options with whatever keys they have.
    fn of(
        lua: &Lua,
        call: &'static str,
        argument: &Value,
        known: &'static [&'static str],
    ) -> Result<Self, Fault> {
        let site = CallSite::find(lua);
        match argument {
            Value::Table(table) => Ok(Self { call, site, table: table.clone(), known }),
            _ => {
                let place = site.map(|site| site.place(Some(call), &[], FieldPart::Key));
                let first = known.first().unwrap_or(&"name");
                Err(Fault::bad_input(format!(
                    "{call} takes a table of options, not {}",
                    kind_of(argument)
                ))
                .placed(place)
                .with_hint(format!("write {call} {{ {first} = … }}")))
            }
        }
    }

    /// The same of a call that needs no options and may be given none.
    ///
    /// # Errors
    /// As of [`Options::open`].
    pub fn open_or_none(
        lua: &Lua,
        call: &'static str,
        argument: Value,
        known: &'static [&'static str],
    ) -> mlua::Result<Self> {
        Ok(match argument {
            Value::Nil => Self::open(lua, call, &Value::Table(lua.create_table()?), known)?,
            given => Self::open(lua, call, &given, known)?,
        })
    }

    fn checked(
        self,
        mut refused: impl FnMut(Fault, Option<&str>) -> Result<(), Fault>,
    ) -> Result<Self, Fault> {
        let mut unknown: Vec<Value> = Vec::new();
        for pair in self.table.pairs::<Value, Value>() {
            let (key, _) = pair.map_err(|error| Fault::bad_input(error.to_string()))?;
            let known = matches!(&key, Value::String(key)
                if self.known.iter().any(|known| key.as_bytes() == known.as_bytes()));
            if !known {
                unknown.push(key);
            }
        }
        // The table's own order is not that of the text; the first by name keeps messages stable.
        let named = unknown.iter().filter_map(|key| match key {
            Value::String(key) => Some(key.to_string_lossy()),
            _ => None,
        });
        let mut named: Vec<String> = named.collect();
        named.sort();
        for key in &named {
            refused(self.unknown(key), Some(key))?;
        }
        if unknown.len() > named.len() {
            let place = self.place(&[PathStep::Item(1)], FieldPart::Value);
            let hint = place.as_ref().and_then(value_without_name).unwrap_or_else(|| {
                let first = self.known.first().unwrap_or(&"name");
                format!("write {} {{ {first} = … }}", self.call)
            });
            let fault = Fault::bad_input(format!("{}'s options need names", self.call))
                .with_hint(hint)
                .placed(place);
            refused(fault, None)?;
        }
        Ok(self)
    }

    fn unknown(&self, key: &str) -> Fault {
        Fault::bad_input(format!("{} has no option `{key}`", self.call))
            .with_hint(renamed::hint_or_all(key, self.known.iter().copied(), "it has"))
            .placed(self.place(&[PathStep::Key(key)], FieldPart::Key))
    }

    /// Whether the key is given.
    pub fn has(&self, key: &'static str) -> bool {
        !matches!(self.value(key), Value::Nil)
    }

    /// Whether more of the lengths are in inches and feet than in metres and parts of it.
    pub fn in_inches(&self) -> bool {
        let mut counts = [0, 0];
        count_lengths(&self.table, &mut counts, DEEPEST);
        counts[0] > counts[1]
    }

    fn value(&self, key: &'static str) -> Value {
        debug_assert!(self.known.contains(&key), "`{key}` is read but not in the known keys");
        self.table.raw_get(key).unwrap_or(Value::Nil)
    }

    /// The value of a key that must be given.
    ///
    /// # Errors
    /// When it is left out or not of its kind.
    pub fn required<K: Kind>(&self, key: &'static str, kind: K) -> Result<K::Output, Fault> {
        let expected = kind.expected();
        self.optional(key, kind)?.ok_or_else(|| {
            Fault::bad_input(format!("{} needs `{key}`: {expected}", self.call))
                .placed(self.place(&[], FieldPart::Key))
        })
    }

    /// The value of a key that may be left out.
    ///
    /// # Errors
    /// When it is given and not of its kind.
    #[expect(clippy::needless_pass_by_value, reason = "kinds are made at the call")]
    pub fn optional<K: Kind>(
        &self,
        key: &'static str,
        kind: K,
    ) -> Result<Option<K::Output>, Fault> {
        let value = self.value(key);
        if value.is_nil() {
            return Ok(None);
        }
        kind.read(&value).map(Some).map_err(|mismatch| {
            let instead =
                || self.option_inside(&value).map(|it| format!("write {it} in place of {key}"));
            let hint = mismatch.hint.clone().or_else(instead);
            self.mismatched(key, Mismatch { hint, ..mismatch })
        })
    }

    /// An option of this call that stands in a table where it does not belong.
    fn option_inside(&self, value: &Value) -> Option<String> {
        let table = value.as_table()?;
        self.known.iter().find_map(|known| {
            let number = plain_number(&table.raw_get(*known).ok()?)?;
            Some(format!("{known} = {}", shown(number)))
        })
    }

    /// The complaint about the value of a key that is not what it should be.
    pub fn mismatched(&self, key: &str, mismatch: Mismatch) -> Fault {
        let mut path = vec![PathStep::Key(key)];
        path.extend(mismatch.item.map(PathStep::Item));
        let fault =
            Fault::bad_input(mismatch.about(key)).placed(self.place(&path, mismatch.mark()));
        match mismatch.hint {
            Some(hint) => fault.with_hint(hint),
            None => fault,
        }
    }

    /// A complaint of the caller's own about a key: two options that contradict each other, say.
    pub fn complain(&self, key: &'static str, message: impl Into<String>) -> Fault {
        Fault::bad_input(message).placed(self.place(&[PathStep::Key(key)], FieldPart::Key))
    }

    /// A complaint of the caller's own about an item, counted from 1, of the list at a key; about
    /// the value itself when it is no list.
    pub fn complain_of_item(
        &self,
        key: &'static str,
        item: usize,
        message: impl Into<String>,
    ) -> Fault {
        let path = [PathStep::Key(key), PathStep::Item(item)];
        let steps = if self.value(key).is_table() { 2 } else { 1 };
        Fault::bad_input(message).placed(self.place(&path[..steps], FieldPart::Value))
    }

    /// The name of the call.
    pub const fn call(&self) -> &'static str {
        self.call
    }

    /// Whether a key is one of those that these options may have.
    pub fn knows(&self, key: &str) -> bool {
        self.known.contains(&key)
    }

    /// A complaint about the call as a whole.
    pub fn complain_of_call(&self, message: impl Into<String>) -> Fault {
        Fault::bad_input(message)
            .placed(self.site.as_ref().map(|site| site.place(Some(self.call), &[], FieldPart::Key)))
    }

    fn place(&self, path: &[PathStep<'_>], mark: FieldPart) -> Option<Place> {
        self.site.as_ref().map(|site| site.place(Some(self.call), path, mark))
    }
}

/// Tables in tables that are looked through for lengths.
const DEEPEST: usize = 6;

/// Adds the lengths in inches and feet, and those in metric units.
fn count_lengths(table: &Table, counts: &mut [usize; 2], deeper: usize) {
    for (_, value) in table.pairs::<Value, Value>().flatten() {
        match (of_value(&value), &value) {
            (Some(quantity), _) if quantity.si(Dimension::Length).is_some() => {
                counts[usize::from(!is_imperial(quantity.symbol()))] += 1;
            }
            (None, Value::Table(inner)) if deeper > 0 => count_lengths(inner, counts, deeper - 1),
            _ => {}
        }
    }
}
