//! The next banks as a sheet to be printed and written on.

use super::page::NO_BANK;
use crate::fitting::{MeasuredTable, NextBanks};
use crate::picture::{FitBody, FitPicture, PictureLook, SheetRow, true_minus};
use crate::telling::caution::Cautions;
use crate::telling::{count, off_rail_words, purpose_words, speed_words, worth_words};
use railproof_engine::column::SetUp;
use railproof_engine::equipment::Equipment;
use railproof_engine::rail::{BankGeometry, Pocket};
use railproof_engine::units::short_number;
use railproof_engine::vector::Vec2;

const CARE: &str =
    "A ball hit hard can leave the table: mind people nearby, and keep to the house's rules.";

/// The sheet of these banks.
pub fn sheet_picture(known: &MeasuredTable, next: &NextBanks) -> FitPicture {
    let rows = next.banks.iter().filter_map(|(set_up, plan)| {
        let worth = worth_words(next, plan);
        row(&known.table, set_up, worth)
    });
    let title = match next.banks.len() {
        0 => "No bank is worth measuring: none can be read".to_owned(),
        banks => format!("The next {}, in this order", count(banks as u64, "bank", "banks")),
    };
    let behind = match known.banks() {
        0 => NO_BANK.to_owned(),
        banks => {
            format!("{}; {}", known.name(), count(banks as u64, "bank so far", "banks so far"))
        }
    };
    let mut notes = vec![
        "Measure contact and start with a tape (to 3 mm). Let the ball slide, without side. For a miss, read where \
         the ball first meets a rail, in diamonds from the pocket, to 0.05; a ball that drops or stops gets a tick \
         and no number."
            .to_owned(),
        "In the drawings the head rail is on the left, and the ball is a ring. A bank listed twice is to be shot \
         twice."
            .to_owned(),
    ];
    let into = |pocket| next.banks.iter().any(|(bank, _)| bank.pocket == pocket);
    if into(Pocket::FootRight) && into(Pocket::HeadRight) {
        let corners =
            "Use both corners: side that you always put on without meaning to then shows up.";
        notes.push(corners.to_owned());
    }
    notes.push(CARE.to_owned());
    let speeds = next.banks.iter().map(|(set_up, _)| set_up.speed);
    notes.extend(Cautions::of_speeds(speeds, &known.table).lines());
    FitPicture {
        title: true_minus(&title),
        subtitles: vec![purpose_words(known, next), behind],
        body: FitBody::Sheet(rows.collect()),
        notes,
        look: PictureLook::default(),
    }
}

fn row(table: &Equipment, set_up: &SetUp, worth: String) -> Option<SheetRow> {
    let geometry = BankGeometry::new(table, set_up.rail, set_up.pocket).ok()?;
    let number = |number: f64| short_number(number, 4);
    let line = set_up.line;
    Some(SheetRow {
        line: format!(
            "contact {} from {}, {}",
            number(line.contact),
            number(line.start),
            off_rail_words(set_up)
        ),
        sent: format!("{}, into {}", speed_words(set_up), set_up.pocket.name()),
        worth,
        way: way(table, &geometry, set_up),
    })
}

/// Start, ball, contact and pocket.
fn way(table: &Equipment, geometry: &BankGeometry, set_up: &SetUp) -> [(f64, f64); 4] {
    let along = |number: f64| number * geometry.diamond_m;
    let start = Vec2::new(along(set_up.line.start), 0.0);
    let contact = Vec2::new(along(set_up.line.contact), geometry.span_m);
    let ball = contact + (start - contact) * (set_up.off_rail_m / geometry.span_m).min(1.0);
    [start, ball, contact, Vec2::new(0.0, 0.0)].map(|point| {
        let point = geometry.to_table(point);
        (point.x / table.table.length_m + 0.5, 0.5 - point.y / table.table.width_m)
    })
}
