//! Banks off several rails.

use super::NoAim;
use super::round::zeros_round;
use crate::motion::BallState;
use crate::rail::{Pocket, Rail};
use crate::shot::{EventKind, Shot, ShotBall, play};
use crate::vector::Vec2;
use crate::verdict::{RailNumber, arrival_of, numbers};
use crate::world::World;

/// The rails that a ball is to come off, in order, one to three of them as a rule.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Route {
    /// The rails.
    pub rails: Vec<Rail>,
    /// Where the ball is to go.
    pub pocket: Pocket,
}

/// A way round the rails.
#[derive(Debug, Clone, PartialEq)]
pub struct RouteStart {
    /// The direction in which the ball sets out, from the table's x axis towards its y axis, rad.
    pub direction_rad: f64,
    /// Where it touches each rail, counted from the target pocket.
    pub touches: Vec<RailNumber>,
    /// The shot.
    pub shot: Shot,
}

/// The way in which a ball is sent off in a direction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SendOff {
    /// Speed, m/s.
    pub speed_m_s: f64,
    /// Share of natural roll.
    pub roll: f64,
    /// Side as R·wz/v, against the clock.
    pub side: f64,
}

impl SendOff {
    /// A ball at `place` sent off so.
    pub fn state(&self, place: Vec2, direction_rad: f64, radius_m: f64) -> BallState {
        let (sin, cos) = libm::sincos(direction_rad);
        let velocity = Vec2::new(cos, sin) * self.speed_m_s;
        let mut state = BallState { position: place, velocity, ..BallState::default() };
        state.spin.x = -velocity.y * self.roll / radius_m;
        state.spin.y = velocity.x * self.roll / radius_m;
        state.spin.z = self.side * self.speed_m_s / radius_m;
        state
    }
}

/// Every direction in which a ball at `from`, sent off as `send`, comes off exactly the route's rails
/// and crosses the pocket's mouth line in its middle; the ways are those of a lone ball.
///
/// # Errors
/// [`NoAim`] when the ball can't lie there, or no direction does it.
pub fn route_start(
    world: &World,
    from: Vec2,
    send: SendOff,
    route: &Route,
) -> Result<Vec<RouteStart>, NoAim> {
    let equipment = world.equipment();
    let radius_m = equipment.ball.radius_m();
    let played = |direction_rad: f64| -> Result<Shot, NoAim> {
        let state = send.state(from, direction_rad, radius_m);
        Ok(play(world, &[ShotBall::of(equipment, state)], None)?)
    };
    let miss = |direction_rad: f64| -> Result<Option<f64>, NoAim> {
        Ok(miss_after(world, &played(direction_rad)?, 0, route))
    };
    let mut found = Vec::new();
    for direction_rad in zeros_round(miss)? {
        let shot = played(direction_rad)?;
        let touches = numbers(equipment, &shot, 0, route.pocket);
        found.push(RouteStart { direction_rad, touches, shot });
    }
    if found.is_empty() {
        return Err(NoAim::NoArrival {
            why: "no direction leads off just these rails and through the middle of the mouth",
        });
    }
    Ok(found)
}

/// The miss at the mouth of a ball that comes off exactly the route's rails first; `None` for one
/// that takes another way.
fn miss_after(world: &World, shot: &Shot, ball: usize, route: &Route) -> Option<f64> {
    let mut rails = route.rails.iter();
    let mut last: Option<BallState> = None;
    let mut wanted = rails.next();
    for event in shot.events_of(ball) {
        match event.kind {
            EventKind::Start | EventKind::Leave => last = Some(event.after),
            EventKind::Cushion(touch) => match wanted {
                Some(rail) if *rail == touch.rail => {
                    wanted = rails.next();
                    last = Some(event.after);
                }
                Some(_) => return None,
                None => break,
            },
            EventKind::Roll | EventKind::Pivot | EventKind::Hop | EventKind::Stop => {}
            EventKind::Jaw { .. } if wanted.is_none() => break,
            EventKind::Drop(_) if wanted.is_none() => break,
            _ => return None,
        }
    }
    if wanted.is_some() {
        return None;
    }
    let last_rail = route.rails.last().copied();
    arrival_of(world.equipment(), world.outline(), last?, last_rail, route.pocket)
        .map(|arrival| arrival.miss_m)
}
