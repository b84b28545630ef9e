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
    /// Off one rail, then another.
    TwoRails(Rail, Rail, Pocket),
}

impl BallWay {
    /// The pocket.
    pub const fn pocket(self) -> Pocket {
        match self {
            Self::Cut(pocket) | Self::Bank(_, pocket) | Self::TwoRails(_, _, pocket) => pocket,
        }
    }

    /// True off a rail or two.
    pub const fn is_bank(self) -> bool {
        !matches!(self, Self::Cut(_))
    }

    /// The rails that it is banked off, in order.
    pub fn rails(self) -> impl Iterator<Item = Rail> {
        let rails = match self {
            Self::Cut(_) => [None, None],
            Self::Bank(rail, _) => [Some(rail), None],
            Self::TwoRails(first, second, _) => [Some(first), Some(second)],
        };
        rails.into_iter().flatten()
    }

    /// Every way to these pockets: cuts, then banks.
    pub fn all(pockets: &[Pocket]) -> Vec<Self> {
        let cuts = pockets.iter().map(|pocket| Self::Cut(*pocket));
        let banks =
            pockets.iter().flat_map(|pocket| Rail::ALL.map(|rail| Self::Bank(rail, *pocket)));
        cuts.chain(banks.filter(|way| !way.opens_into_its_rail())).collect()
    }

    /// Every way to these pockets off two different rails.
    pub fn all_off_two_rails(pockets: &[Pocket]) -> Vec<Self> {
        let of = |pocket: Pocket| {
            Rail::ALL.into_iter().flat_map(move |first| {
                let others = Rail::ALL.into_iter().filter(move |second| *second != first);
                others.map(move |second| Self::TwoRails(first, second, pocket))
            })
        };
        let ways = pockets.iter().flat_map(|pocket| of(*pocket));
        ways.filter(|way| !way.opens_into_its_rail()).collect()
    }

    /// True where the pocket opens into the last rail itself, which makes no bank.
    fn opens_into_its_rail(self) -> bool {
        let Some(rail) = self.rails().last() else { return false };
        let (x, y) = self.pocket().signs();
        crate::vector::Vec2::new(x, y).dot(rail.outward()) > 0.0
    }
}

/// Why a way has no line, or no aim for it.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum NoLine {
    /// The rule has none through the ball.
    #[error("the rule has no line: {0}")]
    Rule(#[from] RuleError),
    /// A rule is for one rail.
    #[error("the rule is for one rail")]
    TwoRailsByRule,
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
