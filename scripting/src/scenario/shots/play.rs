//! `layout:play { … }`: a stroke, or balls that move of themselves, played to rest.

use super::layout::ScenarioLayout;
use super::stroke::{AimPlan, StrokePlan, stroke};
use crate::fault::Fault;
use crate::layout::cue_room::{self, NoCueRoom, ThingNames};
use crate::layout::{AskedWay, Layout, LayoutStroke};
use crate::lua::options::Options;
use crate::lua::quantity::{Quantity, of_value};
use railproof_engine::aim::{NoAim, Sending};
use railproof_engine::motion::BallState;
use railproof_engine::rail::Pocket;
use railproof_engine::shot::{Shot, play as play_shot};
use railproof_engine::stroke::Stroke;
use railproof_engine::units::Dimension;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::{ShotVerdict, verdict};
use railproof_engine::world::World;
use std::fmt;
use std::sync::Arc;

/// A layout and its stroke; nothing in it is bound to the script's machine.
#[derive(Debug, Clone)]
pub(super) struct PreparedShot {
    pub layout: Arc<Layout>,
    pub world: Arc<World>,
    /// The stroke and the ball that it strikes; `None` when balls move of themselves.
    pub stroke: Option<(usize, StrokePlan)>,
}

/// A shot that was played.
#[derive(Debug)]
pub(super) struct ScenarioShot {
    /// With the stroke and the ball after it.
    pub layout: Layout,
    pub world: Arc<World>,
    pub shot: Shot,
    pub verdict: Option<ShotVerdict>,
}

/// The layout that the options of a call ask to be played.
pub(super) fn ready(options: &Options, laid: &ScenarioLayout) -> Result<PreparedShot, Fault> {
    let stroke = stroke(options, laid)?;
    if stroke.is_none() && !laid.moves() {
        return Err(options
            .complain_of_call("no ball moves and none is struck")
            .with_hint("give a `speed` and where the cue points, or a ball a `launch`"));
    }
    let world = Arc::clone(&laid.world);
    let speed_unit = of_value(&options.raw("speed")).map(Quantity::symbol);
    let layout = match speed_unit {
        // Of a lag there is no stroke that is told so.
        Some(speed_unit) if Dimension::Speed.units().iter().any(|it| it.symbol == speed_unit) => {
            Arc::new(Layout { speed_unit, ..(*laid.layout).clone() })
        }
        _ => Arc::clone(&laid.layout),
    };
    if stroke.is_some() && laid.moves() {
        return Err(options
            .complain_of_call("one ball is moving already and another is struck")
            .with_hint("leave out the stroke, or the moving ball's `launch`, velocity and spin"));
    }
    let stroke = laid.cue().zip(stroke);
    Ok(PreparedShot { layout, world, stroke })
}

impl ScenarioShot {
    /// When there was a double kiss, s.
    pub fn kissed_at_s(&self) -> Option<f64> {
        self.verdict?.kissed_at_s
    }
}

impl PreparedShot {
    /// Solves the aim if it has to be, and plays.
    pub fn play(&self) -> Result<ScenarioShot, NoPlay> {
        let mut layout = (*self.layout).clone();
        if let Some((ball, plan)) = self.stroke {
            let object = layout.target.map(|target| target.ball);
            let asked = |way, by| object.map(|ball| AskedWay { ball, way, by });
            let ((solved, ghost), asked) = match plan.aim {
                AimPlan::Given(ghost) => ((plan.stroke, ghost), None),
                AimPlan::Ghost(at, way) => ((plan.stroke, Some(at)), asked(way, None)),
                AimPlan::Solved(by, way) => {
                    (self.solved(ball, &plan.stroke, (by, way))?, asked(way, Some(by)))
                }
            };
            let (solved, room) = cue_room::raised(&self.world, &layout.balls, ball, &solved)?;
            let cue = &self.world.equipment().cue;
            let struck = solved.strike(&layout.balls[ball].ball, cue).map_err(NoAim::from)?;
            let state = &mut layout.balls[ball].state;
            *state = BallState { velocity: struck.velocity, spin: struck.spin, ..*state };
            layout.stroke = Some(LayoutStroke { ball, stroke: solved, struck, room, ghost, asked });
        }
        let shot =
            play_shot(&self.world, &layout.shot_balls(), layout.until_s).map_err(NoAim::from)?;
        let verdict = layout.verdict_target().map(|target| verdict(&self.world, &shot, target));
        Ok(ScenarioShot { layout, world: Arc::clone(&self.world), shot, verdict })
    }

    /// The stroke that sends the object ball a way, and where the cue ball then touches it.
    fn solved(
        &self,
        cue: usize,
        stroke: &Stroke,
        (by, way): (Sending, Vec2),
    ) -> Result<(Stroke, Option<Vec2>), NoPlay> {
        // Most look at the first hit alone.
        let (object, pocket) = self
            .layout
            .target
            .map_or((cue, Pocket::FootRight), |target| (target.ball, target.pocket));
        let balls = &self.layout.balls;
        let (setup, order) = cue_room::setup(&self.world, balls, (cue, object), pocket);
        by.solve(&setup, stroke, way).map_err(|error| {
            let named = ThingNames { balls, obstacles: self.world.obstacles() };
            match cue_room::cramped(&error, named, &order) {
                Some(cramped) => NoPlay::Cramped(cramped),
                None => NoPlay::Aim(error),
            }
        })
    }
}

/// Why a shot was not played.
#[derive(Debug)]
pub(super) enum NoPlay {
    Cramped(NoCueRoom),
    Aim(NoAim),
}

impl From<NoCueRoom> for NoPlay {
    fn from(cramped: NoCueRoom) -> Self {
        Self::Cramped(cramped)
    }
}

impl From<NoAim> for NoPlay {
    fn from(error: NoAim) -> Self {
        Self::Aim(error)
    }
}

impl fmt::Display for NoPlay {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Cramped(cramped) => cramped.fmt(formatter),
            Self::Aim(error) => error.fmt(formatter),
        }
    }
}

impl NoPlay {
    /// As a fault of the call that asked for the shot.
    pub fn fault(&self, options: &Options) -> Fault {
        match self {
            Self::Cramped(cramped) if cramped.given && options.has("elevation") => {
                options.complain("elevation", &cramped.message).with_hint(&cramped.hint)
            }
            Self::Cramped(cramped) => {
                options.complain_of_call(&cramped.message).with_hint(&cramped.hint)
            }
            Self::Aim(error) => options.complain_of_call(error.to_string()),
        }
    }
}
