//! Choices without a branch, which lanes can make together.

/// One or the other without a branch.
#[inline(always)]
pub(super) fn choose(first: bool, a: f64, b: f64) -> f64 {
    let mask = u64::from(first).wrapping_neg();
    f64::from_bits((a.to_bits() & mask) | (b.to_bits() & !mask))
}

/// The lesser, in one instruction.
#[inline(always)]
pub(super) fn least(a: f64, b: f64) -> f64 {
    choose(a < b, a, b)
}

/// The greater, in one instruction.
#[inline(always)]
pub(super) fn most(a: f64, b: f64) -> f64 {
    choose(a > b, a, b)
}
