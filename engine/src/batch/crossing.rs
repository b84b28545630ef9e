//! When a ball that starts on the near side of a line crosses it: the same number as
//! [`Path::first_crossing`](crate::motion::Path::first_crossing), without branches.
//!
//! A ball that is clearly on the near side when a stretch begins and clearly beyond when it ends has
//! crossed once, so the ends tell which stretch holds the crossing and which of its two roots that
//! is, and only this one is worked out. Where an end lies on the line or nearly so, or a slide could
//! cross and come back, the answer is not sure.

use super::lane::select;

/// Nearer to the line than this the ends tell nothing, m. Far above rounding, far below what matters.
const NEAR_M: f64 = 1e-7;

/// The distance past a line during a stretch, a·t² + b·t + c up to its duration.
#[derive(Clone, Copy)]
pub(super) struct DistancePast {
    pub(super) a: f64,
    pub(super) b: f64,
    pub(super) c: f64,
    pub(super) duration_s: f64,
}

/// A first crossing.
#[derive(Clone, Copy)]
pub(super) struct FirstCrossing {
    /// When, s; not a number when it never comes.
    pub(super) time_s: f64,
    /// False where the ends tell nothing.
    pub(super) sure: bool,
}

impl DistancePast {
    #[inline(always)]
    fn at_end(&self) -> f64 {
        (self.a * self.duration_s + self.b) * self.duration_s + self.c
    }

    #[inline(always)]
    fn discriminant(&self) -> f64 {
        self.b * self.b - 4.0 * self.a * self.c
    }

    /// The root at which it goes from the near side to beyond, polished.
    #[inline(always)]
    fn root(&self) -> f64 {
        let Self { a, b, c, .. } = *self;
        let root = self.discriminant().sqrt();
        let back = b < 0.0;
        let q = -0.5 * (b + select(back, -root, root));
        // Of the two, the one that keeps its digits; for a straight line it is −c/b.
        let t = select(back, q, c) / select(back, a, q);
        let step = ((a * t + b) * t + c) / (2.0 * a * t + b);
        let small = step.abs() < 1e-6 * (1.0 + t.abs());
        select(small & (a != 0.0), t - step, t)
    }
}

/// The first crossing of a slide and the roll that follows it.
#[inline(always)]
pub(super) fn first_crossing(slide: &DistancePast, roll: &DistancePast) -> FirstCrossing {
    let slide_s = slide.duration_s;
    let slides = slide_s > 0.0;
    // On the line and leaving it is as good as on the near side.
    let begins_near = |past: &DistancePast| (past.c < -NEAR_M) | ((past.c == 0.0) & (past.b < 0.0));
    let slide_end = slide.at_end();
    let slope_at_end = slide.b + 2.0 * slide.a * slide_s;
    let may_return = (slide.b > 0.0) & (slope_at_end < 0.0) & (slide.discriminant() >= 0.0);
    let in_slide = slides & begins_near(slide) & (slide_end > NEAR_M);
    let not_in_slide = !slides | (begins_near(slide) & (slide_end < -NEAR_M) & !may_return);
    let roll_end = roll.at_end();
    let in_roll = begins_near(roll) & (roll_end > NEAR_M);
    let not_in_roll = begins_near(roll) & (roll_end < -NEAR_M);
    let pick = |sliding: f64, rolling: f64| select(in_slide, sliding, rolling);
    let held = DistancePast {
        a: pick(slide.a, roll.a),
        b: pick(slide.b, roll.b),
        c: pick(slide.c, roll.c),
        duration_s: pick(slide_s, roll.duration_s),
    };
    let t = held.root();
    let inside = (t > 0.0) & (t <= held.duration_s) & (2.0 * held.a * t + held.b > 0.0);
    let crosses = in_slide | (not_in_slide & in_roll);
    let never = not_in_slide & not_in_roll;
    FirstCrossing {
        time_s: select(crosses, select(in_slide, t, slide_s + t), f64::NAN),
        sure: (crosses & inside) | never,
    }
}
