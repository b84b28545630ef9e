//! The columns of a file of filmed impacts, each with its meaning.

use super::csv_header::CsvColumn;
use railproof_engine::equipment::Parameter;
use railproof_engine::units::Dimension;

/// A column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FilmColumn {
    /// The film's name.
    Film,
    /// The way along the rail.
    Toward,
    /// The way in which the ball was sent.
    Sent,
    /// The motion before the rail.
    Before,
    /// The time from the hit to the rail.
    Run,
    /// An amount of [`FilmAmount`].
    Amount(FilmAmount),
    /// The deviation of its error.
    Sd(FilmAmount),
    /// Those of the errors with one another.
    Correlations,
    /// Anything.
    Notes,
}

/// An amount that a film tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FilmAmount {
    /// Speed as it comes to the rail.
    SpeedBefore,
    /// Angle from square to the rail.
    AngleBefore,
    /// Speed as it leaves.
    SpeedAfter,
    /// Angle from square to the rail.
    AngleAfter,
    /// The time at the rail.
    Held,
    /// The slowing before the rail.
    Slowing,
}

impl FilmAmount {
    /// All of them, in a filmed impact's order.
    pub const ALL: [Self; 6] = [
        Self::SpeedBefore,
        Self::AngleBefore,
        Self::SpeedAfter,
        Self::AngleAfter,
        Self::Held,
        Self::Slowing,
    ];

    /// True for one without which a row says nothing.
    pub const fn is_needed(self) -> bool {
        !matches!(self, Self::Held | Self::Slowing)
    }

    const fn names(self) -> (&'static str, &'static str) {
        match self {
            Self::SpeedBefore => ("speed_before", "speed_before_sd"),
            Self::AngleBefore => ("angle_before", "angle_before_sd"),
            Self::SpeedAfter => ("speed_after", "speed_after_sd"),
            Self::AngleAfter => ("angle_after", "angle_after_sd"),
            Self::Held => ("held", "held_sd"),
            Self::Slowing => ("slowing", "slowing_sd"),
        }
    }

    /// Its range and unit.
    pub const fn parameter(self) -> Parameter {
        let name = self.names().0;
        match self {
            Self::SpeedBefore | Self::SpeedAfter => {
                Parameter::new(name, Dimension::Speed, 0.1, 20.0, "m/s")
            }
            Self::AngleBefore => Parameter::new(name, Dimension::Angle, 0.0, 85.0, "deg"),
            Self::AngleAfter => Parameter::new(name, Dimension::Angle, -85.0, 85.0, "deg"),
            Self::Held => Parameter::new(name, Dimension::Time, -50.0, 100.0, "ms"),
            Self::Slowing => Parameter::new(name, Dimension::Acceleration, -10.0, 15.0, "m/s^2"),
        }
    }

    /// The range and unit of its deviation.
    pub const fn sd_parameter(self) -> Parameter {
        let name = self.names().1;
        match self {
            Self::SpeedBefore | Self::SpeedAfter => {
                Parameter::new(name, Dimension::Speed, 0.0001, 2.0, "m/s")
            }
            Self::AngleBefore | Self::AngleAfter => {
                Parameter::new(name, Dimension::Angle, 0.001, 30.0, "deg")
            }
            Self::Held => Parameter::new(name, Dimension::Time, 0.01, 100.0, "ms"),
            Self::Slowing => Parameter::new(name, Dimension::Acceleration, 0.001, 20.0, "m/s^2"),
        }
    }
}

impl FilmColumn {
    /// All of them, in the order in which they are written.
    pub fn all() -> impl Iterator<Item = Self> + Clone {
        let amounts = FilmAmount::ALL.into_iter();
        [Self::Film, Self::Toward, Self::Sent, Self::Before, Self::Run]
            .into_iter()
            .chain(amounts.flat_map(|amount| [Self::Amount(amount), Self::Sd(amount)]))
            .chain([Self::Correlations, Self::Notes])
    }

    /// Its name in the header.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Film => "film",
            Self::Toward => "toward",
            Self::Sent => "sent",
            Self::Before => "before",
            Self::Run => "run",
            Self::Amount(amount) => amount.names().0,
            Self::Sd(amount) => amount.names().1,
            Self::Correlations => "correlations",
            Self::Notes => "notes",
        }
    }

    /// Its unit as files are written.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Run => RUN.unit,
            Self::Amount(amount) => amount.parameter().unit,
            Self::Sd(amount) => amount.sd_parameter().unit,
            _ => "",
        }
    }

    /// Its meaning.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Film => "the film's name",
            Self::Toward => {
                "left or right: the way that the ball goes along the rail, seen by a person who faces it"
            }
            Self::Sent => "tip (on the object ball), full (cue ball full) or cut; tip if left out",
            Self::Before => {
                "slides (sent without roll, it slid all the way to the rail), rolls, or unknown"
            }
            Self::Run => "the time from the hit to the rail with its unit, such as 0.3 s",
            Self::Amount(FilmAmount::SpeedBefore) => "its speed as it comes to the rail",
            Self::Amount(FilmAmount::AngleBefore) => "its angle from square to the rail there",
            Self::Amount(FilmAmount::SpeedAfter) => "its speed as it leaves the rail",
            Self::Amount(FilmAmount::AngleAfter) => {
                "its angle from square to the rail there, negative when it goes back"
            }
            Self::Amount(FilmAmount::Held) => "the time between both; may be empty",
            Self::Amount(FilmAmount::Slowing) => "its slowing before the rail; may be empty",
            Self::Sd(_) => "the standard deviation of the number before it",
            Self::Correlations => {
                "fifteen numbers: of the six errors with one another, below the diagonal, row by row; none if left out"
            }
            Self::Notes => "anything",
        }
    }

    /// True for a column that a file must have.
    pub const fn is_needed(self) -> bool {
        match self {
            Self::Toward | Self::Before | Self::Run => true,
            Self::Amount(amount) | Self::Sd(amount) => amount.is_needed(),
            Self::Film | Self::Sent | Self::Correlations | Self::Notes => false,
        }
    }
}

impl CsvColumn for FilmColumn {
    const TAKES_UNITS: bool = true;

    fn all() -> impl Iterator<Item = Self> + Clone {
        Self::all()
    }

    fn name(self) -> &'static str {
        self.name()
    }

    fn meaning(self) -> &'static str {
        self.meaning()
    }
}

/// The time from the hit to the rail.
pub(super) const RUN: Parameter = Parameter::new("run", Dimension::Time, 0.0, 10.0, "s");
