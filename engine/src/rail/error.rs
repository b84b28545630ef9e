//! Why there is no such bank or outline.

use super::{Pocket, Rail};
use thiserror::Error;

/// Why a rail and a pocket make no bank.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum GeometryError {
    /// The pocket opens into the rail itself.
    #[error("the {} pocket opens into the {} rail itself, so no bank off that rail reaches it", pocket.name(), rail.name())]
    PocketOnRail {
        /// The rail.
        rail: Rail,
        /// The pocket.
        pocket: Pocket,
    },
    /// The pockets leave no cushion between them.
    #[error("the pockets are so wide that no cushion is left on the {} rail", rail.name())]
    NoCushion {
        /// The rail.
        rail: Rail,
    },
}
