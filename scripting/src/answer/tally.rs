//! The sum of many results.

use railproof_engine::bank::BankVerdict;
use railproof_engine::results::SHOT_VERDICTS;
use railproof_engine::sweep::Tally;
use railproof_engine::verdict::PocketVerdict;
use serde_json::{Map, Value, json};

/// The sum of many banks.
pub fn bank_tally(tally: &Tally) -> Value {
    let mut entry = entry(&BankVerdict::NAMES, &tally.verdicts, tally);
    entry["failed"] = tally.failed.into();
    entry["share_holding"] = tally.share_holding().into();
    entry
}

/// The sum of many whole shots; those that could not be played are a verdict of their own.
pub fn shot_tally(tally: &Tally) -> Value {
    let played = &tally.verdicts[..PocketVerdict::NAMES.len()];
    let mut entry = entry(&SHOT_VERDICTS, &[played, &[tally.failed]].concat(), tally);
    entry["kissed"] = tally.kissed.into();
    entry["share_made"] = tally.share_made().into();
    entry
}

/// Counts by the words of the verdicts, and the size of the misses; null where no result has one.
fn entry(verdicts: &[&str], counts: &[u64], tally: &Tally) -> Value {
    let counts: Map<String, Value> = verdicts
        .iter()
        .zip(counts)
        .map(|(verdict, count)| ((*verdict).to_owned(), (*count).into()))
        .collect();
    json!({
        "verdicts": counts,
        "flagged": tally.flagged,
        "with_miss": tally.with_miss,
        "mean_miss_m": tally.mean_miss_m(),
        "rms_miss_m": tally.rms_miss_m(),
        "worst_miss_m": tally.worst_miss_m,
    })
}
