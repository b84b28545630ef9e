//! All rules of a kind.

use super::{Bend, HeadRule, SpokenSlope};
use crate::rail::Reading;

/// The choices of which rules are made: every rule takes one of each list.
#[derive(Debug, Clone, PartialEq)]
pub struct Grammar {
    /// Readings.
    pub readings: Vec<Reading>,
    /// Slopes, growing; each also past every bend.
    pub slopes: Vec<SpokenSlope>,
    /// Offsets, tenths of a diamond.
    pub offsets: Vec<i8>,
    /// Contact numbers of bends, halves of a diamond; a straight rule is always among the rules.
    pub bends: Vec<u8>,
    /// Corrections for each hand off the rail, tenths of a diamond; so the next three. None is always among them.
    pub hand: Vec<i8>,
    /// For a soft stroke.
    pub soft: Vec<i8>,
    /// For a firm stroke.
    pub firm: Vec<i8>,
    /// For a ball that rolls.
    pub rolling: Vec<i8>,
}

impl Grammar {
    /// Slopes from 1½ to 3 in quarters, thirds and tenths; offsets to half a diamond; a bend at 2, 2½ or 3; either
    /// reading; corrections to three tenths a hand and five tenths for speed and roll.
    pub fn usual() -> Self {
        Self {
            readings: vec![Reading::Groove, Reading::Sight],
            slopes: slopes(&[4, 3, 10], (1.5, 3.0)),
            offsets: (-5..=5).collect(),
            bends: vec![4, 5, 6],
            hand: (-3..=3).collect(),
            soft: (-5..=5).collect(),
            firm: (-5..=5).collect(),
            rolling: (-5..=5).collect(),
        }
    }

    /// The same without any correction.
    #[must_use]
    pub fn without_corrections(mut self) -> Self {
        for corrections in [&mut self.hand, &mut self.soft, &mut self.firm, &mut self.rolling] {
            corrections.clear();
        }
        self
    }

    /// Every rule without corrections, in a fixed order.
    pub fn bases(&self) -> Vec<HeadRule> {
        let mut bases = Vec::new();
        for &reading in &self.readings {
            for &slope in &self.slopes {
                for &offset in &self.offsets {
                    let straight = HeadRule::straight(reading, slope, offset);
                    bases.push(straight);
                    for &at in &self.bends {
                        let others = self.slopes.iter().filter(|other| **other != slope);
                        bases.extend(
                            others.map(|&slope| HeadRule {
                                bend: Some(Bend { at, slope }),
                                ..straight
                            }),
                        );
                    }
                }
            }
        }
        bases
    }

    /// The number of rules, with corrections.
    pub fn count(&self) -> u64 {
        let corrections = [&self.hand, &self.soft, &self.firm, &self.rolling];
        let bases = self.readings.len()
            * self.slopes.len()
            * self.offsets.len()
            * (1 + self.bends.len() * self.slopes.len().saturating_sub(1));
        corrections.iter().fold(bases as u64, |count, list| count * with_none(list).len() as u64)
    }
}

/// A list of corrections with none among them, once each, in order.
pub(super) fn with_none(list: &[i8]) -> Vec<i8> {
    let mut all = list.to_vec();
    all.push(0);
    all.sort_unstable();
    all.dedup();
    all
}

/// Every slope within a range in these parts, growing, each once.
fn slopes(parts: &[u8], (from, to): (f64, f64)) -> Vec<SpokenSlope> {
    let mut all: Vec<SpokenSlope> = parts
        .iter()
        .flat_map(|&of| (0..of).map(move |part| (part, of)))
        .flat_map(|(part, of)| (0..=9).map(move |whole| SpokenSlope::new(whole, part, of)))
        .filter(|slope| (from..=to).contains(&slope.value()))
        .collect();
    all.sort_by(|a, b| a.value().total_cmp(&b.value()));
    all.dedup();
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_usual_slopes_are_quarters_thirds_and_tenths_once_each() {
        let slopes = Grammar::usual().slopes;
        // From 1.5 to 3: 16 tenths, of which 1.5, 2, 2.5 and 3 are quarters; 3 more quarters; 4 more thirds.
        assert_eq!(slopes.len(), 16 + 3 + 3);
        assert!(slopes.windows(2).all(|pair| pair[0].value() < pair[1].value()));
    }

    #[test]
    fn the_count_is_that_of_the_rules() {
        let mut grammar = Grammar::usual();
        grammar.offsets = vec![-1, 0];
        assert_eq!(grammar.count(), grammar.bases().len() as u64 * 7 * 11 * 11 * 11);
        assert_eq!(grammar.clone().without_corrections().count(), grammar.bases().len() as u64);
    }
}
