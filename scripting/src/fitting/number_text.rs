//! The numbers of a fit in the units in which people think of them.

use railproof_engine::ensemble::MemberNumber;
use railproof_engine::units::short_number;

/// A unit, its SI value, and the decimals that say enough.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NumberUnit {
    /// Its symbol; empty for a plain number.
    pub symbol: &'static str,
    /// The SI value of one of it.
    pub si: f64,
    /// Decimals.
    pub decimals: usize,
}

impl NumberUnit {
    /// A plain number.
    pub const fn plain(decimals: usize) -> Self {
        Self { symbol: "", si: 1.0, decimals }
    }

    /// A value in this unit, without the unit.
    pub fn told(self, value: f64) -> String {
        short_number(value / self.si, self.decimals)
    }

    /// A title with the unit behind it.
    pub fn titled(self, title: &str) -> String {
        if self.symbol.is_empty() { title.to_owned() } else { format!("{title} ({})", self.symbol) }
    }

    /// The unit of a member's number.
    pub fn of(number: MemberNumber) -> Self {
        use MemberNumber as N;
        match number {
            N::ContactTime => Self { symbol: "ms", si: 1e-3, decimals: 1 },
            N::AimBias => Self { symbol: "mrad", si: 1e-3, decimals: 1 },
            N::NoseHeight => Self { symbol: "of the ball's diameter", si: 1.0, decimals: 4 },
            N::RollingResistance => Self::plain(4),
            N::Restitution
            | N::NoseFriction
            | N::ImpactClothFriction
            | N::SlidingFriction
            | N::SideBias => Self::plain(3),
            N::RestitutionLoss => Self { symbol: "s/m", si: 1.0, decimals: 3 },
            N::Soft | N::Medium | N::Firm => Self { symbol: "m/s", si: 1.0, decimals: 2 },
        }
    }
}
