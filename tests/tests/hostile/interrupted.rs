//! A test run that is asked to end: the results that there are, in JUnit too.

use super::place::HostilePlace;
use std::fs;
use std::os::unix::process::CommandExt;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

#[cfg(target_os = "linux")]
#[test]
fn an_interrupted_test_leaves_its_results() {
    results_after(|child| signal("-TERM", &[&child.to_string()]));
}

/// As `timeout` sends it: to the program, and to its group, in which the program is too.
#[cfg(target_os = "linux")]
#[test]
fn a_test_whose_group_is_interrupted_leaves_its_results() {
    results_after(|child| signal("-INT", &[&child.to_string(), &format!("-{child}")]));
}

#[cfg(target_os = "linux")]
fn signal(which: &str, whom: &[&str]) {
    let sent = Command::new("kill").arg(which).arg("--").args(whom).status().unwrap();
    assert!(sent.success());
}

#[cfg(target_os = "linux")]
fn results_after(interrupt: impl FnOnce(u32)) {
    let place = HostilePlace::new();
    let clean = fs::read(place.path("inside/clean.lua")).unwrap();
    for name in ["a", "b"] {
        place.write(&format!("inside/all/{name}.lua"), &clean);
    }
    place.write("inside/all/c.lua", b"while true do end");
    place.write("inside/all/d.lua", &clean);
    let child = place
        .command()
        .args(["test", "all", "--junit", "results.xml", "--threads", "1"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .process_group(0)
        .spawn()
        .unwrap();
    std::thread::sleep(Duration::from_secs(3));
    let sent = Instant::now();
    interrupt(child.id());
    let ended = child.wait_with_output().unwrap();
    assert!(sent.elapsed() < Duration::from_secs(5), "{:?}", sent.elapsed());
    assert_eq!(ended.status.code(), Some(5), "{ended:?}");
    let shown = String::from_utf8_lossy(&ended.stdout);
    assert!(shown.contains("2 ok") && shown.contains("1 not run"), "{shown}");
    let results = fs::read_to_string(place.path("inside/results.xml")).unwrap();
    let document = roxmltree::Document::parse(&results).unwrap();
    let suites: Vec<&str> = document
        .descendants()
        .filter(|node| node.has_tag_name("testsuite"))
        .filter_map(|suite| suite.attribute("name"))
        .collect();
    assert_eq!(suites, ["all/a.lua", "all/b.lua", "all/c.lua", "all/d.lua"], "{results}");
    let skipped = document.descendants().filter(|node| node.has_tag_name("skipped")).count();
    assert_eq!(skipped, 1, "{results}");
}
