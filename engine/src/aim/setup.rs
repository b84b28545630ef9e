//! A cue ball, an object ball and a pocket.

use super::NoAim;
use crate::elevation::{NoRoom, Room, StandingBall, least_elevation};
use crate::motion::BallState;
use crate::rail::{BankGeometry, Line, Pocket, Rail};
use crate::shot::{Shot, ShotBall, play, touching_m};
use crate::stroke::Stroke;
use crate::units::DEGREE_RAD;
use crate::vector::{Vec2, Vec3};
use crate::verdict::{ShotVerdict, Target, verdict};
use crate::world::World;

/// The cue ball's place in a setup's shots.
pub const CUE: usize = 0;
/// The object ball's place in a setup's shots.
pub const OBJECT: usize = 1;

/// Balls at rest, and the pocket that the object ball is meant for.
#[derive(Debug, Clone)]
pub struct Setup<'w> {
    /// The table.
    pub world: &'w World,
    /// The cue ball.
    pub cue: ShotBall,
    /// The object ball.
    pub object: ShotBall,
    /// Other balls; they lie in the way or do not.
    pub others: Vec<ShotBall>,
    /// Where the object ball is to go.
    pub pocket: Pocket,
}

/// A bank along a line of rail numbers, seen from the cue ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineSetup {
    /// The rail that the object ball banks off.
    pub rail: Rail,
    /// The target pocket.
    pub pocket: Pocket,
    /// Its line, groove reading.
    pub line: Line,
    /// The object ball's distance off the rail, square to it, m.
    pub off_rail_m: f64,
    /// Distance from the cue ball to the place where it hits, m.
    pub cue_distance_m: f64,
    /// The cut of the object ball, rad: positive is outside, negative inside, 0 is straight.
    pub cut_rad: f64,
}

impl<'w> Setup<'w> {
    /// Two of the equipment's own balls at rest.
    pub fn new(world: &'w World, cue: Vec2, object: Vec2, pocket: Pocket) -> Self {
        let at = |place: Vec2| {
            ShotBall::of(world.equipment(), BallState { position: place, ..BallState::default() })
        };
        Self { world, cue: at(cue), object: at(object), others: Vec::new(), pocket }
    }

    /// The object ball on a line of rail numbers and the cue ball where it must come from; returns
    /// the direction of the line too, table frame.
    ///
    /// # Errors
    /// [`NoAim::Geometry`] when rail and pocket make no bank.
    pub fn on_line(world: &'w World, at: &LineSetup) -> Result<(Self, Vec2), NoAim> {
        let geometry = BankGeometry::new(world.equipment(), at.rail, at.pocket)?;
        let run = (at.line.start - at.line.contact) * geometry.diamond_m;
        let share = at.off_rail_m / geometry.span_m;
        let place = Vec2::new(
            at.line.contact * geometry.diamond_m + run * share,
            geometry.span_m - at.off_rail_m,
        );
        let along = Vec2::new(-run, geometry.span_m).unit_or_zero();
        // Further along the rail is −x, to the left of a ball that goes into the rail, unless the
        // line itself runs to +x.
        let sense = if run < 0.0 { -1.0 } else { 1.0 };
        let (sin, cos) = libm::sincos(-sense * at.cut_rad);
        let way = Vec2::new(along.x * cos - along.y * sin, along.x * sin + along.y * cos);
        let contact_m = world.equipment().ball.diameter_m;
        let cue = place - along * contact_m - way * at.cue_distance_m;
        let setup = Self::new(world, geometry.to_table(cue), geometry.to_table(place), at.pocket);
        Ok((setup, geometry.direction_to_table(along)))
    }

    /// Distance of the centres when cue ball and object ball touch, m.
    pub fn contact_m(&self) -> f64 {
        touching_m(&self.cue.ball, &self.object.ball)
    }

    /// The room that the cue of a stroke has at its aim, from an elevation on. Balls are numbered as in
    /// this setup's shots.
    ///
    /// # Errors
    /// [`NoRoom`] when no elevation will do.
    pub fn room(&self, stroke: &Stroke, from_rad: f64) -> Result<Room, NoRoom> {
        let others = core::iter::once(&self.object).chain(&self.others).enumerate();
        let standing = others.map(|(index, it)| StandingBall {
            number: OBJECT + index,
            position: it.state.position,
            radius_m: it.ball.radius_m(),
        });
        let cue = (&self.cue.ball, self.cue.state.position);
        least_elevation(self.world, cue, standing, stroke, from_rad)
    }

    /// The stroke as it is played: with the least elevation, if that is asked for.
    ///
    /// # Errors
    /// [`NoAim::Stroke`] for a stroke that is refused, [`NoAim::Blocked`] for an elevation that is given
    /// and leaves the cue no room, [`NoAim::NoRoom`] when none does.
    pub fn raised(&self, stroke: &Stroke) -> Result<Stroke, NoAim> {
        stroke.strike(&self.cue.ball, &self.world.equipment().cue)?;
        if stroke.least_elevation {
            let elevation_rad = self.room(stroke, 0.0)?.least_rad;
            return Ok(Stroke { elevation_rad, ..*stroke });
        }
        let given_rad = stroke.elevation_rad;
        match self.room(stroke, given_rad)? {
            Room { over: Some(over), least_rad } => {
                Err(NoAim::Blocked { given_rad, least_rad, over })
            }
            _ => Ok(*stroke),
        }
    }

    /// The balls as they are just after the stroke.
    ///
    /// # Errors
    /// As [`Setup::raised`].
    pub fn struck(&self, stroke: &Stroke) -> Result<Vec<ShotBall>, NoAim> {
        let struck = self.raised(stroke)?.strike(&self.cue.ball, &self.world.equipment().cue)?;
        let state = BallState {
            position: self.cue.state.position,
            velocity: struck.velocity,
            spin: struck.spin,
        };
        let mut balls = Vec::with_capacity(2 + self.others.len());
        balls.push(ShotBall { state, ..self.cue });
        balls.push(self.object);
        balls.extend_from_slice(&self.others);
        Ok(balls)
    }

    /// Plays a stroke out.
    ///
    /// # Errors
    /// [`NoAim::Shot`], and as [`Setup::raised`].
    pub fn play(&self, stroke: &Stroke) -> Result<Shot, NoAim> {
        Ok(play(self.world, &self.struck(stroke)?, None)?)
    }

    /// The task of the object ball.
    pub const fn target(&self) -> Target {
        Target { ball: OBJECT, pocket: self.pocket, cue: Some(CUE) }
    }

    /// Plays a stroke out and judges it.
    ///
    /// # Errors
    /// As [`Setup::play`].
    pub fn judge(&self, stroke: &Stroke) -> Result<(Shot, ShotVerdict), NoAim> {
        let shot = self.play(stroke)?;
        let judged = verdict(self.world, &shot, self.target());
        Ok((shot, judged))
    }

    /// The direction from the cue ball to where it must be to touch the object ball on the side that
    /// sends it along `direction`, rad, and that distance, m.
    pub(super) fn ghost(&self, direction: Vec2) -> (f64, f64) {
        let ghost = self.object.state.position - direction * self.contact_m();
        let way = ghost - self.cue.state.position;
        (libm::atan2(way.y, way.x), way.norm())
    }

    /// The state of the cue ball just after a stroke that is only tried: where the cue has no room it is
    /// played all the same, as steeply as can be.
    pub(super) fn cue_after(&self, stroke: &Stroke) -> Result<BallState, NoAim> {
        let stroke = match self.raised(stroke) {
            Err(NoAim::NoRoom(_)) if stroke.least_elevation => {
                Stroke { elevation_rad: Stroke::ELEVATION.high * DEGREE_RAD, ..*stroke }
            }
            Err(error) if error.is_no_room() => *stroke,
            raised => raised?,
        };
        let struck = stroke.strike(&self.cue.ball, &self.world.equipment().cue)?;
        let spin: Vec3 = struck.spin;
        Ok(BallState { position: self.cue.state.position, velocity: struck.velocity, spin })
    }
}
