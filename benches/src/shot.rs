//! The planar bank that all rivals solve, and its closed form.

use railproof_engine::impact::{Bounce, CushionContact, planar};
use railproof_engine::motion::{BallState, ClothMotion, Path};
use railproof_engine::vector::{Vec2, Vec3};

/// A ball that slides to a cushion, comes off it sliding, and rolls on. The cushion is touched with
/// the centre at y = 0 and lies at y > 0.
#[derive(Debug, Clone, Copy)]
pub struct Shot {
    /// Where and how the ball starts.
    pub start: BallState,
    /// Ball and cloth.
    pub cloth: ClothMotion,
    /// Mass, kg.
    pub mass_kg: f64,
    /// Restitution.
    pub restitution: f64,
    /// Friction at the cushion.
    pub friction: f64,
    /// It arrives at y = −`back_m`, m.
    pub back_m: f64,
}

/// The ball where it arrives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrival {
    /// Time from the start, s.
    pub time_s: f64,
    /// Place along the line of arrival, m.
    pub x_m: f64,
    /// Velocity there, m/s.
    pub velocity: Vec2,
}

impl Shot {
    /// Radius 28.575 mm, centre 0.3 m square from the place of contact, 2 m/s without spin at 30°
    /// from the cushion's normal, μs 0.2, μr 0.0128, e 0.85, μ 0.2, g 9.81; arrives 1.2 m back.
    pub fn reference() -> Self {
        let (half, root) = (0.5, 0.75_f64.sqrt());
        Self {
            start: BallState {
                position: Vec2::new(0.0, -0.3),
                velocity: Vec2::new(2.0 * half, 2.0 * root),
                spin: Vec3::ZERO,
            },
            cloth: ClothMotion {
                radius_m: 0.028_575,
                sliding_deceleration_m_s2: 0.2 * 9.81,
                rolling_deceleration_m_s2: 0.0128 * 9.81,
                pivot_deceleration_rad_s2: 10.0,
            },
            mass_kg: 0.163,
            restitution: 0.85,
            friction: 0.2,
            back_m: 1.2,
        }
    }

    /// The cushion of this shot.
    pub fn contact(&self) -> CushionContact {
        CushionContact {
            radius_m: self.cloth.radius_m,
            sin_theta: 0.0,
            cos_theta: 1.0,
            nose_friction: self.friction,
            impact_cloth_friction: 0.0,
            restitution: self.restitution,
            restitution_loss_s_m: 0.0,
            restitution_floor: 0.0,
            checked_speed_m_s: 50.0,
        }
    }

    /// The engine's closed form; `None` when the ball does not arrive.
    pub fn closed_form(&self) -> Option<Arrival> {
        let to_cushion = Path::new(self.start, self.cloth);
        let contact_s = to_cushion.first_crossing(Vec2::new(0.0, 1.0), 0.0, 0.0)?;
        let off = self.bounced(to_cushion.state_at(contact_s));
        let back = Path::new(off, self.cloth);
        let back_s = back.first_crossing(Vec2::new(0.0, -1.0), self.back_m, 0.0)?;
        let there = back.state_at(back_s);
        Some(Arrival {
            time_s: contact_s + back_s,
            x_m: there.position.x,
            velocity: there.velocity,
        })
    }

    /// The state after the planar impact.
    #[must_use]
    pub fn bounced(&self, state: BallState) -> BallState {
        let before = Bounce { velocity: state.velocity, spin: state.spin };
        let after = planar(&self.contact(), before);
        BallState { position: state.position, velocity: after.velocity, spin: after.spin }
    }
}

impl Arrival {
    /// Distance along the line, m, and time, s, from another arrival.
    pub fn error_from(&self, exact: &Self) -> (f64, f64) {
        ((self.x_m - exact.x_m).abs(), (self.time_s - exact.time_s).abs())
    }
}
