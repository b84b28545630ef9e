//! Why a table is not made ready for banks.

use crate::equipment::OutOfRange;
use crate::rail::GeometryError;
use thiserror::Error;

/// Why a table is not made ready for banks.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum BankError {
    /// The rail and the pocket make no bank.
    #[error(transparent)]
    Geometry(#[from] GeometryError),
    /// The compliant model steps through the contact and cannot do so where it is too short.
    #[error("the compliant rail model steps through the contact, and {0}")]
    ShortContact(OutOfRange),
}
