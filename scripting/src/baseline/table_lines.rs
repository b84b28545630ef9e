//! The lines of a baseline that hold the numbers of its tables, a line a number, and its rules.

use super::entries::BaselineRows;
use super::rules::{KINDS, StoredRule};
use super::tables::{StoredTable, WORDS};
use crate::renamed;
use railproof_engine::equipment::EquipmentNumber;
use std::fmt::Write;

/// Begins the line of the tables' names, and those of their numbers.
const TABLE: &str = "table";
/// Begins a rule's line.
const RULE: &str = "rule";
/// Tables at most: a plan with more is no baseline.
const MOST_TABLES: usize = 1000;
/// Parts of a rule at most.
const MOST_PARTS: usize = 200;

pub(super) fn write(rows: &BaselineRows, out: &mut String) {
    let tables = &rows.tables;
    if !tables.is_empty() {
        let line = |name: &str, values: Vec<String>| format!("# {name}: {}\n", values.join("\t"));
        *out += &line(TABLE, tables.iter().map(|table| table.name.clone()).collect());
        for (at, word) in WORDS.iter().enumerate() {
            let value = |table: &StoredTable| table.words.get(at).map(|(_, word)| word.clone());
            let values = tables.iter().map(|table| value(table).unwrap_or_default());
            *out += &line(&format!("{TABLE} {word}"), values.collect());
        }
        for number in EquipmentNumber::all() {
            let value = |table: &StoredTable| {
                table.number(number).map_or_else(String::new, |value| value.to_string())
            };
            let name = format!("{TABLE} {}", number.column());
            *out += &line(&name, tables.iter().map(value).collect());
        }
    }
    for rule in &rows.rules {
        let _ = write!(out, "# {RULE}: {}\t{}", rule.key, rule.kind);
        for (name, value) in &rule.parts {
            let _ = write!(out, "\t{name}={value}");
        }
        out.push('\n');
    }
}

/// A fault of a line, and a hint.
pub(super) type LineFault = (String, Option<String>);

/// Takes a line `name: value` of tables or rules; nothing when it is another.
pub(super) fn take(rows: &mut BaselineRows, name: &str, value: &str) -> Result<bool, LineFault> {
    if name == TABLE {
        let names: Vec<&str> = value.split('\t').collect();
        if !rows.tables.is_empty() {
            return Err(("its tables stand twice".to_owned(), None));
        }
        if names.len() > MOST_TABLES {
            return Err((format!("a baseline has at most {MOST_TABLES} tables"), None));
        }
        let table = |name: &str| StoredTable {
            name: name.to_owned(),
            words: Vec::new(),
            numbers: Vec::new(),
        };
        rows.tables = names.into_iter().map(table).collect();
        return Ok(true);
    }
    if name == RULE {
        rows.rules.push(rule(value)?);
        return Ok(true);
    }
    let Some(number) = name.strip_prefix(TABLE).and_then(|rest| rest.strip_prefix(' ')) else {
        return Ok(false);
    };
    let values: Vec<&str> = value.split('\t').collect();
    if values.len() != rows.tables.len() {
        let message = format!(
            "this line has {} values, and there are {} tables",
            values.len(),
            rows.tables.len()
        );
        return Err((message, Some("values are kept apart by tabs".to_owned())));
    }
    if let Some(word) = WORDS.into_iter().find(|word| *word == number) {
        for (table, value) in rows.tables.iter_mut().zip(values) {
            once(table.words.iter().any(|(known, _)| *known == word), number)?;
            table.words.push((word, value.trim().to_owned()));
        }
        return Ok(true);
    }
    let known = EquipmentNumber::all().find(|known| known.column() == number);
    let Some(known) = known else {
        let all: Vec<String> = EquipmentNumber::all().map(EquipmentNumber::column).collect();
        let hint = renamed::hint(number, all.iter().map(String::as_str));
        return Err((format!("`{number}` is not a number of a table"), hint));
    };
    for (table, value) in rows.tables.iter_mut().zip(values) {
        let value = value.trim();
        let Some(parsed) = value.parse::<f64>().ok().filter(|parsed| parsed.is_finite()) else {
            return Err((format!("`{value}` is not a number"), None));
        };
        once(table.numbers.iter().any(|(one, _)| *one == known), number)?;
        table.numbers.push((known, parsed));
    }
    Ok(true)
}

fn once(is_known: bool, name: &str) -> Result<(), LineFault> {
    if is_known { Err((format!("`{name}` stands twice"), None)) } else { Ok(()) }
}

fn rule(value: &str) -> Result<StoredRule, LineFault> {
    let fault = || {
        let hint =
            "a rule's line is its name, what it is, and its parts `name=value`, kept apart by tabs";
        ("this is not a rule of a baseline".to_owned(), Some(hint.to_owned()))
    };
    let mut fields = value.split('\t');
    let (Some(key), Some(kind)) = (fields.next(), fields.next()) else { return Err(fault()) };
    if key.is_empty() || !KINDS.iter().any(|(known, _)| *known == kind) {
        return Err(fault());
    }
    let parts = fields.map(|field| {
        let (name, value) = field.split_once('=').ok_or_else(fault)?;
        Ok((name.to_owned(), value.to_owned()))
    });
    let parts = parts.collect::<Result<Vec<_>, LineFault>>()?;
    if parts.len() > MOST_PARTS {
        return Err((format!("a rule has at most {MOST_PARTS} parts"), None));
    }
    Ok(StoredRule { key: key.to_owned(), kind: kind.to_owned(), parts })
}
