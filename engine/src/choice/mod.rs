//! Bank or cut: every way of sending one ball to a pocket, straight or off a rail or two, by the chance that a person
//! makes it.
//!
//! A person judges a line for the object ball, aims the cue ball so that it goes along it, and strikes. They err in
//! judging and in striking ([`Skill`](crate::chance::Skill)):
//!
//! - The line of a **cut** leads to the middle of the mouth. It is seen, so nothing is read.
//! - The line of a **bank** is read off the rails and worked out by a rule, or is the exact one, whose mark is read all
//!   the same. A misread line turns about the object ball.
//! - A bank **off two rails** is known or isn't played: its place on the first rail is read.
//! - **Throw and squirt** are known by habit: the aim is solved for whichever line was judged.
//! - The **stroke** errs in aim, cut, speed and tip, for both alike.
//!
//! Errors are drawn once for all ways (scrambled Sobol points, common random numbers), so two ways are compared by
//! the same person's same errors. Whole shots are played: kisses, scratches, other balls and obstacles count.

mod line;
mod obstruction;
mod question;
mod tally;
mod way;

pub use line::{JudgedBy, MeantLine};
pub use obstruction::{InTheWay, in_the_way};
pub use question::{BallChoice, Better, ChoiceDraw, ChoiceQuestion, FoundChoice};
pub use tally::ChoiceTally;
pub use way::{BallWay, NoLine};
