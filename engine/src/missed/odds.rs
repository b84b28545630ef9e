//! The odds of a miss's causes.

use super::apart::ToldApart;
use super::kept::Kept;
use super::parts::{CAUSES, LastingParts};
use super::{CauseOdds, MissCause};
use crate::ask::CredibleInterval;
use crate::bank::BankError;
use crate::ensemble::Ensemble;
use crate::equipment::{Equipment, RailModel};
use crate::evidence::{MeasuredBank, Seen, ShotDraws, mean_variances_m2, moves_of_members_m};
use crate::rail::BankGeometry;

/// Why a bank missed, as far as it can be told.
#[derive(Debug, Clone, PartialEq)]
pub struct MissOdds {
    /// Where the line comes to, sent exactly, on the tables that could be this one, m.
    pub exact_m: CredibleInterval,
    /// Every cause, in the order of [`MissCause::ALL`].
    pub causes: Vec<CauseOdds>,
    /// The chance that the result is a slip that says nothing.
    pub slip: f64,
    /// The deviation of one such shot about the next, m.
    pub again_m: f64,
    /// The two likeliest causes and the bank that tells them apart; `None` where one cause alone counts.
    pub apart: Option<ToldApart>,
}

/// There are no odds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoOdds {
    /// It came to the pocket: it did not miss.
    Came,
    /// It rested before it came to a rail: too little speed, and nothing to be read.
    Stopped,
    /// No table and no shot that could be comes to where it was seen.
    NeverThere,
}

/// Shots drawn of each member.
const SHOTS: usize = 16;
/// Members for the scatter of the next shot.
const FEW: usize = 8;
/// Numbers are not taken to be read better, m: the draws would be too few.
const LEAST_READ_M: f64 = 0.004;
/// A result that is rather wrong than so far from all that could be, so surely, has no cause to be told.
const SURELY_A_SLIP: f64 = 0.99;
/// Fewer draws that come to the place that was seen tell nothing.
const FEWEST_DRAWS: f64 = 30.0;

impl MissOdds {
    /// The likeliest main cause.
    pub fn main(&self) -> MissCause {
        let best = self.causes.iter().max_by(|a, b| a.odds.total_cmp(&b.odds));
        best.map_or(MissCause::Line, |cause| cause.cause)
    }

    /// Of a bank that was seen, when so much is known of its table without it.
    ///
    /// # Errors
    /// [`BankError`] for a rail and a pocket that make no bank.
    pub fn of(
        table: &Equipment,
        model: RailModel,
        ensemble: &Ensemble,
        bank: &MeasuredBank,
        seed: u64,
    ) -> Result<Result<Self, NoOdds>, BankError> {
        match bank.seen {
            Seen::Holds | Seen::Touches => return Ok(Err(NoOdds::Came)),
            Seen::Stops => return Ok(Err(NoOdds::Stopped)),
            Seen::Long | Seen::Short | Seen::At { .. } => {}
        }
        let geometry = BankGeometry::new(table, bank.set_up.rail, bank.set_up.pocket)?;
        let mouth_m = geometry.unrolled_mouth_m();
        let parts = LastingParts::of(table, model, ensemble, &bank.set_up)?;
        let moves_m =
            moves_of_members_m(table, model, ensemble.members(), (bank.set_up, bank.scatter))?;
        let Some(exact_m) = CredibleInterval::of(&parts.exact_m, ensemble.weights()) else {
            return Ok(Err(NoOdds::NeverThere));
        };
        let mut kept = Kept::new(ensemble.len());
        for (at, lasting) in parts.parts_m.iter().enumerate() {
            if lasting.iter().any(|part| part.is_nan()) {
                continue;
            }
            let moves_m = &moves_m[at];
            for shot in 0..SHOTS {
                let draws = ShotDraws { seed }.of((at * SHOTS + shot) as u64);
                let once = |cause: usize| moves_m[cause] * draws[cause];
                // Aim, speed, side, roll, then the two places.
                let mut sum = [0.0; MissCause::ALL.len()];
                sum[MissCause::Line.place()] = parts.line_m;
                for (cause, part) in CAUSES.iter().zip(lasting) {
                    sum[cause.place()] = *part;
                }
                sum[MissCause::Aim.place()] = once(0);
                sum[MissCause::Speed.place()] = once(1);
                sum[MissCause::Side.place()] = once(2);
                sum[MissCause::Roll.place()] = once(3);
                sum[MissCause::Placement.place()] = once(4) + once(5);
                let weight = ensemble.weights()[at] * likely(bank.seen, sum.iter().sum(), mouth_m);
                kept.add(at, &sum, weight);
            }
        }
        if kept.effective() < FEWEST_DRAWS {
            return Ok(Err(NoOdds::NeverThere));
        }
        let likelihood = kept.whole() / SHOTS as f64;
        let wrong = bank.scatter.wrong * bank.seen.by_chance();
        let slip = wrong / (wrong + (1.0 - bank.scatter.wrong) * likelihood);
        if slip > SURELY_A_SLIP {
            return Ok(Err(NoOdds::NeverThere));
        }
        let again_m = mean_variances_m2(
            table,
            model,
            &every(ensemble.members(), FEW),
            &[(bank.set_up, bank.scatter)],
        )?[0]
            .sqrt();
        Ok(Ok(Self {
            exact_m,
            causes: kept.causes(),
            slip,
            again_m,
            apart: ToldApart::of(table, model, ensemble, &kept, &bank.set_up)?,
        }))
    }
}

/// The density or the share of what was seen for a ball that comes to a place.
fn likely(seen: Seen, along_m: f64, (from, to): (f64, f64)) -> f64 {
    let is = |holds: bool| if holds { 1.0 } else { 0.0 };
    match seen {
        // A ball in the mouth has no number.
        Seen::At { .. } if (from..=to).contains(&along_m) => 0.0,
        Seen::At { along_m: seen_m, read_to_m } => {
            let sd = read_to_m.max(LEAST_READ_M);
            crate::normal::density((seen_m - along_m) / sd) / sd
        }
        Seen::Long => is(along_m > to),
        Seen::Short => is(along_m < from),
        Seen::Holds | Seen::Touches | Seen::Stops => 0.0,
    }
}

/// So many, evenly taken.
fn every<T: Copy>(all: &[T], count: usize) -> Vec<T> {
    all.iter().step_by((all.len() / count).max(1)).copied().collect()
}
