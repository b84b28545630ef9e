//! The outcomes of many banks, counted.

use super::caution::FLAGGED;
use super::wording::{count, miss, share_of};
use railproof_engine::bank::{BankVerdict, Direction};
use railproof_engine::sweep::Summary;
use railproof_engine::units::short_number as short;

/// The counts of a map's outcomes, a line each.
pub fn outcome_counts(summary: &Summary) -> Vec<String> {
    let mut lines = vec![format!(
        "{} of {} hold ({})",
        summary.holds,
        count(summary.count, "bank", "banks"),
        share_of(summary.holds, summary.count)
    )];
    let other: Vec<String> = [
        (BankVerdict::TouchesPoint(Direction::Long), "touch a point of the mouth"),
        (BankVerdict::Long, "go long"),
        (BankVerdict::Short, "fall short"),
        (BankVerdict::OtherRail, "meet another rail"),
        (BankVerdict::OtherPocket, "find another pocket"),
        (BankVerdict::NoRoom, "have no room for their line"),
        (BankVerdict::StoppedBeforeRail, "stop before the rail"),
    ]
    .into_iter()
    .filter(|(verdict, _)| summary.number_of(*verdict) > 0)
    .map(|(verdict, words)| format!("{} {words}", summary.number_of(verdict)))
    .collect();
    if !other.is_empty() {
        lines.push(other.join(", "));
    }
    if summary.stopped_before_mouth > 0 {
        lines.push(format!(
            "{} stop before the mouth ({})",
            summary.stopped_before_mouth,
            share_of(summary.stopped_before_mouth, summary.count)
        ));
    }
    if summary.with_miss > 0 {
        lines.push(format!(
            "miss: worst {}, root mean square {} mm, over the {} that come to the mouth line",
            miss(summary.worst_miss_m),
            short(1e3 * summary.rms_miss_m, 1),
            summary.with_miss
        ));
    }
    if summary.flagged > 0 {
        lines.push(format!(
            "{} flagged ({}): {FLAGGED}",
            summary.flagged,
            share_of(summary.flagged, summary.count)
        ));
    }
    lines
}
