//! `railproof test`: many scenarios, in order, with their failures and a `JUnit` file.

use super::support::{FAILS, HOLDS, Place, scenario};

fn three() -> Place {
    let place = Place::new();
    place.write("all/c.lua", &scenario("2.2", HOLDS));
    place.write("all/b/fails.lua", &scenario("2.2", &format!("{HOLDS}\n{FAILS}")));
    place.write("all/a.lua", "local x = inches(gridd)\n");
    place
}

#[test]
fn scenarios_are_told_with_what_failed() {
    let place = three();
    let ended = place.run(&["test", "all"]).code(2);
    let at = |text: &str| ended.out.find(text).unwrap_or_else(|| panic!("{text}: {ended:#?}"));
    at("all/a.lua");
    at("all/c.lua");
    assert!(ended.out.contains("all/b/fails.lua:7:"), "the failed line: {ended:#?}");
    assert!(ended.out.contains("did you mean"), "{ended:#?}");
    assert!(ended.out.contains("3 scenarios: 1 ok, 1 failed, 1 could not run"), "{ended:#?}");
    assert!(!place.path("out").exists(), "testing writes no pictures");
    std::fs::remove_file(place.path("all/a.lua")).unwrap();
    place.run(&["test", "all"]).code(1);
    std::fs::remove_file(place.path("all/b/fails.lua")).unwrap();
    place.run(&["test", "all"]).code(0);
    std::fs::remove_file(place.path("all/c.lua")).unwrap();
    place.run(&["test", "all"]).code(2);
    place.run(&["test", "nowhere"]).code(2);
}

#[test]
fn the_junit_file_counts_what_the_terminal_counts() {
    let place = three();
    place.run(&["test", "all", "--junit", "results.xml"]).code(2);
    let text = place.read("results.xml");
    let document = roxmltree::Document::parse(&text).unwrap();
    let root = document.root_element();
    assert_eq!(root.tag_name().name(), "testsuites");
    let count = |name: &str| root.attribute(name).unwrap().parse::<usize>().unwrap();
    assert_eq!((count("tests"), count("failures"), count("errors")), (4, 1, 1));
    let suites: Vec<&str> = root
        .children()
        .filter(roxmltree::Node::is_element)
        .map(|suite| suite.attribute("name").unwrap())
        .collect();
    assert_eq!(suites, ["all/a.lua", "all/b/fails.lua", "all/c.lua"]);
    let failure = document.descendants().find(|node| node.has_tag_name("failure")).unwrap();
    assert!(failure.attribute("message").unwrap().contains("long by"), "{text}");
    let case = failure.parent_element().unwrap();
    assert!(case.attribute("name").unwrap().starts_with("contact 1.5; "), "{text}");
    assert_eq!(case.attribute("line"), Some("7"), "{text}");
    assert_eq!(case.attribute("file"), Some("all/b/fails.lua"), "{text}");
    assert!(document.descendants().all(|node| node.attribute("timestamp").is_none()), "{text}");
}

/// A fault in a profile or a baseline stands at its line there, and not at that line of the scenario.
#[test]
fn places_in_other_files_are_told_as_such() {
    let place = Place::new();
    let profile = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios/profiles/harbour-hall.yaml");
    let profile = std::fs::read_to_string(profile).unwrap();
    let wrong = |line: &str| line.trim_start().starts_with("restitution:");
    let line = 1 + profile.lines().position(wrong).unwrap();
    let spoilt: Vec<&str> =
        profile.lines().map(|line| if wrong(line) { "  restitution: x" } else { line }).collect();
    place.write("all/own.yaml", &spoilt.join("\n"));
    let told_line = line.to_string();
    place.write("all/a.lua", "equipment \"own.yaml\"\n");
    let ended = place.run(&["test", "all", "--annotations", "--junit", "results.xml"]).code(2);
    let at = |out: &str| out.lines().find(|line| line.starts_with("::error")).unwrap().to_owned();
    assert!(at(&ended.out).contains(&format!("file=all/own.yaml,line={line}::")), "{ended:#?}");
    let results = place.read("results.xml");
    let document = roxmltree::Document::parse(&results).unwrap();
    let case = document.descendants().find(|node| node.has_tag_name("testcase")).unwrap();
    let read = |name| case.attribute(name).unwrap();
    assert_eq!(
        (read("file"), read("line"), read("classname")),
        ("all/own.yaml", told_line.as_str(), "all/a.lua")
    );
    let ended = place.run(&["test", "all", "--json"]).code(2);
    let told: serde_json::Value = serde_json::from_str(&ended.out).unwrap();
    let stopped = &told["scenarios"][0]["stopped"];
    assert_eq!((&stopped["file"], &stopped["line"]), (&"all/own.yaml".into(), &line.into()));
    // In the scenario itself.
    place.write("all/a.lua", "\nlocal x = inches(gridd)\n");
    let ended = place.run(&["test", "all", "--annotations"]).code(2);
    assert!(at(&ended.out).contains("file=all/a.lua,line=2::"), "{ended:#?}");
}

/// Texts that no expectation contains are an error of the whole, and every result is told all the same.
#[test]
fn what_no_expectation_says_loses_no_result() {
    let place = three();
    let words = ["test", "all", "--expecting", "zzzz", "--junit", "results.xml"];
    let ended = place.run(&words).code(2);
    assert!(ended.err.contains("no expectation contains `zzzz`"), "{ended:#?}");
    assert!(ended.out.contains("(states none that is counted)"), "{ended:#?}");
    assert!(ended.out.contains("3 scenarios: 2 ok"), "{ended:#?}");
    let results = place.read("results.xml");
    let document = roxmltree::Document::parse(&results).unwrap();
    let of = |name| document.descendants().filter(|node| node.has_tag_name(name)).count();
    assert_eq!((of("testsuite"), of("error")), (4, 2), "{results}");
    let ended = place.run(&[&words[..], &["--json"]].concat()).code(2);
    let told: serde_json::Value = serde_json::from_str(&ended.out).unwrap();
    assert_eq!(told["scenarios"].as_array().unwrap().len(), 3);
    assert_eq!(told["troubles"], serde_json::json!(["no expectation contains `zzzz`"]));
}

/// What the search leaves out is told to every reader.
#[cfg(unix)]
#[test]
fn what_the_search_leaves_out_is_told_to_every_reader() {
    let place = Place::new();
    place.write("all/own.lua", &scenario("2.2", HOLDS));
    place.write("else/other.lua", &scenario("2.2", HOLDS));
    std::os::unix::fs::symlink("../else/other.lua", place.path("all/linked.lua")).unwrap();
    let ended = place.run(&["test", "all", "--junit", "results.xml", "--annotations"]).code(2);
    let left_out = "`all/linked.lua` is a link to a file elsewhere and was left out";
    assert!(ended.err.contains(left_out) && ended.out.contains("1 ok"), "{ended:#?}");
    assert!(ended.out.contains("::error::`all/linked.lua`"), "{ended:#?}");
    let results = place.read("results.xml");
    assert!(
        results.contains("the run as a whole") && results.contains("errors=\"1\""),
        "{results}"
    );
    let ended = place.run(&["test", "all", "--json"]).code(2);
    let told: serde_json::Value = serde_json::from_str(&ended.out).unwrap();
    assert_eq!(told["troubles"], serde_json::json!([left_out]));
    // Allowed, or named.
    let ended = place.run(&["test", "all", "--read", "else"]).code(0);
    assert!(ended.out.contains("2 ok"), "{ended:#?}");
    place.run(&["test", "all/linked.lua"]).code(0);
    let ended = place.run(&["test", "all", "--read", "else", "--list"]).code(0);
    assert_eq!(ended.out, "all/linked.lua  (a link)\nall/own.lua\n");
}

#[test]
fn the_same_results_give_the_same_junit_on_any_number_of_threads() {
    let place = three();
    // All but the times, and the order in which the scenarios end.
    let results = |threads: &str| {
        let ended =
            place.run(&["test", "all", "--junit", "results.xml", "--threads", threads]).code(2);
        let mut lines: Vec<String> = ended.out.lines().map(str::to_owned).collect();
        lines.sort();
        let text = place.read("results.xml");
        let mut parts = text.split(" time=\"");
        let first = parts.next().unwrap().to_owned();
        let untimed = parts.map(|part| part.split_once('"').unwrap().1);
        (lines, untimed.fold(first, |text, part| text + part))
    };
    assert_eq!(results("1"), results("4"));
}

#[test]
fn expectations_in_a_loop_are_cases_of_their_own() {
    let looped = format!("for i = 1, 3 do {HOLDS} end");
    let place = Place::with(&scenario("2.2", &looped));
    place.run(&["test", "bank.lua", "--junit", "results.xml"]).code(0);
    let text = place.read("results.xml");
    let document = roxmltree::Document::parse(&text).unwrap();
    let mut names: Vec<&str> = document
        .descendants()
        .filter(|node| node.has_tag_name("testcase"))
        .map(|case| case.attribute("name").unwrap())
        .collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), 3, "{text}");
}

#[test]
fn hostile_words_make_no_broken_xml() {
    let then = "print('\\27[2J') error('<&\\0\\27]]>\"')";
    let place = Place::with(&scenario("2.2", then));
    let ended = place.run(&["test", ".", "--junit", "results.xml"]).code(2);
    assert!(!ended.out.contains('\u{1b}'), "{ended:#?}");
    let text = place.read("results.xml");
    roxmltree::Document::parse(&text).unwrap();
}

#[cfg(unix)]
#[test]
fn every_file_that_is_named_like_a_scenario_is_one_and_each_has_one_line() {
    let place = Place::new();
    for name in ["a.lua", "UP.LUA", ".lua", "of\ntwo.lua", "of two.lua", "notes.txt"] {
        place.write(&format!("all/{name}"), "print(1)");
    }
    let ended = place.run(&["test", "all", "--list"]).code(0);
    let listed: Vec<&str> = ended.out.lines().collect();
    let wanted = ["all/.lua", "all/UP.LUA", "all/a.lua", "all/of\\ntwo.lua", "all/of two.lua"];
    assert_eq!(listed, wanted);
    let ended = place.run(&["test", "all"]).code(0);
    assert!(ended.out.contains("5 scenarios: 5 ok"), "{ended:#?}");
}

/// Only results are replaced by results: a slip of the name costs nobody their notes.
#[test]
fn a_file_of_something_else_is_not_replaced() {
    let place = Place::with(&scenario("2.2", HOLDS));
    place.write("notes.txt", "contact 2, start 4.4\n");
    let refused = place.run(&["test", "bank.lua", "--junit", "notes.txt"]).code(2);
    assert!(refused.err.contains("`notes.txt` holds no test results"), "{refused:#?}");
    assert_eq!(place.read("notes.txt"), "contact 2, start 4.4\n");
    for earlier in ["", "<?xml version=\"1.0\"?><testsuites/>\n"] {
        place.write("results.xml", earlier);
        place.run(&["test", "bank.lua", "--junit", "results.xml"]).code(0);
        assert!(place.read("results.xml").contains("<testcase"));
    }
}
