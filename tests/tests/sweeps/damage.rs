//! Damaged folders and changed plans: noticed, named, and never taken for what was asked.

use super::support::{Planned, Recipe, change, digests, files, play_all, text_of_file};
use railproof::files::RealDisk;
use railproof::plan::Keep;
use std::fs;
use std::path::{Path, PathBuf};

const SWEEP: &str = "sweep plan.json --into out";

fn swept(keep: Keep) -> Planned {
    let planned = Recipe::with_failures().keeping(keep).placed();
    play_all(&planned.plan, &planned.place.path("out"), &RealDisk).unwrap();
    planned
}

fn name_of(path: &Path) -> String {
    path.file_name().unwrap().to_string_lossy().into_owned()
}

fn changed(path: &Path, how: impl Fn(&mut Vec<u8>)) -> PathBuf {
    change(path, how);
    path.to_owned()
}

/// Damages a folder's third file, and checks that `merge` names it and `sweep` repairs it.
fn noticed_and_repaired(planned: &Planned, within: &str, damage: impl Fn(&Path) -> PathBuf) {
    let out = planned.place.path("out");
    let before = digests(&out);
    let shard = name_of(&files(&out.join("shards"))[2]);
    let bad = damage(&files(&out.join(within))[2]);
    let said = if within == "shards" { name_of(&bad) } else { shard };
    let damaged = digests(&out);
    assert_ne!(damaged, before);
    planned.place.run("merge out").code(6).says(&said).says("plays damaged and missing");
    assert_eq!(digests(&out), damaged, "merging changed something");
    let ended = planned.place.run(SWEEP).code(0);
    assert!(ended.out.contains(&said) && ended.out.contains("is damaged"), "{ended:#?}");
    assert_eq!(digests(&out), before);
    planned.place.run("merge out --quiet").code(0);
    assert_eq!(digests(&out), before);
}

#[test]
fn a_damaged_shard_is_named_and_played_again() {
    for keep in [Keep::Rows, Keep::Map, Keep::Failures] {
        let planned = swept(keep);
        for thousandth in [0, 300, 700, 999] {
            noticed_and_repaired(&planned, "shards", |path| {
                changed(path, |bytes| {
                    let at = bytes.len() * thousandth / 1000;
                    bytes[at] ^= 1;
                })
            });
        }
        noticed_and_repaired(&planned, "shards", |path| {
            changed(path, |bytes| bytes.truncate(bytes.len() / 2))
        });
        noticed_and_repaired(&planned, "shards", |path| {
            changed(path, |bytes| bytes.truncate(bytes.len() - 1))
        });
        noticed_and_repaired(&planned, "shards", |path| changed(path, Vec::clear));
        noticed_and_repaired(&planned, "shards", |path| changed(path, |bytes| bytes.push(0)));
    }
}

#[test]
fn a_shard_under_another_number_is_named_and_both_are_played_again() {
    let planned = swept(Keep::Rows);
    noticed_and_repaired(&planned, "shards", |path| {
        // The digest in the name is still the content's.
        let other = path.with_file_name(name_of(path).replace("000002-", "000005-"));
        fs::rename(path, &other).unwrap();
        other
    });
    noticed_and_repaired(&planned, "shards", |path| {
        let other = path.with_file_name(name_of(path).replace("000002-", "000999-"));
        fs::copy(path, &other).unwrap();
        other
    });
}

#[test]
fn a_damaged_file_of_failed_points_damages_its_shard() {
    let planned = swept(Keep::Map);
    assert!(files(&planned.place.path("out/failed")).len() > 3);
    let out = planned.place.path("out");
    let before = digests(&out);
    for remove in [false, true] {
        let file = files(&out.join("failed"))[1].clone();
        let number = name_of(&file)[..6].to_owned();
        if remove {
            fs::remove_file(&file).unwrap();
        } else {
            change(&file, |bytes| bytes[100] ^= 4);
        }
        planned.place.run("merge out").code(6).says(&number).says("failed points");
        planned.place.run(&format!("{SWEEP} --quiet")).code(0);
        assert_eq!(digests(&out), before);
    }
}

#[test]
fn a_damaged_shard_of_another_folder_is_named_and_not_taken() {
    let planned = swept(Keep::Rows);
    let place = &planned.place;
    for (share, into) in [(1, "one"), (2, "two")] {
        place.run(&format!("sweep plan.json --shard {share}/2 --into {into} --quiet")).code(0);
    }
    let bad = changed(&files(&place.path("two/shards"))[2], |bytes| bytes[50] ^= 16);
    let name = name_of(&bad);
    place.run("merge put one two").code(6).says(&format!("two/shards/{name}")).says("damaged");
    assert!(!place.path("put/shards").join(&name).exists());
    assert!(!place.path("put/manifest.json").exists());
    // Played again where it was damaged, it is taken.
    place.run("sweep plan.json --shard 2/2 --into two --quiet").code(0);
    place.run("merge put one two --quiet").code(0);
    assert_eq!(digests(&place.path("put")), digests(&place.path("out")));
}

/// Writes a changed plan and checks that the folder refuses it, saying what differs.
fn refused(planned: &Planned, from: &str, to: &str, says: &[&str]) {
    let text = planned.plan.text();
    let changed = bare(&text.replacen(from, to, 1));
    assert_ne!(changed, bare(&text), "`{from}` is not in the plan");
    planned.place.write("changed.json", changed);
    let before = digests(&planned.place.path("out"));
    for more in ["", " --dry-run", " --shard 1/2"] {
        let mut ended = planned.place.run(&format!("sweep changed.json --into out{more}")).code(2);
        for words in says {
            ended = ended.says(words);
        }
    }
    assert_eq!(digests(&planned.place.path("out")), before, "the folder was touched");
}

/// A plan's text without what follows from the rest, which a changed plan must not say any more.
fn bare(text: &str) -> String {
    let follows = ["\"plan_sha256\"", "\"points\"", "\"banks\"", "\"shards\""];
    let lines = text.lines().filter(|line| !follows.iter().any(|key| line.contains(key)));
    lines.collect::<Vec<_>>().join("\n")
}

#[test]
fn a_folder_refuses_another_plan_and_says_what_differs() {
    let planned = swept(Keep::Rows);
    refused(&planned, "[1.5,2.0,", "[1.6,2.0,", &["axes.speed", "1.5 there, 1.6 now"]);
    refused(&planned, "[1.5,2.0,", "[2.0,", &["axes.speed", "6 entries there, 5 now"]);
    refused(&planned, "\"slope\":2.2", "\"slope\":2.3", &["rules", "slope: 2.2 there, 2.3 now"]);
    refused(&planned, "0.02 * contact", "0.03 * contact", &["rules", "source"]);
    refused(&planned, "\"keep\": \"rows\"", "\"keep\": \"map\"", &["keep", "\"rows\" there"]);
    refused(&planned, "\"shard_points\": 64", "\"shard_points\": 32", &["shard_points: 64 there"]);
    planned.place.run(&format!("{SWEEP} --keep failures")).code(2).says("keep: \"rows\" there");
}

#[test]
fn a_plan_of_another_engine_is_refused() {
    let planned = swept(Keep::Rows);
    let engine = format!("\"engine\": \"{}\"", railproof_engine::VERSION);
    let text = planned.plan.text().replacen(&engine, "\"engine\": \"0.0.9\"", 1);
    planned.place.write("older.json", &text);
    planned.place.run("sweep older.json --into new").code(2).says("engine 0.0.9").says("engine");
    assert!(!planned.place.path("new").exists());
    // The folder's own plan, as an older program would have left it.
    planned.place.write("out/plan.json", &text);
    planned.place.run(SWEEP).code(2).says("engine: \"0.0.9\" there");
    planned.place.run("merge out").code(6).says("engine 0.0.9");
}

#[test]
fn a_folder_whose_plan_was_changed_is_refused_although_its_digest_line_still_fits() {
    let planned = swept(Keep::Rows);
    let path = planned.place.path("out/plan.json");
    let text = text_of_file(&path);
    fs::write(&path, text.replacen("[1.5,2.0,", "[1.6,2.0,", 1)).unwrap();
    planned.place.run(SWEEP).code(2).says("axes.speed").says("1.6 there, 1.5 now");
    planned.place.run("merge out").code(6).says("does not match its digest");
    // And one whose digest line alone was changed.
    let digest = planned.plan.sha256();
    fs::write(&path, text.replacen(&digest, &digest.replace(['0', '1'], "2"), 1)).unwrap();
    planned.place.run(SWEEP).code(6).says("does not match its digest");
    for broken in ["", "{", "[1]", "null", "\u{0}"] {
        fs::write(&path, broken).unwrap();
        planned.place.run(SWEEP).code(6).says("plan.json");
        planned.place.run("merge out").code(6).says("plan.json");
    }
}
