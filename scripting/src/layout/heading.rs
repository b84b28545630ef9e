//! Reads lines of rail numbers and directions.

use super::draft::{HeadingDraft, LineDraft};
use super::keys::{ANGLE, CONTACT, HEADING, LINE, RAIL_CHOICES, START, words};
use super::spot::{PlaceField, pocket};
use crate::yaml::{Entries, Mapping, QuantityField, Reader, Refusal, WordOf, known_keys};
use railproof_engine::rail::{Pocket, RailChoice, Reading};
use serde::de::MapAccess;

const READINGS: [&str; 2] = [Reading::Groove.name(), Reading::Sight.name()];

#[derive(Default)]
pub(super) struct LineEntries {
    contact: Option<f64>,
    start: Option<f64>,
    rail: Option<RailChoice>,
    counted_from: Option<Pocket>,
    reading: Reading,
}

impl<'de> Entries<'de> for LineEntries {
    type Value = LineDraft;

    fn what(&self) -> String {
        "the line".to_owned()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        known_keys("a line", key, words(&LINE))
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        match key {
            "contact" => {
                let seed = QuantityField { reader, parameter: CONTACT };
                self.contact = Some(map.next_value_seed(seed)?);
            }
            "start" => {
                self.start = Some(map.next_value_seed(QuantityField { reader, parameter: START })?);
            }
            "rail" => {
                let seed = WordOf { reader, name: "rail", words: &RAIL_CHOICES };
                self.rail = Some(RailChoice::ALL[map.next_value_seed(seed)?]);
            }
            "counted_from" => self.counted_from = Some(pocket("counted_from", map, reader)?),
            _ => {
                let seed = WordOf { reader, name: "reading", words: &READINGS };
                let sight = map.next_value_seed(seed)? == 1;
                self.reading = if sight { Reading::Sight } else { Reading::Groove };
            }
        }
        Ok(())
    }

    fn finish(self) -> Result<LineDraft, Refusal> {
        let (Some(contact), Some(start)) = (self.contact, self.start) else {
            let missing = if self.contact.is_none() { "contact" } else { "start" };
            return Err(Refusal::new(format!("the line has no `{missing}`"))
                .with_hint("a line has two numbers: `{contact: 2, start: 4.4}`"));
        };
        Ok(LineDraft {
            rail: self.rail.unwrap_or(RailChoice::Long),
            counted_from: self.counted_from,
            contact,
            start,
            reading: self.reading,
        })
    }
}

#[derive(Default)]
pub(super) struct HeadingEntries {
    given: Vec<HeadingDraft>,
}

impl<'de> Entries<'de> for HeadingEntries {
    type Value = HeadingDraft;

    fn what(&self) -> String {
        "`heading`".to_owned()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        known_keys("`heading`", key, words(&HEADING))
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        self.given.push(match key {
            "to" => HeadingDraft::To(map.next_value_seed(PlaceField { reader })?),
            "line" => {
                let entries = LineEntries::default();
                HeadingDraft::Line(map.next_value_seed(Mapping { reader, entries })?)
            }
            _ => {
                let seed = QuantityField { reader, parameter: ANGLE };
                HeadingDraft::Angle(map.next_value_seed(seed)?)
            }
        });
        Ok(())
    }

    fn finish(mut self) -> Result<HeadingDraft, Refusal> {
        match (self.given.pop(), self.given.is_empty()) {
            (Some(heading), true) => Ok(heading),
            _ => Err(Refusal::new("`heading` takes one of `to`, `line` and `angle`")
                .with_hint("for instance `{to: {pocket: foot-right}}`")),
        }
    }
}
