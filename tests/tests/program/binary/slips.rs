//! Help for the slips that people make first: obeyed, it works.

use super::support::{HOLDS, Place, scenario};

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
    told("local club = 1\nlocal bar = 2\nprint(hall)\n", "text goes in quotes");
}

#[test]
fn a_sweep_of_shots_keeps_a_point_without_a_shot_as_a_row() {
    let sweep = |tips: &str| {
        format!(
            "local hall = equipment \"nine-foot\"\nlocal ratio = rule.linear {{ slope = 2.2 }}\nshots {{\n  \
             over = {{ tip = {tips} }},\n  shot = function(point)\n    return bank_shot {{ equipment = hall, \
             contact = 2.5, rule = ratio, off_rail = inches(6), cue_distance = inches(14) }},\n      \
             {{ speed = mps(3), tip_side = point.tip, send = \"line\" }}\n  end,\n}}\n"
        )
    };
    let place = Place::with(&sweep("{ 0.1, 0.8 }"));
    let ended = place.run(&["run", "bank.lua", "--full"]).code(0);
    assert!(ended.out.contains("1 of 2 points have no shot: at tip 0.8: a miscue"), "{ended:#?}");
    let rows = place.read("out/bank/shots.csv");
    assert!(rows.lines().count() == 3 && rows.contains("no-shot"), "{rows}");
    // A function that makes no shot at all is a slip.
    place.write("bank.lua", &sweep("{ 0.8, 0.9 }"));
    let ended = place.run(&["run", "bank.lua"]).code(2);
    assert!(ended.err.contains("at tip 0.8: a miscue"), "{ended:#?}");
    // A slip of the function itself is no answer about a shot, at however few points.
    let slip = "if point.tip > 0.3 then error(\"oops\") end\n    return bank_shot";
    place.write("bank.lua", &sweep("{ 0.1, 0.4 }").replacen("return bank_shot", slip, 1));
    let ended = place.run(&["run", "bank.lua"]).code(2);
    assert!(ended.err.contains("oops"), "{ended:#?}");
    let nothing = "if point.tip > 0.3 then local t = nil; return t.x end\n    return bank_shot";
    place.write("bank.lua", &sweep("{ 0.1, 0.4 }").replacen("return bank_shot", nothing, 1));
    place.run(&["run", "bank.lua"]).code(2);
}

#[test]
fn a_sweep_over_a_layout_is_told_what_it_lacks() {
    let place = Place::new();
    place.run(&["new", "."]).code(0);
    let told = |text: &str, wanted: &str, help: &str| {
        place.write("bank.lua", text);
        let ended = place.run(&["plan", "bank.lua"]).code(2);
        assert!(ended.err.contains(wanted) && ended.err.contains(help), "{ended:#?}");
    };
    let over = "over = { [\"stroke.speed\"]";
    told("plan { layout = \"shot.yaml\" }\n", "plan needs `over`", over);
    told(
        "plan { layout = \"shot.yaml\", over = { stroke = mps(3) } }\n",
        "`stroke` is a group of keys",
        "[\"stroke.speed\"]",
    );
}

#[test]
fn an_empty_baseline_is_written_anew_when_that_is_accepted() {
    let place = Place::with(&scenario(
        "2.2",
        &format!("{HOLDS}\nexpect(map):matches_baseline \"b.baseline\""),
    ));
    place.write("b.baseline", "\n");
    let ended = place.run(&["run", "bank.lua"]).code(2);
    assert!(ended.out.contains("`b.baseline` is empty"), "{ended:#?}");
    place.run(&["run", "bank.lua", "--accept"]);
    place.run(&["run", "bank.lua"]).code(0);
}

#[test]
fn a_range_goes_upwards() {
    let place = Place::with(&scenario("2.2", "map:where { contact = { from = 3, to = 2 } }"));
    let ended = place.run(&["run", "bank.lua"]).code(2);
    assert!(ended.out.contains("must go from the smaller to the greater"), "{ended:#?}");
}

#[test]
fn a_plan_that_is_none_is_told_in_one_message() {
    let place = Place::new();
    let verify = |folder: &str| place.run(&["verify", folder]);
    place.write("empty/plan.json", "");
    place.write("blank/plan.json", " \n");
    place.write("other/plan.json", "{}");
    std::fs::create_dir_all(place.path("bytes")).unwrap();
    std::fs::write(place.path("bytes/plan.json"), [0xff, 0xfe]).unwrap();
    std::fs::create_dir_all(place.path("folder/plan.json")).unwrap();
    let cases = [
        ("empty", "`empty/plan.json` is not a plan: it is empty"),
        ("blank", "`blank/plan.json` is not a plan: it is empty"),
        ("other", "this is not a plan"),
        ("bytes", "`bytes/plan.json` is not a plan: it is not text"),
        ("folder", "`folder` is not whole"),
    ];
    for (folder, told) in cases {
        let ended = verify(folder).code(6);
        assert!(ended.err.contains(told), "{ended:#?}");
        assert_eq!(ended.err.matches("Help: ").count(), 1, "{ended:#?}");
    }
    let ended = verify("other/plan.json").code(2);
    assert!(ended.err.contains("is a file; verify takes a sweep's folder"), "{ended:#?}");
    assert!(ended.err.contains("Help: railproof verify other"), "{ended:#?}");
}

#[cfg(unix)]
#[test]
fn a_plan_that_may_not_be_read_is_told() {
    use std::os::unix::fs::PermissionsExt;
    let place = Place::new();
    place.write("shut/plan.json", "{}");
    let path = place.path("shut/plan.json");
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o000)).unwrap();
    // Nothing is shut to the superuser.
    if std::fs::read(&path).is_err() {
        let ended = place.run(&["verify", "shut"]);
        assert!(ended.err.contains("can't read `shut/plan.json`"), "{ended:#?}");
    }
}
