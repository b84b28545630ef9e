//! The cue ball's first meeting with the object ball, nothing else in its way.

use super::{NoAim, Setup};
use crate::contact::first_between;
use crate::impact::{Body, ball_ball};
use crate::motion::{BallState, ClothMotion, Path};
use crate::stroke::Stroke;
use crate::vector::Vec2;

/// The hit of the cue ball on the object ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FirstHit {
    /// When, s after the stroke.
    pub time_s: f64,
    /// The cue ball as it arrives.
    pub cue_before: BallState,
    /// The cue ball as it leaves.
    pub cue_after: BallState,
    /// The object ball as it leaves.
    pub object_after: BallState,
    /// Unit vector from the cue ball's centre to the object ball's.
    pub normal: Vec2,
    /// Slip between the surfaces in the table's plane, m/s: it throws the ball and carries side over.
    pub slip_across_m_s: f64,
}

impl FirstHit {
    /// Angle from the cue ball's way to the line of centres, against the clock, rad.
    pub fn cut_rad(&self) -> f64 {
        angle(self.cue_before.velocity, self.normal)
    }

    /// Angle from the line of centres to the object ball's way, against the clock, rad.
    pub fn throw_rad(&self) -> f64 {
        angle(self.normal, self.object_after.velocity)
    }
}

/// Angle from one vector to another, against the clock, rad.
pub(super) fn angle(from: Vec2, to: Vec2) -> f64 {
    libm::atan2(from.cross(to), from.dot(to))
}

/// Where and how the cue ball first meets the object ball after a stroke, as if nothing else were on
/// the table; `None` when it passes it or stops before.
///
/// # Errors
/// [`NoAim::Stroke`] for a stroke that is refused.
pub fn first_hit(setup: &Setup<'_>, stroke: &Stroke) -> Result<Option<FirstHit>, NoAim> {
    let start = setup.cue_after(stroke)?;
    let cloth = cloth_of(setup);
    let object = setup.object.state;
    let path = Path::new(start, cloth);
    let rests = Path::new(object, cloth);
    let distance_m = setup.contact_m();
    let Some(time_s) = first_between(&path, &rests, 0.0, 0.0, 0.0, distance_m, f64::INFINITY)
    else {
        return Ok(None);
    };
    let before = path.state_at(time_s);
    let normal = (object.position - before.position).unit_or_zero();
    let bodies = [Body::from(&setup.cue.ball), Body::from(&setup.object.ball)];
    let motion = [(before.velocity, before.spin), (object.velocity, object.spin)];
    let hit = ball_ball(&setup.world.equipment().ball_contact, normal, bodies, motion);
    let [(cue_v, cue_w), (object_v, object_w)] = hit.after;
    Ok(Some(FirstHit {
        time_s,
        cue_before: before,
        cue_after: BallState { velocity: cue_v, spin: cue_w, ..before },
        object_after: BallState { velocity: object_v, spin: object_w, ..object },
        normal,
        slip_across_m_s: hit.slip_across_m_s,
    }))
}

/// Cloth under the cue ball.
pub(super) fn cloth_of(setup: &Setup<'_>) -> ClothMotion {
    let mut cloth = ClothMotion::new(setup.world.equipment());
    cloth.radius_m = setup.cue.ball.radius_m();
    cloth
}
