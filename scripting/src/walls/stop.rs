//! A wish that work should end, and why: heeded by whoever works, as soon as it can.

use super::Budget;
use crate::exit::Exit;
use crate::fault::Fault;
use serde::{Deserialize, Serialize};
use std::sync::Arc;
use std::sync::atomic::{AtomicU8, Ordering};

/// Why work should end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum StopReason {
    /// The user or the system asks for it.
    Interrupt,
    /// The time of the whole is over.
    Time,
    /// It takes more memory than it may.
    Memory,
}

impl StopReason {
    const ALL: [Self; 3] = [Self::Interrupt, Self::Time, Self::Memory];

    /// The fault of work that was stopped for it.
    pub fn fault(self, budget: &Budget) -> Fault {
        match self {
            Self::Interrupt => Fault::new(Exit::Interrupted, "the run was interrupted"),
            Self::Time => Fault::new(
                Exit::OverBudget,
                format!("it took longer than its {} and was stopped", budget.time_in_words()),
            )
            .with_hint(
                "look for a loop that does not end, take coarser steps, or allow more with --time",
            ),
            Self::Memory => Fault::new(
                Exit::OverBudget,
                format!(
                    "it took more than its {} of memory and was stopped",
                    budget.memory_in_words()
                ),
            )
            .with_hint("keep less of what is played, or allow more with --memory"),
        }
    }
}

/// A wish to stop, shared by those who may have it and those who heed it. The first reason stays.
#[derive(Debug, Clone, Default)]
pub struct Stop(Arc<AtomicU8>);

impl Stop {
    /// Asks for an end.
    pub fn ask(&self, reason: StopReason) {
        let _ = self.0.compare_exchange(0, 1 + reason as u8, Ordering::Relaxed, Ordering::Relaxed);
    }

    /// Why an end is asked for, if it is.
    pub fn asked(&self) -> Option<StopReason> {
        let at = usize::from(self.0.load(Ordering::Relaxed));
        at.checked_sub(1).and_then(|at| StopReason::ALL.get(at).copied())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_reason_stays() {
        let stop = Stop::default();
        assert_eq!(stop.asked(), None);
        for reason in [StopReason::Memory, StopReason::Time, StopReason::Interrupt] {
            stop.clone().ask(reason);
            assert_eq!(stop.asked(), Some(StopReason::Memory));
        }
        for reason in StopReason::ALL {
            let stop = Stop::default();
            stop.ask(reason);
            assert_eq!(stop.asked(), Some(reason));
        }
    }
}
