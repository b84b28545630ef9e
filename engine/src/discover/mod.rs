//! Rules that a head can do, searched for the one that makes most balls.
//!
//! A [`HeadRule`] is built of slopes that are spoken as fractions, an offset, a bend and corrections; its
//! [`Effort`] counts what has to be reckoned and remembered. [`Ground`] holds, for many balls, the chance over the
//! start number that is aimed from and the spread of reading; a rule only reads it. [`search`] goes through a whole
//! [`Grammar`] and keeps the best rule of every effort; [`RuleFront`] holds what is worth its effort, with chances from
//! balls and tables that took no part in the search.
//!
//! [`CorrectionTables`] asks less: what to add to the starts of one rule, whatever it is, for the ball, its stroke and
//! the table.

mod balls;
mod chance_sheet;
mod correcting;
mod corrections;
mod effort;
mod front;
mod grammar;
mod ground;
mod head_rule;
mod rule_block;
mod search;
mod slope;
mod words;

pub use balls::{BallSpread, DrawnBalls};
pub use correcting::{CorrectionRow, CorrectionTable, CorrectionTables};
pub use corrections::{CorrectedFor, Corrections, HAND_M};
pub use effort::{Effort, EffortWeights};
pub use front::{FrontRule, Halves, RuleFront, best_possible, chances};
pub use grammar::Grammar;
pub use ground::Ground;
pub use head_rule::{Bend, HeadRule};
pub use search::{BestByEffort, search};
pub use slope::SpokenSlope;
