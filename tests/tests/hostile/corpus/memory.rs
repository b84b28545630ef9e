//! Memory, in Lua and behind it, and floods of results.

use crate::case::Case;
use railproof::exit::Exit::{BadInput, ExpectationFailed, Held, OverBudget};

const MAP: &str = r#"
local hall = equipment "nine-foot"
local groove = rule.linear { slope = 2.2, reading = "groove" }
local banks = grid { equipment = hall, contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = "stun" }
local map = compare(banks, groove)
"#;

pub fn cases() -> Vec<Case> {
    let full = |name, text: &str| Case::script(name, text, &[OverBudget, BadInput]).within(5);
    let flood = |name, text: &str| {
        let exits = [OverBudget, BadInput, Held, ExpectationFailed];
        Case::script(name, &format!("{MAP}\n{text}"), &exits).within(5)
    };
    vec![
        full(
            "memory: a table that grows",
            "local t = {} while true do t[#t + 1] = { 1, 2, 3 } end",
        ),
        full("memory: a text that doubles", "local s = 'x' while true do s = s .. s end"),
        full(
            "memory: a text that doubles, in pcall",
            "local s = 'x' while true do pcall(function() s = s .. s end) end",
        ),
        full("memory: a buffer", "buffer.create(1e9)"),
        full("memory: buffers", "local t = {} while true do t[#t + 1] = buffer.create(1e6) end"),
        full("memory: a table made large", "table.create(1e9, 1)"),
        full(
            "memory: texts by gsub",
            "local s = ('x'):rep(1e6) while true do s = s:gsub('x', 'xxxx') end",
        ),
        full(
            "memory: closures",
            "local t = {} while true do t[#t + 1] = function() return t end end",
        ),
        full(
            "memory: coroutines",
            "local t = {} while true do t[#t + 1] = coroutine.create(function() coroutine.yield() end) coroutine.resume(t[#t]) end",
        ),
        full(
            "memory: unpacking",
            "local t = table.create(1e6, 1) local function f(...) return ... end f(table.unpack(t))",
        ),
        flood(
            "memory: tables kept",
            "local keep = {} for i = 1, 1e7 do keep[i] = hall:with { ball_mass = grams(160) } end",
        ),
        flood(
            "memory: maps kept",
            "local keep = {} for i = 1, 1e6 do keep[i] = compare(banks, groove) end",
        ),
        flood("memory: expectations", "for i = 1, 1e7 do expect(map):share_at_least(0) end"),
        flood(
            "memory: expectations of long words",
            "local long = ('x'):rep(1e6) for i = 1, 1e4 do expect_that(long .. i, true) end",
        ),
        flood("memory: printed lines", "for i = 1, 1e7 do print(i) end"),
        flood("memory: a long printed line", "print(('x'):rep(1e8))"),
        flood("memory: plans", "for i = 1, 1e6 do plan(banks, groove) end"),
        flood("memory: pictures", "for i = 1, 1e6 do map:draw { x = 'speed', y = 'contact' } end"),
        flood(
            "memory: things left out",
            "for i = 1, 1e6 do map:draw { x = 'speed' .. i, y = 'contact' } end",
        ),
        flood(
            "memory: shots kept",
            r#"
local keep = {}
for i = 1, 1e6 do
  keep[i] = bank_shot { equipment = hall, contact = 2, rule = groove, off_rail = inches(4), cue_distance = inches(8) }:play { speed = mps(3), send = "line" }
end"#,
        ),
        flood(
            "memory: a name as long as may be",
            "map:draw { x = 'speed', y = 'contact', name = ('n'):rep(1e7) }",
        ),
        flood(
            "memory: a title as long as may be",
            "map:draw { x = 'speed', y = 'contact', title = ('t'):rep(1e7) }",
        ),
        full("memory: options nested deep", "local t = {} for i = 1, 1e6 do t = { t } end grid(t)"),
        full(
            "memory: a list of options",
            "local t = {} for i = 1, 1e6 do t['k' .. i] = i end grid(t)",
        ),
        full(
            "memory: values of an axis",
            "local t = {} for i = 1, 1e7 do t[i] = i / 1e7 end grid { equipment = 'nine-foot', contact = t }",
        ),
    ]
}
