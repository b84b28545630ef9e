//! Names and words that mean something to whoever reads the output: a terminal, a build server, XML, a spreadsheet.

use crate::case::Case;
use railproof::exit::Exit::{BadInput, ExpectationFailed, Held};
use std::ffi::OsString;
use std::os::unix::ffi::OsStringExt;

pub fn cases() -> Vec<Case> {
    let any = [Held, BadInput, ExpectationFailed];
    let said = |name, text: &str| Case::script(name, text, &any);
    vec![
        said("injections: printed escapes", "print('\\27[2J\\27]0;owned\\7')"),
        said(
            "injections: printed commands of a build server",
            "print('::error::owned') print('##[error]owned') print('x\\r::warning::owned')",
        ),
        said("injections: printed directions", "print('\u{202e}abc\u{2066}\u{200b}')"),
        said(
            "injections: what it shows",
            "scenario { shows = '\\27[31m::error::owned\\n::error::owned' }",
        ),
        said(
            "injections: an expectation's words",
            "expect_that('\\n::error::owned\\27[2J', false)",
        ),
        said(
            "injections: a rule's name",
            r#"
compare(grid { equipment = equipment "nine-foot", contact = 2, off_rail = inches(0), speed = mps(3), spin = "stun" },
  rule.linear { slope = 2.2, reading = "groove", name = "\n::error::owned\27[31m<script>" })"#,
        ),
        said(
            "injections: a name that a spreadsheet computes",
            r#"
compare(grid { equipment = equipment "nine-foot", contact = 2, off_rail = inches(0), speed = mps(3), spin = "stun" },
  rule.linear { slope = 2.2, reading = "groove", name = "=cmd|' /C calc'!A0" })"#,
        ),
        said(
            "injections: a title of markup",
            r#"
local map = compare(grid { equipment = equipment "nine-foot", contact = { 2, 3 }, off_rail = inches(0), speed = { mps(2), mps(3) }, spin = "stun" },
  rule.linear { slope = 2.2, reading = "groove" })
map:draw { x = "speed", y = "contact", title = "<script>alert(1)</script>]]>&\0\u{FFFE}" }"#,
        ),
        Case::command(
            "injections: a file named with escapes",
            &["run", "\u{1b}[31m.lua", "--into", "out"],
            &any,
        )
        .file("\u{1b}[31m.lua", "error('x')"),
        Case::command(
            "injections: a file named like a command",
            &["run", "::error::owned.lua", "--into", "out"],
            &any,
        )
        .file("::error::owned.lua", "error('x')"),
        Case::command(
            "injections: a file of two lines",
            &["run", "a\n::error::owned.lua", "--into", "out"],
            &any,
        )
        .file("a\n::error::owned.lua", "error('x')"),
        Case::command(
            "injections: a file named the other way round",
            &["run", "\u{202e}aul.lua", "--into", "out"],
            &any,
        )
        .file("\u{202e}aul.lua", "error('x')"),
        Case::command("injections: a file named by no text", &["run", "--into", "out"], &any)
            .argument(OsString::from_vec(b"\xff\xfe.lua".to_vec())),
        Case::command("injections: annotations of such names", &["test", "all"], &any)
            .file("all/a,b%::error::c.lua", "expect_that('\\n::error::owned', false)"),
        Case::command(
            "injections: a filter of such words",
            &["test", "all", "--filter", "\u{1b}[31m\n::error::owned"],
            &any,
        )
        .file("all/a.lua", "print(1)"),
        Case::command("injections: a list of such names", &["test", "all", "--list"], &any)
            .file("all/\u{1b}[31m\n::error::.lua", "print(1)"),
        Case::command(
            "injections: results as JSON of such names",
            &["test", "all", "--json"],
            &any,
        )
        .file("all/\u{1b}[31m\n::error::.lua", "print('\\27[2J')"),
    ]
}
