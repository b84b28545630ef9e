//! Playing the shards that are missing, on all threads, and putting each on the disk as it is done.

use super::cells::Cells;
use super::cells_file::cells_file;
use super::disk::{Disk, publish};
use super::folder::{FAILED, Folder, SHARDS, cannot, make};
use super::names::{digest, shard_name};
use super::notes::{ShardNote, plan_notes, shard_note};
use super::rows::{Pick, rows_file};
use crate::exit::Exit;
use crate::fault::Fault;
use crate::plan::{Keep, SweepPlan};
use railproof_engine::rule::Rule;
use railproof_engine::sweep::{Played, Player, Tally};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::sync::{Mutex, PoisonError};

/// Points between two looks at whether to go on.
const POINTS_TOGETHER: u64 = 2048;
/// Finished shards that wait for the disk.
const WAITING: usize = 2;

/// Told how far a sweep is; called from any thread.
pub trait Watch: Sync {
    /// So many banks were played, with these counts.
    fn played(&self, tally: &Tally);
    /// A shard is on the disk.
    fn kept(&self, bytes: u64);
}

/// How a sweep is played.
#[derive(Clone, Copy)]
pub struct How<'a> {
    /// Where files go.
    pub disk: &'a dyn Disk,
    /// Told how far it is.
    pub watch: &'a dyn Watch,
    /// Once true, what is at work is dropped and no more is begun.
    pub stop: &'a AtomicBool,
    /// End at the first point that can't be played.
    pub stop_on_error: bool,
}

/// A shard ready for the disk.
struct Ready {
    shard: u64,
    bytes: Vec<u8>,
    /// The points that could not be played, when the shard's own file has no rows.
    failed: Option<Vec<u8>>,
}

/// Plays these shards, in this order as far as threads allow. What is on the disk when it ends is
/// whole.
///
/// # Errors
/// The first thing that kept it from finishing: the disk, a point with `stop_on_error`, a rule
/// function out of time, or [`Exit::Interrupted`].
pub fn play_shards(
    plan: &SweepPlan,
    shards: &[u64],
    folder: &Folder,
    how: How<'_>,
) -> Result<(), Fault> {
    let halt = AtomicBool::new(false);
    let trouble: Mutex<Option<Fault>> = Mutex::new(None);
    let give_up = |fault: Fault| {
        let mut first = trouble.lock().unwrap_or_else(PoisonError::into_inner);
        first.get_or_insert(fault);
        halt.store(true, Ordering::Relaxed);
    };
    let next = AtomicUsize::new(0);
    let notes = plan_notes(plan);
    let (sender, receiver) = sync_channel(WAITING);
    std::thread::scope(|threads| {
        let give_up = &give_up;
        let writer = threads.spawn(move || keep(folder, &receiver, how, give_up));
        let work = |sender: SyncSender<Ready>| {
            let mut worker = match Worker::new(plan, &notes) {
                Ok(worker) => worker,
                Err(fault) => return give_up(fault),
            };
            let on = || !halt.load(Ordering::Relaxed) && !how.stop.load(Ordering::Relaxed);
            while on() {
                let Some(shard) = shards.get(next.fetch_add(1, Ordering::Relaxed)) else { break };
                match worker.shard(*shard, how, &halt) {
                    Ok(Some(ready)) => {
                        if sender.send(ready).is_err() {
                            break;
                        }
                    }
                    Ok(None) => break,
                    Err(fault) => give_up(fault),
                }
            }
        };
        rayon::scope(|scope| {
            for _ in 0..rayon::current_num_threads() {
                let sender = sender.clone();
                let work = &work;
                scope.spawn(move |_| work(sender));
            }
        });
        drop(sender);
        let _ = writer.join();
    });
    if let Some(fault) = trouble.into_inner().unwrap_or_else(PoisonError::into_inner) {
        return Err(fault);
    }
    if how.stop.load(Ordering::Relaxed) {
        return Err(Fault::new(Exit::Interrupted, "the sweep was interrupted"));
    }
    Ok(())
}

/// Puts shards on the disk as they come.
fn keep(folder: &Folder, ready: &Receiver<Ready>, how: How<'_>, give_up: &dyn Fn(Fault)) {
    let (shards, failed) = (folder.path().join(SHARDS), folder.path().join(FAILED));
    let mut sound = true;
    // Once one could not be kept the others are taken in and dropped, so that nobody waits.
    for Ready { shard, bytes, failed: failures } in ready {
        if !sound {
            continue;
        }
        let put = || -> Result<(), Fault> {
            if let Some(failures) = failures {
                make(&failed)?;
                let name = shard_name(shard, &failures);
                publish(how.disk, &failed, &name, &failures)
                    .map_err(|error| cannot("write", &failed.join(&name), &error))?;
            }
            let name = shard_name(shard, &bytes);
            publish(how.disk, &shards, &name, &bytes)
                .map_err(|error| cannot("write", &shards.join(&name), &error))
        };
        match put() {
            Ok(()) => how.watch.kept(bytes.len() as u64),
            Err(fault) => {
                sound = false;
                give_up(fault);
            }
        }
    }
}

/// What one thread needs to play shards.
struct Worker<'a> {
    plan: &'a SweepPlan,
    notes: &'a [(String, String)],
    player: Player<'a>,
    played: Played,
    cells: Option<Cells>,
}

impl<'a> Worker<'a> {
    fn new(plan: &'a SweepPlan, notes: &'a [(String, String)]) -> Result<Self, Fault> {
        let player = Player::new(&plan.banks, &plan.rules, plan.keep.wanted())
            .map_err(|error| Fault::bad_input(error.to_string()))?;
        let cells = match plan.keep {
            Keep::Map => Some(Cells::new(plan).map_err(|why| {
                Fault::bad_input(why).with_hint("vary fewer inputs, or keep rows or failures")
            })?),
            Keep::Rows | Keep::Failures => None,
        };
        Ok(Self { plan, notes, player, played: Played::default(), cells })
    }

    /// Plays one shard; nothing when it was told to stop.
    fn shard(
        &mut self,
        shard: u64,
        how: How<'_>,
        halt: &AtomicBool,
    ) -> Result<Option<Ready>, Fault> {
        let points = self.plan.shard(shard);
        let ways = self.plan.rules.len().max(1);
        let mut tallies = vec![Tally::default(); ways];
        // The rows that could not be played, of a shard that keeps no others.
        let mut failures = Played::default();
        if let Some(cells) = &mut self.cells {
            cells.clear();
        }
        self.played.clear();
        let mut from = points.start;
        while from < points.end {
            let to = (from + POINTS_TOGETHER).min(points.end);
            let first_row = self.played.len();
            if halt.load(Ordering::Relaxed)
                || !self.player.play(from..to, &mut self.played, how.stop)
            {
                return Ok(None);
            }
            self.check_functions()?;
            let mut together = Tally::default();
            let parts = Tally::by_rule(&self.played, first_row, ways);
            for (tally, part) in tallies.iter_mut().zip(&parts) {
                tally.merge(part);
                together.merge(part);
            }
            if how.stop_on_error
                && let Some(failure) = self.played.failures.first()
            {
                return Err(Fault::new(
                    Exit::CouldNotFinish,
                    format!(
                        "point {} can't be played: {}",
                        self.played.point[failure.row], failure.error
                    ),
                )
                .with_hint(
                    "without --stop-on-error such points are kept as rows and the rest is played",
                ));
            }
            if let Some(cells) = &mut self.cells {
                cells.count(self.plan, &self.played);
                failures.append_failures(&self.played);
                self.played.clear();
            }
            how.watch.played(&together);
            from = to;
        }
        self.file(shard, tallies, &failures).map(Some).map_err(|error| {
            Fault::new(
                Exit::CouldNotFinish,
                format!("shard {shard} can't be put in a file: {error}"),
            )
        })
    }

    fn file(
        &self,
        shard: u64,
        tallies: Vec<Tally>,
        failures: &Played,
    ) -> parquet::errors::Result<Ready> {
        let points = self.plan.shard(shard);
        let mut note = ShardNote {
            shard,
            first_point: points.start,
            points: points.end - points.start,
            rows: 0,
            failed_file: None,
            tallies,
        };
        let all_notes = |note: &ShardNote| {
            let mut notes = self.notes.to_vec();
            notes.push(shard_note(note));
            notes
        };
        let Some(cells) = &self.cells else {
            let pick = match self.plan.keep {
                Keep::Failures => Pick::NotHolding,
                Keep::Rows | Keep::Map => Pick::All,
            };
            note.rows = pick.count(&self.played);
            let bytes = rows_file(self.plan, &self.played, pick, all_notes(&note))?;
            return Ok(Ready { shard, bytes, failed: None });
        };
        let failed = if failures.is_empty() {
            None
        } else {
            let notes = self.notes.to_vec();
            Some(rows_file(self.plan, failures, Pick::All, notes)?)
        };
        let filled: Vec<_> = cells.filled().collect();
        note.rows = filled.len() as u64;
        note.failed_file = failed.as_deref().map(digest);
        let bytes = cells_file(self.plan, &filled, all_notes(&note))?;
        Ok(Ready { shard, bytes, failed })
    }

    /// A function that ran out of time says nothing that another run would say again.
    fn check_functions(&self) -> Result<(), Fault> {
        for named in &self.plan.rules {
            if let Rule::Function(function) = &named.rule
                && let Some(why) = function.function().gave_up()
            {
                return Err(Fault::new(Exit::OverBudget, why)
                    .with_hint("nothing was kept of the shard at work; a quicker function can go on in another folder"));
            }
        }
        Ok(())
    }
}
