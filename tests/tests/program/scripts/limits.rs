//! Hostile and broken scripts end within their limits, with a plain error.

use super::{refused, run, small, underlined};
use mlua::Lua;
use railproof::exit::Exit;
use railproof::lua::{Host, Limits, ScenarioVm};
use railproof_tests::computed_time;
use std::time::Duration;

#[test]
fn endless_scripts_end_with_their_budget_and_cannot_swallow_it() {
    let scripts = [
        "while true do end",
        "repeat until false",
        "local function f() return f() end f()",
        "while true do pcall(function() while true do end end) end",
        // The last statement catches the error and the script ends as if nothing had happened.
        "pcall(function() while true do end end)",
        "xpcall(function() while true do end end, function() while true do end end)",
        "xpcall(error, function() while true do end end)",
        "coroutine.wrap(function() while true do end end)()",
        "local c = coroutine.create(function() while true do end end) coroutine.resume(c)",
        "local c = coroutine.wrap(function() while true do coroutine.yield() end end)
         while true do c() end",
        "string.find(string.rep('a', 40), string.rep('a?', 40) .. string.rep('a', 41))",
        "string.rep('a', 30000):find(string.rep('.-', 20) .. 'b')",
        "string.gsub(string.rep('a', 100), 'a', function() while true do end end)",
        "table.sort({3, 2, 1}, function() while true do end end)",
        "local t = setmetatable({}, {__index = function(t, k) return t[k + 1] end}) print(t[1])",
        "print(setmetatable({}, {__tostring = function() while true do end end}))",
        "error(setmetatable({}, {__tostring = function() while true do end end}))",
        "local t = setmetatable({}, {__eq = function() while true do end end})
         return t == setmetatable({}, getmetatable(t))",
        "for i = 1, math.huge do local s = 'a' .. i end",
        "for i = 1, 1e9 do pcall(error) end",
    ];
    for script in scripts {
        let started = computed_time();
        let vm = ScenarioVm::new(small(), |_| Ok(())).unwrap();
        let outcome = vm.run("a.lua", script.as_bytes());
        let taken = computed_time().saturating_sub(started);
        // A stack overflow or an error of its own is an end, too, but not for these.
        let fault = outcome.expect_err(script);
        assert!(
            fault.exit == Exit::OverBudget || fault.message.contains("overflow"),
            "{script}\n{fault}"
        );
        assert!(taken < Duration::from_secs(4), "{taken:?} for {script}");
    }
}

#[test]
fn a_script_out_of_time_is_told_the_line_it_was_on() {
    for script in [
        "local x = 1\nwhile true do end\n",
        "local x = 1\npcall(function() while true do end end)\nwhile true do end",
        "local x = 1\ncoroutine.wrap(function() while true do end end)()",
    ] {
        let vm = ScenarioVm::new(small(), |_| Ok(())).unwrap();
        let fault = vm.run("a.lua", script.as_bytes()).expect_err(script);
        assert_eq!(fault.exit, Exit::OverBudget, "{fault}");
        assert!(underlined(&fault).0 >= 2, "{fault}");
    }
}

#[test]
fn an_error_that_is_no_text_shows_no_address() {
    for (raised, named) in [("{}", "a table"), ("print", "a function"), ("nil", "nil")] {
        let fault = refused(&format!("error({raised})"));
        assert!(fault.message.contains(named), "{fault}");
        assert!(!fault.message.contains("0x"), "{fault}");
    }
}

#[test]
fn greedy_scripts_end_with_their_memory() {
    let scripts = [
        "local s = string.rep('a', 1e9)",
        "local s = 'a' while true do s = s .. s end",
        "local t = table.create(6e7)",
        "local t = {} for i = 1, 1e9 do t[i] = {} end",
        "local b = buffer.create(1e9)",
        "local t = {} for i = 1, 1e7 do t[i] = string.rep('x', 100) .. i end",
        "return table.concat(table.create(1e6, string.rep('a', 1e4)))",
    ];
    for script in scripts {
        let started = computed_time();
        let limits = Limits { script_time: Duration::from_secs(5), ..small() };
        let vm = ScenarioVm::new(limits, |_| Ok(())).unwrap();
        let fault = vm.run("a.lua", script.as_bytes()).expect_err(script);
        assert!(vm.lua().used_memory() <= 65 << 20, "{script}");
        assert!(
            fault.exit == Exit::OverBudget || fault.message.contains("string"),
            "{script}\n{fault}"
        );
        assert!(computed_time().saturating_sub(started) < Duration::from_secs(7), "{script}");
    }
}

#[test]
fn scripts_that_only_look_dangerous_end_with_a_plain_error() {
    let scripts = [
        "local function f() return 1 + f() end f()",
        "local function f() local ok = pcall(f) return ok end f() error('x')",
        "error({})",
        "error(nil)",
        "error()",
        "error('')",
        "error(setmetatable({}, {__tostring = function() error('again') end}))",
        "error(setmetatable({}, {__tostring = function() return 5 end}))",
        "error(coroutine.create(print))",
        "getmetatable('').__index = nil",
        "getmetatable('').__index.upper = nil",
        "string.upper = nil",
        "math.pi = 3",
        "setmetatable(math, {})",
        "setmetatable(_G, {__index = print})  _G.math.pi = 3",
        "getmetatable(inches(1)).__add = nil",
        "inches(1).amount = 3",
        "table.create(1e9)",
        "table.move({}, 1, 2147483646, 2)",
        "table.move({}, '1', '0x7ffffffe', 2)",
        "local s = string.rep('a', 1e6) return string.rep('a', 3e6):find(s .. 'b', 1, true)",
        "local s = string.rep('a', 1e6) return string.rep('a', 3e6):split(s .. 'b')",
        "return table.unpack({}, 1, 1e8)",
        "local t = setmetatable({}, {}) getmetatable(t).__index = t return t.x.y",
        "coroutine.yield()",
        "local c c = coroutine.wrap(function() c() end) c()",
        "string.rep()",
        "(nil)()",
        "local = 3",
        "goto x",
        "x = = 3",
        "return load('return 1')()",
        "return os.execute('true')",
        "return io.open('/etc/passwd')",
        "return debug.info(1, 'l')",
        "return require('x')",
        "return loadstring('return 1')",
        "return getfenv(0)",
        "return newproxy(true)",
        "return collectgarbage('count')",
    ];
    for script in scripts {
        let started = computed_time();
        // Refused for what it does, however slow the machine is.
        let patient = Limits { script_time: Duration::from_mins(1), ..small() };
        let vm = ScenarioVm::new(patient, |_| Ok(())).unwrap();
        let fault = vm.run("a.lua", script.as_bytes()).expect_err(script);
        assert_eq!(fault.exit, Exit::BadInput, "{script}\n{fault}");
        assert!(!fault.message.is_empty(), "{script}");
        assert!(!fault.message.contains("stack traceback"), "{script}\n{fault}");
        assert!(computed_time().saturating_sub(started) < Duration::from_secs(4), "{script}");
    }
}

#[test]
fn guarded_library_functions_work_as_before() {
    let printed = run(r#"
        print(table.concat(table.move({ 1, 2, 3 }, 2, 3, 1), " "), #table.move({ 1 }, 1, 1, 2, { 5 }))
        print(("abcabc"):find("c", 4), string.find("a.b", ".", 1, true), ("x"):find("(y?)x"))
        print(table.concat(("a,b,c"):split(","), "|"), pcall(string.find))
    "#)
    .unwrap();
    assert_eq!(printed[..2], ["2 3 3\t2", "6\t2\t1\t1\t"].map(str::to_owned)[..]);
    assert!(printed[2].starts_with("a|b|c\tfalse\t"), "{printed:?}");
}

#[test]
fn only_text_of_a_bearable_length_is_run() {
    let vm = ScenarioVm::new(Limits { source_bytes: 1000, ..small() }, |_| Ok(())).unwrap();
    let compiled = mlua::chunk::Compiler::new().compile("return 1").unwrap();
    for bytes in [&compiled[..], b"\x1bLua", b"\0", b"\xff\xfe"] {
        let fault = vm.run("a.lua", bytes).unwrap_err();
        assert_eq!(fault.exit, Exit::BadInput);
        assert!(fault.message.contains("text"), "{fault}");
    }
    let long = vm.run("a.lua", "-- ".repeat(400).as_bytes()).unwrap_err();
    assert!(long.message.contains("at most 1000 bytes"), "{long}");
    vm.run("a.lua", "\u{feff}print(1)".as_bytes()).unwrap();
    vm.run("a.lua", b"\tprint(1)").unwrap();
}

#[test]
fn what_is_printed_is_kept_up_to_a_bound() {
    let vm = ScenarioVm::new(Limits { print_bytes: 100, ..small() }, |_| Ok(())).unwrap();
    vm.run("a.lua", b"print('a', 1, nil, inches(2)) for i = 1, 1000 do print() end").unwrap();
    let printed = vm.printed();
    assert_eq!(printed.lines[0], "a\t1\tnil\t2 in");
    assert_eq!(printed.lines.len() + printed.dropped, 1001);
    assert!(printed.lines.len() < 10);
}

#[test]
fn work_done_for_a_script_is_not_its_own_time() {
    let register = |lua: &Lua| {
        let work = lua.create_function(|lua, paused: bool| {
            let _pause = paused.then(|| Host::pause(lua));
            // Time on the processor is what counts.
            let since = computed_time();
            while computed_time().saturating_sub(since) < Duration::from_millis(300) {}
            Ok(())
        })?;
        lua.globals().raw_set("work", work)
    };
    let vm = ScenarioVm::new(small(), register).unwrap();
    vm.run("a.lua", b"work(true) for i = 1, 1000 do local x = i end").unwrap();
    let fault = vm.run("a.lua", b"work(false) for i = 1, 1000 do local x = i end").unwrap_err();
    assert_eq!(fault.exit, Exit::OverBudget);
}
