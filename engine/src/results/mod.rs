//! Results said once: the numbers, words and flags that can be read from a result, each with its name,
//! unit and meaning. Files, scripts, pictures and answers take theirs from these lists.

mod bank;
mod measure;
mod tables;

pub use bank::{BANK_MEASURES, BankResult, BankResults, bank_measure};
pub use measure::{DisplayUnit, Measure, MeasureReading, ResultKind, ResultPart};
pub use tables::Tables;
