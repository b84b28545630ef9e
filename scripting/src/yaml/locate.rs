//! Where a key stands, found by reading the text once more.
//!
//! A check that needs a whole section, or two of them, fails when the YAML reader has already
//! gone on. Reading again and stopping at the key gives its exact place.

use super::{InputText, extent::extent};
use crate::fault::Place;
use crate::fields::Within;
use serde::de::{DeserializeSeed, Deserializer, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};
use std::fmt;

impl InputText {
    /// The place of a key given by the keys that lead to it; the beginning of the text when it is
    /// not there.
    pub(crate) fn place_of(&self, path: &[&str]) -> Place {
        self.find(path).unwrap_or_else(|| self.beginning())
    }

    /// The same; `None` when the key is not there.
    pub(crate) fn find(&self, path: &[&str]) -> Option<Place> {
        let path: Vec<Within> = path.iter().map(|key| Within::Key((*key).to_owned())).collect();
        locate(self, &path)
    }
}

pub(super) fn locate(source: &InputText, path: &[Within]) -> Option<Place> {
    let document = serde_yaml::Deserializer::from_str(&source.text);
    // Reading on without an error means that the key is not there.
    let stopped = KeyFinder { path }.deserialize(document).err()?;
    let location = stopped.location()?;
    Some(source.place(extent(&source.text, location.index())))
}

/// Walks down one path of keys and items and stops with an error at the last one.
pub(crate) struct KeyFinder<'p> {
    pub(crate) path: &'p [Within],
}

impl<'de> DeserializeSeed<'de> for KeyFinder<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        match self.path {
            [Within::Item(_), ..] => deserializer.deserialize_seq(self),
            _ => deserializer.deserialize_map(self),
        }
    }
}

impl<'de> Visitor<'de> for KeyFinder<'_> {
    type Value = ();

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("a mapping or a list")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        let Some((Within::Key(wanted), rest)) = self.path.split_first() else { return Ok(()) };
        while let Some(found) = map.next_key_seed(KeyStop { wanted, last: rest.is_empty() })? {
            if found {
                map.next_value_seed(KeyFinder { path: rest })?;
            } else {
                map.next_value::<IgnoredAny>()?;
            }
        }
        Ok(())
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        let Some((Within::Item(wanted), rest)) = self.path.split_first() else { return Ok(()) };
        for _ in 1..*wanted {
            list.next_element::<IgnoredAny>()?;
        }
        match rest {
            [] => list.next_element_seed(Here).map(drop),
            rest => list.next_element_seed(KeyFinder { path: rest }).map(drop),
        }
    }
}

/// Stops at a value.
struct Here;

impl<'de> DeserializeSeed<'de> for Here {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_unit(self)
    }
}

impl Visitor<'_> for Here {
    type Value = ();

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("nothing, so that an error tells its place")
    }
}

struct KeyStop<'p> {
    wanted: &'p str,
    last: bool,
}

impl<'de> DeserializeSeed<'de> for KeyStop<'_> {
    type Value = bool;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<bool, D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl Visitor<'_> for KeyStop<'_> {
    type Value = bool;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("a key")
    }

    fn visit_str<E: Error>(self, key: &str) -> Result<bool, E> {
        match (key == self.wanted, self.last) {
            (true, true) => Err(E::custom("here")),
            (found, _) => Ok(found),
        }
    }
}
