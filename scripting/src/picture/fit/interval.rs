//! An interval as a picture of a fit draws it.

/// An interval as it is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawnInterval {
    /// Its middle.
    pub middle: f64,
    /// Where it lies half of the time.
    pub half: (f64, f64),
    /// Where it lies nine times in ten.
    pub ninety: (f64, f64),
}

impl DrawnInterval {
    /// True when all of it are numbers.
    pub(super) fn is_finite(&self) -> bool {
        let all = [self.middle, self.half.0, self.half.1, self.ninety.0, self.ninety.1];
        all.iter().all(|value| value.is_finite())
    }
}
