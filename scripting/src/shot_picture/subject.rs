//! A played shot and the words around it, as they are given to be drawn.

use crate::picture::TablePoint;
use railproof_engine::lay::LineSpot;
use railproof_engine::rail::Pocket;
use railproof_engine::shot::Shot;
use railproof_engine::stepped::shot::SteppedShot;
use railproof_engine::units::short_number;
use railproof_engine::vector::Vec2;
use railproof_engine::world::World;

/// A shot to be drawn, and the words around it.
#[derive(Debug, Clone)]
pub struct ShotPicture<'a> {
    /// The table.
    pub world: &'a World,
    /// The shot.
    pub shot: ShotPaths<'a>,
    /// Each ball's name and radius in metres, in the shot's order.
    pub balls: Vec<(&'a str, f64)>,
    /// The ball that is struck.
    pub cue: Option<usize>,
    /// The ball that is meant for a pocket, and the pocket.
    pub target: Option<(usize, Pocket)>,
    /// Lines of rail numbers to show.
    pub lines: &'a [LineSpot],
    /// Where the ghost ball is that the cue was pointed at.
    pub ghost: Option<Vec2>,
    /// Whether spin is shown.
    pub spin: bool,
    /// Title of the picture.
    pub title: String,
    /// The conditions.
    pub subtitle: String,
    /// The outcome of the shot.
    pub verdict: String,
    /// Footnotes.
    pub notes: Vec<String>,
}

/// A shot by one engine or the other.
#[derive(Debug, Clone, Copy)]
pub enum ShotPaths<'a> {
    /// By events: paths are drawn exactly.
    Event(&'a Shot),
    /// In steps: paths are drawn from state to state.
    Stepped(&'a SteppedShot),
}

pub(super) fn point(at: Vec2) -> TablePoint {
    // Adding zero turns −0 into 0.
    (at.x + 0.0, at.y + 0.0)
}

/// A rail number as it stands in a picture. Its place tells on which side of a side pocket it is.
pub(super) fn marked(number: f64, pocket: Pocket) -> String {
    short_number(if pocket.is_side() { number.abs() } else { number }, 2)
}
