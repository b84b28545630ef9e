//! Baselines: missing, held, moved, accepted.

use super::baselines::flowing;
use super::support::{Place, scenario};
use railproof::scenario::{RunOptions, run_scenario};
use std::path::Path;

/// Without the breaks of lines, which depend on their width.
fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

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
    assert!(flowing(&ended).contains("the rule's slope was 2.3, is 2.25"), "{ended:#?}");
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

/// Who asked for it is told why nothing is stored, and not to ask for it.
#[test]
fn what_is_not_accepted_is_said_to_be() {
    let place = Place::with(&scenario("2.2", STORED));
    place.run(&["run", "bank.lua", "--accept"]).code(0);
    let stored = place.read("kept/bank.baseline");
    let fails = scenario("2.3", &format!("{STORED}\nexpect_that(\"no\", false)"));
    place.write("bank.lua", &fails);
    for command in ["run", "test"] {
        let ended = place.run(&[command, "bank.lua", "--accept"]).code(1);
        let told = plain(&ended.out);
        let why =
            "not stored: another expectation failed; --accept-despite-failures stores all the same";
        assert_eq!(told.matches(why).count(), 1, "{ended:#?}");
        assert!(!told.contains("with --accept"), "{ended:#?}");
        assert_eq!(place.read("kept/bank.baseline"), stored);
    }
    place.run(&["test", "bank.lua", "--accept", "--accept-despite-failures"]).code(1);
    assert_ne!(place.read("kept/bank.baseline"), stored);
}

#[test]
fn nothing_is_told_as_stored_that_was_not_written() {
    let place = Place::with(&scenario("2.2", STORED));
    // No folder can be made there.
    place.write("kept", "");
    let results = |words: &[&str]| {
        let all = [words, &["--accept", "--junit", "results.xml"]].concat();
        (place.run(&all).code(2), place.read("results.xml"))
    };
    let (ended, junit) = results(&["test", "."]);
    assert!(!ended.out.contains("written") && !ended.out.contains("stored:"), "{ended:#?}");
    assert!(ended.out.contains("0 ok, 1 failed"), "{ended:#?}");
    assert!(junit.contains("<failure") && junit.contains("kept` is a file"), "{junit}");
    let (ended, _) = results(&["test", ".", "--json"]);
    let told: serde_json::Value = serde_json::from_str(&ended.out).unwrap();
    assert_eq!((&told["exit"], &told["scenarios"][0]["exit"]), (&2.into(), &2.into()), "{told}");
    assert_eq!(told["scenarios"][0]["expectations"][0]["stored"], false, "{told}");
    let (ended, _) = results(&["test", ".", "--annotations"]);
    assert!(ended.out.contains("::error file=./bank.lua,line="), "{ended:#?}");
    let ended = place.run(&["run", "bank.lua", "--accept"]).code(2);
    assert!(!ended.out.contains("written"), "{ended:#?}");
    // What can be written is told as stored.
    std::fs::remove_file(place.path("kept")).unwrap();
    let ended = place.run(&["test", ".", "--accept", "--json"]).code(0);
    let told: serde_json::Value = serde_json::from_str(&ended.out).unwrap();
    assert_eq!(told["scenarios"][0]["expectations"][0]["stored"], true, "{told}");
    assert!(place.path("kept/bank.baseline").is_file());
}

#[test]
fn a_name_that_no_file_can_have_is_refused_before_anything_is_told() {
    let place = Place::with(&scenario("2.2", &STORED.replace("bank.baseline", "a\\0.baseline")));
    for words in [&["test", ".", "--json", "--accept"][..], &["run", "bank.lua", "--accept"]] {
        let ended = place.run(words).code(2);
        assert!(plain(&ended.out).contains("no file's name can have"), "{ended:#?}");
        assert!(!ended.out.contains("\"stored\": true"), "{ended:#?}");
    }
}

#[test]
fn two_maps_of_one_file_are_not_told_as_stored() {
    let place = Place::new();
    place.write("all/one.lua", &scenario("2.2", STORED));
    place.write("all/two.lua", &scenario("2.6", STORED));
    let ended = place.run(&["test", "all", "--accept", "--json"]).code(2);
    let told: serde_json::Value = serde_json::from_str(&ended.out).unwrap();
    for at in 0..2 {
        assert_eq!(told["scenarios"][at]["expectations"][0]["stored"], false, "{told}");
        assert_eq!(told["scenarios"][at]["exit"], 2, "{told}");
    }
    assert!(!place.path("all/kept").exists());
}

#[test]
fn an_empty_baseline_is_told_to_be_empty() {
    let place = Place::with(&scenario("2.2", STORED));
    for text in ["", "\n \n"] {
        place.write("kept/bank.baseline", text);
        let ended = place.run(&["run", "bank.lua"]).code(2);
        assert!(ended.out.contains("bank.baseline` is empty"), "{ended:#?}");
        assert!(ended.out.contains("--accept stores the map as it is now"), "{ended:#?}");
    }
    place.run(&["run", "bank.lua", "--accept"]).code(0);
    place.run(&["run", "bank.lua"]).code(0);
}

/// The rows of a file that somebody edited, or that two branches changed at once.
#[test]
fn a_row_that_is_missing_or_stands_twice_is_told_as_that() {
    let place = Place::with(&scenario("2.2", STORED));
    place.run(&["run", "bank.lua", "--accept"]).code(0);
    let whole = place.read("kept/bank.baseline");
    let (most, last) = whole.trim_end().rsplit_once('\n').unwrap();
    for (text, says) in [
        (format!("{most}\n"), "1 bank is missing from the baseline:"),
        (format!("{whole}{last}\n"), "1 row is of the baseline but not of the map"),
    ] {
        place.write("kept/bank.baseline", &text);
        let ended = place.run(&["run", "bank.lua", "--full"]).code(1);
        assert!(plain(&ended.out).contains(says), "{ended:#?}");
        assert!(plain(&ended.out).contains("rows were taken out of the baseline or put into it"));
        assert!(!plain(&ended.out).contains("come out otherwise"), "{ended:#?}");
        assert_eq!(plain(&ended.out).contains("(stored more than once)"), says.contains("1 row"));
    }
}

#[test]
fn no_number_is_told_in_hundreds_of_digits() {
    let within = STORED.replace("millimetres(0.5)", "metres(1e297)");
    let place = Place::with(&scenario("2.2", &within));
    place.run(&["run", "bank.lua", "--accept"]).code(0);
    let stored = place.read("kept/bank.baseline");
    let (most, last) = stored.trim_end().rsplit_once('\t').unwrap();
    assert!(last.parse::<f64>().is_ok(), "{last}");
    for (scenario, miss) in [
        (scenario("2.2", &within), "1e302"),
        (scenario("2.2", STORED), "-1e300"),
        (scenario("2.9", &within), last),
        (scenario("1e300", &within), last),
    ] {
        place.write("bank.lua", &scenario);
        place.write("kept/bank.baseline", &format!("{most}\t{miss}\n"));
        let ended = place.run(&["run", "bank.lua", "--full", "--into", "out"]);
        let longest = |text: &str| {
            text.split(|it: char| !it.is_ascii_digit()).map(str::len).max().unwrap_or(0)
        };
        assert!(longest(&ended.out).max(longest(&ended.err)) < 40, "{ended:#?}");
    }
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
