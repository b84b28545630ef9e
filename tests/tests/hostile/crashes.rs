//! A worker that is killed from outside: the parent tells what came before.

use super::place::HostilePlace;
use std::fs;
use std::process::{Child, Stdio};
use std::time::{Duration, Instant};

/// Two expectations, and then a line that says that it was reached, and never ends.
const STATES_TWO: &str = r#"
local banks = grid { equipment = equipment "nine-foot", contact = 2, off_rail = inches(0), speed = mps(3), spin = "stun" }
local map = compare(banks, rule.linear { slope = 2.2, reading = "groove" })
expect(map):holds()
expect(map):goes "short"
print "it came so far"
while true do end
"#;

/// The worker of a process, which one of its threads started.
fn worker_of(child: &Child) -> Option<u32> {
    let tasks = fs::read_dir(format!("/proc/{}/task", child.id())).ok()?;
    let children =
        tasks.filter_map(|task| fs::read_to_string(task.ok()?.path().join("children")).ok());
    let all: String = children.collect();
    all.split_whitespace().next()?.parse().ok()
}

#[cfg(target_os = "linux")]
#[test]
fn what_came_before_a_kill_is_told() {
    let place = HostilePlace::new();
    place.write("inside/all/two.lua", STATES_TWO.as_bytes());
    place.write("inside/all/clean.lua", &fs::read(place.path("inside/clean.lua")).unwrap());
    let child = place
        .command()
        .args(["test", "all", "--junit", "results.xml", "--threads", "1"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // The clean one comes first and ends; the other one stays.
    let began = Instant::now();
    let mut last = None;
    let mut since = Instant::now();
    while began.elapsed() < Duration::from_mins(1) {
        let now = worker_of(&child);
        if now != last {
            (last, since) = (now, Instant::now());
        }
        if now.is_some() && since.elapsed() > Duration::from_secs(2) {
            break;
        }
        std::thread::sleep(Duration::from_millis(20));
    }
    let worker = last.expect("it has a worker");
    let killed = std::process::Command::new("kill").args(["-KILL", &worker.to_string()]).status();
    assert!(killed.unwrap().success());
    let ended = child.wait_with_output().unwrap();
    let shown = String::from_utf8_lossy(&ended.stdout);
    assert_eq!(ended.status.code(), Some(3), "{ended:?}");
    assert!(shown.contains("1 of 2 expectations held, 1 FAILED"), "{shown}");
    assert!(shown.contains("the system ended the process"), "{shown}");
    let results = fs::read_to_string(place.path("inside/results.xml")).unwrap();
    let document = roxmltree::Document::parse(&results).unwrap();
    let printed = document.descendants().rfind(|node| node.has_tag_name("system-out"));
    assert_eq!(printed.and_then(|it| it.text()), Some("it came so far"), "{results}");
    let of = |name| document.descendants().filter(|node| node.has_tag_name(name)).count();
    assert_eq!((of("testcase"), of("failure"), of("error")), (4, 1, 1), "{results}");
}
