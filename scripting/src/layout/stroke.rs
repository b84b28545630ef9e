//! Reads the target and the stroke.

use super::draft::{AimDraft, HeadingDraft, SpotDraft, StrokeDraft, TargetDraft};
use super::heading::HeadingEntries;
use super::keys::{AIM, AIMS, LEAST, SEND, STRUCK, TARGET, TIP, TIP_HEIGHT, TIP_SIDE, words};
use super::spot::{PlaceField, pocket};
use crate::yaml::{
    Entries, Mapping, QuantityField, Reader, Refusal, Text, WordOf, known_keys, read_quantity,
};
use railproof_engine::rail::Pocket;
use railproof_engine::stroke::Stroke;
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, Visitor};
use std::fmt;

/// The second half means yes.
const YES_OR_NO: [&str; 4] = ["no", "false", "yes", "true"];

#[derive(Default)]
pub(super) struct TargetEntries {
    pocket: Option<Pocket>,
    ball: Option<String>,
}

impl<'de> Entries<'de> for TargetEntries {
    type Value = TargetDraft;

    fn what(&self) -> String {
        "`target`".to_owned()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        known_keys("`target`", key, words(&TARGET))
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        if key == "pocket" {
            self.pocket = Some(pocket("pocket", map, reader)?);
        } else {
            let seed = Text { reader, name: "ball", one_line: true };
            self.ball = Some(map.next_value_seed(seed)?);
        }
        Ok(())
    }

    fn finish(self) -> Result<TargetDraft, Refusal> {
        let pocket = self.pocket.ok_or_else(|| {
            Refusal::new("`target` has no `pocket`").with_hint("for instance `pocket: foot-right`")
        })?;
        Ok(TargetDraft { pocket, ball: self.ball })
    }
}

#[derive(Default)]
pub(super) struct StrokeEntries {
    ball: Option<String>,
    speed_m_s: Option<f64>,
    aims: Vec<(AimDraft, &'static str)>,
    tip_side: f64,
    tip_height: f64,
    elevation_rad: Option<f64>,
    allow_miscue: bool,
}

impl<'de> Entries<'de> for StrokeEntries {
    type Value = StrokeDraft;

    fn what(&self) -> String {
        "`stroke`".to_owned()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        known_keys("`stroke`", key, words(&STRUCK).chain(words(&AIMS)).chain(words(&TIP)))
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        let quantity = |parameter| QuantityField { reader, parameter };
        match key {
            "ball" => {
                let seed = Text { reader, name: "ball", one_line: true };
                self.ball = Some(map.next_value_seed(seed)?);
            }
            "speed" => self.speed_m_s = Some(map.next_value_seed(quantity(Stroke::SPEED))?),
            "aim_at" => {
                let spot = map.next_value_seed(PlaceField { reader })?;
                self.aims.push((AimDraft::At(spot), "aim_at"));
            }
            "aim" => {
                let angle_rad = map.next_value_seed(quantity(AIM))?;
                self.aims.push((AimDraft::Angle(angle_rad), "aim"));
            }
            "send" => {
                let entries = SendEntries::new("send");
                let (ball, heading) = map.next_value_seed(Mapping { reader, entries })?;
                self.aims.push((AimDraft::Send { ball, heading }, "send"));
            }
            "ghost" => {
                let entries = SendEntries::new("ghost");
                let (ball, heading) = map.next_value_seed(Mapping { reader, entries })?;
                let heading = Box::new(heading);
                let spot = SpotDraft::Beside { ball, heading, ahead: false, gap_m: 0.0 };
                self.aims.push((AimDraft::At(spot), "ghost"));
            }
            "tip_side" => self.tip_side = map.next_value_seed(quantity(TIP_SIDE))?,
            "tip_height" => self.tip_height = map.next_value_seed(quantity(TIP_HEIGHT))?,
            "elevation" => {
                self.elevation_rad = map.next_value_seed(ElevationOrLeast { reader })?;
            }
            _ => {
                let seed = WordOf { reader, name: "allow_miscue", words: &YES_OR_NO };
                self.allow_miscue = map.next_value_seed(seed)? >= YES_OR_NO.len() / 2;
            }
        }
        Ok(())
    }

    fn finish(mut self) -> Result<StrokeDraft, Refusal> {
        let speed_m_s = self.speed_m_s.ok_or_else(|| {
            Refusal::new("`stroke` has no `speed`").with_hint("for instance `speed: 3 m/s`")
        })?;
        let (Some((aim, aim_key)), true) = (self.aims.pop(), self.aims.is_empty()) else {
            return Err(Refusal::new("`stroke` takes one of `aim`, `aim_at`, `send` and `ghost`")
                .with_hint(
                    "for instance `aim_at: object`, `aim: 30 deg` or `send: {ball: object, heading: \
                     {to: {pocket: foot-right}}}`",
                ));
        };
        Ok(StrokeDraft {
            ball: self.ball,
            speed_m_s,
            aim,
            aim_key,
            tip_side: self.tip_side,
            tip_height: self.tip_height,
            elevation_rad: self.elevation_rad,
            allow_miscue: self.allow_miscue,
        })
    }
}

/// An elevation, or nothing for the word that leaves it to the room.
struct ElevationOrLeast<'r> {
    reader: &'r Reader,
}

impl<'de> DeserializeSeed<'de> for ElevationOrLeast<'_> {
    type Value = Option<f64>;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Option<f64>, D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl Visitor<'_> for ElevationOrLeast<'_> {
    type Value = Option<f64>;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "an angle such as `3 deg`, or {LEAST}")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Option<f64>, E> {
        if text == LEAST {
            return Ok(None);
        }
        read_quantity(text, &Stroke::ELEVATION).map(Some).map_err(|refusal| {
            let is_word = !text.contains(|c: char| c.is_ascii_digit());
            self.reader.refuse(if is_word {
                refusal.with_hint(format!("it takes an angle such as `3 deg`, or `{LEAST}`"))
            } else {
                refusal
            })
        })
    }
}

/// A ball and the way it is to go.
struct SendEntries {
    key: &'static str,
    ball: Option<String>,
    heading: Option<HeadingDraft>,
}

impl SendEntries {
    const fn new(key: &'static str) -> Self {
        Self { key, ball: None, heading: None }
    }
}

impl<'de> Entries<'de> for SendEntries {
    type Value = (String, HeadingDraft);

    fn what(&self) -> String {
        format!("`{}`", self.key)
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        known_keys(&self.what(), key, words(&SEND))
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        if key == "ball" {
            let seed = Text { reader, name: "ball", one_line: true };
            self.ball = Some(map.next_value_seed(seed)?);
        } else {
            let entries = HeadingEntries::default();
            self.heading = Some(map.next_value_seed(Mapping { reader, entries })?);
        }
        Ok(())
    }

    fn finish(self) -> Result<Self::Value, Refusal> {
        let (Some(ball), Some(heading)) = (self.ball, self.heading) else {
            let message = format!("`{}` takes a `ball` and a `heading`", self.key);
            return Err(Refusal::new(message).with_hint(
                "for instance `{ball: object, heading: {line: {contact: 2, start: 4.4}}}`",
            ));
        };
        Ok((ball, heading))
    }
}
