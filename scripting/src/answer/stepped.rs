//! A stepped shot for other programs.

use super::model::{ModelAnswer, StateAnswer};
use super::shot::{BallAnswer, EndAnswer, StrokeAnswer, ball_answers, end_answers, stroke_answer};
use crate::playing::SteppedPlay;
use crate::telling::caution::Cautions;
use railproof_engine::stepped::shot::{ContactWith, SteppedContact};
use railproof_engine::world::Owner;
use serde::Serialize;

/// The answer that `--json` prints for a stepped shot.
#[derive(Debug, Serialize)]
pub struct SteppedAnswer<'a> {
    /// The shot in sentences.
    pub sentence: String,
    /// The stroke and the motion off the tip; left out without one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stroke: Option<StrokeAnswer<'a>>,
    /// The balls, in the file's order.
    pub balls: Vec<BallAnswer<'a>>,
    /// The contacts, in the order in which they began.
    pub contacts: Vec<ContactAnswer<'a>>,
    /// The end of each ball, in the file's order.
    pub ends: Vec<EndAnswer<'a>>,
    /// The cautions of the answer.
    pub cautions: Cautions,
    /// Steps that were taken.
    pub steps: usize,
    /// Every parameter in use; the rail model is the profile's, and not used.
    pub model: ModelAnswer,
}

/// A contact that lasted.
#[derive(Debug, Serialize)]
pub struct ContactAnswer<'a> {
    /// The ball's name.
    pub ball: &'a str,
    /// The thing touched: a ball's or an obstacle's name, a rail, or a jaw's pocket.
    pub with: String,
    /// ball, cushion, jaw or obstacle.
    pub kind: &'static str,
    /// When it began, s since the start.
    pub began_s: f64,
    /// When it ended; left out if the shot ended first.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ended_s: Option<f64>,
    /// Fastest approach square to it, m/s.
    pub approach_m_s: f64,
    /// Impulse square to it, N·s.
    pub impulse_n_s: f64,
    /// The greatest depth to which one was pushed into the other, m.
    pub depth_m: f64,
    /// The ball's state as the contact begins.
    pub before: StateAnswer,
    /// Its state as it ends.
    pub after: StateAnswer,
    /// The other ball's state as it begins.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other_before: Option<StateAnswer>,
    /// The other ball's state as it ends.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other_after: Option<StateAnswer>,
}

impl SteppedPlay<'_> {
    /// The answer that `--json` prints.
    pub fn answer(&self) -> SteppedAnswer<'_> {
        let model = self.layout.equipment.cushion.rail_model;
        SteppedAnswer {
            sentence: self.sentences(),
            stroke: stroke_answer(self.layout),
            balls: ball_answers(self.layout),
            contacts: self.shot.contacts.iter().map(|contact| self.contact(contact)).collect(),
            ends: end_answers(self.layout, &self.shot.ends),
            cautions: self.cautions(),
            steps: self.shot.steps,
            model: ModelAnswer::new(&self.layout.equipment, model).of_shot(self.layout.until_s),
        }
    }

    fn contact(&self, contact: &SteppedContact) -> ContactAnswer<'_> {
        ContactAnswer {
            ball: self.name(contact.ball),
            with: self.touched(contact),
            kind: kind(contact.with),
            began_s: contact.began_s,
            ended_s: contact.ended_s,
            approach_m_s: contact.approach_m_s,
            impulse_n_s: contact.impulse_n_s,
            depth_m: contact.depth_m,
            before: StateAnswer::from(&contact.arrival),
            after: StateAnswer::from(&contact.departure),
            other_before: contact.other.map(|[before, _]| StateAnswer::from(&before)),
            other_after: contact.other.map(|[_, after]| StateAnswer::from(&after)),
        }
    }
}

const fn kind(with: ContactWith) -> &'static str {
    match with {
        ContactWith::Ball(_) => "ball",
        ContactWith::Surface(Owner::Nose(_)) => "cushion",
        ContactWith::Surface(Owner::Jaw { .. }) => "jaw",
        ContactWith::Surface(Owner::Obstacle(_)) => "obstacle",
    }
}
