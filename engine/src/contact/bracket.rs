//! Roots and turning points of the quartic inside a bracket where there is exactly one.

use super::approach::{Approach, QuarticValue};

/// More steps than halving alone would need between any two times that an event can lie between.
const MOST_STEPS: u32 = 200;

/// Every so many steps the bracket is halved, whatever the step says.
const HALVE_EVERY: u32 = 6;

impl Approach {
    /// Where f falls through zero between `before` (f > 0) and `after` (f ≤ 0).
    ///
    /// Steps to the near root of f's parabola at the last point (Euler 1768), which is third order,
    /// and second order where f has nearly a double root.
    pub fn fall_between(&self, before: QuarticValue, after: QuarticValue) -> f64 {
        let (mut low, mut high) = (before.t, after.t);
        let mut at = if after.f.abs() < before.f.abs() { after } else { before };
        for step in 1..=MOST_STEPS {
            let discriminant = at.c * at.c - at.bend * at.f;
            let slope = if discriminant >= 0.0 { discriminant.sqrt() - at.c } else { -2.0 * at.c };
            let stepped = at.t + at.f / slope;
            let Some(next) = inside(stepped, low, high, step) else { break };
            at = self.at(next);
            if at.f.abs() <= self.rounding(next) {
                break;
            }
            if at.f > 0.0 {
                low = next;
            } else {
                high = next;
            }
        }
        at.t
    }

    /// A point between these two, where f is bent upwards, falls at the first and rises at the second,
    /// at which it is negative by more than rounding; `None` when there is none.
    pub fn dip_between(
        &self,
        mut low: QuarticValue,
        mut high: QuarticValue,
    ) -> Option<QuarticValue> {
        if high.f < -self.rounding(high.t) {
            return Some(high);
        }
        let mut at = low;
        for step in 1..=MOST_STEPS {
            if low.tangents_clear(&high) {
                return None;
            }
            let stepped = at.t - at.c / at.bend;
            let next = inside(stepped, low.t, high.t, step)?;
            at = self.at(next);
            let rounding = self.rounding(next);
            if at.f < -rounding {
                return Some(at);
            }
            // The bottom is c²/ċ lower.
            if at.c * at.c <= 0.25 * rounding * at.bend {
                return None;
            }
            if at.c < 0.0 {
                low = at;
            } else {
                high = at;
            }
        }
        None
    }

    /// Where f is highest between these two, where it is bent downwards, rises at the first and falls
    /// at the second.
    pub fn top_between(&self, before: QuarticValue, after: QuarticValue) -> QuarticValue {
        let (mut low, mut high) = (before.t, after.t);
        let mut at = before;
        for step in 1..=MOST_STEPS {
            let stepped = at.t - at.c / at.bend;
            let Some(next) = inside(stepped, low, high, step) else { break };
            at = self.at(next);
            if at.c > 0.0 {
                low = next;
            } else if at.c < 0.0 {
                high = next;
            } else {
                break;
            }
        }
        at
    }
}

/// The stepped-to time if it lies strictly inside the bracket, else its middle; `None` when the bracket
/// is down to neighbouring numbers.
fn inside(stepped: f64, low: f64, high: f64, step: u32) -> Option<f64> {
    let within = |t: f64| t > low && t < high;
    if within(stepped) && !step.is_multiple_of(HALVE_EVERY) {
        return Some(stepped);
    }
    Some(low + 0.5 * (high - low)).filter(|middle| within(*middle))
}
