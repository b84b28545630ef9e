//! Columns of a file: each a name, a unit, a meaning and values.

use std::borrow::Cow;

/// The description of a column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ColumnHeader {
    /// Its name, with the unit in it.
    pub name: String,
    /// Its unit; empty for words and plain numbers.
    pub unit: &'static str,
    /// Meaning.
    pub meaning: String,
}

impl ColumnHeader {
    /// A column's name, unit and meaning.
    pub fn new(name: impl Into<String>, unit: &'static str, meaning: impl Into<String>) -> Self {
        Self { name: name.into(), unit, meaning: meaning.into() }
    }
}

/// A column's values.
#[derive(Debug)]
pub enum ColumnValues<'a> {
    /// Whole numbers.
    Whole(Vec<i64>),
    /// Whole numbers, some of them absent.
    Counts(Vec<Option<i64>>),
    /// Numbers; one that is not finite is absent.
    Numbers(Cow<'a, [f64]>),
    /// The same, few of them different: each is stored once.
    Few(Cow<'a, [f64]>),
    /// Yes or no, or absent.
    Flags(Vec<Option<bool>>),
    /// Words of a list, by their index; one past the list is absent.
    Words {
        /// The list.
        list: Vec<String>,
        /// An index for each row.
        codes: Vec<u32>,
    },
}

/// A column.
#[derive(Debug)]
pub struct FileColumn<'a> {
    /// Its description.
    pub about: ColumnHeader,
    /// Its values.
    pub values: ColumnValues<'a>,
}

impl<'a> FileColumn<'a> {
    /// A column.
    pub fn new(about: ColumnHeader, values: ColumnValues<'a>) -> Self {
        Self { about, values }
    }
}
