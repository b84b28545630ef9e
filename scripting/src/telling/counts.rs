//! The outcomes of many banks, counted.

use super::asked_units::AskedUnits;
use super::caution::{FLAGGED, LESS_SURE};
use super::wording::{count, phrase, share_of};
use railproof_engine::bank::{BankVerdict, Direction};
use railproof_engine::results::SHOT_VERDICTS;
use railproof_engine::sweep::Tally;
use railproof_engine::verdict::PocketVerdict;

/// The counts of a map's outcomes, a line each.
pub fn outcome_counts(tally: &Tally, units: AskedUnits) -> Vec<String> {
    let mut lines = vec![format!(
        "{} of {} ({})",
        tally.holds(),
        count(tally.played(), "bank holds", "banks hold"),
        share_of(tally.holds(), tally.played())
    )];
    let touching = Direction::BOTH.map(|side| tally.number_of(BankVerdict::TouchesPoint(side)));
    let no_room = [
        "can't be played: it would start off the cloth",
        "can't be played: they would start off the cloth",
    ];
    let other = [
        (BankVerdict::Long, ["goes long", "go long"]),
        (BankVerdict::Short, ["falls short", "fall short"]),
        (BankVerdict::OtherRail, ["meets another rail", "meet another rail"]),
        (BankVerdict::OtherPocket, ["finds another pocket", "find another pocket"]),
        (BankVerdict::NoRoom, no_room),
        (BankVerdict::StoppedBeforeRail, ["stops before the rail", "stop before the rail"]),
        (BankVerdict::StoppedBeforeMouth, ["stops before the mouth", "stop before the mouth"]),
    ]
    .map(|(verdict, words)| (tally.number_of(verdict), words));
    let touch = ["touches a point of the mouth", "touch a point of the mouth"];
    let other: Vec<String> = [(touching.iter().sum::<u64>(), touch)]
        .into_iter()
        .chain(other)
        .filter(|(number, _)| *number > 0)
        .map(|(number, [one, many])| count(number, one, many))
        .collect();
    if !other.is_empty() {
        lines.push(other.join(", "));
    }
    if let (Some(worst_m), Some(rms_m)) = (tally.worst_miss_m, tally.rms_miss_m()) {
        lines.push(format!(
            "miss: worst {}, root mean square {}, over the {} that come to the mouth line",
            units.miss(worst_m),
            units.tenth(rms_m),
            tally.with_miss
        ));
    }
    lines.extend(flagged(tally));
    lines
}

/// The counts of whole shots' outcomes, a line each.
pub fn shot_counts(tally: &Tally) -> Vec<String> {
    let (made, all) = (tally.of_first(PocketVerdict::MADE), tally.played() + tally.failed);
    let verdicts = SHOT_VERDICTS
        .iter()
        .zip(tally.verdicts.iter().take(PocketVerdict::ALL.len()).chain([&tally.failed]));
    let told: Vec<String> = verdicts
        .filter(|(_, number)| **number > 0)
        .map(|(verdict, number)| format!("{number} {}", phrase(verdict)))
        .collect();
    let shots = count(all, "shot", "shots");
    let mut lines =
        vec![format!("{made} of {shots} made ({})", share_of(made, all)), told.join(", ")];
    if tally.kissed > 0 {
        lines.push(format!("{} a double kiss", count(tally.kissed, "shot has", "shots have")));
    }
    lines.extend(flagged(tally));
    lines
}

/// The share of results of which the model is less sure, at a glance; nothing where there are none.
pub fn less_sure(tallies: &[Tally]) -> Option<String> {
    let flagged: u64 = tallies.iter().map(|tally| tally.flagged).sum();
    let played: u64 = tallies.iter().map(Tally::played).sum();
    (flagged > 0).then(|| format!("Less sure: {} of these {LESS_SURE}.", share_of(flagged, played)))
}

fn flagged(tally: &Tally) -> Option<String> {
    let part = share_of(tally.flagged, tally.played());
    (tally.flagged > 0).then(|| format!("{} flagged ({part}): {FLAGGED}", tally.flagged))
}
