//! The engine that plays a layout.

use crate::fields::Worded;

/// Which engine plays a layout.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum EngineChoice {
    /// Events at exact times.
    #[default]
    Event,
    /// Stepped in time on a rigid-body solver: a second opinion.
    Stepped,
}

impl EngineChoice {
    /// The name used in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Event => "event",
            Self::Stepped => "stepped",
        }
    }
}

impl Worded for EngineChoice {
    const ALL: &'static [Self] = &[Self::Event, Self::Stepped];

    fn word(self) -> &'static str {
        self.name()
    }
}
