//! The outcome of a bank or a shot, in words: the sentences that commands, scripts and pictures show.

pub mod amounts;
mod bank;
pub mod caution;
mod conditions;
mod moments;
pub mod reason;
mod shot;
mod speeds;
mod stepped;
mod wording;

pub use bank::bank_sentences;
pub use conditions::shot_conditions;
pub use wording::phrase;
