//! The ball that a cue drives into the cloth jumps.

use super::StruckBall;

/// Share of its speed into the cloth with which a ball leaves it again. Chosen, order of magnitude; no
/// source: cloth over slate gives back about half.
pub const CLOTH_RESTITUTION: f64 = 0.5;
/// A hop from this height on is said, m. Chosen: about a tenth of a ball, which is enough to meet another
/// ball or a nose clearly too high.
pub const NOTED_HOP_M: f64 = 0.005;

impl StruckBall {
    /// The height to which a real ball would hop off the cloth, m: v²/(2g) of the upward speed of the
    /// impulse, or of [`CLOTH_RESTITUTION`] of its speed into the cloth.
    pub fn hop_m(&self, gravity_m_s2: f64) -> f64 {
        let up_m_s = if self.up_m_s < 0.0 { -CLOTH_RESTITUTION * self.up_m_s } else { self.up_m_s };
        up_m_s * up_m_s / (2.0 * gravity_m_s2)
    }

    /// True when a real ball would hop by [`NOTED_HOP_M`] or more.
    pub fn jumps(&self, gravity_m_s2: f64) -> bool {
        self.hop_m(gravity_m_s2) >= NOTED_HOP_M
    }
}
