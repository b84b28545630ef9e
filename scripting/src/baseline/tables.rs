//! The numbers of the tables that a baseline's banks are played on.

use super::parameters::{ParameterAmount, moved, title};
use crate::record::MovedParameter;
use railproof_engine::equipment::{Equipment, EquipmentNumber, Section};

/// A table's name and numbers.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct StoredTable {
    pub(super) name: String,
    /// What is chosen from words, by its name: [`WORDS`].
    pub(super) words: Vec<(&'static str, String)>,
    /// SI.
    pub(super) numbers: Vec<(EquipmentNumber, f64)>,
}

/// What a table has besides numbers.
pub(super) const WORDS: [&str; 2] = ["rail_model", "ball_friction"];

/// Numbers this near to each other, relative, are one: arithmetic in a script may differ in the last bits.
const ONE_NUMBER: f64 = 1e-9;

impl StoredTable {
    pub(super) fn of(equipment: &Equipment, name: String) -> Self {
        let words =
            [equipment.cushion.rail_model.name(), equipment.ball_contact.friction_law.name()];
        Self {
            name,
            words: WORDS.into_iter().zip(words.map(str::to_owned)).collect(),
            numbers: EquipmentNumber::all().map(|one| (one, one.get(equipment))).collect(),
        }
    }

    pub(super) fn number(&self, wanted: EquipmentNumber) -> Option<f64> {
        self.numbers.iter().find(|(one, _)| *one == wanted).map(|(_, value)| *value)
    }

    fn follows_sliding(&self, number: EquipmentNumber) -> bool {
        let sliding = EquipmentNumber::named("sliding_friction").and_then(|one| self.number(one));
        number.without().is_some() && sliding.is_some() && self.number(number) == sliding
    }

    /// Whether all numbers and words that both hold are the same.
    pub(super) fn is_alike(&self, other: &Self) -> bool {
        self.changes(other, "").is_empty()
    }

    /// The changes from this table to another; `on` begins each sentence.
    pub(super) fn changes(&self, now: &Self, on: &str) -> Vec<MovedParameter> {
        let mut found = Vec::new();
        for (name, is) in &now.words {
            let was = self.words.iter().find(|(known, _)| known == name);
            if let Some((_, was)) = was.filter(|(_, was)| was != is) {
                let what = match *name {
                    "rail_model" => "the rail model",
                    _ => "the law of friction between balls",
                };
                found.push(moved(name, &format!("{on}{what}"), was, is));
            }
        }
        for (number, is) in &now.numbers {
            let Some(was) = self.number(*number).filter(|was| !is_one(*was, *is)) else { continue };
            // Said once: it is the sliding friction that moved.
            if self.follows_sliding(*number) && now.follows_sliding(*number) {
                continue;
            }
            let amount = ParameterAmount(number.parameter());
            let (was, is) = amount.both(was, *is);
            found.push(moved(number.name(), &format!("{on}{}", title(*number)), &was, &is));
        }
        found
    }

    /// Whether the rails and pockets stand elsewhere for the ball, so that the edges of verdicts do.
    pub(super) fn edges_stand(&self, now: &Self) -> bool {
        let decides = |number: EquipmentNumber| {
            matches!(number.section(), Section::Table | Section::Ball)
                || number.name() == "nose_height"
        };
        let mut numbers = now.numbers.iter().filter(|(number, _)| decides(*number));
        numbers.all(|(number, is)| self.number(*number).is_some_and(|was| is_one(was, *is)))
    }
}

fn is_one(a: f64, b: f64) -> bool {
    (a - b).abs() <= ONE_NUMBER * a.abs().max(b.abs())
}
