//! Rails, pockets and the numbers counted along them; the frame in which a bank is computed.

mod error;
mod geometry;
mod names;
mod numbers;
mod outline;
mod reading;
#[cfg(test)]
pub(crate) mod testing;
#[cfg(test)]
mod tests;
mod unrolled;

pub use error::GeometryError;
pub use geometry::{BankGeometry, Mouth, Opening, Side};
pub use names::{Pocket, PocketChoice, Rail, RailChoice};
pub use numbers::Line;
pub use outline::{Gap, Outline};
pub use reading::Reading;
