//! Pipes and folders where files should be, and files where folders should be: told by name, at once,
//! and never waited for.

use super::support::{Place, Planned, Recipe, change, digests, files};
use railproof::plan::Keep;
use std::fs;
use std::path::Path;

/// Seconds that a refusal may take at most, on a machine with much else to do.
const PATIENCE: u64 = 300;

fn swept() -> Planned {
    let planned = Recipe::with_failures().keeping(Keep::Map).placed();
    planned.uninterrupted("out");
    planned
}

#[cfg(unix)]
fn pipe(path: &Path) {
    let made = std::process::Command::new("mkfifo").arg(path).status().unwrap();
    assert!(made.success());
}

#[cfg(unix)]
#[test]
fn a_pipe_instead_of_a_scenario_or_a_plan_is_no_ordinary_file() {
    let place = Place::new();
    fs::create_dir(place.path("all")).unwrap();
    for name in ["f.lua", "f.json", "all/f.lua"] {
        pipe(&place.path(name));
    }
    for line in ["run f.lua", "plan f.lua", "sweep f.lua --into out", "plan f.json"] {
        place.run_within(PATIENCE, line).code(2).says("is not an ordinary file");
    }
    let ended = place.run_within(PATIENCE, "test all").code(2);
    assert!(ended.out.contains("is not an ordinary file"), "{ended:#?}");
}

/// Puts something in place of a file or folder of a finished sweep, and takes it away again.
fn misplaced(put: &dyn Fn(&Path), says: &str) {
    let planned = swept();
    let out = planned.place.path("out");
    let whole = digests(&out);
    let shard = files(&out.join("shards"))[2].clone();
    let failed = files(&out.join("failed"))[1].clone();
    for path in [shard, failed, "plan.json".into(), "map.parquet".into(), "manifest.json".into()] {
        let path = out.join(path);
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let before = fs::read(&path).unwrap();
        fs::remove_file(&path).unwrap();
        put(&path);
        let run = |line: &str| planned.place.run_within(PATIENCE, line);
        let ended = run("verify out").code(6).says("remove what does not belong there");
        assert!(ended.out.contains(&name) && ended.out.contains(says), "{ended:#?}");
        assert!(ended.err.contains("1 file does not belong there"), "{ended:#?}");
        for line in ["sweep plan.json --into out", "merge out"] {
            run(line).code(6).says(&name).says(says).says("remove it");
        }
        if path.is_dir() { fs::remove_dir(&path) } else { fs::remove_file(&path) }.unwrap();
        fs::write(&path, before).unwrap();
        assert_eq!(digests(&out), whole, "{name}");
    }
}

#[cfg(unix)]
#[test]
fn a_pipe_in_a_sweeps_folder_is_no_ordinary_file() {
    misplaced(&pipe, "is not an ordinary file");
}

#[test]
fn a_folder_instead_of_a_file_is_to_be_taken_away() {
    misplaced(&|path| fs::create_dir(path).unwrap(), "is a folder");
}

#[test]
fn a_file_instead_of_the_shards_folder_is_to_be_taken_away() {
    let planned = Recipe::grid().placed();
    fs::create_dir(planned.place.path("out")).unwrap();
    fs::write(planned.place.path("out/plan.json"), planned.plan.text()).unwrap();
    fs::write(planned.place.path("out/shards"), "").unwrap();
    for line in ["sweep plan.json --into out", "merge out"] {
        planned.place.run(line).code(6).says("out/shards` does not belong").says("remove it");
    }
    planned.place.run("verify out").code(6).says("remove what does not belong there");
}

#[test]
fn what_verify_advises_fits_what_it_found() {
    let planned = swept();
    let out = planned.place.path("out");
    let stray = out.join("shards/notes.txt");
    fs::write(&stray, "").unwrap();
    let ended = planned
        .place
        .run("verify out")
        .code(6)
        .says("remove what does not belong there")
        .says("1 file does not");
    assert!(!ended.err.contains("railproof sweep"), "{ended:#?}");
    change(&files(&out.join("shards"))[2], |bytes| bytes[40] ^= 1);
    let ended = planned
        .place
        .run("verify out")
        .code(6)
        .says("1 file does not belong there, 1 file is wrong");
    ended.says("remove what does not belong there; then railproof sweep");
    fs::remove_file(&stray).unwrap();
    let ended =
        planned.place.run("verify out").code(6).says("1 file is wrong").says("railproof sweep");
    assert!(!ended.err.contains("remove what"), "{ended:#?}");
    planned.place.run("sweep plan.json --into out --quiet").code(0);
    planned.place.run("verify out").code(0);
}

/// Its file of failed points is judged once it is played again.
#[test]
fn a_damaged_shard_with_failed_points_is_counted_once() {
    let planned = swept();
    let out = planned.place.path("out");
    let failed = files(&out.join("failed"))[1].clone();
    let number = failed.file_name().unwrap().to_string_lossy()[..6].to_owned();
    let shard = files(&out.join("shards"))
        .into_iter()
        .find(|path| path.file_name().unwrap().to_string_lossy().starts_with(&number))
        .unwrap();
    change(&shard, |bytes| bytes[40] ^= 1);
    let ended =
        planned.place.run("verify out").code(6).says("1 file is wrong").says("railproof sweep");
    assert!(!ended.err.contains("remove what"), "{ended:#?}");
    fs::remove_file(&shard).unwrap();
    planned.place.run("merge out").code(6).says("plays the missing ones");
    planned.place.run("sweep plan.json --into out --quiet").code(0);
    planned.place.run("verify out").code(0);
}

#[test]
fn a_source_that_holds_no_sweep_is_not_merged() {
    let planned = swept();
    fs::create_dir(planned.place.path("empty")).unwrap();
    planned.place.write("file", "");
    let before = digests(&planned.place.path("out"));
    for from in ["nowhere", "empty", "file"] {
        let ended = planned.place.run(&format!("merge out {from}")).code(2);
        ended.says(from).says("railproof sweep --shard I/N");
    }
    assert_eq!(digests(&planned.place.path("out")), before);
}
