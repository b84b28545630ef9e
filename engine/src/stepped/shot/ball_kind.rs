//! The things that a ball meets, and its motion until something touches it.

use crate::motion::{BallState, ClothMotion};
use crate::shot::{ShotBall, groove_m};
use crate::vector::Vec2;
use crate::world::{Boundary, World};

/// The things that a ball meets, and its motion.
pub(super) struct SteppedKind {
    pub(super) cloth: ClothMotion,
    pub(super) boundaries: Vec<Boundary>,
    /// Between these no nose, jaw or drop line is near, m.
    free_m: Vec2,
    obstacles: bool,
}

impl SteppedKind {
    pub(super) fn new(world: &World, start: &ShotBall) -> Self {
        let equipment = world.equipment();
        let (groove_m, radius_m) = (groove_m(equipment, &start.ball), start.ball.radius_m());
        let grown = world.grown_for(groove_m, radius_m);
        let outline = world.outline();
        Self {
            cloth: ClothMotion { radius_m, ..ClothMotion::new(equipment) },
            boundaries: grown.boundaries().copied().collect(),
            free_m: Vec2::new(outline.half_length_m - groove_m, outline.half_width_m - groove_m),
            obstacles: !world.obstacles().is_empty(),
        }
    }

    /// True when a centre that goes no further than `reach_m` touches and drops into nothing.
    pub(super) fn is_free(&self, centre: Vec2, reach_m: f64) -> bool {
        !self.obstacles
            && centre.x.abs() + reach_m < self.free_m.x
            && centre.y.abs() + reach_m < self.free_m.y
    }
}

/// The motion of a ball in the step to come if nothing touches it.
#[derive(Debug, Clone, Copy)]
pub(super) struct FreeMotion {
    pub(super) state: BallState,
    pub(super) acceleration: Vec2,
}

impl FreeMotion {
    pub(super) fn at(&self, time_s: f64) -> (Vec2, Vec2) {
        let velocity = self.state.velocity + self.acceleration * time_s;
        let mean = self.state.velocity + self.acceleration * (0.5 * time_s);
        (self.state.position + mean * time_s, velocity)
    }

    pub(super) fn fastest(&self, time_s: f64) -> f64 {
        self.state.velocity.norm() + self.acceleration.norm() * time_s
    }
}
