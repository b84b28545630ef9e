//! The start numbers of one contact, speed by speed and distance by distance: what is written down for a lesson.

use super::BankQuestion;
use super::chance::BankChance;
use crate::fault::Fault;
use crate::player::PlayerProfile;
use railproof_engine::bank::{Launch, exact_start, holding_starts, speed_on};
use railproof_engine::chance::Chance;
use railproof_engine::rail::Line;
use railproof_engine::units::{INCH_M, Speed, SpeedWord};

/// Distances off the rail beside the one that was asked for, inches and centimetres.
const INCHES: [f64; 4] = [0.0, 5.0, 10.0, 20.0];
const CENTIMETRES: [f64; 4] = [0.0, 10.0, 25.0, 50.0];
/// Two that differ by less are one, as a share of a speed and in metres.
const SAME: f64 = 1e-9;

/// Start numbers by speed and distance off the rail.
#[derive(Debug, Clone, PartialEq)]
pub struct StartTable {
    /// The speeds, m/s, least first, each with its word where it has one.
    pub speeds: Vec<(f64, Option<SpeedWord>)>,
    /// The distances off the rail, m, least first.
    pub off_rails_m: Vec<f64>,
    /// The starts, a row for each distance; `None` where none goes through the middle of the mouth and holds, or
    /// whoever plays it never makes it.
    pub starts: Vec<Vec<Option<TabledStart>>>,
}

/// A start number through the middle of the mouth, or the one from which the player makes it most often.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TabledStart {
    /// The line, groove reading.
    pub line: Line,
    /// The model is less sure of it.
    pub flagged: bool,
    /// How often the player makes it from there.
    pub made: Option<Chance>,
    /// The speed and the distance are those that were asked for.
    pub asked: bool,
}

impl StartTable {
    /// The player whose starts stand in it. Over many tables they would take half a minute.
    pub fn player(question: &BankQuestion) -> Option<&PlayerProfile> {
        question.player.as_ref().filter(|_| question.known.is_none())
    }

    /// Of the contact that was asked for, sent as it was, at the speeds that have a word and at its own; for the
    /// question's player, if it has one.
    ///
    /// # Errors
    /// As [`BankChance::of`].
    pub fn of(question: &BankQuestion, in_inches: bool) -> Result<Self, Fault> {
        let BankQuestion { bank, line, launch, .. } = question;
        let mut speeds: Vec<(f64, Option<SpeedWord>)> = SpeedWord::ALL
            .into_iter()
            .map(|word| (speed_on(Speed::Word(word), bank.equipment()), Some(word)))
            .collect();
        let near = |a: f64, b: f64| (a - b).abs() <= SAME * a.abs().max(1.0);
        if speeds.iter().all(|(speed_m_s, _)| !near(*speed_m_s, launch.speed_m_s)) {
            speeds.push((launch.speed_m_s, None));
        }
        speeds.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut off_rails_m: Vec<f64> = if in_inches {
            INCHES.map(|inches| inches * INCH_M).to_vec()
        } else {
            CENTIMETRES.map(|centimetres| centimetres / 100.0).to_vec()
        };
        if off_rails_m.iter().all(|off_rail_m| !near(*off_rail_m, launch.off_rail_m)) {
            off_rails_m.push(launch.off_rail_m);
        }
        off_rails_m.sort_by(f64::total_cmp);
        let start = |off_rail_m: f64, (speed_m_s, word): (f64, Option<SpeedWord>)| {
            let sent = Launch { off_rail_m, speed_m_s, ..*launch };
            let exact = exact_start(bank, line.contact, sent).ok();
            let exact = exact.filter(|it| holding_starts(bank, line.contact, sent, *it).is_some());
            let Some(exact) = exact else { return Ok(None) };
            let (start, made) = match Self::player(question) {
                Some(player) => match best(question, player, sent, word)? {
                    Some((start, made)) => (start, Some(made)),
                    None => return Ok(None),
                },
                None => (exact, None),
            };
            let line = Line { start, ..*line };
            Ok(Some(TabledStart {
                line,
                flagged: bank.play(line, sent).is_ok_and(|outcome| outcome.flagged()),
                made,
                asked: near(off_rail_m, launch.off_rail_m) && near(speed_m_s, launch.speed_m_s),
            }))
        };
        let row = |off_rail_m: &f64| speeds.iter().map(|it| start(*off_rail_m, *it)).collect();
        let starts = off_rails_m.iter().map(row).collect::<Result<_, Fault>>()?;
        Ok(Self { speeds, off_rails_m, starts })
    }

    /// Puts the start that a page teaches into the place that was asked for, and how often the player makes it.
    pub fn teach(&mut self, start: f64, made: Option<Chance>) {
        for asked in self.starts.iter_mut().flatten().flatten().filter(|it| it.asked) {
            asked.line.start = start;
            asked.made = asked.made.and(made).or(asked.made);
        }
    }
}

/// The start from which this player makes the contact most often, sent so.
fn best(
    question: &BankQuestion,
    player: &PlayerProfile,
    launch: Launch,
    word: Option<SpeedWord>,
) -> Result<Option<(f64, Chance)>, Fault> {
    let asked = BankQuestion {
        launch,
        // A word is another speed on every table.
        speed_text: word.map_or_else(String::new, |word| word.name().to_owned()),
        ..question.clone()
    };
    BankChance::best_of(&asked, player)
}
