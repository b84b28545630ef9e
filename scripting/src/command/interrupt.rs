//! Ctrl-C: once to stop after the sweep at work, twice to stop at once.

use crate::exit::Exit;
use std::io::Write;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// The words for a stop that lets the sweep at work finish first.
pub(super) const AFTER_THE_SWEEP: &str =
    "Stopping after the sweep at work; press Ctrl-C again to stop at once.";

/// Ends the program at once, with the exit code of an interrupt and a line that says so: for work that is done in
/// one piece and writes its files last.
pub(super) fn ends() {
    let _ = ctrlc::set_handler(|| {
        let _ = writeln!(std::io::stderr(), "\nInterrupted before there was an answer.");
        std::process::exit(i32::from(Exit::Interrupted.code()));
    });
}

/// A flag that turns true when the user, or the system, asks to stop. Files are written whole or not at all, so
/// stopping at once leaves none that looks finished and is not.
pub(super) fn watch(saying: &'static str) -> Arc<AtomicBool> {
    let stop = Arc::new(AtomicBool::new(false));
    let seen = Arc::clone(&stop);
    // Without a handler the system's own way of stopping is left, which is safe too.
    let _ = ctrlc::set_handler(move || {
        if seen.swap(true, Ordering::Relaxed) {
            std::process::exit(i32::from(Exit::Interrupted.code()));
        }
        let _ = writeln!(std::io::stderr(), "\n{saying}");
    });
    stop
}
