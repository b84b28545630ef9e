//! The limits of a scenario, and the stopwatch that holds it to its time.

use crate::exit::Exit;
use crate::fault::Fault;
use crate::walls::{Budget, Stop, thread_time};
use std::cell::{Cell, OnceCell};
use std::rc::Rc;
use std::time::{Duration, Instant};

/// The limits of a scenario's machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Bytes of memory for Lua's own objects.
    pub memory_bytes: usize,
    /// Time on the processor that Lua itself may take; work done for it in Rust can be left out (see
    /// [`Stopwatch`]).
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

/// Measures the time on the processor that Lua has taken. Clones share one stopwatch.
///
/// Once the budget is used up, or an end is asked for, it stays so: a script that catches the error gets it again
/// at its next call or turn of a loop.
#[derive(Debug, Clone)]
pub struct Stopwatch(Rc<StopwatchState>);

#[derive(Debug)]
struct StopwatchState {
    budget: Cell<Duration>,
    used: Cell<Duration>,
    running_since: Cell<Option<Since>>,
    pauses: Cell<u32>,
    ticks: Cell<u32>,
    exceeded: Cell<bool>,
    /// An end that may be asked for from outside, and the budget for its words.
    heeds: OnceCell<(Stop, Budget)>,
}

/// A moment, by the time on the processor and by the wall's, which is quicker asked and never behind it.
#[derive(Debug, Clone, Copy)]
struct Since {
    processor: Duration,
    wall: Instant,
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
            heeds: OnceCell::new(),
        }))
    }

    /// Starts it, or goes on after [`Stopwatch::stop`].
    pub fn start(&self) {
        if self.0.running_since.get().is_none() {
            let now = Since { processor: thread_time(), wall: Instant::now() };
            self.0.running_since.set(Some(now));
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
        let since = self.0.running_since.get();
        let on_processor = |since: Since| thread_time().saturating_sub(since.processor);
        self.0.used.get() + since.map_or(Duration::ZERO, on_processor)
    }

    /// The time allowed.
    pub fn budget(&self) -> Duration {
        self.0.budget.get()
    }

    /// Heeds an end that is asked for from outside.
    pub fn heed(&self, stop: Stop, budget: Budget) {
        // The first one stays.
        let _ = self.0.heeds.set((stop, budget));
    }

    /// The fault, if the budget was found used up or an end is asked for.
    pub fn over(&self) -> Option<Fault> {
        if let Some((stop, budget)) = self.0.heeds.get()
            && let Some(reason) = stop.asked()
        {
            return Some(reason.fault(budget));
        }
        self.0.exceeded.get().then(|| self.out_of_time())
    }

    fn out_of_time(&self) -> Fault {
        let message = format!("the script ran longer than its {:?} of Lua time", self.budget());
        Fault::new(Exit::OverBudget, message).with_hint("look for a loop that does not end")
    }

    /// Called at every interrupt of the machine: the fault, unless the script may go on.
    pub fn tick(&self) -> Option<Fault> {
        let ticks = self.0.ticks.get() + 1;
        self.0.ticks.set(ticks % TICKS_PER_LOOK);
        if ticks == TICKS_PER_LOOK && !self.0.exceeded.get() {
            if self.0.pauses.get() == 0 {
                self.start();
            }
            let budget = self.0.budget.get();
            let since = self.0.running_since.get();
            let by_wall = since.map_or(Duration::ZERO, |since| since.wall.elapsed());
            self.0.exceeded.set(self.0.used.get() + by_wall > budget && self.used() > budget);
        }
        self.over()
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
    use crate::walls::StopReason;

    /// Keeps this thread busy.
    fn work(milliseconds: u64) {
        let since = thread_time();
        while thread_time().saturating_sub(since) < Duration::from_millis(milliseconds) {}
    }

    #[test]
    fn a_pause_is_not_counted_and_pauses_nest() {
        let watch = Stopwatch::new(Duration::from_secs(1));
        watch.start();
        {
            let _outer = watch.pause();
            let _inner = watch.pause();
            work(30);
        }
        assert!(watch.used() < Duration::from_millis(20), "{:?}", watch.used());
        work(5);
        assert!(watch.used() >= Duration::from_millis(5));
    }

    #[test]
    fn an_end_from_outside_is_heeded_at_once() {
        let watch = Stopwatch::new(Duration::from_secs(1));
        let stop = Stop::default();
        watch.heed(stop.clone(), Budget::USUAL);
        assert_eq!(watch.tick(), None);
        stop.ask(StopReason::Interrupt);
        assert_eq!(watch.tick().map(|fault| fault.exit), Some(Exit::Interrupted));
    }

    #[test]
    fn once_exceeded_it_stays_so() {
        let watch = Stopwatch::new(Duration::ZERO);
        watch.start();
        work(1);
        let answers: Vec<bool> = (0..2 * TICKS_PER_LOOK).map(|_| watch.tick().is_none()).collect();
        assert!(answers[0]);
        assert!(answers[TICKS_PER_LOOK as usize - 1..].iter().all(|go_on| !go_on));
    }
}
