//! A layout that was resolved: every ball has its place and its motion.

use super::cue_room;
use super::engine::EngineChoice;
use super::parts::{LayoutBall, LayoutStroke, LayoutTarget};
use super::picture_words::PictureWords;
use railproof_engine::equipment::Equipment;
use railproof_engine::lay::LineSpot;
use railproof_engine::shot::ShotBall;
use railproof_engine::units::DEGREE_RAD;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::Target;
use railproof_engine::world::Obstacle;

/// The name of the ball that is struck unless another is named.
pub(crate) const CUE: &str = "cue";

/// The ball that is meant for the pocket unless another is named.
pub(crate) const OBJECT: &str = "object";

/// The unit of a stroke's speed that is written without one.
pub(crate) const SPEED_UNIT: &str = "m/s";

/// Balls on a table, and their first motion.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// The equipment.
    pub equipment: Equipment,
    /// The purpose of the shot.
    pub target: Option<LayoutTarget>,
    /// The balls in the file's order; at least one.
    pub balls: Vec<LayoutBall>,
    /// The stroke of the cue.
    pub stroke: Option<LayoutStroke>,
    /// Things laid on the table.
    pub obstacles: Vec<Obstacle>,
    /// Lines of rail numbers that the layout speaks of, each once.
    pub lines: Vec<LineSpot>,
    /// Which engine plays it.
    pub engine: EngineChoice,
    /// When to stop, s; `None` when everything has come to rest.
    pub until_s: Option<f64>,
    /// Title and look of its picture.
    pub picture: PictureWords,
    /// It is written in inches, so its answers are told in inches.
    pub in_inches: bool,
    /// The unit of the stroke's speed; that of a word is m/s.
    pub speed_unit: &'static str,
}

impl Layout {
    /// The balls as the engine takes them.
    pub fn shot_balls(&self) -> Vec<ShotBall> {
        self.balls.iter().map(|it| ShotBall { state: it.state, ball: it.ball }).collect()
    }

    /// The name of the thing that the cue has to pass over; `None` when it may be level or nothing is struck.
    pub fn cue_passes_over(&self) -> Option<String> {
        let named = cue_room::ThingNames { balls: &self.balls, obstacles: &self.obstacles };
        Some(named.over(self.stroke?.room.over?))
    }

    /// True when the stroke would make a real ball jump.
    pub fn jumps(&self) -> bool {
        self.stroke.is_some_and(|it| it.struck.jumps(self.equipment.gravity_m_s2))
    }

    /// A sentence on the cue's elevation and the reason for it; `None` when nothing is struck.
    pub fn elevation_sentence(&self) -> Option<String> {
        let LayoutStroke { stroke, struck, room, .. } = self.stroke?;
        let used = cue_room::rounded_up(stroke.elevation_rad / DEGREE_RAD);
        let least = cue_room::rounded_up(room.least_rad / DEGREE_RAD);
        let cue = match (self.cue_passes_over(), stroke.least_elevation) {
            (None, true) => "The cue is level.".to_owned(),
            (Some(over), true) => {
                format!("The cue points down by {used}°, the least that clears {over}.")
            }
            (None, false) => format!("The cue points down by {used}°, as given."),
            (Some(over), false) => format!(
                "The cue points down by {used}°, as given; the least that clears {over} is \
                 {least}°."
            ),
        };
        let hop = 1e3 * struck.hop_m(self.equipment.gravity_m_s2);
        let hops = || format!(" A ball struck like this jumps by about {hop:.0} mm.");
        Some(cue + &if self.jumps() { hops() } else { String::new() })
    }

    /// The ball that is struck, or would be: the one called `cue`.
    pub fn struck(&self) -> Option<usize> {
        let cue = || self.balls.iter().position(|ball| ball.name == CUE);
        self.stroke.map(|stroke| stroke.ball).or_else(cue)
    }

    /// Where a ball begins, m.
    pub fn place_of(&self, ball: Option<usize>) -> Option<Vec2> {
        Some(self.balls.get(ball?)?.state.position)
    }

    /// A ball's name.
    pub fn ball_name(&self, ball: usize) -> &str {
        self.balls.get(ball).map_or("", |it| it.name.as_str())
    }

    /// An obstacle's name.
    pub fn obstacle_name(&self, obstacle: usize) -> &str {
        self.obstacles.get(obstacle).map_or("", |it| it.name.as_str())
    }

    /// The target by which the engine judges the shot.
    pub fn verdict_target(&self) -> Option<Target> {
        let LayoutTarget { ball, pocket } = self.target?;
        Some(Target { ball, pocket, cue: self.stroke.map(|stroke| stroke.ball) })
    }
}
