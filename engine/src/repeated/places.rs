//! Where the shots of one line come to on one table, and how likely they are under a variance.

use super::RepeatedLine;
use crate::bank::{Bank, Launch};
use crate::chance::Skill;
use crate::column::Landing;
use crate::ensemble::Member;
use crate::evidence::{Scatter, Seen};
use crate::normal::{density, share_between};
use crate::rail::Line;

/// The places of a line's shots on one table.
#[derive(Debug, Clone)]
pub struct LinePlaces {
    /// The way that a place moves for a deviation of aim (rad), speed (share) and side (R·wz/v), m.
    pub levers_m: [f64; 3],
    /// The variance from roll and from placing ball and line with a tape, m².
    pub known_m2: f64,
    /// Where the table has them come to, m.
    pub expected_m: f64,
    holds_m: (f64, f64),
    mouth_m: (f64, f64),
}

/// How far the mean of a line's shots may lie from where a table has it: chosen, half a diamond or so, m.
const MEAN_SD_M: f64 = 0.15;
/// Means that are tried, to so many deviations either way.
const MEANS: u16 = 300;
const MEANS_REACH: f64 = 3.0;
/// Nobody sends a ball more exactly, m.
const LEAST_SD_M: f64 = 1e-4;
/// A spread of nothing is moved by so much to find its lever.
const LEAST_STEPS: [f64; 3] = [1e-3, 0.02, 0.01];

impl LinePlaces {
    /// Of a line on a member's table, sent by its player; `None` where some shots rest before they come to a rail.
    pub(super) fn of(
        bank: &Bank,
        member: &Member,
        line: &RepeatedLine,
        like: &Skill,
    ) -> Option<Self> {
        let set_up = line.set_up.sent_by(member, bank.geometry());
        let scatter = Scatter::CAREFUL;
        let geometry = bank.geometry();
        let landing = |line: Line, launch: Launch| {
            let outcome = bank.play(line, launch).ok()?;
            Some(Landing::of(geometry, &outcome)).filter(Landing::is_told)
        };
        let launch = set_up.launch(bank.equipment());
        let meant = landing(set_up.line, launch)?;
        let lever = |step: f64, moved: &dyn Fn(f64) -> (Line, Launch)| {
            let place = |sign: f64| {
                let (line, launch) = moved(sign * step);
                landing(line, launch).map(|it| it.along_m)
            };
            Some((place(1.0)? - place(-1.0)?) / (2.0 * step))
        };
        let steps = [like.aim_rad, like.speed, like.side];
        let step = |at: usize| f64::max(steps[at], LEAST_STEPS[at]);
        let levers_m = [
            lever(step(0), &|by| {
                let aim_error_rad = launch.aim_error_rad + by;
                (set_up.line, Launch { aim_error_rad, ..launch })
            })?,
            lever(step(1), &|by| {
                (set_up.line, Launch { speed_m_s: launch.speed_m_s * (1.0 + by), ..launch })
            })?,
            lever(step(2), &|by| (set_up.line, Launch { side: launch.side + by, ..launch }))?,
        ];
        let placed = 1.0 / geometry.diamond_m;
        let Line { contact, start } = set_up.line;
        let known = [
            scatter.roll
                * lever(scatter.roll, &|by| {
                    (set_up.line, Launch { roll: launch.roll + by, ..launch })
                })?,
            scatter.contact_m
                * lever(scatter.contact_m, &|by| {
                    (Line::new(contact + by * placed, start), launch)
                })?,
            scatter.start_m
                * lever(scatter.start_m, &|by| (Line::new(contact, start + by * placed), launch))?,
        ];
        Some(Self {
            levers_m,
            known_m2: known.iter().map(|moved| moved * moved).sum(),
            expected_m: meant.along_m,
            holds_m: meant.holds_m,
            mouth_m: meant.mouth_m,
        })
    }

    /// The variance of the places for these spreads, m².
    pub fn variance_m2(&self, spreads: [f64; 3]) -> f64 {
        let moved = self.levers_m.iter().zip(spreads).map(|(lever, spread)| lever * spread);
        self.known_m2 + moved.map(|moved| moved * moved).sum::<f64>()
    }

    /// The logarithm of the likelihood of what was seen under a standard deviation of the places, over every mean.
    pub(super) fn log_likelihood(&self, line: &RepeatedLine, sd_m: f64) -> f64 {
        let sd_m = sd_m.max(LEAST_SD_M);
        let logs: Vec<f64> = (0..=MEANS)
            .map(|at| {
                let away = MEANS_REACH * (2.0 * f64::from(at) / f64::from(MEANS) - 1.0);
                let mean_m = self.expected_m + MEAN_SD_M * away;
                let of_shots: f64 = line
                    .seen
                    .iter()
                    .map(|(seen, repeats)| {
                        f64::from(*repeats) * libm::log(self.likely(*seen, mean_m, sd_m))
                    })
                    .sum();
                of_shots - 0.5 * away * away
            })
            .collect();
        let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        most + libm::log(logs.iter().map(|log| libm::exp(log - most)).sum::<f64>())
    }

    /// The density of a number, or the share of a word, about a mean.
    fn likely(&self, seen: Seen, mean_m: f64, sd_m: f64) -> f64 {
        let between = |from: f64, to: f64| {
            if to > from {
                share_between((from - mean_m) / sd_m, (to - mean_m) / sd_m)
            } else {
                0.0
            }
        };
        let (mouth, holds) = (self.mouth_m, self.holds_m);
        let holds = between(holds.0.max(mouth.0), holds.1.min(mouth.1));
        let likely = match seen {
            Seen::Holds => holds,
            Seen::Touches => (between(mouth.0, mouth.1) - holds).max(0.0),
            Seen::Long => between(mouth.1, f64::INFINITY),
            Seen::Short => between(f64::NEG_INFINITY, mouth.0),
            Seen::Stops => 0.0,
            Seen::At { along_m, read_to_m } => {
                let sd_m = libm::hypot(sd_m, read_to_m);
                density((along_m - mean_m) / sd_m) / sd_m
            }
        };
        let wrong = Scatter::CAREFUL.wrong;
        (1.0 - wrong) * likely + wrong * seen.by_chance()
    }
}
