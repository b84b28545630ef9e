//! What can have happened in a cell of a map, and the words for it.

/// What became of one bank.
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
    /// The ball left the cloth.
    LeftCloth,
    /// No bank was computed here.
    Empty,
}

impl CellKind {
    /// Every kind, in the order in which a legend lists them.
    pub const ALL: [Self; 9] = [
        Self::Holds,
        Self::TouchesPoint,
        Self::Long,
        Self::Short,
        Self::StoppedBeforeMouth,
        Self::StoppedBeforeRail,
        Self::OtherRail,
        Self::LeftCloth,
        Self::Empty,
    ];

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
            Self::LeftCloth => "leaves the cloth",
            Self::Empty => "no bank here",
        }
    }

    /// What the word means, in a phrase.
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
            Self::LeftCloth => "goes into another pocket, or its line begins off the cloth",
            Self::Empty => "nothing was computed for this cell",
        }
    }

    /// A letter that stands for the kind in a cell with room for it; empty where the shade says
    /// it all.
    pub const fn letter(self) -> &'static str {
        match self {
            Self::Holds | Self::Empty => "",
            Self::TouchesPoint => "T",
            Self::Long => "L",
            Self::Short => "S",
            Self::StoppedBeforeRail => "R",
            Self::StoppedBeforeMouth => "M",
            Self::OtherRail => "X",
            Self::LeftCloth => "U",
        }
    }
}
