//! How much of an answer is told.

/// What a coach needs, or all of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Detail {
    /// The answer, its reason and what to do.
    Brief,
    /// Every share, every way, and what it was worked out by.
    Full,
}

impl Detail {
    /// By the flag `--full`.
    pub const fn of_flag(full: bool) -> Self {
        if full { Self::Full } else { Self::Brief }
    }

    /// True where all is told.
    pub const fn is_full(self) -> bool {
        matches!(self, Self::Full)
    }
}
