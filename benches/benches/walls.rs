//! The cost of the walls: the same work of the program with them and with `--no-walls`, by turns in one run. A scenario
//! and a bank that ask for nothing show the price of a process; a sweep that keeps its rows, that of work in one.
//!
//! The program is taken from beside this benchmark: `cargo build --release` makes it. `RAILPROOF_BENCH=short` makes a
//! quick pass whose figures are rough.

use railproof_benches::timing::is_short;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Instant;

const NOTHING: &str = "print(1)\n";

fn main() {
    let program = program();
    let place = tempfile::tempdir().expect("a temporary folder can be had");
    let write = |name: &str, text: &str| {
        std::fs::write(place.path().join(name), text).expect("it can be written");
    };
    write("nothing.lua", NOTHING);
    let (calls, sweeps, points) = if is_short() { (11, 3, 100_000) } else { (61, 9, 1_000_000) };
    write("rows.lua", &sweep(points));
    println!("walls, with and without, by turns");
    for (name, words) in [
        ("a scenario of nothing", &["run", "nothing.lua", "--quiet"][..]),
        ("a bank", &["bank", "--contact", "2", "--speed", "medium"]),
        ("a film's template", &["track", "--template"]),
    ] {
        let [with, without] = by_turns(&program, place.path(), words, calls);
        let more = 1e3 * (with - without);
        println!(
            "  {name:<28} {:6.1} ms, {:6.1} ms without: {more:5.1} ms more",
            1e3 * with,
            1e3 * without
        );
    }
    let words = ["sweep", "rows.lua", "--into", "rows", "--quiet"];
    let [with, without] = by_turns(&program, place.path(), &words, sweeps);
    println!(
        "  {points:>9} rows kept          {with:6.2} s,  {without:6.2} s  without: {:4.1} % more",
        100.0 * (with / without - 1.0)
    );
}

/// The program that was built with this.
fn program() -> PathBuf {
    let own = std::env::current_exe().expect("this benchmark has a path");
    let folder = own.parent().and_then(Path::parent).expect("it lies in a folder of the build");
    let program = folder.join(format!("railproof{}", std::env::consts::EXE_SUFFIX));
    assert!(program.is_file(), "there is no program beside this: `cargo build --release` makes it");
    program
}

/// A sweep that keeps so many rows, a thousand for each speed.
fn sweep(points: u32) -> String {
    let by = 5.0 / f64::from(points / 1000);
    let last = 1.5 + 5.0 - by;
    format!(
        r#"plan(grid {{ equipment = equipment "nine-foot", rail_model = "planar", off_rail = inches(0), spin = "stun",
  name = "rows", contact = span(1, 3.997, 0.003), speed = span(mps(1.5), mps({last}), mps({by})) }},
  rule.linear {{ slope = 2.2, reading = "groove" }})
"#
    )
}

/// The middle of the times with walls and without, in seconds: other work of the machine spoils neither.
fn by_turns(program: &Path, place: &Path, words: &[&str], rounds: usize) -> [f64; 2] {
    let mut times = [Vec::with_capacity(rounds), Vec::with_capacity(rounds)];
    for _ in 0..rounds {
        for (flag, times) in [None, Some("--no-walls")].into_iter().zip(&mut times) {
            let _ = std::fs::remove_dir_all(place.join("rows"));
            let begun = Instant::now();
            let mut command = Command::new(program);
            command.current_dir(place).args(words).args(flag);
            let ended = command.stdout(Stdio::null()).stderr(Stdio::inherit()).status();
            times.push(begun.elapsed().as_secs_f64());
            assert!(ended.expect("the program starts").success(), "{words:?} fails");
        }
    }
    times.map(|mut times| {
        times.sort_by(f64::total_cmp);
        times[times.len() / 2]
    })
}
