//! The share of an ensemble for which something is true.

/// A share of an ensemble, and how sure it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MemberShare {
    /// The share itself.
    pub share: f64,
    /// Its standard error from the ensemble's effective size.
    pub error: f64,
}

/// Whether an ensemble's members agree.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Agreement {
    /// True on nearly every table of the ensemble.
    All,
    /// Some tables say yes, others no.
    Depends,
    /// True on hardly any.
    None,
}

impl MemberShare {
    /// Fewer than one member in so many may stand apart in an agreement.
    pub const APART: f64 = 0.05;

    /// Of members with these weights, which add up to 1.
    pub fn of(is_true: impl Iterator<Item = bool>, weights: &[f64]) -> Self {
        let share: f64 =
            is_true.zip(weights).filter(|(yes, _)| *yes).map(|(_, weight)| weight).sum();
        // A sum of nothing is -0.
        let share = share.clamp(0.0, 1.0) + 0.0;
        let squares: f64 = weights.iter().map(|weight| weight * weight).sum();
        Self { share, error: (share * (1.0 - share) * squares).sqrt() }
    }

    /// Whether the members agree.
    pub fn agreement(self) -> Agreement {
        if self.share >= 1.0 - Self::APART {
            Agreement::All
        } else if self.share <= Self::APART {
            Agreement::None
        } else {
            Agreement::Depends
        }
    }
}
