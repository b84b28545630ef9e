//! Lua through the host of scenarios, with all their words.

use super::telling::check_fault;
use railproof::lua::Limits;
use railproof::scenario::{RunOptions, run_scenario};
use railproof::walls::{Stop, StopReason};
use std::sync::mpsc;
use std::thread;
use std::time::{Duration, Instant};

/// Given to a script, on the processor and by the clock; a parent that plays it in a worker has budgets of its own.
const TIME: Duration = Duration::from_millis(300);
/// What is asked to end ends within this, on a machine with much else to do.
const PATIENCE: Duration = Duration::from_secs(20);

pub(super) fn script(bytes: &[u8]) {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = folder.path().join("fuzz.lua");
    std::fs::write(&path, bytes).expect("it can be written");
    let stop = Stop::default();
    let limits = Limits { script_time: TIME, memory_bytes: 32 << 20, ..Limits::default() };
    let options = RunOptions { limits, stop: stop.clone(), ..RunOptions::default() };
    let (ended, waits) = mpsc::channel::<()>();
    let watch = thread::spawn(move || {
        if waits.recv_timeout(TIME) == Err(mpsc::RecvTimeoutError::Timeout) {
            stop.ask(StopReason::Time);
        }
    });
    let began = Instant::now();
    let outcome = run_scenario(&path, &options);
    let took = began.elapsed();
    drop(ended);
    watch.join().expect("the clock does not panic");
    assert!(took < TIME + PATIENCE, "it took {took:?} after it was asked to end");
    match outcome {
        Ok(record) => {
            let faults = record.left_out.iter().map(|it| &it.fault).chain(&record.stopped);
            faults.for_each(|fault| check_fault(fault, bytes));
        }
        Err(fault) => check_fault(&fault, bytes),
    }
}
