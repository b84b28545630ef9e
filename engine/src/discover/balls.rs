//! The balls over which rules are searched.
//!
//! What is drawn by lot is only where along the rail a ball of each kind lies: one in each of equal pieces of the stretch.
//! Chances change little from one piece to the next, so a mean over such balls is far surer than one over as many balls
//! anywhere (Cochran 1977, *Sampling Techniques*, chapter 5, of strata), and [`RuleChances`](crate::chance::RuleChances)
//! tells how sure.

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

/// Balls that were drawn in strata.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawnBalls {
    /// One kind after the other, each from the lowest number to the highest.
    pub balls: Vec<Condition>,
    /// How many of each kind.
    pub each: usize,
}

/// The seed of the half that is searched; that of the other is the next.
const SEED: u64 = 13;
/// Fewer of a kind don't tell how much neighbours differ beyond a straight line.
const LEAST_EACH: usize = 3;

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
    /// As many as are usual, both halves together.
    pub const COUNT: usize = 256;

    /// Both halves of about so many balls.
    pub fn halves(&self, count: usize) -> [DrawnBalls; 2] {
        let each = self.each_of(count);
        [self.drawn(each, SEED), self.drawn(each, SEED + 1)]
    }

    /// How many of each kind either half of about so many balls has.
    pub fn each_of(&self, count: usize) -> usize {
        let of_both = 2 * self.kinds().len();
        ((count + of_both / 2) / of_both).max(LEAST_EACH)
    }

    /// So many of each kind: the stretch along the rail is cut into as many equal pieces, and a ball lies anywhere in
    /// each of them, on its own.
    pub fn drawn(&self, each: usize, seed: u64) -> DrawnBalls {
        let kinds = self.kinds();
        let points = (kinds.len() * each).max(1) as u64;
        let sample = Sample { how: Sampling::Random, points, seed, dimensions: 1 };
        let mut balls = Vec::with_capacity(kinds.len() * each);
        for kind in kinds {
            for piece in 0..each {
                let mut within = [0.5];
                sample.point(balls.len() as u64, &mut within);
                let along = (piece as f64 + within[0]) / each as f64;
                let number = self.numbers.0 + (self.numbers.1 - self.numbers.0) * along;
                balls.push(Condition { number, ..kind });
            }
        }
        DrawnBalls { balls, each }
    }

    /// Every kind of ball, each at the lowest number.
    fn kinds(&self) -> Vec<Condition> {
        let rolls: &[f64] = if self.rolling { &[0.0, 1.0] } else { &[0.0] };
        let sides: &[f64] = if self.side > 0.0 { &[0.0, 1.0, -1.0] } else { &[0.0] };
        let mut kinds = Vec::new();
        for hand in 0..=self.hands {
            for word in self.words() {
                for roll in rolls {
                    kinds.extend(sides.iter().map(|side| Condition {
                        rail: self.rail,
                        pocket: self.pocket,
                        number: self.numbers.0,
                        off_rail_m: HAND_M * f64::from(hand),
                        speed: Speed::Word(word),
                        roll: *roll,
                        side: self.side * side,
                    }));
                }
            }
        }
        kinds
    }

    /// The speed words that they are struck at.
    pub fn words(&self) -> Vec<SpeedWord> {
        let asked = SpeedWord::ALL.into_iter().zip(self.words);
        let words: Vec<SpeedWord> = asked.filter(|it| it.1).map(|it| it.0).collect();
        if words.is_empty() { SpeedWord::ALL.to_vec() } else { words }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn either_half_has_a_ball_of_every_kind_in_every_piece_of_the_stretch() {
        let spread = BallSpread { rolling: true, side: 0.2, ..BallSpread::USUAL };
        let [first, second] = spread.halves(1024);
        assert_eq!((first.each, second.each), (7, 7));
        for half in [&first, &second] {
            assert_eq!(half.balls.len(), 4 * 3 * 2 * 3 * 7);
            for (at, kind) in half.balls.chunks(7).enumerate() {
                for (piece, ball) in kind.iter().enumerate() {
                    assert_eq!(Condition { number: kind[0].number, ..*ball }, kind[0]);
                    let place = (ball.number - 1.0) / 2.75 * 7.0;
                    assert!((piece as f64..=piece as f64 + 1.0).contains(&place), "{at} {place}");
                }
                let other =
                    |it: &[Condition]| Condition { number: kind[0].number, ..it[0] } == kind[0];
                assert_eq!(half.balls.chunks(7).filter(|it| other(it)).count(), 1);
            }
        }
        assert!(first.balls.iter().zip(&second.balls).all(|(a, b)| a.number != b.number));
    }

    #[test]
    fn the_balls_are_about_as_many_as_were_asked_for_and_never_fewer_than_three_of_a_kind() {
        let count =
            |spread: BallSpread, asked| 2 * spread.drawn(spread.each_of(asked), 1).balls.len();
        assert_eq!(count(BallSpread::USUAL, 256), 264);
        assert_eq!(count(BallSpread::USUAL, 32), 72);
        assert_eq!(
            count(BallSpread { hands: 0, words: [true, false, false], ..BallSpread::USUAL }, 32),
            32
        );
        assert_eq!(count(BallSpread { rolling: true, side: 0.1, ..BallSpread::USUAL }, 256), 432);
    }
}
