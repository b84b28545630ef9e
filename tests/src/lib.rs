//! What the cross-cutting tests share: the shipped equipment, read as a user reads it.

use railproof::profile::{find_partial, find_profile, shipped_names};
use railproof_engine::equipment::Equipment;
use std::path::Path;

/// A shipped complete profile.
///
/// # Panics
/// When there is none of that name, or it is not complete.
pub fn shipped_equipment(name: &str) -> Equipment {
    find_profile(name, Path::new("")).unwrap_or_else(|fault| panic!("{name}: {fault}"))
}

/// Names of the shipped cushions that can be laid over a complete profile.
pub fn shipped_cushions() -> impl Iterator<Item = &'static str> {
    shipped_names().filter(|name| name.starts_with("cushions/"))
}

/// The shipped nine-foot profile with a shipped cushion in place of its own.
///
/// # Panics
/// When there is no cushion of that name.
pub fn nine_foot_with_cushion(name: &str) -> Equipment {
    find_partial(name, Path::new(""))
        .and_then(|cushion| cushion.over(&shipped_equipment("nine-foot")))
        .unwrap_or_else(|fault| panic!("{name}: {fault}"))
}
