//! The text for a cluster, of names that a shell would obey.

use crate::case::Case;
use railproof::exit::Exit::{BadInput, Held};
use railproof_tests::program_in;
use std::path::Path;

pub fn cases() -> Vec<Case> {
    let text = |name, words: &[&str]| {
        let words = [&["slurm", "plan.json", "--tasks", "2"], words].concat();
        Case::command(name, &words, &[Held, BadInput])
            .within(5)
            .file("source.lua", PLAN)
            .prepared(make_plan)
    };
    vec![
        text("cluster: a folder of several commands", &["--into", "out; touch owned"]),
        text("cluster: a folder with a substitution", &["--into", "$(touch owned)"]),
        text("cluster: a folder with quotes", &["--into", "a'b\"c`touch owned`"]),
        text("cluster: a folder of two lines", &["--into", "a\ntouch owned"]),
        text(
            "cluster: an option of two lines",
            &["--into", "out", "--extra", "--wrap=x\n#SBATCH --uid=0"],
        ),
        text(
            "cluster: a partition that is more",
            &["--into", "out", "--partition", "x\ntouch owned"],
        ),
        text(
            "cluster: a program that is more",
            &["--into", "out", "--program", "/bin/sh -c 'touch owned'"],
        ),
    ]
}

const PLAN: &str = r#"
plan(grid { equipment = equipment "nine-foot", contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = "stun", name = "rows" },
  rule.linear { slope = 2.2, reading = "groove" })
"#;

fn make_plan(work: &Path) {
    let made =
        program_in(work).args(["plan", "source.lua", "--out", "plan.json"]).output().unwrap();
    assert!(made.status.success(), "{made:?}");
}
