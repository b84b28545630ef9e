//! Which side of the table is met first, for the balls that may meet one.

use super::crossing::{Crossing, first_crossing};
use super::lane::{BLOCK, Column, Mask, select};
use super::leg::Stretch;
use super::table::{Gap, OPENINGS, Table};
use super::to_mouth::{Stretches, Ways};
use super::to_rail::Balls;

/// What the first side met is, a code for each bank.
pub(super) type Met = [u8; BLOCK];
/// None.
pub(super) const NONE: u8 = 0;
/// A cushion.
pub(super) const CUSHION: u8 = 1;
/// A pocket other than the target.
pub(super) const POCKET: u8 = 2;

/// Pairs of a ball and a side it may meet, seen from that side: u grows out of it, s along it.
struct Pairs {
    count: usize,
    bank: [u8; BLOCK],
    slide: Seen,
    roll: Seen,
    until_s: Column,
    steady: Mask,
    offset_m: Column,
    from_m: [Column; OPENINGS],
    to_m: [Column; OPENINGS],
    target: [Mask; OPENINGS],
    // Answers.
    time_s: Column,
    kind: Met,
    unsure: Mask,
}

/// Stretches seen from a side.
struct Seen {
    u: Column,
    s: Column,
    u_m_s: Column,
    s_m_s: Column,
    u_m_s2: Column,
    s_m_s2: Column,
    duration_s: Column,
}

impl Seen {
    const NONE: Self = Self {
        u: [0.0; BLOCK],
        s: [0.0; BLOCK],
        u_m_s: [0.0; BLOCK],
        s_m_s: [0.0; BLOCK],
        u_m_s2: [0.0; BLOCK],
        s_m_s2: [0.0; BLOCK],
        duration_s: [0.0; BLOCK],
    };

    /// Looks at a ball's stretch from the side with this sign, across x or across y.
    #[inline(always)]
    fn look(&mut self, to: usize, from: &Stretches, i: usize, sign: f64, across_x: bool) {
        let turn = |x: &Column, y: &Column| {
            if across_x { (sign * x[i], y[i]) } else { (sign * y[i], x[i]) }
        };
        (self.u[to], self.s[to]) = turn(&from.x, &from.y);
        (self.u_m_s[to], self.s_m_s[to]) = turn(&from.vx, &from.vy);
        (self.u_m_s2[to], self.s_m_s2[to]) = turn(&from.ax, &from.ay);
        self.duration_s[to] = from.duration_s[i];
    }

    /// As a stretch with u for x and s for y.
    #[inline(always)]
    fn stretch(&self, i: usize) -> Stretch {
        Stretch {
            x: self.u[i],
            y: self.s[i],
            vx: self.u_m_s[i],
            vy: self.s_m_s[i],
            ax: self.u_m_s2[i],
            ay: self.s_m_s2[i],
            duration_s: self.duration_s[i],
        }
    }
}

/// Scratch for [`first_met`].
pub(super) struct Sides {
    pairs: Pairs,
    first_s: Column,
}

impl Sides {
    pub(super) const NONE: Self = Self {
        pairs: Pairs {
            count: 0,
            bank: [0; BLOCK],
            slide: Seen::NONE,
            roll: Seen::NONE,
            until_s: [0.0; BLOCK],
            steady: [false; BLOCK],
            offset_m: [0.0; BLOCK],
            from_m: [[0.0; BLOCK]; OPENINGS],
            to_m: [[0.0; BLOCK]; OPENINGS],
            target: [[false; BLOCK]; OPENINGS],
            time_s: [0.0; BLOCK],
            kind: [NONE; BLOCK],
            unsure: [false; BLOCK],
        },
        first_s: [0.0; BLOCK],
    };
}

/// Finds the first side that each usual ball meets. One that stays in question is not usual.
#[inline(always)]
pub(super) fn first_met(
    table: &Table,
    balls: &mut Balls,
    ways: &Ways,
    met: &mut Met,
    sides: &mut Sides,
) {
    *met = [NONE; BLOCK];
    sides.first_s = [f64::INFINITY; BLOCK];
    sides.pairs.count = 0;
    // Sides in order, so that of two met at once the earlier in order stays.
    for (side, edge) in table.edges.iter().enumerate() {
        let across_x = edge.normal.y == 0.0;
        let sign = if across_x { edge.normal.x } else { edge.normal.y };
        for i in 0..BLOCK {
            if !balls.usual[i] || ways.sides[i] & (1 << side) == 0 {
                continue;
            }
            let pairs = &mut sides.pairs;
            let to = pairs.count;
            pairs.bank[to] = i as u8;
            pairs.slide.look(to, &ways.slide, i, sign, across_x);
            pairs.roll.look(to, &ways.roll, i, sign, across_x);
            pairs.until_s[to] = ways.until_s[i];
            pairs.steady[to] = ways.steady[i];
            pairs.offset_m[to] = edge.offset_m;
            for (gap, Gap { from_m, to_m, target }) in edge.gaps.iter().enumerate() {
                pairs.from_m[gap][to] = *from_m;
                pairs.to_m[gap][to] = *to_m;
                pairs.target[gap][to] = *target;
            }
            pairs.count += 1;
            if pairs.count == BLOCK {
                settle(balls, met, sides);
            }
        }
    }
    settle(balls, met, sides);
}

/// Meets the pairs gathered so far and keeps the earliest of each ball.
#[inline(always)]
fn settle(balls: &mut Balls, met: &mut Met, sides: &mut Sides) {
    let Sides { pairs, first_s } = sides;
    if pairs.count == 0 {
        return;
    }
    pairs.meet();
    for pair in 0..pairs.count {
        let i = usize::from(pairs.bank[pair]);
        if pairs.unsure[pair] {
            balls.usual[i] = false;
        }
        if pairs.time_s[pair] < first_s[i] {
            first_s[i] = pairs.time_s[pair];
            met[i] = pairs.kind[pair];
        }
    }
    pairs.count = 0;
}

impl Pairs {
    /// When each pair meets, and what stands there.
    #[inline(always)]
    fn meet(&mut self) {
        for i in 0..BLOCK {
            let (slide, roll) = (self.slide.stretch(i), self.roll.stretch(i));
            let offset_m = self.offset_m[i];
            let Crossing { time_s, sure } =
                first_crossing(&slide.past(1.0, 0.0, offset_m), &roll.past(1.0, 0.0, offset_m));
            let slides = time_s < slide.duration_s;
            let (_, sliding) = slide.position_at(time_s);
            let (_, rolling) = roll.position_at(time_s - slide.duration_s);
            let place = select(slides, sliding, rolling);
            let (mut target, mut other) = (false, false);
            // Of openings that overlap the first counts.
            for gap in (0..OPENINGS).rev() {
                let inside = (place > self.from_m[gap][i]) & (place < self.to_m[gap][i]);
                target = (inside & self.target[gap][i]) | (!inside & target);
                other = (inside & !self.target[gap][i]) | (!inside & other);
            }
            let meets = time_s < self.until_s[i];
            // Through the target's opening: one that never turns crosses no second time.
            self.unsure[i] = !sure | (meets & target & !self.steady[i]);
            self.time_s[i] = select(meets & !target, time_s, f64::INFINITY);
            self.kind[i] = if other { POCKET } else { CUSHION };
        }
    }
}
