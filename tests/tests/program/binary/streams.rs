//! Exit codes, colours, and streams that are closed or full.

use super::support::{FAILS, HOLDS, Place, ProgramRun, scenario};
use std::fs::File;
use std::process::Stdio;

#[test]
fn each_cause_has_its_own_exit_code() {
    let place = Place::with(&scenario("2.2", HOLDS));
    place.write("fails.lua", &scenario("2.2", FAILS));
    place.write("wrong.lua", "local x = swep { contact = 2 }\n");
    place.write("taken", "a file where a folder should be");
    place.run(&["run", "bank.lua"]).code(0);
    place.run(&["run", "fails.lua"]).code(1);
    place.run(&["run", "wrong.lua"]).code(2);
    place.run(&["run", "missing.lua"]).code(2);
    place.run(&["run", "bank.lua", "--threads", "0"]).code(2);
    place.run(&["rum", "bank.lua"]).code(2);
    place.run(&["run", "bank.lua", "--into", "taken"]).code(2);
    place.run(&["run", "bank.lua", "--into", "taken/below"]).code(2);
    place.run(&["run", "bank.lua", "--into", "/proc/below"]).code(3);
    place.run(&["--help"]).code(0);
    place.run(&["--version"]).code(0);
}

#[test]
fn a_greedy_script_ends_over_its_budget() {
    let place =
        Place::with("local t = {} while true do t[#t + 1] = string.rep('x', 1e6) .. #t end\n");
    let ended = place.run(&["run", "bank.lua"]).code(4);
    assert!(ended.err.contains("memory"), "{ended:#?}");
}

#[test]
fn help_lists_every_exit_code() {
    let help = Place::new().run(&["--help"]).code(0).out;
    for code in 0..=5 {
        assert!(help.contains(&format!("\n  {code}  ")), "{help}");
    }
}

#[test]
fn a_mistake_is_shown_in_its_line_with_a_suggestion() {
    let place = Place::with("local x = 1\nlocal banks = inches(gridd)\n");
    let ended = place.run(&["run", "bank.lua"]).code(2);
    assert!(ended.err.contains("bank.lua:2:"), "{ended:#?}");
    assert!(ended.err.contains("did you mean `grid`"), "{ended:#?}");
    assert!(ended.out.is_empty(), "{ended:#?}");
    assert!(place.files("out").is_empty());
}

#[test]
fn the_worst_of_several_ends_counts_and_all_are_run() {
    let place = Place::with(&scenario("2.2", HOLDS));
    place.write("fails.lua", &scenario("2.2", FAILS));
    place.write("wrong.lua", "oops(\n");
    let ended = place.run(&["run", "wrong.lua", "fails.lua", "bank.lua"]).code(2);
    assert!(ended.out.contains("fails.lua") && ended.out.contains("bank.lua"), "{ended:#?}");
    assert!(place.path("out/bank/run.json").exists() && place.path("out/fails/run.json").exists());
}

#[test]
fn two_scenarios_do_not_share_a_folder() {
    let place = Place::with(&scenario("2.2", HOLDS));
    place.write("other/bank.lua", &scenario("2", HOLDS));
    let ended = place.run(&["run", "bank.lua", "other/bank.lua"]).code(2);
    assert!(ended.err.contains("same folder"), "{ended:#?}");
    assert!(!place.path("out").exists());
}

#[test]
fn colour_only_when_wanted() {
    let place = Place::with(&scenario("2.2", FAILS));
    let coded = |arguments: &[&str], no_color: bool| {
        let mut command = place.command(arguments);
        if no_color {
            command.env("NO_COLOR", "1");
        }
        let ended = ProgramRun::from(command.output().unwrap()).code(1);
        ended.out.contains('\u{1b}')
    };
    assert!(!coded(&["run", "bank.lua"], false), "a pipe is no terminal");
    assert!(!coded(&["run", "bank.lua"], true));
    assert!(coded(&["run", "bank.lua", "--color", "always"], false));
    assert!(!coded(&["--color", "never", "run", "bank.lua"], false));
}

#[test]
fn quiet_says_only_what_failed() {
    let place = Place::with(&scenario("2.2", HOLDS));
    place.write("fails.lua", &scenario("2.2", FAILS));
    let ended = place.run(&["run", "--quiet", "bank.lua"]).code(0);
    assert!(ended.out.is_empty() && ended.err.is_empty(), "{ended:#?}");
    let ended = place.run(&["run", "--quiet", "fails.lua"]).code(1);
    assert!(ended.out.contains("FAILED") && !ended.out.contains("map"), "{ended:#?}");
}

#[test]
fn a_closed_pipe_ends_quietly_and_the_files_are_whole() {
    for (then, code) in [(HOLDS, 0), (FAILS, 1)] {
        let place = Place::with(&scenario("2.2", then));
        let mut child = place
            .command(&["run", "bank.lua"])
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        let ended = ProgramRun::from(child.wait_with_output().unwrap()).code(code);
        assert!(ended.err.is_empty(), "{ended:#?}");
        assert!(place.path("out/bank/run.json").exists());
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_behind_standard_output_is_told() {
    let place = Place::with(&scenario("2.2", HOLDS));
    for arguments in [&["run", "bank.lua"][..], &["test", ".", "--junit", "results.xml"]] {
        let full = File::options().write(true).open("/dev/full").unwrap();
        let output = place.command(arguments).stdout(full).stderr(Stdio::piped()).output();
        let ended = ProgramRun::from(output.unwrap()).code(3);
        assert!(ended.err.contains("standard output"), "{ended:#?}");
    }
    assert!(place.path("results.xml").exists(), "the other way out still works");
}

/// Sends an interrupt once the program listens for it.
#[cfg(target_os = "linux")]
fn interrupt(pid: u32) {
    use std::process::Command;
    use std::time::Duration;
    // SIGINT is signal 2, so bit 1 of the mask of caught signals (proc(5)).
    let listens = || {
        let status = std::fs::read_to_string(format!("/proc/{pid}/status")).unwrap_or_default();
        let caught = status.lines().find_map(|line| line.strip_prefix("SigCgt:")).unwrap_or("0");
        u64::from_str_radix(caught.trim(), 16).unwrap_or(0) & 2 != 0
    };
    for _ in 0..600 {
        if listens() {
            break;
        }
        std::thread::sleep(Duration::from_millis(50));
    }
    assert!(Command::new("kill").args(["-INT", &pid.to_string()]).status().unwrap().success());
}

#[cfg(target_os = "linux")]
#[test]
fn an_interrupted_run_keeps_what_it_has_and_says_that_it_is_not_whole() {
    // Sweep after sweep until the time budget ends it, if the interrupt does not.
    let endless = scenario("2.2", "while true do map = compare(banks, rule.mirror()) end");
    // No sweep that could notice the first interrupt.
    let deaf = "while true do end\n";
    for (text, presses) in [(endless.as_str(), 1), (deaf, 2)] {
        let place = Place::with(&scenario("2.2", HOLDS));
        place.run(&["run", "bank.lua", "--into", "out"]).code(0);
        place.write("bank.lua", text);
        let child = place
            .command(&["run", "bank.lua", "--into", "again"])
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        for press in 0..presses {
            if press > 0 {
                std::thread::sleep(std::time::Duration::from_millis(300));
            }
            interrupt(child.id());
        }
        let ended = ProgramRun::from(child.wait_with_output().unwrap()).code(5);
        assert!(ended.err.contains("Stopping"), "{ended:#?}");
        // What was made before is kept, and nothing is made of nothing.
        let kept = place.files("again");
        assert_eq!(kept.is_empty(), presses == 2, "{:?}", kept.keys());
        if let Some(run) = kept.get("run.json") {
            let run: serde_json::Value = serde_json::from_slice(run).unwrap();
            assert_eq!(run["stopped"]["why"], "the run was interrupted");
            assert!(ended.out.contains("nothing after it was played"), "{ended:#?}");
        }
    }
}

#[cfg(target_os = "linux")]
#[test]
fn help_that_can_not_be_written_is_an_error() {
    let place = Place::new();
    let full = File::options().write(true).open("/dev/full").unwrap();
    let ended = place.command(&["--help"]).stdout(full).stderr(Stdio::piped()).output().unwrap();
    assert_eq!(ended.status.code(), Some(3), "{ended:?}");
}
