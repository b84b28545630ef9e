//! The outcomes that a cell of a map can show, and the words for them.

use railproof_engine::bank::BankVerdict;

/// The outcome of one bank.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CellKind {
    /// The ball clears both points of the pocket's mouth.
    Holds,
    /// The ball touches a point of the mouth.
    TouchesPoint,
    /// The ball passes the pocket on the far side.
    Long,
    /// The ball comes to the rail before the pocket.
    Short,
    /// The ball stopped on its way to the rail.
    StoppedBeforeRail,
    /// The ball stopped between the rail and the pocket.
    StoppedBeforeMouth,
    /// The ball met another rail first.
    OtherRail,
    /// The ball's line has no room on the cloth.
    NoRoom,
    /// A whole shot: the ball drops without touching a jaw.
    Drops,
    /// A whole shot: the ball drops off a jaw.
    DropsOffJaw,
    /// A whole shot: the ball comes into the mouth and out again.
    RattlesOut,
    /// A whole shot that is not made: the two balls met a second time.
    Kisses,
    /// A whole shot off no rail: the ball passes the pocket on its left or right.
    Aside,
    /// The ball drops into another pocket.
    OtherPocket,
    /// A whole shot: the ball stops before the pocket or never goes there.
    NotReached,
    /// A whole shot: the cue ball drops.
    Scratches,
    /// There is no such shot.
    NoShot,
    /// A table that is not known exactly: it holds on nearly all tables that it could be.
    SureToHold,
    /// It holds on some of them.
    Depends,
    /// It holds on hardly any.
    SureToMiss,
    /// A player makes it nine times in ten.
    NineInTen,
    /// Three times in four.
    ThreeInFour,
    /// Every other time.
    OneInTwo,
    /// One time in four.
    OneInFour,
    /// More rarely.
    Rarely,
    /// Bank or cut: the bank is made more often.
    BankIsBetter,
    /// The cut is.
    CutIsBetter,
    /// The two can't be told apart.
    CantBeTold,
    /// Neither is ever made.
    NeitherIsMade,
    /// No bank was computed here.
    Empty,
}

impl From<BankVerdict> for CellKind {
    fn from(verdict: BankVerdict) -> Self {
        match verdict {
            BankVerdict::Holds => Self::Holds,
            BankVerdict::TouchesPoint(_) => Self::TouchesPoint,
            BankVerdict::Long => Self::Long,
            BankVerdict::Short => Self::Short,
            BankVerdict::StoppedBeforeRail => Self::StoppedBeforeRail,
            BankVerdict::StoppedBeforeMouth => Self::StoppedBeforeMouth,
            BankVerdict::OtherRail => Self::OtherRail,
            BankVerdict::OtherPocket => Self::OtherPocket,
            BankVerdict::NoRoom => Self::NoRoom,
        }
    }
}

impl CellKind {
    /// The outcomes of a lone ball's bank.
    pub const OF_BANK: [Self; 10] = [
        Self::Holds,
        Self::TouchesPoint,
        Self::Long,
        Self::Short,
        Self::StoppedBeforeMouth,
        Self::StoppedBeforeRail,
        Self::OtherRail,
        Self::OtherPocket,
        Self::NoRoom,
        Self::Empty,
    ];

    /// Every kind, in the order in which a legend lists them.
    pub const ALL: [Self; 30] = [
        Self::Holds,
        Self::TouchesPoint,
        Self::Long,
        Self::Short,
        Self::StoppedBeforeMouth,
        Self::StoppedBeforeRail,
        Self::OtherRail,
        Self::OtherPocket,
        Self::NoRoom,
        Self::Drops,
        Self::DropsOffJaw,
        Self::RattlesOut,
        Self::Kisses,
        Self::Aside,
        Self::NotReached,
        Self::Scratches,
        Self::NoShot,
        Self::SureToHold,
        Self::Depends,
        Self::SureToMiss,
        Self::NineInTen,
        Self::ThreeInFour,
        Self::OneInTwo,
        Self::OneInFour,
        Self::Rarely,
        Self::BankIsBetter,
        Self::CutIsBetter,
        Self::CantBeTold,
        Self::NeitherIsMade,
        Self::Empty,
    ];

    /// True for which of bank and cut is better.
    pub const fn is_of_choice(self) -> bool {
        matches!(
            self,
            Self::BankIsBetter | Self::CutIsBetter | Self::CantBeTold | Self::NeitherIsMade
        )
    }

    /// True for what only a whole shot with its cue ball can come to.
    pub const fn is_of_shot(self) -> bool {
        matches!(
            self,
            Self::Drops
                | Self::DropsOffJaw
                | Self::RattlesOut
                | Self::Kisses
                | Self::Aside
                | Self::NotReached
                | Self::Scratches
                | Self::NoShot
        )
    }

    /// True for an answer about all tables that a table could be.
    pub const fn is_of_tables(self) -> bool {
        matches!(self, Self::SureToHold | Self::Depends | Self::SureToMiss)
    }

    /// The kinds of chances, the greatest first, each with its least chance.
    pub const OF_CHANCE: [(Self, f64); 5] = [
        (Self::NineInTen, 0.9),
        (Self::ThreeInFour, 0.75),
        (Self::OneInTwo, 0.5),
        (Self::OneInFour, 0.25),
        (Self::Rarely, 0.0),
    ];

    /// The kind of a chance.
    pub fn of_chance(chance: f64) -> Self {
        let kinds = Self::OF_CHANCE.into_iter();
        kinds
            .filter(|(_, least)| chance >= *least)
            .map(|(kind, _)| kind)
            .next()
            .unwrap_or(Self::Rarely)
    }

    /// True for a player's chance.
    pub const fn is_of_chance(self) -> bool {
        matches!(
            self,
            Self::NineInTen | Self::ThreeInFour | Self::OneInTwo | Self::OneInFour | Self::Rarely
        )
    }

    /// True when the ball is where it was meant to go: of a chance, every other time.
    pub const fn is_success(self) -> bool {
        matches!(
            self,
            Self::Holds
                | Self::Drops
                | Self::DropsOffJaw
                | Self::SureToHold
                | Self::NineInTen
                | Self::ThreeInFour
                | Self::OneInTwo
        )
    }

    /// The kind in a word or two.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::TouchesPoint => "touches a point",
            Self::Long => "long",
            Self::Short => "short",
            Self::StoppedBeforeRail => "stops before the rail",
            Self::StoppedBeforeMouth => "stops before the pocket",
            Self::OtherRail => "other rail first",
            Self::NoRoom => "no room",
            Self::Drops => "drops",
            Self::DropsOffJaw => "drops off a jaw",
            Self::RattlesOut => "rattles out",
            Self::Kisses => "double kiss",
            Self::Aside => "left or right",
            Self::OtherPocket => "another pocket",
            Self::NotReached => "not reached",
            Self::Scratches => "scratch",
            Self::NoShot => "no shot",
            Self::SureToHold => "sure to hold",
            Self::Depends => "depends on your table",
            Self::SureToMiss => "sure to miss",
            Self::NineInTen => "90 of a hundred or more",
            Self::ThreeInFour => "75 to 90",
            Self::OneInTwo => "50 to 75",
            Self::OneInFour => "25 to 50",
            Self::Rarely => "fewer than 25",
            Self::BankIsBetter => "bank it",
            Self::CutIsBetter => "cut it",
            Self::CantBeTold => "either",
            Self::NeitherIsMade => "neither",
            Self::Empty => "no bank here",
        }
    }

    /// The meaning of the word, in a phrase.
    pub const fn phrase(self) -> &'static str {
        match self {
            Self::Holds => "clears both points of the pocket's mouth",
            Self::TouchesPoint => "reaches the mouth but brushes a point on the way in",
            Self::Long => "passes the pocket on the far side: it travelled too far along the rail",
            Self::Short => {
                "comes in before the pocket: it did not travel far enough along the rail"
            }
            Self::StoppedBeforeRail => "runs out of speed on the way to the cushion",
            Self::StoppedBeforeMouth => "rebounds, then runs out of speed on the way to the pocket",
            Self::OtherRail => {
                "meets another cushion before the one aimed at, or before the pocket"
            }
            Self::NoRoom => "its line would begin, or meet the rail, off the cloth",
            Self::Drops => "falls into the pocket without touching a jaw",
            Self::DropsOffJaw => "touches a jaw on the way in and falls",
            Self::RattlesOut => "comes into the mouth, touches the jaws and comes out again",
            Self::Kisses => {
                "the two balls meet again after its first rail, and the ball is not made"
            }
            Self::Aside => "passes the pocket on its left or right, off no rail",
            Self::OtherPocket => "falls into a pocket it was not meant for",
            Self::NotReached => "stops before the pocket, or never goes there",
            Self::Scratches => "the cue ball falls",
            Self::NoShot => "no stroke does what was asked",
            Self::SureToHold => "holds on at least 95 of a hundred tables that yours could be",
            Self::Depends => "holds on some of these tables and misses on others",
            Self::SureToMiss => "holds on at most 5 of a hundred of these tables",
            Self::NineInTen => "the player makes it nine times in ten",
            Self::ThreeInFour => "three times in four",
            Self::OneInTwo => "half the time",
            Self::OneInFour => "one time in four",
            Self::Rarely => "less often than that",
            Self::BankIsBetter => "the best bank is made more often than the best cut",
            Self::CutIsBetter => "the best cut is made more often",
            Self::CantBeTold => "the two can't be told apart with this many strokes",
            Self::NeitherIsMade => "no cut and no bank is ever made",
            Self::Empty => "nothing was computed for this cell",
        }
    }

    /// The letter that stands for the kind in every map, in text or drawn; none for an empty cell.
    pub const fn letter(self) -> &'static str {
        match self {
            Self::Empty => "",
            Self::SureToHold => "Y",
            Self::Depends => "?",
            Self::SureToMiss => "F",
            Self::NineInTen => "9",
            Self::ThreeInFour => "7",
            Self::OneInTwo => "5",
            Self::OneInFour => "2",
            Self::Rarely => "0",
            Self::BankIsBetter => "B",
            Self::CutIsBetter => "C",
            Self::CantBeTold => "=",
            Self::NeitherIsMade => "Z",
            Self::Holds => "H",
            Self::Drops => "D",
            Self::DropsOffJaw => "J",
            Self::RattlesOut => "O",
            Self::Kisses => "K",
            Self::Aside => "A",
            Self::OtherPocket => "P",
            Self::NotReached => "N",
            Self::Scratches => "Q",
            Self::NoShot => "–",
            Self::TouchesPoint => "T",
            Self::Long => "L",
            Self::Short => "S",
            Self::StoppedBeforeRail => "R",
            Self::StoppedBeforeMouth => "M",
            Self::OtherRail => "X",
            Self::NoRoom => "U",
        }
    }
}
