//! Faults that no fixture of `tests/refusals` can hold: of the file itself, and on several threads.

use super::{HALL, try_run};
use railproof::exit::Exit;
use railproof::scenario::{RunOptions, run_scenario};
use std::path::Path;

#[test]
fn scenarios_that_are_no_readable_files_are_refused() {
    let folder = tempfile::tempdir().unwrap();
    let run = |path: &Path| {
        run_scenario(path, &RunOptions::default())
            .and_then(railproof::record::Record::whole)
            .unwrap_err()
    };
    let missing = run(&folder.path().join("none.lua"));
    assert!(missing.message.contains("none.lua") && missing.exit == Exit::BadInput, "{missing}");
    assert!(run(folder.path()).message.contains("not an ordinary file"));
    let long = folder.path().join("long.lua");
    std::fs::write(&long, "-- x\n".repeat(300_000)).unwrap();
    assert!(run(&long).message.contains("at most"));
}

#[test]
fn a_fault_of_the_whole_file_names_the_file() {
    assert!(try_run("\u{1b}Lua").unwrap_err().message.contains("case.lua"));
}

#[test]
fn the_first_failure_in_order_is_told_however_many_threads_there_are() {
    let text = format!(
        "{HALL}local banks = grid {{ equipment = hall, contact = span(1, 3, 0.01), speed = mps(3) }}
compare(banks, rule.func {{
  start = function(contact) if contact > 1.305 then error('too far') end return contact end,
  reading = 'groove',
}})"
    );
    for threads in [1, 2, 7] {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let fault = pool.install(|| try_run(&text)).unwrap_err();
        assert!(fault.message.contains("contact 1.31"), "{fault}");
    }
}
