//! A stroke that makes a shot which was not made: another hit, side that gears, or another speed.

mod found;
mod hit;
mod side;
mod speed;
mod start;

pub use found::{CombinedChange, GearingSide, HitChange, HitSide, Remedy, SpeedChange, WrittenAim};
pub use start::NeededStart;

use super::PlayedShot;
use crate::layout::{AskedWay, Layout, LayoutBall};
use railproof_engine::aim::{Setup, first_hit};
use railproof_engine::motion::BallState;
use railproof_engine::shot::{Ending, Shot, ShotBall, play};
use railproof_engine::stroke::Stroke;
use railproof_engine::units::DEGREE_RAD;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::{PocketVerdict, Target, rails_before, verdict};
use railproof_engine::world::World;

/// A shot that was not made, and the strokes that are tried in place of its own.
struct RemedySearch<'w> {
    layout: &'w Layout,
    setup: Setup<'w>,
    /// A ball that drops off a jaw is made too.
    off_jaw: bool,
    /// The ball meant for the pocket banks off so many rails at most.
    rails: usize,
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
    /// Strokes that make the shot: clean, or where none does that, off a jaw. `None` where it was made, or nothing
    /// struck the target.
    pub fn remedy(&self) -> Option<Remedy> {
        let (target, struck) = (self.layout.target?, self.layout.stroke?);
        let ending = self.shot.ends.get(target.ball)?.ending;
        let decided = ending != Ending::TimeOver;
        let verdict = self.verdict()?;
        if verdict.pocket.is_made() || verdict.pocket == PocketVerdict::GivenUp || !decided {
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
        let layout = self.layout;
        let rails = rails_before(&self.world, &self.shot, target.ball, target.pocket);
        // One that never came to its pocket may have been on its way off one rail.
        let rails = if verdict.arrival.is_some() { rails } else { rails.max(1) };
        let mut search = RemedySearch {
            layout,
            setup,
            off_jaw: false,
            rails,
            stroke,
            asked,
            normal,
            in_inches,
            tip_m,
        };
        search.remedy().or_else(|| {
            search.off_jaw = true;
            search.remedy()
        })
    }
}

impl RemedySearch<'_> {
    /// The strokes, each played out in the layout.
    fn remedy(&self) -> Option<Remedy> {
        let (unit, off_jaw) = (self.layout.speed_unit, self.off_jaw);
        let hit = self.hit().filter(|it| self.makes_in_layout(&it.stroke));
        let gearing = self.gearing().filter(|it| self.makes_in_layout(&it.stroke));
        let speed = self.speed(unit).filter(|it| self.makes_in_layout(&it.stroke));
        if hit.is_some() || gearing.is_some() || speed.is_some() {
            return Some(Remedy { hit, gearing, speed, both: None, off_jaw });
        }
        let both = self.speed_and_hit(unit).filter(|it| self.makes_in_layout(&it.speed.stroke))?;
        Some(Remedy { hit, gearing, speed, both: Some(both), off_jaw })
    }

    /// The whole layout with another stroke makes the shot, in the time that it has.
    fn makes_in_layout(&self, stroke: &Stroke) -> bool {
        let (world, Some(target)) = (self.setup.world, self.layout.verdict_target()) else {
            return false;
        };
        played_with(self.layout, world, stroke)
            .is_some_and(|shot| self.is_made(&shot, target, verdict(world, &shot, target).pocket))
    }

    /// The ball drops, and takes no more rails for it than it was to.
    fn is_made(&self, shot: &Shot, target: Target, pocket: PocketVerdict) -> bool {
        let drops = pocket == PocketVerdict::Clean || self.off_jaw && pocket.is_made();
        let world = self.setup.world;
        drops && rails_before(world, shot, target.ball, target.pocket) <= self.rails
    }
}

/// A layout with another stroke.
fn played_with(layout: &Layout, world: &World, stroke: &Stroke) -> Option<Shot> {
    let struck = layout.stroke?;
    let mut balls = layout.shot_balls();
    let ball = &mut balls[struck.ball];
    let off = stroke.strike(&ball.ball, &layout.equipment.cue).ok()?;
    ball.state =
        BallState { position: ball.state.position, velocity: off.velocity, spin: off.spin };
    play(world, &balls, layout.until_s).ok()
}

impl PlayedShot<'_> {
    /// The whole layout, played with another stroke.
    pub fn with_stroke(&self, stroke: &Stroke) -> Option<Shot> {
        played_with(self.layout, &self.world, stroke)
    }

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

    /// True where the shot is made, comes to its pocket as it did not, or misses by less than half as much, with a cue
    /// ball that goes where the cue points.
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
        let target = self.setup.target();
        let judged = self.setup.judge(stroke);
        judged.is_ok_and(|(shot, verdict)| self.is_made(&shot, target, verdict.pocket))
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
