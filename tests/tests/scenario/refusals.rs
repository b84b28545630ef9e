//! Every complaint has its line, its column, the text it is about, and where there is one a hint.

use super::{HALL, try_run};
use railproof::exit::Exit;
use railproof::fault::Fault;
use railproof::scenario::RunOptions;

#[track_caller]
fn refused(text: &str) -> Fault {
    match try_run(text) {
        Ok(record) => panic!("this ran and printed {:?}:\n{text}", record.printed),
        Err(fault) => fault,
    }
}

/// Checks message, hint, line and underlined text of a script that follows [`HALL`]'s one line.
#[track_caller]
fn check(script: &str, line: usize, underlined: &str, message: &str, hint: &str) {
    let fault = refused(&format!("{HALL}{script}"));
    let place = fault.place.as_ref().unwrap_or_else(|| panic!("no place: {fault}"));
    let found = &place.source()[place.span()];
    assert_eq!((place.line_column().0, found), (line, underlined), "{fault}\n{script}");
    assert!(fault.message.contains(message), "{}\n{script}", fault.message);
    let shown = fault.hint.clone().unwrap_or_default();
    assert!(shown.contains(hint), "{shown}\n{script}");
    assert_eq!(fault.exit, Exit::BadInput);
}

#[test]
fn sweeps() {
    let rest = "contact = 2, speed = mps(3)";
    check("sweep { on = hall, contct = 2 }", 2, "contct", "no option `contct`", "`contact`");
    check("sweep { on = hall, contact = 2, speed = 3 }", 2, "speed", "needs a unit", "mps(3)");
    check("sweep { on = hall, contact = 2, speed = inches(3) }", 2, "speed", "a speed", "m/s");
    check(&format!("sweep {{ {rest} }}"), 2, "sweep", "`on` is missing", "");
    check("sweep { on = hall, contact = 2 }", 2, "sweep", "`speed` is missing", "");
    check("sweep { on = hall, contact = {}, speed = mps(3) }", 2, "{}", "at least one value", "");
    check(
        "sweep { on = hall, contact = 2,\n  speed = { mps(3), lengths(2) } }",
        3,
        "lengths(2)",
        "mixes table lengths",
        "depends on the table",
    );
    check(
        "sweep { on = hall, contact = 2,\n  off_rail = { inches(12), feet(1) }, speed = mps(3) }",
        3,
        "feet(1)",
        "`off_rail` has 1 ft twice",
        "",
    );
    check(
        &format!("sweep {{ on = hall, {rest},\n  spin = 'stun',\n  roll = 0.5 }}"),
        4,
        "roll",
        "`spin` and `roll` contradict",
        "`spin` stands at line 3, column 3",
    );
    check(
        &format!("sweep {{ on = hall, {rest}, lag = 2 }}"),
        2,
        "lag",
        "`speed` and `lag` contradict",
        "`speed` stands at line 2, column 33",
    );
    check(
        "sweep { on = hall, contact = { 2, 99 }, speed = mps(3) }",
        2,
        "99",
        "item 2, is 99; it must be from -40 to 40",
        "",
    );
    check("sweep { on = hall, contact = 0/0, speed = mps(3) }", 2, "0/0", "must be finite", "");
    check(
        &format!("sweep {{ on = hall, {rest}, off_rail = metres(2) }}"),
        2,
        "off_rail",
        "not on the table",
        "",
    );
    check(
        &format!("sweep {{ on = hall, {rest}, rail = 'head', pocket = 'head-left' }}"),
        2,
        "pocket",
        "opens into the head rail itself",
        "",
    );
    check(
        &format!("sweep {{ on = hall, {rest}, nose_height = millimetres(55) }}"),
        2,
        "nose_height",
        "nose_height / ball diameter",
        "",
    );
    check(
        &format!("sweep {{ on = hall, {rest}, pocket = 'cornr' }}"),
        2,
        "'cornr'",
        "\"cornr\"",
        "corner",
    );
    check(&format!("sweep {{ on = {{ hall, hall }}, {rest} }}"), 2, "hall", "twice", "");
    check(&format!("sweep {{ on = 'hall', {rest} }}"), 2, "on", "must be an equipment", "");
}

#[test]
fn sizes() {
    check(
        "compare(sweep { on = hall, contact = span(1, 3, 0.001),\n  speed = span(mps(1), mps(9), mps(0.001)) }, ratio)",
        2,
        "compare",
        "would have 16010001 banks; at most 2000000",
        "coarser",
    );
    check(
        "sweep { on = hall, contact = span(1, 3, 1e-12), speed = mps(3) }",
        2,
        "1e-12",
        "would have 2000000000001 values",
        "",
    );
    check(
        "local b = sweep { on = hall, contact = span(1, 3, 0.002), speed = span(mps(1), mps(9), mps(0.005)) }
compare(b, ratio, rule.mirror {})",
        3,
        "compare",
        "would have 3205202 banks",
        "fewer rules",
    );
}

const MAP: &str = "local map = compare(sweep { on = hall, contact = span(1, 3, 0.5), \
                   speed = { mps(2), mps(4) }, off_rail = { inches(0), inches(6) } }, ratio)\n";

#[track_caller]
fn check_map(script: &str, underlined: &str, message: &str, hint: &str) {
    check(&format!("{MAP}{script}"), 3, underlined, message, hint);
}

#[test]
fn selections() {
    check_map("map:where { speed = mps(3) }", "mps(3)", "nowhere 3 m/s", "it is: 2, 4 m/s");
    check_map(
        "map:where { contact = { 1, 1.7 } }",
        "1.7",
        "nowhere 1.7",
        "it is: 1, 1.5, 2, 2.5, 3",
    );
    check_map("map:where { speed = lengths(2) }", "lengths(2)", "nowhere 2 lengths", "2, 4 m/s");
    check_map("map:where { contact = { from = 3.2 } }", "contact", "nowhere in the range", "it is");
    check_map("map:where { roll = 1 }", "1", "nowhere 1", "it is: 0");
    check_map(
        "map:where { restitution = 0.9 }",
        "restitution",
        "no axis `restitution`",
        "what varies",
    );
    check_map("map:where { rule = 'ratoi' }", "'ratoi'", "no rule is called", "\"ratio\"");
    check_map("map:where {}", "where", "at least one condition", "");
    check(
        &format!("{MAP}local one = map:where {{ contact = 1 }}\none:where {{ contact = 2 }}"),
        4,
        "2",
        "nowhere 2",
        "it is: 1",
    );
    check_map("map:where { spede = mps(2) }", "spede", "no option `spede`", "`speed`");
}

#[test]
fn pictures() {
    check_map(
        "map:draw { x = 'speed', y = 'contact' }",
        "draw",
        "no room for `off_rail` (2 values)",
        ":where { off_rail = … }",
    );
    check_map("map:draw { x = 'sped', y = 'contact' }", "x", "no axis `sped`", "`speed`");
    check_map("map:draw { x = 'speed', y = 'speed' }", "y", "shows the same as `x`", "");
    check_map("map:draw { x = 'speed' }", "draw", "needs `y`", "");
    check_map(
        "map:draw { y = 'contact', x = 'speed', panels = 'off_rail', name = '../x' }",
        "name",
        "letters, digits",
        "",
    );
    check_map(
        "map:draw { x = 'speed', y = 'contact', panels = 'off_rail', name = 'a' } map:draw { x = 'contact', y = 'speed', panels = 'off_rail', name = 'A' }",
        "name",
        "taken already",
        "",
    );
    check_map("map:draw_lines { x = 'speed', y = 'mis' }", "y", "no \"mis\"", "\"miss\"");
    check_map("map:draw_lines { x = 'on', y = 'miss' }", "x", "lines need numbers", "series");
    check_map("map:drow {}", "drow", "a map has no `drow`", "`draw`");
    check_map(
        "map:draw_difference { of = 'contact', x = 'speed', y = 'off_rail' }",
        "of",
        "has 5 values here; two are compared",
        "between",
    );
}

#[test]
fn comparisons_and_rules() {
    let banks = "local banks = sweep { on = hall, contact = { 1, 2 }, speed = mps(3) }\n";
    let check = |script: &str, underlined: &str, message: &str, hint: &str| {
        check(&format!("{banks}{script}"), 3, underlined, message, hint);
    };
    check("compare(banks)", "compare", "needs a rule", "");
    check("compare(ratio)", "ratio", "must be a sweep", "banks = sweep");
    check("compare(banks, 2.2)", "2.2", "takes rules after the sweep", "");
    check("compare(banks, ratio, ratio)", "ratio", "two rules are called", "`name`");
    check(
        "compare(banks, ratio, rule.lines { lines = { {1.5, 3}, {2, 4} }, between = 'interpolate' })",
        "rule.lines { lines = { {1.5, 3}, {2, 4} }, between = 'interpolate' }",
        "outside the rule's known lines",
        "extrapolate",
    );
    check(
        "rule.lines { lines = { {2, 3}, {1, 4} }, between = 'interpolate' }",
        "{1, 4}",
        "must grow",
        "",
    );
    check("rule.lines { lines = { {2, 3} }, between = 'interpolate' }", "lines", "at least 2", "");
    check(
        "rule.lines { lines = { {2, 3}, 4 }, between = 'parallel' }",
        "4",
        "item 2, must be two",
        "",
    );
    check(
        "rule.lines { lines = { {2, 3} }, between = 'proportional' }",
        "lines",
        "needs `ratio`",
        "",
    );
    check(
        "rule.lines { lines = { {2, 3} }, between = 'parallel', ratio = 2 }",
        "ratio",
        "means nothing",
        "",
    );
    check("rule.linear { slop = 2 }", "slop", "no option `slop`", "`slope`");
    check("rule.liner {}", "liner", "`rule` has no `liner`", "`linear`");
    check("rule.mirror {}:start(2)", "start", "depends on the table", "hall");
    check(
        "rule.func { start = function(c) return c * slope end }",
        "slope",
        "outside the function",
        "",
    );
    check(
        "compare(sweep { on = hall, contact = 2, start = 4, speed = mps(3) }, ratio)",
        "ratio",
        "gives `start` itself",
        "",
    );
}

#[test]
fn a_failing_lua_rule_is_shown_where_it_fails() {
    let fault = refused(&format!(
        "{HALL}local bad = rule.func {{ name = 'bad', start = function(contact)
  if contact > 2 then
    error('no line for this')
  end
  return 2 * contact
end }}
compare(sweep {{ on = hall, contact = span(1, 3, 0.5), speed = mps(3) }}, bad)"
    ));
    assert_eq!(fault.place.as_ref().unwrap().line_column().0, 4, "{fault}");
    assert!(
        fault.message.contains("the rule bad failed at contact 2.5: no line for this"),
        "{fault}"
    );
    let fault = refused(&format!(
        "{HALL}local bad = rule.func {{ start = function(contact) return 'x' end }}
compare(sweep {{ on = hall, contact = 1, speed = mps(3) }}, bad)"
    ));
    assert!(fault.message.contains("not a finite number"), "{fault}");
    assert_eq!(fault.place.unwrap().line_column().0, 2);
}

#[test]
fn expectations() {
    check_map("expect(map):holds_at_least(90)", "90", "from 0 to 1", "0.9");
    check_map("expect(map):goes 'far'", "'far'", "\"long\" or \"short\"", "");
    check_map("expect(map):misses_within(5)", "5", "needs a unit", "inches(5)");
    check_map("expect(map):misses_within(mps(5))", "mps(5)", "a length", "");
    check_map("expect(2.2)", "2.2", "must be a map", "expect_number");
    check_map("expect(map):ranks_first 'ratio'", "ranks_first", "only one rule", "");
    check_map("expect(map):miss_falls_along 'spede'", "'spede'", "no axis `spede`", "`speed`");
    check_map("expect(map):miss_falls_along 'roll'", "'roll'", "needs two numbers", "");
    check_map(
        "expect(map):agrees_with(map:where { contact = 1 })",
        "map:where { contact = 1 }",
        "no bank has a partner",
        "",
    );
    check_map("expect(map):hold()", "hold", "an expectation has no `hold`", "`holds`");
    check_map(
        "expect_number(2):within(mps(1), mps(2))",
        "mps(1)",
        "the number is a plain number",
        "",
    );
    check_map("expect_number(2):within(3, 1)", "3", "lower bound first", "");
    check_map("expect_number('2')", "'2'", "a number or a quantity", "");
}

#[test]
fn banks_and_starts() {
    let given = "on = hall, contact = 2";
    check(
        &format!("bank {{ {given}, speed = mps(3) }}"),
        2,
        "bank",
        "a `start` number or a `rule`",
        "",
    );
    check(
        &format!("bank {{ {given}, speed = {{ mps(3), mps(4) }}, rule = ratio }}"),
        2,
        "speed",
        "one bank needs one",
        "sweep",
    );
    check(
        &format!("bank {{ {given}, start = 4, rule = ratio, speed = mps(3) }}"),
        2,
        "rule",
        "contradict",
        "",
    );
    check(
        &format!("least_speed {{ {given}, rule = ratio, speed = mps(3) }}"),
        2,
        "speed",
        "leave out `speed`",
        "from",
    );
    check(
        &format!("least_speed {{ {given}, start = 9, from = mps(1), to = mps(2) }}"),
        2,
        "least_speed",
        "holds at no speed from 1 to 2 m/s",
        "widen",
    );
    check(
        &format!("aim_margin {{ {given}, start = 9, speed = mps(3) }}"),
        2,
        "aim_margin",
        "does not hold",
        "",
    );
    check(
        "local starts = exact_starts(sweep { on = hall, contact = { 1, 2 }, speed = mps(3) })
starts:at { contact = 1.5 }",
        3,
        "1.5",
        "nowhere 1.5",
        "it is: 1, 2",
    );
    check(
        "local starts = exact_starts(sweep { on = hall, contact = { 1, 2 }, speed = { mps(3), mps(4) } })
starts:at { contact = 1 }",
        3,
        "at",
        "leaves 2 points",
        "speed",
    );
    check(
        &format!("print(bank {{ {given}, speed = mps(3), rule = ratio }}.mis)"),
        2,
        "mis",
        "an outcome has no `mis`",
        "`miss`",
    );
}

#[test]
fn equipment_and_files() {
    check("equipment 'nine-fot'", 2, "'nine-fot'", "no shipped profile", "`nine-foot`");
    check("equipment 'missing/hall.yaml'", 2, "'missing/hall.yaml'", "hall.yaml", "");
    check("equipment(9)", 2, "9", "takes the name of a profile", "");
    check("hall:with { restitutoin = 0.9 }", 2, "restitutoin", "no option", "`restitution`");
    check("hall:with { restitution = 1.5 }", 2, "1.5", "must be from 0 to 1", "");
    check(
        "hall:with { sliding_friction = inches(1) }",
        2,
        "sliding_friction",
        "a plain number",
        "",
    );
    check("hall:with { friction_law = 'expo' }", 2, "'expo'", "log-linear", "");
    check("hall:with {}", 2, "with", "changes nothing", "");
    check("hall:with { 3 }", 2, "with", "only partial profiles", "");
    check("print(hall.nme)", 2, "nme", "equipment has no `nme`", "`name`");
    check("scenario { shows = 'a' }\nscenario { shows = 'b' }", 3, "scenario", "called once", "");
    check("swep {}", 2, "swep", "nothing is called `swep`", "`sweep`");
}

/// Slips of people who have never programmed, and what they most likely forgot.
#[test]
fn slips_of_beginners() {
    check("print(inch(5))", 2, "inch", "nothing is called `inch`", "`inches`");
    check("print(stun)", 2, "stun", "nothing is called `stun`", "in quotes: \"stun\"");
    check("print(span(1,25, 3,5, 0,25))", 2, "5", "takes three values", "with a point");
    check("sweep {\n  contact = 2\n  roll = 0,\n}", 4, "roll = 0,", "Expected ','", "line above");
    check("span(1 2, 3)", 2, "span(1 2, 3)", "Expected ')'", "a comma or a closing )");
    check("sweep {\nlocal a = 1", 3, "local", "Expected identifier", "left open");
    check("sweep { spin : 'stun' }", 2, "sweep { spin : 'stun' }", "method name", "given with =");
    check("equipment nine", 2, "equipment nine", "Incomplete statement", "in quotes");
    let dotted = "local s = sweep { on = hall, contact = 2, speed = mps(3) }\ns.count()";
    check(dotted, 3, "s.count()", "`count` is asked", "name:count");
    check("cushion 'grippy-nose'", 2, "'grippy-nose'", "no shipped", "`cushions/grippy-nose`");
}

#[test]
fn scenarios_that_are_no_readable_files() {
    let folder = tempfile::tempdir().unwrap();
    let run = |path: &std::path::Path| {
        railproof::scenario::run_scenario(path, &RunOptions::default()).unwrap_err()
    };
    let missing = run(&folder.path().join("none.lua"));
    assert!(missing.message.contains("none.lua") && missing.exit == Exit::BadInput, "{missing}");
    assert!(run(folder.path()).message.contains("not an ordinary file"));
    let long = folder.path().join("long.lua");
    std::fs::write(&long, "-- x\n".repeat(300_000)).unwrap();
    assert!(run(&long).message.contains("at most"));
}

/// A sweep of many contacts by a rule function with this body.
fn many_by_function(body: &str) -> String {
    format!(
        "{HALL}local banks = sweep {{ on = hall, contact = span(1, 3, 0.01), speed = mps(3) }}\n\
         compare(banks, rule.func {{ start = function(contact) {body} end, reading = \"groove\" }})"
    )
}

#[test]
fn a_rule_function_that_never_ends_is_not_asked_at_every_point() {
    let began = std::time::Instant::now();
    let fault = refused(&many_by_function("while true do end"));
    assert_eq!(fault.exit, Exit::OverBudget);
    assert!(fault.message.contains("longer than"), "{fault}");
    assert!(fault.place.is_some());
    // 201 contacts at a second each, if each were asked.
    assert!(began.elapsed().as_secs() < 30, "{:?}", began.elapsed());
}

#[test]
fn the_first_failure_in_order_is_told_however_many_threads_there_are() {
    for threads in [1, 2, 7] {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let text = many_by_function("if contact > 1.305 then error('too far') end return contact");
        let fault = pool.install(|| refused(&text));
        assert!(fault.message.contains("contact 1.31"), "{fault}");
    }
}

#[test]
fn a_start_number_far_from_any_table_is_not_played() {
    let fault = refused(&many_by_function("return 1e300"));
    assert!(fault.message.contains("1e300"), "{fault}");
    assert!(fault.message.contains("contact 1"), "{fault}");
    let linear = format!(
        "{HALL}compare(sweep {{ on = hall, contact = 2, speed = mps(3) }},\n\
         rule.linear {{ slope = 1e6, reading = \"groove\" }})"
    );
    assert!(refused(&linear).message.contains("2000000"));
}

#[test]
fn maps_that_would_fill_the_memory_are_refused() {
    let text = format!(
        "{HALL}local banks = sweep {{ on = hall, contact = 2, speed = mps(3), rail_model = \"planar\",\n\
         roll = span(0, 1, 0.001), side = span(0, 1, 0.001) }}\n\
         for turn = 1, 5 do compare(banks, rule.mirror()) end"
    );
    let fault = refused(&text);
    assert!(fault.message.contains("held together"), "{fault}");
    assert_eq!(fault.place.as_ref().map(|place| place.line_column().0), Some(4));
}

#[test]
fn a_fault_of_the_whole_file_names_the_file() {
    assert!(refused("\u{1b}Lua").message.contains("case.lua"));
}
