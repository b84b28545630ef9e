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

/// The rule that a page is of unless it says otherwise.
#[test]
fn a_page_without_a_rule_takes_the_usual_one() {
    let place = Place::new();
    place.run(&["new", "d"]).code(0);
    let whole = place.run(&["run", "d/lesson.lua"]).code(0).out;
    let text = place.read("d/lesson.lua");
    let rule = text.lines().find(|line| line.contains("rule.linear")).unwrap();
    place.write("d/lesson.lua", &text.replace(rule, ""));
    assert_eq!(place.run(&["run", "d/lesson.lua"]).code(0).out, whole);
}

#[test]
fn what_cannot_be_read_stands_in() {
    says("\"medium\", ", "\"fast\", ", &["not the text \"fast\"; medium stands in"]);
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
