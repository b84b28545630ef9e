//! Which whole commands are done in a worker, and what that worker may see.

use super::budget::BudgetFlags;
use super::threads::Threads;
use super::{Command, interrupt, print_fault};
use crate::exit::Exit;
use crate::fault::{Fault, Style};
use crate::walled::{Inside, folder_of, run_walled};
use crate::walls::{Budget, Stop};
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::sync::atomic::Ordering;

/// What a command needs of its worker.
struct Needs<'a> {
    budget: &'a BudgetFlags,
    usual: Budget,
    threads: Threads,
    reads: Vec<PathBuf>,
    writes: Vec<PathBuf>,
}

/// Does a command in a worker, if it is one of those that are, and gives its exit.
///
/// # Errors
/// Limits that can't be read.
pub(super) fn done_in_worker(
    command: &Command,
    arguments: Vec<OsString>,
    errors: Style,
) -> Result<Option<Exit>, Fault> {
    let Some(needs) = needs(command).filter(|needs| !needs.budget.no_walls) else {
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

fn needs(command: &Command) -> Option<Needs<'_>> {
    match command {
        Command::Plan(args) => Some(Needs {
            budget: &args.budget,
            usual: Budget::USUAL,
            threads: Threads::default(),
            reads: vec![folder_of(&args.file)],
            writes: args.out.as_deref().map(file_to_write).unwrap_or_default(),
        }),
        Command::Sweep(args) => Some(Needs {
            budget: &args.budget,
            usual: Budget::UNTIMED,
            threads: args.threads,
            reads: [vec![folder_of(&args.file)], nearest(&args.into)].concat(),
            writes: if args.dry_run { Vec::new() } else { vec![args.into.clone()] },
        }),
        _ => None,
    }
}

/// The folder that is there, of one that is to be made.
fn nearest(folder: &Path) -> Vec<PathBuf> {
    if folder.is_dir() { vec![folder.to_owned()] } else { Vec::new() }
}

/// What may be written for a file: its folder, and what a link or a device of that name leads to.
fn file_to_write(file: &Path) -> Vec<PathBuf> {
    let mut may = vec![folder_of(file)];
    may.extend(std::fs::canonicalize(file).ok().filter(|real| !real.is_dir()));
    may
}
