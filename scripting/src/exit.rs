//! Exit codes of the process: one for each cause.

use serde::{Deserialize, Serialize};
use std::process::ExitCode;

/// Why a command ended the way it did.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Exit {
    /// Everything ran and every expectation holds: 0.
    Held,
    /// Everything ran and at least one expectation failed: 1.
    ExpectationFailed,
    /// The command line, a script, a profile or a layout is wrong, or a scenario asks for something
    /// that is not played, which is left out and never passes: 2.
    BadInput,
    /// The run could not finish for a reason outside the input, such as a full disk: 3.
    CouldNotFinish,
    /// A script went over its time or memory budget: 4.
    OverBudget,
    /// The run was interrupted; files that were written are whole: 5.
    Interrupted,
    /// A stored sweep is not whole: something is missing, damaged or foreign in its folder: 6.
    NotWhole,
    /// A sweep is whole, and most of its banks could not be played: 7.
    MostFailed,
}

impl Exit {
    /// Every cause, in the order of the codes.
    pub const ALL: [Self; 8] = [
        Self::Held,
        Self::ExpectationFailed,
        Self::BadInput,
        Self::CouldNotFinish,
        Self::OverBudget,
        Self::Interrupted,
        Self::NotWhole,
        Self::MostFailed,
    ];

    /// The process exit code.
    pub const fn code(self) -> u8 {
        match self {
            Self::Held => 0,
            Self::ExpectationFailed => 1,
            Self::BadInput => 2,
            Self::CouldNotFinish => 3,
            Self::OverBudget => 4,
            Self::Interrupted => 5,
            Self::NotWhole => 6,
            Self::MostFailed => 7,
        }
    }

    /// The worse of two ends: the one with the higher code.
    #[must_use]
    pub const fn or_worse(self, other: Self) -> Self {
        if other.code() > self.code() { other } else { self }
    }

    /// The cause in a few words, for the list of exit codes in the help text.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Held => "every expectation holds",
            Self::ExpectationFailed => "an expectation failed",
            Self::BadInput => "wrong usage, bad input, or something left out",
            Self::CouldNotFinish => "the run could not finish",
            Self::OverBudget => "a script went over its time or memory budget",
            Self::Interrupted => "interrupted; what was finished is kept",
            Self::NotWhole => "a stored sweep is not whole",
            Self::MostFailed => "most banks of a sweep could not be played",
        }
    }
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(exit.code())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_distinct_and_in_order() {
        let codes: Vec<u8> = Exit::ALL.iter().map(|exit| exit.code()).collect();
        assert_eq!(codes, [0, 1, 2, 3, 4, 5, 6, 7]);
    }
}
