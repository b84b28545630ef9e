//! Rule functions that would answer by where the machine's memory lies: they answer the same in every
//! process, or are refused.

use super::support::{Place, Recipe, digests, rows_of, words};
use railproof::plan::Keep;

/// Bodies of functions of a contact number `c`. Each would give a number that depends on addresses,
/// were they to be seen; the second word says whether the function is refused.
const BODIES: [(&str, bool); 24] = [
    // A text's bytes as a number.
    (
        "local n = 0 for _, b in ipairs({ tostring({}):byte(1, -1) }) do n = n + b end return n / 100",
        false,
    ),
    (
        "return c + #tostring(print_nothing or function() end) + (tonumber(tostring({}):sub(8)) or 0) % 7",
        true,
    ),
    ("return c + (tonumber(tostring({}):match('0x%x+')) or 0) % 97 / 97", false),
    ("return c + (tonumber(tostring(math.abs):match('0x%x+')) or 0) % 97 / 97", false),
    ("return c + (tonumber(string.format('%s', {}):match('0x%x+')) or 0) % 97 / 97", false),
    ("return c + (tonumber(('%s'):format(function() end):match('0x%x+')) or 0) % 97 / 97", false),
    ("return c + (tonumber(string.format('%*', {}):match('0x%x+')) or 0) % 97 / 97", false),
    ("local t = {} return c + (tonumber((`{t}`):match('0x%x+')) or 0) % 97 / 97", false),
    ("return c + (tonumber(string.format('%p', {}):match('0x%x+')) or 0) % 97 / 97", true),
    (
        "local ok, why = pcall(error, {}) return c + (tonumber(tostring(why):match('0x%x+')) or 0) % 97",
        false,
    ),
    ("error({})", true),
    ("error(tostring({}) .. string.format('%s', error))", true),
    // The first of what is gone through.
    (
        "local t = {} for i = 1, 9 do t[{}] = i end for _, v in pairs(t) do return c + v end return c",
        true,
    ),
    ("local t = {} for i = 1, 9 do t[{}] = i end for _, v in t do return c + v end return c", true),
    (
        "local t = {} for i = 1, 9 do t[{}] = i end for _, v in next, t do return c + v end return c",
        true,
    ),
    ("local t = {} for i = 1, 9 do t[{}] = i end local _, v = next(t) return c + v", true),
    (
        "local t = { [math.abs] = 1, [math.sin] = 2, [math.cos] = 3 } for _, v in pairs(t) do return c + v end return c",
        true,
    ),
    (
        "local t = {} for i = 1, 9 do t[function() return i end] = i end local f = pairs(t) local _, v = f(t) return c + v",
        true,
    ),
    (
        "local t = { a = 1, b = 2, d = 3 } local f = pairs(t) for i = 1, 9 do t[{}] = i end local _, v = f(t, 'a') return c + v",
        true,
    ),
    (
        "local t = {} for i = 1, 9 do t[{}] = i end local n = c table.foreach(t, function(_, v) n = n * 0.5 + v end) return n",
        true,
    ),
    (
        "local t = { a = 1, b = 2 } local n = c for _, v in pairs(t) do n = n + v for i = 1, 9 do t[{}] = i end end return n",
        true,
    ),
    // Texts and numbers as keys keep their order.
    (
        "local t = {} for i = 1, 40 do t['k' .. i] = i end local n = c for _, v in pairs(t) do n = n * 0.5 + v end return n % 9",
        false,
    ),
    (
        "local t = { 1.5, 2.5, x = 3, [0.5] = 4, [true] = 5 } local n = c for _, v in t do n = n * 0.5 + v end return n",
        false,
    ),
    (
        "local t = { {}, {}, {} } table.sort(t, function(a, b) return tostring(a) < tostring(b) end) return c + #t",
        false,
    ),
];

fn recipe() -> Recipe {
    let rules: Vec<String> = BODIES
        .iter()
        .enumerate()
        .map(|(at, (body, _))| {
            let body = body.replace("print_nothing or ", "");
            format!("rule.func {{ name = 'body {at}', start = function(c)\n{body}\nend }}")
        })
        .collect();
    let banks =
        r#"grid { equipment = equipment "harbour-hall", contact = { 1, 1.5, 2 }, speed = mps(3) }"#;
    Recipe { banks: banks.into(), rules: rules.join(",\n"), keep: Keep::Rows, shard_points: 64 }
}

#[test]
fn no_answer_depends_on_where_memory_lies() {
    let place = Place::new();
    place.write("bank.lua", recipe().scenario());
    place.run("plan bank.lua --out plan.json").code(0);
    let mut before = None;
    for process in 0..6 {
        let into = format!("out-{process}");
        let threads = 1 + process % 2;
        let ended =
            place.run(&format!("sweep plan.json --into {into} --threads {threads} --quiet"));
        assert!(matches!(ended.code, Some(0 | 7)), "{ended:?}");
        let found = digests(&place.path(&into));
        assert_eq!(before.get_or_insert(found.clone()), &found, "process {process}");
    }
    let rows = rows_of(&place.path("out-0"));
    let (rules, failures) = (words(&rows, "rule"), words(&rows, "failure"));
    for (at, (body, refused)) in BODIES.iter().enumerate() {
        for (rule, failure) in rules.iter().zip(&failures) {
            if *rule == format!("body {at}") {
                assert!(!failure.contains("0x"), "{body}: {failure}");
                // One leaves its address out and plays.
                let refused = *refused && at != 1;
                assert_eq!(!failure.is_empty(), refused, "{body}: {failure}");
            }
        }
    }
    let ordered = failures.iter().filter(|why| why.contains("no order that is the same")).count();
    assert!(ordered >= 9 * 3, "{ordered}");
}

#[test]
fn what_a_script_prints_shows_no_address() {
    let place = Place::new();
    let text = "print({}, print, `{ {} }`, string.format('%s', {}), tostring({}))\n\
                local t = setmetatable({}, { __tostring = function() return 'own: 0x1' end })\n\
                expect_that('own', tostring(t) ~= nil)\n";
    place.write("a.lua", text);
    let ended = place.run("run a.lua --into out").code(0);
    assert!(ended.out.contains("table\tfunction") || ended.out.contains("table"), "{ended:?}");
    assert!(!ended.out.replace("own: 0x1", "").contains("0x"), "{ended:?}");
}

#[test]
fn a_plans_function_that_keeps_something_is_refused_as_a_scenarios_is() {
    let place = Place::new();
    place.write("bank.lua", super::functions::scenario("function(c) return c * 2.2 end"));
    place.run("plan bank.lua --out plan.json").code(0);
    let text = super::support::text_of_file(&place.path("plan.json"));
    let text: String =
        text.lines().filter(|line| !line.contains("plan_sha256")).collect::<Vec<_>>().join("\n");
    let source = "return function(c) return c * 2.2 end";
    assert!(text.contains(source), "{text}");
    for (stateful, says) in [
        (
            "local function f(c) return c end local n = 0 return function(c) n = n + 1 return n end",
            "nothing beside it",
        ),
        ("local function f(c) n = (n or 0) + 1 return n end return f", "comes from outside"),
        ("return function(c) counted = c return counted end", "comes from outside"),
        ("local function f(c) f = function() return 1 end return c end return f", "changes itself"),
        ("return function(c) return c end, 1", "nothing beside it"),
        ("return function(c) return __in_order(c) end", "comes from outside"),
    ] {
        place.write("bad.json", text.replace(source, stateful));
        place.run("sweep bad.json --into bad").code(2).says(says);
        place.run("plan bad.json").code(2).says(says);
        assert!(!place.path("bad").exists());
    }
}
