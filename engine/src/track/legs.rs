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
/// A ball that comes from less far off a rail, m, or goes less far, shows no bank.
const LEAST_DEPTH_M: f64 = 0.05;
/// The short stretch on each side of the turn: all that is as near in points, or in time, s.
const NEAR_POINTS: usize = 8;
const NEAR_S: f64 = 0.15;
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
pub(super) struct FittedSides {
    pub(super) before: Range<usize>,
    pub(super) after: Range<usize>,
}

impl FittedSides {
    /// The same without points later than a time, as far as enough are left.
    pub(super) fn near_rail(&self, places: &[TimedPlace], to_s: f64) -> Self {
        let all = &self.after;
        let within = all.clone().take_while(|at| places[*at].time_s <= to_s).count();
        let after = all.start..all.start + within.max(FEWEST_IN_A_FIT.min(all.len()));
        Self { before: self.before.clone(), after }
    }
}

/// Fewer points after the rail tell too little. Chosen.
const FEWEST_IN_A_FIT: usize = 8;

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
    ///
    /// First a short stretch about the turn, in which neither side changes from sliding to rolling; then all of each
    /// side that one fit tells.
    pub(super) fn find(
        places: &[TimedPlace],
        table: &Equipment,
    ) -> Result<(Groove, FittedSides, Self), TrackError> {
        let (groove, furthest) = Groove::of(places, table)?;
        let turn_s = places[furthest].time_s;
        let is_near = |at: usize| {
            at.abs_diff(furthest) <= NEAR_POINTS || (places[at].time_s - turn_s).abs() <= NEAR_S
        };
        let from = (0..furthest).find(|at| is_near(*at)).unwrap_or(furthest);
        let to = (furthest..places.len()).rfind(|at| is_near(*at)).unwrap_or(furthest) + 1;
        let fewest = FEWEST.max((to - from) / 4);
        let (turn, _) = best_split(&places[from..to], fewest).ok_or(TrackError::FewOnASide)?;
        let turn = from + turn;
        let near = FittedSides { before: from..turn, after: turn..to };
        let (near, _) = Self::off_cushion(places, near, groove)?;
        let (before, after) = (&places[..near.before.end], &places[near.after.start..]);
        let sides = FittedSides {
            before: inner_break(before).unwrap_or(0)..near.before.end,
            after: near.after.start..near.after.start + inner_break(after).unwrap_or(after.len()),
        };
        let (sides, legs) = Self::off_cushion(places, sides, groove)?;
        Ok((groove, sides, legs))
    }

    /// The sides without the points at the cushion, and their fits.
    fn off_cushion(
        places: &[TimedPlace],
        mut sides: FittedSides,
        groove: Groove,
    ) -> Result<(FittedSides, Self), TrackError> {
        let mut legs = Self::fit(places, &sides, groove)?;
        for _ in 0..ROUNDS {
            // The scatter makes the times at the groove unsure.
            let scatter_m = legs.scatter_m(&sides);
            let square = |velocity: Vec2| groove.outward.dot(velocity).abs();
            let from_s =
                legs.comes_s - 2.0 * scatter_m / square(legs.before.velocity_at(legs.comes_s));
            let to_s =
                legs.leaves_s + 2.0 * scatter_m / square(legs.after.velocity_at(legs.leaves_s));
            let comes = |at: &usize| places[*at].time_s >= from_s;
            let stays = |at: &usize| places[*at].time_s <= to_s;
            let kept = FittedSides {
                before: sides.before.start
                    ..sides.before.end - sides.before.clone().rev().take_while(comes).count(),
                after: sides.after.start + sides.after.clone().take_while(stays).count()
                    ..sides.after.end,
            };
            if kept == sides {
                break;
            }
            sides = kept;
            legs = Self::fit(places, &sides, groove)?;
        }
        Ok((sides, legs))
    }

    /// The scatter of the ball about both fits, m.
    pub(super) fn scatter_m(&self, sides: &FittedSides) -> f64 {
        ((self.before.left_m2 + self.after.left_m2) / Self::degrees(sides) as f64).sqrt()
    }

    /// The fits of these points.
    pub(super) fn fit(
        places: &[TimedPlace],
        sides: &FittedSides,
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
    pub(super) fn degrees(sides: &FittedSides) -> usize {
        2 * (sides.before.len() + sides.after.len()) - 12
    }

    /// By which the variance of Student's law is greater than the normal law's.
    pub(super) fn widened(sides: &FittedSides) -> f64 {
        let degrees = Self::degrees(sides) as f64;
        degrees / (degrees - 2.0)
    }

    /// Speed and angle before; speed and angle after; restitution; share of the speed along the rail that is kept;
    /// slowing before the rail; time between coming to the groove and leaving it.
    pub(super) fn told(&self, groove: Groove) -> [f64; 8] {
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
            self.leaves_s - self.comes_s,
        ]
    }
}

impl Groove {
    /// True for a ball that goes to the right, seen by a person who faces the rail.
    pub(super) fn is_to_the_right(&self) -> bool {
        self.along.dot(Vec2::new(self.outward.y, -self.outward.x)) > 0.0
    }

    /// The rail at which the ball turns, and the point that is furthest out there.
    fn of(places: &[TimedPlace], table: &Equipment) -> Result<(Self, usize), TrackError> {
        let outline = Outline::new(table).map_err(|_| TrackError::NoRail)?;
        let found = Rail::ALL.into_iter().filter_map(|rail| {
            let outward = match rail {
                Rail::Head => Vec2::new(-1.0, 0.0),
                Rail::Foot => Vec2::new(1.0, 0.0),
                Rail::Left => Vec2::new(0.0, 1.0),
                Rail::Right => Vec2::new(0.0, -1.0),
            };
            let offset_m = outline.groove_offset_m(rail);
            let out_m = |at: usize| outward.dot(places[at].place);
            let furthest =
                (0..places.len()).max_by(|one, other| out_m(*one).total_cmp(&out_m(*other)))?;
            let least = |range: Range<usize>| range.map(out_m).fold(f64::INFINITY, f64::min);
            let (before_m, after_m) = (least(0..furthest), least(furthest + 1..places.len()));
            let depth_m = out_m(furthest) - before_m.max(after_m);
            let square = Vec2::new(-outward.y, outward.x);
            let way = square.dot(places[furthest].place - places[0].place);
            let along = if way < 0.0 { -square } else { square };
            let turns = depth_m > LEAST_DEPTH_M && (out_m(furthest) - offset_m).abs() < FURTHEST_M;
            turns.then_some((depth_m, Self { rail, outward, along, offset_m }, furthest))
        });
        found
            .max_by(|one, other| one.0.total_cmp(&other.0))
            .map(|(_, groove, furthest)| (groove, furthest))
            .ok_or(TrackError::NoRail)
    }
}
