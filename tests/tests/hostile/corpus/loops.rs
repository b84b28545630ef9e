//! Lua that does not end.

use crate::case::Case;
use railproof::exit::Exit::{BadInput, Held, OverBudget};

#[expect(clippy::too_many_lines, reason = "a table of cases")]
pub fn cases() -> Vec<Case> {
    let over = |name, text: &str| Case::script(name, text, &[OverBudget]);
    let either = |name, text: &str| Case::script(name, text, &[BadInput, OverBudget]);
    vec![
        over("loop: while true", "while true do end").says("it took longer than its 500ms"),
        over("loop: repeat", "repeat until false"),
        over("loop: a long for", "for i = 1, 1e15 do end"),
        over("loop: an iterator", "for _ in function() return 1 end do end"),
        over(
            "loop: inside pcall, again and again",
            "while true do pcall(function() while true do end end) end",
        ),
        over(
            "loop: a handler of xpcall",
            "while true do xpcall(error, function() while true do end end) end",
        ),
        over(
            "loop: coroutines",
            "while true do coroutine.resume(coroutine.create(function() while true do end end)) end",
        ),
        over(
            "loop: a wrapped coroutine",
            "local f = coroutine.wrap(function() while true do coroutine.yield() end end) while true do f() end",
        ),
        over("loop: errors", "while true do pcall(error, {}) end"),
        over(
            "loop: __index",
            "local t = setmetatable({}, { __index = function(t, k) return t[k .. 'x'] end }) while true do pcall(function() return t.a end) end",
        ),
        over(
            "loop: __tostring in print",
            "print(setmetatable({}, { __tostring = function() while true do end end }))",
        ),
        over(
            "loop: __eq",
            "local m = { __eq = function() while true do end end } local _ = setmetatable({}, m) == setmetatable({}, m)",
        ),
        over(
            "loop: a comparison of table.sort",
            "local t = {} for i = 1, 1e5 do t[i] = i end while true do table.sort(t, function(a, b) return a > b end) end",
        ),
        over("loop: random numbers", "while true do math.random() end"),
        over(
            "loop: buffers",
            "local b = buffer.create(1000) while true do buffer.fill(b, 0, 7) end",
        ),
        over(
            "loop: a replacement of gsub",
            "(('a'):rep(100)):gsub('a', function() while true do end end)",
        ),
        over("loop: text", "local s = '' while true do s = ('x'):rep(1000):upper():reverse() end"),
        over("loop: formats", "while true do string.format('%099d', 1) end"),
        over(
            "loop: deep recursion, again and again",
            "local function f() return f() + 1 end while true do pcall(f) end",
        ),
        either("loop: recursion", "local function f() return f() + 1 end f()"),
        either("loop: a pattern that backtracks", "(('a'):rep(50000)):find(('.-'):rep(25) .. 'b')"),
        either("loop: a match that backtracks", "(('a'):rep(50000)):match(('a*'):rep(25) .. 'b')"),
        either(
            "loop: sets of patterns",
            "(('a'):rep(1e6)):gsub('[' .. ('%a'):rep(1e5) .. ']*b', '')",
        ),
        either(
            "loop: sorting long texts",
            "local t = {} for i = 1, 2000 do t[i] = ('x'):rep(1e5) .. i end while true do table.sort(t) end",
        ),
        either(
            "loop: joining",
            "local t = table.create(1e6, 'x') while true do table.concat(t) end",
        ),
        either("loop: a long text repeated", "('x'):rep(1e10)"),
        Case::script(
            "loop: a rule's function",
            &rule("while true do end return 1"),
            &[BadInput, OverBudget],
        )
        .within(3),
        Case::script(
            "loop: a rule's function in pcall",
            &rule("while true do pcall(function() while true do end end) end return 1"),
            &[BadInput, OverBudget],
        )
        .within(3),
        Case::script(
            "loop: a rule's function with a long text",
            &rule("return #(('x'):rep(2e9))"),
            &[BadInput, OverBudget],
        )
        .within(3),
        Case::script(
            "loop: a shot's function",
            r"shots { over = { contact = { 1, 2 } }, shot = function(point) while true do end end }",
            &[BadInput, OverBudget],
        ),
        Case::script(
            "loop: none, although it is long",
            "local s = 0 for i = 1, 1e6 do s = s + i end print(s)",
            &[Held],
        )
        .within(10),
    ]
}

/// A comparison by a rule of this body.
fn rule(body: &str) -> String {
    format!(
        r#"
local banks = grid {{ equipment = equipment "nine-foot", contact = {{ 2, 3 }}, off_rail = inches(0), speed = mps(3), spin = "stun" }}
compare(banks, rule.func {{ name = "mine", reading = "groove", start = function(contact) {body} end }})
"#
    )
}
