//! A disk that fails at any step: what was there stays whole, and the sweep goes on afterwards.

use super::support::{Recipe, digests, play, play_all, same_but_for, unfinished};
use railproof::exit::Exit;
use railproof::files::{Disk, Fill, RealDisk};
use railproof::plan::Keep;
use railproof_tests::is_thorough;
use std::io;
use std::path::Path;
use std::sync::atomic::{AtomicU64, Ordering};

/// A step of putting a file on the disk.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Step {
    Write,
    /// Half of the bytes are written before it fails.
    ShortWrite,
    Sync,
    Rename,
    SyncFolder,
}

impl Step {
    const ALL: [Self; 5] =
        [Self::Write, Self::ShortWrite, Self::Sync, Self::Rename, Self::SyncFolder];
}

/// Fails the `turn`-th of a step, from 0.
struct Failing {
    step: Step,
    turn: u64,
    seen: AtomicU64,
}

impl Failing {
    fn new(step: Step, turn: u64) -> Self {
        Self { step, turn, seen: AtomicU64::new(0) }
    }

    fn fails(&self, step: Step) -> io::Result<()> {
        if step == self.step && self.seen.fetch_add(1, Ordering::SeqCst) == self.turn {
            return Err(io::Error::new(io::ErrorKind::StorageFull, "the made-up disk is full"));
        }
        Ok(())
    }

    fn failed(&self) -> bool {
        self.seen.load(Ordering::SeqCst) > self.turn
    }
}

impl Disk for Failing {
    fn write(&self, path: &Path, fill: Fill<'_>) -> io::Result<()> {
        self.fails(Step::Write)?;
        if let Err(error) = self.fails(Step::ShortWrite) {
            let mut bytes = Vec::new();
            fill(&mut bytes)?;
            RealDisk.write(path, &mut |out| out.write_all(&bytes[..bytes.len() / 2]))?;
            return Err(error);
        }
        RealDisk.write(path, fill)
    }

    fn sync(&self, path: &Path) -> io::Result<()> {
        self.fails(Step::Sync).and_then(|()| RealDisk.sync(path))
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.fails(Step::Rename).and_then(|()| RealDisk.rename(from, to))
    }

    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        self.fails(Step::SyncFolder).and_then(|()| RealDisk.sync_folder(path))
    }
}

/// Fails every turn of every step, or every third without `RAILPROOF_THOROUGH`, on a folder that holds
/// `before` already.
fn every_step_may_fail(keep: Keep, before: &[u64]) {
    let planned = Recipe { shard_points: 210, ..Recipe::with_failures() }.keeping(keep).placed();
    let expected = planned.uninterrupted("whole");
    let stride = if is_thorough() { 1 } else { 3 };
    let mut failures = 0;
    for step in Step::ALL {
        for turn in (0..).step_by(stride) {
            assert!(turn < 100, "{step:?} never ends");
            let out = planned.place.path(&format!("{step:?}-{turn}"));
            if !before.is_empty() {
                play(&planned.plan, before, &out, &RealDisk).unwrap();
            }
            let at_first = digests(&out);
            let disk = Failing::new(step, turn);
            let ended = play_all(&planned.plan, &out, &disk);
            let left = digests(&out);
            same_but_for(&at_first, &left, &[]);
            // Whatever has its final name is what it is at the end.
            assert!(unfinished(&left).is_empty(), "{step:?} {turn}: {left:?}");
            same_but_for(&left, &expected, &[]);
            if !disk.failed() {
                ended.unwrap();
                assert_eq!(left, expected);
                break;
            }
            failures += 1;
            let fault = ended.expect_err("a failed step ends the sweep");
            assert_eq!(fault.exit, Exit::CouldNotFinish, "{fault}");
            let said = fault.to_string();
            assert!(said.contains(&*out.to_string_lossy()), "no path: {said}");
            assert!(said.contains("the made-up disk is full"), "no cause: {said}");
            assert!(said.contains("make room"), "no way on: {said}");
            play_all(&planned.plan, &out, &RealDisk).unwrap();
            assert_eq!(digests(&out), expected, "{step:?} {turn}");
        }
    }
    // A manifest at least, and a file for each shard that was not there.
    let files = 1 + planned.plan.shards() - before.len() as u64;
    assert!(failures >= 5 * files / stride as u64, "only {failures} failures");
}

#[test]
fn a_failing_disk_leaves_rows_whole_and_the_sweep_resumable() {
    every_step_may_fail(Keep::Rows, &[]);
    every_step_may_fail(Keep::Rows, &[1, 3]);
}

#[test]
fn a_failing_disk_leaves_failures_whole_and_the_sweep_resumable() {
    every_step_may_fail(Keep::Failures, &[0]);
}

#[test]
fn a_failing_disk_leaves_maps_whole_and_the_sweep_resumable() {
    every_step_may_fail(Keep::Map, &[]);
    every_step_may_fail(Keep::Map, &[2]);
}
