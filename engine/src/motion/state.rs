//! Place and motion of a ball.

use crate::vector::{Vec2, Vec3};
use serde::Serialize;

/// A ball's centre, velocity and spin. Right-handed frame, z up.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct BallState {
    /// Centre, m.
    pub position: Vec2,
    /// Velocity, m/s.
    pub velocity: Vec2,
    /// Spin, rad/s.
    pub spin: Vec3,
}

impl BallState {
    /// Velocity of the ball's lowest point over the cloth, u = (vx − R·wy, vy + R·wx), m/s.
    pub fn cloth_slip(&self, radius_m: f64) -> Vec2 {
        Vec2::new(
            self.velocity.x - radius_m * self.spin.y,
            self.velocity.y + radius_m * self.spin.x,
        )
    }

    /// Spin that a ball of this velocity has when it rolls without slip; spin about z is kept.
    #[must_use]
    pub fn rolling(mut self, radius_m: f64) -> Self {
        self.spin.x = -self.velocity.y / radius_m;
        self.spin.y = self.velocity.x / radius_m;
        self
    }

    /// The ball's share of natural roll along its travel: 1 rolls, 0 slides without spin, negative is draw.
    /// `None` for a ball that stands still.
    pub fn natural_roll_fraction(&self, radius_m: f64) -> Option<f64> {
        let speed_squared = self.velocity.dot(self.velocity);
        (speed_squared > 0.0).then(|| {
            radius_m * (self.spin.y * self.velocity.x - self.spin.x * self.velocity.y)
                / speed_squared
        })
    }

    /// The state seen in a mirror square to x: spin is an axial vector, so its other two
    /// components turn.
    #[must_use]
    pub fn mirrored(mut self) -> Self {
        self.position.x = -self.position.x;
        self.velocity.x = -self.velocity.x;
        self.spin.y = -self.spin.y;
        self.spin.z = -self.spin.z;
        self
    }

    /// Kinetic energy per mass, ½v² + ⅕R²w², m²/s².
    pub fn energy_per_mass(&self, radius_m: f64) -> f64 {
        0.5 * self.velocity.dot(self.velocity)
            + 0.2 * radius_m * radius_m * self.spin.dot(self.spin)
    }

    /// True when every component is finite.
    pub fn is_finite(&self) -> bool {
        self.position.is_finite() && self.velocity.is_finite() && self.spin.is_finite()
    }
}
