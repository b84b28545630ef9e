//! The first thing in the way of a shot.

use super::BallWay;
use crate::aim::{CUE, OBJECT};
use crate::shot::{EventKind, Shot};

/// A thing that a ball meets before it has done its part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InTheWay {
    /// The cue ball meets another ball (its place in the setup's shots) before the object ball.
    CueMeetsBall(usize),
    /// The cue ball meets an obstacle, a rail or a jaw before the object ball, or stops.
    CueMeetsOther,
    /// The object ball meets another ball on its way.
    ObjectMeetsBall(usize),
    /// The object ball meets an obstacle on its way.
    ObjectMeetsObstacle,
    /// The two meet again.
    Kiss,
}

/// What first stands in the way of a shot; `None` where nothing does.
pub fn in_the_way(shot: &Shot, way: BallWay) -> Option<InTheWay> {
    let mut met = false;
    let mut rails = 0_usize;
    for event in &shot.events {
        let pair = match event.kind {
            EventKind::Ball(touch) => Some([event.ball, touch.other]),
            _ => None,
        };
        if !met {
            match (event.kind, pair) {
                (_, Some(pair)) if pair.contains(&CUE) && pair.contains(&OBJECT) => met = true,
                (_, Some(pair)) if pair.contains(&CUE) => {
                    return Some(InTheWay::CueMeetsBall(pair[0].max(pair[1])));
                }
                (
                    EventKind::Cushion(_)
                    | EventKind::Jaw { .. }
                    | EventKind::Obstacle { .. }
                    | EventKind::Drop(_)
                    | EventKind::Stop,
                    None,
                ) if event.ball == CUE => return Some(InTheWay::CueMeetsOther),
                _ => {}
            }
            continue;
        }
        match (event.kind, pair) {
            (_, Some(pair)) if pair.contains(&OBJECT) => {
                if pair.contains(&CUE) {
                    // The first touch may come as several.
                    if rails > 0 {
                        return Some(InTheWay::Kiss);
                    }
                } else {
                    return Some(InTheWay::ObjectMeetsBall(pair[0].max(pair[1])));
                }
            }
            (EventKind::Obstacle { .. }, None) if event.ball == OBJECT => {
                return Some(InTheWay::ObjectMeetsObstacle);
            }
            (EventKind::Cushion(_), None) if event.ball == OBJECT => {
                rails += 1;
                // Past its rails the ball has missed for another reason.
                if rails > way.rails().count() {
                    return None;
                }
            }
            (EventKind::Drop(_), None) if event.ball == OBJECT => return None,
            _ => {}
        }
    }
    None
}
