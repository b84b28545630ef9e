//! The outcomes of many banks, counted.

use super::caution::FLAGGED;
use super::wording::{count, miss, share_of};
use railproof_engine::bank::{BankVerdict, Direction};
use railproof_engine::sweep::Tally;
use railproof_engine::units::short_number as short;

/// The counts of a map's outcomes, a line each.
pub fn outcome_counts(tally: &Tally) -> Vec<String> {
    let mut lines = vec![format!(
        "{} of {} hold ({})",
        tally.holds(),
        count(tally.played(), "bank", "banks"),
        share_of(tally.holds(), tally.played())
    )];
    let touching = Direction::BOTH.map(|side| tally.number_of(BankVerdict::TouchesPoint(side)));
    let other = [
        (BankVerdict::Long, "go long"),
        (BankVerdict::Short, "fall short"),
        (BankVerdict::OtherRail, "meet another rail"),
        (BankVerdict::OtherPocket, "find another pocket"),
        (BankVerdict::NoRoom, "have no room for their line"),
        (BankVerdict::StoppedBeforeRail, "stop before the rail"),
    ]
    .map(|(verdict, words)| (tally.number_of(verdict), words));
    let other: Vec<String> = [(touching.iter().sum(), "touch a point of the mouth")]
        .into_iter()
        .chain(other)
        .filter(|(number, _)| *number > 0)
        .map(|(number, words)| format!("{number} {words}"))
        .collect();
    if !other.is_empty() {
        lines.push(other.join(", "));
    }
    let stopped = tally.number_of(BankVerdict::StoppedBeforeMouth);
    if stopped > 0 {
        let part = share_of(stopped, tally.played());
        lines.push(format!("{stopped} stop before the mouth ({part})"));
    }
    if let Some(rms_m) = tally.rms_miss_m() {
        lines.push(format!(
            "miss: worst {}, root mean square {} mm, over the {} that come to the mouth line",
            miss(tally.worst_miss_m),
            short(1e3 * rms_m, 1),
            tally.with_miss
        ));
    }
    if tally.flagged > 0 {
        let part = share_of(tally.flagged, tally.played());
        lines.push(format!("{} flagged ({part}): {FLAGGED}", tally.flagged));
    }
    lines
}
