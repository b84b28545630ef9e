//! The rows of whole shots as columns.

use super::columns::{ColumnHeader, ColumnValues, FileColumn};
use super::measure_columns::{MeasuredColumns, WordList};
use super::row_choice::RowChoice;
use super::run::PlayedShots;
use crate::plan::{ShotValues, ShotsPlan, digits};
use railproof_engine::results::SHOT_MEASURES;
use std::borrow::Cow;

/// The columns of the rows that are picked: the point, what varies, every measure, and why not.
pub fn shot_columns<'a>(
    plan: &ShotsPlan,
    played: &PlayedShots,
    pick: RowChoice,
) -> Vec<FileColumn<'a>> {
    let rows = pick.shot_rows(played);
    let digits: Vec<Vec<usize>> =
        rows.iter().map(|row| digits(plan.axes(), played.points[*row])).collect();
    let points = rows.iter().map(|row| played.points[*row].cast_signed()).collect();
    let about = ColumnHeader::new("point", "", "index of the point in the plan");
    let mut all = vec![FileColumn::new(about, ColumnValues::Whole(points))];
    for (at, axis) in plan.axes().iter().enumerate() {
        let own = digits.iter().map(|digits| digits[at]);
        let (unit, values) = match &axis.values {
            ShotValues::Numbers { si, si_unit, .. } => {
                (*si_unit, ColumnValues::Few(Cow::Owned(own.map(|digit| si[digit]).collect())))
            }
            ShotValues::Words(words) => {
                let codes = own.map(|digit| u32::try_from(digit).unwrap_or(u32::MAX)).collect();
                ("", ColumnValues::Words { list: words.clone(), codes })
            }
        };
        let whose = if plan.function().is_some() { "of the point" } else { "of the layout" };
        let meaning = format!("`{}` {whose}", axis.name);
        all.push(FileColumn::new(ColumnHeader::new(axis.column(), unit, meaning), values));
    }
    let (mut equipment, mut why_not) = (WordList::default(), WordList::default());
    let mut measured = MeasuredColumns::new(SHOT_MEASURES);
    for row in rows.iter().map(|row| &played.rows[*row]) {
        equipment.push(row.equipment.as_ref().map(|equipment| equipment.name.as_str()));
        measured.push(Some(&row.result()));
        why_not.push(row.outcome.as_ref().err().map(String::as_str));
    }
    if !plan.varies_equipment() {
        let about = ColumnHeader::new("equipment", "", "the table it was played on");
        all.push(FileColumn::new(about, equipment.values()));
    }
    all.extend(measured.finished());
    all.push(FileColumn::new(
        ColumnHeader::new("why_not", "", "why there is no such shot"),
        why_not.values(),
    ));
    all
}
