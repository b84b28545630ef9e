//! A rule that a person reckons in the head.

use super::{Effort, SpokenSlope};
use crate::chance::{AimedStart, Condition, Skill};
use crate::rail::{BankGeometry, Line, Reading};
use crate::rule::{Outside, Rule, RuleError, WayBetween};
use crate::units::{Speed, SpeedWord};

/// A hand's breadth: 4 inches, as horses are measured, m.
pub const HAND_M: f64 = 0.1016;

/// start = slope × contact + offset, steeper or flatter past a bend, and corrected for the ball.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HeadRule {
    /// The reading of its numbers.
    pub reading: Reading,
    /// Its slope, up to the bend where it has one.
    pub slope: SpokenSlope,
    /// Its start number for contact 0, tenths of a diamond.
    pub offset: i8,
    /// Its other slope past a contact number.
    pub bend: Option<Bend>,
    /// What is added for the ball.
    pub corrections: Corrections,
}

/// The place past which a rule has another slope.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Bend {
    /// The contact number, halves of a diamond.
    pub at: u8,
    /// The slope past it.
    pub slope: SpokenSlope,
}

/// What is added to the start number for the ball, tenths of a diamond.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Corrections {
    /// For each whole hand off the rail.
    pub hand: i8,
    /// For a soft stroke.
    pub soft: i8,
    /// For a firm stroke.
    pub firm: i8,
    /// For a ball that rolls.
    pub rolling: i8,
}

/// What a person sees of a ball that a correction may ask for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct SeenBall {
    /// Whole hands off the rail.
    pub hands: i8,
    /// The speed by word; other speeds are corrected as medium.
    pub word: SpeedWordPlace,
    /// It rolls more than it slides.
    pub rolls: bool,
}

/// The place of a speed word among all.
pub(super) type SpeedWordPlace = u8;

impl SeenBall {
    pub(super) fn of(condition: &Condition) -> Self {
        let word = match condition.speed {
            Speed::Word(SpeedWord::Soft) => 0,
            Speed::Word(SpeedWord::Firm) => 2,
            _ => 1,
        };
        let mut hands = 0;
        while hands < 40 && condition.off_rail_m > (f64::from(hands) + 0.5) * HAND_M {
            hands += 1;
        }
        Self { hands, word, rolls: condition.roll > 0.5 }
    }
}

impl Corrections {
    /// What is added for a ball, tenths of a diamond.
    pub(super) fn for_ball(self, ball: SeenBall) -> i16 {
        let speed = match ball.word {
            0 => self.soft,
            1 => 0,
            _ => self.firm,
        };
        let rolling = if ball.rolls { self.rolling } else { 0 };
        i16::from(self.hand) * i16::from(ball.hands) + i16::from(speed) + i16::from(rolling)
    }

    fn effort(self, effort: Effort) -> Effort {
        let hand = if self.hand == 0 { effort } else { effort.and(2, 1) };
        let others = [self.soft, self.firm, self.rolling];
        others.iter().filter(|it| **it != 0).fold(hand, |effort, _| effort.and(1, 1))
    }
}

impl HeadRule {
    /// One straight piece without corrections.
    pub const fn straight(reading: Reading, slope: SpokenSlope, offset: i8) -> Self {
        let corrections = Corrections { hand: 0, soft: 0, firm: 0, rolling: 0 };
        Self { reading, slope, offset, bend: None, corrections }
    }

    /// What it asks of a head.
    ///
    /// A slope: its multiplication, a part taken (and multiplied), an addition; its numbers. An offset: an
    /// addition and a number. A bend: telling the side, taking the bend's contact off and adding its start, and
    /// these two numbers; of both slopes the dearer is reckoned, and both are remembered. A correction: an
    /// addition and a number; that for hands is multiplied first.
    pub fn effort(&self) -> Effort {
        let first = Effort { operations: self.slope.operations(), numbers: self.slope.numbers() };
        let first = if self.offset == 0 { first } else { first.and(1, 1) };
        let straight = match self.bend {
            None => first,
            Some(bend) => Effort {
                operations: first.operations.max(bend.slope.operations() + 2) + 1,
                numbers: first.numbers + bend.slope.numbers() + 2,
            },
        };
        self.corrections.effort(straight)
    }

    /// The rule for one ball, its correction added.
    ///
    /// # Errors
    /// Never for the numbers that a grammar holds.
    pub fn for_condition(&self, condition: &Condition) -> Result<Rule, RuleError> {
        self.corrected(self.corrections.for_ball(SeenBall::of(condition)))
    }

    /// The rule without its corrections.
    ///
    /// # Errors
    /// As [`HeadRule::for_condition`].
    pub fn rule(&self) -> Result<Rule, RuleError> {
        self.corrected(0)
    }

    /// The rule with so many tenths added.
    pub(super) fn corrected(&self, tenths: i16) -> Result<Rule, RuleError> {
        let offset = 0.1 * (f64::from(self.offset) + f64::from(tenths));
        let slope = self.slope.value();
        let Some(bend) = self.bend else {
            return Rule::linear(slope, offset, self.reading);
        };
        let at = 0.5 * f64::from(bend.at);
        let start = slope * at + offset;
        let far = 10.0;
        let lines = vec![
            Line::new(at - far, start - slope * far),
            Line::new(at, start),
            Line::new(at + far, start + bend.slope.value() * far),
        ];
        Rule::lines(self.reading, lines, WayBetween::Interpolate { outside: Outside::Extrapolate })
    }

    /// The line that a person aims for, and how well they find it.
    ///
    /// # Errors
    /// As [`AimedStart::by_rule`].
    pub fn target(
        &self,
        condition: &Condition,
        skill: &Skill,
        geometry: &BankGeometry,
    ) -> Result<AimedStart, RuleError> {
        AimedStart::by_rule(&self.for_condition(condition)?, condition, skill, geometry)
    }
}
