//! The free motion of a ball: the same numbers as [`Path`](crate::motion::Path), without branches.

use super::crossing::{DistancePast, FirstCrossing, first_crossing};
use super::lane::select;
use super::table::LaneTable;

/// A ball's motion at the beginning of its way, along the cloth.
#[derive(Clone, Copy)]
pub(super) struct LaneBall {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) vx: f64,
    pub(super) vy: f64,
    pub(super) wx: f64,
    pub(super) wy: f64,
}

/// A stretch of constant acceleration.
#[derive(Clone, Copy)]
pub(super) struct LaneStretch {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) vx: f64,
    pub(super) vy: f64,
    pub(super) ax: f64,
    pub(super) ay: f64,
    pub(super) duration_s: f64,
}

/// A slide and the roll that follows it.
#[derive(Clone, Copy)]
pub(super) struct LaneLeg {
    pub(super) slide: LaneStretch,
    pub(super) roll: LaneStretch,
    /// Direction of the slip while it slides.
    pub(super) slip_x: f64,
    pub(super) slip_y: f64,
}

impl LaneStretch {
    /// The distance past the line n·p = `offset_m`.
    #[inline(always)]
    pub(super) fn past(&self, normal_x: f64, normal_y: f64, offset_m: f64) -> DistancePast {
        DistancePast {
            a: 0.5 * (normal_x * self.ax + normal_y * self.ay),
            b: normal_x * self.vx + normal_y * self.vy,
            c: normal_x * self.x + normal_y * self.y - offset_m,
            duration_s: self.duration_s,
        }
    }

    #[inline(always)]
    pub(super) fn position_at(&self, time_s: f64) -> (f64, f64) {
        let half_square = 0.5 * time_s * time_s;
        (
            self.x + self.vx * time_s + self.ax * half_square,
            self.y + self.vy * time_s + self.ay * half_square,
        )
    }

    #[inline(always)]
    pub(super) fn velocity_at(&self, time_s: f64) -> (f64, f64) {
        (self.vx + self.ax * time_s, self.vy + self.ay * time_s)
    }
}

impl LaneLeg {
    #[inline(always)]
    pub(super) fn new(ball: LaneBall, table: &LaneTable) -> Self {
        let radius = table.radius_m;
        let (slip_x, slip_y) = (ball.vx - radius * ball.wy, ball.vy + radius * ball.wx);
        let slip_speed = (slip_x * slip_x + slip_y * slip_y).sqrt();
        let size = ball.vx.abs() + ball.vy.abs() + slip_speed;
        let slides = slip_speed > 1e-13 * size;
        let slide_s = select(slides, slip_speed * table.slide_per_slip_s2_m, 0.0);
        let mean_x = ball.vx - slip_x * (1.0 / 7.0);
        let mean_y = ball.vy - slip_y * (1.0 / 7.0);
        // A slip too small to last is none.
        let lasts = slide_s > 0.0;
        let x = select(lasts, ball.x + mean_x * slide_s, ball.x);
        let y = select(lasts, ball.y + mean_y * slide_s, ball.y);
        let vx = select(lasts, ball.vx - slip_x * (2.0 / 7.0), ball.vx);
        let vy = select(lasts, ball.vy - slip_y * (2.0 / 7.0), ball.vy);
        let per_slip = 1.0 / slip_speed;
        let slip_x = select(slides, slip_x * per_slip, 0.0);
        let slip_y = select(slides, slip_y * per_slip, 0.0);
        let slide = LaneStretch {
            x: ball.x,
            y: ball.y,
            vx: ball.vx,
            vy: ball.vy,
            ax: slip_x * -table.sliding_m_s2,
            ay: slip_y * -table.sliding_m_s2,
            duration_s: slide_s,
        };
        let speed = (vx * vx + vy * vy).sqrt();
        let moves = speed > 0.0;
        let slowing = -table.rolling_m_s2 / speed;
        let roll = LaneStretch {
            x,
            y,
            vx,
            vy,
            ax: select(moves, vx * slowing, 0.0),
            ay: select(moves, vy * slowing, 0.0),
            duration_s: select(moves, speed * table.roll_per_speed_s2_m, 0.0),
        };
        Self { slide, roll, slip_x, slip_y }
    }

    /// When the centre comes to rest, s.
    #[inline(always)]
    pub(super) fn rests_s(&self) -> f64 {
        self.slide.duration_s + self.roll.duration_s
    }

    /// When it first crosses the line n·p = `offset_m`.
    #[inline(always)]
    pub(super) fn first_crossing(
        &self,
        normal_x: f64,
        normal_y: f64,
        offset_m: f64,
    ) -> FirstCrossing {
        first_crossing(
            &self.slide.past(normal_x, normal_y, offset_m),
            &self.roll.past(normal_x, normal_y, offset_m),
        )
    }

    /// The centre at a time not after it rests.
    #[inline(always)]
    pub(super) fn position_at(&self, time_s: f64) -> (f64, f64) {
        let slides = time_s < self.slide.duration_s;
        let (slide_x, slide_y) = self.slide.position_at(time_s);
        let (roll_x, roll_y) = self.roll.position_at(time_s - self.slide.duration_s);
        (select(slides, slide_x, roll_x), select(slides, slide_y, roll_y))
    }

    /// The velocity at a time before it rests.
    #[inline(always)]
    pub(super) fn velocity_at(&self, time_s: f64) -> (f64, f64) {
        let slides = time_s < self.slide.duration_s;
        let (slide_x, slide_y) = self.slide.velocity_at(time_s);
        let (roll_x, roll_y) = self.roll.velocity_at(time_s - self.slide.duration_s);
        (select(slides, slide_x, roll_x), select(slides, slide_y, roll_y))
    }

    /// True when neither component of the velocity changes sign before `until_s`.
    #[inline(always)]
    pub(super) fn never_turns(&self, until_s: f64) -> bool {
        let last_s = select(until_s < self.slide.duration_s, until_s, self.slide.duration_s);
        let (x, y) = self.slide.velocity_at(last_s);
        (self.slide.vx * x >= 0.0) & (self.slide.vy * y >= 0.0)
    }
}
