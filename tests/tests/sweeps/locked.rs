//! Two sweeps into one folder at once: the second is told, and takes nothing of the first away.

#![cfg(unix)]

use super::support::{Recipe, digests};
use railproof::plan::Keep;
use std::fs::File;

#[test]
fn a_sweeps_folder_is_for_one_run_or_for_shares() {
    let planned = Recipe::with_failures().keeping(Keep::Map).placed();
    planned.uninterrupted("out");
    let whole = digests(&planned.place.path("out"));
    // The lock of another process: this one.
    let other = File::open(planned.place.path("out")).unwrap();
    let refused = |line: &str| {
        planned.place.run(line).code(3).says("another run is writing to `out`").says("--into");
    };
    other.lock().unwrap();
    for line in
        ["sweep plan.json --into out", "sweep plan.json --into out --shard 1/2", "merge out"]
    {
        refused(line);
    }
    planned.place.run("sweep plan.json --into out --dry-run").code(0);
    planned.place.run("verify out").code(0);
    other.unlock().unwrap();
    other.lock_shared().unwrap();
    planned.place.run("sweep plan.json --into out --shard 1/2").code(0);
    refused("sweep plan.json --into out");
    refused("merge out");
    other.unlock().unwrap();
    planned.place.run("merge out").code(0);
    assert_eq!(digests(&planned.place.path("out")), whole);
}
