//! Reads the balls of a layout.

use super::draft::{BallDraft, HeadingDraft, LaunchDraft};
use super::heading::HeadingEntries;
use super::keys::{BALL, LAUNCH, SPIN, SPIN_SIDE, SPOT, VELOCITY, words};
use super::spot::SpotFields;
use crate::yaml::{
    Entries, Mapping, Numbers, QuantityField, Reader, Refusal, check_name, known_keys,
};
use railproof_engine::bank::Launch;
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
    launch: Option<LaunchDraft>,
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
            "launch" => {
                let entries = LaunchEntries::default();
                self.launch = Some(map.next_value_seed(Mapping { reader, entries })?);
            }
            "diameter" => {
                let seed = QuantityField { reader, parameter: Ball::DIAMETER };
                self.diameter_m = Some(map.next_value_seed(seed)?);
            }
            _ => {
                let seed = QuantityField { reader, parameter: Ball::MASS };
                self.mass_kg = Some(map.next_value_seed(seed)?);
            }
        }
        Ok(())
    }

    fn finish(self) -> Result<BallDraft, Refusal> {
        let (spot, spot_key) = self.spot.finish(&format!("the ball `{}`", self.name))?;
        let ball = BallDraft {
            name: self.name,
            spot,
            spot_key,
            velocity: self.velocity,
            spin: self.spin,
            launch: self.launch,
            diameter_m: self.diameter_m,
            mass_kg: self.mass_kg,
        };
        check_motion(&ball)?;
        Ok(ball)
    }
}

/// Refuses a ball that is sent off and has a velocity or spin as well.
pub(crate) fn check_motion(ball: &BallDraft) -> Result<(), Refusal> {
    if ball.launch.is_none() || (ball.velocity.is_none() && ball.spin.is_none()) {
        return Ok(());
    }
    let message = format!("the ball `{}` has a `launch` and a velocity or spin", ball.name);
    let hint = "a ball moves by one or the other: take one of them out";
    Err(Refusal::new(message).with_hint(hint))
}

#[derive(Default)]
struct LaunchEntries {
    speed_m_s: Option<f64>,
    heading: Option<HeadingDraft>,
    roll: f64,
    spin_side: f64,
}

impl<'de> Entries<'de> for LaunchEntries {
    type Value = LaunchDraft;

    fn what(&self) -> String {
        "`launch`".to_owned()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        known_keys("`launch`", key, words(&LAUNCH))
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        let quantity = |parameter| QuantityField { reader, parameter };
        match key {
            "speed" => self.speed_m_s = Some(map.next_value_seed(quantity(Launch::SPEED))?),
            "heading" => {
                let entries = HeadingEntries::default();
                self.heading = Some(map.next_value_seed(Mapping { reader, entries })?);
            }
            "roll" => self.roll = map.next_value_seed(quantity(Launch::ROLL))?,
            _ => self.spin_side = map.next_value_seed(quantity(SPIN_SIDE))?,
        }
        Ok(())
    }

    fn finish(self) -> Result<LaunchDraft, Refusal> {
        let (Some(speed_m_s), Some(heading)) = (self.speed_m_s, self.heading) else {
            return Err(Refusal::new("`launch` takes a `speed` and a `heading`")
                .with_hint("for instance `{speed: 2 m/s, heading: {to: {pocket: foot-right}}}`"));
        };
        Ok(LaunchDraft { speed_m_s, heading, roll: self.roll, spin_side: self.spin_side })
    }
}
