//! Results said once: the numbers, words and flags that can be read from a result, each with its name,
//! unit and meaning. Files, scripts, pictures and answers take theirs from these lists.

mod bank;
mod measure;
#[cfg(feature = "world")]
mod shot;

pub use bank::{BANK_MEASURES, BankResult, BankResults, bank_measure};
pub use measure::{DisplayUnit, Measure, MeasureReading, ResultKind, ResultPart};
#[cfg(feature = "world")]
pub use shot::{
    NO_SHOT, SHOT_MEASURES, SHOT_VERDICTS, ShotOutcome, ShotResult, ShotResults, shot_measure,
};
