//! The two ways of a ball, to a rail and from it.

use super::TrackError;
use super::parabola::{Parabola, TimedPlace};
use super::stretch::{FEWEST, best_split, inner_break};
use crate::equipment::Equipment;
use crate::rail::{Outline, Rail};
use crate::vector::Vec2;
use core::ops::Range;

/// A turn further from a rail's groove than this, m, is none of a bank. Chosen: marks by hand are better.
const FURTHEST_M: f64 = 0.08;
/// Rounds in which points at the cushion are left out.
const ROUNDS: usize = 4;

/// A rail, as the line on which a ball's centre touches it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Groove {
    pub(super) rail: Rail,
    outward: Vec2,
    /// Along the rail, the way the ball comes.
    along: Vec2,
    offset_m: f64,
}

/// The points of each side that are fitted.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Sides {
    pub(super) before: Range<usize>,
    pub(super) after: Range<usize>,
}

/// The fits of both sides, and when they are at the groove.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Legs {
    pub(super) before: Parabola,
    pub(super) after: Parabola,
    pub(super) comes_s: f64,
    pub(super) leaves_s: f64,
}

impl Legs {
    /// The legs of a film: the rail, the points that are fitted, and the fits.
    pub(super) fn find(
        places: &[TimedPlace],
        table: &Equipment,
    ) -> Result<(Groove, Sides, Self), TrackError> {
        let (turn, _) = best_split(places).ok_or(TrackError::FewOnASide)?;
        let mut sides = Sides {
            before: inner_break(&places[..turn]).unwrap_or(0)..turn,
            after: turn..turn + inner_after(&places[turn..]),
        };
        let groove = Groove::of(places, &sides, table)?;
        let mut legs = Self::fit(places, &sides, groove)?;
        for _ in 0..ROUNDS {
            let (from_s, to_s) = (legs.comes_s.min(legs.leaves_s), legs.comes_s.max(legs.leaves_s));
            let is_at_cushion = |at: &usize| (from_s..=to_s).contains(&places[*at].time_s);
            let kept = Sides {
                before: sides.before.start
                    ..sides.before.end
                        - sides.before.clone().rev().take_while(is_at_cushion).count(),
                after: sides.after.start + sides.after.clone().take_while(is_at_cushion).count()
                    ..sides.after.end,
            };
            if kept == sides {
                break;
            }
            sides = kept;
            legs = Self::fit(places, &sides, groove)?;
        }
        Ok((groove, sides, legs))
    }

    /// The fits of these points.
    pub(super) fn fit(
        places: &[TimedPlace],
        sides: &Sides,
        groove: Groove,
    ) -> Result<Self, TrackError> {
        if sides.before.len() < FEWEST || sides.after.len() < FEWEST {
            return Err(TrackError::FewOnASide);
        }
        let fit = |range: &Range<usize>| {
            Parabola::new(&places[range.clone()]).ok_or(TrackError::FewOnASide)
        };
        let near_s = (places[sides.before.end - 1].time_s, places[sides.after.start].time_s);
        Self::at_groove(fit(&sides.before)?, fit(&sides.after)?, groove, near_s)
            .ok_or(TrackError::NoRail)
    }

    /// Two fits with their times at the groove.
    pub(super) fn at_groove(
        before: Parabola,
        after: Parabola,
        groove: Groove,
        near_s: (f64, f64),
    ) -> Option<Self> {
        let comes_s = before.crossing(groove.outward, groove.offset_m, near_s.0)?;
        let leaves_s = after.crossing(groove.outward, groove.offset_m, near_s.1)?;
        Some(Self { before, after, comes_s, leaves_s })
    }

    /// Degrees of freedom of their scatter.
    pub(super) fn degrees(sides: &Sides) -> usize {
        2 * (sides.before.len() + sides.after.len()) - 12
    }

    /// Speed and angle before; speed and angle after; restitution; share of the speed along the rail that is kept;
    /// slowing before the rail.
    pub(super) fn told(&self, groove: Groove) -> [f64; 7] {
        let came = self.before.velocity_at(self.comes_s);
        let left = self.after.velocity_at(self.leaves_s);
        let (came_in, left_out) = (groove.outward.dot(came), -groove.outward.dot(left));
        let (came_along, left_along) = (groove.along.dot(came), groove.along.dot(left));
        [
            came.norm(),
            libm::atan2(came_along, came_in),
            left.norm(),
            libm::atan2(left_along, left_out),
            left_out / came_in,
            left_along / came_along,
            -self.before.acceleration().dot(came.unit_or_zero()),
        ]
    }
}

fn inner_after(places: &[TimedPlace]) -> usize {
    inner_break(places).unwrap_or(places.len())
}

impl Groove {
    /// The rail at which the ball turns.
    fn of(places: &[TimedPlace], sides: &Sides, table: &Equipment) -> Result<Self, TrackError> {
        let outline = Outline::new(table).map_err(|_| TrackError::NoRail)?;
        let fit = |range: &Range<usize>| {
            Parabola::new(&places[range.clone()]).ok_or(TrackError::FewOnASide)
        };
        let (before, after) = (fit(&sides.before)?, fit(&sides.after)?);
        let (last, first) = (places[sides.before.end - 1], places[sides.after.start]);
        let grooves = Rail::ALL.into_iter().map(|rail| {
            let outward = match rail {
                Rail::Head => Vec2::new(-1.0, 0.0),
                Rail::Foot => Vec2::new(1.0, 0.0),
                Rail::Left => Vec2::new(0.0, 1.0),
                Rail::Right => Vec2::new(0.0, -1.0),
            };
            let square = Vec2::new(-outward.y, outward.x);
            let way = square.dot(before.velocity_at(last.time_s));
            let along = if way < 0.0 { -square } else { square };
            Self { rail, outward, along, offset_m: outline.groove_offset_m(rail) }
        });
        // How near both ways come to the groove at the turn: the end of a short step before and after it.
        let off_m = |groove: &Self| {
            let time_s = before.crossing(groove.outward, groove.offset_m, last.time_s)?;
            let back_s = after.crossing(groove.outward, groove.offset_m, first.time_s)?;
            let turns = groove.outward.dot(before.velocity_at(time_s)) > 0.0
                && groove.outward.dot(after.velocity_at(back_s)) < 0.0;
            let apart_m = (before.place_at(time_s) - after.place_at(back_s)).norm();
            turns.then_some(apart_m)
        };
        grooves
            .filter_map(|groove| Some((off_m(&groove)?, groove)))
            .filter(|(off_m, _)| *off_m < FURTHEST_M)
            .min_by(|one, other| one.0.total_cmp(&other.0))
            .map(|(_, groove)| groove)
            .ok_or(TrackError::NoRail)
    }
}
