//! From the launch to the rail.

use super::angle::sin_cos_near_zero;
use super::crossing::FirstCrossing;
use super::lane::{BLOCK, Column, Mask, select};
use super::leg::{LaneBall, LaneLeg};
use super::table::LaneTable;
use crate::bank::Launch;

/// The inputs of a block, in the order of [`Inputs`](super::Inputs).
pub(super) type BlockInputs<'a> = [&'a Column; 7];

/// Balls of a block, and whether their banks take the usual way so far.
pub(super) struct BlockBalls {
    pub(super) usual: Mask,
    /// Time since launch, s.
    pub(super) time_s: Column,
    pub(super) x: Column,
    pub(super) y: Column,
    pub(super) vx: Column,
    pub(super) vy: Column,
    pub(super) wx: Column,
    pub(super) wy: Column,
    pub(super) wz: Column,
}

impl BlockBalls {
    pub(super) const NONE: Self = Self {
        usual: [false; BLOCK],
        time_s: [0.0; BLOCK],
        x: [0.0; BLOCK],
        y: [0.0; BLOCK],
        vx: [0.0; BLOCK],
        vy: [0.0; BLOCK],
        wx: [0.0; BLOCK],
        wy: [0.0; BLOCK],
        wz: [0.0; BLOCK],
    };
}

/// Sends the balls off. Those refused or without room are not usual.
#[inline(always)]
pub(super) fn launch(table: &LaneTable, given: &BlockInputs<'_>, balls: &mut BlockBalls) {
    let [contact, start, off_rail_m, speed_m_s, roll, side, aim_error_rad] = given;
    let per_radius = 1.0 / table.radius_m;
    for i in 0..BLOCK {
        let accepted = Launch::OFF_RAIL.accepts(off_rail_m[i])
            & Launch::SPEED.accepts(speed_m_s[i])
            & Launch::ROLL.accepts(roll[i])
            & Launch::RUNNING_SIDE.accepts(side[i])
            & Launch::AIM_ERROR.accepts(aim_error_rad[i])
            & (off_rail_m[i] <= table.span_m);
        let mirrored = table.mirrors & (contact[i] < 0.0);
        let contact = select(mirrored, -contact[i], contact[i]);
        let start = select(mirrored, -start[i], start[i]);
        let run = (start - contact) * table.diamond_m;
        let share = off_rail_m[i] / table.span_m;
        let x = contact * table.diamond_m + run * share;
        let y = table.span_m - off_rail_m[i];
        let per_length = 1.0 / (-run * -run + table.span_m * table.span_m).sqrt();
        let (straight_x, straight_y) = (-run * per_length, table.span_m * per_length);
        let sense = select(run < 0.0, 1.0, -1.0);
        let (sin, cos) = sin_cos_near_zero(-sense * aim_error_rad[i]);
        let turned = aim_error_rad[i] != 0.0;
        let way_x = select(turned, straight_x * cos - straight_y * sin, straight_x);
        let way_y = select(turned, straight_x * sin + straight_y * cos, straight_y);
        let (vx, vy) = (way_x * speed_m_s[i], way_y * speed_m_s[i]);
        balls.x[i] = x;
        balls.y[i] = y;
        balls.vx[i] = vx;
        balls.vy[i] = vy;
        balls.wx[i] = -vy * roll[i] * per_radius;
        balls.wy[i] = vx * roll[i] * per_radius;
        balls.wz[i] = sense * side[i] * speed_m_s[i] * per_radius;
        balls.time_s[i] = 0.0;
        balls.usual[i] = accepted & (x >= table.low_groove_m) & (x <= table.high_groove_m);
    }
}

/// True when every ball lies at the rail already.
#[inline(always)]
pub(super) fn all_frozen(table: &LaneTable, balls: &BlockBalls) -> bool {
    let mut all = true;
    for i in 0..BLOCK {
        all &= is_frozen(table, balls.y[i], balls.vy[i]);
    }
    all
}

#[inline(always)]
fn is_frozen(table: &LaneTable, y: f64, vy: f64) -> bool {
    (y >= table.span_m) & (vy > 0.0)
}

/// Brings those that are not frozen to the rail. Those that do not come to it are not usual.
#[inline(always)]
pub(super) fn travel(table: &LaneTable, balls: &mut BlockBalls) {
    let radius = table.radius_m;
    for i in 0..BLOCK {
        let ball = LaneBall {
            x: balls.x[i],
            y: balls.y[i],
            vx: balls.vx[i],
            vy: balls.vy[i],
            wx: balls.wx[i],
            wy: balls.wy[i],
        };
        let wz = balls.wz[i];
        let frozen = is_frozen(table, ball.y, ball.vy);
        let leg = LaneLeg::new(ball, table);
        let FirstCrossing { time_s, sure } = leg.first_crossing(0.0, 1.0, table.span_m);
        let slides = time_s < leg.slide.duration_s;
        let (x, _) = leg.position_at(time_s);
        let (vx, vy) = leg.velocity_at(time_s);
        let gained = select(slides, 2.5 * table.sliding_m_s2 * time_s, -vy) / radius;
        let wx = select(slides, ball.wx - gained * leg.slip_y, gained);
        let wy = select(slides, ball.wy + gained * leg.slip_x, vx / radius);
        let decay = table.pivot_rad_s2 * time_s;
        let left = select(wz > 0.0, wz - decay, wz + decay);
        // Whether a spin has died is asked of the time elsewhere; near its end the two may differ.
        let dies_soon = ((decay - wz.abs()).abs() <= 1e-9 * decay) & (wz != 0.0);
        let wz_then = select(decay >= wz.abs(), 0.0, left);
        // Not a number where it never comes to the rail.
        let comes = sure & (time_s < leg.rests_s()) & !dies_soon;
        balls.usual[i] &= frozen | comes;
        balls.time_s[i] = select(frozen, 0.0, time_s);
        balls.x[i] = select(frozen, ball.x, x);
        balls.vx[i] = select(frozen, ball.vx, vx);
        balls.vy[i] = select(frozen, ball.vy, vy);
        balls.wx[i] = select(frozen, ball.wx, wx);
        balls.wy[i] = select(frozen, ball.wy, wy);
        balls.wz[i] = select(frozen, wz, wz_then);
    }
}

/// The cushion around the place where a ball meets the rail: from and to, m. Empty where there is
/// none.
#[inline(always)]
pub(super) fn cushion_around(table: &LaneTable, x: f64) -> (f64, f64) {
    let (mut low, mut high) = (table.low_groove_m, table.high_groove_m);
    let mut none = (x < low) | (x > high);
    for gap in &table.edges[0].gaps {
        let before = gap.to_m <= x;
        let after = !before & (gap.from_m >= x);
        low = select(before & (gap.to_m > low), gap.to_m, low);
        high = select(after & (gap.from_m < high), gap.from_m, high);
        none |= !before & !after;
    }
    (select(none, f64::INFINITY, low), high)
}
