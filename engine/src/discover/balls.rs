//! The balls over which rules are searched.

use super::HAND_M;
use crate::chance::Condition;
use crate::rail::{Pocket, Rail};
use crate::sample::{Sample, Sampling};
use crate::units::{Speed, SpeedWord};

/// Balls that a person meets: anywhere along a stretch of the rail, whole hands off it, at any speed word.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BallSpread {
    /// The rail that they are banked off.
    pub rail: Rail,
    /// The target.
    pub pocket: Pocket,
    /// The stretch of numbers along the rail, diamonds.
    pub numbers: (f64, f64),
    /// The most hands off the rail.
    pub hands: u8,
    /// Whether half of them roll; else all slide.
    pub rolling: bool,
    /// Which of [`SpeedWord::ALL`] they are struck at; none is all.
    pub words: [bool; 3],
    /// The side, as R·wz/v, that runs on a third of them and is reverse on another third; 0 for none at all.
    pub side: f64,
}

/// The seed of the one sample that is used.
const SEED: u64 = 13;

impl BallSpread {
    /// Frozen to three hands off, from contact 1 to 3¾ of a long rail, short of its side pocket, into the
    /// corner across; all slide.
    pub const USUAL: Self = Self {
        rail: Rail::Left,
        pocket: Pocket::FootRight,
        numbers: (1.0, 3.75),
        hands: 3,
        rolling: false,
        words: [true; 3],
        side: 0.0,
    };
    /// Fewer balls bias a rule's chance by up to two in a hundred.
    pub const COUNT: usize = 256;

    /// So many of them, evenly spread in all of this together; either half of a power of two is as well.
    pub fn balls(&self, count: usize) -> Vec<Condition> {
        let dimensions = if self.side > 0.0 { 5 } else { 4 };
        let sample =
            Sample { how: Sampling::Sobol, points: count.max(1) as u64, seed: SEED, dimensions };
        let words = self.words();
        let spoken = words.iter().fold(0, |count, _| count + 1);
        (0..count as u64)
            .map(|at| {
                let mut point = [0.5; 5];
                sample.point(at, &mut point[..dimensions]);
                let [along, hand, word, roll, side] = point;
                let rolls = self.rolling && roll >= 0.5;
                Condition {
                    rail: self.rail,
                    pocket: self.pocket,
                    number: self.numbers.0 + (self.numbers.1 - self.numbers.0) * along,
                    off_rail_m: HAND_M * f64::from(one_of(self.hands.saturating_add(1), hand)),
                    speed: Speed::Word(words[usize::from(one_of(spoken, word))]),
                    roll: if rolls { 1.0 } else { 0.0 },
                    side: self.side * (f64::from(one_of(3, side)) - 1.0),
                }
            })
            .collect()
    }

    /// The speed words that they are struck at.
    pub fn words(&self) -> Vec<SpeedWord> {
        let asked = SpeedWord::ALL.into_iter().zip(self.words);
        let words: Vec<SpeedWord> = asked.filter(|it| it.1).map(|it| it.0).collect();
        if words.is_empty() { SpeedWord::ALL.to_vec() } else { words }
    }
}

/// A place among so many, by a share of them.
fn one_of(count: u8, share: f64) -> u8 {
    (0..count).rev().find(|place| share * f64::from(count) >= f64::from(*place)).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[test]
    fn either_half_has_every_kind_of_ball_equally_often() {
        let balls = BallSpread { rolling: true, ..BallSpread::USUAL }.balls(BallSpread::COUNT);
        for half in balls.chunks(BallSpread::COUNT / 2) {
            let mut kinds: BTreeMap<String, usize> = BTreeMap::new();
            for ball in half {
                *kinds.entry(format!("{:.2} {}", ball.off_rail_m, ball.roll)).or_default() += 1;
                *kinds.entry(format!("{:?}", ball.speed)).or_default() += 1;
                assert!((1.0..3.75).contains(&ball.number));
            }
            assert_eq!(kinds.len(), 8 + 3);
            for (kind, count) in kinds {
                let due = if kind.contains("Word") { 43 } else { 16 };
                assert!(count.abs_diff(due) <= 1, "{kind}: {count}");
            }
        }
    }
}
