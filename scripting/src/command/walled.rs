//! Which whole commands are done in a worker, and what that worker may see.

use super::budget::BudgetFlags;
use super::interrupt;
use super::output::print_fault;
use super::threads::Threads;
use crate::exit::Exit;
use crate::fault::{Fault, Style};
use crate::files::folder_of;
use crate::walled::{Inside, run_walled};
use crate::walls::{Budget, Stop};
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::sync::atomic::Ordering;

/// What a command needs of its worker.
pub(super) struct Needs<'a> {
    pub(super) budget: &'a BudgetFlags,
    pub(super) usual: Budget,
    pub(super) threads: Threads,
    pub(super) reads: Vec<PathBuf>,
    pub(super) writes: Vec<PathBuf>,
}

impl<'a> Needs<'a> {
    /// Of a command that reads and writes nothing yet.
    pub(super) fn of(budget: &'a BudgetFlags, usual: Budget) -> Self {
        let threads = Threads::default();
        Self { budget, usual, threads, reads: Vec::new(), writes: Vec::new() }
    }
}

/// Does a command in a worker, if it is one of those that are, and gives its exit.
///
/// # Errors
/// Limits that can't be read.
pub(super) fn done_in_worker(
    needs: Option<Needs<'_>>,
    arguments: Vec<OsString>,
    errors: Style,
) -> Result<Option<Exit>, Fault> {
    let Some(needs) = needs.filter(|needs| !needs.budget.no_walls) else {
        return Ok(None);
    };
    if Inside::this().is_some() {
        return Ok(None);
    }
    let means = needs.budget.means(needs.usual, needs.threads, Stop::default())?;
    let presses = interrupt::presses();
    let seen = (needs.reads, needs.writes);
    let ended = run_walled(arguments, seen, &means, || presses.load(Ordering::Relaxed));
    ended.fault.iter().for_each(|fault| print_fault(fault, errors));
    Ok(Some(ended.exit))
}

/// A file that the user names, with its folder.
pub(super) fn file_to_read(file: &Path) -> Vec<PathBuf> {
    vec![folder_of(file), file.to_owned()]
}

/// Files that the user may name, with their folders.
pub(super) fn files_to_read<'a>(files: impl IntoIterator<Item = Option<&'a Path>>) -> Vec<PathBuf> {
    files.into_iter().flatten().flat_map(file_to_read).collect()
}

/// Files that the user may name, where names of ours may stand, with their folders.
pub(super) fn named<'a>(names: impl IntoIterator<Item = Option<&'a str>>) -> Vec<PathBuf> {
    let is_file = |name: &&str| name.contains(['.', '/', '\\']) || Path::new(name).exists();
    let names = names.into_iter().flatten().filter(is_file);
    names.flat_map(|name| file_to_read(Path::new(name))).collect()
}

/// What may be written for a file: its folder.
pub(super) fn file_to_write(file: &Path) -> Vec<PathBuf> {
    vec![folder_of(file)]
}
