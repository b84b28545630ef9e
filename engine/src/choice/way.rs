//! The ways to a pocket.

use crate::aim::NoAim;
use crate::rail::{Pocket, Rail};
use crate::rule::RuleError;
use thiserror::Error;

/// A way of the object ball to a pocket.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BallWay {
    /// Straight.
    Cut(Pocket),
    /// Off one rail.
    Bank(Rail, Pocket),
}

impl BallWay {
    /// The pocket.
    pub const fn pocket(self) -> Pocket {
        match self {
            Self::Cut(pocket) | Self::Bank(_, pocket) => pocket,
        }
    }

    /// True off a rail.
    pub const fn is_bank(self) -> bool {
        matches!(self, Self::Bank(..))
    }

    /// Every way to these pockets: cuts, then banks.
    pub fn all(pockets: &[Pocket]) -> Vec<Self> {
        let cuts = pockets.iter().map(|pocket| Self::Cut(*pocket));
        let banks =
            pockets.iter().flat_map(|pocket| Rail::ALL.map(|rail| Self::Bank(rail, *pocket)));
        cuts.chain(banks.filter(|way| !way.opens_into_its_rail())).collect()
    }

    /// True where the pocket opens into the rail itself, which makes no bank.
    fn opens_into_its_rail(self) -> bool {
        let Self::Bank(rail, pocket) = self else { return false };
        let (x, y) = pocket.signs();
        crate::vector::Vec2::new(x, y).dot(rail.outward()) > 0.0
    }
}

/// Why a way has no line, or no aim for it.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum NoLine {
    /// The rule has none through the ball.
    #[error("the rule has no line: {0}")]
    Rule(#[from] RuleError),
    /// No line near that of equal angles leads through the middle of the mouth.
    #[error("no line off that rail leads through the middle of the mouth: {why}")]
    NotThere {
        /// The outcome of the nearest.
        why: &'static str,
    },
    /// No stroke sends the object ball along it.
    #[error(transparent)]
    Aim(#[from] NoAim),
}
