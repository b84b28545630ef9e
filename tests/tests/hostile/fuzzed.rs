//! The bodies of the fuzz targets over their corpora and mutations of them; `tests/fuzz` has them under a fuzzer.

use railproof_tests::fuzz::{FUZZ_TARGETS, FuzzTarget, Mutations, seeds_of};
use railproof_tests::is_thorough;
use std::panic::{AssertUnwindSafe, catch_unwind};

/// Mutations of all targets together, unless `RAILPROOF_FUZZ` says otherwise.
const THOROUGH: u32 = 100_000;
const QUICK: u32 = 4_000;
/// Picks the mutations; another one tries others.
const SEED: u64 = 20_261_130;

fn wanted(name: &str, otherwise: u64) -> u64 {
    let text = std::env::var(name);
    text.map_or(otherwise, |text| text.parse().unwrap_or_else(|error| panic!("{name}: {error}")))
}

/// Runs one target; gives the first input that it panics on.
fn run(target: &FuzzTarget, all: u64, seed: u64) -> Result<u64, Vec<u8>> {
    let seeds = seeds_of(target);
    let count = all * u64::from(target.share) / 1000;
    let mutations = Mutations::new(seeds.clone(), seed);
    let mut done = 0;
    for bytes in seeds.into_iter().chain(mutations.take(usize::try_from(count).unwrap())) {
        catch_unwind(AssertUnwindSafe(|| (target.body)(&bytes))).map_err(|_| bytes)?;
        done += 1;
    }
    Ok(done)
}

#[test]
fn nothing_that_is_read_or_solved_panics_on_any_bytes() {
    let usual = if is_thorough() { THOROUGH } else { QUICK };
    let (all, seed) = (wanted("RAILPROOF_FUZZ", usual.into()), wanted("RAILPROOF_FUZZ_SEED", SEED));
    assert_eq!(FUZZ_TARGETS.iter().map(|target| target.share).sum::<u32>(), 1000);
    let only = std::env::var("RAILPROOF_FUZZ_TARGET").unwrap_or_default();
    let mut found = Vec::new();
    for target in FUZZ_TARGETS.iter().filter(|target| target.name.contains(&only)) {
        let began = std::time::Instant::now();
        match run(target, all, seed) {
            Ok(done) => {
                eprintln!("{}: {done} inputs, {:.1} s", target.name, began.elapsed().as_secs_f64())
            }
            Err(bytes) => {
                let path = std::env::temp_dir().join(format!("railproof-fuzz-{}", target.name));
                std::fs::write(&path, &bytes).unwrap();
                found.push(format!("{} panics on {}", target.name, path.display()));
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
