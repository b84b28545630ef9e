//! Sobol's points.

use super::directions::{DIMENSIONS, LAST_BIT, directions};
use super::hash::DimensionKey;

/// The direction numbers of each dimension, each with its first binary digit in the highest bit.
static DIRECTIONS: [[u64; LAST_BIT]; DIMENSIONS] = directions();

/// The binary digits of a point's coordinate, the first in the highest bit.
///
/// Points follow the Gray code of their index (I. Antonov and V. Saleev 1979, *An economic method
/// of computing LPτ-sequences*, USSR Comput. Math. Math. Phys. 19(1):252–256): among the first 2ᵐ
/// points, and in every later block of as many, only the order differs from the plain one.
pub(super) fn bits(point: u64, dimension: usize) -> u64 {
    let mut gray = point ^ (point >> 1);
    let directions = &DIRECTIONS[dimension];
    let mut bits = 0;
    while gray != 0 {
        bits ^= directions[gray.trailing_zeros() as usize];
        gray &= gray - 1;
    }
    bits
}

/// The number of digits scrambled with one hash: a digit, the two after it, the four after those …
/// make 63 flips, one for each bit but one.
const TOGETHER: u32 = 6;

/// The number of hashes for a coordinate, which has 53 digits.
const TIMES: u32 = 9;

/// Digits scrambled in a nested way: whether a digit is flipped is drawn for each way that the ones
/// before it can be, so that equal shares of the unit interval stay equal shares (A. Owen 1995,
/// *Randomly permuted (t,m,s)-nets and (t,s)-sequences*, Lecture Notes in Statistics 106:299–317).
/// Drawing is by hash, so nothing is kept.
pub(super) const fn scrambled(digits: u64, key: DimensionKey) -> u64 {
    let mut flips = 0;
    let mut time = 0;
    while time < TIMES {
        let first = TOGETHER * time;
        // The digits before these with a 1 in front, which tells apart how many they are.
        let before = (digits >> 1 | 1 << 63) >> (63 - first);
        let drawn = key.hash(before);
        let these = digits << first >> (64 - TOGETHER);
        let mut digit = 0;
        while digit < TOGETHER {
            let place = 1 << digit | these >> (TOGETHER - digit);
            flips |= (drawn >> place & 1) << (63 - first - digit);
            digit += 1;
        }
        time += 1;
    }
    digits ^ flips
}
