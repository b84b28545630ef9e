//! One row as a measured bank.

use super::csv_cells::CsvCells;
use super::{MeasuredColumn, Sent};
use crate::fault::Fault;
use crate::fields::{Mismatch, Worded};
use crate::renamed;
use railproof_engine::bank::{Launch, speed_on};
use railproof_engine::column::SetUp;
use railproof_engine::equipment::{Equipment, Parameter};
use railproof_engine::evidence::{MeasuredBank, Seen};
use railproof_engine::rail::{BankGeometry, Line, PocketChoice, RailChoice, Reading};
use railproof_engine::units::{Dimension, Speed, SpeedWord};

/// A number this many times as far from the mouth as it was read to is no number of a ball beside it.
const MOST_MISREAD: f64 = 2.0;

/// A row as a measured bank.
pub(super) struct MeasuredCells<'a>(pub(super) CsvCells<'a, MeasuredColumn>);

/// The result of a bank in a word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum SeenWord {
    Holds,
    Touches,
    Long,
    Short,
    Stops,
}

impl Worded for SeenWord {
    const ALL: &'static [Self] =
        &[Self::Holds, Self::Touches, Self::Long, Self::Short, Self::Stops];

    fn word(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::Touches => "touches",
            Self::Long => "long",
            Self::Short => "short",
            Self::Stops => "stops",
        }
    }
}

const RAIL_NUMBER: Parameter = Parameter::new("number", Dimension::Ratio, 0.0, 8.0, "");
const READ_TO: Parameter = Parameter::new("read_to", Dimension::Ratio, 0.001, 2.0, "");
const REPEATS: Parameter = Parameter::new("repeats", Dimension::Ratio, 1.0, 100.0, "");
/// Read to a twentieth of a diamond.
const USUAL_READ_TO: f64 = 0.05;

impl MeasuredCells<'_> {
    /// True for a row of a template that nobody has filled in.
    pub(super) fn is_open(&self) -> bool {
        [MeasuredColumn::Seen, MeasuredColumn::Number].iter().all(|it| self.0.text(*it).is_none())
    }

    /// The bank that they tell.
    pub(super) fn bank(&self, table: &Equipment) -> Result<MeasuredBank, Fault> {
        use MeasuredColumn as C;
        let (set_up, geometry) = self.set_up(table)?;
        let sent = self.0.word(C::Sent)?.unwrap_or(Sent::Tip);
        let repeats = match self.number(C::Repeats, REPEATS)? {
            Some(repeats) => format!("{repeats}").parse().map_err(|_| {
                self.0.refused(C::Repeats, Mismatch::message("must be a whole number"))
            })?,
            None => 1,
        };
        Ok(MeasuredBank {
            set_up,
            seen: self.seen(table, &geometry)?,
            scatter: sent.scatter(),
            repeats,
        })
    }

    /// The bank as it is meant.
    pub(super) fn set_up(&self, table: &Equipment) -> Result<(SetUp, BankGeometry), Fault> {
        use MeasuredColumn as C;
        let pocket = self.0.needed_word::<PocketChoice>(C::Pocket)?;
        let rail = self.0.word(C::Rail)?.unwrap_or(RailChoice::Long).facing(pocket);
        let pocket = pocket.across_from(rail);
        let geometry = BankGeometry::new(table, rail, pocket).map_err(|error| {
            self.0.refused(C::Pocket, Mismatch::message(format!("makes no bank: {error}")))
        })?;
        let reading = self.0.word(C::Reading)?.unwrap_or(Reading::Groove);
        let numbers =
            Line::new(self.needed(C::Contact, Line::CONTACT)?, self.needed(C::Start, Line::START)?);
        let line = numbers.groove_from(reading, &geometry);
        let (low, high) = geometry.contacts();
        if !(low..=high).contains(&line.contact) {
            let message = format!("must be on the rail, from {low:.2} to {high:.2}");
            return Err(self.0.refused(C::Contact, Mismatch::message(message)));
        }
        let set_up = SetUp::stun(rail, pocket, line, self.off_rail(&geometry)?, self.speed(table)?);
        Ok((set_up, geometry))
    }

    /// The result.
    pub(super) fn seen(&self, table: &Equipment, geometry: &BankGeometry) -> Result<Seen, Fault> {
        use MeasuredColumn as C;
        let word = self.0.needed_word::<SeenWord>(C::Seen)?;
        let number = self.number(C::Number, RAIL_NUMBER)?;
        let read_to = self.number(C::ReadTo, READ_TO)?.unwrap_or(USUAL_READ_TO);
        match (word, number) {
            (SeenWord::Holds | SeenWord::Touches, Some(_)) => {
                let message = "must be empty for a ball that came to the pocket";
                let mismatch = Mismatch::message(message)
                    .with_hint("only a ball that was long or short met a rail first");
                Err(self.0.refused(C::Number, mismatch))
            }
            (SeenWord::Stops, Some(_)) => {
                let mismatch = Mismatch::message("must be empty for a ball that stopped")
                    .with_hint("a ball that met a rail beside the pocket was long or short");
                Err(self.0.refused(C::Number, mismatch))
            }
            (SeenWord::Holds, None) => Ok(Seen::Holds),
            (SeenWord::Touches, None) => Ok(Seen::Touches),
            (SeenWord::Long, None) => Ok(Seen::Long),
            (SeenWord::Short, None) => Ok(Seen::Short),
            (SeenWord::Stops, None) => Ok(Seen::Stops),
            (_, Some(number)) => {
                let is_long = word == SeenWord::Long;
                let at = |number| geometry.unrolled_of_number_m(&table.table, is_long, number);
                let along_m = at(number);
                let read_to_m = (at(number + read_to) - along_m).abs();
                let (from, to) = geometry.unrolled_mouth_m();
                let end_m = if is_long { to } else { from };
                // Beside the mouth a number is easily read as one of it.
                let misread = (along_m - end_m).abs() <= MOST_MISREAD * read_to_m;
                if (from..=to).contains(&along_m) && !misread {
                    let (_, least) = geometry.number_of_unrolled(&table.table, end_m);
                    let message = format!("is in the mouth, which goes to {least:.2} there");
                    let hint = format!(
                        "leave the number empty if the ball was {}; one that came to the mouth holds or touches",
                        word.word()
                    );
                    return Err(self
                        .0
                        .refused(C::Number, Mismatch::message(message).with_hint(hint)));
                }
                Ok(Seen::At { along_m, read_to_m })
            }
        }
    }

    fn off_rail(&self, geometry: &BankGeometry) -> Result<f64, Fault> {
        let column = MeasuredColumn::OffRail;
        let text = self.0.text(column).ok_or_else(|| self.0.empty(column))?;
        let off_rail_m = match text {
            "0" | "frozen" => 0.0,
            _ => self.quantity(column, text, Launch::OFF_RAIL)?,
        };
        if off_rail_m > geometry.span_m {
            let message = format!("must be on the table, at most {:.3} m", geometry.span_m);
            return Err(self.0.refused(column, Mismatch::message(message)));
        }
        Ok(off_rail_m)
    }

    fn speed(&self, table: &Equipment) -> Result<Speed, Fault> {
        let column = MeasuredColumn::Speed;
        let text = self.0.text(column).ok_or_else(|| self.0.empty(column))?;
        match Speed::parse(text) {
            Ok(speed @ (Speed::Word(_) | Speed::TableLengths(_)))
                if Launch::SPEED.check(speed_on(speed, table)).is_ok() =>
            {
                Ok(speed)
            }
            _ => self.quantity(column, text, Launch::SPEED).map(Speed::MetresPerSecond).map_err(
                |fault| {
                    let words = SpeedWord::ALL.into_iter().map(SpeedWord::name);
                    match renamed::hint(text, words) {
                        Some(hint) => fault.with_hint(hint),
                        None => fault,
                    }
                },
            ),
        }
    }

    fn number(&self, column: MeasuredColumn, parameter: Parameter) -> Result<Option<f64>, Fault> {
        self.0.text(column).map(|text| self.quantity(column, text, parameter)).transpose()
    }

    fn needed(&self, column: MeasuredColumn, parameter: Parameter) -> Result<f64, Fault> {
        self.number(column, parameter)?.ok_or_else(|| self.0.empty(column))
    }

    fn quantity(
        &self,
        column: MeasuredColumn,
        text: &str,
        parameter: Parameter,
    ) -> Result<f64, Fault> {
        self.0.amount(column, text, parameter).map_err(|fault| {
            let is_count = matches!(
                column,
                MeasuredColumn::Contact
                    | MeasuredColumn::Start
                    | MeasuredColumn::Number
                    | MeasuredColumn::ReadTo
            );
            if is_count && text.ends_with(|sign: char| sign.is_alphabetic() || sign == '"') {
                return fault.with_hint("it counts diamonds, without a unit, such as 0.5");
            }
            fault
        })
    }
}
