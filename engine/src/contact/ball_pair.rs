//! The first contact of two balls on their paths.

use super::first_within;
use crate::motion::{Path, Segment};
use crate::vector::Vec2;

/// The first contact of two balls that touch at `distance_m`, at a clock time in
/// [`now_s`, `until_s`], s.
///
/// Each ball has followed its path since the clock time at which it started; `now_s` is not before
/// either. See [the module](super) for the meaning of a contact. Each stretch that both are in is asked by
/// [`first_within`]; a contact that rounding puts past the end of one is found at the beginning of the
/// next. `until_s` may be infinite.
pub fn first_between(
    a: &Path,
    b: &Path,
    a_started_s: f64,
    b_started_s: f64,
    now_s: f64,
    distance_m: f64,
    until_s: f64,
) -> Option<f64> {
    let (a, b) = (Stretches::new(a, a_started_s), Stretches::new(b, b_started_s));
    let mut begin_s = now_s;
    // Two changes each and what follows them.
    for _ in 0..5 {
        if begin_s >= a.rests_s && begin_s >= b.rests_s {
            return None;
        }
        let end_s = until_s.min(a.change_after(begin_s)).min(b.change_after(begin_s));
        let (one, other) = (a.at(begin_s), b.at(begin_s));
        let contact = first_within(
            one.position - other.position,
            one.velocity - other.velocity,
            one.acceleration - other.acceleration,
            distance_m,
            end_s - begin_s,
        );
        if let Some(after_s) = contact {
            return Some((begin_s + after_s).min(end_s));
        }
        if end_s >= until_s {
            return None;
        }
        begin_s = end_s;
    }
    None
}

/// A path's stretches by the clock.
struct Stretches<'a> {
    path: &'a Path,
    started_s: f64,
    rolls_s: f64,
    rests_s: f64,
}

impl<'a> Stretches<'a> {
    fn new(path: &'a Path, started_s: f64) -> Self {
        let rolls_s = started_s + path.rolls_from_s();
        let rests_s = started_s + path.centre_rests_from_s();
        Self { path, started_s, rolls_s, rests_s }
    }

    /// When the stretch at this time ends.
    fn change_after(&self, clock_s: f64) -> f64 {
        if clock_s < self.rolls_s {
            self.rolls_s
        } else if clock_s < self.rests_s {
            self.rests_s
        } else {
            f64::INFINITY
        }
    }

    /// The motion from this time to the end of its stretch.
    fn at(&self, clock_s: f64) -> Segment {
        let duration_s = self.change_after(clock_s) - clock_s;
        let (stretch, time_s) = if clock_s < self.rolls_s {
            (self.path.slide(), clock_s - self.started_s)
        } else if clock_s < self.rests_s {
            (self.path.roll(), clock_s - self.rolls_s)
        } else {
            let roll = self.path.roll();
            let position = roll.position_at(roll.duration_s);
            return Segment {
                position,
                velocity: Vec2::ZERO,
                acceleration: Vec2::ZERO,
                duration_s,
            };
        };
        Segment {
            position: stretch.position_at(time_s),
            velocity: stretch.velocity_at(time_s),
            acceleration: stretch.acceleration,
            duration_s,
        }
    }
}
