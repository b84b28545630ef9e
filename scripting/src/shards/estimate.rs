//! What a sweep will take, from a small sample that is really played.

use super::cells::Cells;
use super::cells_file::cells_file;
use super::notes::plan_notes;
use super::rows::{Pick, rows_file};
use crate::plan::{Keep, SweepPlan};
use railproof_engine::sweep::{Played, Player};
use std::sync::atomic::AtomicBool;
use std::time::{Duration, Instant};

/// Points of a piece of the sample.
const PIECE: u64 = 64;
/// Pieces, spread over the plan.
const PIECES: u64 = 256;
/// What a threaded run loses to waiting for the disk and for each other.
const TOGETHERNESS: f64 = 0.93;

/// What a sweep will take.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// Banks that were played to find out.
    pub sample: u64,
    /// Time of one bank on one thread.
    pub bank: Duration,
    /// Time of the whole on these threads.
    pub time: Duration,
    /// Memory, bytes, besides the program's own.
    pub memory: u64,
    /// Room on the disk, bytes.
    pub disk: u64,
}

/// Plays a sample spread over `shards` of the plan for about `patience` and tells what all of them
/// will take.
///
/// # Errors
/// What keeps the plan from being played at all, in words.
pub fn estimate(
    plan: &SweepPlan,
    shards: &[u64],
    threads: usize,
    patience: Duration,
) -> Result<Estimate, String> {
    let stop = AtomicBool::new(false);
    let mut player = Player::new(&plan.banks, &plan.rules, plan.keep.wanted())
        .map_err(|error| error.to_string())?;
    let mut played = Played::default();
    let points: u64 = shards
        .iter()
        .map(|shard| {
            let range = plan.shard(*shard);
            range.end - range.start
        })
        .sum();
    let since = Instant::now();
    let mut timed = Duration::ZERO;
    for piece in 0..PIECES {
        // In an order that is spread out however early it ends.
        let turn = piece.reverse_bits() >> (64 - PIECES.trailing_zeros());
        let Some(shard) = shards.get((turn * shards.len() as u64 / PIECES) as usize) else { break };
        let range = plan.shard(*shard);
        let within = (range.end - range.start).saturating_sub(PIECE);
        let from = range.start + (within * (turn * 7 % PIECES)) / PIECES;
        let to = (from + PIECE).min(range.end);
        let begun = Instant::now();
        player.play(from..to, &mut played, &stop);
        timed += begun.elapsed();
        if since.elapsed() > patience || played.len() as u64 >= points * plan.ways() {
            break;
        }
    }
    let sample = (played.len() as u64).max(1);
    let banks = points * plan.ways();
    let seconds = timed.as_secs_f64() / sample as f64;
    let together = if threads > 1 { threads as f64 * TOGETHERNESS } else { 1.0 };
    let (bytes_of_shard, memory_of_shard) = sizes(plan, &played)?;
    Ok(Estimate {
        sample,
        bank: Duration::from_secs_f64(seconds),
        time: Duration::try_from_secs_f64(seconds * banks as f64 / together)
            .unwrap_or(Duration::MAX),
        // Finished shards wait for the disk beside those at work.
        memory: memory_of_shard * threads as u64 + 6 * bytes_of_shard,
        disk: bytes_of_shard * shards.len() as u64,
    })
}

/// What a row takes in memory, bytes, besides its file.
const ROW_BYTES: u64 = 300;

/// Bytes of a whole shard on the disk and in memory.
fn sizes(plan: &SweepPlan, played: &Played) -> Result<(u64, u64), String> {
    let notes = plan_notes(plan);
    let length = |file: parquet::errors::Result<Vec<u8>>| {
        file.map(|bytes| bytes.len() as u64).map_err(|error| error.to_string())
    };
    if plan.keep == Keep::Map {
        let mut cells = Cells::new(plan)?;
        cells.count(plan, played);
        let filled: Vec<_> = cells.filled().collect();
        let bytes = length(cells_file(plan, &filled, notes))?;
        return Ok((bytes, cells.memory() + 2 * bytes));
    }
    let pick = if plan.keep == Keep::Failures { Pick::NotHolding } else { Pick::All };
    let none = length(rows_file(plan, &Played::default(), pick, notes.clone()))?;
    let some = length(rows_file(plan, played, pick, notes))?;
    let rows = plan.shard_points.min(plan.points()) * plan.ways();
    let bytes = none + some.saturating_sub(none) * rows / (played.len() as u64).max(1);
    // Its columns, and its file while it is made.
    Ok((bytes, rows * ROW_BYTES + 2 * bytes))
}
