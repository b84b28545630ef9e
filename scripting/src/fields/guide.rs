//! Groups of fields as text for people.

use super::group::{Field, FieldKind, Group, listed};
use super::words::words;
use super::writing::Writing;
use railproof_engine::equipment::Parameter;
use railproof_engine::units::{Dimension, SpeedWord};
use std::fmt::Write;

/// A table of a group: word, kind, range, what holds without it, meaning.
pub(crate) fn guide(group: &Group) -> String {
    let rows = group.all().map(row);
    let head = ["word", "kind", "range", "when left out", "meaning"].map(str::to_owned);
    let rows: Vec<[String; 5]> = std::iter::once(head).chain(rows).collect();
    let width = |column: usize| {
        rows.iter().map(|row| row[column].chars().count()).max().unwrap_or_default()
    };
    let widths = [0, 1, 2, 3].map(width);
    let mut out = String::new();
    for row in &rows {
        let mut line = String::new();
        for (cell, width) in row.iter().zip(widths) {
            let _ = write!(line, "{cell:width$}  ");
        }
        line.push_str(&row[4]);
        let _ = writeln!(out, "{}", line.trim_end());
    }
    out
}

fn row(field: &Field) -> [String; 5] {
    let (kind, range) = kind_and_range(&field.kind);
    [field.name.to_owned(), kind, range, field.default_shown(), field.meaning.to_owned()]
}

fn kind_and_range(kind: &FieldKind) -> (String, String) {
    let of = |parameter: &Parameter| (parameter.dimension.name().to_owned(), range(parameter));
    match kind {
        FieldKind::Number(parameter) => of(parameter),
        FieldKind::NumberOr(parameter, word) => {
            let (kind, range) = of(parameter);
            (format!("{kind} or word"), format!("{range}, or {word}"))
        }
        FieldKind::Speed(parameter) => {
            let (kind, range) = of(parameter);
            let words = listed(&words::<SpeedWord>(), Writing::Yaml).replace('`', "");
            (format!("{kind} or word"), format!("{range}, table lengths, {words}"))
        }
        FieldKind::PlainSpeed(parameter) => {
            let (kind, range) = of(parameter);
            (kind, format!("{range}, or table lengths"))
        }
        FieldKind::Vector { each, count, .. } => {
            (format!("{count} of {}", each.dimension.name()), range(each))
        }
        FieldKind::Points { each, most } => {
            ("points".to_owned(), format!("{}, at most {most}", range(each)))
        }
        FieldKind::Word(words) => {
            ("word".to_owned(), listed(&words(), Writing::Yaml).replace('`', ""))
        }
        FieldKind::Flag => ("flag".to_owned(), "true or false".to_owned()),
        FieldKind::Name => ("name".to_owned(), String::new()),
        FieldKind::Text => ("text".to_owned(), String::new()),
        FieldKind::Group(group) => ("group".to_owned(), short(group)),
        FieldKind::WordOr(word, group) => {
            ("word or group".to_owned(), format!("{word}, or {}", short(group)))
        }
        FieldKind::NameOr(what, _) => ("name or group".to_owned(), (*what).to_owned()),
        FieldKind::Two(kind) => ("list of two".to_owned(), kind_and_range(kind).1),
        FieldKind::Each { thing, most, .. } => {
            (format!("{thing}s by name"), format!("at most {most}"))
        }
    }
}

/// A group by the names of its fields, where they are few.
fn short(group: &Group) -> String {
    let names: Vec<&str> = group.all().map(|field| field.name).collect();
    if names.len() > 6 { format!("{} fields", names.len()) } else { names.join(", ") }
}

fn range(parameter: &Parameter) -> String {
    let Parameter { low, high, unit, dimension, .. } = parameter;
    match dimension {
        Dimension::Ratio => format!("{low} to {high}"),
        _ => format!("{low} to {high} {unit}"),
    }
}
