//! One set-up played on every member's table: a column of places where the ball comes to.
//!
//! Members are the outer loop, so that the banks of one of them share a cushion in the lanes. Threads share
//! the members out; every member's numbers are its own, so the same columns come from any number of them.

mod landing;
mod played;
mod set_up;
mod shared_bank;

pub use landing::Landing;
pub use played::{Hand, Landings, columns, over_members};
pub use set_up::SetUp;
pub(crate) use shared_bank::by_bank;
