//! A ball beside or under the cue.

use super::cue::{CueLine, CuePoint};

/// A ball that the cue may touch at some elevation.
#[derive(Debug, Clone, Copy)]
pub(super) struct BallNearCue {
    centre: CuePoint,
    radius_m: f64,
}

impl BallNearCue {
    /// The ball, unless it is too far aside for the cue at any elevation.
    pub fn near(line: &CueLine, centre: CuePoint, radius_m: f64) -> Option<Self> {
        let reach = radius_m + line.half_width_m();
        let furthest = line.length_m + line.radius_m + reach;
        let is_near = centre.y.abs() < reach && centre.s > -reach && centre.s < furthest;
        is_near.then_some(Self { centre, radius_m })
    }

    /// Height of the axis over the ball's centre, square to it, and the height from which on it is
    /// clear, m; `None` when it is clear at any height.
    fn heights(&self, line: &CueLine, turn: (f64, f64)) -> (f64, Option<f64>) {
        let (above, from_tip) = line.over(self.centre, turn);
        let past_end = from_tip - from_tip.clamp(0.0, line.length_m);
        let reach = self.radius_m + line.radius_at(from_tip);
        let squared = reach * reach - self.centre.y * self.centre.y - past_end * past_end;
        (above, (squared > 0.0).then(|| squared.sqrt()))
    }

    /// True when the cue touches it.
    pub fn touches(&self, line: &CueLine, turn: (f64, f64)) -> bool {
        match self.heights(line, turn) {
            // A hair of slack, so that a cue raised just so far is not raised again.
            (above, Some(clear)) => above.abs() < clear - 1e-12,
            (_, None) => false,
        }
    }

    /// The distance at which the cue passes above the ball, m; negative when it touches it or passes below.
    pub fn over_it_m(&self, line: &CueLine, turn: (f64, f64)) -> f64 {
        let (above, clear) = self.heights(line, turn);
        clear.map_or(1.0, |clear| above - clear)
    }
}
