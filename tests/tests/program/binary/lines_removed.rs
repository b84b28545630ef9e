//! A scenario without one of its lines, each in turn: it leaves a whole picture and says so, or it tells the
//! place and a remedy, and no picture of an earlier run passes as its own.

use super::support::Place;

/// Runs the text without one line over the files of a whole run.
fn without_each_line(place: &Place, scenario: &str, folder: &str) {
    let text = place.read(scenario);
    let whole = place.run(&["run", scenario]);
    assert!(matches!(whole.code, Some(0 | 1)), "{whole:?}");
    for gone in text.lines().filter(|line| !line.is_empty() && !line.starts_with("--")) {
        std::fs::remove_dir_all(place.path(folder)).unwrap();
        place.write(scenario, &text);
        place.run(&["run", scenario]);
        let before = place.read(&format!("{folder}/run.json"));
        place.write(scenario, &text.replacen(&format!("{gone}\n"), "", 1));
        let ended = place.run(&["run", scenario]);
        let said = format!("{}\n{}", ended.out, ended.err);
        let is_picture = |name: &&String| name.rsplit('.').next() == Some("png");
        let pictures = place.files(folder).keys().filter(is_picture).count();
        let fresh = place.read(&format!("{folder}/run.json")) != before;
        if ended.code == Some(2) {
            let told = said.contains("Help: ") || said.contains("left out: line ");
            assert!(
                told && (said.contains("mine.lua:") || said.contains("line ")),
                "{gone}\n{said}"
            );
        }
        assert!(
            fresh || said.contains("nothing was drawn now; from an earlier run: "),
            "without {gone}: {said}"
        );
        let spoken = ended.code == Some(2) || said.contains("no picture was asked for");
        assert!(pictures > 0 || spoken, "without {gone}: {said}");
    }
}

#[test]
fn the_starter_without_a_line() {
    let place = Place::new();
    place.run(&["new", "lesson"]).code(0);
    without_each_line(&place, "lesson/mine.lua", "lesson/out/mine");
}

#[test]
fn the_first_scenario_without_a_line() {
    let place = Place::new();
    place.write("mine.lua", include_str!("../../../../scenarios/first.lua"));
    let baseline = include_str!("../../../../scenarios/baselines/first.baseline");
    place.write("baselines/first.baseline", baseline);
    without_each_line(&place, "mine.lua", "out/mine");
}

#[test]
fn an_own_table_stands_in_for_a_line_that_is_gone() {
    let place = Place::new();
    place.run(&["new", "lesson"]).code(0);
    let text = place.read("lesson/mine.lua");
    place.write(
        "lesson/mine.lua",
        &text.replace("local my_table = equipment \"my-table.yaml\"\n", ""),
    );
    let ended = place.run(&["run", "lesson/mine.lua"]).code(2);
    let words = ended.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("`my_table`; the table my-table.yaml stands in"), "{ended:?}");
    assert!(place.read("lesson/out/mine/run.json").contains("My table"));
}

#[test]
fn a_removed_first_line_of_a_table_is_told_by_what_was_there() {
    let place = Place::new();
    place.run(&["new", "lesson"]).code(0);
    let text = place.read("lesson/mine.lua");
    for (gone, wanted) in [
        ("scenario {\n", "put it back, such as: scenario {"),
        ("local banks = grid {\n", "put it back, such as: local banks = grid {"),
    ] {
        place.write("lesson/mine.lua", &text.replacen(gone, "", 1));
        let ended = place.run(&["run", "lesson/mine.lua"]).code(2);
        assert!(ended.err.contains(wanted), "{ended:?}");
    }
}

#[test]
fn a_picture_that_is_no_longer_asked_for_goes_and_is_told() {
    let place = Place::new();
    place.run(&["new", "."]).code(0);
    place.run(&["run", "mine.lua"]);
    let text = place.read("mine.lua");
    let draw = "map:draw { x = \"speed\", y = \"contact\", panels = \"off_rail\" }\n";
    place.write("mine.lua", &text.replace(draw, ""));
    let ended = place.run(&["run", "mine.lua"]).code(0);
    assert!(ended.out.contains("no picture was asked for: map:draw { x = \"speed\""), "{ended:?}");
    assert!(!place.files("out/mine").contains_key("map.png"));
}

/// A picture of the coach's own in the folder is none of the program's.
#[test]
fn only_pictures_of_an_earlier_run_are_told_of() {
    let place = Place::new();
    place.run(&["new", "."]).code(0);
    place.run(&["run", "mine.lua"]);
    place.write("out/mine/own.png", "mine");
    let ended = place.run(&["run", "mine.lua"]);
    assert!(!format!("{}{}", ended.out, ended.err).contains("own.png"), "{ended:?}");
    place.write("mine.lua", "local = 1\n");
    let ended = place.run(&["run", "mine.lua"]).code(2);
    assert!(
        ended.out.contains("nothing was drawn now; from an earlier run: out/mine/map.png\n"),
        "{ended:?}"
    );
    std::fs::remove_file(place.path("out/mine/run.json")).unwrap();
    let ended = place.run(&["run", "mine.lua"]).code(2);
    assert!(!ended.out.contains("nothing was drawn now"), "{ended:?}");
    assert_eq!(place.read("out/mine/own.png"), "mine");
}

/// Of inputs with a usual value only those that a picture shows are missed.
#[test]
fn a_usual_value_is_told_where_a_picture_shows_it() {
    let draw = "map:draw { x = \"speed\", y = \"contact\", panels = \"off_rail\" }\n";
    let text = |inputs: &str, then: &str| {
        format!(
            "local map = compare(grid {{ equipment = equipment \"nine-foot\", contact = {{ 2, 3 }}, \
             {inputs} speed = mps(3) }}, rule.linear {{ slope = 2.2 }})\n{then}"
        )
    };
    let place = Place::new();
    let run = |inputs: &str, then: &str| {
        place.write("mine.lua", &text(inputs, then));
        let ended = place.run(&["run", "mine.lua"]);
        let said = format!("{} {}", ended.out, ended.err);
        let words =
            said.split_whitespace().filter(|word| *word != "│").collect::<Vec<_>>().join(" ");
        (ended.code, words)
    };
    let (code, words) = run("", draw);
    assert_eq!(code, Some(2), "{words}");
    assert!(
        words.contains("`off_rail` is missing in the grid; frozen to the rail stands in"),
        "{words}"
    );
    assert!(words.contains("such as: off_rail = { inches(0), inches(12) },"), "{words}");
    assert!(place.files("out/mine").contains_key("map.png"));
    assert_eq!(run("off_rail = inches(0),", draw).0, Some(0));
    assert_eq!(run("", "map:draw { x = \"speed\", y = \"contact\" }\n").0, Some(0));
    let lines = "map:draw_lines { x = \"contact\", y = \"miss\", series = \"spin\" }\n";
    let (code, words) = run("", lines);
    assert_eq!(code, Some(2), "{words}");
    assert!(words.contains("`spin` is missing in the grid; stun stands in"), "{words}");
    let (code, words) = run("", "print(map:where { spin = \"roll\" }:count())\n");
    assert_eq!(code, Some(2), "{words}");
    assert!(words.contains("such as: spin = { \"stun\", \"roll\" },"), "{words}");
}

#[test]
fn only_what_is_run_and_alike_is_told_as_stood_in_for() {
    let place = Place::with(
        "local map = 1\nif pointt then print(1) end\nlocal hall = equipment 'nine-foot'\n\
         print(nobody)\nprint(hal)\n",
    );
    let ended = place.run(&["run", "bank.lua"]).code(2);
    assert!(ended.err.contains("nothing is called `pointt` here"), "{ended:?}");
    assert!(!ended.out.contains("stands in"), "{ended:?}");
}
