//! A layout's top level.

use super::balls::BallsEntries;
use super::draft::{BallDraft, Draft, StrokeDraft, TargetDraft};
use super::keys::{TOP, UNTIL, words};
use super::obstacles::ObstaclesEntries;
use super::stroke::{StrokeEntries, TargetEntries};
use super::{EngineChoice, EquipmentSource};
use crate::profile::SectionEntries;
use crate::yaml::{
    Entries, Mapping, QuantityField, Reader, Refusal, WordOf, check_name, known_keys,
};
use railproof_engine::world::Obstacle;
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, Visitor};
use std::fmt;

const ENGINES: [&str; 2] = [EngineChoice::Event.name(), EngineChoice::Stepped.name()];

#[derive(Default)]
pub(super) struct LayoutEntries {
    equipment: Option<EquipmentSource>,
    target: Option<TargetDraft>,
    balls: Option<Vec<BallDraft>>,
    stroke: Option<StrokeDraft>,
    obstacles: Vec<Obstacle>,
    engine: EngineChoice,
    until_s: Option<f64>,
}

impl<'de> Entries<'de> for LayoutEntries {
    type Value = Draft;

    fn what(&self) -> String {
        "a layout".to_owned()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        known_keys("a layout", key, words(&TOP))
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        match key {
            "equipment" => self.equipment = Some(map.next_value_seed(NameOrProfile { reader })?),
            "target" => {
                let entries = TargetEntries::default();
                self.target = Some(map.next_value_seed(Mapping { reader, entries })?);
            }
            "balls" => {
                let entries = BallsEntries::default();
                self.balls = Some(map.next_value_seed(Mapping { reader, entries })?);
            }
            "stroke" => {
                let entries = StrokeEntries::default();
                self.stroke = Some(map.next_value_seed(Mapping { reader, entries })?);
            }
            "obstacles" => {
                let entries = ObstaclesEntries::default();
                self.obstacles = map.next_value_seed(Mapping { reader, entries })?;
            }
            "engine" => {
                let seed = WordOf { reader, name: "engine", words: &ENGINES };
                let stepped = map.next_value_seed(seed)? == 1;
                self.engine = if stepped { EngineChoice::Stepped } else { EngineChoice::Event };
            }
            _ => {
                self.until_s =
                    Some(map.next_value_seed(QuantityField { reader, parameter: UNTIL })?);
            }
        }
        Ok(())
    }

    fn finish(self) -> Result<Draft, Refusal> {
        let missing = |key: &str| Refusal::new(format!("the layout has no `{key}`"));
        Ok(Draft {
            equipment: self.equipment.ok_or_else(|| {
                missing("equipment").with_hint("for instance `equipment: nine-foot`")
            })?,
            balls: self.balls.ok_or_else(|| {
                missing("balls").with_hint("each ball has a name and at least a position")
            })?,
            target: self.target,
            stroke: self.stroke,
            obstacles: self.obstacles,
            engine: self.engine,
            until_s: self.until_s,
        })
    }
}

/// A profile's name or path as a text, or the profile itself as a mapping. serde's untagged
/// choice would forget where an error stands.
struct NameOrProfile<'r> {
    reader: &'r Reader,
}

impl<'de> DeserializeSeed<'de> for NameOrProfile<'_> {
    type Value = EquipmentSource;

    fn deserialize<D: Deserializer<'de>>(
        self,
        deserializer: D,
    ) -> Result<EquipmentSource, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for NameOrProfile<'_> {
    type Value = EquipmentSource;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("a profile's name, its path, or the profile itself")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<EquipmentSource, E> {
        match check_name("`equipment`", text) {
            Ok(()) => Ok(EquipmentSource::Named(text.to_owned())),
            Err(refusal) => Err(self.reader.refuse(refusal)),
        }
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<EquipmentSource, A::Error> {
        let entries = SectionEntries::new(false);
        let sections = Mapping { reader: self.reader, entries }.visit_map(map)?;
        Ok(EquipmentSource::Inline(Box::new(sections)))
    }
}
