//! The balls that a shot begins with, and whether it can.

use super::trajectory::tidy;
use crate::equipment::{Ball, Cushion, Equipment, OutOfRange, RailModel};
use crate::motion::BallState;
use crate::rail::Pocket;
use crate::world::{Meeting, Owner, World, WorldError};
use thiserror::Error;

/// Most balls in a shot.
pub const MOST_BALLS: usize = 16;
/// Fastest start that is accepted, m/s.
pub const FASTEST_M_S: f64 = 1000.0;
/// Fastest spin that is accepted, rad/s.
pub const FASTEST_SPIN_RAD_S: f64 = 1e6;
/// A ball may be given this far past a surface or into another ball by rounding, m.
pub const ROUNDING_M: f64 = 1e-9;

/// A ball as the shot begins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShotBall {
    /// Place and motion; table frame.
    pub state: BallState,
    /// Its size and mass.
    pub ball: Ball,
}

impl ShotBall {
    /// One of the equipment's own balls.
    pub fn of(equipment: &Equipment, state: BallState) -> Self {
        Self { state, ball: equipment.ball }
    }
}

/// Why a shot can't be played.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ShotError {
    /// A start that is not made of numbers.
    #[error("ball {ball}: position, velocity and spin must be finite numbers")]
    NotFinite {
        /// Which ball.
        ball: usize,
    },
    /// A start past what the engine computes with.
    #[error(
        "ball {ball} moves at {speed_m_s} m/s and spins at {spin_rad_s} rad/s; at most {FASTEST_M_S} m/s and {FASTEST_SPIN_RAD_S} rad/s are accepted"
    )]
    TooFast {
        /// Which ball.
        ball: usize,
        /// Its speed.
        speed_m_s: f64,
        /// Its spin.
        spin_rad_s: f64,
    },
    /// A ball in a cushion, a jaw or an obstacle.
    #[error("ball {ball} is {past_m} m inside {what}", what = name_of(*owner))]
    Inside {
        /// Which ball.
        ball: usize,
        /// The thing that it is inside of.
        owner: Owner,
        /// The distance.
        past_m: f64,
    },
    /// A ball past a drop line.
    #[error("ball {ball} is {past_m} m past the drop line of the {} pocket", pocket.name())]
    InPocket {
        /// Which ball.
        ball: usize,
        /// Which pocket.
        pocket: Pocket,
        /// The distance.
        past_m: f64,
    },
    /// Two balls in one place.
    #[error("balls {one} and {other} are {deep_m} m inside one another")]
    Overlap {
        /// One of them.
        one: usize,
        /// The other.
        other: usize,
        /// The distance.
        deep_m: f64,
    },
    /// No ball, or more than [`MOST_BALLS`].
    #[error("a shot has 1 to {MOST_BALLS} balls, not {count}")]
    Count {
        /// Their number.
        count: usize,
    },
    /// A ball that the table's noses are not made for.
    #[error("ball {ball}: {error}")]
    Ball {
        /// Which ball.
        ball: usize,
        /// The fault.
        error: OutOfRange,
    },
    /// An end time that is no time.
    #[error("the shot can't run until {until_s} s")]
    Until {
        /// The number asked for.
        until_s: f64,
    },
    /// The rail model lasts in time.
    #[error(
        "the compliant rail model is resolved in time; play the shot on the stepped engine, or choose an impulse model"
    )]
    Compliant,
    /// There is no such table.
    #[error(transparent)]
    World(#[from] WorldError),
}

/// The name that people give a solid thing.
fn name_of(owner: Owner) -> String {
    match owner {
        Owner::Nose(rail) => format!("the {} rail", rail.name()),
        Owner::Jaw { pocket, .. } => format!("a jaw of the {} pocket", pocket.name()),
        Owner::Obstacle(index) => format!("obstacle {index}"),
    }
}

/// Distance between the centres of two balls that touch, in plan: they stand on one plane, so balls
/// of unlike radii touch off the horizontal.
pub fn touching_m(one: &Ball, other: &Ball) -> f64 {
    if one.diameter_m == other.diameter_m {
        return one.diameter_m;
    }
    (one.diameter_m * other.diameter_m).sqrt()
}

/// A ball's nose line to groove, R·cosθ = √(h(2R − h)), m.
pub(crate) fn groove_m(equipment: &Equipment, ball: &Ball) -> f64 {
    let height = equipment.cushion.nose_height_m;
    (height * (ball.diameter_m - height)).sqrt()
}

/// Checks that the shot can be played; the balls come back without negative zeros, and put on a
/// surface that they were past by rounding.
pub(super) fn checked(
    world: &World,
    balls: &[ShotBall],
    until_s: Option<f64>,
) -> Result<Vec<ShotBall>, ShotError> {
    if world.equipment().cushion.rail_model == RailModel::Compliant {
        return Err(ShotError::Compliant);
    }
    laid_out(world, balls, until_s)
}

/// As [`checked`], whatever the rail model.
///
/// # Errors
/// [`ShotError`] but for [`ShotError::Compliant`].
pub(crate) fn laid_out(
    world: &World,
    balls: &[ShotBall],
    until_s: Option<f64>,
) -> Result<Vec<ShotBall>, ShotError> {
    if let Some(until_s) = until_s
        && (until_s.is_nan() || until_s < 0.0)
    {
        return Err(ShotError::Until { until_s });
    }
    if balls.is_empty() || balls.len() > MOST_BALLS {
        return Err(ShotError::Count { count: balls.len() });
    }
    let mut placed = Vec::with_capacity(balls.len());
    for (ball, start) in balls.iter().enumerate() {
        placed.push(placed_ball(world, ball, *start, ROUNDING_M)?);
    }
    for other in 1..placed.len() {
        for one in 0..other {
            let (a, b) = (&placed[one], &placed[other]);
            let deep_m =
                touching_m(&a.ball, &b.ball) - (a.state.position - b.state.position).norm();
            if deep_m > ROUNDING_M {
                return Err(ShotError::Overlap { one, other, deep_m });
            }
        }
    }
    Ok(placed)
}

/// Checks one ball against the table; it comes back without negative zeros, and put on a surface that
/// it was past by no more than `forgiven_m`.
pub(crate) fn placed_ball(
    world: &World,
    ball: usize,
    start: ShotBall,
    forgiven_m: f64,
) -> Result<ShotBall, ShotError> {
    let equipment = world.equipment();
    let wrong = |error| ShotError::Ball { ball, error };
    if start.ball != equipment.ball {
        Ball::DIAMETER.check(start.ball.diameter_m).map_err(wrong)?;
        Ball::MASS.check(start.ball.mass_kg).map_err(wrong)?;
        let nose = equipment.cushion.nose_height_m / start.ball.diameter_m;
        Cushion::NOSE_RATIO.check(nose).map_err(wrong)?;
    }
    if !start.state.is_finite() {
        return Err(ShotError::NotFinite { ball });
    }
    let (speed_m_s, spin_rad_s) = (start.state.velocity.norm(), start.state.spin.norm());
    if !(speed_m_s <= FASTEST_M_S && spin_rad_s <= FASTEST_SPIN_RAD_S) {
        return Err(ShotError::TooFast { ball, speed_m_s, spin_rad_s });
    }
    let mut state = tidy(start.state);
    let own;
    let grown = if start.ball.diameter_m == equipment.ball.diameter_m {
        world.grown()
    } else {
        own = world.grown_for(groove_m(equipment, &start.ball), start.ball.radius_m());
        &own
    };
    if grown.surely_free(state.position) {
        return Ok(ShotBall { state, ..start });
    }
    match grown.obstructed(state.position) {
        Some((past_m, Meeting::Drop(pocket))) => {
            return Err(ShotError::InPocket { ball, pocket, past_m });
        }
        Some((past_m, Meeting::Touch(boundary))) if past_m > forgiven_m => {
            return Err(ShotError::Inside { ball, owner: boundary.owner, past_m });
        }
        Some((_, Meeting::Touch(boundary))) => {
            state.position = boundary.pinned(state.position);
        }
        None => {}
    }
    Ok(ShotBall { state: tidy(state), ..start })
}
