//! The parts of a layout: a ball, the target, the stroke.

use railproof_engine::aim::Sending;
use railproof_engine::elevation::Room;
use railproof_engine::equipment::Ball;
use railproof_engine::motion::BallState;
use railproof_engine::rail::Pocket;
use railproof_engine::stroke::{Stroke, StruckBall};
use railproof_engine::vector::Vec2;

/// A ball of a layout as the shot begins: after the stroke, if it is struck.
#[derive(Debug, Clone, PartialEq)]
pub struct LayoutBall {
    /// Its name for people.
    pub name: String,
    /// Its size and mass.
    pub ball: Ball,
    /// Place and motion, table frame.
    pub state: BallState,
}

/// The purpose of a shot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LayoutTarget {
    /// The ball, by its place in the list.
    pub ball: usize,
    /// The pocket.
    pub pocket: Pocket,
}

/// A stroke, and the ball that leaves the tip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LayoutStroke {
    /// The ball, by its place in the list.
    pub ball: usize,
    /// The stroke, its aim and its elevation solved.
    pub stroke: Stroke,
    /// The ball after it.
    pub struck: StruckBall,
    /// The room that its cue has from level on, balls by their places in the list.
    pub room: Room,
    /// Where a ball is that the cue was pointed at as at a ghost ball.
    pub ghost: Option<Vec2>,
    /// The way on which it is to send a ball, where its aim is told by one.
    pub asked: Option<AskedWay>,
}

/// The way that a stroke is to send a ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AskedWay {
    /// The ball, by its place in the list.
    pub ball: usize,
    /// The way, a unit vector.
    pub way: Vec2,
    /// How the aim is solved for it; `None` where the cue points at the ghost ball.
    pub by: Option<Sending>,
}

impl AskedWay {
    /// The key of the aim.
    pub fn key(&self) -> &'static str {
        self.by.map_or("ghost", Sending::name)
    }
}
