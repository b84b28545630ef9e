//! The page of a lesson after the edits that a person makes: each leaves the page, and says what stands in.

use super::support::Place;

/// The starter's page with a piece of its text changed leaves a page, and says so.
#[track_caller]
fn says(from: &str, to: &str, wanted: &[&str]) {
    let place = Place::new();
    place.run(&["new", "d"]).code(0);
    let text = place.read("d/lesson.lua");
    assert!(text.contains(from), "the starter no longer says {from:?}");
    place.write("d/lesson.lua", &text.replacen(from, to, 1));
    let ended = place.run(&["run", "d/lesson.lua"]).code(2);
    let told = ended.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in wanted {
        assert!(told.contains(words), "{words:?} is missing in:\n{}", ended.out);
    }
    let page = place.read("d/out/lesson/page.svg");
    assert!(page.contains("Not as the file says: line "), "the page does not say so: {from:?}");
    assert!(place.path("d/out/lesson/page.png").exists());
}

#[test]
fn what_is_missing_stands_in() {
    says("  contact   = 2, ", "  -- ", &["`contact` is missing; 2 stands in"]);
    says("  speed     = \"medium\", ", "  -- ", &["`speed` is missing; medium stands in (3 m/s)"]);
    let table = "`equipment` is missing; Nine-foot table stands in";
    says("  equipment = equipment \"my-table.yaml\",\n", "", &[table, "1 thing left out"]);
}

/// The rule and the distance that a page is of unless it says otherwise: they are no slip, and are told.
#[test]
fn what_needs_no_saying_is_told() {
    let lines = [
        ("rule.linear", "no `rule` and no `start` is given: start = 2.2 × contact stands in"),
        ("off_rail ", "no `off_rail` is given: the ball lies frozen"),
    ];
    for (line, told) in lines {
        let place = Place::new();
        place.run(&["new", "d"]).code(0);
        let text = place.read("d/lesson.lua");
        let text = text.replacen("inches(10)", "inches(0)", 1);
        let gone = text.lines().find(|it| it.contains(line) && it.contains('='));
        place.write("d/lesson.lua", &text);
        let whole = place.run(&["run", "d/lesson.lua"]).code(0).out;
        place.write("d/lesson.lua", &text.replace(gone.unwrap(), ""));
        let ended = place.run(&["run", "d/lesson.lua"]).code(0);
        let answer = |out: &str| out.lines().take_while(|it| !it.starts_with("note:")).count();
        let lines = |out: &str| out.lines().map(str::to_owned).collect::<Vec<_>>();
        let count = answer(&ended.out);
        assert_eq!(lines(&ended.out)[..count], lines(&whole)[..count], "{line}");
        assert!(ended.out.contains(told), "{}", ended.out);
        let page = place.read("d/out/lesson/page.svg");
        assert!(!page.contains("Not as the file says"), "{line}");
    }
}

/// Units and words in quotes are read like the calls that stand for them.
#[test]
fn amounts_in_quotes_are_read() {
    let place = Place::new();
    place.run(&["new", "d"]).code(0);
    let text = place.read("d/lesson.lua");
    let page = |from: &str, to: &str| {
        assert!(text.contains(from), "{from}");
        place.write("d/lesson.lua", &text.replacen(from, to, 1));
        place.run(&["run", "d/lesson.lua"]).code(0).out
    };
    for (call, quoted) in [("inches(7.5)", "\"7.5 in\""), ("centimetres(20)", "'20 cm'")] {
        assert_eq!(page("inches(10)", call), page("inches(10)", quoted));
    }
    for (call, quoted) in [("mph(7)", "\"7 mph\""), ("lengths(3)", "\"3 lengths\"")] {
        assert_eq!(page("\"medium\"", call), page("\"medium\"", quoted));
    }
}

#[test]
fn what_cannot_be_read_stands_in() {
    says("\"medium\", ", "\"fast\", ", &["not the text \"fast\"; firm stands in"]);
    says("\"medium\", ", "\"hard\", ", &["did you mean \"firm\"?"]);
    says("inches(10), ", "10, ", &["`off_rail` needs a unit; 10 in stands in"]);
    says("\"stun\", ", "\"left\", ", &["; stun stands in"]);
    says("\"corner\", ", "\"middle\", ", &["; the corner pocket stands in"]);
    says(
        "contact   = 2, ",
        "contact   = 22, ",
        &["contact 22 is not on the left rail; 2 stands in"],
    );
    let call = "write equipment \"my-table.yaml\"";
    says("equipment \"my-table.yaml\"", "\"my-table.yaml\"", &[call, "1 thing left out"]);
}

#[test]
fn the_first_of_several_is_shown() {
    let first = "a page shows one `off_rail`, not 2; the first stands in";
    says("inches(10), ", "{ inches(10), inches(5) }, ", &[first]);
    let braces = "several values stand in braces: off_rail = { inches(10), inches(5) }";
    says("inches(10), ", "inches(10), inches(5), ", &[braces]);
}

#[test]
fn a_slip_in_a_name_is_read_as_it_is_meant() {
    says("off_rail  =", "offrail =", &["no option `offrail`; it is read as `off_rail`"]);
    says("off_rail  =", "distance =", &["no option `distance`; it is read as `off_rail`"]);
}
