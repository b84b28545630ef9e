//! A sweep that is killed at any moment goes on with the same command, and nothing shows of it.

use super::support::{Planned, Recipe, digests, rows_of, unfinished};
use parquet::record::Field;
use railproof::plan::Keep;
use railproof_tests::is_thorough;
use railproof_tests::random::SplitMix;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::{Child, Stdio};
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

/// The same command, whatever happened before.
const SWEEP: &str = "sweep plan.json --into out --quiet --threads 2";

/// Only for what waits for ever.
const PATIENCE: Duration = Duration::from_mins(5);

/// Kills of the whole test, over three plans.
fn kills() -> u64 {
    if is_thorough() { 200 } else { 20 }
}

/// The same moments again with `RAILPROOF_SEED`, as far as the machine keeps time.
fn seed() -> u64 {
    let given = std::env::var("RAILPROOF_SEED").ok().and_then(|text| text.parse().ok());
    given.unwrap_or_else(|| {
        SystemTime::now().duration_since(UNIX_EPOCH).unwrap().subsec_nanos().into()
    })
}

/// Whole numbers that look drawn.
struct Draw(SplitMix);

impl Draw {
    fn below(&mut self, limit: u64) -> u64 {
        self.0.bits() % limit
    }
}

fn start(planned: &Planned) -> Child {
    let mut command = planned.place.command(SWEEP);
    command.stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap()
}

/// Waits so long at most; how it ended, if it did.
fn ended_within(child: &mut Child, time: Duration) -> Option<std::process::ExitStatus> {
    let since = Instant::now();
    loop {
        if let Some(status) = child.try_wait().unwrap() {
            return Some(status);
        }
        if since.elapsed() >= time {
            return None;
        }
        std::thread::sleep(Duration::from_millis(1).min(time));
    }
}

/// Every file with a shard's name holds what its name says, at any moment.
fn none_torn(folder: &Path, seed: u64) {
    for (name, digest) in digests(folder) {
        if name.starts_with("shards/") && !name.contains("unfinished") {
            let said = name.split_once('-').unwrap().1.trim_end_matches(".parquet");
            assert!(digest.starts_with(said), "{name} is torn; seed {seed}");
        }
    }
}

fn whole(field: &Field) -> i64 {
    match field {
        Field::Long(number) => *number,
        other => panic!("no whole number: {other}"),
    }
}

/// Every point by every rule stands once in the rows.
fn each_once(planned: &Planned, folder: &Path, seed: u64) {
    let rows = rows_of(folder);
    let keys: BTreeSet<(i64, String)> =
        rows.iter().map(|row| (whole(&row["point"]), row["rule"].to_string())).collect();
    assert_eq!(keys.len(), rows.len(), "rows are doubled; seed {seed}");
    assert_eq!(rows.len() as u64, planned.plan.bank_count(), "rows are lost; seed {seed}");
    let points: BTreeSet<i64> = keys.iter().map(|key| key.0).collect();
    assert_eq!(points.last(), Some(&(planned.plan.points().cast_signed() - 1)), "seed {seed}");
}

/// Kills sweeps of the plan until there were enough kills, starting over when one is whole.
fn killed_and_resumed(recipe: &Recipe, kills: u64, seed: u64) {
    let planned = recipe.placed();
    let expected = planned.uninterrupted("whole");
    assert!(planned.plan.shards() > 40, "{} shards", planned.plan.shards());
    let out = planned.place.path("out");
    let mut draw = Draw(SplitMix(seed));
    let (mut killed, mut after_a_shard, mut sweeps) = (0, 0, 0);
    // How long a run takes here, so that kills fall anywhere in it.
    let since = Instant::now();
    planned.place.run(SWEEP).code(0);
    let span_us = u64::try_from(since.elapsed().as_micros()).unwrap_or(u64::MAX);
    assert_eq!(digests(&out), expected);
    while killed < kills {
        fs::remove_dir_all(&out).unwrap();
        sweeps += 1;
        loop {
            let mut child = start(&planned);
            // Mostly soon, so that one sweep is killed several times.
            let after = if draw.below(4) == 0 { span_us } else { span_us / 3 };
            let after = Duration::from_micros(draw.below(after));
            if let Some(status) = ended_within(&mut child, after) {
                assert!(status.success(), "{status:?}; seed {seed}");
                break;
            }
            child.kill().unwrap();
            let status = child.wait().unwrap();
            if status.success() {
                break;
            }
            killed += 1;
            none_torn(&out, seed);
            after_a_shard += u64::from(digests(&out.join("shards")).len() > 1);
            if killed == kills {
                planned.place.run(SWEEP).code(0);
                break;
            }
        }
        let found = digests(&out);
        assert!(unfinished(&found).is_empty(), "{:?}; seed {seed}", unfinished(&found));
        assert_eq!(found, expected, "seed {seed}");
        if planned.plan.keep == Keep::Rows {
            each_once(&planned, &out, seed);
        }
    }
    println!("{killed} kills ({after_a_shard} with shards there) in {sweeps} sweeps, seed {seed}");
    let fell_into_work = 3 * after_a_shard > killed;
    assert!(fell_into_work || !is_thorough(), "too few kills fell into the work; seed {seed}");
}

#[test]
fn kills_at_any_moment_lose_double_and_tear_nothing() {
    let seed = seed();
    let long = Recipe::long(12_000, 256);
    killed_and_resumed(&long, kills() / 2, seed);
    killed_and_resumed(&long.clone().keeping(Keep::Failures), kills() / 4, seed ^ 1);
    let map = Recipe::long(24_000, 512).keeping(Keep::Map);
    killed_and_resumed(&map, kills() - kills() / 2 - kills() / 4, seed ^ 2);
}

/// Sends a signal by the system's own command.
#[cfg(unix)]
fn signalled_and_resumed(signal: &str, keep: Keep) {
    let (points, at_once) = if is_thorough() { (60_000, 1_024) } else { (15_000, 256) };
    let planned = Recipe::long(points, at_once).keeping(keep).placed();
    let out = planned.place.path("out");
    // On a busy machine a sweep may be whole before the signal comes; then another is begun.
    let mut tries = 0;
    let status = loop {
        let status = signalled(&planned, signal, &out);
        if !status.success() {
            break status;
        }
        tries += 1;
        assert!(tries < 10, "{signal} is never heeded");
        fs::remove_dir_all(&out).unwrap();
    };
    assert_eq!(status.code(), Some(5), "{signal}");
    let left = digests(&out);
    assert!(!left.contains_key("manifest.json") && unfinished(&left).is_empty(), "{left:?}");
    planned.place.run(SWEEP).code(0);
    assert_eq!(digests(&out), planned.uninterrupted("whole"));
}

/// Begins a sweep and sends it a signal once a shard is there; how it ended.
#[cfg(unix)]
fn signalled(planned: &Planned, signal: &str, out: &Path) -> std::process::ExitStatus {
    let mut child = start(planned);
    let since = Instant::now();
    while digests(&out.join("shards")).is_empty() {
        assert!(since.elapsed() < PATIENCE, "no shard came");
        std::thread::sleep(Duration::from_millis(2));
    }
    let kill = ["-s", signal, &child.id().to_string()].map(str::to_owned);
    // It may have ended since, and then nobody is there to be told.
    std::process::Command::new("kill").args(kill).status().unwrap();
    ended_within(&mut child, PATIENCE).unwrap_or_else(|| {
        let _ = child.kill();
        panic!("{signal}: still at work after {PATIENCE:?}");
    })
}

#[cfg(unix)]
#[test]
fn an_interrupt_ends_the_sweep_which_goes_on_afterwards() {
    signalled_and_resumed("INT", Keep::Rows);
    signalled_and_resumed("INT", Keep::Map);
}

#[cfg(unix)]
#[test]
fn a_request_to_end_is_heeded_likewise() {
    signalled_and_resumed("TERM", Keep::Failures);
}
