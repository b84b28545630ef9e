//! The outcome of one bank or shot, in a few words.

use super::asked_units::AskedUnits;
use super::wording::phrase;
use railproof_engine::bank::{Bank, BankEnding, BankVerdict, Direction, Outcome};
use railproof_engine::rail::Pocket;
use railproof_engine::verdict::{RailNumber, number_along};

/// The rail that a bank met in place of its pocket, with the number there: `the foot rail at 0.97`.
pub fn rail_met(bank: &Bank, ending: BankEnding) -> Option<String> {
    let BankEnding::OtherRail(side, place) = ending else { return None };
    let geometry = bank.geometry();
    let (rail, place) = (geometry.rail_of(side), geometry.to_table(place));
    let number = number_along(bank.equipment(), rail, geometry.pocket, place);
    Some(rail_at(RailNumber { time_s: 0.0, rail, number }, geometry.pocket))
}

/// `the foot rail at 0.97`
pub(super) fn rail_at(met: RailNumber, pocket: Pocket) -> String {
    format!("the {} rail at {}", met.rail.name(), number_at(met.number, pocket))
}

/// A number counted from a pocket, without its sign: `2.00 on the foot side of the side pocket`.
pub(super) fn number_at(number: f64, pocket: Pocket) -> String {
    let told = format!("{:.2}", number.abs());
    match pocket {
        // Numbers of a side pocket grow towards the head.
        side if side.is_side() && number < 0.0 => {
            format!("{told} on the foot side of the side pocket")
        }
        _ if number < 0.0 => format!("{told} past the corner"),
        _ => told,
    }
}

/// The outcome of a bank, in words: `long by 12.3 mm at the mouth, meets the foot rail at 0.97`. `met` is the
/// rail that it meets beside its pocket.
pub fn bank_outcome(outcome: &Outcome, met: Option<&str>, units: AskedUnits) -> String {
    let miss = outcome.miss_m().map(|miss| {
        let met = met.map_or_else(String::new, |met| format!(", meets {met}"));
        format!(" by {} at the mouth{met}", units.tenth(miss.abs()))
    });
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
        BankVerdict::OtherRail => format!("meets {} first", met.unwrap_or("another rail")),
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
