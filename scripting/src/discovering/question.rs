//! A search for rules as it is asked for.

use super::AskedBalls;
use railproof_engine::discover::{EffortWeights, Grammar};

/// A search ready to be made.
#[derive(Debug, Clone)]
pub struct DiscoverQuestion {
    /// The balls, the table and the player.
    pub asked: AskedBalls,
    /// The rules.
    pub grammar: Grammar,
    /// The cost of steps and numbers.
    pub weights: EffortWeights,
}
