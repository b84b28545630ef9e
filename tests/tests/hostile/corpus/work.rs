//! Work in Rust that a script asks for without end: the script's own clock stands still meanwhile.

use crate::case::Case;
use railproof::exit::Exit::{BadInput, OverBudget};

/// Words for what follows: a table, a bank, banks of a grid, a rule, a layout.
const WORDS: &str = r#"
local hall = equipment "nine-foot"
local groove = rule.linear { slope = 2.2, reading = "groove" }
local function banks(step)
  return grid { equipment = hall, contact = span(1, 4, step), off_rail = inches(0), speed = span(mps(2), mps(5), mps(0.5)), spin = "stun" }
end
local few = banks(1)
local function layout()
  return bank_shot { equipment = hall, contact = 2, rule = groove, off_rail = inches(4), cue_distance = inches(8) }
end
"#;

pub fn cases() -> Vec<Case> {
    let over = |name, work: &str| {
        Case::script(name, &format!("{WORDS}\nwhile true do {work} end"), &[OverBudget])
    };
    let caught = |name, work: &str| {
        let text = format!("{WORDS}\nwhile true do pcall(function() {work} end) end");
        Case::script(name, &text, &[OverBudget, BadInput])
    };
    let once =
        |name, work: &str| Case::script(name, &format!("{WORDS}\n{work}"), &[OverBudget, BadInput]);
    vec![
        over(
            "work: banks",
            r#"bank { equipment = hall, contact = 2, start = 4.4, off_rail = inches(0), speed = mps(3), spin = "stun" }"#,
        ),
        over(
            "work: least speeds",
            r#"least_speed { equipment = hall, contact = 2, rule = groove, off_rail = inches(8), spin = "stun" }"#,
        ),
        over(
            "work: room for the aim",
            r#"aim_margin { equipment = hall, contact = 2, start = 4.4, off_rail = inches(0), speed = mps(3), spin = "stun" }"#,
        ),
        caught("work: comparisons", "compare(few, groove)"),
        caught("work: exact starts", "exact_starts(few)"),
        caught(
            "work: frontiers",
            r#"frontier { banks = few, rule = groove, along = "speed", tolerance = mps(0.01) }"#,
        ),
        caught("work: shots", r#"layout():play { speed = mps(3), send = "line" }"#),
        caught(
            "work: sweeps of shots",
            r#"shots { over = { contact = span(1, 3, 0.1) }, shot = function(point) return layout(), { speed = mps(3), send = "line" } end }"#,
        ),
        caught("work: chances", r#"player("club"):chances(few, groove)"#),
        caught("work: searches for rules", "discover { on = hall, player = player(\"club\") }"),
        caught(
            "work: corrections",
            "corrections { on = hall, player = player(\"club\"), rule = groove, balls = 4096 }",
        ),
        caught("work: one spot", "one_spot { on = hall, speed = mps(4) }"),
        caught("work: tables by practice", "practice_table(hall)"),
        caught("work: shares of tables", "unmeasured_table(hall):shares(few, groove)"),
        caught("work: tables made", "hall:with { ball_mass = grams(160) }"),
        caught("work: grids", "banks(0.01)"),
        caught("work: plans", "plan(few, groove)"),
        caught(
            "work: samples",
            "sample { equipment = hall, count = 1e6, contact = span(1, 4), off_rail = inches(0), speed = mps(3) }",
        ),
        once(
            "work: a comparison as large as may be",
            "compare(grid { equipment = hall, contact = span(1, 4, 0.001), off_rail = span(inches(0), inches(20), inches(0.1)), speed = mps(3), spin = \"stun\" }, groove)",
        ),
        once(
            "work: a comparison too large",
            "compare(grid { equipment = hall, contact = span(1, 4, 0.00001), off_rail = span(inches(0), inches(20), inches(0.001)), speed = mps(3), spin = \"stun\" }, groove)",
        ),
        once(
            "work: a frontier as fine as may be",
            r#"frontier { banks = banks(0.01), rule = groove, along = "speed", tolerance = mps(0.0000001), over = "contact", over_tolerance = 0.000001 }"#,
        ),
        once(
            "work: a search among all tables",
            "discover { on = practice_table(hall), player = player(\"club\") }",
        ),
        once("work: a span without end", "span(0, 1e18, 1e-9)"),
        once(
            "work: a number of random samples",
            "sample { equipment = hall, count = 1e18, contact = span(1, 4), off_rail = inches(0), speed = mps(3) }",
        ),
    ]
}
