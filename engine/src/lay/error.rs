//! Why a ball can't lie where it is said to.

use crate::rail::{GeometryError, Rail};
use crate::shot::ShotError;
use thiserror::Error;

/// Why a ball can't be laid.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum LayError {
    /// A place refers to a ball that is not in the list.
    #[error("ball {ball} is laid by ball {other}, but there is no such ball")]
    NoSuchBall {
        /// Which ball.
        ball: usize,
        /// The name that it refers to.
        other: usize,
    },
    /// Balls that are laid by each other, or by themselves.
    #[error("where ball {ball} lies depends on itself")]
    Circular {
        /// Which ball.
        ball: usize,
        /// The balls of the circle, in order, that ball first.
        through: Vec<usize>,
    },
    /// Two places that must differ are one.
    #[error("where ball {ball} lies has no direction: the two places are the same")]
    NoDirection {
        /// Which ball.
        ball: usize,
    },
    /// A number that is not one.
    #[error("where ball {ball} lies is not a number")]
    NotFinite {
        /// Which ball.
        ball: usize,
    },
    /// The rail and the pocket make no bank.
    #[error("ball {ball}: {error}")]
    Geometry {
        /// Which ball.
        ball: usize,
        /// Why.
        error: GeometryError,
    },
    /// The contact number of a line is not on its rail.
    #[error("ball {ball}: contact {contact} is not on the {} rail", rail.name())]
    NotOnRail {
        /// Which ball.
        ball: usize,
        /// The rail.
        rail: Rail,
        /// The contact number.
        contact: f64,
        /// The least and the greatest one at which a ball touches the rail.
        contacts: (f64, f64),
    },
    /// A ball can't be frozen to a rail where a pocket opens, or past its end.
    #[error("ball {ball}: the {} rail has no cushion at {number}", rail.name())]
    NoCushion {
        /// Which ball.
        ball: usize,
        /// The rail.
        rail: Rail,
        /// The number.
        number: f64,
    },
    /// The table, or another ball, is in the way.
    #[error(transparent)]
    Start(#[from] ShotError),
}
