//! Arithmetic of one lane without branches, so that the compiler plays several lanes at once.

/// How many banks a block holds: a multiple of every width, and few enough that all that is known
/// about them stays in the fastest cache.
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
