//! The table of exit codes in the guide, held to the program row by row.

use super::place::HostilePlace;
use railproof::exit::Exit;
use std::fs;

const GUIDE: &str = include_str!("../../../scenarios/guide/walls.md");

/// The rows of the table: code and meaning.
fn rows() -> Vec<(u8, &'static str)> {
    let cells = GUIDE.lines().filter_map(|line| {
        let mut cells = line.strip_prefix("| ")?.split(" | ");
        let code = cells.next()?.parse().ok()?;
        Some((code, cells.next()?.trim_end_matches(" |")))
    });
    cells.collect()
}

const MAP: &str = r#"
local banks = grid {
  equipment = equipment "nine-foot", contact = { 2, 3 }, off_rail = inches(0), speed = { mps(2), mps(4) }, spin = "stun",
}
local map = compare(banks, rule.linear { slope = 2.2, reading = "groove" })
"#;

const FAILS: &str = r#"
plan(grid {
  equipment = equipment "nine-foot", contact = { 2, 3 }, off_rail = inches(0), speed = mps(3), spin = "stun",
}, rule.func { name = "none", reading = "groove", start = function(contact) error("none") end })
"#;

#[test]
fn every_exit_code_of_the_table_is_given_for_its_cause() {
    let told: Vec<(u8, &str)> = rows();
    let known: Vec<(u8, &str)> =
        Exit::ALL.iter().map(|exit| (exit.code(), exit.meaning())).collect();
    assert_eq!(told, known, "the table is that of the program");
    let place = HostilePlace::new();
    for (name, text) in [
        ("holds", format!("{MAP}expect(map):share_at_least(0)")),
        ("fails", format!("{MAP}expect(map):share_at_least(1)\nexpect(map):goes \"short\"")),
        ("wrong", "gridd {}".to_owned()),
        ("loops", "while true do end".to_owned()),
        ("none", FAILS.to_owned()),
    ] {
        place.write(&format!("inside/{name}.lua"), text.as_bytes());
    }
    let code = |words: &[&str]| {
        let ended = place.command().args(words).output().unwrap();
        ended.status.code().and_then(|code| u8::try_from(code).ok())
    };
    assert_eq!(code(&["run", "holds.lua"]), Some(Exit::Held.code()));
    assert_eq!(code(&["run", "fails.lua"]), Some(Exit::ExpectationFailed.code()));
    assert_eq!(code(&["run", "wrong.lua"]), Some(Exit::BadInput.code()));
    assert_eq!(
        code(&["run", "holds.lua", "--into", "/proc/none"]),
        Some(Exit::CouldNotFinish.code())
    );
    assert_eq!(code(&["run", "loops.lua", "--time", "200 ms"]), Some(Exit::OverBudget.code()));
    assert_eq!(code(&["sweep", "none.lua", "--into", "swept"]), Some(Exit::MostFailed.code()));
    fs::remove_file(place.path("inside/swept/manifest.json")).unwrap();
    assert_eq!(code(&["verify", "swept"]), Some(Exit::NotWhole.code()));
    // Interrupted: see `interrupted`.
}

/// The commands that are done as a whole: work that would take much longer is ended in time.
#[test]
fn every_command_stops_at_its_time() {
    let place = HostilePlace::new();
    place.write("inside/loops.lua", b"while true do end");
    let measured = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios/measured/hall.csv");
    place.write("inside/hall.csv", &fs::read(measured).unwrap());
    for words in [
        &["plan", "loops.lua"][..],
        &["sweep", "loops.lua", "--into", "out"],
        &["fit", "hall.csv", "--members", "60000", "--quiet"],
        &["discover", "--known-by", "ranges", "--balls", "2000"],
        &["correct", "--known-by", "ranges", "--balls", "2000"],
        &[
            "bank",
            "--contact",
            "2",
            "--speed",
            "medium",
            "--known-by",
            "practice",
            "--player",
            "club",
        ],
    ] {
        let began = std::time::Instant::now();
        let ended = place.command().args(words).args(["--time", "100 ms"]).output().unwrap();
        let took = began.elapsed();
        assert_eq!(
            ended.status.code(),
            Some(Exit::OverBudget.code().into()),
            "{words:?} {ended:?}"
        );
        let shown = String::from_utf8_lossy(&ended.stderr).into_owned();
        assert!(shown.contains("it took longer than its 100ms"), "{words:?}: {shown}");
        assert!(took.as_secs_f64() < 1.1 + 0.5, "{words:?}: {took:?}");
    }
}
