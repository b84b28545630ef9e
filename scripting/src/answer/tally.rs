//! The sum of many results.

use railproof_engine::bank::BankVerdict;
use railproof_engine::sweep::Tally;
use railproof_engine::verdict::PocketVerdict;
use serde_json::{Map, Value, json};

/// The sum of many banks.
pub fn bank_tally(tally: &Tally) -> Value {
    entry(&BankVerdict::NAMES, ("share_holding", tally.share_holding()), tally)
}

/// The sum of many whole shots.
pub fn shot_tally(tally: &Tally) -> Value {
    entry(&PocketVerdict::NAMES, ("share_made", tally.share_of_first(PocketVerdict::MADE)), tally)
}

/// Counts by the words of the verdicts, the share that succeeds, and the size of the misses; null where
/// no result has one.
fn entry(verdicts: &[&str], (key, share): (&str, f64), tally: &Tally) -> Value {
    let counts: Map<String, Value> = verdicts
        .iter()
        .zip(tally.verdicts)
        .map(|(verdict, count)| ((*verdict).to_owned(), count.into()))
        .collect();
    json!({
        "verdicts": counts,
        "failed": tally.failed,
        "flagged": tally.flagged,
        key: share,
        "with_miss": tally.with_miss,
        "mean_miss_m": tally.mean_miss_m(),
        "rms_miss_m": tally.rms_miss_m(),
        "worst_miss_m": tally.worst_miss_m,
    })
}
