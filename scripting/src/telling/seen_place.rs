//! Places along the unrolled rails, and what was seen there, as a person reads them off a sheet.

use railproof_engine::equipment::Equipment;
use railproof_engine::evidence::Seen;
use railproof_engine::rail::BankGeometry;
use railproof_engine::units::short_number;

/// A place.
pub(super) fn place_words(table: &Equipment, geometry: &BankGeometry, along_m: f64) -> String {
    let (from, to) = geometry.unrolled_mouth_m();
    if (from..=to).contains(&along_m) {
        return "in the mouth".to_owned();
    }
    let (is_long, number) = geometry.number_of_unrolled(&table.table, along_m);
    format!("{} {}", if is_long { "long" } else { "short" }, short_number(number, 2))
}

/// What was seen of a bank.
pub fn seen_words(table: &Equipment, geometry: &BankGeometry, seen: Seen) -> String {
    match seen {
        Seen::Holds => "holds".to_owned(),
        Seen::Touches => "touches".to_owned(),
        Seen::Long => "long".to_owned(),
        Seen::Short => "short".to_owned(),
        Seen::Stops => "stops".to_owned(),
        Seen::At { along_m, .. } => place_words(table, geometry, along_m),
    }
}
