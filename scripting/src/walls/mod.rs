//! The walls around work on scripts and files of others: how much time, memory and disk it may take, which
//! folders it may see, and the system's own means to hold it to that.
//!
//! Nothing here knows scripts or scenarios. A process raises its own walls ([`raise`]), and they can't be taken
//! down again.

mod budget;
mod calls;
mod ends;
mod folders;
mod gauge;
mod stop;
mod whole;

pub use budget::{Budget, bytes_of_text, duration_of_text};
pub use ends::{NO_THREADS, end_with, no_threads};
pub use gauge::{MemoryGauge, thread_time};
pub use stop::{Stop, StopReason};
pub use whole::{SystemLimits, Walls, WallsHeld, raise};
