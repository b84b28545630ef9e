//! Playing the shards that are missing, on all threads, and putting each on the disk as it is done.

use super::cells::Cells;
use super::cells_file::cells_file;
use super::count::Reasons;
use super::folder::{FAILED, Folder, SHARDS, ShardFile, cannot, make};
use super::names::{shard_name, start_of};
use super::notes::{ShardNote, plan_notes, shard_note};
use super::row_choice::RowChoice;
use super::rows::rows_file;
use super::run::{PlanPlayer, PlayedRun};
use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::{Disk, publish};
use crate::plan::{Keep, SweepPlan, sha256};
use crate::telling::caution::Cautions;
use crate::walls::NO_THREADS;
use crate::whole_shots::ShotMaker;
use railproof_engine::rule::{NamedRule, Rule};
use railproof_engine::sweep::Tally;
use std::path::Path;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::sync::{Mutex, PoisonError};

/// Points between two looks at whether to go on.
const POINTS_TOGETHER: u64 = 2048;
/// Finished shards that wait for the disk.
const WAITING: usize = 2;
/// Threads that put shards on the disk: most of their time they wait for it, each on its own.
const KEEPERS: usize = 4;

/// Told the progress of a sweep; called from any thread.
pub trait SweepWatch: Sync {
    /// So many banks were played, with these counts.
    fn played(&self, tally: &Tally);
    /// A shard is on the disk.
    fn kept(&self, bytes: u64);
}

/// The options of a sweep's play.
#[derive(Clone, Copy)]
pub struct PlayOptions<'a> {
    /// Where files go.
    pub disk: &'a dyn Disk,
    /// Makes the shots of a function.
    pub maker: &'a dyn ShotMaker,
    /// Told the progress.
    pub watch: &'a dyn SweepWatch,
    /// Once true, the shards at work are dropped and no more are begun.
    pub stop: &'a AtomicBool,
    /// End at the first point that can't be played.
    pub stop_on_error: bool,
}

/// A shard ready for the disk.
struct EncodedShard {
    note: ShardNote,
    bytes: Vec<u8>,
    sha256: String,
    /// The points that could not be played, when the shard's own file has no rows.
    failed: Option<Vec<u8>>,
}

/// Plays these shards, in this order as far as threads allow, and tells which are on the disk then. It
/// is whole also when this ends early.
///
/// # Errors
/// The first thing that kept it from finishing: the disk, a point with `stop_on_error`, a rule
/// function out of time, or [`Exit::Interrupted`].
pub fn play_shards(
    plan: &SweepPlan,
    shards: &[u64],
    folder: &Folder,
    how: PlayOptions<'_>,
) -> Result<Vec<ShardFile>, Fault> {
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
    let receiver = Mutex::new(receiver);
    let kept = std::thread::scope(|threads| {
        let give_up = &give_up;
        let receiver = &receiver;
        let keepers: Vec<_> = (0..KEEPERS)
            .filter_map(|_| {
                let keeper = std::thread::Builder::new();
                keeper.spawn_scoped(threads, move || keep(folder, receiver, how, give_up)).ok()
            })
            .collect();
        if keepers.is_empty() {
            give_up(Fault::new(Exit::CouldNotFinish, NO_THREADS));
            return Vec::new();
        }
        let work = |sender: SyncSender<EncodedShard>| {
            let mut worker = match Worker::new(plan, &notes, how.maker) {
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
        keepers.into_iter().flat_map(|keeper| keeper.join().unwrap_or_default()).collect()
    });
    if let Some(fault) = trouble.into_inner().unwrap_or_else(PoisonError::into_inner) {
        return Err(fault);
    }
    if how.stop.load(Ordering::Relaxed) {
        return Err(Fault::new(Exit::Interrupted, "the sweep was interrupted"));
    }
    Ok(kept)
}

/// Puts shards on the disk as they come.
fn keep(
    folder: &Folder,
    ready: &Mutex<Receiver<EncodedShard>>,
    how: PlayOptions<'_>,
    give_up: &dyn Fn(Fault),
) -> Vec<ShardFile> {
    let (shards, failed) = (folder.path().join(SHARDS), folder.path().join(FAILED));
    let mut kept = Vec::new();
    let mut sound = true;
    let put = |into: &Path, name: &str, bytes: &[u8]| {
        publish(how.disk, into, name, &mut |out| out.write_all(bytes))
            .map_err(|error| cannot("write", &into.join(name), &error))
    };
    // Once one could not be kept the others are taken in and dropped, so that nobody waits.
    let next = || ready.lock().unwrap_or_else(PoisonError::into_inner).recv();
    while let Ok(EncodedShard { note, bytes, sha256: digest, failed: failures }) = next() {
        if !sound {
            continue;
        }
        let name = shard_name(note.shard, &digest);
        let done = failures
            .map_or(Ok(()), |failures| {
                make(&failed)?;
                put(&failed, &shard_name(note.shard, &sha256(&failures)), &failures)
            })
            .and_then(|()| put(&shards, &name, &bytes));
        match done {
            Ok(()) => {
                let bytes = bytes.len() as u64;
                how.watch.kept(bytes);
                let reasons = Reasons::default();
                kept.push(ShardFile { name, bytes, sha256: digest, note, reasons });
            }
            Err(fault) => {
                sound = false;
                give_up(fault);
            }
        }
    }
    kept
}

/// The things that one thread needs to play shards.
struct Worker<'a> {
    plan: &'a SweepPlan,
    notes: &'a [(String, String)],
    player: PlanPlayer<'a>,
    played: PlayedRun,
    cells: Option<Cells>,
}

impl<'a> Worker<'a> {
    fn new(
        plan: &'a SweepPlan,
        notes: &'a [(String, String)],
        maker: &'a dyn ShotMaker,
    ) -> Result<Self, Fault> {
        let player = PlanPlayer::new(plan, maker).map_err(Fault::bad_input)?;
        let cells = match plan.keep {
            Keep::Map => Some(Cells::new(plan).map_err(Fault::bad_input)?),
            Keep::Rows | Keep::Failures => None,
        };
        Ok(Self { plan, notes, player, played: PlayedRun::empty_of(plan), cells })
    }

    /// Plays one shard; nothing when it was told to stop.
    fn shard(
        &mut self,
        shard: u64,
        how: PlayOptions<'_>,
        halt: &AtomicBool,
    ) -> Result<Option<EncodedShard>, Fault> {
        let points = self.plan.shard(shard);
        let ways = self.plan.rules().len().max(1);
        let mut tallies = vec![Tally::default(); ways];
        // The rows that could not be played, of a shard that keeps no others.
        let mut failures = PlayedRun::empty_of(self.plan);
        let mut cautions = Cautions::default();
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
            let parts = self.played.tallies(first_row, ways);
            cautions.add(&self.played.cautions(first_row));
            for (tally, part) in tallies.iter_mut().zip(&parts) {
                tally.merge(part);
                together.merge(part);
            }
            if how.stop_on_error
                && let Some((point, why)) = self.played.first_failure()
            {
                return Err(Fault::new(
                    Exit::CouldNotFinish,
                    format!("point {point} can't be played: {why}"),
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
        self.file(shard, tallies, cautions, &failures).map(Some).map_err(|error| {
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
        cautions: Cautions,
        failures: &PlayedRun,
    ) -> parquet::errors::Result<EncodedShard> {
        let points = self.plan.shard(shard);
        let mut note = ShardNote {
            shard,
            first_point: points.start,
            points: points.end - points.start,
            rows: 0,
            failed_file: None,
            cautions,
            tallies,
        };
        let all_notes = |note: &ShardNote| {
            let mut notes = self.notes.to_vec();
            notes.push(shard_note(note));
            notes
        };
        let Some(cells) = &self.cells else {
            let pick = match self.plan.keep {
                Keep::Failures => RowChoice::NotHolding,
                Keep::Rows | Keep::Map => RowChoice::All,
            };
            note.rows = pick.count(&self.played);
            let bytes = rows_file(self.plan, &self.played, pick, all_notes(&note))?;
            return Ok(EncodedShard { note, sha256: sha256(&bytes), bytes, failed: None });
        };
        let failed = if failures.len() == 0 {
            None
        } else {
            let notes = self.notes.to_vec();
            Some(rows_file(self.plan, failures, RowChoice::All, notes)?)
        };
        let filled: Vec<_> = cells.filled().collect();
        note.rows = filled.len() as u64;
        note.failed_file = failed.as_deref().map(|bytes| start_of(&sha256(bytes)).to_owned());
        let bytes = cells_file(self.plan, &filled, all_notes(&note))?;
        Ok(EncodedShard { note, sha256: sha256(&bytes), bytes, failed })
    }

    /// A function that ran out of time says nothing that another run would say again.
    fn check_functions(&self) -> Result<(), Fault> {
        let of_rule = |named: &NamedRule| match &named.rule {
            Rule::Function(function) => function.function().gave_up(),
            _ => None,
        };
        let gave_up = self.plan.rules().iter().find_map(of_rule);
        match gave_up.or_else(|| self.player.gave_up().map(str::to_owned)) {
            None => Ok(()),
            Some(why) => Err(Fault::new(Exit::OverBudget, why)
                .with_hint("nothing was kept of the shard at work; a quicker function can go on in another folder")),
        }
    }
}
