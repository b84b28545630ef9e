//! Real disks without room: a small file system in memory, and the system's limit on files.

use super::support::{Place, Planned, Recipe, digests, play_all, same_but_for, unfinished};
use railproof::exit::Exit;
use railproof::files::RealDisk;
use std::path::Path;
use std::process::Command;

/// A small file system in memory; taken away at the end.
struct Small<'a>(&'a Path);

impl<'a> Small<'a> {
    /// Nothing, and why, where that is not allowed.
    fn mounted(at: &'a Path, options: &str) -> Option<Self> {
        std::fs::create_dir_all(at).unwrap();
        let mount =
            Command::new("mount").args(["-t", "tmpfs", "-o", options, "tmpfs"]).arg(at).output();
        match mount {
            Ok(done) if done.status.success() => Some(Self(at)),
            other => {
                println!("no small file system here ({other:?}); a limit on files is tested alone");
                None
            }
        }
    }

    fn grow(&self, options: &str) {
        let options = format!("remount,{options}");
        let grown = Command::new("mount").args(["-o", &options]).arg(self.0).status().unwrap();
        assert!(grown.success());
    }
}

impl Drop for Small<'_> {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg(self.0).status();
    }
}

/// 14 shards of some 30 kB.
fn planned() -> Planned {
    Recipe::with_failures().placed()
}

fn bytes_of(folder: &Path) -> u64 {
    let shards = std::fs::read_dir(folder.join("shards")).unwrap();
    shards.map(|entry| entry.unwrap().metadata().unwrap().len()).sum()
}

#[test]
fn a_limit_on_files_ends_the_sweep_clearly_and_it_goes_on_without() {
    let planned = planned();
    let expected = planned.uninterrupted("whole");
    let place = &planned.place;
    // Half of the shards first, so that something is there to be kept intact.
    place.run("sweep plan.json --into out --quiet --shard 1/2").code(0);
    let before = digests(&place.path("out"));
    assert!(before.len() > 5, "{before:?}");
    // Blocks of 512 bytes: too few for any shard. The signal is ignored, so that writing fails.
    let ended = place.run_after("trap '' XFSZ; ulimit -f 4", "sweep plan.json --into out --quiet");
    let ended = ended.code(3).says("can't write").says("out/shards/0000").says("too large");
    assert_eq!(ended.out, "");
    let left = digests(&place.path("out"));
    assert_eq!(left, before, "something was left, or lost");
    place.run("sweep plan.json --into out --quiet").code(0);
    assert_eq!(digests(&place.path("out")), expected);
}

#[test]
fn a_full_file_system_ends_the_sweep_clearly_and_it_goes_on_once_grown() {
    let planned = planned();
    let expected = planned.uninterrupted("whole");
    let needed = bytes_of(&planned.place.path("whole"));
    let mount = Place::new();
    let at = mount.path("small");
    let Some(small) = Small::mounted(&at, &format!("size={}", needed / 2)) else { return };
    // The library does not look at the room first, so this runs into the end of it.
    let out = at.join("out");
    let fault = play_all(&planned.plan, &out, &RealDisk).expect_err("there is no room");
    assert_eq!(fault.exit, Exit::CouldNotFinish, "{fault}");
    let said = fault.to_string();
    assert!(said.contains("out/shards/0000") && said.contains("make room"), "{said}");
    let left = digests(&out);
    assert!(left.len() > 2 && unfinished(&left).is_empty(), "{left:?}");
    same_but_for(&left, &expected, &[]);
    small.grow(&format!("size={}", 3 * needed));
    play_all(&planned.plan, &out, &RealDisk).unwrap();
    assert_eq!(digests(&out), expected);
}

#[test]
fn a_file_system_without_names_left_ends_the_program_clearly() {
    let planned = planned();
    let expected = planned.uninterrupted("whole");
    let at = planned.place.path("small");
    // Room enough for all bytes, but not for so many files.
    let Some(small) = Small::mounted(&at, "size=20m,nr_inodes=9") else { return };
    let ended = planned.place.run("sweep plan.json --into small/out --quiet");
    ended.code(3).says("can't write").says("small/out/shards/0000").says("make room");
    let left = digests(&at.join("out"));
    assert!(left.len() > 2 && unfinished(&left).is_empty(), "{left:?}");
    same_but_for(&left, &expected, &[]);
    small.grow("nr_inodes=100");
    planned.place.run("sweep plan.json --into small/out --quiet").code(0);
    assert_eq!(digests(&at.join("out")), expected);
}

#[test]
fn a_sweep_that_plainly_does_not_fit_is_not_begun() {
    let planned = planned();
    let at = planned.place.path("small");
    let Some(small) = Small::mounted(&at, "size=64k") else { return };
    let run = |more: &str| planned.place.run(&format!("sweep plan.json --into small/out{more}"));
    let dry = run(" --dry-run").code(3).says("not enough room");
    assert!(dry.out.contains("disk:") && dry.out.contains("is free"), "{dry:#?}");
    assert!(!at.join("out").exists(), "a dry run makes nothing");
    run("").code(3).says("needs about").says("small/out").says("--keep map");
    assert!(digests(&at.join("out/shards")).is_empty());
    small.grow("size=20m");
    run(" --dry-run").code(0);
    run(" --quiet").code(0);
    assert_eq!(digests(&at.join("out")), planned.uninterrupted("whole"));
}

#[test]
fn a_sweep_larger_than_any_disk_is_refused_anywhere() {
    // Ten thousand million banks are some terabytes.
    let banks = Recipe::long(1 << 33, 1 << 16).banks;
    let planned = Recipe { banks, shard_points: 1 << 16, ..Recipe::grid() }.placed();
    planned.place.run("sweep plan.json --into out --dry-run").code(3).says("not enough room");
    planned.place.run("sweep plan.json --into out --quiet").code(3).says("needs about");
    assert!(digests(&planned.place.path("out/shards")).is_empty());
}
