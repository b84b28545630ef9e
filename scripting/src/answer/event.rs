//! An event for other programs.

use super::model::StateAnswer;
use crate::playing::PlayedShot;
use railproof_engine::motion::{BallState, ClothMotion, Path, Phase};
use railproof_engine::shot::{Event, EventKind};
use serde::Serialize;

/// An event; table frame. A field that an event of this kind does not have is left out.
#[derive(Debug, Serialize)]
pub struct EventAnswer<'a> {
    /// Time since the start, s.
    pub time_s: f64,
    /// start, roll, pivot, cushion, jaw, obstacle, leave, ball, drop or stop.
    pub kind: &'static str,
    /// The ball's name.
    pub ball: &'a str,
    /// Its state as it comes to the event.
    pub before: StateAnswer,
    /// Its state as it leaves the event.
    pub after: StateAnswer,
    /// The ball's motion from here on: slides, rolls, pivots, rests, is held, or has left the table.
    pub phase: &'static str,
    /// The rail of a cushion event.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rail: Option<&'static str>,
    /// The pocket of a jaw or a drop.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pocket: Option<&'static str>,
    /// Which of the pocket's two jaws: first or second.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub jaw: Option<&'static str>,
    /// Which part of the jaw: point or facing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub part: Option<&'static str>,
    /// The name of the obstacle.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub obstacle: Option<&'a str>,
    /// The ball met the surface faster than the model is checked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub outside_checked_speed: Option<bool>,
    /// A real ball would have hopped.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hop: Option<bool>,
    /// The stroke would make a real ball jump; of the struck ball's start.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub jumps: Option<bool>,
    /// The restitution of the thing that the ball touched.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub restitution: Option<f64>,
    /// The other ball of a meeting.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other: Option<&'a str>,
    /// The other ball's state as it comes to the meeting.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other_before: Option<StateAnswer>,
    /// The other ball's state as it leaves the meeting.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other_after: Option<StateAnswer>,
    /// Speed of approach of two balls along the line of their centres, m/s.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub approach_m_s: Option<f64>,
    /// Slip between two balls where they touch, m/s.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub slip_m_s: Option<f64>,
    /// The friction that acted between two balls.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub friction: Option<f64>,
}

impl PlayedShot<'_> {
    pub(super) fn event_answers(&self) -> Vec<EventAnswer<'_>> {
        self.shot.events.iter().map(|event| self.event(event)).collect()
    }

    /// Whether the stroke of which this event is the start makes the ball jump.
    fn stroke_jumps(&self, event: &Event) -> Option<bool> {
        let starts = matches!(event.kind, EventKind::Start)
            && self.layout.stroke.is_some_and(|stroke| stroke.ball == event.ball);
        starts.then(|| self.layout.jumps())
    }

    fn event(&self, event: &Event) -> EventAnswer<'_> {
        let mut answer = EventAnswer {
            time_s: event.time_s,
            kind: event.kind.name(),
            ball: self.name(event.ball),
            before: StateAnswer::from(&event.before),
            after: StateAnswer::from(&event.after),
            phase: self.phase_after(event),
            rail: None,
            pocket: None,
            jaw: None,
            part: None,
            obstacle: None,
            outside_checked_speed: event.kind.touch().map(|touch| touch.outside_checked_speed),
            hop: event.kind.touch().map(|touch| touch.hop),
            jumps: self.stroke_jumps(event),
            restitution: event.kind.touch().map(|touch| touch.restitution),
            other: None,
            other_before: None,
            other_after: None,
            approach_m_s: None,
            slip_m_s: None,
            friction: None,
        };
        match event.kind {
            EventKind::Cushion(touch) => answer.rail = Some(touch.rail.name()),
            EventKind::Jaw { pocket, side, part, .. } => {
                answer.pocket = Some(pocket.name());
                answer.jaw = Some(side.name());
                answer.part = Some(part.name());
            }
            EventKind::Drop(pocket) => answer.pocket = Some(pocket.name()),
            EventKind::Ball(touch) => {
                answer.other = Some(self.name(touch.other));
                answer.other_before = Some(StateAnswer::from(&touch.other_before));
                answer.other_after = Some(StateAnswer::from(&touch.other_after));
                answer.approach_m_s = Some(touch.approach_m_s);
                answer.slip_m_s = Some(touch.slip_m_s);
                answer.friction = Some(touch.friction);
            }
            EventKind::Obstacle { index, .. } => {
                answer.obstacle = self.layout.obstacles.get(index).map(|it| it.name.as_str());
            }
            EventKind::Start
            | EventKind::Roll
            | EventKind::Pivot
            | EventKind::Hop
            | EventKind::Leave
            | EventKind::Stop => {}
        }
        answer
    }

    fn phase_after(&self, event: &Event) -> &'static str {
        match event.kind {
            EventKind::Drop(_) => "off-table",
            EventKind::Stop => "rests",
            EventKind::Pivot => "pivots",
            EventKind::Roll => "rolls",
            EventKind::Jaw { .. } if self.layout.equipment.table.jaws.contact_time_s > 0.0 => {
                "held"
            }
            EventKind::Cushion(_) | EventKind::Hop if self.holds() => "held",
            _ => self.phase_of(event.ball, &event.after),
        }
    }

    /// A contact with a nose lasts.
    fn holds(&self) -> bool {
        self.layout.equipment.cushion.contact_time_s > 0.0
    }

    fn phase_of(&self, ball: usize, state: &BallState) -> &'static str {
        let mut cloth = ClothMotion::new(&self.layout.equipment);
        if let Some(ball) = self.layout.balls.get(ball) {
            cloth.radius_m = ball.ball.radius_m();
        }
        match Path::new(*state, cloth).phase_at(0.0) {
            Phase::Slide => "slides",
            Phase::Roll => "rolls",
            Phase::Pivot => "pivots",
            Phase::Rest => "rests",
        }
    }
}
