//! How long a step may be.
//!
//! The equations are analytic except where a slip vanishes, so a slip vector that moves along a
//! straight line has its nearest singularity (in the complex plane of the impulse) at the distance
//! ρ = |s|/|ds|. A step of order eight that covers a share of ρ has an error that is known
//! beforehand; no step is ever tried and thrown away. The share may grow where little depends on
//! the direction of the slip: its turning is slow, or the singularity itself is close, so that
//! little is left to go wrong.

use super::runge_kutta::Slips;

/// Share of ρ at ρ = 1 and full turning. Chosen by measurement against a far finer run.
pub(super) const SHARE: f64 = 0.25;
/// An explicit step of this method is stable up to about 6 over the rate of relaxation.
const STABLE: f64 = 4.5;
/// Of the way to a vanishing slip, a step takes at most this.
const APPROACH: f64 = 0.85;

/// The longest step that keeps the accuracy, for one slipping contact.
///
/// `slip` and `rate` are the slip vector and its rate, `relaxation` the size of the force that
/// turns the slip (its direction settles at the rate relaxation/|slip|).
#[inline]
pub(super) fn longest(share: f64, slip: [f64; 2], rate: [f64; 2], relaxation: f64) -> f64 {
    let size_squared = slip[0] * slip[0] + slip[1] * slip[1];
    let rate_squared = rate[0] * rate[0] + rate[1] * rate[1];
    if size_squared == 0.0 || rate_squared == 0.0 {
        return f64::INFINITY;
    }
    let size = size_squared.sqrt();
    let speed = rate_squared.sqrt();
    let across = (slip[0] * rate[1] - slip[1] * rate[0]).abs();
    let along = slip[0] * rate[0] + slip[1] * rate[1];
    let radius = size / speed;
    let turning = across / (size * speed);
    let eighth_root = (radius * turning + 0.01).sqrt().sqrt().sqrt();
    let mut step = (share * radius / eighth_root).min(0.5 * radius);
    step = step.min(STABLE * size / relaxation);
    if along < 0.0 {
        // Closest approach to no slip at all; a slip that goes straight at it may step right there.
        let closest = -along / rate_squared;
        let straight = turning < 1e-7;
        step = step.min(if straight { closest } else { APPROACH * closest.max(0.5 * radius) });
    }
    step
}

/// Size of the nose or cloth slip in `y`.
pub(super) fn size(y: &Slips, first: usize) -> f64 {
    (y[first] * y[first] + y[first + 1] * y[first + 1]).sqrt()
}
