//! Help for the slips that people make first: obeyed, it works.

use super::support::Place;

#[test]
fn a_layout_and_a_scenario_are_sent_to_their_own_commands() {
    let place = Place::new();
    place.write("balls.yaml", "equipment: nine-foot\n");
    place.write("mine.lua", "print(1)\n");
    let ended = place.run(&["run", "balls.yaml"]).code(2);
    assert!(ended.err.contains("railproof shot balls.yaml"), "{ended:#?}");
    let ended = place.run(&["shot", "mine.lua"]).code(2);
    assert!(ended.err.contains("railproof run mine.lua"), "{ended:#?}");
}

#[test]
fn names_of_tables_and_cushions_are_found_from_what_people_call_them() {
    let place = Place::new();
    let named = |name: &str, wanted: &str| {
        let arguments = ["bank", "--contact", "2", "--speed", "3 m/s", "--equipment", name];
        let ended = place.run(&arguments).code(2);
        assert!(ended.err.contains(&format!("did you mean `{wanted}`?")), "{ended:#?}");
    };
    named("7-foot", "seven-foot");
    named("nine-fot", "nine-foot");
    let cushion = ["bank", "--contact", "2", "--cushion", "slik-nose"];
    let ended = place.run(&cushion).code(2);
    assert!(ended.err.contains("did you mean `cushions/slick-nose`?"), "{ended:#?}");
}

#[test]
fn lengths_are_read_as_people_write_them() {
    let place = Place::new();
    let ask = |off_rail: &str| {
        place.run(&["bank", "--contact", "2", "--speed", "3 m/s", "--json", "--off-rail", off_rail])
    };
    for text in ["10.5 in", "10 1/2 in", "10½\"", "10 1/2 inches", "10.5 in."] {
        assert!(ask(text).code(0).out.contains("\"off_rail_m\": 0.2667,"), "{text}");
    }
    assert!(ask("2,5 in").code(2).err.contains("decimals take a point: `2.5 in`"));
    assert!(ask("12").code(2).err.contains("write `12 in`"));
}

#[test]
fn yaml_that_is_not_finished_is_told_its_slip() {
    let place = Place::new();
    let told = |line: &str, wanted: &str| {
        place.write("balls.yaml", &format!("equipment: nine-foot\n{line}\n"));
        let ended = place.run(&["shot", "balls.yaml"]).code(2);
        assert!(ended.err.contains(wanted), "{line}: {ended:#?}");
    };
    told("balls: {cue: {position: [0 m, 0 m]}", "on line 2 is not closed");
    told("balls: {cue: {position: [0 m, 0 m] at: 1}}", "a comma is missing");
    told("target: {pocket: \"side-right}", "no closing quote");
    told("target: {pocket: “side-right”}", "did you mean `side-right`?");
}

#[test]
fn lua_that_is_slipped_is_told_its_slip() {
    let told = |text: &str, wanted: &str| {
        let ended = Place::with(text).run(&["run", "bank.lua"]).code(2);
        assert!(ended.err.contains(wanted), "{text}: {ended:#?}");
    };
    told("local a = equipment “nine-foot”\n", "curly quotes");
    told("local speed = mps(2,5)\n", "a decimal takes a point: mps(2.5)");
    told("local club = 1\nprint(hall)\n", "line 1 gives a value to `club`, which nothing reads");
    told("local corner_map = 1\nprint(corner_mp)\n", "did you mean `corner_map`?");
}
