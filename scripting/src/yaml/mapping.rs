//! A mapping with checked keys: known ones or free names, none of them twice.

use super::{Reader, Refusal};
use crate::renamed;
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, Visitor};
use std::fmt;

/// The entries that a mapping is made of.
pub(crate) trait Entries<'de>: Sized {
    /// The result of the mapping.
    type Value;

    /// The mapping in words, such as ``the `table` section``.
    fn what(&self) -> String;

    /// Whether a key may stand here.
    fn check_key(&self, key: &str) -> Result<(), Refusal>;

    /// Reads the value of an accepted key.
    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error>;

    /// Makes the value when every entry has been read.
    fn finish(self) -> Result<Self::Value, Refusal>;
}

/// The check for mappings whose keys are all known.
pub(crate) fn known_keys<'k>(
    what: &str,
    key: &str,
    known: impl Iterator<Item = &'k str> + Clone,
) -> Result<(), Refusal> {
    if known.clone().any(|name| name == key) {
        return Ok(());
    }
    let refusal = Refusal::new(format!("{what} has no field `{}`", shortened(key)));
    Err(match renamed::hint(key, known.clone()) {
        Some(hint) => refusal.with_hint(hint),
        None => refusal.with_hint(format!("it can have: {}", known.collect::<Vec<_>>().join(", "))),
    })
}

pub(super) fn shortened(text: &str) -> String {
    const LONGEST: usize = 60;
    if text.chars().count() <= LONGEST {
        return text.to_owned();
    }
    text.chars().take(LONGEST).chain(['…']).collect()
}

/// Reads a mapping into its entries.
pub(crate) struct Mapping<'r, E> {
    pub(crate) reader: &'r Reader,
    pub(crate) entries: E,
}

impl<'de, E: Entries<'de>> DeserializeSeed<'de> for Mapping<'_, E> {
    type Value = E::Value;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<E::Value, D::Error> {
        deserializer.deserialize_map(self)
    }
}

impl<'de, E: Entries<'de>> Visitor<'de> for Mapping<'_, E> {
    type Value = E::Value;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{}, with its fields one a line,", self.entries.what())
    }

    fn visit_map<A: MapAccess<'de>>(mut self, mut map: A) -> Result<E::Value, A::Error> {
        let mut seen = Vec::new();
        loop {
            let key = KeyReader { reader: self.reader, entries: &self.entries, seen: &seen };
            let Some(key) = map.next_key_seed(key)? else { break };
            self.reader.enter(&key);
            self.entries.entry(&key, &mut map, self.reader)?;
            self.reader.leave();
            seen.push(key);
        }
        self.entries.finish().map_err(|refusal| self.reader.refuse_whole(refusal))
    }
}

/// Reads one key. It is refused here, inside its own visitor, so that its own place is known.
struct KeyReader<'r, E> {
    reader: &'r Reader,
    entries: &'r E,
    seen: &'r [String],
}

impl<'de, E: Entries<'de>> DeserializeSeed<'de> for KeyReader<'_, E> {
    type Value = String;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<String, D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl<'de, E: Entries<'de>> Visitor<'de> for KeyReader<'_, E> {
    type Value = String;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "the name of a field of {}", self.entries.what())
    }

    fn visit_str<X: Error>(self, key: &str) -> Result<String, X> {
        self.entries.check_key(key).map_err(|refusal| self.reader.refuse(refusal))?;
        if self.seen.iter().any(|seen| seen == key) {
            let what = self.entries.what();
            return Err(self
                .reader
                .refuse(Refusal::new(format!("{what} has `{}` twice", shortened(key)))));
        }
        Ok(key.to_owned())
    }
}
