//! The summary of many outcomes.

use super::Row;
use crate::bank::BankVerdict;
use serde::Serialize;

/// Counts of verdicts and the size of the misses.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct Summary {
    /// Banks.
    pub count: usize,
    /// Banks that hold.
    pub holds: usize,
    /// Banks that touch a mouth point.
    pub touches_point: usize,
    /// Banks that miss long.
    pub long: usize,
    /// Banks that miss short.
    pub short: usize,
    /// Balls that stopped before the rail.
    pub stopped_before_rail: usize,
    /// Balls that stopped before the mouth.
    pub stopped_before_mouth: usize,
    /// Balls that met another rail and would not have come to the mouth line.
    pub other_rail: usize,
    /// Balls that went into another pocket.
    pub other_pocket: usize,
    /// Lines without room for the ball.
    pub no_room: usize,
    /// Banks outside the model's checked range, or with a hop.
    pub flagged: usize,
    /// Banks whose path crosses the mouth line: those that have a miss.
    pub with_miss: usize,
    /// The largest miss, m, signed (positive long); 0 without any.
    pub worst_miss_m: f64,
    /// Root mean square of the misses, m; 0 without any.
    pub rms_miss_m: f64,
    /// Mean of the misses, m.
    pub mean_miss_m: f64,
}

impl Summary {
    /// Sums up rows.
    pub fn of<'a>(rows: impl IntoIterator<Item = &'a Row>) -> Self {
        let mut summary = Self::default();
        let (mut squares, mut total) = (0.0, 0.0);
        for row in rows {
            summary.count += 1;
            summary.flagged += usize::from(row.outcome.flagged());
            *summary.counter(row.outcome.verdict()) += 1;
            if let Some(miss) = row.outcome.miss_m() {
                summary.with_miss += 1;
                squares += miss * miss;
                total += miss;
                if miss.abs() > summary.worst_miss_m.abs() {
                    summary.worst_miss_m = miss;
                }
            }
        }
        if summary.with_miss > 0 {
            summary.rms_miss_m = (squares / summary.with_miss as f64).sqrt();
            summary.mean_miss_m = total / summary.with_miss as f64;
        }
        summary
    }

    /// Share of the banks that hold, 0 to 1; 0 for none.
    pub fn share_holding(&self) -> f64 {
        if self.count == 0 { 0.0 } else { self.holds as f64 / self.count as f64 }
    }

    /// The number of outcomes of a verdict's kind.
    pub fn number_of(&self, verdict: BankVerdict) -> usize {
        let mut copy = *self;
        *copy.counter(verdict)
    }

    fn counter(&mut self, verdict: BankVerdict) -> &mut usize {
        match verdict {
            BankVerdict::Holds => &mut self.holds,
            BankVerdict::TouchesPoint(_) => &mut self.touches_point,
            BankVerdict::Long => &mut self.long,
            BankVerdict::Short => &mut self.short,
            BankVerdict::StoppedBeforeRail => &mut self.stopped_before_rail,
            BankVerdict::StoppedBeforeMouth => &mut self.stopped_before_mouth,
            BankVerdict::OtherRail => &mut self.other_rail,
            BankVerdict::OtherPocket => &mut self.other_pocket,
            BankVerdict::NoRoom => &mut self.no_room,
        }
    }
}

/// A rule's place in a ranking.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RuleStanding {
    /// Index of the rule.
    pub rule: usize,
    /// Its summary.
    pub summary: Summary,
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
                summary: Summary::of(own.iter().copied()),
                holding_angles_rad: holding_angles(&own),
            }
        })
        .collect();
    standings.sort_by(|a, b| {
        b.summary
            .share_holding()
            .total_cmp(&a.summary.share_holding())
            .then(a.summary.rms_miss_m.total_cmp(&b.summary.rms_miss_m))
            .then(a.rule.cmp(&b.rule))
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
