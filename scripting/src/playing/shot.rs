//! A layout played by events.

use crate::called;
use crate::fault::Fault;
use crate::layout::Layout;
use railproof_engine::attribution::{Attribution, NotAttributed, ShotContext, of_shot};
use railproof_engine::equipment::RailModel;
use railproof_engine::lay::LineSpot;
use railproof_engine::results::{ShotOutcome, ShotResult};
use railproof_engine::shot::{EventKind, Shot, ShotError, play};
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::{ShotVerdict, verdict};
use railproof_engine::world::World;
use std::sync::Arc;

/// Balls whose surfaces slip less than this do not rub, m/s.
const RUBS_M_S: f64 = 1e-3;

/// A shot and its conditions.
#[derive(Debug)]
pub struct PlayedShot<'a> {
    /// The question.
    pub layout: &'a Layout,
    /// The table.
    pub world: Arc<World>,
    /// The events and ends.
    pub shot: Shot,
}

impl<'a> PlayedShot<'a> {
    /// Plays a layout by events, whichever engine it names.
    ///
    /// # Errors
    /// A table that can't be, or a start the engine refuses.
    pub fn new(layout: &'a Layout) -> Result<Self, Fault> {
        let world = World::new(&layout.equipment, &layout.obstacles)
            .map_err(|error| Fault::bad_input(format!("there is no such table: {error}")))?;
        let shot = play(&world, &layout.shot_balls(), layout.until_s).map_err(|error| {
            let fault = Fault::bad_input(format!("the shot can't be played: {error}"));
            match error {
                ShotError::Compliant => fault.with_hint(format!(
                    "take `engine: stepped`, or set the cushion's `rail_model` to nose-and-cloth, nose-only \
                     or planar; `{}` takes `--rail-model compliant`",
                    called::command("bank")
                )),
                _ => fault,
            }
        })?;
        Ok(Self::of(layout, Arc::new(world), shot))
    }

    /// A shot that was played from this layout on this table.
    pub const fn of(layout: &'a Layout, world: Arc<World>, shot: Shot) -> Self {
        Self { layout, world, shot }
    }

    /// The verdict on the target; `None` without one.
    pub fn verdict(&self) -> Option<ShotVerdict> {
        Some(verdict(&self.world, &self.shot, self.layout.verdict_target()?))
    }

    /// The outcome; `None` without a target.
    pub fn outcome(&self) -> Option<ShotOutcome> {
        Some(shot_outcome(self.layout, &self.shot, self.verdict()?))
    }

    /// The target's miss as a sum over its causes, or why there is none; `None` without a target.
    pub fn why(&self) -> Option<Result<Attribution, NotAttributed>> {
        let target = self.layout.verdict_target()?;
        let line = self.line();
        let facts = ShotContext {
            target,
            squirt_rad: self.layout.stroke.map_or(0.0, |stroke| stroke.struck.squirt_rad),
            line: line.map(|line| (line.rail, line.line)),
        };
        Some(of_shot(&self.world, &self.shot, &facts))
    }

    /// The line to the target's pocket on which something was laid.
    pub fn line(&self) -> Option<&LineSpot> {
        let target = self.layout.verdict_target()?;
        // Lines of other pockets, or more than one, do not say which was meant.
        let mut lines = self.layout.lines.iter().filter(|line| line.pocket == target.pocket);
        lines.next().filter(|_| lines.next().is_none())
    }

    /// A ball's name.
    pub fn name(&self, ball: usize) -> &'a str {
        self.layout.ball_name(ball)
    }

    /// True when two balls rubbed, so that the law of their friction matters.
    pub fn rub(&self) -> bool {
        let rubs =
            |kind: &EventKind| matches!(kind, EventKind::Ball(touch) if touch.slip_m_s > RUBS_M_S);
        self.shot.events.iter().any(|event| rubs(&event.kind))
    }

    /// The rail model in use.
    pub fn rail_model(&self) -> RailModel {
        self.layout.equipment.cushion.rail_model
    }

    /// True when the ball was not at rest all the time.
    pub fn moved(&self, ball: usize) -> bool {
        let starts = self
            .layout
            .balls
            .get(ball)
            .is_some_and(|it| it.state.velocity != Vec2::ZERO || it.state.spin.norm() > 0.0);
        starts || self.shot.events_of(ball).any(|event| !matches!(event.kind, EventKind::Start))
    }
}

/// The outcome of a shot that was played from a layout.
pub fn shot_outcome(layout: &Layout, shot: &Shot, verdict: ShotVerdict) -> ShotOutcome {
    let mut touches = shot.events.iter().filter_map(|event| event.kind.touch());
    ShotOutcome {
        verdict,
        duration_s: shot.duration_s(),
        events: shot.events.len(),
        flagged: layout.jumps() || touches.any(|touch| touch.hop || touch.outside_checked_speed),
    }
}

/// A shot from a layout as its measures are read, with what came of it.
pub fn shot_result<'a>(layout: &'a Layout, outcome: Option<&'a ShotOutcome>) -> ShotResult<'a> {
    ShotResult {
        equipment: Some(&layout.equipment),
        cue: layout.place_of(layout.struck()),
        object: layout.place_of(layout.target.map(|target| target.ball)),
        stroke: layout.stroke.map(|stroke| stroke.stroke),
        outcome,
    }
}
