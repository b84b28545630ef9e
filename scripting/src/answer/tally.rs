//! The sum of many results.

use railproof_engine::sweep::Tally;
use serde_json::{Map, Value, json};

/// Counts by the words of the verdicts, the share of the first so many of them under its own key, and
/// the size of the misses; null where no result has one.
pub fn tally(verdicts: &[&str], (share, successes): (&str, usize), tally: &Tally) -> Value {
    let counts: Map<String, Value> = verdicts
        .iter()
        .zip(tally.verdicts)
        .map(|(verdict, count)| ((*verdict).to_owned(), count.into()))
        .collect();
    json!({
        "verdicts": counts,
        "failed": tally.failed,
        "flagged": tally.flagged,
        share: tally.share_of_first(successes),
        "with_miss": tally.with_miss,
        "mean_miss_m": tally.mean_miss_m(),
        "rms_miss_m": tally.rms_miss_m(),
        "worst_miss_m": tally.worst_miss_m,
    })
}
