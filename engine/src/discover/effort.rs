//! The effort of a rule: what has to be reckoned and what remembered.

/// Counts of what a rule asks of a head.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Effort {
    /// Steps of reckoning for one ball.
    pub operations: u8,
    /// Numbers to remember.
    pub numbers: u8,
}

impl Effort {
    /// Both together.
    #[must_use]
    pub const fn and(self, operations: u8, numbers: u8) -> Self {
        Self { operations: self.operations + operations, numbers: self.numbers + numbers }
    }

    /// Their sum under weights.
    pub fn weighed(self, weights: EffortWeights) -> f64 {
        weights.operation * f64::from(self.operations) + weights.number * f64::from(self.numbers)
    }
}

/// How much a step of reckoning and a number to remember cost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EffortWeights {
    /// A step.
    pub operation: f64,
    /// A number.
    pub number: f64,
}

impl EffortWeights {
    /// Both alike.
    pub const EVEN: Self = Self { operation: 1.0, number: 1.0 };
}
