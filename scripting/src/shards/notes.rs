//! A file's notes on itself besides its rows: its plan, its versions, its place, its counts.

use crate::plan::{SweepPlan, canonical};
use crate::telling::caution::Cautions;
use parquet::file::reader::{FileReader, SerializedFileReader};
use railproof_engine::sweep::Tally;
use serde::{Deserialize, Serialize};
use serde_json::json;

/// Plans longer than this stand in `plan.json` alone, not in every file again.
const LONGEST_PLAN: usize = 1 << 16;

const PLAN: &str = "railproof.plan";
const PLAN_SHA256: &str = "railproof.plan_sha256";
const VERSIONS: &str = "railproof.versions";
const SHARD: &str = "railproof.shard";

/// The notes of a shard's file on itself.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ShardNote {
    /// Its number, from 0.
    pub shard: u64,
    /// Index of its first point.
    pub first_point: u64,
    /// The number of points.
    pub points: u64,
    /// The number of rows in the file.
    pub rows: u64,
    /// Start of the digest of the file that holds the points that could not be played, when the
    /// shard's own has no rows for them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub failed_file: Option<String>,
    /// The cautions that playing came upon.
    #[serde(default, skip_serializing_if = "Cautions::is_empty")]
    pub cautions: Cautions,
    /// Counts by rule, in the plan's order.
    pub tallies: Vec<Tally>,
}

/// The notes that every file of a plan has.
pub fn plan_notes(plan: &SweepPlan) -> Vec<(String, String)> {
    let versions = json!({
        "railproof": env!("CARGO_PKG_VERSION"),
        "engine": railproof_engine::VERSION,
    });
    let mut notes =
        vec![(PLAN_SHA256.to_owned(), plan.sha256()), (VERSIONS.to_owned(), versions.to_string())];
    let text = canonical(&plan.decides());
    if text.len() <= LONGEST_PLAN {
        notes.push((PLAN.to_owned(), text));
    }
    notes
}

/// A shard's own note.
pub fn shard_note(note: &ShardNote) -> (String, String) {
    (SHARD.to_owned(), json!(note).to_string())
}

/// Why a file's notes can't be read.
#[derive(Debug, thiserror::Error)]
pub enum NoNotes {
    /// It is Parquet, and has none of the notes.
    #[error("the file has no note of its shard")]
    None,
    /// It is no Parquet file, or has only part of the notes.
    #[error("{0}")]
    Damaged(String),
}

/// The notes of a file: the digest of its plan, and the shard's note.
///
/// # Errors
/// When it is no file of a shard.
pub fn read_notes(bytes: bytes::Bytes) -> Result<(String, ShardNote), NoNotes> {
    let damaged = |error: &dyn std::fmt::Display| NoNotes::Damaged(error.to_string());
    let reader = SerializedFileReader::new(bytes).map_err(|error| damaged(&error))?;
    let entries = reader.metadata().file_metadata().key_value_metadata();
    let value = |key: &str| {
        let entry = entries?.iter().find(|entry| entry.key == key)?;
        entry.value.clone()
    };
    match (value(PLAN_SHA256), value(SHARD)) {
        (Some(plan), Some(note)) => {
            Ok((plan, serde_json::from_str(&note).map_err(|error| damaged(&error))?))
        }
        (None, None) => Err(NoNotes::None),
        _ => Err(damaged(&NoNotes::None)),
    }
}
