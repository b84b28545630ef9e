//! What other programs read is read by them, whatever scenarios say in it.

use super::place::HostilePlace;
use std::fs;

/// Of every kind that XML, terminals or readers of JSON could stumble over.
const HOSTILE: &str = "a\\27[31m\\0\\7\\r\\127 \u{85}\u{2028}\u{202e}\u{200b}\u{feff}\u{fffe}\u{ffff}\u{1ffff} ]]> <b>&amp;";

fn place() -> HostilePlace {
    let place = HostilePlace::new();
    let script =
        format!("print('{HOSTILE}') expect_that('{HOSTILE}', false) scenario {{ shows = 1 }}");
    place.write("inside/all/a.lua", script.as_bytes());
    place.write("inside/all/b\u{ffff}\u{202e}\u{1b}.lua", script.as_bytes());
    place
}

#[test]
fn junit_is_xml_whatever_is_said() {
    let place = place();
    place.command().args(["test", "all", "--junit", "results.xml"]).output().unwrap();
    let results = fs::read_to_string(place.path("inside/results.xml")).unwrap();
    // Production 2, Char, of XML 1.0 (fifth edition).
    let is_char = |letter: char| matches!(letter, '\t' | '\n' | '\r' | '\u{20}'..='\u{d7ff}' | '\u{e000}'..='\u{fffd}' | '\u{10000}'..);
    assert!(results.chars().all(is_char), "{results:?}");
    assert!(!results.contains(['\u{202e}', '\u{200b}', '\u{85}']), "{results:?}");
    let document = roxmltree::Document::parse(&results).unwrap();
    let failures = document.descendants().filter(|node| node.has_tag_name("failure")).count();
    assert_eq!(failures, 2, "{results}");
    // A second run finds what failed, by the same names.
    let again = place.command().args(["test", "all", "--junit", "results.xml"]).output().unwrap();
    assert!(
        fs::read_to_string(place.path("inside/results.xml")).unwrap().contains("failure"),
        "{again:?}"
    );
}

#[test]
fn json_is_alone_on_its_stream_and_shows_what_is_not_seen() {
    let place = place();
    let ended = place.command().args(["test", "all", "--json", "--annotations"]).output().unwrap();
    let text = String::from_utf8(ended.stdout).unwrap();
    let unseen = |letter: char| {
        letter != '\n' && letter.is_control() || "\u{202e}\u{200b}\u{ffff}".contains(letter)
    };
    assert!(!text.contains(unseen), "{text:?}");
    let told: serde_json::Value = serde_json::from_str(&text).unwrap();
    let said = told["scenarios"][0]["expectations"][0]["expected"].as_str().unwrap();
    assert!(said.contains("\u{202e}\u{200b}\u{feff}\u{fffe}\u{ffff}"), "the same value: {said:?}");
    let annotations = String::from_utf8(ended.stderr).unwrap();
    assert!(annotations.contains("::error file=all/a.lua,line=1::"), "{annotations}");
}

/// Titles and names of the scenario's own in every text of a run's folder.
#[test]
fn pictures_and_the_run_are_read_whatever_they_are_called() {
    let place = HostilePlace::new();
    let clean = fs::read_to_string(place.path("inside/clean.lua")).unwrap();
    let draw = format!(
        "map:draw {{ x = 'speed', y = 'contact', title = '{HOSTILE}', subtitle = '{HOSTILE}' }}"
    );
    place.write("inside/case.lua", format!("{clean}\nprint('{HOSTILE}')\n{draw}").as_bytes());
    let ended = place.command().args(["run", "case.lua", "--into", "out"]).output().unwrap();
    assert_eq!(ended.status.code(), Some(0), "{ended:?}");
    let mut pictures = 0;
    for (path, bytes) in place.output() {
        let text = String::from_utf8_lossy(&bytes);
        if path.extension().is_some_and(|ending| ending == "svg") {
            pictures += 1;
            roxmltree::Document::parse(&text).unwrap();
            assert!(
                !text.contains(['\u{0}', '\u{1b}', '\u{202e}', '\u{fffe}', '\u{ffff}']),
                "{path:?}"
            );
        } else if path.ends_with("run.json") {
            serde_json::from_str::<serde_json::Value>(&text).unwrap();
            assert!(!text.contains(['\u{1b}', '\u{7f}', '\u{202e}', '\u{ffff}']), "{text:?}");
        }
    }
    assert_eq!(pictures, 2);
}

/// Names in files that this program wrote, and somebody else wrote over.
#[test]
fn names_in_files_of_others_are_plain() {
    let place = HostilePlace::new();
    let run = |words: &[&str]| {
        let ended = place.command().args(words).output().unwrap();
        let shown = [ended.stdout, ended.stderr].concat();
        (ended.status.code(), String::from_utf8_lossy(&shown).into_owned())
    };
    let measured = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios/measured/hall.csv");
    place.write("inside/hall.csv", &fs::read(measured).unwrap());
    assert_eq!(run(&["fit", "hall.csv", "--members", "64", "--into", "out"]).0, Some(0));
    assert_eq!(run(&["plan", "clean.lua", "--out", "plan.json"]).0, Some(0));
    let table = fs::read_to_string(place.path("inside/out/table.json")).unwrap();
    let plan = fs::read_to_string(place.path("inside/plan.json")).unwrap();
    let undigested: Vec<&str> = plan.lines().filter(|line| !line.contains("plan_sha256")).collect();
    let named = |text: &str, at: usize, name: &str| {
        let (from, _) = text.match_indices("\"name\":\"").nth(at).unwrap();
        let from = from + "\"name\":\"".len();
        let end = from + text[from..].find('"').unwrap();
        format!("{}{name}{}", &text[..from], &text[end..])
    };
    let long = "n".repeat(5_000_000);
    for (name, told) in [
        (r"a\u001b]0;t\u0007\n", "takes one line of plain text"),
        (r"a\u202eb", "takes one line of plain text"),
        (long.as_str(), "is longer than"),
    ] {
        place.write("inside/table.json", named(&table, 0, name).as_bytes());
        let bank =
            ["bank", "--table", "table.json", "--contact", "2", "--speed", "medium", "--full"];
        let (code, shown) = run(&bank);
        assert_eq!(code, Some(2), "{shown}");
        assert!(shown.contains(told) && shown.len() < 2000, "{shown}");
        // The equipment and the rule of a plan.
        for at in [0, 1] {
            place.write("inside/plan.json", named(&undigested.join("\n"), at, name).as_bytes());
            let (code, shown) = run(&["sweep", "plan.json", "--into", "swept"]);
            assert_eq!(code, Some(2), "{at} {shown}");
            assert!(shown.contains(told) && shown.len() < 2000, "{at} {shown}");
        }
    }
}
