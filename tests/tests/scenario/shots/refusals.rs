//! Every complaint about a shot has its line and the text it is about.

use super::BANK;
use railproof::exit::Exit;

/// Checks message, hint, line and underlined text of a script that follows [`BANK`]'s one line.
#[track_caller]
fn check(script: &str, line: usize, underlined: &str, message: &str, hint: &str) {
    let fault = match crate::try_run(&format!("{BANK}{script}")) {
        Ok(record) => panic!("this ran and printed {:?}:\n{script}", record.printed),
        Err(fault) => fault,
    };
    let place = fault.place.as_ref().unwrap_or_else(|| panic!("no place: {fault}"));
    let found = &place.source()[place.span()];
    assert_eq!((place.line_column().0, found), (line, underlined), "{fault}\n{script}");
    assert!(fault.message.contains(message), "{}\n{script}", fault.message);
    let shown = fault.hint.clone().unwrap_or_default();
    assert!(shown.contains(hint), "{shown}\n{script}");
    assert_eq!(fault.exit, Exit::BadInput);
}

#[test]
fn layouts() {
    let lay =
        |balls: &str| format!("lay {{ on = hall, pocket = 'foot-right', balls = {{\n{balls} }} }}");
    check(
        &lay("cue = { positon = {} }"),
        3,
        "positon",
        "the ball `cue` knows no option",
        "`position`",
    );
    check(&lay("cue = {}"), 3, "cue", "the ball `cue` has no place", "position =");
    check(&lay("cue = { position = { metres(0), 1 } }"), 3, "1", "item 2, needs a unit", "");
    check(
        &lay("cue = { position = { metres(3), metres(0) } }"),
        3,
        "position",
        "is off the table",
        "",
    );
    check(
        &lay(
            "cue = { position = { metres(0), metres(0) } },\nb = { position = { metres(0.01), metres(0) } }",
        ),
        4,
        "position",
        "are inside one another",
        "",
    );
    check(
        &lay("cue = { position = { metres(0), metres(0) }, on_rail = 'left', number = 2 }"),
        3,
        "cue",
        "has both `position` and `on_rail`",
        "take one of them out",
    );
    check(&lay("cue = { on_rail = 'left' }"), 3, "cue", "no `number`", "");
    check(&lay("cue = { on_rail = 'lft', number = 2 }"), 3, "'lft'", "\"lft\"", "left");
    check(
        &lay(
            "cue = { behind = 'objct', heading = { angle = degrees(1) } },\nobject = { position = { metres(0), metres(0) } }",
        ),
        3,
        "behind",
        "no ball `objct`",
        "`object`",
    );
    check(
        &lay(
            "a = { between = { 'b', 'cue' } },\nb = { between = { 'a', 'cue' } },\ncue = { position = { metres(0), metres(0) } }",
        ),
        3,
        "between",
        "depends on itself",
        "",
    );
    check(
        &lay("cue = { position = { metres(0), metres(0) }, launch = { speed = mps(1) } }"),
        3,
        "launch",
        "a launch needs a `heading`",
        "",
    );
    check("lay { on = hall, pocket = 'foot', balls = {} }", 2, "lay", "no balls", "");
    check(
        "lay { on = hall, pocket = 'foott-right', balls = { cue = { position = { metres(0), metres(0) } } } }",
        2,
        "'foott-right'",
        "foott-right",
        "foot-right",
    );
    check(
        "lay { on = hall, balls = { cue = { position = { metres(0), metres(0) } } },\n  obstacles = { box = { middle = { metres(1.2), metres(-0.6) }, length = metres(0.3), width = metres(0.3) } } }",
        3,
        "box",
        "lies over the foot-right pocket",
        "",
    );
}

#[test]
fn bank_shots() {
    check("bank_shot { on = hall, contact = 2 }", 2, "bank_shot", "`start` number or a `rule`", "");
    check(
        "bank_shot { on = hall, contact = 2, start = 4, rule = ratio }",
        2,
        "rule",
        "`start` and `rule` contradict",
        "",
    );
    check(
        "bank_shot { on = hall, contact = 2, start = 4.4, off_rail = metres(1.25) }",
        2,
        "bank_shot",
        "off the table",
        "",
    );
    check(
        "bank_shot { on = hall, rail = 'left', pocket = 'foot-left', contact = 2, start = 4 }",
        2,
        "pocket",
        "this makes no bank",
        "",
    );
}

#[test]
fn strokes() {
    check("bank():play { along = 'line' }", 2, "play", "needs `speed`", "");
    check("bank():play { speed = 3, along = 'line' }", 2, "speed", "needs a unit", "mps(3)");
    check("bank():play { speed = mps(3) }", 2, "play", "where does the cue point", "along");
    check("bank():play {}", 2, "play", "no ball moves", "");
    check(
        "bank():play { speed = mps(3), along = 'line', aim = degrees(3) }",
        2,
        "along",
        "`aim` and `along` contradict",
        "",
    );
    check(
        "bank():play { speed = mps(3), along = 'line', side = 0.7 }",
        2,
        "side",
        "a miscue",
        "allow_miscue",
    );
    check(
        "bank():play { speed = mps(3), along = { angle = degrees(-90) } }",
        2,
        "play",
        "no aim does it",
        "",
    );
    check("bank():play { speed = mps(3), along = 'lin' }", 2, "'lin'", "must be \"line\"", "");
    check("bank():plya {}", 2, "plya", "a layout has no `plya`", "`play`");
    check(
        "bank():gear { speed = mps(3), side = 0.1 }",
        2,
        "side",
        "gear knows no option `side`",
        "",
    );
    check(
        "local s = bank():play { speed = mps(3), along = 'line' }\nprint(s:at('objct', seconds(1)))",
        3,
        "'objct'",
        "no ball `objct`",
        "`object`",
    );
    check(
        "local s = bank():play { speed = mps(3), along = 'line' }\nprint(s:at('object', 1))",
        3,
        "1",
        "takes a time",
        "seconds",
    );
    check(
        "local s = bank():play { speed = mps(3), along = 'line' }\nprint(s:path('object', seconds(1e-9)))",
        3,
        "path",
        "more than 20000 states",
        "longer steps",
    );
    check(
        "local s = bank():play { speed = mps(3), along = 'line' }\nprint(s.mis)",
        3,
        "mis",
        "a shot has no `mis`",
        "`miss`",
    );
}

#[test]
fn routes() {
    let route = |rest: &str| {
        format!("route {{ on = hall, pocket = 'head-right', speed = mps(3),\n{rest} }}")
    };
    let from = "from = { position = { metres(0), metres(0) } }";
    check(&route("rails = { 'left' }"), 2, "route", "needs `from`", "");
    check(
        &route(&format!("{from}, rails = {{ 'left', 'left' }}")),
        3,
        "'left'",
        "twice running",
        "",
    );
    check(&route(&format!("{from}, rails = {{ 'left', 'lefft' }}")), 3, "'lefft'", "lefft", "left");
}

#[test]
fn sweeps_of_shots() {
    let made = "shot = function(p) return bank(), { speed = mps(3), along = 'line' } end";
    check(&format!("shots {{ {made} }}"), 2, "shots", "needs `over`", "");
    check(&format!("shots {{ over = {{}}, {made} }}"), 2, "over", "names nothing", "");
    check("shots { over = { speed = mps(3) } }", 2, "shots", "needs `shot`", "");
    check(
        &format!("shots {{ over = {{ verdict = {{ 1, 2 }} }}, {made} }}"),
        2,
        "verdict",
        "what a row says",
        "another name",
    );
    check(
        &format!("shots {{ over = {{ speed = {{ mps(3), inches(2) }} }}, {made} }}"),
        2,
        "inches(2)",
        "mixes a speed with a length",
        "",
    );
    check(
        &format!("shots {{ over = {{ a = {{ 1, 1 }} }}, {made} }}"),
        2,
        "1",
        "same value twice",
        "",
    );
    check(
        &format!("shots {{ over = {{ a = span(1, 1000, 1), b = span(1, 1000, 1) }}, {made} }}"),
        2,
        "over",
        "would have 1000000 shots; at most 100000",
        "coarser",
    );
    check(
        "shots { over = { speed = { mps(3), mps(4) } },\n  shot = function(p) return 7 end }",
        3,
        "shot",
        "at speed 3 m/s: `shot` must return a layout, not a plain number",
        "",
    );
    check(
        "shots { over = { speed = { mps(3), mps(4) } },\n  shot = function(p) return bank(), { speed = p.sped, along = 'line' } end }",
        3,
        "sped",
        "a point has no `sped`",
        "`speed`",
    );
    check(
        "shots { over = { tip = { 0.1, 0.8 } },\n  shot = function(p) return bank(), { speed = mps(3), side = p.tip, along = 'line' } end }",
        3,
        "side",
        "at tip 0.8: a miscue",
        "",
    );
}

#[test]
fn selections_pictures_and_expectations() {
    let set = "local set = shots { over = { cut = { degrees(0), degrees(10) }, speed = { mps(3), mps(4) }, word = { 'a', 'b' } }, \
               shot = function(p) return bank { cut = p.cut }, { speed = p.speed, along = 'line' } end }\n";
    let check_set = |script: &str, underlined: &str, message: &str, hint: &str| {
        check(&format!("{set}{script}"), 3, underlined, message, hint);
    };
    check_set("set:where { cutt = degrees(0) }", "cutt", "nothing here varies as `cutt`", "`cut`");
    check_set(
        "set:where { cut = degrees(5) }",
        "cut",
        "`cut` is nowhere 5 deg",
        "it is: 0, 10 deg",
    );
    check_set("set:where { cut = 5 }", "cut", "`cut` is an angle", "");
    check_set(
        "set:where { speed = { from = mps(5) } }",
        "speed",
        "nowhere in that range",
        "3, 4 m/s",
    );
    check_set("set:where { word = 'c' }", "word", "nowhere \"c\"", "a, b");
    check_set("set:where {}", "where", "at least one condition", "");
    check_set(
        "set:draw { x = 'cut', y = 'speed' }",
        "draw",
        "no room for `word` (2 values)",
        "where",
    );
    check_set("set:draw { x = 'cut', y = 'cut' }", "y", "shows the same as `x`", "");
    check_set("set:draw { x = 'cat', y = 'speed' }", "x", "nothing here varies as `cat`", "`cut`");
    check_set("set:draw_lines { x = 'word', y = 'miss' }", "x", "need numbers along x", "series");
    check_set("set:draw_lines { x = 'cut', y = 'mis' }", "'mis'", "\"mis\"", "miss");
    check_set("expect_shots(set):share_made_within(0.9, 0.1)", "0.9", "lower bound first", "");
    check_set("expect_shots(set):miss 'lng'", "'lng'", "lng", "long");
    check_set(
        "expect_shots(set):longer_than(set:where { word = 'a' })",
        "set:where { word = 'a' }",
        "8 shots here and 4",
        "",
    );
    check_set(
        "expect_shots(set:where { cut = degrees(0) }):miss_rises_along 'cut'",
        "'cut'",
        "one value here",
        "",
    );
    check_set("expect_that('x', 1)", "1", "must be true or false", "");
    check_set("expect_shots(7)", "7", "a sweep of shots", "");
    check_set("expect_shot(set)", "set", "must be a shot", "");
}
