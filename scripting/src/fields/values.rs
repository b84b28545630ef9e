//! The values of a group as they were written, each of its kind and within its range.

use super::group::{Field, Group, Without};
use super::refusal::Refusal;
use super::words::{Worded, meant};
use railproof_engine::units::Speed;

/// The value of a field.
#[derive(Debug, Clone)]
pub(crate) enum FieldValue {
    /// SI.
    Number(f64),
    /// A speed in table lengths.
    Lengths(f64),
    Word(&'static str),
    Flag(bool),
    Text(String),
    List(Vec<Self>),
    Group(GroupValues),
    /// Under names of one's own.
    Each(Vec<(String, GroupValues)>),
}

/// The written values of a group.
#[derive(Debug, Clone)]
pub(crate) struct GroupValues {
    /// Its name in messages.
    pub(crate) title: String,
    group: &'static Group,
    given: Vec<(&'static str, FieldValue)>,
}

impl GroupValues {
    pub(crate) const fn new(group: &'static Group, title: String) -> Self {
        Self { title, group, given: Vec::new() }
    }

    pub(crate) fn put(&mut self, field: &Field, value: FieldValue) {
        self.given.push((field.name, value));
    }

    /// The values, unless a field is missing that can't be left out.
    pub(crate) fn complete(self) -> Result<Self, Refusal> {
        let lacks =
            |field: &&Field| matches!(field.without, Without::Needed) && !self.has(field.name);
        let missing: Vec<&str> = self.group.all().filter(lacks).map(|field| field.name).collect();
        if missing.is_empty() {
            return Ok(self);
        }
        let message = format!("{} has no `{}`", self.title, missing.join("` and no `"));
        Err(match self.group.example {
            Some(example) => Refusal::new(message).with_instance(example),
            None => Refusal::new(message),
        })
    }

    /// A value that its table says is always there.
    pub(crate) fn needed<T>(&self, value: Option<T>) -> Result<T, Refusal> {
        value.ok_or_else(|| Refusal::new(format!("{} is not complete", self.title)))
    }

    /// The only one that is written of several fields.
    pub(crate) fn only_of(&self, names: &[&'static str]) -> Result<&'static str, Refusal> {
        let given: Vec<&'static str> =
            names.iter().copied().filter(|name| self.has(name)).collect();
        if let [only] = given.as_slice() {
            return Ok(only);
        }
        let (last, others) = names.split_last().unwrap_or((&"", &[]));
        let others = others.join("`, `");
        let message = format!("{} takes one of `{others}` and `{last}`", self.title);
        if let [first, rest @ ..] = given.as_slice() {
            let others = rest.join("` and `");
            let hint = format!("keep `{first}` and take out `{others}`, or the other way round");
            return Err(Refusal::new(message).with_hint(hint));
        }
        Err(match self.group.example {
            Some(example) => Refusal::new(message).with_instance(example),
            None => Refusal::new(message),
        })
    }

    /// The names of the fields that were written.
    pub(crate) fn given(&self) -> impl Iterator<Item = &'static str> {
        self.given.iter().map(|(name, _)| *name)
    }

    pub(crate) fn has(&self, name: &str) -> bool {
        self.get(name).is_some()
    }

    /// The value as it was written.
    pub(crate) fn get(&self, name: &str) -> Option<&FieldValue> {
        debug_assert!(
            self.group.field(name).is_some(),
            "`{name}` is not a field of {}",
            self.title
        );
        self.given.iter().find(|(given, _)| *given == name).map(|(_, value)| value)
    }

    fn without(&self, name: &str) -> Without {
        self.group.field(name).map_or(Without::Nothing, |field| field.without)
    }

    /// A number, SI: the one written or the one that holds without it.
    pub(crate) fn number(&self, name: &str) -> Option<f64> {
        match (self.get(name), self.without(name)) {
            (Some(FieldValue::Number(number)), _) => Some(*number),
            (None, Without::Number(number)) => Some(number),
            _ => None,
        }
    }

    /// A speed, by its number or by a word.
    pub(crate) fn speed(&self, name: &str) -> Option<Speed> {
        match self.get(name)? {
            FieldValue::Number(m_s) => Some(Speed::MetresPerSecond(*m_s)),
            FieldValue::Lengths(count) => Some(Speed::TableLengths(*count)),
            FieldValue::Word(word) => meant(word).map(Speed::Word),
            _ => None,
        }
    }

    /// As [`GroupValues::number`], where the table says that there is always one.
    pub(crate) fn number_or_zero(&self, name: &str) -> f64 {
        self.number(name).unwrap_or_default()
    }

    pub(crate) fn vector<const N: usize>(&self, name: &str) -> Option<[f64; N]> {
        self.get(name)?.vector()
    }

    /// The thing that a word stands for.
    pub(crate) fn meant<T: Worded>(&self, name: &str) -> Option<T> {
        match (self.get(name), self.without(name)) {
            (Some(FieldValue::Word(word)), _) => meant(word),
            (None, Without::Word(word)) => meant(word),
            _ => None,
        }
    }

    pub(crate) fn flag(&self, name: &str) -> bool {
        match (self.get(name), self.without(name)) {
            (Some(FieldValue::Flag(flag)), _) => *flag,
            (None, Without::Flag(flag)) => flag,
            _ => false,
        }
    }

    pub(crate) fn text(&self, name: &str) -> Option<&str> {
        match self.get(name)? {
            FieldValue::Text(text) => Some(text),
            _ => None,
        }
    }

    pub(crate) fn list(&self, name: &str) -> Option<&[FieldValue]> {
        match self.get(name)? {
            FieldValue::List(items) => Some(items),
            _ => None,
        }
    }

    pub(crate) fn group(&self, name: &str) -> Option<&Self> {
        match self.get(name)? {
            FieldValue::Group(values) => Some(values),
            _ => None,
        }
    }

    pub(crate) fn each(&self, name: &str) -> Option<&[(String, Self)]> {
        match self.get(name)? {
            FieldValue::Each(things) => Some(things),
            _ => None,
        }
    }

    /// The type that a group under a key is read as.
    pub(crate) fn read<T>(
        &self,
        name: &str,
        read: impl FnOnce(&Self) -> Result<T, Refusal>,
    ) -> Result<Option<T>, Refusal> {
        self.group(name).map(|values| read(values).map_err(|it| it.under(name))).transpose()
    }
}

impl FieldValue {
    /// Exactly so many numbers.
    pub(crate) fn vector<const N: usize>(&self) -> Option<[f64; N]> {
        let Self::List(items) = self else { return None };
        let mut numbers = [0.0; N];
        for (number, item) in numbers.iter_mut().zip(items) {
            let Self::Number(value) = item else { return None };
            *number = *value;
        }
        (items.len() == N).then_some(numbers)
    }
}
