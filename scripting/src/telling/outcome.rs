//! The outcome of one bank or shot, in a few words.

use super::asked_units::AskedUnits;
use super::wording::phrase;
use railproof_engine::bank::{BankVerdict, Direction, Outcome};

/// The outcome of a bank, in words: `long by 12.3 mm`.
pub fn bank_outcome(outcome: &Outcome, units: AskedUnits) -> String {
    let miss = outcome.miss_m().map(|miss| format!(" by {}", units.tenth(miss.abs())));
    match outcome.verdict() {
        BankVerdict::Holds => {
            format!("holds, {} off the middle", units.tenth(outcome.miss_m().unwrap_or(0.0).abs()))
        }
        BankVerdict::Long => format!("long{}", miss.unwrap_or_default()),
        BankVerdict::Short => format!("short{}", miss.unwrap_or_default()),
        BankVerdict::TouchesPoint(direction) => match direction {
            Direction::Long => "touches the long point".to_owned(),
            Direction::Short => "touches the short point".to_owned(),
        },
        BankVerdict::StoppedBeforeRail => "stops before the rail".to_owned(),
        BankVerdict::StoppedBeforeMouth => "stops before the mouth".to_owned(),
        BankVerdict::OtherRail => "meets another rail first".to_owned(),
        BankVerdict::OtherPocket => "goes into another pocket".to_owned(),
        BankVerdict::NoRoom => "can't be played: it would start off the cloth".to_owned(),
    }
}

/// The outcome of a shot, in words: `missed long, 12.3 mm from the middle`.
pub fn shot_outcome(verdict: &str, miss_m: Option<f64>, kissed: bool, units: AskedUnits) -> String {
    let kissed = if kissed { ", after a double kiss" } else { "" };
    match miss_m {
        Some(miss) => {
            format!("{}, {} from the middle{kissed}", phrase(verdict), units.tenth(miss))
        }
        None => format!("{}{kissed}", phrase(verdict)),
    }
}
