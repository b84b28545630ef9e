//! Rules in the order of how well they hold.

use super::{Row, Tally};
use crate::bank::BankVerdict;

/// A rule's place in a ranking.
#[derive(Debug, Clone, PartialEq)]
pub struct RuleStanding {
    /// Index of the rule.
    pub rule: usize,
    /// Its banks.
    pub tally: Tally,
    /// Range of incidence angles (from the rail's normal) over which every bank holds around the
    /// rule's best stretch, rad; `None` when it holds nowhere.
    pub holding_angles_rad: Option<(f64, f64)>,
}

/// Ranks `rules` rules: larger share holding first, then smaller root mean square miss, then the
/// order in which they were given.
pub fn rank(rows: &[Row], rules: usize) -> Vec<RuleStanding> {
    let mut standings: Vec<RuleStanding> = (0..rules)
        .map(|rule| {
            let own: Vec<&Row> = rows.iter().filter(|row| row.rule == rule).collect();
            RuleStanding {
                rule,
                tally: Tally::of(own.iter().copied()),
                holding_angles_rad: holding_angles(&own),
            }
        })
        .collect();
    let rms_m = |standing: &RuleStanding| standing.tally.rms_miss_m().unwrap_or(0.0);
    let share = |standing: &RuleStanding| standing.tally.share_holding().unwrap_or(0.0);
    standings.sort_by(|a, b| {
        share(b).total_cmp(&share(a)).then(rms_m(a).total_cmp(&rms_m(b))).then(a.rule.cmp(&b.rule))
    });
    standings
}

/// The widest stretch of incidence angles without a bank that fails.
fn holding_angles(rows: &[&Row]) -> Option<(f64, f64)> {
    let mut angles: Vec<(f64, bool)> = rows
        .iter()
        .filter_map(|row| {
            let at_rail = row.outcome.at_rail?;
            Some((at_rail.incidence_rad(), row.outcome.verdict() == BankVerdict::Holds))
        })
        .collect();
    angles.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut best: Option<(f64, f64)> = None;
    let mut open: Option<(f64, f64)> = None;
    for group in angles.chunk_by(|a, b| b.0 - a.0 < 1e-9) {
        let angle = group[0].0;
        if group.iter().all(|(_, holds)| *holds) {
            open = Some((open.map_or(angle, |(from, _)| from), angle));
            if let Some((from, to)) = open
                && best.is_none_or(|(low, high)| to - from > high - low)
            {
                best = open;
            }
        } else {
            open = None;
        }
    }
    best
}
