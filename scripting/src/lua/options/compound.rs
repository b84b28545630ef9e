//! Kinds made of other kinds: lists, ranges, one kind or another.

use super::kinds::Kind;
use crate::fields::Mismatch;
use crate::lua::quantity::shown;
use mlua::{Table, Value};
use std::ops::RangeInclusive;

/// A list of at least one value of a kind.
#[derive(Debug, Clone, Copy)]
pub struct List<K>(K);

/// A list of at least one value of a kind.
pub const fn list<K: Kind>(kind: K) -> List<K> {
    List(kind)
}

impl<K: Kind> Kind for List<K> {
    type Output = Vec<K::Output>;

    fn expected(&self) -> String {
        format!("a list, each item {}", self.0.expected())
    }

    fn read(&self, value: &Value) -> Result<Self::Output, Mismatch> {
        match value {
            Value::Table(table) => items(&self.0, table),
            _ => Err(Mismatch::other_sort(&self.expected(), value)),
        }
    }
}

/// One value of a kind or a list of them.
#[derive(Debug, Clone, Copy)]
pub struct OneOrMany<K>(K);

/// One value of a kind or a list of at least one: what an axis of a sweep takes.
pub const fn one_or_many<K: Kind>(kind: K) -> OneOrMany<K> {
    OneOrMany(kind)
}

impl<K: Kind> Kind for OneOrMany<K> {
    type Output = Vec<K::Output>;

    fn expected(&self) -> String {
        format!("{}, or a list of such", self.0.expected())
    }

    fn read(&self, value: &Value) -> Result<Self::Output, Mismatch> {
        match value {
            Value::Table(table) => items(&self.0, table),
            _ => self.0.read(value).map(|one| vec![one]),
        }
    }
}

fn items<K: Kind>(kind: &K, table: &Table) -> Result<Vec<K::Output>, Mismatch> {
    let count = table.raw_len();
    let entries = table.pairs::<Value, Value>().count();
    if entries == 0 {
        return Err(Mismatch::content("must hold at least one value"));
    }
    if entries != count {
        return Err(Mismatch::content("must be a list without gaps or names"));
    }
    let mut values = Vec::with_capacity(count);
    for number in 1..=count {
        let value: Value = table.raw_get(number).unwrap_or(Value::Nil);
        let read =
            kind.read(&value).map_err(|mismatch| Mismatch { item: Some(number), ..mismatch })?;
        values.push(read);
    }
    Ok(values)
}

/// A number or quantity within bounds, both included.
#[derive(Debug, Clone)]
pub struct Ranged<K> {
    kind: K,
    range: RangeInclusive<f64>,
    unit: &'static str,
}

/// A number or quantity within bounds, both included; `unit` is the SI unit of the bounds, empty
/// for plain numbers.
pub const fn ranged<K: Kind<Output = f64>>(
    kind: K,
    range: RangeInclusive<f64>,
    unit: &'static str,
) -> Ranged<K> {
    Ranged { kind, range, unit }
}

impl<K: Kind<Output = f64>> Kind for Ranged<K> {
    type Output = f64;

    fn expected(&self) -> String {
        self.kind.expected()
    }

    fn read(&self, value: &Value) -> Result<f64, Mismatch> {
        let read = self.kind.read(value)?;
        if self.range.contains(&read) {
            return Ok(read);
        }
        let (low, high) = (*self.range.start(), *self.range.end());
        let bounds = match (low.is_finite(), high.is_finite()) {
            (true, false) => format!("at least {}", shown(low)),
            (false, true) => format!("at most {}", shown(high)),
            _ => format!("from {} to {}", shown(low), shown(high)),
        };
        let found = shown(read);
        Err(Mismatch::content(
            format!("must be {bounds} {}, not {found}", self.unit).replace(" ,", ","),
        ))
    }
}
