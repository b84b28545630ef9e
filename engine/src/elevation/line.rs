//! The cue over the table, and the least elevation at which it is clear.

use super::ball::BallNearCue;
use super::cue::CueLine;
use super::edge::Edge;
use super::slope::Slope;
use crate::equipment::Ball;
use crate::rail::{Pocket, Rail};
use crate::root::bracketed_root;
use crate::stroke::Stroke;
use crate::units::DEGREE_RAD;
use crate::vector::Vec2;
use crate::world::{Owner, Shape, Surface, World};
use core::convert::Infallible;
use thiserror::Error;

/// The things that a cue has to pass over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Obstruction {
    /// The cloth.
    Cloth,
    /// A rail: its nose or its upper edge.
    Rail(Rail),
    /// A jaw of a pocket.
    Jaw(Pocket),
    /// A ball, by the number it was given.
    Ball(usize),
    /// An obstacle, by its place in the world's list.
    Obstacle(usize),
}

impl Obstruction {
    /// Its name for people, where balls and obstacles have no names.
    pub fn name(self) -> String {
        match self {
            Self::Cloth => "the cloth".to_owned(),
            Self::Rail(rail) => format!("the {} rail", rail.name()),
            Self::Jaw(pocket) => format!("a jaw of the {} pocket", pocket.name()),
            Self::Ball(_) => "another ball".to_owned(),
            Self::Obstacle(_) => "an obstacle".to_owned(),
        }
    }
}

/// The room that a cue has.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// The least elevation, rad, of at least what was asked from.
    pub least_rad: f64,
    /// The thing that asks for it; `None` when a cue at the elevation asked from is clear.
    pub over: Option<Obstruction>,
}

/// No elevation that is accepted leaves the cue room.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
#[error(
    "the cue has no room: even at {:.0}° it would go through {}",
    Stroke::ELEVATION.high,
    over.name()
)]
pub struct NoRoom {
    /// The thing in its way.
    pub over: Obstruction,
}

/// A ball that stands on the table beside the struck one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StandingBall {
    /// The number by which [`Obstruction::Ball`] calls it.
    pub number: usize,
    /// Its centre, m.
    pub position: Vec2,
    /// Its radius, m.
    pub radius_m: f64,
}

/// The largest elevation that is looked at, rad.
fn steepest_rad() -> f64 {
    Stroke::ELEVATION.high * DEGREE_RAD
}

/// The least elevation, from `from_rad` on, at which the cue of a stroke is clear of everything; the
/// stroke's own elevation plays no part. `others` are the balls beside the struck one.
///
/// # Errors
/// [`NoRoom`] when none up to the largest accepted elevation is.
pub fn least_elevation(
    world: &World,
    (ball, from): (&Ball, Vec2),
    others: impl IntoIterator<Item = StandingBall>,
    stroke: &Stroke,
    from_rad: f64,
) -> Result<Room, NoRoom> {
    let line = CueLine::new(world, ball, from, stroke);
    let mut room = Room { least_rad: from_rad, over: None };
    raise(&mut room, Obstruction::Cloth, |turn| line.over_cloth(turn))?;
    let mut turn = libm::sincos(room.least_rad);
    for (over, edge) in edges(world, &line) {
        if !edge.is_far_below(&line, turn) {
            raise(&mut room, over, |turn| edge.room_m(&line, turn))?;
            turn = libm::sincos(room.least_rad);
        }
    }
    for (over, slope) in slopes(world) {
        // Raised so far, its butt ends over the slope, and goes on to be over it.
        if slope.room_m(&line, turn) < 0.0 {
            raise(&mut room, over, |turn| slope.room_m(&line, turn))?;
            turn = libm::sincos(room.least_rad);
        }
    }
    let rounds: Vec<(Obstruction, BallNearCue)> = others
        .into_iter()
        .filter_map(|it| {
            let centre = line.place(it.position, it.radius_m);
            let round = BallNearCue::near(&line, centre, it.radius_m)?;
            Some((Obstruction::Ball(it.number), round))
        })
        .collect();
    // A cue that is raised over one ball may come to the height of another beside it.
    for _ in 0..=rounds.len() {
        let before = room.least_rad;
        for (over, round) in &rounds {
            if round.touches(&line, libm::sincos(room.least_rad)) {
                raise(&mut room, *over, |turn| round.over_it_m(&line, turn))?;
            }
        }
        if room.least_rad == before {
            break;
        }
    }
    Ok(room)
}

/// Raises the cue until `clear`, which grows with the elevation, is no longer negative.
fn raise(
    room: &mut Room,
    over: Obstruction,
    clear: impl Fn((f64, f64)) -> f64,
) -> Result<(), NoRoom> {
    // What is not under the cue at all is infinitely clear; a root is sought on finite numbers.
    let at = |angle_rad: f64| clear(libm::sincos(angle_rad)).min(1.0);
    let low = (room.least_rad, at(room.least_rad));
    if low.1 >= 0.0 {
        return Ok(());
    }
    let high = (steepest_rad(), at(steepest_rad()));
    if high.1 < 0.0 || high.0 <= low.0 {
        return Err(NoRoom { over });
    }
    let root = bracketed_root(|angle_rad| Ok::<f64, Infallible>(at(angle_rad)), low, high);
    let Ok((angle_rad, _)) = root;
    *room = Room { least_rad: angle_rad, over: Some(over) };
    Ok(())
}

/// The upper edges under the cue.
fn edges<'w>(
    world: &'w World,
    line: &'w CueLine,
) -> impl Iterator<Item = (Obstruction, Edge)> + 'w {
    let equipment = world.equipment();
    let nose_m = equipment.cushion.nose_height_m;
    let top = equipment.table.rail_top;
    let behind = top.setback_m;
    let outline = world.outline();
    let corner = move |x: f64, y: f64| {
        let out = |sign: f64, half: f64| sign * (half + behind);
        Vec2::new(out(x, outline.half_length_m), out(y, outline.half_width_m))
    };
    let rails = [
        (Rail::Foot, corner(1.0, -1.0), corner(1.0, 1.0)),
        (Rail::Head, corner(-1.0, -1.0), corner(-1.0, 1.0)),
        (Rail::Left, corner(-1.0, 1.0), corner(1.0, 1.0)),
        (Rail::Right, corner(-1.0, -1.0), corner(1.0, -1.0)),
    ];
    let uppers = rails
        .into_iter()
        .map(move |(rail, from, to)| (Obstruction::Rail(rail), from, to, top.height_m.max(nose_m)));
    let surfaces = world.surfaces().filter_map(move |surface| {
        let (from, to) = chord(&surface)?;
        Some(match surface.owner {
            Owner::Nose(rail) => (Obstruction::Rail(rail), from, to, nose_m),
            Owner::Jaw { pocket, .. } => (Obstruction::Jaw(pocket), from, to, nose_m),
            Owner::Obstacle(index) => {
                (Obstruction::Obstacle(index), from, to, world.obstacles()[index].height_m)
            }
        })
    });
    uppers.chain(surfaces).filter_map(move |(over, from, to, height_m)| {
        Some((over, Edge::under(line, from, to, height_m)?))
    })
}

/// The slopes between the noses and the rails' upper edges.
fn slopes(world: &World) -> impl Iterator<Item = (Obstruction, Slope)> + '_ {
    let nose_m = world.equipment().cushion.nose_height_m;
    let top = world.equipment().table.rail_top;
    world.surfaces().filter_map(move |surface| {
        let Owner::Nose(rail) = surface.owner else { return None };
        let (from, to) = chord(&surface)?;
        let rise_m = (top.height_m - nose_m).max(0.0);
        let outward = rail.outward();
        let slope = Slope { from, to, outward, nose_m, rise_m, behind_m: top.setback_m };
        (top.setback_m > 0.0).then_some((Obstruction::Rail(rail), slope))
    })
}

/// A surface's upper edge as a straight line; a sharp corner has none of its own. A point's rounding is
/// cut by its chord, at most 2 mm inside it.
fn chord(surface: &Surface) -> Option<(Vec2, Vec2)> {
    if let Shape::Round { radius_m, .. } = surface.shape
        && radius_m == 0.0
    {
        return None;
    }
    let [from, to] = surface.shape.ends();
    Some((from, to))
}
