//! Rules, and corrections of a rule, searched for a player and a table: the question, and all that is found.

mod asked_balls;
mod corrected;
mod findings;
mod question;

pub use asked_balls::{AskedBalls, FEWEST_BALLS, MOST_BALLS, MOST_HANDS, MOST_SIDE, MOST_TABLES};
pub use corrected::CorrectedFindings;
pub use findings::{CommonRule, Discovered, OtherWeights};
pub use question::DiscoverQuestion;
