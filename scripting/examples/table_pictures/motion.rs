//! Just enough motion to have paths to draw: slide, then roll, cut where the path leaves a box.

use railproof::picture::{Motion, TrackPath, TrackPiece};

const SLIDING: f64 = 0.2 * 9.81;
const ROLLING: f64 = 0.01 * 9.81;

/// A ball on its way: place, velocity, and the velocity at which it would roll as it spins.
#[derive(Clone, Copy)]
pub struct Run {
    pub at: (f64, f64),
    pub velocity: (f64, f64),
    pub rolling: (f64, f64),
}

impl Run {
    pub fn speed(&self) -> f64 {
        self.velocity.0.hypot(self.velocity.1)
    }

    /// Moves on until `stops` holds or the ball rests; adds what was run.
    pub fn until(&mut self, pieces: &mut Vec<TrackPiece>, stops: impl Fn((f64, f64)) -> bool) {
        for _ in 0..2 {
            let slip = (self.velocity.0 - self.rolling.0, self.velocity.1 - self.rolling.1);
            let size = slip.0.hypot(slip.1);
            let speed = self.speed();
            let slides = size > 1e-9;
            let (acceleration, whole, motion) = if slides {
                let share = -SLIDING / size;
                ((share * slip.0, share * slip.1), 2.0 * size / (7.0 * SLIDING), Motion::Slide)
            } else if speed > 1e-9 {
                let share = -ROLLING / speed;
                let back = (share * self.velocity.0, share * self.velocity.1);
                (back, speed / ROLLING, Motion::Roll)
            } else {
                return;
            };
            let place = |t: f64| {
                (
                    self.at.0 + t * (self.velocity.0 + 0.5 * acceleration.0 * t),
                    self.at.1 + t * (self.velocity.1 + 0.5 * acceleration.1 * t),
                )
            };
            let mut time = whole;
            let mut met = false;
            for i in 1..=2000 {
                let t = whole * f64::from(i) / 2000.0;
                if stops(place(t)) {
                    let (mut early, mut late) = (t - whole / 2000.0, t);
                    for _ in 0..60 {
                        let middle = f64::midpoint(early, late);
                        if stops(place(middle)) { late = middle } else { early = middle }
                    }
                    time = early;
                    met = true;
                    break;
                }
            }
            let path = if slides {
                TrackPath::accelerated(self.at, self.velocity, acceleration, time)
            } else {
                TrackPath::Line { from: self.at, to: place(time) }
            };
            pieces.push(TrackPiece { path, motion });
            self.at = path.to();
            self.velocity =
                (self.velocity.0 + acceleration.0 * time, self.velocity.1 + acceleration.1 * time);
            if slides {
                // The spin changes 5/2 times as much, the other way.
                self.rolling = (
                    self.rolling.0 - 2.5 * acceleration.0 * time,
                    self.rolling.1 - 2.5 * acceleration.1 * time,
                );
                if !met {
                    self.rolling = self.velocity;
                }
            } else {
                self.rolling = self.velocity;
            }
            if met {
                return;
            }
        }
    }
}
