//! When a stretch of constant acceleration crosses a line: the same numbers as
//! [`Segment::first_crossing`](crate::motion::Segment::first_crossing), without branches.

use super::lane::select;

/// The polished roots of a·t² + b·t + c on a stretch from 0 to its duration, earlier first; not
/// numbers where the stretch surely misses the line.
#[derive(Clone, Copy)]
pub(super) struct Roots {
    twice_a: f64,
    b: f64,
    early: f64,
    late: f64,
    duration_s: f64,
}

impl Roots {
    /// Of a stretch with a finite duration.
    #[inline(always)]
    pub(super) fn new(a: f64, b: f64, c: f64, duration_s: f64) -> Self {
        let twice_a = 2.0 * a;
        let slope_at_end = b + twice_a * duration_s;
        let only_falls = (b <= 0.0) & (slope_at_end <= 0.0);
        let only_rises = (b >= 0.0) & (slope_at_end >= 0.0);
        let one_side = (c > 0.0) | ((a * duration_s + b) * duration_s + c < 0.0);
        let misses = only_falls | (only_rises & one_side);
        let straight = a == 0.0;
        let discriminant = b * b - 4.0 * a * c;
        let bent = (discriminant >= 0.0) & (discriminant < f64::INFINITY);
        let root = discriminant.sqrt();
        let q = select(straight, -b, -0.5 * (b + select(b < 0.0, -root, root)));
        let touches = (q == 0.0) & !straight;
        let second = select(touches, 0.0, c / q);
        let first = select(touches, 0.0, select(straight, second, q / a));
        let ordered = first <= second;
        let polish = |t: f64| {
            let slope = twice_a * t + b;
            let step = ((a * t + b) * t + c) / slope;
            let size = step.abs();
            let near = (size < f64::INFINITY) & (size < 1e-6 * (1.0 + t.abs()));
            select(near & !straight, t - step, t)
        };
        let none = misses | !(straight | bent);
        Self {
            twice_a,
            b,
            early: select(none, f64::NAN, polish(select(ordered, first, second))),
            late: select(none, f64::NAN, polish(select(ordered, second, first))),
            duration_s,
        }
    }

    /// The first root after `low`, or not a number.
    #[inline(always)]
    fn first_in(&self, low: f64) -> f64 {
        let inside = |t: f64| (t > low) & (t <= self.duration_s);
        select(inside(self.early), self.early, select(inside(self.late), self.late, f64::NAN))
    }

    #[inline(always)]
    fn outward(&self, t: f64) -> bool {
        self.twice_a * t + self.b > 0.0
    }

    /// The first crossing after `after_s` towards growing numbers, or not a number.
    #[inline(always)]
    pub(super) fn after(&self, after_s: f64) -> f64 {
        let first = self.first_in(after_s);
        let second = self.first_in(first);
        select(self.outward(first), first, select(self.outward(second), second, f64::NAN))
    }
}

/// The crossings of a whole path: those of its slide, then those of its roll.
#[derive(Clone, Copy)]
pub(super) struct Crossings {
    pub(super) slide: Roots,
    pub(super) roll: Roots,
}

impl Crossings {
    /// The first crossing after `after_s`, or not a number; as
    /// [`Path::first_crossing`](crate::motion::Path::first_crossing).
    #[inline(always)]
    pub(super) fn after(&self, after_s: f64) -> f64 {
        let slide_s = self.slide.duration_s;
        let slides = after_s < slide_s;
        let sliding = self.slide.after(after_s);
        let after_roll = select(slides, -1e-12 * slide_s, after_s - slide_s);
        let rolling = self.roll.after(after_roll);
        let in_roll = slide_s + select(rolling > 0.0, rolling, 0.0);
        let in_roll = select(rolling.is_nan(), f64::NAN, in_roll);
        select(slides & (sliding == sliding), sliding, in_roll)
    }
}
