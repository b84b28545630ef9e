//! Rails, pockets and the numbers counted along them; the frame in which a bank is computed.

mod geometry;
mod names;
mod numbers;
mod outline;
#[cfg(test)]
pub(crate) mod testing;
#[cfg(test)]
mod tests;

pub use geometry::{BankGeometry, GeometryError, Mouth, Opening, Side};
pub use names::{Pocket, PocketChoice, Rail, RailChoice};
pub use numbers::{Line, Reading};
pub use outline::{Gap, Outline};
