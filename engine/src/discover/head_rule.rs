//! A rule that a person reckons in the head.

use super::corrections::{Corrections, SeenBall};
use super::{Effort, SpokenSlope};
use crate::chance::{AimedStart, Condition, Skill};
use crate::rail::{BankGeometry, Line, Reading};
use crate::rule::{Outside, Rule, RuleError, WayBetween};

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

impl HeadRule {
    /// One straight piece without corrections.
    pub const fn straight(reading: Reading, slope: SpokenSlope, offset: i8) -> Self {
        Self { reading, slope, offset, bend: None, corrections: Corrections::NONE }
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
