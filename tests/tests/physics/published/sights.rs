//! Reading a line through the sights.

use super::{exact, printed, table};
use railproof_engine::rail::{BankGeometry, Line, Pocket, Rail};
use railproof_engine::units::INCH_M;

fn long_rail() -> BankGeometry {
    BankGeometry::new(&table::nine_foot(), Rail::Left, Pocket::FootRight).expect("it is a bank")
}

/// Derived: the sights' centres stand 3 11/16 in behind a nose that is R·cosθ outside the groove, so
/// on a table 50 in wide each reading moves by (s − c)·(3.6875 + R·cosθ)/(50 − 2R·cosθ) diamonds,
/// lengths in inches (dimensions: WPA equipment specifications, published).
#[test]
fn the_spread_between_the_readings() {
    let geometry = long_rail();
    let groove = 1.125 * (1.0_f64 - 0.27 * 0.27).sqrt();
    let spread = (3.6875 + groove) / (50.0 - 2.0 * groove);
    exact(geometry.sight_spread(), spread);
    exact(geometry.diamond_m, 12.5 * INCH_M);
    for line in [Line::new(1.5, 3.3), Line::new(2.0, 1.0), Line::new(-0.5, 6.0)] {
        let read = line.groove_to_sight(&geometry);
        exact(read.contact, line.contact - (line.start - line.contact) * spread);
        exact(read.start, line.start + (line.start - line.contact) * spread);
        let back = read.sight_to_groove(&geometry);
        exact(back.contact, line.contact);
        exact(back.start, line.start);
    }
}

/// Derived: contact 1.5 from start 3.3 in the groove reads about 1.32 and 3.48 through the sights.
#[test]
fn a_line_read_through_the_sights() {
    let read = Line::new(1.5, 3.3).groove_to_sight(&long_rail());
    printed(read.contact, "1.32");
    printed(read.start, "3.48");
}
