//! Reads the balls of a layout.

use super::draft::BallDraft;
use super::keys::{BALL, SPIN, SPOT, VELOCITY, words};
use super::spot::SpotFields;
use crate::yaml::{Entries, Mapping, Numbers, Quantity, Reader, Refusal, check_name, known_keys};
use railproof_engine::equipment::Ball;
use railproof_engine::shot::MOST_BALLS;
use serde::de::MapAccess;

/// Reads the mapping from names to balls.
#[derive(Default)]
pub(super) struct BallsEntries {
    balls: Vec<BallDraft>,
}

impl<'de> Entries<'de> for BallsEntries {
    type Value = Vec<BallDraft>;

    fn what(&self) -> String {
        "`balls`".to_owned()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        check_name("the ball's name", key)?;
        if self.balls.len() >= MOST_BALLS {
            return Err(Refusal::new(format!("there are more than {MOST_BALLS} balls")));
        }
        Ok(())
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        let entries = BallEntries { name: key.to_owned(), ..BallEntries::default() };
        self.balls.push(map.next_value_seed(Mapping { reader, entries })?);
        Ok(())
    }

    fn finish(self) -> Result<Self::Value, Refusal> {
        if self.balls.is_empty() {
            return Err(Refusal::new("there are no balls in `balls`"));
        }
        Ok(self.balls)
    }
}

#[derive(Default)]
struct BallEntries {
    name: String,
    spot: SpotFields,
    velocity: Option<[f64; 2]>,
    spin: Option<[f64; 3]>,
    diameter_m: Option<f64>,
    mass_kg: Option<f64>,
}

impl<'de> Entries<'de> for BallEntries {
    type Value = BallDraft;

    fn what(&self) -> String {
        format!("the ball `{}`", self.name)
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        let keys = words(&SPOT).chain(words(&BALL));
        known_keys(&format!("the ball `{}`", self.name), key, keys)
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        if self.spot.read(key, map, reader)? {
            return Ok(());
        }
        match key {
            "velocity" => {
                let seed = Numbers { reader, parameter: VELOCITY, longest: VELOCITY.high };
                self.velocity = Some(map.next_value_seed(seed)?);
            }
            "spin" => {
                let seed = Numbers { reader, parameter: SPIN, longest: SPIN.high };
                self.spin = Some(map.next_value_seed(seed)?);
            }
            "diameter" => {
                let seed = Quantity { reader, parameter: Ball::DIAMETER };
                self.diameter_m = Some(map.next_value_seed(seed)?);
            }
            _ => {
                let seed = Quantity { reader, parameter: Ball::MASS };
                self.mass_kg = Some(map.next_value_seed(seed)?);
            }
        }
        Ok(())
    }

    fn finish(self) -> Result<BallDraft, Refusal> {
        let (spot, spot_key) = self.spot.finish(&format!("the ball `{}`", self.name))?;
        Ok(BallDraft {
            name: self.name,
            spot,
            spot_key,
            velocity: self.velocity,
            spin: self.spin,
            diameter_m: self.diameter_m,
            mass_kg: self.mass_kg,
        })
    }
}
