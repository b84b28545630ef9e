//! Baselines: missing, held, moved, accepted.

use super::support::{Place, scenario};
use railproof::scenario::{RunOptions, run_scenario};
use std::path::Path;

const STORED: &str =
    r#"expect(map):matches_baseline("kept/bank.baseline", { within = millimetres(0.5) })"#;

#[test]
fn a_baseline_is_stored_held_shown_to_move_and_accepted() {
    let place = Place::with(&scenario("2.2", STORED));
    // It runs, and says once that there is none.
    let ended = place.run(&["run", "bank.lua"]).code(2);
    assert_eq!(ended.out.matches("--accept").count(), 1, "{ended:#?}");
    assert!(ended.out.contains("left out: line") && !ended.out.contains("FAILED"), "{ended:#?}");
    assert!(!place.path("kept").exists());
    let ended = place.run(&["run", "bank.lua", "--accept"]).code(0);
    assert!(ended.out.contains("baseline written: "), "{ended:#?}");
    let stored = place.read("kept/bank.baseline");
    assert!(stored.starts_with("# railproof baseline, format 2\n"), "{stored}");
    assert!(stored.contains("contact_diamonds\toff_rail_m\tspeed_m_s\trule\tverdict\tmiss_mm\n"));
    place.run(&["run", "bank.lua"]).code(0);

    place.write("bank.lua", &scenario("2.3", STORED).replace("slope", "name = \"r\", slope"));
    let named = place.read("bank.lua");
    place.run(&["run", "bank.lua", "--accept"]).code(0);
    place.write("bank.lua", &named.replace("2.3", "2.25"));
    let before = place.read("kept/bank.baseline");
    let ended = place.run(&["run", "bank.lua"]).code(1);
    assert!(ended.out.contains("moved by more than 0.5 mm") || ended.out.contains("verdict"));
    assert_eq!(place.read("kept/bank.baseline"), before, "nothing is rewritten unasked");
    let ended = place.run(&["run", "bank.lua", "--accept"]).code(0);
    let (shown, written) = (ended.out.find("now"), ended.out.find("baseline written: "));
    assert!(shown.is_some() && shown < written, "shown first, then written: {ended:#?}");
    assert_ne!(place.read("kept/bank.baseline"), before);
    place.run(&["run", "bank.lua"]).code(0);
}

#[test]
fn a_spoilt_baseline_is_an_error_in_its_own_file_even_when_accepting() {
    let place = Place::with(&scenario("2.2", STORED));
    place.run(&["run", "bank.lua", "--accept"]).code(0);
    let spoilt = place.read("kept/bank.baseline").replacen("\tholds\t", "\thold\t", 1);
    place.write("kept/bank.baseline", &spoilt);
    for arguments in [&["run", "bank.lua"][..], &["run", "bank.lua", "--accept"]] {
        let ended = place.run(arguments).code(2);
        assert!(ended.out.contains("bank.baseline, line 60:"), "{ended:#?}");
        assert!(ended.out.contains("holds"), "{ended:#?}");
    }
    assert_eq!(place.read("kept/bank.baseline"), spoilt);
}

#[test]
fn a_run_that_is_not_whole_accepts_nothing() {
    let place = Place::with(&scenario("2.2", STORED));
    place.run(&["run", "bank.lua", "--accept"]).code(0);
    let stored = place.read("kept/bank.baseline");
    let whole = scenario("2.3", STORED);
    let stops = format!("{whole}\nerror('no')\n");
    let renamed = whole.replacen("local map", "local mapp", 1);
    assert_ne!(renamed, whole);
    for text in [stops, renamed] {
        place.write("bank.lua", &text);
        for command in ["run", "test"] {
            let ended = place.run(&[command, "bank.lua", "--accept"]).code(2);
            assert!(!ended.out.contains("baseline written"), "{ended:#?}");
            assert_eq!(place.read("kept/bank.baseline"), stored, "{ended:#?}");
        }
    }
}

#[test]
fn testing_a_folder_accepts_too() {
    let place = Place::new();
    place.write("all/one.lua", &scenario("2.2", STORED));
    place.run(&["test", "all"]).code(2);
    let ended = place.run(&["test", "all", "--accept"]).code(0);
    assert!(ended.out.contains("1 baseline to be stored"), "{ended:#?}");
    place.run(&["test", "all"]).code(0);
    // A second scenario that would store another map in the same file.
    place.write("all/two.lua", &scenario("2.6", STORED));
    let before = place.read("all/kept/bank.baseline");
    let ended = place.run(&["test", "all", "--accept"]).code(2);
    assert!(ended.err.contains("two different maps"), "{ended:#?}");
    assert_eq!(place.read("all/kept/bank.baseline"), before);
}

/// A stored digest that is not the plan's would lay every later difference at the plan's door.
#[test]
fn baselines_that_ship_are_what_accepting_would_write() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let mut held = 0;
    for entry in std::fs::read_dir(&folder).unwrap() {
        let path = entry.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap_or_default();
        if !text.contains("matches_baseline") {
            continue;
        }
        let record = run_scenario(&path, &RunOptions::default())
            .and_then(railproof::record::Record::whole)
            .unwrap();
        for report in record.expectations.iter().filter_map(|one| one.baseline.as_ref()) {
            assert_eq!(std::fs::read_to_string(&report.path).unwrap(), report.text);
            held += 1;
        }
    }
    assert_eq!(held, std::fs::read_dir(folder.join("baselines")).unwrap().count());
}
