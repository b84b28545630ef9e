//! Tables inside tables, under names that the script chose or in lists.

use super::{Kind, Options};
use crate::fault::{Fault, Place};
use crate::lua::calls::{FieldPart, PathStep};
use crate::lua::place::{CallSite, Placed};
use crate::lua::quantity::kind_of;
use mlua::{Lua, Table, Value};

/// One step from a table into a table in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Within {
    /// Under a name.
    Key(String),
    /// At a place of a list, counted from 1.
    Item(usize),
}

impl Within {
    pub(super) fn step(&self) -> PathStep<'_> {
        match self {
            Self::Key(key) => PathStep::Key(key),
            Self::Item(number) => PathStep::Item(*number),
        }
    }
}

impl Options {
    /// Takes the argument of a call of `call` as a table whose names are the script's own; gives
    /// its entries in the order of their names.
    ///
    /// # Errors
    /// When it is not a table with names for keys.
    pub fn open_named(
        lua: &Lua,
        call: &'static str,
        argument: &Value,
    ) -> Result<(Self, Vec<(String, Value)>), Fault> {
        let site = CallSite::find(lua);
        let place = || site.as_ref().map(|site| site.place(Some(call), &[], FieldPart::Key));
        let Value::Table(table) = argument else {
            let message = format!("{call} takes a table of options, not {}", kind_of(argument));
            return Err(Fault::bad_input(message).placed(place()));
        };
        let mut entries: Vec<(String, Value)> = Vec::new();
        for pair in table.pairs::<Value, Value>() {
            let (name, value) = pair.map_err(|error| Fault::bad_input(error.to_string()))?;
            let Value::String(name) = name else {
                let message = format!("{call}'s options need names");
                return Err(Fault::bad_input(message).placed(place()));
            };
            entries.push((name.to_string_lossy(), value));
        }
        entries.sort_by(|one, other| one.0.cmp(&other.0));
        let (what, table) = (call.to_owned(), table.clone());
        Ok((Self { call, site, what, above: Vec::new(), table, known: &[] }, entries))
    }

    /// A table inside this one as options of its own; `what` is what messages call it.
    ///
    /// # Errors
    /// When it holds a key that is not known.
    pub fn inner(
        &self,
        within: &[Within],
        what: String,
        table: Table,
        known: &'static [&'static str],
    ) -> Result<Self, Fault> {
        let mut above = self.above.clone();
        above.extend_from_slice(within);
        let (call, site) = (self.call, self.site.clone());
        Self { call, site, what, above, table, known }.checked()
    }

    /// The tables at `key`, each under a name of the script's own, in the order of their names;
    /// nothing when the key is left out. `describe` makes of a name what messages call the thing.
    ///
    /// # Errors
    /// When it is not a table of tables with names, or one of them holds a key that is not known.
    pub fn named(
        &self,
        key: &'static str,
        known: &'static [&'static str],
        describe: impl Fn(&str) -> String,
    ) -> Result<Option<Vec<(String, Self)>>, Fault> {
        let Some(entries) = self.named_values(key)? else { return Ok(None) };
        let mut inside = Vec::with_capacity(entries.len());
        for (name, value) in entries {
            let within = [Within::Key(key.to_owned()), Within::Key(name.clone())];
            let Value::Table(table) = value else {
                return Err(self.complain_within(
                    &within,
                    format!("{} must be a table, not {}", describe(&name), kind_of(&value)),
                ));
            };
            let options = self.inner(&within, describe(&name), table, known)?;
            inside.push((name, options));
        }
        Ok(Some(inside))
    }

    /// The values at `key`, each under a name of the script's own, in the order of their names;
    /// nothing when the key is left out.
    ///
    /// # Errors
    /// When it is not a table with names for keys.
    pub fn named_values(&self, key: &'static str) -> Result<Option<Vec<(String, Value)>>, Fault> {
        let Some(table) = self.optional(key, super::table())? else { return Ok(None) };
        let mut entries: Vec<(String, Value)> = Vec::new();
        for pair in table.pairs::<Value, Value>() {
            let (name, value) = pair.map_err(|error| Fault::bad_input(error.to_string()))?;
            let Value::String(name) = name else {
                return Err(self.complain(key, format!("what is in `{key}` needs names")));
            };
            entries.push((name.to_string_lossy(), value));
        }
        entries.sort_by(|one, other| one.0.cmp(&other.0));
        Ok(Some(entries))
    }

    /// The value of a key as it is; nil when it is left out.
    pub fn raw(&self, key: &'static str) -> Value {
        self.value(key)
    }

    /// Reads a value that was found inside this table.
    ///
    /// # Errors
    /// When it is not of its kind.
    #[expect(clippy::needless_pass_by_value, reason = "kinds are made at the call")]
    pub fn read_within<K: Kind>(
        &self,
        within: &[Within],
        value: &Value,
        kind: K,
    ) -> Result<K::Output, Fault> {
        kind.read(value).map_err(|mismatch| {
            let name = match within.last() {
                Some(Within::Key(key)) => format!("`{key}`"),
                Some(Within::Item(number)) => format!("item {number}"),
                None => "this".to_owned(),
            };
            let mut steps: Vec<PathStep<'_>> = within.iter().map(Within::step).collect();
            steps.extend(mismatch.item.map(PathStep::Item));
            let fault = Fault::bad_input(format!("{name} {}", mismatch.message))
                .placed(self.place(&steps, mismatch.mark));
            match mismatch.hint {
                Some(hint) => fault.with_hint(hint),
                None => fault,
            }
        })
    }

    /// A complaint about something inside this table.
    pub fn complain_within(&self, within: &[Within], message: impl Into<String>) -> Fault {
        let steps: Vec<PathStep<'_>> = within.iter().map(Within::step).collect();
        Fault::bad_input(message).placed(self.place(&steps, FieldPart::Key))
    }

    /// A complaint about this table as a whole.
    pub fn complain_here(&self, message: impl Into<String>) -> Fault {
        self.complain_within(&[], message)
    }

    /// Where a path of keys inside this table stands.
    pub fn place_of(&self, path: &[&str]) -> Option<Place> {
        let steps: Vec<PathStep<'_>> = path.iter().map(|key| PathStep::Key(key)).collect();
        self.place(&steps, FieldPart::Key)
    }

    /// Where the value of a key stands.
    pub fn place_of_value(&self, key: &'static str) -> Option<Place> {
        self.place(&[PathStep::Key(key)], FieldPart::Value)
    }

    /// The name in messages of the thing that has these options.
    pub fn what(&self) -> &str {
        &self.what
    }
}
