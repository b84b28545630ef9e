//! Rules searched for a player and a table: the question, and all that is found.

mod findings;
mod question;

pub use findings::{CommonRule, Discovered, OtherWeights};

pub use question::{DiscoverQuestion, MOST_BALLS, MOST_TABLES};
