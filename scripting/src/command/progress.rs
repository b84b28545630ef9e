//! A progress bar for work that takes a while.

use crate::scenario::Progress;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::io::Write as _;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Work shorter than this shows no bar.
const PATIENCE: Duration = Duration::from_millis(500);
/// Points between two looks at the clock.
const POINTS_PER_LOOK: u64 = 32;

/// Shows a bar on standard error, which draws nothing when that is not a terminal.
#[derive(Debug, Default)]
pub(super) struct Bar {
    done: AtomicU64,
    stretch: Mutex<Option<ProgressStage>>,
}

#[derive(Debug)]
struct ProgressStage {
    total: u64,
    since: Instant,
    shown: Option<ProgressBar>,
}

impl Progress for Bar {
    fn begin(&self, total: u64) {
        self.done.store(0, Ordering::Relaxed);
        *self.stretch.lock().unwrap_or_else(PoisonError::into_inner) =
            Some(ProgressStage { total, since: Instant::now(), shown: None });
    }

    fn tick(&self, done: u64) {
        let before = self.done.fetch_add(done, Ordering::Relaxed);
        if before / POINTS_PER_LOOK == (before + done) / POINTS_PER_LOOK {
            return;
        }
        // Another thread that is drawing will do.
        let Ok(mut stretch) = self.stretch.try_lock() else { return };
        let Some(stretch) = stretch.as_mut() else { return };
        if stretch.shown.is_none() && stretch.since.elapsed() > PATIENCE {
            stretch.shown = Some(bar(stretch.total));
        }
        if let Some(shown) = &stretch.shown {
            shown.set_position(self.done.load(Ordering::Relaxed));
        }
    }

    fn end(&self) {
        let ended = self.stretch.lock().unwrap_or_else(PoisonError::into_inner).take();
        if let Some(shown) = ended.and_then(|stretch| stretch.shown) {
            shown.finish_and_clear();
        }
    }

    fn say(&self, words: &str) {
        // Nobody is left to tell where it can't be written.
        let _ = writeln!(std::io::stderr(), "{words}");
    }
}

fn bar(total: u64) -> ProgressBar {
    let bar = ProgressBar::with_draw_target(Some(total), ProgressDrawTarget::stderr());
    let style =
        ProgressStyle::with_template("{bar:30} {human_pos} of {human_len} points, {eta} left");
    if let Ok(style) = style {
        bar.set_style(style);
    }
    bar
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_work_shows_nothing_and_any_order_of_calls_is_fine() {
        let bar = Bar::default();
        bar.tick(100);
        bar.end();
        bar.begin(1000);
        (0..1000).for_each(|_| bar.tick(1));
        let shown = |bar: &Bar| {
            bar.stretch.lock().unwrap().as_ref().is_some_and(|stretch| stretch.shown.is_some())
        };
        assert!(!shown(&bar));
        std::thread::sleep(PATIENCE + Duration::from_millis(50));
        bar.tick(POINTS_PER_LOOK);
        assert!(shown(&bar));
        bar.end();
        assert!(!shown(&bar));
    }
}
