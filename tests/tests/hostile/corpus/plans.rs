//! Plans that are no plans of ours.

use crate::case::Case;
use railproof::exit::Exit::{BadInput, CouldNotFinish, Held, MostFailed, OverBudget};
use railproof_tests::program_in;
use std::fs;
use std::path::Path;

pub fn cases() -> Vec<Case> {
    let sweep = |name, text: &[u8]| {
        let words = ["sweep", "case.json", "--into", "out", "--time", "2 s", "--quiet"];
        Case::command(name, &words, &[BadInput]).within(2).file("case.json", text)
    };
    // A plan of ours, with something else in the place of its own.
    let changed = |name, change: fn(&Path)| {
        let words = ["sweep", "plan.json", "--into", "out", "--time", "2 s", "--quiet"];
        Case::command(name, &words, &[BadInput])
            .within(2)
            .file("source.lua", PLAN)
            .prepared(make_plan)
            .prepared(change)
    };
    // A name decides nothing, and no file is called by it.
    let named = |name, change| changed(name, change).may_end_with(Held);
    let endless = |name, body: &str| {
        let words = ["sweep", "case.lua", "--into", "out", "--time", "2 s", "--quiet"];
        let exits = [OverBudget, BadInput, MostFailed];
        Case::command(name, &words, &exits).within(2).file("case.lua", scenario(body))
    };
    vec![
        sweep("plans: empty", b""),
        sweep("plans: another kind of JSON", b"[1, 2, 3]"),
        sweep("plans: nested deep", "[".repeat(1_000_000).as_bytes()),
        sweep("plans: no text", &[0xff; 1000]),
        sweep("plans: long", " ".repeat(100 << 20).as_bytes()),
        sweep("plans: a huge number", b"{\"railproof_plan\": 1e999}"),
        changed("plans: another digest", |work| {
            replace(work, "\"plan_sha256\": \"", "\"plan_sha256\": \"00");
        }),
        changed("plans: more points than there are", |work| {
            replace(work, "\"points\": ", "\"points\": 9");
        }),
        changed("plans: shards of nothing", |work| {
            replace(work, "\"shard_points\": ", "\"shard_points\": 0");
        }),
        named("plans: another name", |work| {
            replace(work, "\"name\": \"rows\"", "\"name\": \"../../outside/owned\"");
        }),
        changed("plans: a foreign engine", |work| {
            replace(work, "\"engine\": \"", "\"engine\": \"9");
        }),
        changed("plans: cut off", |work| {
            let text = fs::read(work.join("plan.json")).unwrap();
            fs::write(work.join("plan.json"), &text[..text.len() / 2]).unwrap();
        }),
        endless("plans: a rule without end", "while true do end return contact"),
        endless(
            "plans: a rule that takes memory",
            "local t = {} while true do t[#t + 1] = t end return contact",
        ),
        endless("plans: a rule that fails", "error({})"),
        Case::command(
            "plans: many points",
            &["sweep", "case.lua", "--into", "out", "--time", "2 s", "--quiet"],
            &[OverBudget, Held],
        )
        .within(2)
        .file("case.lua", MANY),
        Case::command(
            "plans: more points than may be",
            &["sweep", "case.lua", "--into", "out", "--time", "2 s", "--quiet"],
            &[BadInput, OverBudget, CouldNotFinish],
        )
        .within(2)
        .file("case.lua", MANY.replace("0.001", "0.0000001")),
        Case::command(
            "plans: a loop before the plan",
            &["plan", "case.lua", "--time", "1 s"],
            &[OverBudget],
        )
        .file("case.lua", "while true do end"),
        Case::command(
            "plans: written where a link stands",
            &["plan", "source.lua", "--out", "out/plan.json"],
            &[Held],
        )
        .file("source.lua", PLAN)
        .prepared(|work| {
            fs::create_dir(work.join("out")).unwrap();
            std::os::unix::fs::symlink("../../outside/secret.json", work.join("out/plan.json"))
                .unwrap();
        }),
        Case::command(
            "plans: of a scenario outside its folder",
            &["plan", "source.lua"],
            &[BadInput],
        )
        .file("source.lua", "equipment('../outside/secret.yaml')"),
    ]
}

const PLAN: &str = r#"
plan(grid { equipment = equipment "nine-foot", contact = { 2, 3 }, off_rail = inches(0), speed = { mps(2), mps(3) }, spin = "stun", name = "rows" },
  rule.linear { slope = 2.2, reading = "groove" })
"#;

const MANY: &str = r#"
plan(grid { equipment = equipment "nine-foot", contact = span(1, 4, 0.001), off_rail = span(inches(0), inches(20), inches(0.05)), speed = span(mps(1), mps(5), mps(0.1)), spin = "stun" },
  rule.linear { slope = 2.2, reading = "groove" })
"#;

fn scenario(body: &str) -> String {
    format!(
        r#"
plan(grid {{ equipment = equipment "nine-foot", contact = {{ 2, 3 }}, off_rail = inches(0), speed = mps(3), spin = "stun" }},
  rule.func {{ name = "mine", reading = "groove", start = function(contact) {body} end }})
"#
    )
}

fn make_plan(work: &Path) {
    let made =
        program_in(work).args(["plan", "source.lua", "--out", "plan.json"]).output().unwrap();
    assert!(made.status.success(), "{made:?}");
}

fn replace(work: &Path, from: &str, to: &str) {
    let path = work.join("plan.json");
    let text = fs::read_to_string(&path).unwrap();
    let changed = text.replacen(from, to, 1);
    assert_ne!(text, changed, "{from}");
    fs::write(path, changed).unwrap();
}
