//! Every complaint has its line, the text it is about, and where there is one a hint.

use super::{BANKS, FRONT};
use crate::{HALL, try_run};
use railproof::exit::Exit;

/// Checks message, hint, line and underlined text of a script that follows two lines.
#[track_caller]
fn check(script: &str, line: usize, underlined: &str, message: &str, hint: &str) {
    let fault = match try_run(&format!("{HALL}{BANKS}{script}")) {
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

#[track_caller]
fn asked(options: &str, underlined: &str, message: &str, hint: &str) {
    check(&format!("frontier {{ banks = banks, {options} }}"), 3, underlined, message, hint);
}

#[test]
fn what_is_asked() {
    let good = "rule = ratio, along = 'speed', tolerance = mps(0.01)";
    asked("rule = ratio", "frontier", "needs `along`", "");
    asked("rule = ratio, along = 'speed'", "frontier", "needs `tolerance`: a speed", "");
    asked(&format!("{good}, probs = 9"), "probs", "no option `probs`", "`probes`");
    asked("along = 'speed', tolerance = mps(0.01)", "frontier", "needs a `rule`", "rule.linear");
    asked("rule = 3, along = 'speed', tolerance = mps(0.01)", "rule", "a rule", "");
    asked(
        "rule = { ratio, ratio }, along = 'speed', tolerance = mps(0.01)",
        "ratio",
        "two rules are called \"ratio\"",
        "`name`",
    );
    asked(
        "rule = ratio, along = 'sped', tolerance = mps(0.01)",
        "along",
        "no axis `sped`",
        "`speed`",
    );
    asked("rule = ratio, along = 'rule', tolerance = 1", "along", "rules have no order", "");
    asked("rule = ratio, along = 'rail_model', tolerance = 1", "along", "chosen from words", "");
    asked(
        "rule = ratio, along = 'roll', tolerance = 0.1",
        "along",
        "`roll` one value",
        "the two ends",
    );
    asked("rule = ratio, along = 'speed', tolerance = 0.01", "tolerance", "needs a unit", "");
    asked("rule = ratio, along = 'speed', tolerance = inches(1)", "tolerance", "a speed", "");
    for tolerance in ["0", "-1", "4", "1e-12"] {
        let options = format!("rule = ratio, along = 'speed', tolerance = mps({tolerance})");
        asked(
            &options,
            "tolerance",
            "`tolerance` must be from 0.000000007 to 3.5 m/s",
            "at most half",
        );
    }
    asked(&format!("{good}, probes = 1"), "probes", "from 2 to", "");
    asked(&format!("{good}, probes = 2.5"), "2.5", "a whole number", "");
    asked(&format!("{good}, probes = 1e9"), "probes", "from 2 to", "");
    asked(&format!("{good}, over = 'speed', over_tolerance = mps(1)"), "over", "at once", "");
    asked(
        &format!("{good}, over = 'off_rail'"),
        "frontier",
        "needs `over_tolerance`: a length",
        "",
    );
    asked(
        &format!("{good}, over_tolerance = inches(1)"),
        "over_tolerance",
        "needs `over`",
        "over = ",
    );
    asked(
        &format!("{good}, over = 'off_rail', over_tolerance = inches(60)"),
        "over_tolerance",
        "`over_tolerance` must be",
        "",
    );
    asked(
        &format!(
            "{good}, probes = 100000, over = 'off_rail', over_tolerance = inches(1), name = 'a/b'"
        ),
        "name",
        "letters",
        "",
    );
    check("frontier(banks)", 3, "frontier", "a table of options", "frontier { banks");
    check(
        "frontier { banks = hall, rule = ratio, along = 'speed', tolerance = mps(1) }",
        3,
        "banks",
        "a sweep",
        "",
    );
    check(
        "local started = sweep { on = hall, contact = 2, start = { 4, 5 }, speed = mps(4) }\n\
         frontier { banks = started, rule = ratio, along = 'start', tolerance = 0.01 }",
        4,
        "rule",
        "gives `start` itself",
        "leave out",
    );
    check(
        "local wide = sweep { on = hall, contact = span(1, 3, 0.01), speed = { mps(1), mps(8) } }\n\
         frontier { banks = wide, rule = ratio, along = 'speed', tolerance = mps(0.1), probes = 100000 }",
        4,
        "frontier",
        "20100000 banks",
        "`probes`",
    );
}

#[test]
fn a_rule_that_fails_in_between() {
    check(
        "local picky = rule.func { name = 'picky', start = function(c)\n\
         if c > 2.2 and c < 2.4 then error 'not here' end\n\
         return 2 * c end }\n\
         local many = sweep { on = hall, contact = { 2, 2.5 }, speed = mps(4) }\n\
         frontier { banks = many, rule = picky, along = 'contact', tolerance = 0.01, probes = 20 }",
        4,
        "if c > 2.2 and c < 2.4 then error 'not here' end",
        "picky failed at contact 2.2105",
        "",
    );
    check(
        "local known = rule.lines { lines = { { 2, 4.4 }, { 2.2, 4.9 } }, between = 'interpolate' }\n\
         local many = sweep { on = hall, contact = { 2, 2.5 }, speed = mps(4) }\n\
         frontier { banks = many, rule = known, along = 'contact', tolerance = 0.01, probes = 20 }",
        5,
        "rule",
        "no answer at contact 2.2",
        "",
    );
}

#[test]
fn what_is_done_with_it() {
    let with = |script: &str| format!("{FRONT}{script}");
    check(
        &with("print(front.bank_played)"),
        4,
        "bank_played",
        "a frontier has no `bank_played`",
        "`banks_played`",
    );
    check(
        &with("print(front:certificate().probs)"),
        4,
        "probs",
        "a certificate has no `probs`",
        "`probes`",
    );
    check(
        &with("print(front:intervals()[1].form)"),
        4,
        "form",
        "an interval has no `form`",
        "`from`",
    );
    check(
        &with("front:where { speed = mps(4) }"),
        4,
        "where",
        "runs along `speed`",
        "among the lines",
    );
    check(&with("front:where { contact = 3 }"), 4, "3", "`contact` is nowhere 3", "2, 2.5");
    check(&with("front:draw { panels = 'contact' }"), 4, "draw", "needs `x`", "");
    check(&with("front:draw { x = 'off_rail' }"), 4, "draw", "no room for `contact`", "panels");
    check(
        &with("front:draw { x = 'speed', panels = 'contact' }"),
        4,
        "x",
        "runs along this input",
        "",
    );
    check(
        &with("front:draw { x = 'off_rail', panels = 'off_rail' }"),
        4,
        "panels",
        "the same as `x`",
        "",
    );
    check(
        &with("front:draw { x = 'rail_model', panels = 'contact' }"),
        4,
        "x",
        "an axis of numbers",
        "",
    );
    check(&with("expect(front):hold()"), 4, "hold", "an expectation has no `hold`", "");
    check(&with("expect(front):breaks_below 'lng'"), 4, "'lng'", "\"lng\"", "long");
    check(
        &with("expect(front):holds_between(mps(5), mps(4))"),
        4,
        "mps(5)",
        "the lower end first",
        "",
    );
    check(
        &with("expect(front):holds_between(mps(0.5), mps(4))"),
        4,
        "mps(0.5)",
        "not searched that far",
        "",
    );
    check(&with("expect(front):holds_between(4, mps(5))"), 4, "4", "needs a unit", "");
    check(
        &with("expect(front):holds_between(lengths(4), lengths(5))"),
        4,
        "lengths(4)",
        "the measure",
        "",
    );
    check(
        &with("expect(front):least_rises_along 'speed'"),
        4,
        "'speed'",
        "runs along `speed` itself",
        "",
    );
    check(&with("expect(front):least_rises_along 'rule'"), 4, "'rule'", "rules have no order", "");
    check(&with("expect(front):least_rises_along 'roll'"), 4, "'roll'", "no two lines", "");
    check(&with("expect(front):saves_at_least(0)"), 4, "0", "at least 1", "");
    check("expect(ratio)", 3, "ratio", "a map, a frontier or a selection", "");
    let nowhere = "local far = frontier { banks = banks, rule = rule.linear { slope = 3 }, along = 'speed', \
                   tolerance = mps(0.1) }\nprint(far:least())";
    check(nowhere, 4, "least", "none of the 10 lines holds anywhere", "");
}
