//! The chance that a person pockets a bank.
//!
//! A ball lies somewhere ([`Condition`]). A person looks at it, reads its contact number, works a start number
//! out of it by a rule, reads that place on the other rail, and sends the ball along that line: each of these
//! with an error of theirs ([`Skill`]). About the ball's place only the line turns, so for one table, one speed
//! and one side the lines that hold are stretches of start numbers ([`HoldWindows`]). Those are looked for once;
//! every rule and every spread of aim and reading then only asks what share of a normal law falls into them.
//! Speed and side are integrated over by Gauss–Hermite nodes.
//!
//! Over the tables of an ensemble each member's player also does what they always do: their windows are those of
//! starts that they mean, aim bias and side bias thrown in.
//!
//! [`drawn`] asks the same by playing shots at random, as a check and where windows don't serve.
//!
//! A ball that touches a point of the mouth and drops all the same is not counted: chances are of clean banks.

mod condition;
pub mod drawn;
mod grid;
mod nodes;
mod paired;
mod search;
mod skill;
mod strokes;
mod tables;
mod target;
mod window;
mod windows;

pub use condition::{BallLines, Condition};
pub use nodes::{SpreadNode, SpreadNodes};
pub use paired::{ChanceStanding, RuleChances, RuleInCondition, rank_by_chance};
pub use skill::{Skill, SkillNumber};
pub use strokes::{StrokeErrors, StrokeSpread};
pub use tables::PossibleTables;
pub use target::AimedStart;
pub use window::Window;
pub use windows::{Chance, HoldWindows};
