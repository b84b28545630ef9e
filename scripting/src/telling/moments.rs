//! The shot for people, moment by moment.

use crate::playing::PlayedShot;
use railproof_engine::shot::{End, Ending, Event, EventKind};
use railproof_engine::vector::Vec2;
use std::fmt::Write;

impl PlayedShot<'_> {
    /// Every event of every ball, one to a line.
    pub fn moments(&self) -> String {
        let mut text = String::new();
        for event in &self.shot.events {
            if let Some(happens) = self.happens(event) {
                // Writing to a string does not fail.
                let _ =
                    writeln!(text, "{:8.3} s  {} {happens}", event.time_s, self.name(event.ball));
            }
        }
        for (ball, end) in self.shot.ends.iter().enumerate() {
            if let Some(last) = last(end) {
                let _ = writeln!(text, "{:8.3} s  {} {last}", end.time_s, self.name(ball));
            }
        }
        text
    }

    /// The event, after the ball's name; `None` for events that people need not be told.
    fn happens(&self, event: &Event) -> Option<String> {
        let (before, after) = (&event.before, &event.after);
        let here = place(after.position);
        let bounced = |from: &str| {
            format!(
                "meets {from} at {here} at {:.3} m/s and comes off at {:.3} m/s",
                before.velocity.norm(),
                after.velocity.norm()
            )
        };
        Some(match event.kind {
            EventKind::Start if after.velocity == Vec2::ZERO => format!("lies at {here}"),
            EventKind::Start => {
                format!("starts at {here} at {:.3} m/s", after.velocity.norm())
            }
            EventKind::Roll => {
                format!("rolls from {here} on, at {:.3} m/s", after.velocity.norm())
            }
            EventKind::Pivot => format!("comes to rest at {here} and goes on spinning"),
            EventKind::Cushion(touch) => bounced(&format!("the {} rail", touch.rail.name())),
            EventKind::Jaw { pocket, .. } => {
                bounced(&format!("a jaw of the {} pocket", pocket.name()))
            }
            EventKind::Obstacle { index, .. } => {
                bounced(self.layout.obstacles.get(index).map_or("", |it| it.name.as_str()))
            }
            EventKind::Hop => {
                "would have hopped off the cloth; it is played on as if it had not".to_owned()
            }
            EventKind::Leave => return None,
            EventKind::Ball(touch) => format!(
                "meets {} at {here}: {:.3} m/s before and {:.3} m/s after, {} {:.3} m/s after",
                self.name(touch.other),
                before.velocity.norm(),
                after.velocity.norm(),
                self.name(touch.other),
                touch.other_after.velocity.norm()
            ),
            EventKind::Drop(pocket) => format!(
                "drops into the {} pocket at {:.3} m/s",
                pocket.name(),
                before.velocity.norm()
            ),
            EventKind::Stop => format!("stops at {here}"),
        })
    }
}

/// The end of a ball that neither stopped nor dropped, after its name.
fn last(end: &End) -> Option<String> {
    match end.ending {
        Ending::AtRest | Ending::Dropped(_) | Ending::GivenUp => None,
        Ending::TimeOver => Some(format!(
            "is at {} when the time is over, still moving at {:.3} m/s",
            place(end.state.position),
            end.state.velocity.norm()
        )),
        Ending::Unending if end.state.velocity == Vec2::ZERO => {
            Some(format!("spins on for ever at {}", place(end.state.position)))
        }
        Ending::Unending => Some("never stops: nothing slows it any more".to_owned()),
    }
}

fn place(position: Vec2) -> String {
    format!("({:.3} m, {:.3} m)", position.x, position.y)
}
