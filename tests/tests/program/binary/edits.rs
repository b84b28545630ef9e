//! The first scenario after the edits that a person makes first: each leaves pictures and rows, and says
//! what it leaves out and why.

use super::support::Place;
use railproof_tests::ProgramRun;

const FIRST: &str = include_str!("../../../../scenarios/first.lua");

/// The first scenario with a piece of its text changed, run.
#[track_caller]
fn run(from: &str, to: &str, code: i32) -> ProgramRun {
    assert!(FIRST.contains(from), "the first scenario no longer says {from:?}");
    let place = Place::new();
    place.write(
        "baselines/first.baseline",
        include_str!("../../../../scenarios/baselines/first.baseline"),
    );
    place.write("mine.lua", &FIRST.replacen(from, to, 1));
    let ended = place.run(&["run", "mine.lua"]).code(code);
    let files = place.files("out/mine");
    let of = |ending: &str| files.keys().filter(|name| name.ends_with(ending)).count();
    assert!(
        of(".png") >= 1 && of(".svg") >= 1 && of(".csv") == 1,
        "{ended:#?}\n{:?}",
        files.keys()
    );
    assert!(files.contains_key("run.json"), "{:?}", files.keys());
    ended
}

/// The words of an end, whatever their lines.
fn flowing(ended: &ProgramRun) -> String {
    ended.out.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[track_caller]
fn says(from: &str, to: &str, code: i32, wanted: &[&str]) {
    let ended = run(from, to, code);
    for words in wanted {
        assert!(flowing(&ended).contains(words), "{words:?} is missing in:\n{}", ended.out);
    }
}

#[test]
fn other_contacts() {
    says("span(1.25, 3.5, 0.25)", "span(1.5, 3, 0.5)", 1, &["5 of 6 expectations held"]);
    let left_out = "left out: line 23: `contact` asks for 2, which is not played (played: 3; ask for one of them, or delete the line)";
    says("span(1.25, 3.5, 0.25)", "3", 2, &[left_out, "line 33: `contact` asks for 2"]);
}

#[test]
fn other_distances() {
    let line = "left out: line 33: `off_rail` asks for 10 in, which is not played \
                (played: 0, 4, 8 in; ask for one of them, or delete the line), so lines 34, 35 and 36 say nothing";
    says(
        "{ inches(0), inches(5), inches(10) }",
        "{ inches(0), inches(4), inches(8) }",
        2,
        &[line, "2 of 3 expectations held, 1 FAILED, 1 thing left out"],
    );
}

#[test]
fn other_speeds() {
    let line = "line 36: `speed` asks for 6 m/s, which is not played";
    says("span(mps(2), mps(6), mps(0.25))", "span(mps(1), mps(4), mps(0.5))", 2, &[line]);
    says("span(mps(2), mps(6), mps(0.25))", "mps(3)", 2, &["line 34: `speed` asks for 2 m/s"]);
}

#[test]
fn another_table_slope_spin_or_pocket() {
    says("\"harbour-hall\"", "\"seven-foot\"", 1, &["FAILED: all 510 banks: as stored"]);
    says("slope = 2.2", "slope = 2", 1, &["FAILED: frozen to the rail"]);
    let plain = "nothing broke: in a copy whose numbers you change, take this line out";
    says("slope = 2.2", "slope = 2.1", 1, &[plain]);
    says("span(mps(2), mps(6), mps(0.25))", "span(mps(2), mps(6), mps(0.5))", 1, &[plain]);
    let all = "Holds in none of the 3 cases. All go long. 0 of 510 banks hold";
    says("\"stun\"", "\"roll\"", 1, &["FAILED: frozen to the rail", all]);
    says("\"corner\"", "\"side\"", 1, &["FAILED: all 510 banks: as stored"]);
}

#[test]
fn a_line_removed() {
    let distances = "  off_rail = { inches(0), inches(5), inches(10) },\n";
    // Both pictures lack it, and it is told once.
    let once = ["line 32: `off_rail` asks for 10 in, which is not played", "2 things left out"];
    says(distances, "", 2, &once);
    let frozen = "local frozen = map:where { off_rail = inches(0) }\n";
    let silent = "line 28: nothing is called `frozen` (a line above this gives it a value, such as: local \
                  frozen = map:where { off_rail = inches(0) }), so line 29 says nothing";
    says(frozen, "", 2, &[silent, "4 of 4 expectations held"]);
    let map = "local map = compare(banks, ratio)\n";
    says(map, "", 2, &["`map`; `compare(banks, ratio)` stands in", "6 of 6 expectations held"]);
}

#[test]
fn another_panel() {
    says("inches(10) }", "inches(10), inches(15) }", 1, &["5 of 6 expectations held"]);
    let stand_in = "a plain picture of all 510 banks stands in for those that are missing";
    says(
        "panels = \"off_rail\"",
        "panels = { \"off_rail\", \"contact\" }",
        2,
        &["left out: line 22: `panels` must be text in quotes", stand_in],
    );
    says(
        "spin     = \"stun\"",
        "spin     = { \"stun\", \"roll\" }",
        1,
        &[
            "note: line 22: 2 pictures, one for each `spin`",
            "note: line 23: 2 pictures, one for each `spin`",
            "out/mine/map.png (12 files there, also ",
            "Stun. Frozen: nearly any speed.",
            "Natural roll. Holds in none of the 3 cases. All go long.",
        ],
    );
}

/// Where the banks go is always told, so that a pocket which is no longer given is seen.
#[test]
fn the_pocket_is_told_with_and_without_its_line() {
    let place = "On Harbour Hall (invented), off the long rail into the corner pocket. Contact 1.25 from 2.75 \
                 (diamonds ";
    says("  pocket   = \"corner\",\n", "", 0, &[place, "6 of 6 expectations held"]);
    says("  pocket   = \"corner\",\n", "  pocket   = \"corner\",\n\n", 0, &[place]);
    says("\"corner\"", "\"side\"", 1, &["off the long rail into the side pocket."]);
    says("\"corner\"", "{ \"corner\", \"side\" }", 1, &["into the corner and side pockets."]);
}

/// A scenario after each change of a name in one place only: where it is given, or where it is read first.
#[track_caller]
fn names_changed_half_way(text: &str, names: &[&str], place: &Place) {
    for name in names {
        let given = text.find(&format!("local {name} ")).expect(name) + "local ".len();
        let after = given + name.len();
        let reads = [")", ",", ":"].map(|next| text[after..].find(&format!("{name}{next}")));
        let read = after + reads.into_iter().flatten().min().expect(name);
        let other = format!("{}club{}", &text[..given], &text[after..]);
        let slipped = format!("{}s{}", &text[..read + name.len()], &text[read + name.len()..]);
        for (changed, wanted) in [
            (other, format!("nothing is called `{name}`; `club` of line")),
            (slipped, format!("nothing is called `{name}s`; `{name}` of line")),
        ] {
            place.write("mine.lua", &changed);
            let ended = place.run(&["run", "mine.lua"]).code(2);
            assert!(flowing(&ended).contains(&wanted), "{wanted:?} is missing in:\n{ended:#?}");
            let mut files = place.files("out/mine").into_keys();
            assert!(files.any(|name| name.contains(".png")), "{name}: {ended:#?}");
            std::fs::remove_dir_all(place.path("out")).unwrap();
        }
    }
}

#[test]
fn a_name_changed_half_way_is_played_with_its_other_half() {
    let place = Place::new();
    place.run(&["new", "."]).code(0);
    let starter = place.read("mine.lua");
    names_changed_half_way(&starter, &["my_table", "ratio", "banks", "map"], &place);
    let text = FIRST.split("-- The same numbers").next().unwrap();
    names_changed_half_way(text, &["hall ", "ratio", "banks", "ten_inches"].map(str::trim), &place);
    let other = include_str!("../../../../scenarios/readings.lua");
    names_changed_half_way(other, &["hall", "groove"], &place);
}

/// A map that is read by another name in a claim only is played; a part of one that is gone is not guessed.
#[test]
fn a_map_by_another_name_in_a_claim_is_played() {
    let place = Place::new();
    place.run(&["new", "."]).code(0);
    let starter = place.read("mine.lua");
    let run = |name: &str| {
        place.write("mine.lua", &starter.replace("expect(map:", &format!("expect({name}:")));
        place.run(&["run", "mine.lua"]).code(2)
    };
    let ended = run("chart");
    let words = flowing(&ended);
    assert!(words.contains("line 39: nothing is called `chart`; `map` of line"), "{words}");
    assert!(words.contains("1 of 1 expectation held, 1 thing left out"), "{words}");
    assert!(place.files("out/mine").contains_key("map.png"), "{ended:#?}");
    for part in ["ten_inches", "soft", "row3"] {
        let words = flowing(&run(part));
        assert!(words.contains(&format!("nothing is called `{part}` (a line above")), "{words}");
    }
}

/// Several names at once, each given by another name than it is read by, or one of both half of the times.
#[test]
fn several_names_changed_half_way_are_played_and_drawn() {
    let place = Place::new();
    place.run(&["new", "."]).code(0);
    let starter = place.read("mine.lua");
    let names =
        [("my_table", "hall"), ("ratio", "my_rule"), ("banks", "my_banks"), ("map", "chart")];
    for chosen in 3..16_usize {
        let picked: Vec<_> =
            (0..4).filter(|at| chosen >> at & 1 == 1).map(|at| names[at]).collect();
        if picked.len() < 2 {
            continue;
        }
        let mut text = starter.clone();
        for (old, new) in &picked {
            text = text.replacen(&format!("local {old} "), &format!("local {new} "), 1);
        }
        // One use of the map under its new name, the other under its old one.
        let half = text.replace("expect(map:", "expect(chart:");
        let texts = if picked.contains(&names[3]) { vec![text, half] } else { vec![text] };
        for text in texts {
            place.write("mine.lua", &text);
            let ended = place.run(&["run", "mine.lua"]).code(2);
            for (old, new) in &picked {
                let line = text.lines().position(|it| it.contains(&format!("local {new} ")));
                let line = line.expect("it is given") + 1;
                let wanted = format!("nothing is called `{old}`; `{new}` of line {line} stands in");
                assert!(flowing(&ended).contains(&wanted), "{wanted:?}: {ended:#?}");
            }
            assert!(flowing(&ended).contains("1 of 1 expectation held"), "{ended:#?}");
            assert!(place.files("out/mine").contains_key("map.png"), "{ended:#?}");
            std::fs::remove_dir_all(place.path("out")).unwrap();
        }
    }
}

#[test]
fn a_value_under_a_name_of_the_programs_own_is_told_and_played() {
    let place = Place::new();
    let text = "scenario { shows = 'two tables' }
local equipment = equipment 'nine-foot'
local other = equipment 'seven-foot'
local rule = rule.linear { slope = 2.2 }
local banks = grid {
  equipment = { equipment, other }, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3),
}
local map = compare(banks, rule)
map:draw { x = 'contact', y = 'equipment' }
";
    place.write("mine.lua", text);
    let ended = place.run(&["run", "mine.lua"]).code(2);
    let wanted = "left out: line 3: `equipment` has been the name of a value since line 2; railproof's own stands \
                  in here (give that value another name, such as `my_equipment`, wherever you use it)";
    assert!(flowing(&ended).contains(wanted), "{ended:#?}");
    assert!(place.files("out/mine").contains_key("map.png"), "{ended:#?}");
    // No plan is made of it.
    let ended = place.run(&["plan", "mine.lua"]).code(2);
    assert!(ended.err.contains("since line 2, and no function"), "{ended:#?}");
    // The remedy works.
    let own = text.replace("local equipment ", "local my_equipment ");
    place.write("mine.lua", &own.replace("{ equipment, other }", "{ my_equipment, other }"));
    place.run(&["run", "mine.lua"]).code(0);
}

#[test]
fn no_plan_is_made_of_a_guess() {
    let place = Place::new();
    place.write("mine.lua", &FIRST.replace("compare(banks,", "compare(bnks,"));
    let ended = place.run(&["plan", "mine.lua"]).code(2);
    assert!(ended.err.contains("did you mean `banks`?"), "{ended:#?}");
    place.write("mine.lua", &FIRST.replace("  speed    = span(mps(2), mps(6), mps(0.25)),\n", ""));
    let ended = place.run(&["plan", "mine.lua"]).code(2);
    assert!(ended.err.contains("such as: speed = span(mps(2), mps(6), mps(0.25)),"), "{ended:#?}");
}

#[test]
fn an_input_removed_is_stood_in_for() {
    let without = |line: &str, wanted: &str| says(line, "", 2, &[wanted]);
    without(
        "  speed    = span(mps(2), mps(6), mps(0.25)),\n",
        "line 11: `speed` is missing; soft, medium and firm stand in (1.5, 3 and 4.5 m/s) (put a line \
         back in the braces, such as: speed = span(mps(2), mps(6), mps(0.25)),)",
    );
    without(
        "  contact  = span(1.25, 3.5, 0.25),\n",
        "`contact` is missing; 1.5, 2, 2.5 and 3 stand in",
    );
    without("  equipment = hall,\n", "`equipment` is missing; Harbour Hall (invented) stands in");
    without(
        "  shows = \"where 2.2 × contact holds in an invented hall, and how distance off the rail breaks it\",\n",
        "scenario needs `shows`: text in quotes",
    );
}

#[test]
fn what_is_left_out_never_passes_a_test() {
    let place = Place::new();
    let text = FIRST.replace("inches(5), inches(10)", "inches(4), inches(8)");
    let text = text.split("-- The same numbers").next().unwrap();
    place.write("all/mine.lua", text);
    place.write("all/stops.lua", &format!("{text}\nprint(nobody)\n"));
    let ended = place.run(&["test", "all", "--junit", "results.xml"]).code(2);
    let words = flowing(&ended);
    assert!(words.contains("ERROR all/mine.lua 2 of 2 expectations held, 1 thing left out"));
    assert!(
        words.contains(
            "2 scenarios: 0 ok, 0 failed, 1 could not run to the end, 1 left something out"
        )
    );
    let text = place.read("results.xml");
    let document = roxmltree::Document::parse(&text).unwrap();
    let root = document.root_element();
    let count = |name: &str| root.attribute(name).unwrap().parse::<usize>().unwrap();
    assert_eq!((count("tests"), count("failures"), count("errors")), (7, 0, 3), "{text}");
    assert!(
        text.contains("left out: `off_rail` asks for 10 in") && text.contains("line=\"33\""),
        "{text}"
    );
    assert!(
        text.contains("name=\"frozen to the rail") && text.contains("line=\"29\""),
        "held before the error: {text}"
    );
}
