//! Room for the cue of a layout's stroke, with the layout's own names.

use super::parts::LayoutBall;
use railproof_engine::aim::{NoAim, Setup};
use railproof_engine::elevation::{NoRoom, Obstruction, Room, StandingBall, least_elevation};
use railproof_engine::rail::Pocket;
use railproof_engine::shot::ShotBall;
use railproof_engine::stroke::Stroke;
use railproof_engine::units::DEGREE_RAD;
use railproof_engine::world::{Obstacle, World};
use std::fmt;

/// A stroke for which the cue has no room.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct NoCueRoom {
    pub(crate) message: String,
    pub(crate) hint: String,
    /// The elevation was given, and another one would do.
    pub(crate) given: bool,
}

impl fmt::Display for NoCueRoom {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{}; {}", self.message, self.hint)
    }
}

/// Balls and things by their names.
#[derive(Clone, Copy)]
pub(crate) struct ThingNames<'a> {
    pub(crate) balls: &'a [LayoutBall],
    pub(crate) obstacles: &'a [Obstacle],
}

impl ThingNames<'_> {
    /// The name of the thing that a cue has to pass over.
    pub(crate) fn over(&self, over: Obstruction) -> String {
        match over {
            Obstruction::Ball(index) => self
                .balls
                .get(index)
                .map_or_else(|| over.name(), |ball| format!("the ball {}", ball.name)),
            Obstruction::Obstacle(index) => self
                .obstacles
                .get(index)
                .map_or_else(|| over.name(), |it| format!("the obstacle {}", it.name)),
            _ => over.name(),
        }
    }

    fn none(&self, over: Obstruction) -> NoCueRoom {
        let steepest = Stroke::ELEVATION.high;
        NoCueRoom {
            message: format!(
                "the cue has no room: even pointing down by {steepest}° it would go through {}",
                self.over(over)
            ),
            hint: "point the cue another way, or make room behind the ball".to_owned(),
            given: false,
        }
    }

    fn blocked(&self, given_rad: f64, least_rad: f64, over: Obstruction) -> NoCueRoom {
        NoCueRoom {
            message: format!(
                "the cue has no room: pointing down by {}° it would go through {}",
                rounded(given_rad / DEGREE_RAD),
                self.over(over)
            ),
            hint: format!(
                "the least elevation that works is {} deg; `least`, or none given, takes the least",
                rounded_up(least_rad / DEGREE_RAD)
            ),
            given: true,
        }
    }
}

/// To hundredths.
fn rounded(degrees: f64) -> f64 {
    (100.0 * degrees).round() / 100.0
}

/// To hundredths, up, so that what is read works when it is written.
pub(crate) fn rounded_up(degrees: f64) -> f64 {
    (100.0 * degrees).ceil() / 100.0
}

/// A solved stroke as it is played, its cue raised if that is left to the room, and the room from level
/// on.
pub(crate) fn raised(
    world: &World,
    balls: &[LayoutBall],
    struck: usize,
    stroke: &Stroke,
) -> Result<(Stroke, Room), NoCueRoom> {
    let named = ThingNames { balls, obstacles: world.obstacles() };
    let from = |from_rad: f64| {
        let others = balls.iter().enumerate().filter(|(index, _)| *index != struck);
        let standing = others.map(|(number, it)| StandingBall {
            number,
            position: it.state.position,
            radius_m: it.ball.radius_m(),
        });
        let ball = &balls[struck];
        least_elevation(world, (&ball.ball, ball.state.position), standing, stroke, from_rad)
            .map_err(|NoRoom { over }| named.none(over))
    };
    let room = from(0.0)?;
    if stroke.least_elevation {
        return Ok((Stroke { elevation_rad: room.least_rad, ..*stroke }, room));
    }
    match from(stroke.elevation_rad)? {
        Room { over: Some(over), least_rad } => {
            Err(named.blocked(stroke.elevation_rad, least_rad, over))
        }
        _ => Ok((*stroke, room)),
    }
}

/// The setup in which the aim of a stroke is solved, and its balls' places in the layout: the struck one,
/// the object ball, the others in order.
pub(crate) fn setup<'w>(
    world: &'w World,
    balls: &[LayoutBall],
    (struck, object): (usize, usize),
    pocket: Pocket,
) -> (Setup<'w>, Vec<usize>) {
    let of = |index: usize| ShotBall { state: balls[index].state, ball: balls[index].ball };
    let others = (0..balls.len()).filter(|index| *index != struck && *index != object);
    let order: Vec<usize> = [struck, object].into_iter().chain(others).collect();
    let others = order[2..].iter().map(|index| of(*index)).collect();
    (Setup { world, cue: of(struck), object: of(object), others, pocket }, order)
}

/// The cue's lack of room in an aim that could not be solved.
pub(crate) fn cramped(error: &NoAim, named: ThingNames<'_>, order: &[usize]) -> Option<NoCueRoom> {
    let own = |over: Obstruction| match over {
        Obstruction::Ball(index) => {
            Obstruction::Ball(order.get(index).copied().unwrap_or(usize::MAX))
        }
        other => other,
    };
    match error {
        NoAim::NoRoom(NoRoom { over }) => Some(named.none(own(*over))),
        NoAim::Blocked { given_rad, least_rad, over } => {
            Some(named.blocked(*given_rad, *least_rad, own(*over)))
        }
        _ => None,
    }
}
