//! Files that a script may not read or write, or that are none.

use crate::case::Case;
use railproof::exit::Exit::{BadInput, Held};
use std::fs;
use std::os::unix::fs::symlink;
use std::path::Path;

#[expect(clippy::too_many_lines, reason = "a table of cases")]
pub fn cases() -> Vec<Case> {
    let reads = |name, text: &str| Case::script(name, text, &[BadInput]);
    vec![
        reads("files: the system's", "equipment('/etc/passwd')").says("may not be read"),
        reads("files: outside", "equipment('../outside/secret.yaml')").says("may not be read"),
        reads(
            "files: outside, by way of the folder",
            "equipment('../inside/../outside/secret.yaml')",
        ),
        reads(
            "files: outside, whether they are there or not",
            "equipment('../outside/nothing.yaml')",
        )
        .says("may not be read"),
        reads("files: a link out", "equipment('link.yaml')")
            .prepared(|work| link(work, "../outside/secret.yaml", "link.yaml"))
            .says("may not be read"),
        reads("files: a link to a link out", "equipment('second.yaml')").prepared(|work| {
            link(work, "../outside/secret.yaml", "first.yaml");
            link(work, "first.yaml", "second.yaml");
        }),
        reads("files: a folder that is a link out", "equipment('folder/secret.yaml')")
            .prepared(|work| link(work, "../outside", "folder")),
        reads("files: a link to nothing", "equipment('lost.yaml')")
            .prepared(|work| link(work, "nothing.yaml", "lost.yaml")),
        reads("files: a link to itself", "equipment('round.yaml')")
            .prepared(|work| link(work, "round.yaml", "round.yaml")),
        reads("files: a pipe", "equipment('pipe.yaml')").prepared(|work| pipe(work, "pipe.yaml")),
        reads("files: a device", "equipment('/dev/zero')"),
        reads("files: a link to a device", "equipment('zero.yaml')")
            .prepared(|work| link(work, "/dev/zero", "zero.yaml")),
        reads("files: standard input", "equipment('/dev/stdin')"),
        reads("files: the memory of the process", "equipment('/proc/self/mem')"),
        reads("files: the environment", "equipment('/proc/self/environ')"),
        reads("files: a folder", "equipment('.')"),
        reads("files: no name", "equipment('')"),
        reads("files: a name with a zero", "equipment('a\\0b')"),
        reads("files: a name of control characters", "equipment('\\27[31m\\7.yaml')"),
        reads("files: a long name", "equipment(('x'):rep(1e5) .. '.yaml')"),
        reads("files: a huge one", "equipment('huge.yaml')").prepared(|work| {
            fs::File::create(work.join("huge.yaml")).unwrap().set_len(8 << 30).unwrap();
        }),
        reads("files: one of another kind", "equipment('notes.txt')")
            .file("notes.txt", "a note: of nobody's business\n"),
        reads("files: bytes", "equipment('bytes.yaml')")
            .file("bytes.yaml", [0xff, 0xfe, 0, 1, 2, 3]),
        reads("files: a player outside", "player('../outside/secret.yaml')"),
        reads(
            "files: measured banks outside",
            "fit { banks = '../outside/secret.csv', on = equipment 'nine-foot' }",
        ),
        reads("files: a table's file outside", "measured_table('../outside/secret.json')"),
        reads("files: a layout outside", "play_file('../outside/secret.yaml')"),
        reads("files: a layout that names a table outside", "play_file('layout.yaml')")
            .file("layout.yaml", "equipment: ../outside/secret.yaml\nballs: {}\n"),
        Case::command(
            "files: the scenario is a pipe",
            &["run", "pipe.lua", "--into", "out"],
            &[BadInput],
        )
        .prepared(|work| pipe(work, "pipe.lua")),
        Case::command(
            "files: the scenario is a device",
            &["run", "/dev/zero", "--into", "out"],
            &[BadInput],
        ),
        Case::command(
            "files: the scenario is huge",
            &["run", "huge.lua", "--into", "out"],
            &[BadInput],
        )
        .prepared(|work| {
            fs::File::create(work.join("huge.lua")).unwrap().set_len(8 << 30).unwrap();
        }),
        Case::command(
            "files: the scenario is no text",
            &["run", "case.lua", "--into", "out"],
            &[BadInput],
        )
        .file("case.lua", [0xff, 0xfe, 0, 1]),
        Case::script("files: a link where rows are written", &map(""), &[Held]).prepared(|work| {
            fs::create_dir(work.join("out")).unwrap();
            link(work, "../../outside/secret", "out/rows.csv");
        }),
        Case::script(
            "files: a link where pictures are written",
            &map("map:draw { x = 'speed', y = 'contact', name = 'map' }"),
            &[Held],
        )
        .prepared(|work| {
            fs::create_dir(work.join("out")).unwrap();
            link(work, "../../outside/secret", "out/map.png");
            link(work, "../../outside/secret", "out/map.svg");
        }),
        Case::script(
            "files: a link where the run is told",
            &map(""),
            &[Held, BadInput, railproof::exit::Exit::CouldNotFinish],
        )
        .prepared(|work| {
            fs::create_dir(work.join("out")).unwrap();
            link(work, "../../outside/secret.json", "out/run.json");
        }),
        Case::script("files: a list of an earlier run that lies", &map(""), &[Held]).file(
            "out/run.json",
            r#"{"files": ["../../outside/secret.csv", "/etc/passwd", "../clean.lua", "..", ""]}"#,
        ),
        reads(
            "files: a picture's name that leaves the folder",
            &map("map:draw { x = 'speed', y = 'contact', name = '../owned' }"),
        ),
        reads(
            "files: a picture's name of two dots",
            &map("map:draw { x = 'speed', y = 'contact', name = '..' }"),
        ),
        Case::command("files: a scenario named by a way up", &["run", "...lua"], &[BadInput])
            .file("...lua", map("")),
        Case::command(
            "files: scenarios named by a way up",
            &["test", "all", "--into", "out"],
            &[BadInput],
        )
        .file("all/...lua", map("")),
        Case::command("files: results where a link stands", &["run", "case.lua"], &[BadInput])
            .file("case.lua", map(""))
            .prepared(|work| {
                fs::create_dir(work.join("out")).unwrap();
                link(work, "../../outside", "out/case");
            })
            .says("is a link"),
        Case::command("files: all results where a link stands", &["run", "case.lua"], &[BadInput])
            .file("case.lua", map(""))
            .prepared(|work| link(work, "../elsewhere", "out"))
            .says("is a link"),
        Case::command(
            "files: tests' results where a link stands",
            &["test", "all", "--into", "out"],
            &[BadInput],
        )
        .file("all/case.lua", map(""))
        .prepared(|work| {
            fs::create_dir(work.join("out")).unwrap();
            link(work, "../../outside", "out/all");
        })
        .says("is a link"),
        Case::command("files: a scenario that is a link out", &["test", "all"], &[BadInput])
            .file("all/own.lua", "print(1)")
            .prepared(|work| link(work, "../../outside/secret.lua", "all/a.lua"))
            .says("was left out")
            .says("1 ok"),
        Case::command("files: a folder of scenarios that is a link out", &["test", "all"], &[Held])
            .file("all/own.lua", "print(1)")
            .prepared(|work| link(work, "../../outside", "all/folder"))
            .says("was not searched"),
        Case::command("files: a link to the whole machine", &["test", ".", "--list"], &[Held])
            .prepared(|work| link(work, "/", "all")),
    ]
}

/// A map, and what is done with it.
fn map(then: &str) -> String {
    format!(
        r#"
local banks = grid {{ equipment = equipment "nine-foot", contact = {{ 2, 3 }}, off_rail = inches(0), speed = {{ mps(2), mps(3) }}, spin = "stun", name = "rows" }}
local map = compare(banks, rule.linear {{ slope = 2.2, reading = "groove" }})
{then}
"#
    )
}

fn link(work: &Path, to: &str, name: &str) {
    symlink(to, work.join(name)).unwrap();
}

fn pipe(work: &Path, name: &str) {
    let path = work.join(name);
    assert!(std::process::Command::new("mkfifo").arg(path).status().unwrap().success());
}
