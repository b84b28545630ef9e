//! Slips in the first scenario: each is told at its line, with what to write instead.

use super::refused;

const TEXT: &str = include_str!("../../../../scenarios/first.lua");

#[track_caller]
fn holds(from: &str, to: &str, line: usize, message: &str, hint: &str) {
    assert!(TEXT.contains(from), "the first scenario no longer says {from:?}");
    let fault = refused(&TEXT.replacen(from, to, 1));
    let at = fault.place.as_ref().map_or(0, |place| place.line_column().0);
    assert_eq!((at, fault.message.as_str()), (line, message));
    assert!(fault.hint.as_ref().is_some_and(|help| help.contains(hint)), "{fault:?}");
}

#[test]
fn a_quote_is_told_with_its_text() {
    let open = "the quote that opens here is not closed";
    holds("\"corner\",", "\"corner,", 13, open, "write \"corner\"");
    holds("\"harbour-hall\"", "\"harbour-hall", 8, open, "write \"harbour-hall\"");
    holds("goes \"long\"", "goes \"long", 34, open, "write \"long\"");
    let before = "the quote before this text is missing";
    holds("\"corner\"", "corner\"", 13, before, "write \"corner\"");
    holds("\"harbour-hall\"", "harbour-hall\"", 8, before, "write \"harbour-hall\"");
    let curly = "curly quotes do not count as quotes here";
    holds("\"corner\"", "“corner”", 13, curly, "write straight ones: \"corner\"");
    holds("\"corner\"", "\"corner”", 13, curly, "write straight ones: \"corner\"");
    holds("inches(5)", "5\"", 15, "in a scenario a number's unit comes before it", "inches(5)");
}

#[test]
fn a_bracket_is_told_where_it_stands() {
    let brace = "this { is not closed";
    holds("  spin     = \"stun\",\n}", "  spin     = \"stun\",\n", 11, brace, "a line of its own");
    holds("inches(10) },", "inches(10),", 15, brace, "on this line");
    holds("panels = \"off_rail\" }", "panels = \"off_rail\"", 22, brace, "on this line");
    holds("breaks it\",\n}", "breaks it\",\n", 4, brace, "a line of its own");
    let round = "this ( is not closed";
    holds("compare(banks, ratio)", "compare(banks, ratio", 20, round, "write )");
    holds("share_at_least(0.9)", "share_at_least(0.9", 29, round, "write )");
    holds("inches(10) }", "inches(10 }", 15, round, "write )");
    holds("mps(0.25)),", "mps(0.25))),", 16, "this ) closes nothing", "delete it");
    holds("span(1.25", "span 1.25", 14, "this ) closes nothing", "write the ( that it closes");
}

#[test]
fn a_comma_an_end_and_a_note_are_told() {
    holds("\"corner\",", "\"corner\"", 13, "a comma is missing after \"corner\"", "\"corner\",");
    holds("equipment = hall,", "equipment = hall", 12, "a comma is missing after hall", "hall,");
    holds("inches(0), inches(5)", "inches(0) inches(5)", 15, "a comma is missing after )", "),");
    let before = "local map = compare";
    let with = |words: &str| format!("{words}{before}");
    holds(
        before,
        &with("for i = 1, 2 do\n  print(i)\n\n"),
        20,
        "this `for` has no `end`",
        "write end",
    );
    holds(
        before,
        &with("function f(x)\n  return x\n"),
        20,
        "this `function` has no `end`",
        "write end",
    );
    holds(before, &with("if 1 == 1 then\n  print(1)\n"), 20, "this `if` has no `end`", "write end");
    holds(
        before,
        &with("for i = 1, 2\n  print(i)\nend\n"),
        20,
        "this `for` has no `do`",
        "write do",
    );
    holds(before, &with("end\n"), 20, "this `end` ends nothing", "delete it");
    holds("-- Frozen", "- Frozen", 27, "this is not a line of Lua", "two dashes");
    holds("-- Frozen to", "Frozen to", 27, "this is not a line of Lua", "two dashes");
    holds("local map", "Local map", 20, "`Local` begins with a small letter in Lua", "write local");
    holds("inches(5)", "5 in", 15, "in a scenario a number's unit comes before it", "inches(5)");
    holds("mps(2)", "2 m/s", 16, "in a scenario a number's unit comes before it", "mps(2)");
    holds(
        "contact  = span(1.25, 3.5, 0.25)",
        "contact 2",
        14,
        "an = is missing after contact",
        "contact = 2",
    );
}
