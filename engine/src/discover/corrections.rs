//! What is added to a start number for the ball.

use super::Effort;
use crate::chance::Condition;
use crate::units::{Speed, SpeedWord};

/// A hand's breadth: 4 inches, as horses are measured, m.
pub const HAND_M: f64 = 0.1016;

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
    /// For running side.
    pub running: i8,
    /// For reverse side.
    pub reverse: i8,
    /// For every ball on this table.
    pub table: i8,
}

/// What a correction is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CorrectedFor {
    /// [`Corrections::table`].
    Table,
    /// [`Corrections::hand`].
    Hand,
    /// [`Corrections::soft`].
    Soft,
    /// [`Corrections::firm`].
    Firm,
    /// [`Corrections::rolling`].
    Rolling,
    /// [`Corrections::running`].
    Running,
    /// [`Corrections::reverse`].
    Reverse,
}

impl CorrectedFor {
    /// Every one, in the order of tables.
    pub const ALL: [Self; 7] = [
        Self::Table,
        Self::Hand,
        Self::Soft,
        Self::Firm,
        Self::Rolling,
        Self::Running,
        Self::Reverse,
    ];

    /// The name in scripts and files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Table => "table",
            Self::Hand => "hand",
            Self::Soft => "soft",
            Self::Firm => "firm",
            Self::Rolling => "rolling",
            Self::Running => "running",
            Self::Reverse => "reverse",
        }
    }

    /// The words behind what is added.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Table => "for this table",
            Self::Hand => "for each hand off the rail",
            Self::Soft => "if soft",
            Self::Firm => "if firm",
            Self::Rolling => "if it rolls",
            Self::Running => "with running side",
            Self::Reverse => "with reverse side",
        }
    }

    /// The most that is tried, tenths either way.
    pub const fn most(self) -> i8 {
        match self {
            Self::Hand => 3,
            Self::Running | Self::Reverse => 8,
            _ => 5,
        }
    }

    /// How many times it is added for a ball.
    pub(super) fn times(self, ball: SeenBall) -> i16 {
        let once = match self {
            Self::Table => true,
            Self::Hand => return i16::from(ball.hands),
            Self::Soft => ball.word == 0,
            Self::Firm => ball.word == 2,
            Self::Rolling => ball.rolls,
            Self::Running => ball.side > 0,
            Self::Reverse => ball.side < 0,
        };
        i16::from(once)
    }

    /// True where it is added for a ball.
    pub fn asks_for(self, condition: &Condition) -> bool {
        self.times(SeenBall::of(condition)) > 0
    }
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
    /// 1 for running side, −1 for reverse side.
    pub side: i8,
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
        let side = i8::from(condition.side > 0.0) - i8::from(condition.side < 0.0);
        Self { hands, word, rolls: condition.roll > 0.5, side }
    }
}

impl Corrections {
    /// No correction.
    pub const NONE: Self =
        Self { hand: 0, soft: 0, firm: 0, rolling: 0, running: 0, reverse: 0, table: 0 };

    /// Tenths as diamonds.
    pub fn diamonds(tenths: i8) -> f64 {
        f64::from(tenths) / 10.0
    }

    /// The tenths for something.
    pub const fn of(self, what: CorrectedFor) -> i8 {
        match what {
            CorrectedFor::Table => self.table,
            CorrectedFor::Hand => self.hand,
            CorrectedFor::Soft => self.soft,
            CorrectedFor::Firm => self.firm,
            CorrectedFor::Rolling => self.rolling,
            CorrectedFor::Running => self.running,
            CorrectedFor::Reverse => self.reverse,
        }
    }

    /// The same with other tenths for something.
    #[must_use]
    pub const fn with(mut self, what: CorrectedFor, tenths: i8) -> Self {
        *match what {
            CorrectedFor::Table => &mut self.table,
            CorrectedFor::Hand => &mut self.hand,
            CorrectedFor::Soft => &mut self.soft,
            CorrectedFor::Firm => &mut self.firm,
            CorrectedFor::Rolling => &mut self.rolling,
            CorrectedFor::Running => &mut self.running,
            CorrectedFor::Reverse => &mut self.reverse,
        } = tenths;
        self
    }

    /// What there is to remember, in the order of tables.
    pub fn rows(self) -> impl Iterator<Item = (CorrectedFor, i8)> {
        let all = CorrectedFor::ALL.into_iter().map(move |what| (what, self.of(what)));
        all.filter(|(_, tenths)| *tenths != 0)
    }

    /// What is added for a ball, tenths of a diamond.
    pub(super) fn for_ball(self, ball: SeenBall) -> i16 {
        if self == Self::NONE {
            return 0;
        }
        self.rows().map(|(what, tenths)| what.times(ball) * i16::from(tenths)).sum()
    }

    pub(super) fn effort(self, effort: Effort) -> Effort {
        self.rows().fold(effort, |effort, (what, _)| match what {
            CorrectedFor::Hand => effort.and(2, 1),
            _ => effort.and(1, 1),
        })
    }
}
