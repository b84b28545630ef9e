//! Ball, cloth, cushion, table and cue as validated parameter structs.
//!
//! Every field knows its kind of quantity and its accepted range (see [`Parameter`]); a value that
//! has become an [`Equipment`] is finite and inside it.

mod ball;
mod ball_contact;
mod cloth;
mod cue;
mod cushion;
mod jaws;
mod number;
mod parameter;
mod rail_top;
mod spoken_speeds;
mod table;

pub use ball::Ball;
pub use ball_contact::{BallContact, FrictionLaw};
pub use cloth::Cloth;
pub use cue::{Cue, CueShape};
pub use cushion::{Cushion, RailModel};
pub use jaws::Jaws;
pub use number::{EquipmentNumber, Section};
pub use parameter::{OutOfRange, Parameter};
pub use rail_top::RailTop;
pub use spoken_speeds::SpokenSpeeds;
pub use table::Table;

use crate::units::Dimension;
use serde::{Deserialize, Serialize};

/// Everything a shot is played with.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Equipment {
    /// Its name for people.
    pub name: String,
    /// The playing surface and its pockets.
    pub table: Table,
    /// The object ball.
    pub ball: Ball,
    /// The cloth.
    pub cloth: Cloth,
    /// The cushions, all alike.
    pub cushion: Cushion,
    /// Contact between balls, alike for all of them.
    pub ball_contact: BallContact,
    /// The cue.
    pub cue: Cue,
    /// The speeds that words stand for.
    #[serde(default = "SpokenSpeeds::usual")]
    pub speeds: SpokenSpeeds,
    /// Gravity, m/s².
    pub gravity_m_s2: f64,
}

impl Equipment {
    /// Gravity's accepted range.
    pub const GRAVITY: Parameter =
        Parameter::new("gravity", Dimension::Acceleration, 0.1, 100.0, "m/s^2");
    /// Standard gravity, m/s² (CGPM 1901).
    pub const USUAL_GRAVITY_M_S2: f64 = 9.80665;

    /// Checks every field.
    ///
    /// # Errors
    /// The first field that is outside its range or not finite.
    pub fn validated(self) -> Result<Self, OutOfRange> {
        for number in EquipmentNumber::all() {
            number.check(&self)?;
        }
        let nose = self.cushion.nose_height_m / self.ball.diameter_m;
        Cushion::NOSE_RATIO.check(nose)?;
        Ok(self)
    }

    /// Sine of the angle by which the nose stands above the ball's centre: (h − R)/R.
    pub fn sin_theta(&self) -> f64 {
        let radius = self.ball.radius_m();
        (self.cushion.nose_height_m - radius) / radius
    }

    /// Distance from the nose line to the ball's centre at contact, R·cosθ = √(h(2R − h)), m.
    pub fn groove_m(&self) -> f64 {
        let height = self.cushion.nose_height_m;
        (height * (self.ball.diameter_m - height)).sqrt()
    }

    /// Deceleration of a rolling ball, μr·g, m/s².
    pub fn rolling_deceleration_m_s2(&self) -> f64 {
        self.cloth.rolling_resistance * self.gravity_m_s2
    }

    /// Deceleration of a sliding ball, μs·g, m/s².
    pub fn sliding_deceleration_m_s2(&self) -> f64 {
        self.cloth.sliding_friction * self.gravity_m_s2
    }

    /// Friction between ball and cloth while the cushion acts: its own value, or the sliding one.
    pub fn impact_cloth_friction(&self) -> f64 {
        self.cushion.impact_cloth_friction.unwrap_or(self.cloth.sliding_friction)
    }
}
