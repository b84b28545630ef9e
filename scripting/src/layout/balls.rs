//! The balls of a layout.

use crate::yaml::{Entries, Mapping, Numbers, Reader, Refusal, check_name, known_keys};
use railproof_engine::equipment::Parameter;
use railproof_engine::motion::BallState;
use railproof_engine::units::Dimension;
use railproof_engine::vector::{Vec2, Vec3};
use serde::de::MapAccess;

/// Accepted coordinates of a ball's centre; the table's grooves limit them further.
pub const POSITION: Parameter = Parameter::new("position", Dimension::Length, -4.0, 4.0, "m");
/// Accepted velocity components; the same limit holds for the speed.
pub const VELOCITY: Parameter = Parameter::new("velocity", Dimension::Speed, -50.0, 50.0, "m/s");
/// Accepted spin components; the same limit holds for the whole spin.
pub const SPIN: Parameter = Parameter::new("spin", Dimension::SpinRate, -5000.0, 5000.0, "rad/s");
/// Accepted end times.
pub const UNTIL: Parameter = Parameter::new("until", Dimension::Time, 0.0, 3600.0, "s");

const KEYS: [&str; 3] = ["position", "velocity", "spin"];
/// More balls than any game has.
const MOST_BALLS: usize = 100;

/// Reads the mapping from names to balls.
#[derive(Default)]
pub(super) struct BallsEntries {
    balls: Vec<(String, BallState)>,
}

impl<'de> Entries<'de> for BallsEntries {
    type Value = Vec<(String, BallState)>;

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
        let state = map.next_value_seed(Mapping { reader, entries })?;
        self.balls.push((key.to_owned(), state));
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
    position: Option<[f64; 2]>,
    velocity: [f64; 2],
    spin: [f64; 3],
}

impl<'de> Entries<'de> for BallEntries {
    type Value = BallState;

    fn what(&self) -> String {
        format!("the ball `{}`", self.name)
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        known_keys(&format!("the ball `{}`", self.name), key, KEYS.into_iter())
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        match key {
            "position" => {
                let longest = f64::INFINITY;
                let seed = Numbers { reader, parameter: POSITION, longest };
                self.position = Some(map.next_value_seed(seed)?);
            }
            "velocity" => {
                let seed = Numbers { reader, parameter: VELOCITY, longest: VELOCITY.high };
                self.velocity = map.next_value_seed(seed)?;
            }
            _ => {
                let seed = Numbers { reader, parameter: SPIN, longest: SPIN.high };
                self.spin = map.next_value_seed(seed)?;
            }
        }
        Ok(())
    }

    /// Without velocity or spin the ball has none.
    fn finish(self) -> Result<BallState, Refusal> {
        let Some([x, y]) = self.position else {
            return Err(Refusal::new(format!("the ball `{}` has no `position`", self.name))
                .with_hint("for instance `position: [\"0.10 m\", \"-0.20 m\"]`"));
        };
        let ([vx, vy], [wx, wy, wz]) = (self.velocity, self.spin);
        Ok(BallState {
            position: Vec2::new(x, y),
            velocity: Vec2::new(vx, vy),
            spin: Vec3::new(wx, wy, wz),
        })
    }
}
