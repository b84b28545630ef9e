//! Files that are written: ordinary ones alone. A pipe, whose reader would be waited for, is refused before any work.

#![cfg(unix)]

use super::support::{HOLDS, Place, ProgramRun, scenario};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// More than a refusal could need on a busy machine; what waits for a reader is ended by the test.
const PATIENCE: Duration = Duration::from_mins(1);

fn soon(place: &Place, words: &[&str]) -> ProgramRun {
    let mut command = place.command(words);
    let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let began = Instant::now();
    while child.try_wait().unwrap().is_none() {
        if began.elapsed() > PATIENCE {
            child.kill().unwrap();
            panic!("{words:?} waits for somebody");
        }
        std::thread::sleep(Duration::from_millis(5));
    }
    ProgramRun::from(child.wait_with_output().unwrap())
}

#[test]
fn a_pipe_or_a_device_is_never_written_to() {
    let place = Place::with(&scenario("2.2", &format!("{HOLDS}\nplan(banks, rule.mirror())")));
    place.run(&["plan", "bank.lua", "--out", "plan.json"]).code(0);
    assert!(Command::new("mkfifo").arg(place.path("pipe")).status().unwrap().success());
    std::os::unix::fs::symlink("/dev/null", place.path("device")).unwrap();
    std::os::unix::fs::symlink("pipe", place.path("link")).unwrap();
    for to in ["pipe", "device", "link"] {
        for words in [
            &["test", ".", "--junit", to][..],
            &["plan", "bank.lua", "--out", to],
            &["slurm", "plan.json", "--into", "night", "--script", to],
        ] {
            let ended = soon(&place, words).code(2).says("is not an ordinary file");
            assert!(ended.out.is_empty(), "nothing is begun: {ended:#?}");
        }
        let folder = format!("{to}/in");
        for into in [to, &folder] {
            for words in [
                &["run", "bank.lua", "--into", into][..],
                &["test", ".", "--into", into],
                &["sweep", "plan.json", "--into", into],
                &["bank", "--contact", "2", "--into", into],
                &["shot", "bank.yaml", "--into", into],
                &["new", into],
            ] {
                let ended = soon(&place, words);
                assert_eq!(ended.code, Some(2), "{words:?}: {ended:#?}");
            }
        }
        assert!(place.path(to).exists() && !place.path(to).is_file(), "{to} stays what it was");
    }
}
