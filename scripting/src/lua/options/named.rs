//! Tables inside tables, under names that the script chose or in lists.

use super::Options;
use crate::fault::{Fault, Place};
use crate::fields::{Mismatch, Within};
use crate::lua::calls::{FieldPart, PathStep};
use crate::lua::place::{CallSite, Placed};
use crate::lua::quantity::kind_of;
use mlua::{Lua, Value};

impl<'a> From<&'a Within> for PathStep<'a> {
    fn from(within: &'a Within) -> Self {
        match within {
            Within::Key(key) => Self::Key(key),
            Within::Item(number) => Self::Item(*number),
        }
    }
}

impl Mismatch {
    /// The thing that the caret stands under.
    pub(super) fn mark(&self) -> FieldPart {
        if self.near || self.item.is_some() { FieldPart::Value } else { FieldPart::Key }
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
        let options = Self { call, site: site.clone(), table: table.clone(), known: &[] };
        let entries = options.entries(&[], table)?;
        Ok((options, entries))
    }

    /// The values at `key`, each under a name of the script's own, in the order of their names;
    /// nothing when the key is left out.
    ///
    /// # Errors
    /// When it is not a table with names for keys.
    pub fn named_values(&self, key: &'static str) -> Result<Option<Vec<(String, Value)>>, Fault> {
        let Some(table) = self.optional(key, super::table())? else { return Ok(None) };
        self.entries(&[Within::Key(key.to_owned())], &table).map(Some)
    }

    /// The value of a key as it is; nil when it is left out.
    pub fn raw(&self, key: &'static str) -> Value {
        self.value(key)
    }

    /// A complaint about something inside this table.
    pub fn complain_within(&self, within: &[Within], message: impl Into<String>) -> Fault {
        let steps: Vec<PathStep<'_>> = within.iter().map(PathStep::from).collect();
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
}
