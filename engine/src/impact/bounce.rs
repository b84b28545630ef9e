//! The input and the result of every rail model.

use crate::equipment::Equipment;
use crate::vector::{Vec2, Vec3};

/// The numbers of a cushion that an impulse model needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CushionContact {
    /// Ball radius R, m.
    pub radius_m: f64,
    /// sinθ = (h − R)/R.
    pub sin_theta: f64,
    /// cosθ.
    pub cos_theta: f64,
    /// Friction at the nose, μw.
    pub nose_friction: f64,
    /// Friction at the cloth during the impact, μs.
    pub impact_cloth_friction: f64,
    /// Restitution at vanishing speed, e0.
    pub restitution: f64,
    /// Loss per speed square to the rail, s/m.
    pub restitution_loss_s_m: f64,
    /// Restitution's floor.
    pub restitution_floor: f64,
    /// Checked up to this speed square to the rail, m/s.
    pub checked_speed_m_s: f64,
}

impl CushionContact {
    /// Gathers them from validated equipment.
    pub fn new(equipment: &Equipment) -> Self {
        let sin_theta = equipment.sin_theta();
        Self {
            radius_m: equipment.ball.radius_m(),
            sin_theta,
            cos_theta: (1.0 - sin_theta * sin_theta).sqrt(),
            nose_friction: equipment.cushion.nose_friction,
            impact_cloth_friction: equipment.impact_cloth_friction(),
            restitution: equipment.cushion.restitution,
            restitution_loss_s_m: equipment.cushion.restitution_loss_s_m,
            restitution_floor: equipment
                .cushion
                .restitution_floor
                .min(equipment.cushion.restitution),
            checked_speed_m_s: equipment.cushion.checked_speed_m_s,
        }
    }

    /// e(vn) = max(floor, e0 − k·vn), vn the centre's speed square to the rail at first contact.
    pub fn restitution_at(&self, normal_speed_m_s: f64) -> f64 {
        (self.restitution - self.restitution_loss_s_m * normal_speed_m_s)
            .max(self.restitution_floor)
    }
}

/// Velocity and spin at a cushion, in the axes of the impact.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounce {
    /// Velocity, m/s; y is into the cushion.
    pub velocity: Vec2,
    /// Spin, rad/s.
    pub spin: Vec3,
}

/// The ball as it comes off the cushion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rebound {
    /// Velocity, m/s; y ≤ 0 is away from the cushion.
    pub velocity: Vec2,
    /// Spin, rad/s.
    pub spin: Vec3,
    /// The restitution that was used.
    pub restitution: f64,
    /// The speed square to the rail was above the model's checked range.
    pub outside_checked_speed: bool,
    /// The cloth would have had to pull: a real ball would have hopped.
    pub hop: bool,
}

impl Rebound {
    /// A ball that is not on its way into the cushion keeps its motion.
    pub(super) fn untouched(contact: &CushionContact, before: Bounce) -> Self {
        let Vec2 { x, y } = before.velocity;
        Self {
            velocity: Vec2::new(x, if y > 0.0 { 0.0 } else { y }),
            spin: before.spin,
            restitution: contact.restitution_at(before.velocity.y),
            outside_checked_speed: false,
            hop: false,
        }
    }
}
