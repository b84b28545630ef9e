//! The length of a step.
//!
//! The equations are analytic except where a slip vanishes, so a slip vector that moves along a
//! straight line has its nearest singularity (in the complex plane of the impulse) at the distance
//! |s|/|ds|. That tells beforehand how far the way is smooth; within, the error estimate of a step
//! tells how long the next may be.

use super::choice::{choose, least, most};
use super::law::Slips;

/// More steps than any impact inside the accepted ranges takes; beyond, steps are no longer held
/// back, so that every impact ends.
pub(super) const MANY_STEPS: u32 = 100_000;
/// A step this short is taken whatever its error is said to be: it can do no harm.
pub(super) const SHORTEST: f64 = 1e-13;
/// An explicit step of the method is stable up to about 6 over the rate of relaxation.
const STABLE: f64 = 3.0;
/// Of the way to a vanishing slip, a step takes at most this.
const APPROACH: f64 = 0.9;

/// The same for a slip that goes straight at nothing.
const STRAIGHT: f64 = 0.99;
/// A slip that would miss nothing by less than this goes straight at it.
pub(super) const MISS: f64 = 1e-11;

/// The care of the steps.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pace {
    /// Error allowed in one step.
    pub tolerance: f64,
    /// Share of the distance to the nearest singularity that a step may cover.
    pub share: f64,
    /// Error allowed in one usual step (see [`super::glide`]), per size of the smaller slip: far from
    /// nothing the estimate is on the safe side, near nothing an error grows.
    pub glide_tolerance: f64,
    /// Share of the way in which a slip could vanish that a usual step may cover.
    pub glide_share: f64,
}

impl Pace {
    /// Chosen by measurement against a far finer run.
    pub const USUAL: Self =
        Self { tolerance: 1e-10, share: 0.22, glide_tolerance: 8e-9, glide_share: 0.34 };

    /// The factor from this step to the next one after a step with this error; less than 1 when the step
    /// must be taken again.
    #[inline(always)]
    pub fn factor(self, error: f64) -> f64 {
        factor(error / self.tolerance)
    }

    /// The same for the usual step.
    #[inline(always)]
    pub fn glide_factor(self, error: f64) -> f64 {
        factor(error / self.glide_tolerance)
    }

    /// The longest step for one slipping contact.
    #[inline]
    pub fn reach(self, slip: [f64; 2], rate: [f64; 2]) -> f64 {
        let size_squared = slip[0] * slip[0] + slip[1] * slip[1];
        let rate_squared = rate[0] * rate[0] + rate[1] * rate[1];
        if rate_squared == 0.0 {
            return f64::INFINITY;
        }
        let inverse = 1.0 / rate_squared;
        let radius = (size_squared * inverse).sqrt();
        let across = (slip[0] * rate[1] - slip[1] * rate[0]).abs();
        let along = slip[0] * rate[0] + slip[1] * rate[1];
        let miss = across * inverse;
        let smooth = (self.share * radius / eighth_root(miss + 1e-4)).min(0.85 * radius);
        if along >= 0.0 {
            return smooth;
        }
        // Closest approach to no slip at all. A slip that goes straight at it keeps its direction,
        // but the stages at the end of a step must not fall beyond.
        let closest = -along * inverse;
        if miss < 1e-7 * radius || across * across <= MISS * MISS * rate_squared {
            STRAIGHT * closest
        } else {
            smooth.min(APPROACH * closest.max(0.5 * radius))
        }
    }

    /// The longest explicit step that is stable for a slip of this size.
    #[inline(always)]
    pub fn stable(size: f64, relaxation: f64) -> f64 {
        STABLE * size / relaxation
    }
}

/// The factor from this step to the next one after a step with this share of the allowed error.
#[inline(always)]
fn factor(ratio: f64) -> f64 {
    let wanted = 0.9 / tenth_root(ratio);
    // Not a number refuses the step, too.
    choose(ratio <= 1.0, least(most(wanted, 1.0), 4.0), least(most(wanted, 0.1), 0.9))
}

/// The eighth root to within 7 %, which is plenty for the length of a step: an eighth of the
/// exponent, and of the bits behind it.
#[inline(always)]
pub(super) fn eighth_root(x: f64) -> f64 {
    f64::from_bits((x.to_bits() >> 3) + 0x37f2_0000_0000_0000)
}

/// Size of the nose or cloth slip in `y`.
#[inline]
pub(super) fn size(y: &Slips, first: usize) -> f64 {
    (y[first] * y[first] + y[first + 1] * y[first + 1]).sqrt()
}

/// The tenth root in the same way: the error estimate is found to go with the tenth power of the
/// step. The tenth is summed up of shifts, which every lane can do.
#[inline(always)]
fn tenth_root(x: f64) -> f64 {
    let tenth = |bits: u64| (bits >> 3) - (bits >> 5) + (bits >> 7) - (bits >> 9);
    f64::from_bits(tenth(x.to_bits()) + (ONE - tenth(ONE)))
}

/// The bits of 1.
const ONE: u64 = 0x3ff0_0000_0000_0000;
