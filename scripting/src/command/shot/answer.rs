//! The shot for other programs.

use super::PlayedShot;
use crate::command::model::{Model, State};
use railproof_engine::shot::{Event, EventKind};
use serde::Serialize;

/// What `--json` prints.
#[derive(Debug, Serialize)]
pub struct ShotAnswer<'a> {
    /// What happened, in order of time.
    pub events: Vec<EventAnswer<'a>>,
    /// Every parameter in use.
    pub model: Model,
}

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
    pub before: State,
    /// Its state as it leaves the event.
    pub after: State,
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
    /// The restitution of what the ball touched.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub restitution: Option<f64>,
    /// The other ball of a meeting.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other: Option<&'a str>,
    /// The other ball's state as it comes to the meeting.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other_before: Option<State>,
    /// The other ball's state as it leaves the meeting.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other_after: Option<State>,
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
    /// What `--json` prints.
    pub fn answer(&self) -> ShotAnswer<'_> {
        ShotAnswer {
            events: self.shot.events.iter().map(|event| self.event(event)).collect(),
            model: Model::new(&self.layout.equipment, self.rail_model())
                .of_shot(self.layout.until_s),
        }
    }

    fn event(&self, event: &Event) -> EventAnswer<'_> {
        let mut answer = EventAnswer {
            time_s: event.time_s,
            kind: event.kind.name(),
            ball: self.name(event.ball),
            before: State::from(&event.before),
            after: State::from(&event.after),
            rail: None,
            pocket: None,
            jaw: None,
            part: None,
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
                answer.other_before = Some(State::from(&touch.other_before));
                answer.other_after = Some(State::from(&touch.other_after));
                answer.approach_m_s = Some(touch.approach_m_s);
                answer.slip_m_s = Some(touch.slip_m_s);
                answer.friction = Some(touch.friction);
            }
            EventKind::Start
            | EventKind::Roll
            | EventKind::Pivot
            | EventKind::Obstacle { .. }
            | EventKind::Leave
            | EventKind::Stop => {}
        }
        answer
    }
}
