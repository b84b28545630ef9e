//! A ball's way as states at times, with bounded memory.

use crate::motion::BallState;
use crate::vector::{Vec2, Vec3};

/// Kept states of one ball's way; when there are more, every second one goes.
pub const MOST_SAMPLES: usize = 8192;

/// A ball at one time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BallSample {
    /// Time since the start, s.
    pub time_s: f64,
    /// Its state.
    pub state: BallState,
}

/// The kept states.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Samples {
    all: Vec<(BallSample, bool)>,
    bare: Vec<BallSample>,
}

impl Samples {
    pub(super) fn new(state: BallState) -> Self {
        let first = BallSample { time_s: 0.0, state };
        Self { all: vec![(first, true)], bare: Vec::new() }
    }

    /// When the last kept state was.
    pub(super) fn last_s(&self) -> f64 {
        self.all.last().map_or(0.0, |(sample, _)| sample.time_s)
    }

    /// Keeps a state; a `marked` one, where the motion changes, is kept longer than others.
    pub(super) fn keep(&mut self, time_s: f64, state: BallState, marked: bool) {
        let sample = BallSample { time_s, state };
        match self.all.last_mut() {
            Some(last) if last.0.time_s == time_s => *last = (sample, marked || last.1),
            _ => self.all.push((sample, marked)),
        }
        if self.all.len() > MOST_SAMPLES {
            self.thin(|marked| marked);
            if self.all.len() > MOST_SAMPLES * 3 / 4 {
                self.thin(|_| false);
            }
        }
    }

    /// Drops every second one of those that `spared` does not spare.
    fn thin(&mut self, spared: impl Fn(bool) -> bool) {
        let mut goes = false;
        self.all.retain(|(_, marked)| {
            goes = !goes;
            goes || spared(*marked)
        });
    }

    /// No more is kept.
    pub(super) fn finish(mut self) -> Self {
        self.bare = self.all.drain(..).map(|(sample, _)| sample).collect();
        self
    }

    pub(super) fn all(&self) -> &[BallSample] {
        &self.bare
    }

    pub(super) fn state_at(&self, time_s: f64) -> Option<BallState> {
        let after = self.bare.partition_point(|sample| sample.time_s <= time_s);
        let from = self.bare.get(after.saturating_sub(1))?;
        let to = self.bare.get(after).unwrap_or(from);
        Some(between(from, to, time_s))
    }
}

/// Velocity and spin in proportion, and the place by the cubic that both ends' velocities agree with:
/// a parabola where the acceleration is constant.
fn between(from: &BallSample, to: &BallSample, time_s: f64) -> BallState {
    let span_s = to.time_s - from.time_s;
    if span_s <= 0.0 || time_s <= from.time_s {
        return from.state;
    }
    let share = ((time_s - from.time_s) / span_s).min(1.0);
    let (a, b) = (from.state, to.state);
    let mix = |x: f64, y: f64| x + share * (y - x);
    let rest = 1.0 - share;
    let position = a.position * (rest * rest * (1.0 + 2.0 * share))
        + b.position * (share * share * (3.0 - 2.0 * share))
        + (a.velocity * rest - b.velocity * share) * (span_s * share * rest);
    BallState {
        position,
        velocity: Vec2::new(mix(a.velocity.x, b.velocity.x), mix(a.velocity.y, b.velocity.y)),
        spin: Vec3::new(mix(a.spin.x, b.spin.x), mix(a.spin.y, b.spin.y), mix(a.spin.z, b.spin.z)),
    }
}
