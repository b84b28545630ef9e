//! Baselines that are not ours.

use crate::case::Case;
use railproof::exit::Exit::{BadInput, ExpectationFailed, OverBudget};
use std::path::Path;

pub fn cases() -> Vec<Case> {
    let held_to = |name, text: &[u8]| {
        Case::script(name, &map("map.baseline"), &[BadInput, ExpectationFailed])
            .file("map.baseline", text)
    };
    let numbers = |name, lines: &str| {
        let rows = "contact_diamonds\trule\tverdict\tmiss_mm\n2\tr\tholds\t1.0\n";
        let text = format!("# railproof baseline, format 2\n{lines}{rows}");
        held_to(name, text.as_bytes())
    };
    let at = |name, path: &str| Case::script(name, &map(path), &[BadInput]);
    let accepted = |name, path: &str| {
        Case::command(
            name,
            &["run", "case.lua", "--into", "out", "--accept", "--time", "1 s"],
            &[BadInput, ExpectationFailed],
        )
        .file("case.lua", map(path))
    };
    vec![
        held_to("baselines: bytes", &[0xff; 1000]),
        held_to("baselines: other text", b"wolves\nand sheep\n"),
        held_to("baselines: long", "1\t2\t3\n".repeat(2_000_000).as_bytes()),
        held_to("baselines: a long line", &[b'x'; 4 << 20]),
        held_to("baselines: escapes", b"# railproof baseline, format 1\n# \x1b[2J: owned\n\x1b[31m\t::error::\n"),
        held_to("baselines: numbers past all", b"# railproof baseline, format 1\n# units: SI\ncontact_diamonds\tverdict\tmiss_mm\n1e999\tholds\tnan\n"),
        numbers("baselines: a million tables", &format!("# table: {}\n", "a\t".repeat(400_000))),
        numbers("baselines: a rule of many parts", &format!("# rule: r\tlinear{}\n", "\tslope=1".repeat(90_000))),
        numbers("baselines: many rules", &"# rule: r\tlinear\tslope=1\n".repeat(35_000)),
        numbers("baselines: a long rule", &format!("# rule: {}\tlinear\tslope={}\n", "r".repeat(400_000), "1".repeat(400_000))),
        numbers("baselines: numbers of no table", "# table restitution: 0.9\n"),
        numbers("baselines: tables that differ in all", "# table: \x1b[2J::error::\n# table restitution: -1e308\n# table nose_height_m: 1e308\n# table ball_diameter_m: 0\n"),
        numbers("baselines: many names of tables", &{
            let rows = (0..30_000).map(|at| format!("t{at}\t2\t-\tholds\t1.0\n"));
            format!("equipment\tcontact_diamonds\trule\tverdict\tmiss_mm\n{}", rows.collect::<String>())
        }),
        at("baselines: outside", "../outside/secret.baseline"),
        at("baselines: of the system", "/etc/passwd"),
        at("baselines: no baseline by its name", "case.lua"),
        at("baselines: a link out", "linked.baseline").prepared(link),
        at("baselines: a folder", "folder.baseline").prepared(|work| std::fs::create_dir(work.join("folder.baseline")).unwrap()),
        at("baselines: a pipe", "pipe.baseline").prepared(|work| {
            let made = std::process::Command::new("mkfifo").arg(work.join("pipe.baseline")).status();
            assert!(made.unwrap().success());
        }),
        accepted("baselines: accepted outside", "../outside/owned.baseline"),
        accepted("baselines: accepted through a link out", "linked.baseline").prepared(link),
        accepted("baselines: accepted in a folder that is a link out", "linked/owned.baseline").prepared(|work| {
            std::os::unix::fs::symlink("../outside", work.join("linked")).unwrap();
        }),
        Case::script("baselines: many", &format!("{}\nfor i = 1, 1e6 do pcall(function() expect(map):matches_baseline('b' .. i .. '.baseline') end) end", map("b.baseline")), &[BadInput, ExpectationFailed, OverBudget]).within(5),
    ]
}

fn link(work: &Path) {
    std::os::unix::fs::symlink("../outside/secret.baseline", work.join("linked.baseline")).unwrap();
}

fn map(path: &str) -> String {
    format!(
        r#"
local banks = grid {{ equipment = equipment "nine-foot", contact = {{ 2, 3 }}, off_rail = inches(0), speed = {{ mps(2), mps(3) }}, spin = "stun" }}
map = compare(banks, rule.linear {{ slope = 2.2, reading = "groove" }})
expect(map):matches_baseline("{path}", {{ within = millimetres(0.5) }})
"#
    )
}
