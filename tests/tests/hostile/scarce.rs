//! A machine that has little left, by limits that the system sets: a documented code, soon, and true words.

use super::place::HostilePlace;
use std::fs;
use std::process::{Command, Output};
use std::time::{Duration, Instant};

/// The program in a shell that has lowered a limit first.
fn limited(place: &HostilePlace, limit: &str, arguments: &str) -> (Output, Duration) {
    let program = railproof_tests::program().display();
    let began = Instant::now();
    let ended = Command::new("sh")
        .args(["-c", &format!("ulimit {limit}; exec '{program}' {arguments}")])
        .env("RUST_BACKTRACE", "1")
        .current_dir(place.path("inside"))
        .output()
        .unwrap();
    (ended, began.elapsed())
}

fn shown(ended: &Output) -> String {
    [&ended.stdout, &ended.stderr].map(|bytes| String::from_utf8_lossy(bytes)).concat()
}

/// Memory by `ulimit -d` and addresses by `-v`, in KiB, from what nothing can be done with to what is enough. Below
/// some 20 MiB of addresses the system itself does not start the program.
#[cfg(target_os = "linux")]
#[test]
fn little_memory_ends_with_a_documented_code() {
    let place = HostilePlace::new();
    for limit in ["-d 3000", "-d 5000", "-d 12000", "-d 20000", "-d 60000", "-v 40000", "-v 120000"]
    {
        for words in
            ["run clean.lua --into out", "test clean.lua", "bank --contact 2 --speed medium"]
        {
            let (ended, took) = limited(&place, limit, words);
            let told = shown(&ended);
            assert!(matches!(ended.status.code(), Some(0 | 3)), "{limit} {words}: {ended:?}");
            assert!(took < Duration::from_secs(10), "{limit} {words}: {took:?}");
            assert!(
                !told.contains("panicked") && !told.contains("report it"),
                "{limit} {words}: {told}"
            );
            assert!(!told.contains("4.0 GiB"), "{limit} {words}: {told}");
            let is_said = told.contains("the system") || told.contains("memory allocation");
            assert!(ended.status.success() || is_said, "{limit} {words}: {told}");
        }
    }
}

/// A file that may be no larger is as one on a full disk; and the limit is told, not the program's own.
#[test]
fn a_small_limit_of_a_file_is_a_full_disk() {
    let place = HostilePlace::new();
    let results = "test clean.lua --junit results.xml";
    for words in ["run clean.lua --into out", "bank --contact 2 --speed medium --into out", results]
    {
        let (ended, _) = limited(&place, "-f 0", words);
        let told = shown(&ended);
        assert_eq!(ended.status.code(), Some(3), "{words}: {told}");
        assert!(told.contains("can't be written") && told.contains("ulimit -f"), "{words}: {told}");
        assert!(!told.contains("GiB"), "{words}: {told}");
    }
    assert!(!place.path("inside/results.xml").exists());
    let left = fs::read_dir(place.path("inside")).unwrap().flatten();
    let left = left.filter(|it| it.file_name().to_string_lossy().starts_with(".unfinished"));
    assert_eq!(left.count(), 0);
}
