//! Which side of the table a ball meets first on its way off the rail.

use super::crossing::FirstCrossing;
use super::impact::Rebounds;
use super::lane::{BLOCK, Column, Mask, select};
use super::leg::{LaneBall, LaneLeg};
use super::table::{LaneTable, TableSide};
use super::to_rail::BlockBalls;
use super::ways::{LaneWays, MetCodes, NONE};

/// A cushion.
pub(super) const CUSHION: u8 = 1;
/// A pocket other than the target.
pub(super) const POCKET: u8 = 2;

/// A ball and one side.
pub(super) struct SideMeeting {
    /// When, s; infinite where it meets nothing there.
    pub(super) time_s: f64,
    pub(super) met: u8,
    pub(super) sure: bool,
}

/// The time at which the ball meets a side before `until_s`, and the thing that stands there.
#[inline(always)]
pub(super) fn meeting(leg: &LaneLeg, edge: &TableSide, until_s: f64, steady: bool) -> SideMeeting {
    let normal = edge.normal;
    let FirstCrossing { time_s, sure } = leg.first_crossing(normal.x, normal.y, edge.offset_m);
    let (x, y) = leg.position_at(time_s);
    let place = select(normal.x == 0.0, x, y);
    let (mut target, mut other) = (false, false);
    // Of openings that overlap the first counts.
    for gap in edge.gaps.iter().rev() {
        let inside = (place > gap.from_m) & (place < gap.to_m);
        target = (inside & gap.target) | (!inside & target);
        other = (inside & !gap.target) | (!inside & other);
    }
    let comes = time_s < until_s;
    let meets = comes & !target;
    SideMeeting {
        time_s: select(meets, time_s, f64::INFINITY),
        met: if meets { if other { POCKET } else { CUSHION } } else { NONE },
        // Through the target's opening: one that never turns crosses no second time.
        sure: sure & (!comes | !target | steady),
    }
}

/// Pairs of a ball and a side that it may meet.
pub(super) struct Pairs {
    count: usize,
    bank: [usize; BLOCK],
    x: Column,
    vx: Column,
    vy: Column,
    wx: Column,
    wy: Column,
    until_s: Column,
    steady: Mask,
    time_s: Column,
    met: MetCodes,
    sure: Mask,
    first_s: Column,
}

impl Pairs {
    pub(super) const NONE: Self = Self {
        count: 0,
        bank: [0; BLOCK],
        x: [0.0; BLOCK],
        vx: [0.0; BLOCK],
        vy: [0.0; BLOCK],
        wx: [0.0; BLOCK],
        wy: [0.0; BLOCK],
        until_s: [0.0; BLOCK],
        steady: [false; BLOCK],
        time_s: [0.0; BLOCK],
        met: [NONE; BLOCK],
        sure: [false; BLOCK],
        first_s: [0.0; BLOCK],
    };

    /// Takes the balls that may meet this side.
    #[inline(always)]
    fn gather(&mut self, side: usize, balls: &BlockBalls, rebounds: &Rebounds, ways: &LaneWays) {
        self.count = 0;
        for i in 0..BLOCK {
            if balls.usual[i] && ways.sides[i] & (1 << side) != 0 {
                let to = self.count;
                self.bank[to] = i;
                self.x[to] = ways.departure_m[i];
                self.vx[to] = rebounds.vx[i];
                self.vy[to] = rebounds.vy[i];
                self.wx[to] = rebounds.wx[i];
                self.wy[to] = rebounds.wy[i];
                self.until_s[to] = ways.until_s[i];
                self.steady[to] = ways.steady[i];
                self.count += 1;
            }
        }
    }

    #[inline(always)]
    fn meet(&mut self, table: &LaneTable, edge: &TableSide) {
        for i in 0..BLOCK {
            let ball = LaneBall {
                x: self.x[i],
                y: table.span_m,
                vx: self.vx[i],
                vy: self.vy[i],
                wx: self.wx[i],
                wy: self.wy[i],
            };
            let leg = LaneLeg::new(ball, table);
            let SideMeeting { time_s, met, sure } =
                meeting(&leg, edge, self.until_s[i], self.steady[i]);
            self.time_s[i] = time_s;
            self.met[i] = met;
            self.sure[i] = sure;
        }
    }
}

/// Finds the first side met by the balls for which several come into question. One that stays in
/// question is not usual.
#[inline(always)]
pub(super) fn first_of_several(
    table: &LaneTable,
    balls: &mut BlockBalls,
    rebounds: &Rebounds,
    ways: &mut LaneWays,
    pairs: &mut Pairs,
) {
    if ways.sides == [0; BLOCK] {
        return;
    }
    pairs.first_s = [f64::INFINITY; BLOCK];
    // Sides in order, so that of two met at once the earlier in order stays.
    for (side, edge) in table.edges.iter().enumerate() {
        pairs.gather(side, balls, rebounds, ways);
        if pairs.count == 0 {
            continue;
        }
        pairs.meet(table, edge);
        for pair in 0..pairs.count {
            let i = pairs.bank[pair];
            if !pairs.sure[pair] {
                balls.usual[i] = false;
            }
            if pairs.time_s[pair] < pairs.first_s[i] {
                pairs.first_s[i] = pairs.time_s[pair];
                ways.met[i] = pairs.met[pair];
            }
        }
    }
}
