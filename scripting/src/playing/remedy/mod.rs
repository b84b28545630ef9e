//! A stroke that makes a shot which was not made: another hit, side that gears, or another speed.

mod found;
mod hit;
mod side;
mod speed;

pub use found::{CombinedChange, GearingSide, HitChange, HitSide, Remedy, SpeedChange, WrittenAim};

use super::PlayedShot;
use crate::layout::{AskedWay, LayoutBall};
use railproof_engine::aim::{Setup, first_hit};
use railproof_engine::motion::BallState;
use railproof_engine::shot::{Ending, ShotBall};
use railproof_engine::stroke::Stroke;
use railproof_engine::units::DEGREE_RAD;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::PocketVerdict;

/// A shot that was not made, and the strokes that are tried in place of its own.
struct RemedySearch<'w> {
    setup: Setup<'w>,
    /// The stroke as it was played.
    stroke: Stroke,
    /// The way that the stroke was to send the ball meant for the pocket.
    asked: Option<AskedWay>,
    /// The line of centres at the hit, where there was one.
    normal: Option<Vec2>,
    in_inches: bool,
    tip_m: f64,
}

impl PlayedShot<'_> {
    /// Strokes that make the shot; `None` where it was made, or nothing struck the target.
    pub fn remedy(&self) -> Option<Remedy> {
        let (target, struck) = (self.layout.target?, self.layout.stroke?);
        let ending = self.shot.ends.get(target.ball)?.ending;
        let decided = ending != Ending::TimeOver;
        let verdict = self.verdict()?.pocket;
        if verdict.is_made() || verdict == PocketVerdict::GivenUp || !decided {
            return None;
        }
        let setup = self.setup()?;
        // A ball that sends another one on is not aimed anew.
        let asked = match struck.asked {
            Some(asked) if asked.ball != target.ball => return None,
            asked => asked,
        };
        let stroke = struck.stroke;
        let normal = first_hit(&setup, &stroke).ok()?.map(|hit| hit.normal);
        let tip_m = self.layout.equipment.cue.shape.tip_diameter_m;
        let in_inches = self.layout.in_inches;
        let search = RemedySearch { setup, stroke, asked, normal, in_inches, tip_m };
        let (hit, gearing, speed) =
            (search.hit(), search.gearing(), search.speed(self.layout.speed_unit));
        if hit.is_some() || gearing.is_some() || speed.is_some() {
            return Some(Remedy { hit, gearing, speed, both: None });
        }
        let both = search.speed_and_hit(self.layout.speed_unit);
        both.is_some().then_some(Remedy { hit, gearing, speed, both })
    }
}

impl PlayedShot<'_> {
    /// The balls as they lie before the stroke; `None` where nothing strikes the target, or more than one moves.
    fn setup(&self) -> Option<Setup<'_>> {
        let (target, struck) = (self.layout.target?, self.layout.stroke?);
        let moves = |ball: usize| self.layout.balls[ball].state.velocity != Vec2::ZERO;
        let others = || (0..self.layout.balls.len()).filter(|ball| *ball != struck.ball);
        if target.ball == struck.ball || others().any(moves) {
            return None;
        }
        let resting = |ball: usize| {
            let LayoutBall { ball, state, .. } = &self.layout.balls[ball];
            let state = BallState { position: state.position, ..BallState::default() };
            ShotBall { state, ball: *ball }
        };
        Some(Setup {
            world: &self.world,
            cue: resting(struck.ball),
            object: resting(target.ball),
            others: others().filter(|ball| *ball != target.ball).map(resting).collect(),
            pocket: target.pocket,
        })
    }

    /// True where the shot is made, comes to its pocket as it did not, or misses by less than half as much, with a cue ball that goes where the cue
    /// points.
    pub fn squirt_is_the_cause(&self) -> Option<bool> {
        let struck = self.layout.stroke?;
        let straight =
            Stroke { aim_rad: struck.stroke.aim_rad - struck.struck.squirt_rad, ..struck.stroke };
        let (_, without) = self.setup()?.judge(&straight).ok()?;
        let verdict = self.verdict()?;
        let comes = |pocket: PocketVerdict| {
            matches!(pocket, PocketVerdict::Missed(_) | PocketVerdict::RattledOut)
        };
        let better = match (without.arrival, verdict.arrival) {
            (Some(without), Some(with)) if comes(verdict.pocket) => {
                without.miss_m.abs() < 0.5 * with.miss_m.abs()
            }
            _ => comes(without.pocket) && !comes(verdict.pocket),
        };
        Some(without.is_made() || better)
    }
}

impl RemedySearch<'_> {
    fn makes(&self, stroke: &Stroke) -> bool {
        self.setup.judge(stroke).is_ok_and(|(_, verdict)| verdict.is_made())
    }

    /// The lines on which the object ball may be meant to go: the one that was asked for, and the line of centres.
    fn lines(&self) -> impl Iterator<Item = (Vec2, bool)> {
        let asked = self.asked.map(|asked| (asked.way, true));
        asked.into_iter().chain(self.normal.map(|normal| (normal, false)))
    }

    /// The angle of a stroke's aim as it is written, degrees, to as few decimals as still make it.
    fn written_aim(&self, stroke: &Stroke) -> Option<f64> {
        let degrees = stroke.aim_rad / DEGREE_RAD;
        [100.0, 1000.0]
            .into_iter()
            .map(|parts| (parts * degrees).round() / parts)
            .find(|written| self.makes(&Stroke { aim_rad: written * DEGREE_RAD, ..*stroke }))
    }
}
