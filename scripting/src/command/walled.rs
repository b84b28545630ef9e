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
    let needs = |budget, usual| Needs {
        budget,
        usual,
        threads: Threads::default(),
        reads: Vec::new(),
        writes: Vec::new(),
    };
    Some(match command {
        Command::Plan(args) => Needs {
            reads: vec![folder_of(&args.file), args.file.clone()],
            writes: args.out.as_deref().map(file_to_write).unwrap_or_default(),
            ..needs(&args.budget, Budget::USUAL)
        },
        Command::Sweep(args) => Needs {
            threads: args.threads,
            reads: vec![folder_of(&args.file), args.file.clone(), args.into.clone()],
            writes: if args.dry_run { Vec::new() } else { vec![args.into.clone()] },
            ..needs(&args.budget, Budget::UNTIMED)
        },
        Command::Merge(args) => Needs {
            reads: args.from.clone(),
            writes: vec![args.into.clone()],
            ..needs(&args.budget, Budget::UNTIMED)
        },
        Command::Verify(args) => Needs {
            reads: vec![args.folder.clone()],
            ..needs(&args.budget, Budget::UNTIMED)
        },
        Command::Slurm(args) => Needs {
            reads: vec![folder_of(&args.plan), args.plan.clone(), args.into.clone()],
            writes: args.script.as_deref().map(file_to_write).unwrap_or_default(),
            ..needs(&args.budget, Budget::USUAL)
        },
        Command::Shot(args) => Needs {
            reads: [vec![folder_of(&args.file), args.file.clone()], named(args.player.as_deref())]
                .concat(),
            writes: args.into.clone().into_iter().collect(),
            ..needs(&args.budget, Budget::USUAL)
        },
        _ => return None,
    })
}

/// A file that the user names, where a name of ours may stand.
fn named(name: Option<&str>) -> Vec<PathBuf> {
    name.map(PathBuf::from).filter(|path| path.is_file()).into_iter().collect()
}

/// What may be written for a file: its folder, and a device or pipe of that name.
fn file_to_write(file: &Path) -> Vec<PathBuf> {
    let mut may = vec![folder_of(file)];
    let is_other = |real: &PathBuf| !real.is_dir() && !real.is_file();
    may.extend(std::fs::canonicalize(file).ok().filter(is_other));
    may
}
