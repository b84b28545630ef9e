//! A stroke that makes a shot which missed: a thinner or a fuller hit, or side that gears.

use super::PlayedShot;
use crate::layout::LayoutBall;
use railproof_engine::aim::{Setup, first_hit, gear, overcut};
use railproof_engine::motion::BallState;
use railproof_engine::shot::ShotBall;
use railproof_engine::stroke::Stroke;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::PocketVerdict;

/// A hit that fails so little to either side at the object ball is no remedy, m. Chosen: nobody hits
/// finer, and it is told no finer.
const LEAST_ROOM_M: f64 = 2e-4;
/// The same of a tip's place to the side, in widths of the tip.
const LEAST_ROOM_TIPS: f64 = 0.05;

/// Other strokes that make it, each as a change of the one that was played; one of them at least.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Remedy {
    /// Another hit; the rest of the stroke stays.
    pub hit: Option<HitChange>,
    /// The side with which the balls do not rub, the line of centres as it was.
    pub gearing: Option<GearingSide>,
}

/// A hit beside the one that was played.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HitChange {
    /// To which side.
    pub to: HitSide,
    /// The distance at the object ball from the cue ball's way as it was to its way now, m.
    pub by_m: f64,
    /// The stroke.
    pub stroke: Stroke,
}

/// The side to which a hit is moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HitSide {
    /// Further from the middle of the object ball.
    Thinner,
    /// Nearer to its middle.
    Fuller,
    /// Over its middle, to the left.
    Left,
    /// Over its middle, to the right.
    Right,
}

impl HitSide {
    /// The word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Thinner => "thinner",
            Self::Fuller => "fuller",
            Self::Left => "further left",
            Self::Right => "further right",
        }
    }
}

/// A tip's place to the side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GearingSide {
    /// The offset as a share of the radius, positive to the right.
    pub offset: f64,
    /// The same in widths of the tip.
    pub tips: f64,
    /// Away from the way that the object ball goes.
    pub outside: bool,
    /// The stroke.
    pub stroke: Stroke,
}

impl PlayedShot<'_> {
    /// Strokes that make the shot; `None` where it was made, or nothing struck the target.
    pub fn remedy(&self) -> Option<Remedy> {
        let (target, struck) = (self.layout.target?, self.layout.stroke?);
        let missed =
            matches!(self.verdict()?.pocket, PocketVerdict::Missed(_) | PocketVerdict::RattledOut);
        let moves = |ball: usize| self.layout.balls[ball].state.velocity != Vec2::ZERO;
        let others = || (0..self.layout.balls.len()).filter(|ball| *ball != struck.ball);
        if !missed || target.ball == struck.ball || others().any(moves) {
            return None;
        }
        let resting = |ball: usize| {
            let LayoutBall { ball, state, .. } = &self.layout.balls[ball];
            let state = BallState { position: state.position, ..BallState::default() };
            ShotBall { state, ball: *ball }
        };
        let setup = Setup {
            world: &self.world,
            cue: resting(struck.ball),
            object: resting(target.ball),
            others: others().filter(|ball| *ball != target.ball).map(resting).collect(),
            pocket: target.pocket,
        };
        let stroke = struck.stroke;
        let hit = first_hit(&setup, &stroke).ok()??;
        // It is made as it is and with a little to either side.
        let made = |stroke: &Stroke, beside: [Stroke; 2]| {
            let tried = [*stroke, beside[0], beside[1]];
            tried.iter().all(|it| setup.judge(it).is_ok_and(|(_, it)| it.is_made()))
        };
        let apart_m = (setup.object.state.position - setup.cue.state.position).norm();
        let found = overcut(&setup, &stroke, hit.normal).ok().map(|found| found.stroke);
        let hit_change = found
            .filter(|stroke| {
                let turned =
                    |by_m: f64| Stroke { aim_rad: stroke.aim_rad + by_m / apart_m, ..*stroke };
                made(stroke, [-LEAST_ROOM_M, LEAST_ROOM_M].map(turned))
            })
            .map(|found| hit_change(&setup, &stroke, found));
        let geared = gear(&setup, &stroke, hit.normal).ok().map(|aim| aim.stroke);
        let tip_m = self.layout.equipment.cue.shape.tip_diameter_m;
        let least_offset = LEAST_ROOM_TIPS * tip_m / setup.cue.ball.radius_m();
        let geared = geared.filter(|stroke| {
            let moved = |by: f64| Stroke { side_offset: stroke.side_offset + by, ..*stroke };
            made(stroke, [-least_offset, least_offset].map(moved))
        });
        let gearing = geared.map(|stroke| {
            let offset = stroke.side_offset;
            GearingSide {
                offset,
                tips: offset.abs() * setup.cue.ball.radius_m() / tip_m,
                outside: offset * hit.cut_rad() > 0.0,
                stroke,
            }
        });
        (hit_change.is_some() || gearing.is_some()).then_some(Remedy { hit: hit_change, gearing })
    }
}

/// A stroke as a change of the hit of another one.
fn hit_change(setup: &Setup<'_>, played: &Stroke, better: Stroke) -> HitChange {
    let to_object = setup.object.state.position - setup.cue.state.position;
    // How far to the right of the object ball's centre a way leads.
    let passes = |stroke: &Stroke| {
        let (sin, cos) = libm::sincos(stroke.aim_rad);
        cos * to_object.y - sin * to_object.x
    };
    let (was, is) = (passes(played), passes(&better));
    let to = match (was * is > 0.0, is.abs() > was.abs(), is > was) {
        (true, true, _) => HitSide::Thinner,
        (true, false, _) => HitSide::Fuller,
        (false, _, true) => HitSide::Right,
        (false, _, false) => HitSide::Left,
    };
    HitChange { to, by_m: (is - was).abs(), stroke: better }
}
