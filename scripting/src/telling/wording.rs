//! Amounts inside a sentence.

/// A length on a table: tenths of a millimetre below a centimetre.
pub fn millimetres(metres: f64) -> String {
    let mm = 1e3 * metres;
    if mm >= 9.95 { format!("{mm:.0} mm") } else { format!("{mm:.1} mm") }
}

/// A value of the data in a sentence: `missed long`, for `missed-long`.
pub fn phrase(value: &str) -> String {
    value.replace('-', " ")
}

/// A share in whole per cent.
pub fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}
