//! Slopes as they are spoken: so many times, and a part of it again.

/// A factor in whole times and parts of one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct SpokenSlope {
    /// Whole times.
    whole: u8,
    /// Parts, fewer than `of`.
    parts: u8,
    /// Parts that make one.
    of: u8,
}

impl SpokenSlope {
    /// So many whole times and parts of one, in lowest terms.
    ///
    /// # Panics
    /// For no parts to one.
    pub const fn new(whole: u8, parts: u8, of: u8) -> Self {
        assert!(of > 0, "one has at least one part");
        let common = divisor(parts, of);
        let (parts, of) = (parts / common, of / common);
        Self { whole: whole + parts / of, parts: parts % of, of }
    }

    /// Its value.
    pub fn value(self) -> f64 {
        // As the nearest number to the fraction: 2.2 is 11/5 to the bit.
        f64::from(u16::from(self.whole) * u16::from(self.of) + u16::from(self.parts))
            / f64::from(self.of)
    }

    /// Whole times.
    pub const fn whole(self) -> u8 {
        self.whole
    }

    /// The parts past whole times, and how many of them make one.
    pub const fn fraction(self) -> (u8, u8) {
        (self.parts, self.of)
    }

    /// What is to be reckoned: a multiplication, a part taken, parts multiplied, an addition.
    pub(super) const fn operations(self) -> u8 {
        let times = if self.whole > 1 { 1 } else { 0 };
        let part = match self.parts {
            0 => 0,
            1 => 2,
            _ => 3,
        };
        times + part
    }

    /// What is to be remembered: whole times, and the fraction.
    pub(super) const fn numbers(self) -> u8 {
        if self.parts > 0 { 2 } else { 1 }
    }
}

const fn divisor(mut a: u8, mut b: u8) -> u8 {
    while b > 0 {
        (a, b) = (b, a % b);
    }
    if a == 0 { 1 } else { a }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slopes_come_in_lowest_terms_and_to_the_bit() {
        assert_eq!(SpokenSlope::new(2, 2, 10), SpokenSlope::new(2, 1, 5));
        assert_eq!(SpokenSlope::new(1, 10, 10), SpokenSlope::new(2, 0, 4));
        assert_eq!(SpokenSlope::new(2, 2, 10).value(), 2.2);
        assert_eq!(SpokenSlope::new(2, 1, 3).value(), 7.0 / 3.0);
        assert_eq!(
            (SpokenSlope::new(2, 0, 1).operations(), SpokenSlope::new(2, 0, 1).numbers()),
            (1, 1)
        );
        assert_eq!(
            (SpokenSlope::new(2, 1, 10).operations(), SpokenSlope::new(2, 3, 10).operations()),
            (3, 4)
        );
    }
}
