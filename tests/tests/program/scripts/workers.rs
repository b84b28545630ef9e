//! Rule functions that run in worker threads.

use railproof::exit::Exit;
use railproof::fault::Fault;
use railproof::lua::worker::{CallLimits, FunctionKind};
use railproof::lua::{Limits, ScenarioVm, WorkerFunction};
use rayon::prelude::*;
use std::cell::RefCell;
use std::rc::Rc;
use std::time::Duration;

/// Runs a text whose `capture(f)` takes a function out of it.
fn captured(text: &str) -> Result<Vec<WorkerFunction>, Fault> {
    let limits = CallLimits { memory_bytes: 4 << 20, time: Duration::from_millis(500) };
    let taken = Rc::new(RefCell::new(Vec::new()));
    let shared = Rc::clone(&taken);
    let vm = ScenarioVm::new(Limits::default(), move |lua| {
        let capture = lua.create_function(move |lua, function: mlua::Function| {
            shared.borrow_mut().push(WorkerFunction::capture(
                lua,
                &function,
                limits,
                FunctionKind::Rule,
            )?);
            Ok(())
        })?;
        lua.globals().raw_set("capture", capture)
    })?;
    vm.run("a.lua", text.as_bytes())?;
    Ok(taken.take())
}

fn captured_one(text: &str) -> WorkerFunction {
    captured(text).unwrap_or_else(|fault| panic!("{fault}\n{text}")).remove(0)
}

#[test]
fn rule_functions_give_the_same_from_every_thread() {
    let text = "
        capture(function(contact) return 2.2 * contact end)
        local function steps(n) if n < 1 then return 0 end return 1 + steps(n - 1) end
        capture(steps)
        capture(function(x, y)
          -- end
          local label = if x > y then 'end' else \"end\"
          local sum = 0
          for i, v in ipairs({ x, y, [[end]] == label and 1 or 2 }) do
            while sum < 0 do sum = 0 end
            repeat local part = math.sin(v) sum += part until true
          end
          return sum
        end)";
    let functions = captured(text).unwrap();
    assert_eq!(functions[0].call(2.0).unwrap(), 4.4);
    assert_eq!(functions[1].call(7.0).unwrap(), 7.0);
    assert_eq!(functions[2].place().line_column(), (5, 17));
    let expected: Vec<f64> = (0..4000_u32)
        .map(|i| {
            let (x, y) = (f64::from(i), f64::from(i % 7));
            let terms = [x, y, 1.0_f64];
            terms.iter().fold(0.0, |sum, term| f64::max(sum, 0.0) + term.sin())
        })
        .collect();
    let pool = rayon::ThreadPoolBuilder::new().num_threads(8).build().unwrap();
    let found: Vec<f64> = pool.install(|| {
        (0..4000_u32)
            .into_par_iter()
            .map(|i| {
                let own = functions[0].call(f64::from(i)).unwrap();
                assert_eq!(own, 2.2 * f64::from(i));
                functions[2].call((f64::from(i), f64::from(i % 7))).unwrap()
            })
            .collect()
    });
    assert_eq!(found, expected);
}

#[test]
fn many_rule_functions_take_turns_in_a_thread() {
    let lines: Vec<String> =
        (0..20).map(|i| format!("capture(function(x) return x + {i} end)")).collect();
    let text = lines.join("\n");
    let functions = captured(&text).unwrap();
    for _ in 0..3 {
        for (i, function) in (0_u32..).zip(&functions) {
            assert_eq!(function.call(1.0).unwrap(), 1.0 + f64::from(i));
        }
    }
}

#[test]
fn a_rule_function_that_needs_something_from_outside_is_refused() {
    let cases = [
        (
            "local slope = 2.2\ncapture(function(c)\n  return slope * c end)",
            "`slope` comes from outside",
            (3, 10),
        ),
        (
            "slope = 2.2\ncapture(function(c) return slope * c end)",
            "`slope` comes from outside",
            (2, 28),
        ),
        ("capture(function(c) return inches(c) end)", "`inches` comes from outside", (1, 28)),
        (
            "capture(function(c) count = (count or 0) + 1 return count end)",
            "`count` comes from",
            (1, 21),
        ),
        (
            "local x = math.random()\ncapture(function(c) do local x = 1 end return x end)",
            "a local from outside",
            (2, 9),
        ),
        (
            "capture(function(a) return a end) capture(function(b) return b end)",
            "several functions",
            (1, 1),
        ),
        ("capture(math.sin)", "must be written in the scenario", (1, 1)),
    ];
    for (text, message, place) in cases {
        let fault = captured(text).expect_err(text);
        assert!(fault.message.contains(message), "{text}: {fault}");
        assert_eq!(fault.place.unwrap().line_column(), place, "{text}");
    }
}

#[test]
fn a_rule_function_that_fails_says_where() {
    let cases = [
        ("\ncapture(function(c)\n  return c.x.y\nend)", "attempt to index number", 3),
        ("\ncapture(function(c)\n  error('bad ' .. c)\nend)", "bad 2", 3),
        ("\ncapture(function(c)\n  return 'a' end)", "gave the text \"a\", not a finite number", 2),
        ("\ncapture(function(c) end)", "gave nothing, not a finite number", 2),
        ("\ncapture(function(c) return c / 0 end)", "gave inf, not a finite number", 2),
        ("\ncapture(function(c)\n  return `{slope}` end)", "nothing is called `slope`", 3),
        ("\ncapture(function(c)\n  return math.random() end)", "math.random can't be used", 3),
        ("\ncapture(function(c)\n  math.randomseed(c) return c end)", "math.randomseed can't", 3),
        (
            "\ncapture(function(c)\n  local m = math\n  return m.random() end)",
            "math.random can't",
            4,
        ),
        ("\ncapture(function(c)\n  a, count = 1, 2 return 1 end)", "`a` comes from outside", 3),
    ];
    for (text, message, line) in cases {
        let fault = match captured(text) {
            Ok(functions) => functions[0].call(2.0).expect_err(text),
            Err(fault) => fault,
        };
        assert!(fault.message.contains(message), "{text}: {fault}");
        assert_eq!(fault.place.as_ref().unwrap().line_column().0, line, "{text}: {fault}");
        assert_eq!(fault.exit, Exit::BadInput);
    }
}

#[test]
fn a_rule_function_keeps_to_its_limits_at_every_call() {
    let endless = captured_one("capture(function(c) while c > 0 do end return 1 end)");
    let greedy = captured_one("capture(function(c) return #string.rep('a', c) end)");
    let swallowing =
        captured_one("capture(function(c) pcall(function() while c > 0 do end end) return 1 end)");
    for _ in 0..2 {
        assert_eq!(endless.call(1.0).unwrap_err().exit, Exit::OverBudget);
        assert_eq!(endless.call(0.0).unwrap(), 1.0);
        assert_eq!(greedy.call(1e8).unwrap_err().exit, Exit::OverBudget);
        assert_eq!(greedy.call(10.0).unwrap(), 10.0);
        assert_eq!(swallowing.call(1.0).unwrap_err().exit, Exit::OverBudget);
        assert_eq!(swallowing.call(0.0).unwrap(), 1.0);
    }
}
