//! One stroke: the request, and the ball that leaves the tip.

use crate::equipment::{Ball, Cue, OutOfRange, Parameter};
use crate::units::{Dimension, NO_SUCH_LAG};
use crate::vector::{Vec2, Vec3};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// The stroke of a player.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Stroke {
    /// The ball's speed along the cue's line as it leaves the tip, m/s (see [`super::CueBlow`] for the
    /// cue's own speed). Squirt adds a part square to it.
    pub speed_m_s: f64,
    /// The way the cue points over the table, from the table's x axis towards its y axis, rad.
    pub aim_rad: f64,
    /// Where the tip meets the ball, square to the cue: to the right of the centre as a share of the
    /// ball's radius.
    pub side_offset: f64,
    /// The same, above the centre (square to the cue, so that an elevated cue sees it tilted).
    pub height_offset: f64,
    /// The angle by which the cue points down, rad; 0 is level.
    pub elevation_rad: f64,
    /// The elevation is the least for which the table leaves the cue room, at whatever aim: asked of a
    /// whole table (`aim::Setup::raised`), it is put into `elevation_rad`.
    pub least_elevation: bool,
    /// Play on where the tip would slip off, as if it did not.
    pub allow_miscue: bool,
}

/// A number to three decimals, or as many more as tell it from another.
fn told_apart(number: f64, other: f64) -> String {
    let text = |number: f64, decimals: usize| format!("{number:.decimals$}");
    let decimals = (3..17).find(|decimals| text(number, *decimals) != text(other, *decimals));
    text(number, decimals.unwrap_or(3))
}

/// Why a stroke is refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum StrokeError {
    /// A number outside its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// An infinite speed, which is that of a lag.
    #[error("{NO_SUCH_LAG}")]
    NoSuchLag,
    /// The aim is not a number.
    #[error("the aim is {0}, not a finite angle")]
    Aim(f64),
    /// The tip does not meet the ball.
    #[error(
        "the tip misses the ball: it stands {} of the ball's radius from the centre, and the ball \
         ends at 1",
        told_apart(*offset, 1.0)
    )]
    OutsideBall {
        /// Distance from the centre, as a share of the radius.
        offset: f64,
    },
    /// The tip would slip off.
    #[error(
        "a miscue: the tip stands {} of the ball's radius from the centre, and beyond {} it slips off",
        told_apart(*offset, *limit),
        told_apart(*limit, *offset)
    )]
    Miscue {
        /// Distance from the centre, as a share of the radius.
        offset: f64,
        /// The cue's limit.
        limit: f64,
    },
}

/// The ball as it leaves the tip.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct StruckBall {
    /// Velocity over the table, m/s.
    pub velocity: Vec2,
    /// Upward part of the velocity that the impulse gives, m/s; negative is into the cloth. The shot
    /// leaves it out.
    pub up_m_s: f64,
    /// Spin, rad/s.
    pub spin: Vec3,
    /// Angle from the aim to the velocity, against the clock, rad: squirt. Positive (to the left)
    /// for a tip to the right.
    pub squirt_rad: f64,
    /// The tip stood beyond the cue's miscue offset, and the stroke was played on.
    pub miscue: bool,
}

impl Stroke {
    /// Accepted speeds.
    pub const SPEED: Parameter = Parameter::new("speed", Dimension::Speed, 0.01, 20.0, "m/s");
    /// Accepted elevations.
    pub const ELEVATION: Parameter =
        Parameter::new("elevation", Dimension::Angle, 0.0, 80.0, "deg");

    /// A stroke at the ball's centre, level as far as it is left room.
    pub const fn centre(speed_m_s: f64, aim_rad: f64) -> Self {
        Self {
            speed_m_s,
            aim_rad,
            side_offset: 0.0,
            height_offset: 0.0,
            elevation_rad: 0.0,
            least_elevation: true,
            allow_miscue: false,
        }
    }

    /// Distance of the tip from the ball's centre as a share of its radius.
    pub fn offset(&self) -> f64 {
        (self.side_offset * self.side_offset + self.height_offset * self.height_offset).sqrt()
    }

    /// The ball as it leaves the tip: the one impulse of [`super`]'s docs.
    ///
    /// **Left out**: the cloth's answer to a cue that points down. The upward or downward part of the
    /// velocity is discarded and the cloth neither throws the ball up nor rubs meanwhile
    /// ([`StruckBall::jumps`] says when a real ball would hop).
    ///
    /// # Errors
    /// [`StrokeError`] for a number that is out of range or not finite, a tip that does not meet the
    /// ball, and a miscue that is not allowed.
    pub fn strike(&self, ball: &Ball, cue: &Cue) -> Result<StruckBall, StrokeError> {
        if self.speed_m_s == f64::INFINITY {
            return Err(StrokeError::NoSuchLag);
        }
        Self::SPEED.check(self.speed_m_s)?;
        Self::ELEVATION.check(self.elevation_rad)?;
        if !self.aim_rad.is_finite() {
            return Err(StrokeError::Aim(self.aim_rad));
        }
        let offset = self.offset();
        if offset.is_nan() || offset >= 1.0 {
            return Err(StrokeError::OutsideBall { offset });
        }
        let limit = cue.miscue_offset;
        // A hair of slack, since a limit of 0.5 is met by sides and heights that are rounded.
        let miscue = offset > limit * (1.0 + 1e-12);
        if miscue && !self.allow_miscue {
            return Err(StrokeError::Miscue { offset, limit });
        }

        let (aim_sin, aim_cos) = libm::sincos(self.aim_rad);
        let (forward, left) = (Vec2::new(aim_cos, aim_sin), Vec2::new(-aim_sin, aim_cos));
        let (down, level) = libm::sincos(self.elevation_rad);

        let Squirt { per_offset, depth } = squirt(offset, ball.mass_kg, cue.end_mass_kg);
        // The impulse's parts along the cue, to the left and upwards, square to the cue.
        let along = self.speed_m_s;
        let aside = along * per_offset * self.side_offset;
        let lifted = -along * per_offset * self.height_offset;
        // The cue's line, the right-hand side and the direction above the cue are
        // (level·forward, −down), −left and (down·forward, level).
        let ahead = along * level + lifted * down;

        let rate = 2.5 * along * (1.0 - depth * per_offset) / ball.radius_m();
        let (side, follow) = (rate * self.side_offset, rate * self.height_offset);
        let turning = forward * (side * down) + left * follow;
        Ok(StruckBall {
            velocity: forward * ahead + left * aside,
            up_m_s: lifted * level - along * down,
            spin: Vec3::new(turning.x, turning.y, side * level),
            squirt_rad: libm::atan2(aside, ahead),
            miscue,
        })
    }
}

/// The lean of an impulse away from the tip.
pub(super) struct Squirt {
    /// tanα/(b/R): the impulse's part square to the cue over that along it, per offset.
    pub per_offset: f64,
    /// √(1 − b²/R²): the depth behind the centre the tip stands.
    pub depth: f64,
}

/// The lean for a whole offset of the tip, as a share of the radius; an end without mass gives none.
pub(super) fn squirt(offset: f64, ball_mass_kg: f64, end_mass_kg: f64) -> Squirt {
    let squared = 1.0 - offset * offset;
    let depth = squared.sqrt();
    let per_offset =
        2.5 * depth * end_mass_kg / (end_mass_kg * (1.0 + 2.5 * squared) + ball_mass_kg);
    Squirt { per_offset, depth }
}
