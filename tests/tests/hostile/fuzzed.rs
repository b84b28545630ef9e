//! The bodies of the fuzz targets over their corpora and mutations of them; `tests/fuzz` has them under a fuzzer.

use railproof_tests::fuzz::{FUZZ_TARGETS, FuzzTarget, Mutations, seeds_of, shards_found};
use railproof_tests::is_thorough;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::{Duration, Instant};

/// Mutations of all targets together, unless `RAILPROOF_FUZZ` says otherwise.
const THOROUGH: u32 = 100_000;
const QUICK: u32 = 4_000;
/// Picks the mutations; another one tries others.
const SEED: u64 = 20_261_130;

fn wanted(name: &str, otherwise: u64) -> u64 {
    let text = std::env::var(name);
    text.map_or(otherwise, |text| text.parse().unwrap_or_else(|error| panic!("{name}: {error}")))
}

/// More than any input could need, on a machine with much else to do.
const PATIENCE: Duration = Duration::from_mins(1);

/// The input that a target is at, since when; one that does not end is written to a file, and the test with it.
struct Under<'a>(&'a FuzzTarget, Mutex<Option<(Vec<u8>, Instant)>>);

impl Under<'_> {
    fn begins(&self, bytes: &[u8]) {
        *self.1.lock().unwrap() = Some((bytes.to_vec(), Instant::now()));
    }

    fn ends(&self) {
        *self.1.lock().unwrap() = None;
    }

    fn watch(&self, over: &AtomicBool) {
        while !over.load(Ordering::Relaxed) {
            thread::sleep(Duration::from_millis(50));
            if let Some((bytes, since)) = &*self.1.lock().unwrap()
                && since.elapsed() > PATIENCE
            {
                eprintln!("{} does not end on {}", self.0.name, kept(self.0, bytes).display());
                std::process::abort();
            }
        }
    }
}

/// Keeps an input for whoever looks into it.
fn kept(target: &FuzzTarget, bytes: &[u8]) -> PathBuf {
    let path = std::env::temp_dir().join(format!("railproof-fuzz-{}", target.name));
    std::fs::write(&path, bytes).unwrap();
    path
}

/// Runs one target; gives the first input that it panics on.
fn run(target: &FuzzTarget, all: u64, seed: u64) -> Result<u64, Vec<u8>> {
    let seeds = seeds_of(target);
    let count = all * u64::from(target.share) / 1000;
    let mutations = Mutations::new(seeds.clone(), seed);
    let all = seeds.into_iter().chain(mutations.take(usize::try_from(count).unwrap()));
    let (under, over) = (Under(target, Mutex::new(None)), AtomicBool::new(false));
    thread::scope(|scope| {
        scope.spawn(|| under.watch(&over));
        let mut done = 0;
        let mut failed = None;
        for bytes in all {
            under.begins(&bytes);
            if catch_unwind(AssertUnwindSafe(|| (target.body)(&bytes))).is_err() {
                failed = Some(bytes);
                break;
            }
            done += 1;
        }
        under.ends();
        over.store(true, Ordering::Relaxed);
        failed.map_or(Ok(done), Err)
    })
}

#[test]
fn nothing_that_is_read_or_solved_panics_on_any_bytes() {
    let usual = if is_thorough() { THOROUGH } else { QUICK };
    let (all, seed) = (wanted("RAILPROOF_FUZZ", usual.into()), wanted("RAILPROOF_FUZZ_SEED", SEED));
    assert_eq!(FUZZ_TARGETS.iter().map(|target| target.share).sum::<u32>(), 1000);
    let only = std::env::var("RAILPROOF_FUZZ_TARGET").unwrap_or_default();
    let mut found = Vec::new();
    for target in FUZZ_TARGETS.iter().filter(|target| target.name.contains(&only)) {
        let began = Instant::now();
        match run(target, all, seed) {
            Ok(done) => {
                eprintln!("{}: {done} inputs, {:.1} s", target.name, began.elapsed().as_secs_f64());
            }
            Err(bytes) => {
                found.push(format!("{} panics on {}", target.name, kept(target, &bytes).display()));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// Every target has its file for the fuzzer.
#[test]
fn every_target_has_its_file() {
    let targets = concat!(env!("CARGO_MANIFEST_DIR"), "/fuzz/fuzz_targets");
    let mut files: Vec<String> = std::fs::read_dir(targets)
        .unwrap()
        .map(|entry| entry.unwrap().path().file_stem().unwrap().to_string_lossy().into_owned())
        .collect();
    let mut names: Vec<String> = FUZZ_TARGETS.iter().map(|it| it.name.to_owned()).collect();
    files.sort();
    names.sort();
    assert_eq!(files, names);
}

/// A reader that turned every file down would never be tried.
#[test]
fn the_shard_of_the_corpus_is_one() {
    let target = FUZZ_TARGETS.iter().find(|target| target.name == "folders").unwrap();
    let seeds = seeds_of(target);
    assert!(seeds.iter().all(|seed| shards_found(seed) == 1));
}
