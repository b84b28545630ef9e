//! Random numbers of the tests: SplitMix64 (G. Steele, D. Lea and C. Flood 2014, *Fast splittable pseudorandom number
//! generators*, OOPSLA), written apart from the engine's own so that neither is held to itself.

const GOLDEN: u64 = 0x9e37_79b9_7f4a_7c15;

/// Random numbers one after another, from a seed.
#[derive(Debug, Clone)]
pub struct SplitMix(pub u64);

impl SplitMix {
    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(GOLDEN);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// The next number from 0 up to 1.
    pub fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 * 0.5 * f64::EPSILON
    }
}

/// The number at a place, counted from 1, of those from seed 0.
pub fn share_at(place: u64) -> f64 {
    SplitMix(place.wrapping_sub(1).wrapping_mul(GOLDEN)).share()
}
