//! From launch to the mouth.

use super::arrival::{after_rebound, short_of_rail, way_to_corner};
use super::departure::CushionStretch;
use super::{AtRail, Bank, BankEnding, Launch, LaunchError, Outcome, RailRebound};
#[cfg(feature = "world")]
use crate::equipment::RailModel;
use crate::impact::{Bounce, Rebound, bounce};
use crate::motion::{BallState, Path};
use crate::rail::Line;
use crate::vector::{Vec2, Vec3};

impl Bank {
    /// Plays the ball along `line` (groove reading).
    ///
    /// # Errors
    /// [`LaunchError`] for a launch outside its ranges.
    pub fn play(&self, line: Line, launch: Launch) -> Result<Outcome, LaunchError> {
        Ok(self.play_validated(line, launch.validated(self.geometry.span_m)?))
    }

    /// Whether a bank along `line` is played as its mirror image.
    pub(crate) fn mirrors(&self, line: Line) -> bool {
        line.contact < 0.0 && self.geometry.pocket.is_side() && !self.geometry.rail.is_end()
    }

    /// As [`Bank::play`], for a launch that has been validated.
    ///
    /// A side pocket across a long rail is played from its other side as the mirror image.
    pub(crate) fn play_validated(&self, line: Line, launch: Launch) -> Outcome {
        self.by_mirror(line, |line| self.play_from_high_side(line, launch))
    }

    /// The outcome along `line` of what is played from a side pocket's other side only.
    pub(crate) fn by_mirror(&self, line: Line, played: impl FnOnce(Line) -> Outcome) -> Outcome {
        if self.mirrors(line) {
            let mirrored = Line::new(-line.contact, -line.start);
            return played(mirrored).mirrored(self.geometry.diamond_m);
        }
        played(line)
    }

    fn play_from_high_side(&self, line: Line, launch: Launch) -> Outcome {
        let geometry = &self.geometry;
        let target = geometry.mouth.midpoint;
        let ball = self.launched(line, launch);
        let none = |ending| Outcome::before_rail(ball, target, ending);
        let on_cloth = |x: f64| x >= geometry.low_groove_m && x <= geometry.high_groove_m;
        if !ball.is_finite() || !on_cloth(ball.position.x) {
            return none(BankEnding::NoRoom);
        }
        #[cfg(feature = "world")]
        if self.model == RailModel::Compliant {
            return super::compliant::play(self, ball);
        }
        // A frozen ball is at the rail already, unless its aim error turns it away. So is one whose
        // distance is lost in rounding.
        let (time_s, mut before) = if ball.position.y >= geometry.span_m && ball.velocity.y > 0.0 {
            (0.0, ball)
        } else {
            let path = Path::new(ball, self.cloth);
            match path.first_crossing(Vec2::new(0.0, 1.0), geometry.span_m, 0.0) {
                Some(time_s) => {
                    let state = path.state_at(time_s);
                    if !on_cloth(state.position.x)
                        && let Some(ending) = way_to_corner(geometry, &path, time_s)
                    {
                        return none(ending);
                    }
                    (time_s, state)
                }
                None => return none(short_of_rail(geometry, &path)),
            }
        };
        before.position.y = geometry.span_m;
        let at_rail =
            AtRail { time_s, state: before, contact: before.position.x / geometry.diamond_m };
        let incoming = Bounce { velocity: before.velocity, spin: before.spin };
        self.off_the_rail(ball, at_rail, || bounce(self.model, &self.contact, incoming))
    }

    /// The rest of a bank that has come to the rail. It is bounced only where there is cushion.
    pub(crate) fn off_the_rail(
        &self,
        ball: BallState,
        at_rail: AtRail,
        bounced: impl FnOnce() -> Rebound,
    ) -> Outcome {
        let geometry = &self.geometry;
        let target = geometry.mouth.midpoint;
        let none = |ending| Outcome::before_rail(ball, target, ending);
        let before = &at_rail.state;
        let cushion = match CushionStretch::around(geometry, before.position) {
            Ok(cushion) => cushion,
            Err(ending) => return none(ending),
        };
        let rebound = bounced();
        let held_s = self.equipment.cushion.contact_time_s;
        let along_m_s = (before.velocity.x, rebound.velocity.x);
        let position = match cushion.departure(geometry, before.position, along_m_s, held_s) {
            Ok(position) => position,
            Err(ending) => return Outcome { at_rail: Some(at_rail), ..none(ending) },
        };
        let state = BallState { position, velocity: rebound.velocity, spin: rebound.spin };
        let path = Path::new(state, self.cloth);
        let (ending, mut arrival) = after_rebound(geometry, &path);
        if let Some(arrival) = &mut arrival {
            arrival.time_s += held_s;
        }
        Outcome {
            launch: ball,
            at_rail: Some(at_rail),
            rebound: Some(RailRebound {
                state,
                held_s,
                departure: position.x / geometry.diamond_m,
                restitution: rebound.restitution,
                outside_checked_speed: rebound.outside_checked_speed,
                hop: rebound.hop,
                rolls_after_s: path.rolls_from_s(),
                rolling_velocity: path.roll().velocity,
            }),
            arrival,
            ending,
            target,
        }
    }

    /// The ball on its line, `off_rail_m` off the rail, turned by the aim error about its place.
    pub(crate) fn launched(&self, line: Line, launch: Launch) -> BallState {
        let geometry = &self.geometry;
        let run = (line.start - line.contact) * geometry.diamond_m;
        let share = launch.off_rail_m / geometry.span_m;
        let place = Vec2::new(
            line.contact * geometry.diamond_m + run * share,
            geometry.span_m - launch.off_rail_m,
        );
        let mut direction = Vec2::new(-run, geometry.span_m).unit_or_zero();
        // Along the rail towards the pocket is −x, unless the line itself runs to +x.
        let sense = if run < 0.0 { 1.0 } else { -1.0 };
        if launch.aim_error_rad != 0.0 {
            let (sin, cos) = libm::sincos(-sense * launch.aim_error_rad);
            direction = Vec2::new(
                direction.x * cos - direction.y * sin,
                direction.x * sin + direction.y * cos,
            );
        }
        let velocity = direction * launch.speed_m_s;
        let per_radius = 1.0 / self.cloth.radius_m;
        BallState {
            position: place,
            velocity,
            spin: Vec3::new(
                -velocity.y * launch.roll * per_radius,
                velocity.x * launch.roll * per_radius,
                sense * launch.side * launch.speed_m_s * per_radius,
            ),
        }
    }
}
