//! The limits of a scenario, and the stopwatch that holds it to its time.

use std::cell::Cell;
use std::rc::Rc;
use std::time::{Duration, Instant};

/// The limits of a scenario's machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Bytes of memory for Lua's own objects.
    pub memory_bytes: usize,
    /// Time that Lua itself may run; work done for it in Rust can be left out (see [`Stopwatch`]).
    pub script_time: Duration,
    /// Longest source text in bytes.
    pub source_bytes: usize,
    /// Most bytes that `print` keeps; later lines are counted and dropped.
    pub print_bytes: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            memory_bytes: 256 << 20,
            script_time: Duration::from_mins(1),
            source_bytes: 1 << 20,
            print_bytes: 1 << 20,
        }
    }
}

/// Measures the time Lua has run. Clones share one stopwatch.
///
/// Once the budget is used up it stays so: a script that catches the error gets it again at its
/// next call or turn of a loop.
#[derive(Debug, Clone)]
pub struct Stopwatch(Rc<StopwatchState>);

#[derive(Debug)]
struct StopwatchState {
    budget: Cell<Duration>,
    used: Cell<Duration>,
    running_since: Cell<Option<Instant>>,
    pauses: Cell<u32>,
    ticks: Cell<u32>,
    exceeded: Cell<bool>,
}

/// Interrupts between two looks at the clock.
///
/// Few, because one instruction of a script (a long `string.rep`, say) may take a while.
pub(super) const TICKS_PER_LOOK: u32 = 16;

impl Stopwatch {
    /// A stopwatch at rest with a budget.
    pub fn new(budget: Duration) -> Self {
        Self(Rc::new(StopwatchState {
            budget: Cell::new(budget),
            used: Cell::new(Duration::ZERO),
            running_since: Cell::new(None),
            pauses: Cell::new(0),
            ticks: Cell::new(0),
            exceeded: Cell::new(false),
        }))
    }

    /// Starts it, or goes on after [`Stopwatch::stop`].
    pub fn start(&self) {
        if self.0.running_since.get().is_none() {
            self.0.running_since.set(Some(Instant::now()));
        }
    }

    /// Stops it and keeps the time used.
    pub fn stop(&self) {
        self.0.used.set(self.used());
        self.0.running_since.set(None);
    }

    /// Stops it until the returned guard is dropped. Guards may nest.
    #[must_use = "the stopwatch runs again when the guard is dropped"]
    pub fn pause(&self) -> Pause {
        let running = self.0.running_since.get().is_some();
        if running {
            self.stop();
        }
        self.0.pauses.set(self.0.pauses.get() + 1);
        Pause { stopwatch: self.clone(), resume: running }
    }

    /// Begins a new call with the full budget, unless the clock is needed: calls that end within a
    /// few interrupts never look at it.
    pub fn restart_lazily(&self) {
        self.0.used.set(Duration::ZERO);
        self.0.running_since.set(None);
        self.0.exceeded.set(false);
        self.0.ticks.set(0);
    }

    /// Time used so far.
    pub fn used(&self) -> Duration {
        let since = self.0.running_since.get().map_or(Duration::ZERO, |since| since.elapsed());
        self.0.used.get() + since
    }

    /// The time allowed.
    pub fn budget(&self) -> Duration {
        self.0.budget.get()
    }

    /// Whether the budget was found used up.
    pub fn exceeded(&self) -> bool {
        self.0.exceeded.get()
    }

    /// Called at every interrupt of the machine: whether the script may go on.
    pub fn tick(&self) -> bool {
        if self.0.exceeded.get() {
            return false;
        }
        let ticks = self.0.ticks.get() + 1;
        self.0.ticks.set(ticks % TICKS_PER_LOOK);
        if ticks == TICKS_PER_LOOK {
            if self.0.pauses.get() == 0 {
                self.start();
            }
            self.0.exceeded.set(self.used() > self.0.budget.get());
        }
        !self.0.exceeded.get()
    }
}

/// Keeps a [`Stopwatch`] stopped while it lives.
#[derive(Debug)]
pub struct Pause {
    stopwatch: Stopwatch,
    resume: bool,
}

impl Drop for Pause {
    fn drop(&mut self) {
        let pauses = &self.stopwatch.0.pauses;
        pauses.set(pauses.get().saturating_sub(1));
        if self.resume {
            self.stopwatch.start();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::thread::sleep;

    #[test]
    fn a_pause_is_not_counted_and_pauses_nest() {
        let watch = Stopwatch::new(Duration::from_secs(1));
        watch.start();
        {
            let _outer = watch.pause();
            let _inner = watch.pause();
            sleep(Duration::from_millis(30));
        }
        assert!(watch.used() < Duration::from_millis(20), "{:?}", watch.used());
        sleep(Duration::from_millis(5));
        assert!(watch.used() >= Duration::from_millis(5));
    }

    #[test]
    fn once_exceeded_it_stays_so() {
        let watch = Stopwatch::new(Duration::ZERO);
        watch.start();
        sleep(Duration::from_millis(1));
        let answers: Vec<bool> = (0..2 * TICKS_PER_LOOK).map(|_| watch.tick()).collect();
        assert!(answers[0]);
        assert!(answers[TICKS_PER_LOOK as usize - 1..].iter().all(|go_on| !go_on));
    }
}
