//! Fields of a plan's file that follow from the rest and are told for people. They must not say
//! otherwise.

use serde::Deserialize;
use serde::de::{Deserializer, IgnoredAny, MapAccess, SeqAccess, Visitor};
use std::collections::BTreeMap;
use std::fmt;

/// The most entries that are kept of a map: as many inputs as there could be, and some.
const MOST_ENTRIES: usize = 100;

/// The value of such a field, as far as it can be right. A value that can't is read over and not kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Consequence {
    /// A count.
    Count(u64),
    /// A word.
    Word(String),
    /// Words by name.
    Words(BTreeMap<String, String>),
    /// A value that no such field can have.
    Other,
}

impl Consequence {
    /// A field that is there.
    pub fn present<'de, D: Deserializer<'de>>(reader: D) -> Result<Option<Self>, D::Error> {
        Self::deserialize(reader).map(Some)
    }
}

impl<'de> Deserialize<'de> for Consequence {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        reader.deserialize_any(ConsequenceReader)
    }
}

struct ConsequenceReader;

impl<'de> Visitor<'de> for ConsequenceReader {
    type Value = Consequence;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("a value")
    }

    fn visit_u64<E>(self, count: u64) -> Result<Consequence, E> {
        Ok(Consequence::Count(count))
    }

    fn visit_str<E>(self, word: &str) -> Result<Consequence, E> {
        Ok(Consequence::Word(word.to_owned()))
    }

    fn visit_i64<E>(self, _: i64) -> Result<Consequence, E> {
        Ok(Consequence::Other)
    }

    fn visit_f64<E>(self, _: f64) -> Result<Consequence, E> {
        Ok(Consequence::Other)
    }

    fn visit_bool<E>(self, _: bool) -> Result<Consequence, E> {
        Ok(Consequence::Other)
    }

    fn visit_unit<E>(self) -> Result<Consequence, E> {
        Ok(Consequence::Other)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Consequence, A::Error> {
        while items.next_element::<IgnoredAny>()?.is_some() {}
        Ok(Consequence::Other)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Consequence, A::Error> {
        let mut words = Some(BTreeMap::new());
        while let Some((name, value)) = entries.next_entry::<String, Consequence>()? {
            match (&mut words, value) {
                (Some(kept), Consequence::Word(word)) if kept.len() < MOST_ENTRIES => {
                    kept.insert(name, word);
                }
                _ => words = None,
            }
        }
        Ok(words.map_or(Consequence::Other, Consequence::Words))
    }
}
