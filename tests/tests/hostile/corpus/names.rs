//! Names that scenarios and files give to their things, told in full.

use crate::case::Case;
use railproof::exit::Exit::{BadInput, ExpectationFailed, Held};

/// A plan whose rule's name clears the screen.
const PLAN: &str = r#"{ "railproof_plan": 2, "engine": "VERSION", "name": "p\u001b[2J", "shard_points": 8, "keep": "rows",
  "axes": [], "rules": [{ "name": "r\u001b[2J", "rule": "mirror" }] }"#;

/// A map of equipment and a rule that go by these names.
fn named(equipment: &str, rule: &str) -> String {
    format!(
        r#"
local hall = equipment("nine-foot"):with {{ name = "{equipment}" }}
local map = compare(
  grid {{ equipment = hall, contact = {{ 2, 3 }}, off_rail = inches(0), speed = {{ mps(3), mps(4) }}, spin = "stun" }},
  rule.linear {{ slope = 2.2, reading = "groove", name = "{rule}" }})
map:draw {{ x = "speed", y = "contact" }}
"#
    )
}

pub fn cases() -> Vec<Case> {
    let told = |name, text: &str| {
        let run = ["run", "case.lua", "--into", "out", "--full"];
        Case::command(name, &run, &[Held, BadInput]).file("case.lua", text)
    };
    let any = [Held, BadInput, ExpectationFailed];
    vec![
        told("names: an equipment's name, told in full", &named("x\\27]0;OWNED\\7\\27[2Jy", "r")),
        told("names: a rule's name, told in full", &named("hall", "r\\27[31m\\0")),
        told("names: names that turn the line", &named("hall \u{202e}llah", "\u{2066}r")),
        told("names: names that are no characters", &named("hall\u{ffff}", "r\u{fffe}")),
        told(
            "names: a rule's name for a build server, told in full",
            &named("hall ::error::owned", "##[error]owned"),
        ),
        Case::command(
            "names: a profile's name",
            &["run", "case.lua", "--into", "out", "--full"],
            &[BadInput],
        )
        .file("own.yaml", "name: \"a \\u202e b\"\n")
        .says("takes one line of plain text")
        .file("case.lua", "equipment('own.yaml')"),
        Case::command(
            "names: a plan's names",
            &["sweep", "plan.json", "--into", "out"],
            &[BadInput],
        )
        .file("plan.json", PLAN.replace("VERSION", railproof_engine::VERSION))
        .says("the plan's name takes one line of plain text"),
        Case::command("names: a command's name", &["ru\u{202e}n\u{1b}[2J", "x"], &[BadInput]),
        Case::command("names: a flag's name", &["run", "--\u{1b}]0;x\u{7}", "x"], &[BadInput]),
        Case::command("names: annotations beside JSON", &["test", "all", "--json"], &any)
            .file("all/a.lua", "expect_that('a\\226\\128\\174b\\239\\191\\191', false)"),
    ]
}
