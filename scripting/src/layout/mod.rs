//! Layouts: YAML files that put balls on a table, for a single shot.
//!
//! A layout names or holds its equipment and says where each ball lies: by coordinates in the table
//! frame (origin at the table's centre, x along the long side towards the foot rail, y towards the
//! left rail, z up), by rail numbers, between places, behind other balls. A ball moves because it is
//! given a velocity, or because the cue strikes it. What happens then is not decided here.

mod aim;
pub(crate) mod cue_room;
pub(crate) mod draft;
mod engine;
mod guide;
pub(crate) mod names;
pub(crate) mod obstacle;
pub(crate) mod places;
pub(crate) mod read;
pub(crate) mod resolve;
pub(crate) mod spot;
pub(crate) mod tables;
mod varied;

pub use engine::EngineChoice;
pub use guide::layout_guide;
pub(crate) use guide::{GROUPS, NamedGroup};
pub use tables::{POSITION, SPIN, UNTIL, VELOCITY};
pub(crate) use varied::VariedLayout;

use draft::EquipmentSource;

use crate::fault::Fault;
use crate::profile::{assemble, find_profile};
use crate::yaml::InputText;
use railproof_engine::elevation::Room;
use railproof_engine::equipment::{Ball, Equipment};
use railproof_engine::lay::LineSpot;
use railproof_engine::motion::BallState;
use railproof_engine::rail::Pocket;
use railproof_engine::shot::ShotBall;
use railproof_engine::stroke::{Stroke, StruckBall};
use railproof_engine::units::DEGREE_RAD;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::Target;
use railproof_engine::world::{Obstacle, World};
use std::path::Path;
use std::sync::Arc;

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
}

/// The name of the ball that is struck unless another is named.
pub(crate) const CUE: &str = "cue";

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
                format!("The cue points down by {used}°, the least with which it clears {over}.")
            }
            (None, false) => format!("The cue points down by {used}°, as given."),
            (Some(over), false) => format!(
                "The cue points down by {used}°, as given; the least with which it clears {over} is \
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

/// Reads a layout from a file; a profile's path in it is relative to the file.
///
/// # Errors
/// A [`Fault`] with its place: whatever is wrong with the file or its profile, a ball or an obstacle
/// that can't lie where it is said to, a stroke that can't be played, or a speed or spin out of range.
pub fn load_layout(path: &Path) -> Result<Layout, Fault> {
    let folder = path.parent().unwrap_or(Path::new(""));
    of_source(&InputText::open(path)?, folder)
}

/// Reads a layout from text; `label` is what messages call it, and a profile's path in it is
/// relative to `folder`.
///
/// # Errors
/// As [`load_layout`].
pub fn parse_layout(text: &str, label: &str, folder: &Path) -> Result<Layout, Fault> {
    of_source(&InputText::new(label, text)?, folder)
}

fn of_source(source: &InputText, folder: &Path) -> Result<Layout, Fault> {
    // A fault inside the profile keeps its place there.
    let named = |reference: &str| find_profile(reference, folder);
    read_with(source, &named, None).map(|(layout, _)| layout)
}

/// A layout from its text, whose equipment `named` finds by its name, and its table: the known one where
/// it is the same.
///
/// # Errors
/// As [`load_layout`].
pub(crate) fn read_with(
    source: &InputText,
    named: &dyn Fn(&str) -> Result<Equipment, Fault>,
    known: Option<&Arc<World>>,
) -> Result<(Layout, Arc<World>), Fault> {
    let values = source.read(&tables::LAYOUT)?;
    let mut draft = read::layout(&values).map_err(|refusal| source.refused(&refusal, &[]))?;
    let within = ["equipment"];
    let nothing = EquipmentSource::Named(String::new());
    let equipment = match std::mem::replace(&mut draft.equipment, nothing) {
        EquipmentSource::Inline(sections) => assemble(&sections, source, &within)?,
        EquipmentSource::Named(reference) => {
            named(&reference).map_err(|fault| match fault.place {
                Some(_) => fault,
                None => fault.at(source.place_of(&within)),
            })?
        }
    };
    resolve::resolved(equipment, draft, source, known)
}
