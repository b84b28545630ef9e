//! When two centres first come within a distance of each other.

use super::approach::{Approach, QuarticValue};
use crate::vector::Vec2;

/// a² below which an acceleration changes nothing in any time that matters (a < 1e-100 m/s²).
const NO_ACCELERATION: f64 = 1e-200;

/// A contact that takes more steps than this from a good first guess is not plain.
const MOST_PLAIN_STEPS: u32 = 5;

/// The first contact of two centres that touch at `distance_m`, at a time in [0, `until_s`], s.
///
/// `p`, `v` and `a` are the position, velocity and acceleration of one centre less those of the other,
/// m, m/s, m/s²: r(t) = p + v·t + ½·a·t². The answer is the earliest time at which |r| ≤ `distance_m`
/// and |r| is falling: its derivative is negative, or zero with the next derivative that is not zero
/// negative. So
/// - two that are apart meet when |r| first falls to the distance;
/// - two that touch or overlap meet at 0 if they are closing; if they are parting, they meet when they
///   have gone clear and come back, or when they turn back without having gone clear;
/// - no contact where |r| only reaches the distance and grows again, and none that rounding alone makes
///   (an overlap of less than a few units in the last place of the terms of r).
///
/// At the answer |r| differs from the distance by rounding: a few units in the last place of
/// |p| + |v|·t + ½|a|·t², unless they overlapped before. `until_s` may be infinite. Numbers that are not
/// finite, and a distance of zero, give no contact.
pub fn first_within(p: Vec2, v: Vec2, a: Vec2, distance_m: f64, until_s: f64) -> Option<f64> {
    first_accepted(p, v, a, distance_m, until_s, |_| true)
}

/// As [`first_within`], passing over contacts that are not accepted.
#[inline]
pub(super) fn first_accepted(
    p: Vec2,
    v: Vec2,
    a: Vec2,
    distance_m: f64,
    until_s: f64,
    accepts: impl Fn(f64) -> bool,
) -> Option<f64> {
    let asks_nothing = until_s < 0.0 || until_s.is_nan();
    if asks_nothing || stays_clear(p, v, a, distance_m, until_s) {
        return None;
    }
    let approach = Approach::new(p, v, a, distance_m);
    if a.dot(a) >= NO_ACCELERATION {
        approach.first_fall(until_s, accepts)
    } else {
        approach.straight_fall(until_s).filter(|time| accepts(*time))
    }
}

/// True when one of two projections shows that the distance is never reached in that time: onto p, and
/// across v. Neither needs a root or a division.
#[inline]
fn stays_clear(p: Vec2, v: Vec2, a: Vec2, distance_m: f64, until_s: f64) -> bool {
    let (p2, pv, pa) = (p.dot(p), p.dot(v), p.dot(a));
    let d2 = distance_m * distance_m;
    // |r| ≥ p·r/|p|, which only grows.
    if pv >= 0.0 && pa >= 0.0 {
        return p2 >= d2;
    }
    let d2p2 = d2 * p2;
    // More than rounding adds up to in what follows.
    let slack = 16.0 * f64::EPSILON;
    let (step, half_bend) = (pv * until_s, 0.5 * pa * until_s * until_s);
    let end = p2 + step + half_bend - slack * (p2 + step.abs() + half_bend.abs());
    if end > 0.0 && end * end > d2p2 && p2 > d2 {
        // p·r at the end is past the distance; between, it could be lower only if it turns.
        let turns = pa > 0.0 && pv + pa * until_s > 0.0;
        if !turns {
            return true;
        }
    }
    if pa > 0.0 {
        // The lowest p·r, times 2·p·a.
        let lowest = 2.0 * pa * p2 - pv * pv - slack * (2.0 * pa * p2 + pv * pv);
        if lowest > 0.0 && lowest * lowest > 4.0 * pa * pa * d2p2 {
            return true;
        }
    }
    // The part of r across v goes from one side to no nearer than the nearer end.
    let (begin, drift) = (v.cross(p), 0.5 * v.cross(a) * (until_s * until_s));
    let end = begin + drift;
    if begin * end > 0.0 {
        let across2 = (begin * begin).min(end * end);
        let t2 = until_s * until_s;
        let reach2 = p2 + 0.25 * a.dot(a) * (t2 * t2);
        return across2 > v.dot(v) * (d2 + slack * reach2);
    }
    false
}

impl Approach {
    /// The first contact without acceleration: f is a parabola.
    fn straight_fall(&self, until_s: f64) -> Option<f64> {
        let here = self.at(0.0);
        let closes = here.c < 0.0;
        if !closes {
            return None;
        }
        if here.f <= 0.0 {
            return Some(0.0);
        }
        // c² − v²·f = v²·D² − (v × p)² (Lagrange), which keeps its digits.
        let (v2, across) = (self.v.dot(self.v), self.v.cross(self.p));
        let discriminant = v2 * self.distance_squared - across * across;
        let nearest = -here.c / v2;
        let dips = discriminant > v2 * self.rounding(nearest);
        if !dips {
            return None;
        }
        let first = here.f / (discriminant.sqrt() - here.c);
        let at = self.at(first);
        let time = if at.f.abs() <= self.rounding(first) {
            first
        } else {
            self.fall_between(here, self.at(nearest))
        };
        (time <= until_s).then_some(time)
    }

    /// The first accepted contact with acceleration.
    ///
    /// f is bent upwards, downwards and upwards again, each a piece (perhaps empty) of the time asked
    /// for. In each piece f falls in one stretch at most, and its ends tell where.
    #[inline(never)]
    fn first_fall(&self, until_s: f64, accepts: impl Fn(f64) -> bool) -> Option<f64> {
        let mut here = self.at(0.0);
        let plain = self.plain_fall(&here, until_s);
        if let Some(time) = plain
            && accepts(time)
        {
            return Some(time);
        }
        if here.f <= 0.0 && self.falls_at_start(&here) && accepts(0.0) {
            return Some(0.0);
        }
        let end = if until_s < f64::INFINITY { until_s } else { self.only_parts_after() };
        let (down, up) = self.bent_down();
        // Bent upwards throughout, f falls only once.
        if plain.is_some() && down >= end {
            return None;
        }
        for (piece_end, bent_up) in [(down, true), (up, false), (end, true)] {
            let piece_end = piece_end.min(end);
            if piece_end <= here.t {
                continue;
            }
            let there = self.at(piece_end);
            let contact = if bent_up {
                self.fall_bent_up(here, there)
            } else {
                self.fall_bent_down(here, there)
            };
            if let Some(time) = contact
                && accepts(time)
            {
                return Some(time);
            }
            here = there;
        }
        None
    }

    /// The first contact when it is plain: f falls from the start to it and is bent upwards all the
    /// way. Most contacts are, and this spares them the search for pieces.
    fn plain_fall(&self, start: &QuarticValue, until_s: f64) -> Option<f64> {
        let (v2, va, a2) = (self.v.dot(self.v), self.v.dot(self.a), self.a.dot(self.a));
        let across = self.v.cross(self.p);
        let discriminant = v2 * self.distance_squared - across * across;
        let is_plain = start.f > 0.0 && start.c < 0.0 && start.bend > 0.0 && discriminant > 0.0;
        if !is_plain {
            return None;
        }
        // Where the straight line along v comes to the distance, and when the acceleration along v
        // brings it there: with a rolling ball's acceleration this is the root.
        let line = start.f / (discriminant.sqrt() - start.c);
        let mut time = 2.0 * line / (1.0 + (1.0 + 2.0 * line * va / v2).sqrt());
        for _ in 0..MOST_PLAIN_STEPS {
            let at = self.at(time);
            let rounding = self.rounding(time);
            if at.f.abs() <= rounding {
                let falls = at.c < 0.0 && at.c * at.c > 2.0 * rounding * at.bend;
                // ċ is a parabola that opens upwards: lowest at an end or at its vertex.
                let turns = va < 0.0 && va + a2 * time > 0.0;
                let stays_bent = at.bend > 0.0 && (!turns || start.bend * a2 > 1.5 * va * va);
                let in_range = time >= 0.0 && time <= until_s;
                return (falls && stays_bent && in_range).then_some(time);
            }
            // Past the nearest and still apart.
            if at.c >= 0.0 && at.f > 0.0 {
                return None;
            }
            // Halley's step.
            time -= 2.0 * at.f * at.c / (4.0 * at.c * at.c - at.f * at.bend);
        }
        None
    }

    /// True when f, which is not positive at the start, is falling there.
    fn falls_at_start(&self, start: &QuarticValue) -> bool {
        let third = self.v.dot(self.a);
        let first_that_counts = [start.c, start.bend, third].into_iter().find(|part| *part != 0.0);
        first_that_counts.is_some_and(|part| part < 0.0)
    }

    /// The contact between these two, where f is bent downwards: it falls at last, if at all.
    fn fall_bent_down(&self, here: QuarticValue, there: QuarticValue) -> Option<f64> {
        if there.c >= 0.0 {
            return None;
        }
        let top = if here.c > 0.0 { self.top_between(here, there) } else { here };
        if top.f <= 0.0 {
            return Some(top.t);
        }
        (there.f <= 0.0).then(|| self.fall_between(top, there))
    }

    /// The contact between these two, where f is bent upwards: it falls at first, if at all.
    fn fall_bent_up(&self, here: QuarticValue, there: QuarticValue) -> Option<f64> {
        if here.c >= 0.0 {
            return None;
        }
        if here.f <= 0.0 {
            return Some(here.t);
        }
        if there.c < 0.0 {
            return (there.f <= 0.0).then(|| self.fall_between(here, there));
        }
        self.dip_between(here, there).map(|dip| self.fall_between(here, dip))
    }
}
