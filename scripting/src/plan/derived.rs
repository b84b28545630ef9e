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
pub enum Derived {
    /// A count.
    Count(u64),
    /// A word.
    Word(String),
    /// Words by name.
    Words(BTreeMap<String, String>),
    /// A value that no such field can have.
    Other,
}

impl Derived {
    /// A field that is there.
    pub fn present<'de, D: Deserializer<'de>>(reader: D) -> Result<Option<Self>, D::Error> {
        Self::deserialize(reader).map(Some)
    }
}

impl<'de> Deserialize<'de> for Derived {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        reader.deserialize_any(DerivedReader)
    }
}

struct DerivedReader;

impl<'de> Visitor<'de> for DerivedReader {
    type Value = Derived;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("a value")
    }

    fn visit_u64<E>(self, count: u64) -> Result<Derived, E> {
        Ok(Derived::Count(count))
    }

    fn visit_str<E>(self, word: &str) -> Result<Derived, E> {
        Ok(Derived::Word(word.to_owned()))
    }

    fn visit_i64<E>(self, _: i64) -> Result<Derived, E> {
        Ok(Derived::Other)
    }

    fn visit_f64<E>(self, _: f64) -> Result<Derived, E> {
        Ok(Derived::Other)
    }

    fn visit_bool<E>(self, _: bool) -> Result<Derived, E> {
        Ok(Derived::Other)
    }

    fn visit_unit<E>(self) -> Result<Derived, E> {
        Ok(Derived::Other)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Derived, A::Error> {
        while items.next_element::<IgnoredAny>()?.is_some() {}
        Ok(Derived::Other)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Derived, A::Error> {
        let mut words = Some(BTreeMap::new());
        while let Some((name, value)) = entries.next_entry::<String, Derived>()? {
            match (&mut words, value) {
                (Some(kept), Derived::Word(word)) if kept.len() < MOST_ENTRIES => {
                    kept.insert(name, word);
                }
                _ => words = None,
            }
        }
        Ok(words.map_or(Derived::Other, Derived::Words))
    }
}
