//! Parquet files read back with the library, row by row.

use parquet::file::reader::{FileReader, SerializedFileReader};
use parquet::record::Field;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// A row: its fields by their columns' names.
pub type Fields = BTreeMap<String, Field>;

/// The rows of one file.
pub fn rows_of_file(path: &Path) -> Vec<Fields> {
    let bytes = bytes::Bytes::from(fs::read(path).unwrap());
    let reader = SerializedFileReader::new(bytes).unwrap();
    let rows = reader.get_row_iter(None).unwrap();
    rows.map(|row| row.unwrap().into_columns().into_iter().collect()).collect()
}

/// The rows of all shards of a folder, in the order of their numbers.
pub fn rows_of(folder: &Path) -> Vec<Fields> {
    let shards = fs::read_dir(folder.join("shards")).unwrap();
    let mut paths: Vec<_> = shards.map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths.iter().flat_map(|path| rows_of_file(path)).collect()
}

/// The words of a column; absent ones are empty.
pub fn words(rows: &[Fields], column: &str) -> Vec<String> {
    rows.iter()
        .map(|row| match &row[column] {
            Field::Str(word) => word.clone(),
            Field::Null => String::new(),
            other => panic!("{column} holds {other}"),
        })
        .collect()
}

/// A file of JSON.
pub fn json_of(path: &Path) -> serde_json::Value {
    serde_json::from_str(&text_of_file(path)).unwrap()
}

/// A file's text.
pub fn text_of_file(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}
