//! Refusals of what a flag says.

use crate::fault::Fault;

/// A fault that names its flag, unless it has a place in a file.
pub(super) fn in_flag(flag: &str, fault: Fault) -> Fault {
    match fault.place {
        Some(_) => fault,
        None => Fault { message: format!("`{flag}`: {}", fault.message), ..fault },
    }
}
