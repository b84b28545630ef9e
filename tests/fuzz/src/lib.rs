//! The targets by their names, for the files beside this one.

use railproof_tests::fuzz::FUZZ_TARGETS;

/// Runs a target on some bytes.
///
/// # Panics
/// Where the target does, and where there is none of that name.
pub fn run(name: &str, bytes: &[u8]) {
    let target = FUZZ_TARGETS.iter().find(|target| target.name == name);
    (target.expect("there is a target of that name").body)(bytes);
}
