//! Why there is no such table.

use crate::equipment::OutOfRange;
use crate::rail::{GeometryError, Pocket, Rail};
use thiserror::Error;

/// Why there is no such table.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum WorldError {
    /// The pockets leave no cushion.
    #[error(transparent)]
    Geometry(#[from] GeometryError),
    /// The rounding of a jaw's point is longer than the facing behind it.
    #[error(
        "the points of the {} pocket are rounded by {radius_m} m, which is more than its facings have room for ({longest_m} m)",
        pocket.name()
    )]
    JawRadius {
        /// Whose.
        pocket: Pocket,
        /// The radius.
        radius_m: f64,
        /// The largest that fits.
        longest_m: f64,
    },
    /// The roundings at its two ends use up a nose.
    #[error("the points of the pockets are rounded so far that the {} rail has no straight nose left", rail.name())]
    NoNose {
        /// Which rail.
        rail: Rail,
    },
    /// A ball can't pass between the facings.
    #[error(
        "the jaws of the {} pocket are too tight: at the drop line a ball is {short_m} m too wide for them",
        pocket.name()
    )]
    Throat {
        /// Which pocket.
        pocket: Pocket,
        /// The room that is missing.
        short_m: f64,
    },
    /// An obstacle that can't be laid.
    #[error("the obstacle `{name}` can't be laid: {why}")]
    Obstacle {
        /// Which one.
        name: String,
        /// Why.
        why: &'static str,
    },
    /// An obstacle over a pocket.
    #[error("the obstacle `{name}` lies over the {} pocket", pocket.name())]
    OverPocket {
        /// Which one.
        name: String,
        /// Which pocket.
        pocket: Pocket,
    },
    /// An obstacle's restitution or friction.
    #[error("the obstacle `{name}`: {error}")]
    ObstacleValue {
        /// Which one.
        name: String,
        /// The fault.
        error: OutOfRange,
    },
    /// Too many obstacles.
    #[error("there are {count} obstacles; at most {most} can be laid")]
    TooManyObstacles {
        /// Their number.
        count: usize,
        /// The most.
        most: usize,
    },
}
