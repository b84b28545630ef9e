//! The surfaces that hold a ball.

use crate::vector::Vec2;
use crate::world::{Boundary, Owner};

/// A ball that comes off a surface more slowly than this, while the cloth drives it back, stays on
/// it, m/s. At a deceleration of 2 m/s² it would have come 2.5 nm off.
pub const HELD_BELOW_M_S: f64 = 1e-4;

/// The hold on a held ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::shot) enum Holds {
    /// The centre goes along one surface.
    Along(Boundary),
    /// The centre rests where two surfaces meet.
    Between([Holder; 2]),
}

/// One of two surfaces between which a ball rests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::shot) struct Holder {
    pub(super) owner: Owner,
    /// Unit vector into it.
    pub(super) normal: Vec2,
    /// Its part of the cloth's acceleration, m/s².
    pub(super) takes_m_s2: f64,
}

impl Holds {
    /// True for a boundary that holds the ball, and that has this normal where the ball is.
    pub(super) fn includes(&self, boundary: &Boundary, normal: Vec2) -> bool {
        match self {
            Self::Along(one) => one == boundary,
            Self::Between(two) => {
                two.iter().any(|it| it.owner == boundary.owner && it.normal == normal)
            }
        }
    }
}
