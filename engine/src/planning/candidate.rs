//! Banks that a person can set up and read.

use super::{PlannedBank, WantedNumber, plan_next};
use crate::bank::BankError;
use crate::column::{Hand, Landings, SetUp, columns};
use crate::ensemble::Member;
use crate::equipment::{Equipment, RailModel};
use crate::evidence::{Scatter, mean_variances_m2};
use crate::rail::{Line, Pocket, Rail};
use crate::units::{INCH_M, Speed, SpeedWord};

/// Starts, in diamonds past twice the contact: short and long of the usual rules, so that most banks miss and can be
/// read. With 0 and 0.25 alone six planned banks left the slope 6 % and places from 4 inches off 4 % wider (100 made-up
/// tables, nose-only).
const PAST_TWICE: [f64; 3] = [-0.5, 0.0, 0.75];
const OFF_RAIL_IN: [f64; 4] = [0.0, 4.0, 8.0, 12.0];

/// Contacts from 2 to 3.5 by quarters, below, at and above a start of twice the number; frozen and 4, 8 and 12 inches
/// off; by the three words; into both corners across. Below contact 2 a frozen ball may come back into the cue ball.
pub fn candidates() -> Vec<SetUp> {
    let mut all = Vec::new();
    for quarter in 8..=14 {
        let contact = 0.25 * f64::from(quarter);
        for past in PAST_TWICE {
            for inches in OFF_RAIL_IN {
                for word in SpeedWord::ALL {
                    for pocket in [Pocket::FootRight, Pocket::HeadRight] {
                        all.push(SetUp::stun(
                            Rail::Left,
                            pocket,
                            Line::new(contact, 2.0 * contact + past),
                            inches * INCH_M,
                            Speed::Word(word),
                        ));
                    }
                }
            }
        }
    }
    all
}

/// Candidates on every member's table, with the variance of a reading of each.
#[derive(Debug, Clone)]
pub struct PlayedCandidates {
    /// The banks.
    pub set_ups: Vec<SetUp>,
    /// Where each comes to, by the members' own hands.
    pub seen: Vec<Landings>,
    /// The variance of one shot's place about the exact one and of its reading, m²: a careful person's.
    pub noise_m2: Vec<f64>,
}

/// Members for the scatter of the candidates: it differs little between them.
const FEW: usize = 8;
/// A number is read to a twentieth of a diamond, m.
const READ_TO_M: f64 = 0.016;

impl PlayedCandidates {
    /// Plays [`candidates`], with these before them.
    ///
    /// # Errors
    /// As [`columns`].
    pub fn of(
        table: &Equipment,
        model: RailModel,
        members: &[Member],
        before: &[SetUp],
    ) -> Result<Self, BankError> {
        let mut set_ups = before.to_vec();
        set_ups.extend(candidates());
        let step = (members.len() / FEW).max(1);
        let few: Vec<Member> = members.iter().step_by(step).copied().collect();
        let shots: Vec<_> = set_ups.iter().map(|set_up| (*set_up, Scatter::CAREFUL)).collect();
        Ok(Self {
            seen: columns(table, model, members, &set_ups, Hand::Members)?,
            noise_m2: mean_variances_m2(table, model, &few, &shots)?
                .into_iter()
                .map(|scatter_m2| scatter_m2 + READ_TO_M * READ_TO_M)
                .collect(),
            set_ups,
        })
    }

    /// The next banks for these numbers, in their order.
    pub fn next(&self, wanted: &[WantedNumber], count: usize) -> Vec<(SetUp, PlannedBank)> {
        let planned = plan_next(&self.seen, &self.noise_m2, wanted, count);
        planned.into_iter().map(|plan| (self.set_ups[plan.candidate], plan)).collect()
    }
}
