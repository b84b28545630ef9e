//! The state of each contact.

/// The state of one contact.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum ContactState {
    /// Coulomb friction at its limit, against the slip.
    Slip,
    /// No slip; the traction is whatever keeps it so.
    Stick,
}

/// Both contacts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Regime {
    pub nose: ContactState,
    pub cloth: ContactState,
    /// The cloth would have to pull and does not.
    pub lifted: bool,
}

impl Regime {
    /// Both slip.
    pub const SLIPPING: Self =
        Self { nose: ContactState::Slip, cloth: ContactState::Slip, lifted: false };
}
