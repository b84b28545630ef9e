//! The cue's speed instead of the ball's.

use super::strike::squirt;

/// The motion of the cue as it arrives at the ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CueBlow {
    /// Speed of the cue, m/s.
    pub speed_m_s: f64,
    /// Mass of the whole cue, kg.
    pub cue_mass_kg: f64,
    /// Restitution of tip on ball, Newton's ratio.
    pub tip_restitution: f64,
}

impl CueBlow {
    /// The ball's speed along the cue, m/s, when the tip meets it `offset` of its radius from the
    /// centre: (1 + e)·V/(1 + m/M + (5/2)·b²/R²·(1 − c·k)), c and k as in [`super`]'s docs. Derived: the
    /// cue moves on along its own line at V − m·v/M, and the ball's surface leaves it at e·V.
    pub fn ball_speed_m_s(&self, ball_mass_kg: f64, end_mass_kg: f64, offset: f64) -> f64 {
        let squirt = squirt(offset, ball_mass_kg, end_mass_kg);
        let turning = 2.5 * offset * offset * (1.0 - squirt.depth * squirt.per_offset);
        (1.0 + self.tip_restitution) * self.speed_m_s
            / (1.0 + ball_mass_kg / self.cue_mass_kg + turning)
    }
}
