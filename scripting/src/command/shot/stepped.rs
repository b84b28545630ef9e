//! A layout played by the stepped engine: contacts that last instead of events.

use super::answer::{AimAnswer, BallAnswer, EndAnswer, ball_answers, end_answers, stroke_answer};
use super::told::{friction_words, last};
use crate::caution::Cautions;
use crate::command::model::{Model, State};
use crate::fault::Fault;
use crate::layout::Layout;
use railproof_engine::shot::Ending;
use railproof_engine::stepped::{
    ContactWith, SteppedContact, SteppedError, SteppedSettings, SteppedShot, play,
};
use railproof_engine::world::{Owner, World};
use serde::Serialize;
use std::fmt::Write;

/// What the stepped engine is, beside every answer of it.
const ABOUT: &str = "Stepped in time on a rigid-body solver: a second opinion. Its cushions push at \
                     the height of the ball's centre, whatever the profile's rail model; compare it \
                     with the planar model.";

/// A stepped shot and what it was played with.
#[derive(Debug)]
pub struct SteppedPlay<'a> {
    pub(super) layout: &'a Layout,
    pub(super) world: World,
    /// What happened.
    pub shot: SteppedShot,
}

/// What `--json` prints for a stepped shot.
#[derive(Debug, Serialize)]
pub struct SteppedAnswer<'a> {
    /// The shot in sentences.
    pub told: String,
    /// The stroke and what left the tip; left out without one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stroke: Option<AimAnswer<'a>>,
    /// The balls, in the file's order.
    pub balls: Vec<BallAnswer<'a>>,
    /// The contacts, in the order in which they began.
    pub contacts: Vec<ContactAnswer<'a>>,
    /// How each ball ended, in the file's order.
    pub ends: Vec<EndAnswer<'a>>,
    /// What to be careful of.
    pub cautions: Cautions,
    /// Steps that were taken.
    pub steps: usize,
    /// Every parameter in use; the rail model is the profile's, and not used.
    pub model: Model,
}

/// A contact that lasted.
#[derive(Debug, Serialize)]
pub struct ContactAnswer<'a> {
    /// The ball's name.
    pub ball: &'a str,
    /// What it touched: a ball's or an obstacle's name, a rail, or a jaw's pocket.
    pub with: String,
    /// ball, nose, jaw or obstacle.
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
    /// How far one was pushed into the other at most, m.
    pub depth_m: f64,
    /// The ball's state as the contact begins.
    pub before: State,
    /// Its state as it ends.
    pub after: State,
    /// The other ball's state as it begins.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other_before: Option<State>,
    /// The other ball's state as it ends.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other_after: Option<State>,
}

impl<'a> SteppedPlay<'a> {
    /// Plays a layout.
    ///
    /// # Errors
    /// A table that can't be, or a start or a contact time that the engine refuses.
    pub fn new(layout: &'a Layout) -> Result<Self, Fault> {
        let world = World::new(&layout.equipment, &layout.obstacles)
            .map_err(|error| Fault::bad_input(format!("there is no such table: {error}")))?;
        let settings = SteppedSettings::default();
        let shot =
            play(&world, &layout.shot_balls(), layout.until_s, &settings).map_err(|error| {
                let fault = Fault::bad_input(format!("the shot can't be stepped: {error}"));
                match error {
                    SteppedError::ContactTime { .. } => fault.with_hint(
                        "give the cushion a longer `contact_time`, the table a longer \
                         `jaw_contact_time`, or take `engine: event`",
                    ),
                    _ => fault,
                }
            })?;
        Ok(Self { layout, world, shot })
    }

    /// The shot in sentences, one to a line.
    pub fn told(&self) -> String {
        let mut text = String::new();
        if let Some(sentence) = self.target_sentence() {
            let _ = writeln!(text, "{sentence}");
        }
        for (ball, end) in self.shot.ends.iter().enumerate() {
            let contacts = self.shot.contacts.iter().filter(|it| it.is_of(ball)).count();
            let start = self.layout.balls[ball].state;
            if contacts == 0 && start.velocity.norm() == 0.0 && start.spin.norm() == 0.0 {
                continue;
            }
            let touches = match contacts {
                0 => "touches nothing".to_owned(),
                1 => "is in contact once".to_owned(),
                _ => format!("is in contact {contacts} times"),
            };
            let last = last(end).map(|last| format!(", and {last}")).unwrap_or_default();
            let _ = writeln!(text, "{} {touches}{last}.", self.name(ball));
        }
        if self.shot.gave_up() {
            let _ =
                writeln!(text, "Given up: nothing after {:.3} s is known.", self.shot.duration_s());
        }
        if let Some(sentence) = self.layout.elevation_sentence() {
            let _ = writeln!(text, "{sentence}");
        }
        let friction = friction_words(self.rub(), &self.layout.equipment);
        let _ = writeln!(text, "Played on {}{friction}. {ABOUT}", self.layout.equipment.name);
        for caution in self.cautions().lines() {
            let _ = writeln!(text, "{caution}");
        }
        text
    }

    /// True when two balls met, so that the law of their friction may matter.
    pub fn rub(&self) -> bool {
        self.shot.contacts.iter().any(|contact| contact.other.is_some())
    }

    /// Every contact, one to a line.
    pub fn moments(&self) -> String {
        let mut text = String::new();
        for contact in &self.shot.contacts {
            let lasts = contact.duration_s().map_or_else(
                || "to the end".to_owned(),
                |duration_s| format!("for {:.2} ms", 1e3 * duration_s),
            );
            let _ = writeln!(
                text,
                "{:8.3} s  {} touches {} {lasts}: {:.3} m/s before and {:.3} m/s after",
                contact.began_s,
                self.name(contact.ball),
                self.with(contact).1,
                contact.arrival.velocity.norm(),
                contact.departure.velocity.norm()
            );
        }
        text
    }

    /// What `--json` prints.
    pub fn answer(&self) -> SteppedAnswer<'_> {
        let model = self.layout.equipment.cushion.model;
        SteppedAnswer {
            told: self.told(),
            stroke: stroke_answer(self.layout),
            balls: ball_answers(self.layout),
            contacts: self.shot.contacts.iter().map(|contact| self.contact(contact)).collect(),
            ends: end_answers(self.layout, &self.shot.ends),
            cautions: self.cautions(),
            steps: self.shot.steps,
            model: Model::new(&self.layout.equipment, model).of_shot(self.layout.until_s),
        }
    }

    /// Whether the target dropped; `None` without one.
    pub(super) fn target_sentence(&self) -> Option<String> {
        let target = self.layout.target?;
        let (ball, pocket) = (self.name(target.ball), target.pocket.name());
        Some(match self.shot.ends.get(target.ball)?.ending {
            Ending::Pocketed(into) if into == target.pocket => {
                format!("{ball} drops into the {pocket} pocket.")
            }
            Ending::Pocketed(into) => format!(
                "{ball} drops into the {} pocket; it was meant for the {pocket} pocket.",
                into.name()
            ),
            _ => format!("{ball} does not drop into the {pocket} pocket."),
        })
    }

    pub(super) fn cautions(&self) -> Cautions {
        Cautions::of_layout(self.layout)
    }

    fn name(&self, ball: usize) -> &str {
        self.layout.balls.get(ball).map_or("", |it| it.name.as_str())
    }

    /// The kind of what was touched, and its name.
    fn with(&self, contact: &SteppedContact) -> (&'static str, String) {
        match contact.with {
            ContactWith::Ball(other) => ("ball", self.name(other).to_owned()),
            ContactWith::Surface(Owner::Nose(rail)) => {
                ("nose", format!("the {} rail", rail.name()))
            }
            ContactWith::Surface(Owner::Jaw { pocket, .. }) => {
                ("jaw", format!("a jaw of the {} pocket", pocket.name()))
            }
            ContactWith::Surface(Owner::Obstacle(index)) => {
                let obstacle = self.layout.obstacles.get(index);
                ("obstacle", obstacle.map_or_else(String::new, |it| it.name.clone()))
            }
        }
    }

    fn contact(&self, contact: &SteppedContact) -> ContactAnswer<'_> {
        let (kind, with) = self.with(contact);
        ContactAnswer {
            ball: self.name(contact.ball),
            with,
            kind,
            began_s: contact.began_s,
            ended_s: contact.ended_s,
            approach_m_s: contact.approach_m_s,
            impulse_n_s: contact.impulse_n_s,
            depth_m: contact.depth_m,
            before: State::from(&contact.arrival),
            after: State::from(&contact.departure),
            other_before: contact.other.map(|[before, _]| State::from(&before)),
            other_after: contact.other.map(|[_, after]| State::from(&after)),
        }
    }
}
