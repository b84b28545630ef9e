//! Balls that overlap by rounding are moved apart; those that overlap by more are refused.

use super::place::at_least;
use crate::motion::BallState;
use crate::shot::{ShotBall, ShotError, placed_ball, touching_m};
use crate::vector::Vec2;
use crate::world::World;

/// A coordinate written to the micrometre can round past a groove, and two touching balls into each
/// other: so much is forgiven, m.
pub const FORGIVEN_M: f64 = 1e-6;
/// Moving one pair apart can bring the next together.
const ROUNDS: usize = 64;

/// Checks places against the table and each other, after moving apart what overlaps by no more than
/// [`FORGIVEN_M`]: a ball off a surface, and the later of two balls off the earlier.
///
/// # Errors
/// [`ShotError`] with the place in the list of a ball that is not on the table or in another one.
pub(super) fn settled(world: &World, balls: &[ShotBall]) -> Result<Vec<Vec2>, ShotError> {
    let mut places = Vec::with_capacity(balls.len());
    for (index, start) in balls.iter().enumerate() {
        places.push(on_table(world, index, start, start.state.position)?);
    }
    let least_m = |one: usize, other: usize| touching_m(&balls[one].ball, &balls[other].ball);
    for other in 1..places.len() {
        for one in 0..other {
            let deep_m = least_m(one, other) - (places[other] - places[one]).norm();
            if deep_m > FORGIVEN_M {
                return Err(ShotError::Overlap { one, other, deep_m });
            }
        }
    }
    for _ in 0..ROUNDS {
        let mut moved = false;
        for other in 1..places.len() {
            for one in 0..other {
                let apart = places[other] - places[one];
                if apart.norm() < least_m(one, other) {
                    let along = apart.unit_or_zero();
                    let place = at_least(places[one], along, least_m(one, other));
                    places[other] = on_table(world, other, &balls[other], place)?;
                    moved = true;
                }
            }
        }
        if !moved {
            break;
        }
    }
    Ok(places)
}

/// The place, put on a surface that it is past by rounding.
fn on_table(
    world: &World,
    index: usize,
    start: &ShotBall,
    position: Vec2,
) -> Result<Vec2, ShotError> {
    let at_rest = BallState { position, ..BallState::default() };
    let placed = placed_ball(world, index, ShotBall { state: at_rest, ..*start }, FORGIVEN_M)?;
    Ok(placed.state.position)
}
