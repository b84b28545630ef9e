//! A cushion, a jaw or an obstacle that pushes a ball: spring, damper and friction from outside the
//! solver.

use crate::equipment::Cushion;
use crate::motion::BallState;
use crate::stepped::Softness;
use crate::vector::Vec2;
use crate::world::{Boundary, Obstacle};

/// A surface that has come back to within this is back, m.
const BACK_M: f64 = 1e-7;

/// The answer of a solid thing to a ball.
#[derive(Debug, Clone, Copy)]
pub(super) struct Material {
    restitution: f64,
    loss_s_m: f64,
    floor: f64,
    friction: f64,
    contact_time_s: f64,
}

impl Material {
    pub(super) fn cushion(cushion: &Cushion, contact_time_s: f64) -> Self {
        Self {
            restitution: cushion.restitution,
            loss_s_m: cushion.restitution_loss_s_m,
            floor: cushion.restitution_floor.min(cushion.restitution),
            friction: cushion.nose_friction,
            contact_time_s,
        }
    }

    pub(super) fn obstacle(obstacle: &Obstacle, contact_time_s: f64) -> Self {
        Self {
            restitution: obstacle.restitution,
            loss_s_m: 0.0,
            floor: 0.0,
            friction: obstacle.friction,
            contact_time_s,
        }
    }

    fn restitution_at(&self, speed_m_s: f64) -> f64 {
        (self.restitution - self.loss_s_m * speed_m_s).max(self.floor)
    }
}

/// The thing that pushes, and the share of its way back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Stage {
    /// The surface is on the ball.
    Pushing,
    /// The ball has gone and the surface comes back: the depth to which it still is pushed in, m.
    ComingBack(f64),
}

/// One ball against one surface.
#[derive(Debug, Clone)]
pub(super) struct Hold {
    pub(super) ball: usize,
    pub(super) boundary: Boundary,
    pub(super) stage: Stage,
    /// Its place in the list of contacts.
    pub(super) contact: usize,
    pub(super) began_s: f64,
    pub(super) approach_m_s: f64,
    pub(super) restitution: f64,
    material: Material,
    softness: Softness,
}

/// A push on a ball over some time.
#[derive(Debug, Clone, Copy)]
pub(super) struct Push {
    /// Impulse per mass along the normal, m/s.
    pub(super) speed_m_s: f64,
    /// The ball afterwards.
    pub(super) state: BallState,
}

impl Hold {
    pub(super) fn new(
        ball: usize,
        boundary: Boundary,
        material: Material,
        state: &BallState,
        contact: usize,
        began_s: f64,
    ) -> Self {
        let approach_m_s = boundary.normal_at(state.position).dot(state.velocity).max(0.0);
        let restitution = material.restitution_at(approach_m_s);
        let softness = Softness::new(restitution, material.contact_time_s);
        let stage = Stage::Pushing;
        Self {
            ball,
            boundary,
            stage,
            contact,
            began_s,
            approach_m_s,
            restitution,
            material,
            softness,
        }
    }

    pub(super) fn contact_time_s(&self) -> f64 {
        self.material.contact_time_s
    }

    pub(super) fn pushes(&self) -> bool {
        self.stage == Stage::Pushing
    }

    /// The distance of the centre past the boundary, m.
    pub(super) fn depth_m(&self, centre: Vec2) -> f64 {
        // Not through the boundary's ends: a ball that glides past them is taken over elsewhere.
        (centre - self.boundary.pinned(centre)).dot(self.boundary.normal_at(centre))
    }

    /// The push on the ball per mass, m/s²; not positive when the surface would have to pull.
    pub(super) fn acceleration(&self, state: &BallState) -> f64 {
        let (frequency, ratio) = self.spring();
        let speed = self.boundary.normal_at(state.position).dot(state.velocity);
        frequency * frequency * self.depth_m(state.position) + 2.0 * ratio * frequency * speed
    }

    /// ω₀ and ζ.
    fn spring(&self) -> (f64, f64) {
        (self.softness.angular_frequency_rad_s, self.softness.damping_ratio)
    }

    /// A ball that something drives in while the surface holds it approaches faster than it arrived:
    /// restitution is that at the fastest approach.
    pub(super) fn follow(&mut self, state: &BallState) {
        let speed = self.boundary.normal_at(state.position).dot(state.velocity);
        if speed > self.approach_m_s {
            self.approach_m_s = speed;
            let restitution = self.material.restitution_at(speed);
            if restitution != self.restitution {
                self.restitution = restitution;
                self.softness = Softness::new(restitution, self.material.contact_time_s);
            }
        }
    }

    /// Half a step's push. The first half takes the damper's speed as it is, the second as it will be.
    /// `None` when the surface would have to pull.
    pub(super) fn push(
        &self,
        state: &BallState,
        radius_m: f64,
        time_s: f64,
        second: bool,
    ) -> Option<Push> {
        let acceleration = self.acceleration(state);
        if acceleration <= 0.0 {
            return None;
        }
        let (frequency, ratio) = self.spring();
        let implicit = if second { 1.0 + 2.0 * ratio * frequency * time_s } else { 1.0 };
        let speed_m_s = acceleration * time_s / implicit;
        let into = self.boundary.normal_at(state.position);
        let along = Vec2::new(into.y, -into.x);
        let slip = along.dot(state.velocity) - radius_m * state.spin.z;
        let grip = (self.material.friction * speed_m_s).min(2.0 / 7.0 * slip.abs());
        let grip = if slip > 0.0 { -grip } else { grip };
        let mut after = *state;
        after.velocity = state.velocity - into * speed_m_s + along * grip;
        after.spin.z -= 2.5 * grip / radius_m;
        Some(Push { speed_m_s, state: after })
    }

    /// The push is over with the centre where it is.
    pub(super) fn let_go(&mut self, centre: Vec2) {
        self.stage = Stage::ComingBack(self.depth_m(centre).max(0.0));
    }

    /// The surface comes back for so long: k·s + c·ṡ = 0.
    pub(super) fn come_back(&mut self, time_s: f64) {
        if let Stage::ComingBack(left_m) = self.stage {
            let (frequency, ratio) = self.spring();
            let left_m = if ratio > 0.0 {
                left_m * libm::exp(-0.5 * frequency / ratio * time_s)
            } else {
                0.0
            };
            self.stage = Stage::ComingBack(left_m);
        }
    }

    /// The depth to which the surface still is pushed in, m; 0 when it is back or on the ball.
    pub(super) fn left_m(&self) -> f64 {
        match self.stage {
            Stage::ComingBack(left_m) if left_m > BACK_M => left_m,
            Stage::ComingBack(_) | Stage::Pushing => 0.0,
        }
    }

    pub(super) fn is_over(&self) -> bool {
        matches!(self.stage, Stage::ComingBack(left_m) if left_m <= BACK_M)
    }
}
