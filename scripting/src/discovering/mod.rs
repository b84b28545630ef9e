//! Rules searched for a player and a table: the question, and all that is found.

mod findings;
mod picture;
mod question;

pub use findings::{CommonRule, Discovered, OtherWeights};
pub use picture::front_picture;
pub use question::{DiscoverQuestion, MOST_BALLS, MOST_TABLES};
