//! The causes of one miss.

/// What can send a bank elsewhere.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum MissCause {
    /// The line, sent exactly: it misses on the table as it is known.
    Line,
    /// Cushion and cloth that differ from what is known of them in the middle.
    Table,
    /// The aim error that the player always has.
    AimAlways,
    /// The side that the player always gives.
    SideAlways,
    /// The speed that the player means by the word.
    SpeedWord,
    /// The aim of this shot, or its cut.
    Aim,
    /// The speed of this shot.
    Speed,
    /// Unwanted side of this shot.
    Side,
    /// Roll or draw at the hit.
    Roll,
    /// The places of contact and start as they were marked.
    Placement,
}

impl MissCause {
    /// All of them: what always is, then what this shot added.
    pub const ALL: [Self; 10] = [
        Self::Line,
        Self::Table,
        Self::AimAlways,
        Self::SideAlways,
        Self::SpeedWord,
        Self::Aim,
        Self::Speed,
        Self::Side,
        Self::Roll,
        Self::Placement,
    ];

    /// Its place in [`MissCause::ALL`].
    pub const fn place(self) -> usize {
        self as usize
    }

    /// True for what every such shot has, so that it comes again.
    pub const fn is_lasting(self) -> bool {
        self.place() <= Self::SpeedWord.place()
    }

    /// The name in scripts and files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Line => "line",
            Self::Table => "table",
            Self::AimAlways => "aim-always",
            Self::SideAlways => "side-always",
            Self::SpeedWord => "speed-word",
            Self::Aim => "aim",
            Self::Speed => "speed",
            Self::Side => "side",
            Self::Roll => "roll",
            Self::Placement => "placement",
        }
    }
}

/// A cause and its odds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CauseOdds {
    /// The cause.
    pub cause: MissCause,
    /// The chance that it is the main one.
    pub odds: f64,
    /// The mean of its part of the miss, m along the unrolled rails: positive is longer.
    pub part_m: f64,
}
