//! Small YAML files read so that every refusal knows its exact place.
//!
//! Checks run inside serde's visitors, because that is the only moment at which the YAML reader
//! knows line and column. What the equipment or a layout consists of is not known here.

mod extent;
mod input;
mod locate;
mod mapping;
mod numbers;
mod reader;
mod scalar;
mod screen;

pub(crate) use input::{InputText, LARGEST_FILE};
pub(crate) use mapping::{Entries, Mapping, known_keys};
pub(crate) use numbers::Numbers;
pub(crate) use reader::{Reader, Refusal};
pub(crate) use scalar::{QuantityField, Text, WordOf, check_name, read_quantity};

/// `a` or `an` and the word, for messages.
pub(crate) fn with_article(word: &str) -> String {
    let an = word.starts_with(['a', 'e', 'i', 'o', 'u']);
    format!("{} {word}", if an { "an" } else { "a" })
}
