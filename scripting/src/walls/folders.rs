//! The folders that a process may see, held by the system where it can (Landlock, Linux 5.13 and later).

use std::path::PathBuf;

/// Confines this thread, and all that it starts, to reading `reads` and `writes` and to writing `writes`; no
/// network. Gives whether the system holds it to all of that.
#[cfg(target_os = "linux")]
pub(super) fn confine(reads: &[PathBuf], writes: &[PathBuf]) -> bool {
    use landlock::{
        ABI, Access, AccessFs, AccessNet, Ruleset, RulesetAttr, RulesetCreatedAttr, RulesetStatus,
        Scope, path_beneath_rules,
    };
    // What older systems do not know is left out, and told as not whole.
    let known = ABI::V6;
    let read = AccessFs::ReadFile | AccessFs::ReadDir;
    let write = read
        | AccessFs::WriteFile
        | AccessFs::Truncate
        | AccessFs::MakeReg
        | AccessFs::MakeDir
        | AccessFs::RemoveFile
        | AccessFs::RemoveDir;
    let confined = Ruleset::default()
        .handle_access(AccessFs::from_all(known))
        .and_then(|rules| rules.handle_access(AccessNet::from_all(known)))
        .and_then(|rules| rules.scope(Scope::from_all(known)))
        .and_then(Ruleset::create)
        .and_then(|rules| rules.add_rules(path_beneath_rules(reads, read)))
        .and_then(|rules| rules.add_rules(path_beneath_rules(writes, write)))
        .and_then(landlock::RulesetCreated::restrict_self);
    confined.is_ok_and(|status| status.ruleset != RulesetStatus::NotEnforced)
}

/// Other systems hold nothing.
#[cfg(not(target_os = "linux"))]
pub(super) fn confine(_: &[PathBuf], _: &[PathBuf]) -> bool {
    false
}
