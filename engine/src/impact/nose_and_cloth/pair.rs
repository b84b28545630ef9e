//! Two numbers side by side, for the two contacts: operations that one instruction does to both.

use core::ops::{Add, Mul, Sub};

/// The same quantity at the nose and at the cloth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct NoseClothPair(pub f64, pub f64);

impl Add for NoseClothPair {
    type Output = Self;
    #[inline(always)]
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0, self.1 + other.1)
    }
}

impl Sub for NoseClothPair {
    type Output = Self;
    #[inline(always)]
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0, self.1 - other.1)
    }
}

impl Mul for NoseClothPair {
    type Output = Self;
    #[inline(always)]
    fn mul(self, other: Self) -> Self {
        Self(self.0 * other.0, self.1 * other.1)
    }
}

impl Mul<f64> for NoseClothPair {
    type Output = Self;
    #[inline(always)]
    fn mul(self, factor: f64) -> Self {
        Self(self.0 * factor, self.1 * factor)
    }
}
