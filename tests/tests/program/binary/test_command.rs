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
