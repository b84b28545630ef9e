//! Groups of fields in a script: tables read by the tables of fields that YAML files are read by too.

use super::Options;
use super::kinds::{Kind as _, number, quantity, speed};
use crate::fault::Fault;
use crate::fields::{
    Field, FieldKind, FieldValue, Group, GroupValues, Mismatch, Refusal, Scalar, Within, Without,
    Writing, check_name, signed_hint, subject,
};
use crate::lua::calls::{FieldPart, PathStep};
use crate::lua::place::Placed;
use crate::lua::quantity::{Quantity, kind_of, of_value, shown};
use mlua::{Table, Value};
use railproof_engine::equipment::Parameter;
use railproof_engine::units::{Dimension, Speed};

impl Scalar for Value {
    const WRITING: Writing = Writing::Lua;

    fn quantity(&self, parameter: &Parameter) -> Result<(f64, String), Mismatch> {
        let dimension = parameter.dimension;
        if dimension == Dimension::Ratio {
            return number().read(self).map(|number| (number, shown(number))).map_err(|mismatch| {
                let text = self.text();
                match text.and_then(|it| signed_hint(parameter.name, &it, Writing::Lua)) {
                    Some(hint) => mismatch.with_hint(hint),
                    None => mismatch,
                }
            });
        }
        let si = quantity(dimension).read(self)?;
        Ok((si, of_value(self).map_or_else(String::new, Quantity::written)))
    }

    fn speed(&self, _: &Parameter) -> Result<(Speed, String), Mismatch> {
        let speed = speed().read(self)?;
        Ok((speed, of_value(self).map_or_else(String::new, Quantity::written)))
    }

    fn text(&self) -> Option<String> {
        self.as_string().map(mlua::LuaString::to_string_lossy)
    }

    fn truth(&self) -> Option<bool> {
        self.as_boolean()
    }

    fn described(&self) -> String {
        kind_of(self)
    }
}

impl Options {
    /// The fields of a group that stand among these options, as far as these options may have them.
    ///
    /// # Errors
    /// When one is missing that can't be left out, or a value is not of its kind.
    pub(crate) fn group(&self, group: &'static Group) -> Result<GroupValues, Fault> {
        let mut values = GroupValues::new(group, self.call.to_owned());
        for field in group.all().filter(|field| self.knows(field.name)) {
            match self.field(field.name, field.kind)? {
                Some(value) => values.put(field, value),
                None if matches!(field.without, Without::Needed) => {
                    let expected = field.kind.expected(Writing::Lua);
                    return Err(self.complain_here(format!(
                        "{} needs `{}`: {expected}",
                        self.call, field.name
                    )));
                }
                None => {}
            }
        }
        Ok(values)
    }

    /// The value of a field; nothing when it is left out.
    ///
    /// # Errors
    /// When it is given and not of its kind.
    pub(crate) fn field(
        &self,
        name: &'static str,
        kind: FieldKind,
    ) -> Result<Option<FieldValue>, Fault> {
        match self.value(name) {
            Value::Nil => Ok(None),
            value => self.value_at(&[Within::Key(name.to_owned())], &kind, &value).map(Some),
        }
    }

    /// A refusal of what the values at a path say together.
    pub(crate) fn refused(&self, refusal: &Refusal, above: &[Within]) -> Fault {
        let path = [above, &refusal.within].concat();
        let fault = self.complain_within(&path, refusal.message.as_str());
        match refusal.hint_in(Writing::Lua) {
            Some(hint) => fault.with_hint(hint),
            None => fault,
        }
    }

    fn value_at(
        &self,
        path: &[Within],
        kind: &FieldKind,
        value: &Value,
    ) -> Result<FieldValue, Fault> {
        let Value::Table(table) = value else {
            return kind.read(value).map_err(|mismatch| self.unfit(path, mismatch));
        };
        if let FieldKind::Each { .. } = kind {
            return self.each(path, kind, table);
        }
        if let Some(item) = kind.item() {
            let items = self.items(path, &item, table)?;
            let gathered = kind.gathered(items, Writing::Lua);
            return gathered.map_err(|mismatch| self.unfit(path, mismatch));
        }
        match (kind.group(), path) {
            (Some(group), [.., Within::Key(key)]) => {
                self.group_at(path, group, group.title_under(key), table).map(FieldValue::Group)
            }
            (Some(group), _) => {
                self.group_at(path, group, group.title.to_owned(), table).map(FieldValue::Group)
            }
            (None, _) => kind.read(value).map_err(|mismatch| self.unfit(path, mismatch)),
        }
    }

    fn items(
        &self,
        path: &[Within],
        kind: &FieldKind,
        table: &Table,
    ) -> Result<Vec<FieldValue>, Fault> {
        let count = table.raw_len();
        if table.pairs::<Value, Value>().count() != count {
            let mismatch = Mismatch::content("must be a list without gaps or names");
            return Err(self.unfit(path, mismatch));
        }
        let item = |number: usize| {
            let value: Value = table.raw_get(number).unwrap_or(Value::Nil);
            self.value_at(&[path, &[Within::Item(number)]].concat(), kind, &value)
        };
        (1..=count).map(item).collect()
    }

    fn each(&self, path: &[Within], kind: &FieldKind, table: &Table) -> Result<FieldValue, Fault> {
        let FieldKind::Each { thing, group, most } = *kind else {
            return Ok(FieldValue::Each(Vec::new()));
        };
        let entries = self.entries(path, table)?;
        if entries.len() > most {
            return Err(self.complain_within(path, format!("there are more than {most} {thing}s")));
        }
        let mut things = Vec::with_capacity(entries.len());
        for (name, value) in entries {
            let path = [path, &[Within::Key(name.clone())]].concat();
            check_name(&name).map_err(|mismatch| {
                self.complain_within(&path, format!("the {thing}'s name {}", mismatch.message))
            })?;
            let title = format!("the {thing} `{name}`");
            let Value::Table(table) = &value else {
                let message = format!("{title} must be a table, not {}", kind_of(&value));
                return Err(self.complain_within(&path, message));
            };
            things.push((name, self.group_at(&path, group, title, table)?));
        }
        Ok(FieldValue::Each(things))
    }

    fn group_at(
        &self,
        path: &[Within],
        group: &'static Group,
        title: String,
        table: &Table,
    ) -> Result<GroupValues, Fault> {
        let entries = self.entries(path, table)?;
        for (name, _) in &entries {
            let mut at = path.to_vec();
            at.push(Within::Key(name.clone()));
            group.known(&title, name).map_err(|refusal| self.refused(&refusal, &at))?;
        }
        let mut values = GroupValues::new(group, title);
        for field in group.all() {
            let Field { name, kind, .. } = field;
            if let Some((_, value)) = entries.iter().find(|(entry, _)| entry == name) {
                let path = [path, &[Within::Key((*name).to_owned())]].concat();
                values.put(field, self.value_at(&path, kind, value)?);
            }
        }
        values.complete().map_err(|refusal| self.refused(&refusal, path))
    }

    /// A table's entries by their names, in order.
    pub(super) fn entries(
        &self,
        path: &[Within],
        table: &Table,
    ) -> Result<Vec<(String, Value)>, Fault> {
        let mut entries: Vec<(String, Value)> = Vec::new();
        for pair in table.pairs::<Value, Value>() {
            let (name, value) = pair.map_err(|error| Fault::bad_input(error.to_string()))?;
            let Value::String(name) = name else {
                let message = match path {
                    [] => format!("{}'s options need names", self.call),
                    path => format!("what is in {} needs names", subject(path)),
                };
                return Err(self.complain_within(path, message));
            };
            entries.push((name.to_string_lossy(), value));
        }
        entries.sort_by(|one, other| one.0.cmp(&other.0));
        Ok(entries)
    }

    fn unfit(&self, path: &[Within], mismatch: Mismatch) -> Fault {
        let steps: Vec<PathStep<'_>> = path.iter().map(PathStep::from).collect();
        let in_list = matches!(path.last(), Some(Within::Item(_)));
        let mark = if in_list || mismatch.near { FieldPart::Value } else { FieldPart::Key };
        let fault = Fault::bad_input(format!("{} {}", subject(path), mismatch.message))
            .placed(self.place(&steps, mark));
        match mismatch.hint {
            Some(hint) => fault.with_hint(hint),
            None => fault,
        }
    }
}
