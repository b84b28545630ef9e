//! A stroke that makes a shot which missed: a thinner or a fuller hit, or side that gears.

use super::PlayedShot;
use crate::layout::LayoutBall;
use railproof_engine::aim::{Setup, first_hit, gear, overcut};
use railproof_engine::motion::BallState;
use railproof_engine::shot::ShotBall;
use railproof_engine::stroke::Stroke;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::PocketVerdict;

/// Other strokes that make it, each as a change of the one that was played.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Remedy {
    /// The distance at the object ball by which the cue ball's way passes it further out, m: positive is
    /// a thinner hit. The rest of the stroke stays.
    pub thinner_m: Option<f64>,
    /// The side with which the balls do not rub, the line of centres as it was.
    pub gearing: Option<GearingSide>,
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
        let made = |stroke: &Stroke| setup.judge(stroke).is_ok_and(|(_, it)| it.is_made());
        let to_object = setup.object.state.position - setup.cue.state.position;
        // How far the way along an aim passes the object ball's centre.
        let passes = |aim_rad: f64| {
            let (sin, cos) = libm::sincos(aim_rad);
            cos * to_object.y - sin * to_object.x
        };
        let thinner_m = overcut(&setup, &stroke, hit.normal)
            .ok()
            .filter(|found| found.verdict.is_made())
            .map(|found| (passes(found.stroke.aim_rad), passes(stroke.aim_rad)))
            // Past the middle of the ball thinner and fuller say nothing.
            .filter(|(better, played)| better * played > 0.0)
            .map(|(better, played)| better.abs() - played.abs());
        let gearing = gear(&setup, &stroke, hit.normal)
            .ok()
            .map(|aim| aim.stroke)
            .filter(|geared| made(geared))
            .map(|geared| {
                let cue = &self.layout.equipment.cue;
                let offset = geared.side_offset;
                let radius_m = setup.cue.ball.radius_m();
                GearingSide {
                    offset,
                    tips: offset.abs() * radius_m / cue.shape.tip_diameter_m,
                    outside: offset * hit.cut_rad() > 0.0,
                }
            });
        let found = Remedy { thinner_m, gearing };
        (found.thinner_m.is_some() || found.gearing.is_some()).then_some(found)
    }
}
