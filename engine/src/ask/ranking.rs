//! Rules ranked over all tables of an ensemble.

use super::weighted_mean::weighted_mean;
use super::{CredibleInterval, MemberShare};
use crate::bank::{BankError, BankVerdict};
use crate::column::{Hand, Landing, SetUp, over_members};
use crate::ensemble::Ensemble;
use crate::equipment::{Equipment, RailModel};

/// A rule's place among others over an ensemble's tables.
#[derive(Debug, Clone, PartialEq)]
pub struct EnsembleStanding {
    /// Index of the rule.
    pub rule: usize,
    /// The share of banks × tables that hold. Its error comes from the members: banks are not drawn.
    pub holds: MemberShare,
    /// The root mean square miss of a table's banks, m, over the tables; `None` where no bank comes to the mouth.
    pub rms_miss_m: Option<CredibleInterval>,
    /// How much larger the first rule's share is, table by table; 0 for the first itself.
    pub behind: PairedDifference,
}

/// The difference of two shares on the same tables.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PairedDifference {
    /// The difference.
    pub difference: f64,
    /// Its standard error, from the differences of single tables: what both rules share drops out of it.
    pub error: f64,
}

impl PairedDifference {
    /// Standard errors within which a difference can't be told from none.
    pub const UNTOLD: f64 = 2.0;

    /// A difference of chances that nobody notices at the table.
    pub const NO_MATTER: f64 = 0.01;

    /// True where it can't be told from none.
    pub fn is_untold(self) -> bool {
        self.difference.abs() <= Self::UNTOLD * self.error
    }

    /// True where two rules are tied: the difference is no matter, or can't be told from none.
    pub fn is_tie(self) -> bool {
        self.difference.abs() <= Self::NO_MATTER || self.is_untold()
    }

    /// True where the one that is this much behind is as good: it makes more, or is tied.
    pub fn is_no_worse(self) -> bool {
        self.difference <= 0.0 || self.is_tie()
    }
}

/// What one rule does on one table.
#[derive(Debug, Clone, Copy)]
struct RuleOnTable {
    share: f64,
    rms_miss_m: f64,
}

impl RuleOnTable {
    fn of(landings: &[Landing]) -> Self {
        let holds = landings.iter().filter(|it| it.verdict == BankVerdict::Holds).count();
        let misses = || landings.iter().map(|it| it.miss_m).filter(|miss_m| miss_m.is_finite());
        let squares: f64 = misses().map(|miss_m| miss_m * miss_m).sum();
        let count = misses().count();
        Self {
            share: holds as f64 / landings.len() as f64,
            rms_miss_m: if count == 0 { f64::NAN } else { (squares / count as f64).sqrt() },
        }
    }
}

/// Ranks rules by the share of banks × tables that hold, then by the middle of their misses, then as given.
///
/// `set_ups` holds the banks of the first rule, then as many of the next, in the same order. `tick` is called
/// once a member, from any thread.
///
/// # Errors
/// As [`over_members`].
pub fn rank_on_tables(
    table: &Equipment,
    model: RailModel,
    ensemble: &Ensemble,
    (set_ups, rules): (&[SetUp], usize),
    tick: &(impl Fn() + Sync + ?Sized),
) -> Result<Vec<EnsembleStanding>, BankError> {
    let banks = (set_ups.len() / rules.max(1)).max(1);
    let members = ensemble.members();
    let tables = over_members(table, model, members, set_ups, Hand::Exact, |_, row| {
        tick();
        row.chunks(banks).map(RuleOnTable::of).collect::<Vec<_>>()
    })?;
    Ok(standings(&tables, ensemble.weights(), rules))
}

fn standings(tables: &[Vec<RuleOnTable>], weights: &[f64], rules: usize) -> Vec<EnsembleStanding> {
    let shares = |rule: usize| tables.iter().map(move |table| table[rule].share);
    let mut standings: Vec<EnsembleStanding> = (0..rules)
        .map(|rule| {
            let (share, error) = weighted_mean(shares(rule), weights);
            let rms_m: Vec<f64> = tables.iter().map(|table| table[rule].rms_miss_m).collect();
            EnsembleStanding {
                rule,
                holds: MemberShare { share, error },
                rms_miss_m: CredibleInterval::of(&rms_m, weights),
                behind: PairedDifference { difference: 0.0, error: 0.0 },
            }
        })
        .collect();
    let rms_m = |it: &EnsembleStanding| it.rms_miss_m.map_or(f64::INFINITY, |rms_m| rms_m.middle);
    standings.sort_by(|a, b| {
        let by_share = b.holds.share.total_cmp(&a.holds.share);
        by_share.then(rms_m(a).total_cmp(&rms_m(b))).then(a.rule.cmp(&b.rule))
    });
    let Some(first) = standings.first().map(|first| first.rule) else { return standings };
    for standing in &mut standings {
        let differences = shares(first).zip(shares(standing.rule)).map(|(best, own)| best - own);
        let (difference, error) = weighted_mean(differences, weights);
        standing.behind = PairedDifference { difference, error };
    }
    standings
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tables(shares: &[[f64; 2]]) -> Vec<Vec<RuleOnTable>> {
        let of = |share: f64| RuleOnTable { share, rms_miss_m: f64::NAN };
        shares.iter().map(|both| both.map(of).to_vec()).collect()
    }

    #[test]
    fn two_rules_that_differ_alike_on_every_table_are_told_apart_however_much_tables_differ() {
        // The shares vary by 0.3 from table to table, their difference by nothing.
        let shares: Vec<[f64; 2]> =
            (0..8_u8).map(|at| 0.1 * f64::from(at)).map(|share| [share, share + 0.05]).collect();
        let standings = standings(&tables(&shares), &[0.125; 8], 2);
        assert_eq!([standings[0].rule, standings[1].rule], [1, 0]);
        assert!(standings[1].holds.error > 0.08, "{standings:?}");
        assert!((standings[1].behind.difference - 0.05).abs() < 1e-12);
        assert!(standings[1].behind.error < 1e-12 && !standings[1].behind.is_tie());
        assert_eq!(standings[0].behind, PairedDifference { difference: 0.0, error: 0.0 });
    }

    #[test]
    fn a_difference_that_goes_both_ways_is_a_tie() {
        let shares = [[0.9, 0.1], [0.1, 0.8], [0.9, 0.2], [0.1, 0.8]];
        let standings = standings(&tables(&shares), &[0.25; 4], 2);
        assert!(standings[1].behind.difference > 0.0 && standings[1].behind.is_tie());
    }

    #[test]
    fn one_bank_has_the_error_of_a_share() {
        // sqrt(p (1 - p) / n), as MemberShare has it.
        let shares: Vec<[f64; 2]> =
            (0..10_u8).map(|at| [f64::from(u8::from(at < 3)), 0.0]).collect();
        let first = &standings(&tables(&shares), &[0.1; 10], 2)[0];
        let known = MemberShare::of((0..10).map(|at| at < 3), &[0.1; 10]);
        assert!((first.holds.share - known.share).abs() < 1e-12);
        assert!((first.holds.error - known.error).abs() < 1e-12);
    }
}
