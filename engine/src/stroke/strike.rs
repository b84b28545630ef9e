//! One stroke: what is asked of it, and the ball that leaves the tip.

use crate::equipment::{Ball, Cue, OutOfRange, Parameter};
use crate::units::Dimension;
use crate::vector::{Vec2, Vec3};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// What the player does.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Stroke {
    /// Speed that the cue gives the ball along its own line, m/s (see [`super::CueBlow`] for the
    /// cue's speed).
    pub speed_m_s: f64,
    /// The way the cue points over the table, from the table's x axis towards its y axis, rad.
    pub aim_rad: f64,
    /// Where the tip meets the ball, square to the cue: to the right of the centre as a share of the
    /// ball's radius.
    pub side_offset: f64,
    /// The same, above the centre (square to the cue, so that an elevated cue sees it tilted).
    pub height_offset: f64,
    /// How far the cue points down, rad; 0 is level.
    pub elevation_rad: f64,
    /// Play on where the tip would slip off, as if it did not.
    pub allow_miscue: bool,
}

/// Why a stroke is refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum StrokeError {
    /// A number outside its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// The aim is not a number.
    #[error("the aim is {0}, not a finite angle")]
    Aim(f64),
    /// The tip does not meet the ball.
    #[error(
        "the tip passes the ball: it stands {offset:.3} of the ball's radius from the centre, and \
         the ball ends at 1"
    )]
    OutsideBall {
        /// Distance from the centre, as a share of the radius.
        offset: f64,
    },
    /// The tip would slip off.
    #[error(
        "a miscue: the tip stands {offset:.3} of the ball's radius from the centre, and beyond \
         {limit:.3} it slips off"
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

    /// A level stroke at the ball's centre.
    pub const fn centre(speed_m_s: f64, aim_rad: f64) -> Self {
        Self {
            speed_m_s,
            aim_rad,
            side_offset: 0.0,
            height_offset: 0.0,
            elevation_rad: 0.0,
            allow_miscue: false,
        }
    }

    /// Distance of the tip from the ball's centre as a share of its radius.
    pub fn offset(&self) -> f64 {
        (self.side_offset * self.side_offset + self.height_offset * self.height_offset).sqrt()
    }

    /// The ball as it leaves the tip.
    ///
    /// Derived for a uniform solid ball and a tip that does not slip: the impulse runs along the cue
    /// and makes the spin w·R/v = (5/2)·b/R about the axis square to cue and offset. Elevation tilts
    /// that axis with the cue, so that side has a part along the travel, from which the cloth makes
    /// swerve.
    ///
    /// Squirt (Shepard 2001): while the ball turns it carries the shaft's end aside, and is pushed
    /// the other way by tanα = (5/2)·(b/R)·√(1 − b²/R²)/(1 + (5/2)·(1 − b²/R²) + m/mₑ) for the whole
    /// offset b; the part of it along side is what shows over the table.
    ///
    /// **Left out**: the cloth's answer to a cue that points down (the downward part of the velocity
    /// is discarded, so the ball leaves at about v·cosε and does not hop), and what squirt takes
    /// back from the spin, about 8 % at the miscue offset.
    ///
    /// # Errors
    /// [`StrokeError`] for a number that is out of range or not finite, a tip that does not meet the
    /// ball, and a miscue that is not allowed.
    pub fn strike(&self, ball: &Ball, cue: &Cue) -> Result<StruckBall, StrokeError> {
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

        // Velocity in the cue's own frame: along it, and to the left.
        let aside = squirt_tangent(self.side_offset, offset, ball.mass_kg, cue.end_mass_kg);
        let along = self.speed_m_s / (1.0 + aside * aside).sqrt();
        let (ahead, aside) = (along * level, along * aside);
        let velocity = forward * ahead + left * aside;

        // The cue's line, the right-hand side and the direction above the cue are
        // (level·forward, −down), −left and (down·forward, level).
        let rate = 2.5 * self.speed_m_s / ball.radius_m();
        let (side, follow) = (rate * self.side_offset, rate * self.height_offset);
        let turning = forward * (side * down) + left * follow;
        Ok(StruckBall {
            velocity,
            spin: Vec3::new(turning.x, turning.y, side * level),
            squirt_rad: libm::atan2(aside, ahead),
            miscue,
        })
    }
}

/// Tangent of the squirt's part along the side offset, towards the left. Derived as for the whole
/// offset; an end without mass gives none.
fn squirt_tangent(side_offset: f64, offset: f64, ball_mass_kg: f64, end_mass_kg: f64) -> f64 {
    let depth_squared = 1.0 - offset * offset;
    2.5 * side_offset * depth_squared.sqrt() * end_mass_kg
        / (end_mass_kg * (1.0 + 2.5 * depth_squared) + ball_mass_kg)
}
