//! Values held to a source: each check says beside it where its number comes from. *Derived* follows
//! from Newton–Euler, *quoted from memory* is a published figure that was not looked up again,
//! *computed* came out of an independent program that integrates the same published equations.

mod balls;
mod cloth;
mod cushion;
mod equipment;
mod shot;
mod sights;
mod stroke;
mod table;

/// A closed form against its own formula.
#[track_caller]
fn exact(value: f64, formula: f64) {
    let error = (value - formula).abs();
    assert!(error <= 1e-9 * formula.abs(), "{value} instead of {formula}");
}

/// A value against digits as they are printed: within half a unit of the last one.
#[track_caller]
fn printed(value: f64, digits: &str) {
    let wanted: f64 = digits.parse().expect("the digits are a number");
    let decimals = digits.split_once('.').map_or(0, |(_, after)| after.len());
    let half = 0.5 * 0.1_f64.powi(i32::try_from(decimals).expect("a few decimals"));
    // A value that ends in the very middle may have been rounded either way.
    assert!((value - wanted).abs() <= half * (1.0 + 1e-6), "{value} instead of {digits}");
}
