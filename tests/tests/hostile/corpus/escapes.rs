//! Ways out of the sandbox, or of one run into the next.

use crate::case::Case;
use railproof::exit::Exit::{BadInput, Held};

pub fn cases() -> Vec<Case> {
    let bad = |name, text: &str| Case::script(name, text, &[BadInput]);
    let harmless = |name, text: &str| Case::script(name, text, &[Held, BadInput]);
    vec![
        bad("escapes: load", "load('return 1')()"),
        bad("escapes: loadstring", "loadstring('return 1')()"),
        bad("escapes: require", "require('secret')"),
        bad("escapes: dofile", "dofile('../outside/secret.lua')"),
        bad("escapes: io", "io.open('../outside/secret')"),
        bad("escapes: os", "os.execute('touch owned')"),
        bad("escapes: debug", "debug.getregistry()"),
        bad("escapes: getfenv", "getfenv(0).print = nil"),
        bad("escapes: setfenv", "setfenv(1, {})"),
        bad("escapes: newproxy", "newproxy(true)"),
        bad("escapes: collectgarbage", "collectgarbage('stop')"),
        bad("escapes: compiled code", "\u{1b}Lua\u{0}\u{1}"),
        bad("escapes: a library changed", "math.floor = function() return 0 end"),
        bad(
            "escapes: a library changed by rawset",
            "rawset(math, 'floor', function() return 0 end)",
        ),
        bad(
            "escapes: the methods of texts",
            "getmetatable('').__index.rep = function() return '' end",
        ),
        bad(
            "escapes: the metatable of globals",
            "setmetatable(_G, { __index = function() return 1 end }) math.huge = 0",
        ),
        harmless("escapes: the metatable of a table", "print(getmetatable(equipment 'nine-foot'))"),
        harmless(
            "escapes: globals of its own",
            "math = nil print = nil tostring = nil equipment = nil",
        ),
        harmless(
            "escapes: a global with a name of ours",
            "grid = function() return {} end grid {}",
        ),
        harmless(
            "escapes: addresses",
            "print(tostring({}), tostring(print), string.format('%p', {}))",
        ),
        bad("escapes: methods called on others", "local map = compare map.draw(1)"),
        bad(
            "escapes: a rule's function with a library changed",
            r#"
compare(grid { equipment = equipment "nine-foot", contact = 2, off_rail = inches(0), speed = mps(3), spin = "stun" },
  rule.func { name = "mine", reading = "groove", start = function(contact) math.floor = nil return contact end })"#,
        ),
    ]
}
