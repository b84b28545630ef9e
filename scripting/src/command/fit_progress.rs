//! Progress of a long fit: a line on a terminal, nothing elsewhere.

use crate::telling::percent;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::cell::RefCell;
use std::time::{Duration, Instant};

/// A fit shorter than this shows nothing.
const PATIENCE: Duration = Duration::from_secs(2);

/// Shows how far a fit has come, from its second second on.
#[derive(Debug)]
pub(super) struct FitProgress {
    quiet: bool,
    since: Instant,
    shown: RefCell<Option<ProgressBar>>,
}

impl FitProgress {
    /// Begins to wait.
    pub fn start(quiet: bool) -> Self {
        Self { quiet, since: Instant::now(), shown: RefCell::default() }
    }

    /// A stage is done: the banks count with this power now, from 0 to 1.
    pub fn stage(&self, stage: usize, power: f64) {
        if self.quiet || self.since.elapsed() < PATIENCE {
            return;
        }
        let mut shown = self.shown.borrow_mut();
        // Draws nothing where standard error is no terminal.
        let line = shown.get_or_insert_with(|| {
            let line = ProgressBar::with_draw_target(None, ProgressDrawTarget::stderr());
            if let Ok(style) = ProgressStyle::with_template("{elapsed} {msg}") {
                line.set_style(style);
            }
            line.enable_steady_tick(Duration::from_secs(1));
            line
        });
        line.set_message(said(stage, power));
    }

    /// Shows no more.
    pub fn end(&self) {
        if let Some(line) = self.shown.take() {
            line.finish_and_clear();
        }
    }
}

fn said(stage: usize, power: f64) -> String {
    if power < 1.0 {
        format!("stage {stage}; the banks count for {} so far", percent(power))
    } else {
        "the banks count in full; choosing the next ones".to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_fit_and_a_quiet_one_show_nothing() {
        let is_shown = |progress: &FitProgress| progress.shown.borrow().is_some();
        let mut progress = FitProgress::start(false);
        progress.stage(1, 0.01);
        assert!(!is_shown(&progress));
        progress.since = Instant::now().checked_sub(PATIENCE).expect("a clock that ran so long");
        progress.stage(2, 0.1);
        assert!(is_shown(&progress));
        progress.end();
        assert!(!is_shown(&progress));
        progress.quiet = true;
        progress.stage(3, 0.2);
        assert!(!is_shown(&progress));
        assert_eq!(said(3, 0.204), "stage 3; the banks count for 20 % so far");
    }
}
