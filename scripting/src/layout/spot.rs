//! Reads where something is.

use super::draft::{HeadingDraft, LineDraft, SpotDraft};
use super::heading::{HeadingEntries, LineEntries};
use super::keys::{
    GAP, NUMBER, OFF_RAIL, PLACE_ONLY, POCKETS, POSITION, RAILS, SHARE, SPOT, words,
};
use crate::yaml::{
    Entries, Mapping, Numbers, QuantityField, Reader, Refusal, Text, WordOf, check_name, known_keys,
};
use railproof_engine::rail::{Pocket, Rail};
use serde::de::{DeserializeSeed, Deserializer, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// The keys that say where, one of which must be there.
const PLACES: [&str; 6] = ["position", "on_rail", "on_line", "between", "behind", "in_front_of"];

/// The fields of a mapping that say where something is.
#[derive(Default)]
pub(crate) struct SpotFields {
    pub(crate) given: Vec<&'static str>,
    pub(crate) position: [f64; 2],
    pub(crate) rail: Option<Rail>,
    pub(crate) number: Option<f64>,
    pub(crate) counted_from: Option<Pocket>,
    pub(crate) off_rail_m: f64,
    pub(crate) line: Option<LineDraft>,
    pub(crate) ends: Option<Box<[SpotDraft; 2]>>,
    pub(crate) share: f64,
    pub(crate) ball: String,
    pub(crate) heading: Option<HeadingDraft>,
    pub(crate) gap_m: f64,
}

impl SpotFields {
    /// Reads a key's value; false when the key says nothing about where.
    pub(crate) fn read<'de, A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<bool, A::Error> {
        let Some(known) = words(&SPOT).find(|known| *known == key) else { return Ok(false) };
        self.given.push(known);
        let quantity = |parameter| QuantityField { reader, parameter };
        match known {
            "position" => {
                let longest = f64::INFINITY;
                let seed = Numbers { reader, parameter: POSITION, longest };
                self.position = map.next_value_seed(seed)?;
            }
            "on_rail" => {
                let seed = WordOf { reader, name: known, words: &RAILS };
                self.rail = Some(Rail::ALL[map.next_value_seed(seed)?]);
            }
            "number" => self.number = Some(map.next_value_seed(quantity(NUMBER))?),
            "counted_from" => self.counted_from = Some(pocket(known, map, reader)?),
            "off_rail" => self.off_rail_m = map.next_value_seed(quantity(OFF_RAIL))?,
            "on_line" => {
                let entries = LineEntries::default();
                self.line = Some(map.next_value_seed(Mapping { reader, entries })?);
            }
            "between" => self.ends = Some(Box::new(map.next_value_seed(TwoPlaces { reader })?)),
            "share" => self.share = map.next_value_seed(quantity(SHARE))?,
            "heading" => {
                let entries = HeadingEntries::default();
                self.heading = Some(map.next_value_seed(Mapping { reader, entries })?);
            }
            "gap" => self.gap_m = map.next_value_seed(quantity(GAP))?,
            // behind and in_front_of
            _ => {
                let seed = Text { reader, name: known, one_line: true };
                self.ball = map.next_value_seed(seed)?;
            }
        }
        Ok(true)
    }

    /// Whether anything has been said about where.
    pub(crate) fn says_nothing(&self) -> bool {
        self.given.is_empty()
    }

    /// The place, and the key that says it.
    pub(crate) fn finish(self, what: &str) -> Result<(SpotDraft, &'static str), Refusal> {
        let has = |key: &str| self.given.contains(&key);
        let mut places = PLACES.into_iter().filter(|key| has(key));
        let Some(place) = places.next() else {
            return Err(Refusal::new(format!("{what} has no place")).with_hint(format!(
                "for instance `position: [\"0.10 m\", \"-0.20 m\"]`; it takes one of {}",
                PLACES.join(", ")
            )));
        };
        if let Some(second) = places.next() {
            return Err(Refusal::new(format!("{what} has both `{place}` and `{second}`"))
                .with_hint("it lies in one place: take one of them out"));
        }
        for (companion, belongs) in [
            ("number", &["on_rail"][..]),
            ("counted_from", &["on_rail"]),
            ("off_rail", &["on_rail", "on_line"]),
            ("share", &["between"]),
            ("heading", &["behind", "in_front_of"]),
            ("gap", &["behind", "in_front_of"]),
        ] {
            if has(companion) && !belongs.contains(&place) {
                return Err(Refusal::new(format!(
                    "{what}: `{companion}` goes with `{}`, not with `{place}`",
                    belongs.join("` or `")
                )));
            }
        }
        let missing = |key: &str, example: &str| {
            Refusal::new(format!("{what} has `{place}` and no `{key}`"))
                .with_hint(format!("for instance `{example}`"))
        };
        let share = if has("share") { self.share } else { 0.5 };
        let spot = match (place, self.rail, self.line, self.ends) {
            ("on_rail", Some(rail), ..) => SpotDraft::OnRail {
                rail,
                number: self.number.ok_or_else(|| missing("number", "number: 2"))?,
                counted_from: self.counted_from,
                off_rail_m: self.off_rail_m,
            },
            ("on_line", _, Some(line), _) => {
                SpotDraft::OnLine { line, off_rail_m: self.off_rail_m }
            }
            ("between", _, _, Some(ends)) => SpotDraft::Between { ends, share },
            ("behind" | "in_front_of", ..) => SpotDraft::Beside {
                ball: self.ball,
                heading: Box::new(
                    self.heading
                        .ok_or_else(|| missing("heading", "heading: {to: {pocket: foot-right}}"))?,
                ),
                ahead: place == "in_front_of",
                gap_m: self.gap_m,
            },
            _ => SpotDraft::At(self.position),
        };
        Ok((spot, place))
    }
}

/// Reads a pocket's name.
pub(crate) fn pocket<'de, A: MapAccess<'de>>(
    name: &'static str,
    map: &mut A,
    reader: &Reader,
) -> Result<Pocket, A::Error> {
    Ok(Pocket::ALL[map.next_value_seed(WordOf { reader, name, words: &POCKETS })?])
}

/// A place: a ball's name as a text, or a mapping that says where.
pub(crate) struct PlaceField<'r> {
    pub(crate) reader: &'r Reader,
}

impl<'de> DeserializeSeed<'de> for PlaceField<'_> {
    type Value = SpotDraft;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<SpotDraft, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for PlaceField<'_> {
    type Value = SpotDraft;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("a ball's name or a place in braces")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<SpotDraft, E> {
        match check_name("the ball's name", text) {
            Ok(()) => Ok(SpotDraft::Ball(text.trim().to_owned())),
            Err(refusal) => Err(self.reader.refuse(refusal)),
        }
    }

    // A ball may be called by a number.
    fn visit_u64<E: Error>(self, number: u64) -> Result<SpotDraft, E> {
        self.visit_str(&number.to_string())
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<SpotDraft, A::Error> {
        Mapping { reader: self.reader, entries: PlaceEntries::default() }.visit_map(map)
    }
}

#[derive(Default)]
struct PlaceEntries {
    fields: SpotFields,
    pocket: Option<Pocket>,
}

impl<'de> Entries<'de> for PlaceEntries {
    type Value = SpotDraft;

    fn what(&self) -> String {
        "the place".to_owned()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        known_keys("a place", key, words(&PLACE_ONLY).chain(words(&SPOT)))
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        if !self.fields.read(key, map, reader)? {
            self.pocket = Some(pocket("pocket", map, reader)?);
        }
        Ok(())
    }

    fn finish(self) -> Result<SpotDraft, Refusal> {
        match self.pocket {
            Some(pocket) if self.fields.says_nothing() => Ok(SpotDraft::Pocket(pocket)),
            Some(_) => Err(Refusal::new("the place has `pocket` and something else")
                .with_hint("it is one place: take one of them out")),
            None => Ok(self.fields.finish("the place")?.0),
        }
    }
}

/// Two places in brackets.
struct TwoPlaces<'r> {
    reader: &'r Reader,
}

fn not_two() -> Refusal {
    Refusal::new("`between` takes two places").with_hint("for instance `[object, cue]`")
}

impl<'de> DeserializeSeed<'de> for TwoPlaces<'_> {
    type Value = [SpotDraft; 2];

    fn deserialize<D: Deserializer<'de>>(
        self,
        deserializer: D,
    ) -> Result<[SpotDraft; 2], D::Error> {
        deserializer.deserialize_seq(self)
    }
}

impl<'de> Visitor<'de> for TwoPlaces<'_> {
    type Value = [SpotDraft; 2];

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("two places in brackets")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<[SpotDraft; 2], A::Error> {
        let mut next = || list.next_element_seed(PlaceField { reader: self.reader });
        let (Some(one), Some(other)) = (next()?, next()?) else {
            return Err(self.reader.refuse(not_two()));
        };
        if list.next_element::<IgnoredAny>()?.is_some() {
            return Err(self.reader.refuse(not_two()));
        }
        Ok([one, other])
    }
}
