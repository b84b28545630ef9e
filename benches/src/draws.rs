//! Random inputs by their place, the same for every rival.

use railproof_engine::batch::Inputs;

/// From and to of each input: contact, start over contact, off the rail (m), speed (m/s), roll,
/// side, aim error (rad). As a map of a rule under play is drawn.
pub const RANGES: [(f64, f64); 7] =
    [(0.5, 3.5), (2.0, 2.4), (0.0, 0.6), (1.0, 7.0), (-0.5, 1.0), (-0.5, 0.5), (-0.01, 0.01)];

/// A number in [0, 1) by its place (the mixing steps of Steele, Lea and Flood 2014).
fn draw(index: u64, column: u64) -> f64 {
    let mut z = (index * 7 + column + 1).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    ((z ^ (z >> 31)) >> 11) as f64 * (1.0 / 9_007_199_254_740_992.0)
}

/// Fills the columns with the banks from `first` on.
pub fn fill(inputs: &mut Inputs, first: u64, count: usize) {
    let columns = [
        &mut inputs.contact,
        &mut inputs.start,
        &mut inputs.off_rail_m,
        &mut inputs.speed_m_s,
        &mut inputs.roll,
        &mut inputs.side,
        &mut inputs.aim_error_rad,
    ];
    for ((place, column), (low, high)) in (0..).zip(columns).zip(RANGES) {
        column.clear();
        column.extend((first..first + count as u64).map(|i| low + (high - low) * draw(i, place)));
    }
    for (start, contact) in inputs.start.iter_mut().zip(&inputs.contact) {
        *start *= contact;
    }
}
