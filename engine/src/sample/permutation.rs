//! Keyed permutations of the whole numbers below a bound, computed one place at a time.

use super::hash::{DimensionKey, counted, mix};

/// The number of times that both halves change each other. Narrow words, whose halves have few digits to
/// draw with, need more before all orders are as likely.
const fn rounds(width: u32) -> u64 {
    if width <= 8 { 12 } else { 4 }
}

/// Where `place` goes in a permutation of the whole numbers below `bound`; `place` must be below
/// `bound`.
///
/// A Feistel network on the narrowest binary words that hold the numbers, walked until it lands
/// below the bound again, as J. Black and P. Rogaway 2002 describe (*Ciphers with arbitrary finite
/// domains*, CT-RSA). Words of odd width have halves of unequal width, so each half is changed in
/// its place instead of being swapped. Fewer than two walks are expected.
pub(super) fn permuted(place: u64, bound: u64, key: DimensionKey) -> u64 {
    debug_assert!(place < bound);
    let width = u64::BITS - (bound - 1).leading_zeros();
    let low_width = width.div_ceil(2);
    let low_mask = (1 << low_width) - 1;
    let high_mask = (1 << (width - low_width)) - 1;
    let key = key.hash(0);
    let mut place = place;
    loop {
        let (mut low, mut high) = (place & low_mask, place >> low_width);
        for round in 0..rounds(width) {
            let (first, second) = (counted(key, 2 * round), counted(key, 2 * round + 1));
            low ^= mix(high ^ first) & low_mask;
            high ^= mix(low ^ second) & high_mask;
        }
        place = high << low_width | low;
        // The walk comes back below the bound, since it set out from there and is one to one.
        if place < bound {
            return place;
        }
    }
}
