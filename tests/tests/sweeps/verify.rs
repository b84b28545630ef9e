//! `railproof verify`: finds everything that is wrong with a stored sweep, and writes nothing; what
//! files say of themselves is not believed.

use super::support::{Place, Planned, Recipe, change, digests, files, play, text_of_file};
use railproof::files::RealDisk;
use railproof::plan::Keep;
use serde_json::Value;
use sha2::{Digest, Sha256};
use std::fmt::Write;
use std::fs;
use std::path::Path;

fn swept(keep: Keep) -> Planned {
    let planned = Recipe::with_failures().keeping(keep).placed();
    planned.uninterrupted("out");
    planned
}

#[track_caller]
fn found(planned: &Planned, says: &str) {
    let out = planned.place.path("out");
    let before = digests(&out);
    let ended = planned.place.run("verify out").code(6).says("is not whole");
    assert!(ended.out.contains(says), "`{says}` is not said: {ended:#?}");
    assert_eq!(digests(&out), before, "verify wrote something");
}

#[test]
fn a_whole_sweep_is_whole_and_nothing_is_written() {
    for keep in [Keep::Rows, Keep::Map, Keep::Failures] {
        let planned = swept(keep);
        let before = digests(&planned.place.path("out"));
        let ended = planned.place.run("verify out").code(0);
        assert!(ended.out.contains("whole"), "{ended:#?}");
        planned.place.run("verify out --quiet").code(0);
        assert_eq!(digests(&planned.place.path("out")), before);
    }
}

#[test]
fn everything_that_can_be_wrong_is_found() {
    for keep in [Keep::Rows, Keep::Map, Keep::Failures] {
        let mut wrongs: Vec<(&str, &str)> = vec![
            ("flip", "is damaged: its content"),
            ("cut", "is damaged"),
            ("remove", "these are missing: 2"),
            ("manifest-changed", "`manifest.json` is not what the shards come to"),
            ("manifest-removed", "`manifest.json` is missing"),
        ];
        if keep == Keep::Map {
            wrongs.push(("map-changed", "`map.parquet` is not what the shards come to"));
            wrongs.push(("failed-removed", "its file of failed points is missing"));
            wrongs.push(("failed-stray", "no shard has such failed points"));
        } else {
            wrongs.push(("map-stray", "`map.parquet` does not belong there"));
        }
        for (wrong, says) in wrongs {
            let planned = swept(keep);
            let out = planned.place.path("out");
            let shard = files(&out.join("shards"))[2].clone();
            match wrong {
                "flip" => change(&shard, |bytes| bytes[40] ^= 1),
                "cut" => change(&shard, |bytes| bytes.truncate(40)),
                "remove" => fs::remove_file(&shard).unwrap(),
                "manifest-changed" => {
                    let text = text_of_file(&out.join("manifest.json"));
                    let changed = text.replacen("\"failed\":", "\"failed\": 1", 1);
                    assert_ne!(changed, text);
                    fs::write(out.join("manifest.json"), changed).unwrap();
                }
                "manifest-removed" => fs::remove_file(out.join("manifest.json")).unwrap(),
                "map-changed" => change(&out.join("map.parquet"), |bytes| bytes[99] ^= 1),
                "failed-removed" => fs::remove_file(&files(&out.join("failed"))[0]).unwrap(),
                "failed-stray" => fs::write(out.join("failed/list.csv"), "").unwrap(),
                "map-stray" => fs::write(out.join("map.parquet"), "").unwrap(),
                other => panic!("{other}"),
            }
            found(&planned, says);
        }
    }
    let place = Place::new();
    fs::create_dir(place.path("empty")).unwrap();
    place.run("verify empty").code(2).says("no plan.json");
    place.run("verify nowhere").code(2).says("no plan.json");
    let planned = swept(Keep::Rows);
    change(&planned.place.path("out/plan.json"), |bytes| bytes.truncate(99));
    planned.place.run("verify out").code(6).says("plan.json");
    fs::remove_file(planned.place.path("out/plan.json")).unwrap();
    for line in ["verify out", "merge out"] {
        planned.place.run(line).code(6).says("has lost its plan.json").says("give the same sweep");
    }
}

#[test]
fn an_unfinished_sweep_is_not_whole() {
    let planned = Recipe::grid().placed();
    play(&planned.plan, &[0, 1, 5], &planned.place.path("out"), &RealDisk).unwrap();
    found(&planned, "of 14 shards these are missing: 2–4, 6–13");
    planned.place.run("verify out").says("is not whole: 11 shards are missing");
}

/// Changes what a shard says of itself, and gives it the name that its content then has.
fn say_otherwise(shard: &Path, from: &str, to: &str) {
    assert_eq!(from.len(), to.len());
    let mut bytes = fs::read(shard).unwrap();
    let places: Vec<usize> = (0..bytes.len() - from.len())
        .filter(|at| bytes[*at..].starts_with(from.as_bytes()))
        .collect();
    assert!(!places.is_empty(), "{from}");
    for at in places {
        bytes[at..at + to.len()].copy_from_slice(to.as_bytes());
    }
    let mut digest = String::new();
    for byte in &Sha256::digest(&bytes)[..8] {
        write!(digest, "{byte:02x}").unwrap();
    }
    let name = shard.file_name().unwrap().to_string_lossy().into_owned();
    fs::remove_file(shard).unwrap();
    fs::write(shard.with_file_name(format!("{}{digest}.parquet", &name[..7])), bytes).unwrap();
}

/// Changes a digit of the sum of squared misses that a shard says of itself.
fn another_sum(shard: &Path) {
    let bytes = fs::read(shard).unwrap();
    let text = String::from_utf8_lossy(&bytes);
    let note = &text[text.find("\"squares_m2\":").unwrap()..];
    let digit = note.find(|letter: char| matches!(letter, '1'..='9')).unwrap();
    let other = if note[digit..].starts_with('9') { '8' } else { '9' };
    say_otherwise(shard, &note[..=digit], &format!("{}{other}", &note[..digit]));
}

/// The fault of a shard whose note was changed.
const OTHERWISE: &str = "the counts in its note do not match its rows";

#[test]
fn a_shard_whose_rows_and_counts_differ_is_whole_to_no_command() {
    for keep in [Keep::Rows, Keep::Map] {
        let planned = swept(keep);
        let (place, out) = (&planned.place, planned.place.path("out"));
        let honest = digests(&out);
        let note = |at: usize, from: &str, to: &str| {
            say_otherwise(&files(&out.join("shards"))[at], from, to);
        };
        let manifest: Value =
            serde_json::from_str(&text_of_file(&out.join("manifest.json"))).unwrap();
        let rows = manifest["shards"][2]["rows"].as_u64().unwrap();
        note(2, &format!("\"rows\":{rows}"), &format!("\"rows\":{}", rows - 1));
        note(3, "\"failed\":", "\"failef\":");
        // The sum of misses is what a row's changed miss or verdict would no longer come to.
        another_sum(&files(&out.join("shards"))[4]);
        found(&planned, OTHERWISE);
        let before = digests(&out);
        place.run("merge out").code(6).says("000002-").says(OTHERWISE);
        place.run("merge put out").code(6).says("000002-").says(OTHERWISE);
        assert_eq!(digests(&out), before, "merging changed something");
        let ended = place.run("sweep plan.json --into out").code(0);
        for shard in ["000002-", "000003-", "000004-"] {
            assert!(ended.out.contains(shard), "{ended:#?}");
        }
        assert_eq!(digests(&out), honest);
    }
}

#[test]
fn a_share_plays_a_shard_again_whose_rows_and_counts_differ() {
    let planned = swept(Keep::Rows);
    let out = planned.place.path("out");
    let honest = digests(&out);
    another_sum(&files(&out.join("shards"))[4]);
    planned.place.run("sweep plan.json --into out --shard 1/2 --quiet").code(0);
    assert_eq!(digests(&out), honest);
}

/// A rule that has no answer above a contact number.
fn without_answer_above(contact: &str) -> String {
    super::functions::scenario(&format!(
        "function(c) if c > {contact} then error('no chart above ' .. c) end return c * 2.2 end"
    ))
}

#[test]
fn a_sweep_in_which_most_points_failed_says_why() {
    let place = Place::new();
    place.write("bank.lua", without_answer_above("1.25"));
    for keep in ["rows", "map", "failures"] {
        for more in ["", " --quiet"] {
            let line = format!("sweep bank.lua --keep {keep} --into {keep}{more}");
            // Of one kind, told once with the first of them.
            let ended = place
                .run(&line)
                .code(7)
                .says("66 of 78 banks could not be played, such as: the rule `bent` has no answer");
            let ended = ended.says("no chart above 1.5");
            assert_eq!(ended.err.matches("66").count(), 1, "{ended:#?}");
            assert!(!ended.out.contains("no chart"), "{ended:#?}");
            assert!(!ended.err.contains("no chart above 1.75"), "{ended:#?}");
        }
        place.run(&format!("merge {keep}")).code(7);
        place.run(&format!("verify {keep}")).code(0);
    }
}

#[test]
fn a_quiet_sweep_says_that_some_banks_could_not_be_played() {
    let place = Place::new();
    place.write("bank.lua", without_answer_above("3.75"));
    for keep in ["rows", "map", "failures"] {
        for line in [format!("sweep bank.lua --keep {keep} --into {keep}"), format!("merge {keep}")]
        {
            for more in ["", " --quiet"] {
                let ended = place.run(&format!("{line}{more}")).code(0);
                let ended =
                    ended.says("6 of 78 banks could not be played").says("no chart above 4");
                assert_eq!(ended.err.matches("could not be played").count(), 1, "{ended:#?}");
            }
        }
    }
}

#[test]
fn no_share_is_told_of_no_banks() {
    let place = Place::new();
    place.write("bank.lua", without_answer_above("0"));
    let ended = place.run("sweep bank.lua --into out").code(7).says("78 of 78 banks");
    assert!(ended.out.contains("bent: none of its banks could be played"), "{ended:#?}");
    assert!(!ended.out.contains('%'), "{ended:#?}");
}

#[test]
fn equipment_out_of_range_is_refused_before_anything_is_played() {
    let planned = Recipe::grid().placed();
    let text = planned.plan.text();
    let text: Vec<&str> = text.lines().filter(|line| !line.contains("plan_sha256")).collect();
    let mut plan: Value = serde_json::from_str(&text.join("\n")).unwrap();
    let hall = "/axes/0/values/equipment/0";
    for (field, value) in [
        ("/cushion/restitution", 1.5),
        ("/cushion/restitution", -0.1),
        ("/ball/diameter_m", 0.0),
        ("/table/length_m", 1e9),
        ("/cloth/sliding_friction", -1.0),
        ("/gravity_m_s2", 0.0),
    ] {
        let kept = plan.clone();
        let at = plan.pointer_mut(&format!("{hall}{field}"));
        *at.unwrap_or_else(|| panic!("{hall}{field}")) = value.into();
        planned.place.write("hand.json", plan.to_string());
        planned.place.run("sweep hand.json --into hand").code(2).says("must be from");
        assert!(!planned.place.path("hand").exists());
        plan = kept;
    }
}
