//! Errors that are no plain text.

use crate::case::Case;
use railproof::exit::Exit::{BadInput, OverBudget};

pub fn cases() -> Vec<Case> {
    let bad = |name, text: &str| Case::script(name, text, &[BadInput]);
    vec![
        bad("errors: a table", "error({})"),
        bad("errors: nothing", "error(nil)"),
        bad("errors: a function", "error(function() end)"),
        bad("errors: a coroutine", "error(coroutine.create(function() end))"),
        bad("errors: a userdata", "error(equipment 'nine-foot')"),
        bad(
            "errors: a metatable that lies",
            "error(setmetatable({}, { __tostring = function() return 'all is well' end }))",
        ),
        bad(
            "errors: a metatable that fails",
            "error(setmetatable({}, { __tostring = function() error('x') end }))",
        ),
        Case::script(
            "errors: a metatable without end",
            "error(setmetatable({}, { __tostring = function() while true do end end }))",
            &[BadInput, OverBudget],
        ),
        bad("errors: escapes of a terminal", "error('\\27[2J\\27]0;title\\7')"),
        bad("errors: another direction of writing", "error('\u{202e}txt.exe\u{2066}')"),
        bad("errors: nothing to be seen", "error('\u{200b}\u{feff}')"),
        bad("errors: a command of a build server", "error('x\\n::error::owned\\n##[group]owned')"),
        bad("errors: a long text", "error(('x'):rep(1e7))"),
        bad("errors: no UTF-8", "error('\\255\\254\\0')"),
        bad("errors: level 0", "error('x', 0)"),
        bad("errors: a level far away", "error('x', 1e9)"),
        bad(
            "errors: in a handler",
            "xpcall(function() error('a') end, function() error('b') end) error('c')",
        ),
        bad("errors: in a coroutine", "local co = coroutine.wrap(function() error({}) end) co()"),
        bad(
            "errors: of want of memory, caught",
            "pcall(function() local s = ('x'):rep(3e8) end) error('after')",
        ),
    ]
}
