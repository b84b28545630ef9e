//! A stepped shot in sentences.

use super::conditions::friction_words;
use super::shot::{cut_short, ending_words};
use super::wording::{ball_words, capital};
use crate::playing::SteppedPlay;
use railproof_engine::shot::Ending;
use railproof_engine::stepped::shot::{ContactWith, SteppedContact};
use railproof_engine::world::Owner;
use std::fmt::Write;

/// The note on the stepped engine beside every answer of it.
const ABOUT: &str = "Stepped in time on a rigid-body solver: a second opinion. Its cushions push at \
                     the height of the ball's centre, whatever the profile's rail model; compare it \
                     with the planar model.";

impl SteppedPlay<'_> {
    /// The shot in sentences, one to a line.
    pub fn sentences(&self) -> String {
        let mut text = String::new();
        if let Some(sentence) = self.target_sentence() {
            let _ = writeln!(text, "{}", capital(&sentence));
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
            let last = ending_words(end, self.layout)
                .map(|last| format!(", and {last}"))
                .unwrap_or_default();
            let name = capital(&ball_words(self.name(ball)));
            let _ = writeln!(text, "{name} {touches}{last}.");
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
                self.touched(contact),
                contact.arrival.velocity.norm(),
                contact.departure.velocity.norm()
            );
        }
        text
    }

    /// Whether the target dropped; `None` without one.
    pub fn target_sentence(&self) -> Option<String> {
        let target = self.layout.target?;
        let (ball, pocket) = (ball_words(self.name(target.ball)), target.pocket.name());
        let end = self.shot.ends.get(target.ball)?;
        Some(match end.ending {
            Ending::Dropped(into) if into == target.pocket => {
                format!("{ball} drops into the {pocket} pocket.")
            }
            Ending::Dropped(into) => format!(
                "{ball} drops into the {} pocket; it was meant for the {pocket} pocket.",
                into.name()
            ),
            _ => cut_short(end, &ball, target.pocket)
                .unwrap_or_else(|| format!("{ball} does not drop into the {pocket} pocket.")),
        })
    }

    /// The thing that was touched: a ball's or an obstacle's name, a rail, or a jaw's pocket.
    pub fn touched(&self, contact: &SteppedContact) -> String {
        match contact.with {
            ContactWith::Ball(other) => self.name(other).to_owned(),
            ContactWith::Surface(Owner::Nose(rail)) => format!("the {} rail", rail.name()),
            ContactWith::Surface(Owner::Jaw { pocket, .. }) => {
                format!("a jaw of the {} pocket", pocket.name())
            }
            ContactWith::Surface(Owner::Obstacle(index)) => {
                self.layout.obstacle_name(index).to_owned()
            }
        }
    }
}
