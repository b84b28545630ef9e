//! The columns of a file of measured banks, each with its meaning.

use super::csv_header::CsvColumn;

/// A column.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum MeasuredColumn {
    /// Contact number.
    Contact,
    /// Start number.
    Start,
    /// The line at which both are read.
    Reading,
    /// The rail.
    Rail,
    /// The pocket.
    Pocket,
    /// Distance off the rail.
    OffRail,
    /// Speed or its word.
    Speed,
    /// The way in which the ball was sent.
    Sent,
    /// The result.
    Seen,
    /// The number at which a miss met a rail.
    Number,
    /// How well it was read.
    ReadTo,
    /// How often the same was seen.
    Repeats,
    /// Anything.
    Notes,
}

impl MeasuredColumn {
    /// All of them, in the template's order.
    pub const ALL: [Self; 13] = [
        Self::Contact,
        Self::Start,
        Self::Reading,
        Self::Rail,
        Self::Pocket,
        Self::OffRail,
        Self::Speed,
        Self::Sent,
        Self::Seen,
        Self::Number,
        Self::ReadTo,
        Self::Repeats,
        Self::Notes,
    ];

    /// Its name in the header.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Contact => "contact",
            Self::Start => "start",
            Self::Reading => "reading",
            Self::Rail => "rail",
            Self::Pocket => "pocket",
            Self::OffRail => "off_rail",
            Self::Speed => "speed",
            Self::Sent => "sent",
            Self::Seen => "seen",
            Self::Number => "number",
            Self::ReadTo => "read_to",
            Self::Repeats => "repeats",
            Self::Notes => "notes",
        }
    }

    /// Its meaning.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Contact => "contact number, in diamonds from the target pocket",
            Self::Start => "start number, counted the same way on the opposite rail",
            Self::Reading => "groove or sight: the line at which both are read; groove if left out",
            Self::Rail => {
                "the rail banked off: long, end, head, foot, left or right; long if left out"
            }
            Self::Pocket => "the target by its name, such as foot-right: alternate corners",
            Self::OffRail => "distance off the rail with its unit, such as 4 in; 0 is frozen",
            Self::Speed => "soft, medium, firm, or a speed with its unit, such as 3 m/s",
            Self::Sent => "tip (on the object ball), full (cue ball full) or cut; tip if left out",
            Self::Seen => "holds, touches, long, short, or stops (it rested before it met a rail)",
            Self::Number => {
                "where a long or short ball first met a rail, in diamonds from the pocket"
            }
            Self::ReadTo => "how exactly that number was read, in diamonds; 0.05 if left out",
            Self::Repeats => "how many times the same was seen; 1 if left out",
            Self::Notes => "anything",
        }
    }

    /// True for a column that a file must have.
    pub const fn is_needed(self) -> bool {
        matches!(
            self,
            Self::Contact | Self::Start | Self::Pocket | Self::OffRail | Self::Speed | Self::Seen
        )
    }
}

impl CsvColumn for MeasuredColumn {
    /// Each cell has its own.
    const TAKES_UNITS: bool = false;

    fn all() -> impl Iterator<Item = Self> + Clone {
        Self::ALL.into_iter()
    }

    fn name(self) -> &'static str {
        self.name()
    }

    fn meaning(self) -> &'static str {
        self.meaning()
    }
}
