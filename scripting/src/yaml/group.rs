//! Groups, lists and single values, each read as its field's kind.

use super::reader::Reader;
use super::{InputText, screen::screen};
use crate::fault::Fault;
use crate::fields::{
    Field, FieldKind, FieldValue, Group, GroupValues, LIKE, Mismatch, Refusal, Within, Writing,
    WrittenText, check_name, plain_shown, shortened,
};
use railproof_engine::units::{Dimension, INCH_M};
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Unexpected, Visitor};
use std::fmt;

impl InputText {
    /// Reads the whole text as a group.
    pub(crate) fn read(&self, group: &'static Group) -> Result<GroupValues, Fault> {
        screen(self)?;
        let reader = Reader::new(self.in_inches() == Some(true));
        let seed = GroupSeed { reader: &reader, group, title: group.title.to_owned() };
        seed.deserialize(serde_yaml::Deserializer::from_str(&self.text))
            .map_err(|error| reader.fault(self, &error))
    }
}

/// Reads a group.
struct GroupSeed<'r> {
    reader: &'r Reader,
    group: &'static Group,
    /// Its name in messages.
    title: String,
}

impl<'de> DeserializeSeed<'de> for GroupSeed<'_> {
    type Value = GroupValues;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<GroupValues, D::Error> {
        deserializer.deserialize_map(self)
    }
}

impl<'de> Visitor<'de> for GroupSeed<'_> {
    type Value = GroupValues;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{} (its fields in braces, or one to a line)", self.title)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<GroupValues, A::Error> {
        let Self { reader, group, title } = self;
        let mut values = GroupValues::new(group, title.clone());
        let known = |key: &str, values: &GroupValues| {
            let field = group.known(&title, key)?;
            let twice = || Refusal::new(format!("{title} has `{key}` twice"));
            if values.has(key) { Err(twice()) } else { Ok(field) }
        };
        loop {
            let check = |key: &str| known(key, &values);
            let Some((_, field)) = map.next_key_seed(Key { reader, what: &title, check })? else {
                break;
            };
            let Field { name, kind, common, .. } = *field;
            let value = reader.within(Within::Key(name.to_owned()), || {
                map.next_value_seed(ValueSeed { reader, name, kind, common })
            })?;
            values.put(field, value);
        }
        values.complete().map_err(|refusal| reader.refuse_whole(refusal))
    }
}

/// Reads a key. It is refused here, inside its own visitor, so that its own place is known.
struct Key<'a, C> {
    reader: &'a Reader,
    /// The list in which the key is a name.
    what: &'a str,
    check: C,
}

impl<'de, T, C: Fn(&str) -> Result<T, Refusal>> DeserializeSeed<'de> for Key<'_, C> {
    type Value = (String, T);

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Self::Value, D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl<T, C: Fn(&str) -> Result<T, Refusal>> Visitor<'_> for Key<'_, C> {
    type Value = (String, T);

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "the name of a field of {}", self.what)
    }

    fn visit_str<E: Error>(self, key: &str) -> Result<Self::Value, E> {
        let checked = (self.check)(key).map_err(|refusal| self.reader.refuse(refusal))?;
        Ok((key.to_owned(), checked))
    }
}

/// Reads the value of a field.
struct ValueSeed<'r> {
    reader: &'r Reader,
    name: &'static str,
    kind: FieldKind,
    common: Option<f64>,
}

impl ValueSeed<'_> {
    /// A hint that shows any value of the kind shows the common one, in the file's own units.
    fn with_common(&self, mismatch: Mismatch) -> Mismatch {
        let (Some(si), FieldKind::Number(parameter)) = (self.common, self.kind) else {
            return mismatch;
        };
        if !mismatch.hint.as_ref().is_some_and(|hint| hint.starts_with(LIKE)) {
            return mismatch;
        }
        let shown = match parameter.dimension {
            Dimension::Length if self.reader.in_inches => {
                format!("{} in", plain_shown(si / INCH_M))
            }
            _ => parameter.shown(si),
        };
        mismatch.with_hint(format!("{LIKE} `{shown}`"))
    }
}

impl<'de> DeserializeSeed<'de> for ValueSeed<'_> {
    type Value = FieldValue;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<FieldValue, D::Error> {
        match self.kind {
            FieldKind::Each { .. } => deserializer.deserialize_map(self),
            FieldKind::Group(_) | FieldKind::WordOr(..) | FieldKind::NameOr(..) => {
                deserializer.deserialize_any(self)
            }
            kind if kind.item().is_some() => deserializer.deserialize_seq(self),
            _ => deserializer.deserialize_str(self),
        }
    }
}

impl<'de> Visitor<'de> for ValueSeed<'_> {
    type Value = FieldValue;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.kind.expected(Writing::Yaml))
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<FieldValue, E> {
        let number = matches!(
            self.kind,
            FieldKind::Number(_)
                | FieldKind::NumberOr(..)
                | FieldKind::Speed(_)
                | FieldKind::PlainSpeed(_)
        );
        let read = match without_leading_zeros(text.trim()).filter(|_| number) {
            Some(plain) => Err(needless_zero(text.trim(), &plain)),
            None => self.kind.read(&WrittenText(text)),
        };
        let hinted = |mismatch: Mismatch| match self.kind {
            FieldKind::Group(Group { example: Some(example), .. }) => {
                mismatch.with_hint(format!("for instance {}", Writing::Yaml.code(example)))
            }
            _ => self.with_common(mismatch),
        };
        read.map_err(|mismatch| self.reader.refuse_value(hinted(mismatch)))
    }

    // A group without fields.
    fn visit_unit<E: Error>(self) -> Result<FieldValue, E> {
        let Self { reader, name, kind, .. } = self;
        let FieldKind::Group(group) = kind else {
            return Err(E::invalid_type(Unexpected::Unit, &self));
        };
        let values = GroupValues::new(group, group.title_under(name));
        let whole = values.complete().map_err(|refusal| reader.refuse_whole(refusal));
        whole.map(FieldValue::Group)
    }

    // A thing may be called by a number.
    fn visit_u64<E: Error>(self, number: u64) -> Result<FieldValue, E> {
        self.visit_str(&number.to_string())
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<FieldValue, A::Error> {
        let Self { reader, name, kind, .. } = self;
        let mut items = Vec::new();
        let Some(item) = kind.item() else {
            return Err(reader.refuse_value(Mismatch::message(format!(
                "must be {}, not a list",
                kind.expected(Writing::Yaml)
            ))));
        };
        while let Some(value) = reader.within(Within::Item(items.len() + 1), || {
            list.next_element_seed(ValueSeed { reader, name, kind: item, common: None })
        })? {
            items.push(value);
        }
        kind.gathered(items, Writing::Yaml).map_err(|mismatch| reader.refuse_value(mismatch))
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<FieldValue, A::Error> {
        let Self { reader, name, kind, .. } = self;
        if let FieldKind::Each { thing, group, most } = kind {
            return each(reader, (name, thing), group, most, map);
        }
        match kind.group() {
            Some(group) => {
                let title = group.title_under(name);
                GroupSeed { reader, group, title }.visit_map(map).map(FieldValue::Group)
            }
            None => Err(reader.refuse_value(Mismatch::message(format!(
                "must be {}, not a table of fields",
                kind.expected(Writing::Yaml)
            )))),
        }
    }
}

/// Reads things that stand under names of the file's own.
fn each<'de, A: MapAccess<'de>>(
    reader: &Reader,
    (key, thing): (&str, &str),
    group: &'static Group,
    most: usize,
    mut map: A,
) -> Result<FieldValue, A::Error> {
    let mut things: Vec<(String, GroupValues)> = Vec::new();
    loop {
        let check = |name: &str| {
            check_name(name)
                .map_err(|it| Refusal::new(format!("the {thing}'s name {}", it.message)))?;
            if things.iter().any(|(known, _)| known == name) {
                return Err(Refusal::new(format!("`{key}` has `{}` twice", shortened(name))));
            }
            if things.len() >= most {
                return Err(Refusal::new(format!("there are more than {most} {thing}s")));
            }
            Ok(())
        };
        let Some((name, ())) = map.next_key_seed(Key { reader, what: key, check })? else { break };
        let title = format!("the {thing} `{name}`");
        let values = reader.within(Within::Key(name.clone()), || {
            map.next_value_seed(GroupSeed { reader, group, title })
        })?;
        things.push((name, values));
    }
    Ok(FieldValue::Each(things))
}

fn needless_zero(text: &str, plain: &str) -> Mismatch {
    Mismatch::content(format!("begins with a needless zero: `{text}`")).with_hint(format!(
        "some programs would read it in base eight; write `{plain}` if that is meant"
    ))
}

/// The text without leading zeros, when it has some that make it look like another base.
fn without_leading_zeros(text: &str) -> Option<String> {
    let (sign, digits) = match text.strip_prefix(['-', '+']) {
        Some(digits) => (&text[..1], digits),
        None => ("", text),
    };
    let rest = digits.trim_start_matches('0');
    let needless = digits.len() > rest.len() && rest.starts_with(|c: char| c.is_ascii_digit());
    let all_zeros = digits.starts_with("00");
    match (needless, all_zeros) {
        (true, _) => Some(format!("{sign}{rest}")),
        (false, true) => Some(format!("{sign}0{rest}")),
        (false, false) => None,
    }
}
