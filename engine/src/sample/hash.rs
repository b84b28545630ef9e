//! Keyed hashes of counters.

/// Spreads every bit over all 64, one to one: the finaliser of SplitMix64 (G. Steele, D. Lea and
/// C. Flood 2014, *Fast splittable pseudorandom number generators*, OOPSLA).
pub(super) const fn mix(mut bits: u64) -> u64 {
    bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    bits ^ (bits >> 31)
}

/// The odd whole number next to 2⁶⁴ over the golden ratio, by which that generator counts.
const GOLDEN: u64 = 0x9e37_79b9_7f4a_7c15;

/// A key that many counts on.
pub(super) const fn counted(key: u64, count: u64) -> u64 {
    key.wrapping_add(count.wrapping_mul(GOLDEN))
}

/// The key by which one dimension of one sampling with one seed is drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct DimensionKey(u64);

impl DimensionKey {
    /// The key of a dimension.
    pub(super) const fn new(seed: u64, sampling: u64, dimension: u64) -> Self {
        let stream = (dimension << 2 | sampling).wrapping_add(1).wrapping_mul(GOLDEN);
        Self(mix(mix(counted(seed, 1)) ^ stream))
    }

    /// 64 bits for a counter. Two rounds: with one, keys a multiple of the step apart would give
    /// the same numbers shifted.
    pub(super) const fn hash(self, counter: u64) -> u64 {
        mix(mix(counted(self.0, counter)) ^ self.0)
    }
}
