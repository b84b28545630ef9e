//! Stored maps that no scenario holds a map to any more.

use super::support::{HOLDS, Place, scenario};
use railproof_tests::ProgramRun;
use serde_json::Value;

const OWN: &str = r#"expect(map):matches_baseline("kept/own.baseline")"#;
const OTHER: &str = r#"expect(map):matches_baseline("kept/other.baseline")"#;

/// Two scenarios with their baselines, and a third file that none of them holds a map to.
fn place() -> Place {
    let place = Place::new();
    place.write("all/own.lua", &scenario("2.2", OWN));
    place.write("all/other.lua", &scenario("2.3", OTHER));
    place.run(&["test", "all", "--accept"]).code(0);
    place.write("all/kept/gone.baseline", &place.read("all/kept/own.baseline"));
    place
}

fn stale(ended: &ProgramRun) -> usize {
    ended.out.matches("no scenario holds a map to the baseline").count()
}

#[test]
fn a_baseline_that_nothing_holds_is_told_with_its_path() {
    let place = place();
    for walls in [&[][..], &["--no-walls"]] {
        let with = |own: &[&'static str]| {
            let all: Vec<&str> = own.iter().chain(walls).copied().collect();
            place.run(&all).code(0)
        };
        let ended = with(&["test", "all"]);
        let wanted = "warning: no scenario holds a map to the baseline `all/kept/gone.baseline`";
        assert!(ended.out.contains(wanted) && stale(&ended) == 1, "{ended:#?}");
        let ended = with(&["test", "all", "--annotations"]);
        let annotation = "::warning file=all/kept/gone.baseline::no scenario holds";
        assert!(ended.out.contains(annotation), "{ended:#?}");
        let document: Value = serde_json::from_str(&with(&["test", "all", "--json"]).out).unwrap();
        assert_eq!(document["stale_baselines"], serde_json::json!(["all/kept/gone.baseline"]));
    }
    // Once an expectation is taken away its file is stale too.
    place.write("all/other.lua", &scenario("2.3", HOLDS));
    assert_eq!(stale(&place.run(&["test", "all"]).code(0)), 2);
    std::fs::remove_file(place.path("all/kept/gone.baseline")).unwrap();
    std::fs::remove_file(place.path("all/kept/other.baseline")).unwrap();
    assert_eq!(stale(&place.run(&["test", "all"]).code(0)), 0);
}

#[test]
fn what_was_not_run_or_not_run_whole_makes_no_baseline_stale() {
    let place = place();
    for narrowed in [
        &["test", "all", "--filter", "own"][..],
        &["test", "all", "--shard", "1/2"],
        &["test", "all", "--shard", "2/2"],
        &["test", "all/own.lua"],
        &["test", "all/kept", "all/own.lua"],
        &["test", "all", "--expecting", "own", "--filter", "own"],
    ] {
        assert_eq!(stale(&place.run(narrowed).code(0)), 0, "{narrowed:?}");
    }
    // With --expecting all are run, and what they hold is known.
    let ended = place.run(&["test", "all", "--expecting", "own.baseline"]).code(0);
    assert_eq!(stale(&ended), 1, "{ended:#?}");
    let whole = place.read("all/other.lua");
    for (text, code) in [
        (format!("error('no')\n{whole}"), 2),
        (format!("{whole}\nexpect(map:where {{ contact = 9 }}):holds()\n"), 2),
        (whole.replace("kept/other", "kept/elsewhere"), 2),
    ] {
        place.write("all/other.lua", &text);
        let ended = place.run(&["test", "all"]).code(code);
        assert_eq!(stale(&ended), 0, "{ended:#?}");
    }
    let ended = place.run(&["test", "all", "--fail-fast", "--threads", "1"]).code(2);
    assert_eq!(stale(&ended), 0, "{ended:#?}");
}

/// A baseline that is a link may be held by scenarios that nobody tests here. A folder that is one is not looked into.
#[cfg(unix)]
#[test]
fn a_linked_baseline_is_told_to_be_one_and_not_to_be_deleted() {
    let place = place();
    std::fs::remove_file(place.path("all/kept/gone.baseline")).unwrap();
    place.write("store/others.baseline", &place.read("all/kept/own.baseline"));
    let linked = place.path("all/others.baseline");
    std::os::unix::fs::symlink("../store/others.baseline", &linked).unwrap();
    std::os::unix::fs::symlink("../store", place.path("all/linked")).unwrap();
    let ended = place.run(&["test", "all"]).code(0);
    assert!(!ended.out.contains("delete"), "{ended:#?}");
    assert!(ended.out.contains("note: ") && ended.out.contains("`all/others.baseline` is a link"));
    assert!(ended.err.contains("`all/linked` is a link to a folder elsewhere"), "{ended:#?}");
    let ended = place.run(&["test", "all", "--annotations"]).code(0);
    assert!(ended.out.contains("::notice file=all/others.baseline::"), "{ended:#?}");
    let ended = place.run(&["test", "all", "--json"]).code(0);
    let told: Value = serde_json::from_str(&ended.out).unwrap();
    assert_eq!(told["stale_baselines"], serde_json::json!([]));
    assert_eq!(told["linked_baselines"], serde_json::json!(["all/others.baseline"]));
    std::fs::remove_file(linked).unwrap();
    // A link to a place among what is tested leads nowhere else.
    std::fs::remove_file(place.path("all/linked")).unwrap();
    std::fs::rename(place.path("store"), place.path("all/store")).unwrap();
    std::os::unix::fs::symlink("store", place.path("all/linked")).unwrap();
    let ended = place.run(&["test", "all"]).code(0);
    assert!(ended.out.contains("delete") && stale(&ended) == 1, "{ended:#?}");
}

/// A scenario above the folder that is tested may hold a map to a file in it.
#[test]
fn a_scenario_above_the_tested_folder_keeps_its_baseline() {
    let place = Place::new();
    place.write("own.lua", &scenario("2.2", r#"expect(map):matches_baseline("all/own.baseline")"#));
    place.run(&["test", "own.lua", "--accept"]).code(0);
    place.write("all/plain.lua", &scenario("2.2", HOLDS));
    assert_eq!(stale(&place.run(&["test", "all"]).code(0)), 0);
    assert_eq!(stale(&place.run(&["test", "."]).code(0)), 0);
    std::fs::remove_file(place.path("own.lua")).unwrap();
    assert_eq!(stale(&place.run(&["test", "all"]).code(0)), 1);
}
