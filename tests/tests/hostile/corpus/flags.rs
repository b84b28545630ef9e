//! Command lines.

use crate::case::Case;
use railproof::exit::Exit::{BadInput, Held};
use std::ffi::OsString;
use std::os::unix::ffi::OsStringExt;

pub fn cases() -> Vec<Case> {
    let bad =
        |name, words: &[&str]| Case::command(name, words, &[BadInput]).file("a.lua", "print(1)");
    vec![
        bad("flags: a file that is not there", &["run", "nothing.lua"]),
        bad("flags: no file", &["run"]),
        bad("flags: no time", &["run", "a.lua", "--time", "0"]),
        bad("flags: a time in no unit", &["run", "a.lua", "--time", "10"]),
        bad("flags: a time past all", &["run", "a.lua", "--time", "99999999999999999999 h"]),
        bad("flags: no memory", &["run", "a.lua", "--memory", "1 KiB"]),
        bad("flags: a negative memory", &["run", "a.lua", "--memory", "-1 GiB"]),
        bad("flags: no output", &["run", "a.lua", "--output-size", "0"]),
        bad("flags: a folder to read that is not there", &["run", "a.lua", "--read", "nowhere"]),
        bad("flags: limits that are not there", &["run", "a.lua", "--limits", "nowhere.yaml"]),
        bad("flags: limits of the system", &["run", "a.lua", "--limits", "/etc/passwd"]),
        bad("flags: limits outside", &["run", "a.lua", "--limits", "limits.yaml"])
            .file("limits.yaml", "memroy: 1 GiB\n"),
        bad("flags: a file where a folder should be", &["run", "a.lua", "--into", "a.lua"]),
        bad("flags: a share that is none", &["test", ".", "--shard", "3/2"]),
        bad("flags: a filter that leaves nothing", &["test", ".", "--filter", "nothing"]),
        bad(
            "flags: results where there is no folder",
            &["test", ".", "--junit", "nowhere/results.xml"],
        ),
        bad("flags: too many threads", &["run", "a.lua", "--threads", "100000"]),
        bad("flags: the mark of a worker", &["--inside-walls"]),
        bad("flags: no text", &["run"]).argument(OsString::from_vec(vec![0xff, 0xfe])),
        bad("flags: a long one", &["run", &"x".repeat(100_000)]),
        bad("flags: many", &[["run"].as_slice(), &vec!["nothing.lua"; 2000]].concat()),
        Case::command(
            "flags: a filter of a pattern's letters",
            &["test", ".", "--filter", "clean.lua", "--expecting", "(((["],
            &[Held, BadInput],
        ),
    ]
}
