//! A cushion's slope, from its nose up to the rail's upper edge, under the butt's end.

use super::cue::CueLine;
use crate::vector::Vec2;

/// The slope behind a nose.
#[derive(Debug, Clone, Copy)]
pub(super) struct Slope {
    /// Where the nose begins and ends, m.
    pub from: Vec2,
    pub to: Vec2,
    /// Unit vector away from the table.
    pub outward: Vec2,
    /// The nose's height over the cloth, m.
    pub nose_m: f64,
    /// The height of the upper edge above the lower one, and its distance behind it, m.
    pub rise_m: f64,
    pub behind_m: f64,
}

impl Slope {
    /// The height of the butt's rim over the slope, upright, m; infinite when it ends elsewhere.
    pub fn room_m(&self, line: &CueLine, turn: (f64, f64)) -> f64 {
        let steepness = self.rise_m / self.behind_m;
        let (rim, height_m) = line.rim_over(self.outward * steepness, turn);
        let apart = rim - self.from;
        let along = self.to - self.from;
        let beyond_m = apart.dot(self.outward);
        let share = apart.dot(along) / along.dot(along);
        if beyond_m <= 0.0 || beyond_m >= self.behind_m || !(0.0..=1.0).contains(&share) {
            return f64::INFINITY;
        }
        height_m - self.nose_m - steepness * beyond_m
    }
}
