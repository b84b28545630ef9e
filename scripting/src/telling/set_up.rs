//! A bank's set-up as a person reads it off a sheet.

use railproof_engine::column::SetUp;
use railproof_engine::units::{INCH_M, Speed, short_number};

/// The whole set-up.
pub fn set_up_words(set_up: &SetUp) -> String {
    format!(
        "contact {} from {}, {}, {}, {}",
        short_number(set_up.line.contact, 2),
        short_number(set_up.line.start, 2),
        off_rail_words(set_up),
        speed_words(set_up),
        set_up.pocket.name()
    )
}

/// The place of the ball.
pub fn off_rail_words(set_up: &SetUp) -> String {
    if set_up.off_rail_m == 0.0 {
        "frozen".to_owned()
    } else {
        format!("{} in off", short_number(set_up.off_rail_m / INCH_M, 2))
    }
}

/// The speed.
pub fn speed_words(set_up: &SetUp) -> String {
    match set_up.speed {
        Speed::Word(word) => word.name().to_owned(),
        Speed::MetresPerSecond(m_s) => format!("{} m/s", short_number(m_s, 2)),
        Speed::TableLengths(lengths) => format!("{} lengths", short_number(lengths, 2)),
    }
}
