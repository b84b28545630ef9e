//! Ctrl-C: once to stop with what there is, twice to stop at once.

use crate::exit::Exit;
use crate::walled::{INTERRUPTED, Inside};
use crate::walls::{Stop, StopReason};
use std::io::Write;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::time::{Duration, Instant};

/// The words for a stop that keeps what was made.
pub(super) const KEEPING: &str =
    "Stopping; what was made before is kept. Press Ctrl-C again to stop at once.";

/// Signals closer together are one wish: whoever starts programs may send theirs to the program and to its whole group.
const ONE_WISH: Duration = Duration::from_millis(150);

/// Counts the wishes of a user.
#[derive(Debug, Default)]
struct Wishes(Option<Instant>);

impl Wishes {
    /// Whether a signal is another wish than the one before.
    fn is_another(&mut self) -> bool {
        let another = self.0.is_none_or(|last| last.elapsed() >= ONE_WISH);
        if another {
            self.0 = Some(Instant::now());
        }
        another
    }
}

/// Ends the program at once, with the exit code of an interrupt and a line that says so: for work that is done in
/// one piece and writes its files last.
pub(super) fn ends() {
    if Inside::this().is_some() {
        // The parent hears of it, and the worker says so.
        return;
    }
    let _ = ctrlc::set_handler(|| {
        let _ = writeln!(std::io::stderr(), "\n{INTERRUPTED}");
        std::process::exit(i32::from(Exit::Interrupted.code()));
    });
}

/// A flag that turns true when the user, or the system, asks to stop. Files are written whole or not at all, so
/// stopping at once leaves none that looks finished and is not.
pub(super) fn watch(saying: &'static str) -> Arc<AtomicBool> {
    if let Some(inside) = Inside::this() {
        return inside.watch(saying);
    }
    let stop = Arc::new(AtomicBool::new(false));
    let seen = Arc::clone(&stop);
    heed(saying, move || seen.store(true, Ordering::Relaxed));
    stop
}

/// As [`watch`], with its reason.
pub(super) fn wish(saying: &'static str) -> Stop {
    let stop = Stop::default();
    let seen = stop.clone();
    heed(saying, move || seen.ask(StopReason::Interrupt));
    stop
}

/// The times that the user, or the system, has asked to stop; another process heeds them.
pub(super) fn presses() -> Arc<AtomicU32> {
    /// When even that process does not end.
    const AT_ONCE: u32 = 3;
    let presses = Arc::new(AtomicU32::new(0));
    let seen = Arc::clone(&presses);
    let mut wishes = Wishes::default();
    let _ = ctrlc::set_handler(move || {
        if wishes.is_another() && seen.fetch_add(1, Ordering::Relaxed) + 1 >= AT_ONCE {
            std::process::exit(i32::from(Exit::Interrupted.code()));
        }
    });
    presses
}

fn heed(saying: &'static str, first: impl Fn() + Send + 'static) {
    let pressed = AtomicBool::new(false);
    let mut wishes = Wishes::default();
    // Without a handler the system's own way of stopping is left, which is safe too.
    let _ = ctrlc::set_handler(move || {
        if !wishes.is_another() {
            return;
        }
        if pressed.swap(true, Ordering::Relaxed) {
            std::process::exit(i32::from(Exit::Interrupted.code()));
        }
        first();
        let _ = writeln!(std::io::stderr(), "\n{saying}");
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signals_in_one_breath_are_one_wish() {
        let mut wishes = Wishes::default();
        assert!(wishes.is_another());
        assert!(!wishes.is_another() && !wishes.is_another());
        std::thread::sleep(ONE_WISH);
        assert!(wishes.is_another());
    }
}
