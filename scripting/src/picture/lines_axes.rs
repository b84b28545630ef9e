//! A numeric axis: its range, its ticks and their labels.

use super::error::PictureError;
use super::font;
use super::page::TICK;
use super::shading::{plain_number, round_step};

/// A range with ticks on round numbers.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Scale {
    low: f64,
    high: f64,
    step: f64,
    pub(super) ticks: Vec<f64>,
    /// Words in place of the ticks' numbers.
    words: Vec<String>,
}

impl Scale {
    /// A range that holds every finite value, with about `ticks` ticks.
    pub(super) fn over(
        axis: &'static str,
        values: impl Iterator<Item = f64>,
        ticks: f64,
    ) -> Result<Self, PictureError> {
        let (mut low, mut high) = values
            .filter(|value| value.is_finite())
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
        if low > high {
            return Err(PictureError::NothingToDraw);
        }
        let size = low.abs().max(high.abs());
        // One value, or values that differ by rounding only: open the range around them.
        if high - low <= 1e-9 * size || high - low < f64::MIN_POSITIVE {
            let room = if size > 1e-300 { 0.1 * size } else { 1.0 };
            (low, high) = (low - room, high + room);
        }
        let step = round_step((high - low) / ticks.max(1.0));
        let (first, last) = ((low / step).floor(), (high / step).ceil());
        let (low_end, high_end) = (first * step, last * step);
        if !((high_end - low_end).is_finite() && last - first < 1000.0) {
            return Err(PictureError::Range {
                axis,
                from: format!("{low:e}"),
                to: format!("{high:e}"),
            });
        }
        let mut at = Vec::new();
        let mut k = first;
        while k <= last {
            at.push(k * step);
            k += 1.0;
        }
        Ok(Self { low: low_end, high: high_end, step, ticks: at, words: Vec::new() })
    }

    /// A range from the one value to the other, with about `ticks` ticks inside it.
    pub(super) fn between(
        axis: &'static str,
        (low, high): (f64, f64),
        ticks: f64,
    ) -> Result<Self, PictureError> {
        let rounded = Self::over(axis, [low, high].into_iter(), ticks)?;
        if high <= low {
            return Ok(rounded);
        }
        let grain = 1e-9 * (high - low);
        let inside = |tick: &f64| *tick >= low - grain && *tick <= high + grain;
        let ticks = rounded.ticks.iter().copied().filter(inside).collect();
        Ok(Self { low, high, ticks, ..rounded })
    }

    /// The same with ticks at the values that words stand for, if there are any.
    pub(super) fn worded(self, words: &[(f64, String)]) -> Self {
        if words.is_empty() {
            return self;
        }
        let (ticks, words) = words.iter().map(|(at, word)| (*at, font::clean(word))).unzip();
        Self { ticks, words, ..self }
    }

    /// Where a value lies: 0 at the low end, 1 at the high end.
    pub(super) fn share(&self, value: f64) -> f64 {
        (value - self.low) / (self.high - self.low)
    }

    /// Whether a value lies strictly within the range.
    pub(super) fn contains(&self, value: f64) -> bool {
        value > self.low && value < self.high
    }

    /// The ticks as text, and the width of the longest.
    pub(super) fn labels(&self) -> (Vec<String>, f64) {
        let labels: Vec<String> = if self.words.is_empty() {
            self.ticks.iter().map(|value| plain_number(*value, self.step)).collect()
        } else {
            self.words.clone()
        };
        let widest =
            labels.iter().map(|label| font::width(label, TICK.em, TICK.weight)).fold(0.0, f64::max);
        (labels, widest)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_hold_the_data() {
        let scale = Scale::over("x", [2.03, 6.0, 4.4].into_iter(), 8.0).unwrap();
        assert_eq!(
            scale.labels().0,
            ["2.0", "2.5", "3.0", "3.5", "4.0", "4.5", "5.0", "5.5", "6.0"]
        );
        assert!((scale.share(4.0) - 0.5).abs() < 1e-12);
    }

    #[test]
    fn a_range_keeps_its_ends() {
        let scale = Scale::between("x", (0.9, 4.05), 8.0).unwrap();
        assert_eq!(scale.labels().0, ["1.0", "1.5", "2.0", "2.5", "3.0", "3.5", "4.0"]);
        assert!(scale.share(0.9).abs() < 1e-12 && (scale.share(4.05) - 1.0).abs() < 1e-12);
        assert!(Scale::between("x", (2.0, 2.0), 6.0).unwrap().contains(2.0));
    }

    #[test]
    fn ranges_at_the_edge_of_numbers_end_well() {
        for values in [vec![0.0], vec![1e300, 1e300], vec![5e-324, -5e-324], vec![1.0, 1.0 + 1e-15]]
        {
            let scale = Scale::over("y", values.iter().copied(), 8.0).unwrap();
            assert!(scale.ticks.len() < 40, "{values:?}: {scale:?}");
            assert!(values.iter().all(|v| (0.0..=1.0).contains(&scale.share(*v))), "{values:?}");
        }
        assert!(matches!(
            Scale::over("y", [f64::MAX, f64::MIN].into_iter(), 8.0),
            Err(PictureError::Range { .. })
        ));
        assert_eq!(Scale::over("y", [f64::NAN].into_iter(), 8.0), Err(PictureError::NothingToDraw));
    }
}
