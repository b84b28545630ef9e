//! The cost of a sweep, from a small sample that is really played.

use super::cells::Cells;
use super::cells_file::cells_file;
use super::notes::plan_notes;
use super::row_choice::RowChoice;
use super::rows::rows_file;
use super::run::{PlanPlayer, PlayedRun};
use crate::plan::{Keep, SweepPlan, map_cells};
use crate::whole_shots::ShotMaker;
use std::sync::atomic::AtomicBool;
use std::time::{Duration, Instant};

/// Points of a piece of the sample.
const PIECE: u64 = 64;
/// Pieces, spread over the plan.
const PIECES: u64 = 256;
/// The share of speed left to a threaded run that waits for the disk and for each other.
const TOGETHERNESS: f64 = 0.93;

/// The cost of a sweep.
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

/// Plays a sample spread over `shards` of the plan for about `patience` and tells the cost of all of
/// them.
///
/// # Errors
/// The reason why the plan can't be played at all, in words.
pub fn estimate(
    plan: &SweepPlan,
    shards: &[u64],
    threads: usize,
    patience: Duration,
    maker: &dyn ShotMaker,
) -> Result<Estimate, String> {
    let stop = AtomicBool::new(false);
    let mut player = PlanPlayer::new(plan, maker)?;
    let mut played = PlayedRun::empty_of(plan);
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
        // In an order that is spread out however early it ends; pieces of a shard lie apart.
        let turn = piece.reverse_bits() >> (64 - PIECES.trailing_zeros());
        let Some(shard) = shards.get((turn * shards.len() as u64 / PIECES) as usize) else { break };
        let range = plan.shard(*shard);
        let within = (range.end - range.start).saturating_sub(PIECE);
        let from = range.start + (within * (turn * 97 % PIECES)) / PIECES;
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
    let Sizes { shard, memory, whole, keeping } = sizes(plan, shards, &played)?;
    let together = together.min(shards.len() as f64).max(1.0);
    let spent = seconds * banks as f64 / together
        + keeping.as_secs_f64() * shards.len() as f64 / together
        // The map of the whole is made of every shard's, by one thread.
        + if whole > 0 { keeping.as_secs_f64() * (1.0 + shards.len() as f64 / 2.0) } else { 0.0 };
    Ok(Estimate {
        sample,
        bank: Duration::from_secs_f64(seconds),
        time: Duration::try_from_secs_f64(spent).unwrap_or(Duration::MAX),
        // Finished shards wait for the disk beside those at work.
        memory: memory * (threads as u64).min(shards.len() as u64) + 6 * shard,
        disk: shard * shards.len() as u64 + whole,
    })
}

/// The memory of a row, bytes, besides its file.
const ROW_BYTES: u64 = 300;

/// The cost of keeping a whole shard.
struct Sizes {
    /// Bytes on the disk.
    shard: u64,
    /// Bytes in memory.
    memory: u64,
    /// Bytes of the files made of all shards together.
    whole: u64,
    /// Time of making a shard's file, besides playing.
    keeping: Duration,
}

fn sizes(plan: &SweepPlan, shards: &[u64], played: &PlayedRun) -> Result<Sizes, String> {
    let notes = plan_notes(plan);
    let length = |file: parquet::errors::Result<Vec<u8>>| {
        file.map(|bytes| bytes.len() as u64).map_err(|error| error.to_string())
    };
    if plan.keep == Keep::Map {
        return map_sizes(plan, shards, played);
    }
    let pick = if plan.keep == Keep::Failures { RowChoice::NotHolding } else { RowChoice::All };
    let none = length(rows_file(plan, &PlayedRun::empty_of(plan), pick, notes.clone()))?;
    let begun = Instant::now();
    let some = length(rows_file(plan, played, pick, notes))?;
    let rows = plan.shard_points.min(plan.points()) * plan.ways();
    let of_sample = rows as f64 / (played.len() as f64).max(1.0);
    let shard = none + some.saturating_sub(none) * rows / (played.len() as u64).max(1);
    Ok(Sizes {
        shard,
        // Its columns, and its file while it is made.
        memory: rows * ROW_BYTES + 2 * shard,
        whole: 0,
        keeping: begun.elapsed().mul_f64(of_sample),
    })
}

/// Cells are counted where they are: which of them a shard in the middle fills is found by going
/// through its points, and what each takes by putting them in a file.
fn map_sizes(plan: &SweepPlan, shards: &[u64], played: &PlayedRun) -> Result<Sizes, String> {
    let mut cells = Cells::new(plan)?;
    let begun = Instant::now();
    cells.count(plan, played);
    let counting = begun.elapsed().div_f64((played.len() as f64).max(1.0));
    let sampled: Vec<_> = cells.filled().collect();
    cells.clear();
    let shard = shards.get(shards.len() / 2).copied().unwrap_or(0);
    cells.touch(plan, shard);
    let filled = cells.filled().count();
    let begun = Instant::now();
    // Of the sample's cells and not of those that were only touched: they hold numbers.
    let bytes = cells_file(plan, &sampled, plan_notes(plan)).map_err(|error| error.to_string())?;
    let share = filled as f64 / (sampled.len() as f64).max(1.0);
    let banks = plan.shard_points.min(plan.points()) * plan.ways();
    let shard = bytes.len() as u64 * filled as u64 / (sampled.len() as u64).max(1);
    let of_all = map_cells(&plan.axes(), plan.ways()) as f64 / (filled as f64).max(1.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a size")]
    let whole = (shard as f64 * of_all.max(1.0)) as u64;
    Ok(Sizes {
        shard,
        memory: cells.memory() + 2 * shard,
        whole,
        keeping: begun.elapsed().mul_f64(share) + counting.mul_f64(banks as f64),
    })
}
