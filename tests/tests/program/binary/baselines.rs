//! Maps held to stored ones as a build server sees them: which parameter moved, what is a warning, what is a
//! failure, and the pictures.

use super::support::{HOLDS, Place, scenario};
use railproof_tests::ProgramRun;
use serde_json::Value;

const STORED: &str =
    r#"expect(map):matches_baseline("kept/bank.baseline", { within = millimetres(0.5) })"#;
const CHANGED: &str = r#"equipment("harbour-hall"):with { restitution = 0.9 }"#;

/// A scenario whose map is stored.
fn stored(text: &str) -> Place {
    let place = Place::with(text);
    place.run(&["run", "bank.lua", "--accept"]).code(0);
    std::fs::remove_dir_all(place.path("out")).unwrap();
    place
}

fn other_cushion() -> String {
    scenario("2.2", STORED).replace("equipment \"harbour-hall\"", CHANGED)
}

/// The words of an end, whatever their lines.
pub(super) fn flowing(ended: &ProgramRun) -> String {
    ended.out.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn expectation(ended: &ProgramRun) -> Value {
    let document: Value = serde_json::from_str(&ended.out).unwrap();
    document["scenarios"][0]["expectations"][0].clone()
}

#[test]
fn the_parameter_that_moved_is_named_wherever_results_are_told() {
    let place = stored(&scenario("2.2", STORED));
    place.write("bank.lua", &other_cushion());
    let wanted = "the cushion's restitution was 0.97, is 0.9";
    for walls in [&[][..], &["--no-walls"]] {
        let with = |own: &[&'static str]| {
            let all: Vec<&str> = own.iter().chain(walls).copied().collect();
            place.run(&all).code(1)
        };
        for quietly in [
            &["run", "bank.lua"][..],
            &["run", "bank.lua", "--full"],
            &["run", "bank.lua", "--quiet"],
        ] {
            assert!(flowing(&with(quietly)).contains(wanted), "{quietly:?} {walls:?}");
        }
        let ended = with(&["test", "bank.lua", "--junit", "results.xml", "--annotations"]);
        assert!(flowing(&ended).contains(wanted), "{ended:#?}");
        let annotation = ended.out.lines().find(|line| line.starts_with("::error")).unwrap();
        assert!(annotation.contains(wanted), "{annotation}");
        assert!(ended.out.contains("--into DIR draws the maps that differ"), "{ended:#?}");
        let text = place.read("results.xml");
        let document = roxmltree::Document::parse(&text).unwrap();
        let failure = document.descendants().find(|node| node.has_tag_name("failure")).unwrap();
        assert!(failure.attribute("message").unwrap().contains(wanted), "{text}");
        let parameters = expectation(&with(&["test", "bank.lua", "--json"]))["parameters"].clone();
        let cushion = parameters.as_array().unwrap().iter().find(|it| it["name"] == "restitution");
        let cushion = cushion.unwrap();
        assert_eq!((&cushion["was"], &cushion["is"]), (&"0.97".into(), &"0.9".into()));
        assert_eq!(cushion["words"], wanted);
    }
    let record: Value = serde_json::from_str(&place.read("out/bank/run.json")).unwrap();
    assert_eq!(record["expectations"][0]["baseline"]["parameters"][1]["words"], wanted);
}

/// Natural edits of a scenario, each with its exit code and words that the test of it says.
#[test]
fn natural_edits_say_what_they_moved() {
    let text = scenario("2.2", STORED);
    let place = stored(&text);
    let edits: &[(&str, &str, i32, &str)] = &[
        (
            "local banks",
            "-- a comment\n\n-- and another\nlocal banks",
            0,
            "1 of 1 expectation held",
        ),
        ("speed = { mps(2), mps(4) },", "\n\n  speed = { mps(2), mps(4) }, -- two", 0, "ok"),
        ("slope = 2.2", "slope = 2.3", 1, "the rule's slope was 2.2, is 2.3"),
        ("slope = 2.2", "slope = 2.2, offset = 0.1", 1, "the rule's offset was 0, is 0.1"),
        (
            "slope = 2.2",
            "slope = 2.2, name = \"club\"",
            0,
            "the rule `2.2 × contact, groove` is called `club` now",
        ),
        (
            "speed = { mps(2), mps(4) }",
            "speed = mps(4)",
            1,
            "the speed at launch was 2 m/s and 4 m/s, is 4 m/s",
        ),
        (
            "contact = { 1.5, 2, 2.5 }",
            "contact = { 1.5, 2, 2.5, 3 }",
            1,
            "the contact number was 1.5, 2 and 2.5, is 1.5, 2, 2.5 and 3",
        ),
        ("spin = \"stun\"", "spin = \"roll\"", 1, "the roll at launch was 0, is 1"),
        ("pocket = \"corner\"", "pocket = \"side\"", 1, "the target pocket was corner, is side"),
        (
            "equipment \"harbour-hall\"",
            "equipment \"seven-foot\"",
            1,
            "the table's playing length was",
        ),
        ("rule.linear { slope = 2.2", "rule.mirror { name = \"m\"", 2, ""),
        (
            "rule.linear { slope = 2.2,",
            "rule.func { start = function(c) return 2.2 * c end,",
            0,
            "the rule was linear, is a function",
        ),
    ];
    for (from, to, code, words) in edits {
        assert!(text.contains(from), "{from}");
        place.write("bank.lua", &text.replacen(from, to, 1));
        let ended = place.run(&["test", "bank.lua"]).code(*code);
        assert!(flowing(&ended).contains(words), "{to}: {words:?} is missing in {ended:#?}");
    }
}

#[test]
fn a_function_is_known_by_its_content_on_whatever_line() {
    let function = |text: &str| {
        let linear = "rule.linear { slope = 2.2, reading = \"groove\" }";
        scenario("2.2", STORED).replace(linear, &format!("rule.func {{ start = {text} }}"))
    };
    let place = stored(&function("function(c) return 2.2 * c end"));
    let moved = format!(
        "-- lines\n-- above\n\n{}",
        function(
            "function(c)\n  -- as the club plays it\n  return 2.2 * c --[[ twice\n and a bit ]]\nend"
        )
    );
    place.write("bank.lua", &moved);
    for command in
        [&["run", "bank.lua"][..], &["test", "bank.lua"], &["test", "bank.lua", "--no-walls"]]
    {
        let ended = place.run(command).code(0);
        assert!(!ended.out.contains("function") && !ended.out.contains("baseline"), "{ended:#?}");
    }
    place.write("bank.lua", &function("function(c) return 2.3 * c end"));
    let ended = place.run(&["test", "bank.lua"]).code(1);
    assert!(flowing(&ended).contains("the rule's function changed"), "{ended:#?}");
    // Another text of the same rule is told and fails nothing.
    place.write("bank.lua", &function("function(c) return c * 2.2 end"));
    let ended = place.run(&["test", "bank.lua"]).code(0);
    assert!(flowing(&ended).contains("note: the rule's function changed; no miss moved"));
}

/// A slope, held loosely, at which a verdict has changed and no miss has moved by the tolerance.
fn at_an_edge() -> Place {
    let loose = STORED.replace("0.5", "3");
    let mut place = stored(&scenario("2.2", &loose));
    for step in 0..400 {
        let slope = |step: u32| (2.1 + 0.0005 * f64::from(step)).to_string();
        place.write("bank.lua", &scenario(&slope(step + 1), &loose));
        let ended = place.run(&["run", "bank.lua", "--quiet"]);
        if ended.out.contains("warning") {
            return place;
        }
        place = stored(&scenario(&slope(step + 1), &loose));
    }
    panic!("no verdict changes between these slopes");
}

#[test]
fn a_verdict_that_changes_at_an_edge_is_a_warning_everywhere_and_fails_nowhere() {
    let place = at_an_edge();
    let wanted = "1 verdict changed within 0.5 mm of an edge";
    for command in [
        &["run", "bank.lua"][..],
        &["run", "bank.lua", "--full"],
        &["run", "bank.lua", "--quiet"],
        &["run", "bank.lua", "--no-walls"],
        &["test", "bank.lua"],
        &["test", "bank.lua", "--no-walls", "--threads", "1"],
    ] {
        let ended = place.run(command).code(0);
        let words = flowing(&ended);
        assert!(words.contains(wanted) && words.contains("mm from the edge"), "{ended:#?}");
    }
    let ended = place.run(&["test", "bank.lua", "--junit", "results.xml", "--annotations"]).code(0);
    assert!(ended.out.contains("1 of 1 expectation held, 1 warning"), "{ended:#?}");
    let warned = ended.out.lines().find(|line| line.starts_with("::warning file=bank.lua,line="));
    assert!(warned.unwrap().contains(wanted), "{ended:#?}");
    let text = place.read("results.xml");
    let document = roxmltree::Document::parse(&text).unwrap();
    let said = document.descendants().find(|node| node.has_tag_name("system-out")).unwrap();
    assert!(said.text().unwrap().contains(wanted), "{text}");
    assert!(!text.contains("<failure"), "{text}");
    let told = expectation(&place.run(&["test", "bank.lua", "--json"]).code(0));
    assert_eq!(told["held"], true);
    assert!(told["warnings"][0].as_str().unwrap().contains(wanted), "{told:#?}");
    assert!(told["parameters"][0]["name"] == "slope", "{told:#?}");
    // Accepting renews it, and then there is nothing to warn of.
    let ended = place.run(&["test", "bank.lua", "--accept"]).code(0);
    assert!(ended.out.contains("baseline written: "), "{ended:#?}");
    let ended = place.run(&["test", "bank.lua", "--accept"]).code(0);
    assert!(!ended.out.contains("warning") && !ended.out.contains("written"), "{ended:#?}");
}

#[test]
fn a_map_that_differs_is_drawn_and_linked() {
    let place = stored(&scenario("2.2", STORED));
    place.run(&["test", "bank.lua", "--into", "kept-pictures"]).code(0);
    assert!(!place.path("kept-pictures/bank/baseline-bank.png").exists(), "nothing differs");
    place.write("all/bank.lua", &other_cushion());
    place.write("all/kept/bank.baseline", &place.read("kept/bank.baseline"));
    let mut bytes = Vec::new();
    for (walls, threads) in [(None, "1"), (None, "2"), (Some("--no-walls"), "2")] {
        let mut command =
            vec!["test", "all", "--into", "kept", "--junit", "results.xml", "--threads", threads];
        command.extend(walls);
        let ended = place.run(&command).code(1);
        let path = "kept/all/bank/baseline-bank.png";
        assert!(ended.out.contains(&format!("before, after, difference: {path}")), "{ended:#?}");
        assert!(place.read("results.xml").contains(path));
        bytes.push(std::fs::read(place.path(path)).unwrap());
        let svg = place.read("kept/all/bank/baseline-bank.svg");
        let svg = roxmltree::Document::parse(&svg).unwrap();
        let said: String = svg.descendants().filter_map(|node| node.text()).collect();
        for wanted in
            ["bank.baseline: of 12 banks,", "restitution was 0.97, is 0.9", "before", "after"]
        {
            assert!(said.contains(wanted), "{wanted:?} is missing in {said}");
        }
    }
    assert!(bytes.iter().all(|one| *one == bytes[0]), "the same bytes on any threads");
    let command = ["run", "all/bank.lua", "--into", "own"];
    assert!(place.run(&command).code(1).out.contains("difference: own/baseline-bank.png"));
    assert_eq!(std::fs::read(place.path("own/baseline-bank.png")).unwrap(), bytes[0]);
    // A picture of what was accepted is kept; the next run takes it back.
    place.run(&["run", "all/bank.lua", "--into", "own", "--accept"]).code(0);
    assert!(place.path("own/baseline-bank.png").exists());
    place.run(&["run", "all/bank.lua", "--into", "own"]).code(0);
    assert!(!place.path("own/baseline-bank.png").exists());
}

#[test]
fn two_scenarios_of_one_folder_name_are_refused() {
    let place = Place::new();
    for name in ["a/one.lua", "b/a/one.lua"] {
        place.write(name, &scenario("2.2", HOLDS));
    }
    let away = place.path("b");
    let ended = program_in_folder(&away, &["test", "a", "../a", "--into", "kept"]);
    assert_eq!(ended.status.code(), Some(2));
    let words = String::from_utf8_lossy(&ended.stderr);
    assert!(words.contains("would write to the same folder"), "{words}");
}

fn program_in_folder(folder: &std::path::Path, arguments: &[&str]) -> std::process::Output {
    railproof_tests::program_in(folder).args(arguments).output().unwrap()
}

/// A file as it was written before it held numbers.
#[test]
fn a_file_of_before_is_read_told_and_renewed() {
    let place = stored(&scenario("2.2", STORED));
    let text = place.read("kept/bank.baseline");
    let old = text.replace("format 2", "format 1");
    let held =
        |line: &&str| !["# table", "# rule", "# engine"].iter().any(|it| line.starts_with(it));
    let old: Vec<&str> = old.lines().filter(held).collect();
    let old = old.join("\n") + "\n";
    place.write("kept/bank.baseline", &old);
    let ended = place.run(&["test", "bank.lua", "--annotations"]).code(0);
    let note = "holds no numbers of its table and rule; --accept stores them";
    assert!(flowing(&ended).contains(note), "{ended:#?}");
    assert!(
        ended.out.lines().any(|it| it.starts_with("::notice file=bank.lua") && it.contains(note))
    );
    place.write("bank.lua", &other_cushion());
    let ended = place.run(&["test", "bank.lua"]).code(1);
    assert!(flowing(&ended).contains("so the parameter that moved can't be told"), "{ended:#?}");
    place.write("bank.lua", &scenario("2.2", STORED));
    place.run(&["test", "bank.lua", "--accept"]).code(0);
    assert_eq!(place.read("kept/bank.baseline"), text);
}
