//! The end of a process that can't go on: with a documented code, whatever happened, and without waiting for what it
//! has no memory or threads for.

use crate::exit::Exit;
use crate::fault::{Fault, visible};
use std::io::{self, Write};
use std::panic::{self, PanicHookInfo};
use std::process::exit;

/// Said where the system starts no more threads.
pub const NO_THREADS: &str = "the threads could not be started";

/// The fault of that.
pub fn no_threads(error: &io::Error) -> Fault {
    Fault::new(Exit::CouldNotFinish, format!("{NO_THREADS}: {error}"))
        .with_hint("try fewer with --threads, or raise the system's limits")
}

/// Gives this process a documented end when it panics, and the code when it is aborted, as for want of memory. A file
/// that grows past the system's limit is then an error, as a full disk is, unless `killed_by_size`.
pub fn end_with(aborted: u8, killed_by_size: bool) {
    panic::set_hook(Box::new(told));
    signals(aborted.into(), killed_by_size);
}

/// Tells of a panic in a line, and ends. The usual trace of calls takes memory, and waits for ever where there is none.
fn told(panic: &PanicHookInfo<'_>) {
    let words = panic.payload_as_str().unwrap_or_default();
    let mut out = io::stderr().lock();
    // The words of the standard library and of the pool of threads.
    let _ = if words.contains("failed to spawn thread") || words.contains("thread pool") {
        writeln!(
            out,
            "Error: {NO_THREADS}\n  Help: the system's limits, or its memory, allow too few"
        )
    } else {
        let at = panic.location().map(ToString::to_string).unwrap_or_default();
        writeln!(
            out,
            "Error: a fault of this program, at {at}: {}\n  Help: please report it",
            visible(words)
        )
    };
    drop(out);
    exit(Exit::CouldNotFinish.code().into());
}

#[cfg(unix)]
fn signals(aborted: i32, killed_by_size: bool) {
    use signal_hook::consts::{SIGABRT, SIGXFSZ};
    use signal_hook::flag::{register, register_conditional_shutdown};
    use std::sync::Arc;
    use std::sync::atomic::AtomicBool;
    let always = Arc::new(AtomicBool::new(true));
    // Where the system takes neither, its own way of ending is left.
    let _ = register_conditional_shutdown(SIGABRT, aborted, always);
    if !killed_by_size {
        let _ = register(SIGXFSZ, Arc::default());
    }
}

#[cfg(not(unix))]
fn signals(_: i32, _: bool) {}
