//! Arithmetic of one lane without branches, so that the compiler plays several lanes at once.

/// The number of banks in a block: a multiple of every width, and few enough that all numbers kept
/// about them stay in the fastest cache.
pub(super) const BLOCK: usize = 64;

/// A number of each bank of a block.
pub(super) type Column = [f64; BLOCK];

/// A yes or no of each bank of a block.
pub(super) type Mask = [bool; BLOCK];

/// The one or the other; both are there already.
#[inline(always)]
pub(super) fn select(condition: bool, yes: f64, no: f64) -> f64 {
    if condition { yes } else { no }
}
