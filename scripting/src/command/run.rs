//! `railproof run`: plays scenarios, shows what came out, and writes pictures and rows.

use super::interrupt;
use super::output::{print, print_fault};
use super::progress::Bar;
use super::threads::Threads;
use crate::baseline::keep_accepted;
use crate::exit::Exit;
use crate::fault::{Fault, Style, tame};
use crate::record::Record;
use crate::report::{self, PageStyle};
use crate::scenario::{RunOptions, Silent, run_scenario};
use crate::store::{default_folder, earlier_pictures, write_folder};
use std::collections::BTreeMap;
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Flags of `railproof run`.
#[derive(Debug, clap::Args)]
pub struct RunArgs {
    /// Scenarios, run one after another.
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
    /// Folder for pictures and rows, `out/<scenario>` unless given, inside a folder that has its own
    /// my-table.yaml; for several scenarios, one folder each inside it.
    #[arg(long, value_name = "DIR")]
    pub into: Option<PathBuf>,
    /// Store maps that have moved as their new baselines, after showing the rows that moved.
    #[arg(long)]
    pub accept: bool,
    /// Show only failures.
    #[arg(long, short)]
    pub quiet: bool,
    /// Tell everything: maps in text, counts, rankings, every expectation.
    #[arg(long, conflicts_with = "quiet")]
    pub full: bool,
    /// Threads.
    #[command(flatten)]
    pub threads: Threads,
}

/// Runs the scenarios. A scenario that can't be run does not keep the next from running; the worst
/// end counts.
///
/// # Errors
/// Threads that can't be started, two scenarios that would write to one folder, or standard output
/// that can't be written.
pub fn run(args: &RunArgs, look: PageStyle, errors: Style) -> Result<Exit, Fault> {
    let folders = folders(args)?;
    args.threads.start()?;
    let options = RunOptions {
        accept_baselines: args.accept,
        progress: if args.quiet { Arc::new(Silent) } else { Arc::new(Bar::default()) },
        stop: interrupt::watch(interrupt::AFTER_THE_SWEEP),
        ..RunOptions::default()
    };
    let mut worst = Exit::Held;
    for (index, (file, folder)) in args.files.iter().zip(&folders).enumerate() {
        if index > 0 && !args.quiet {
            print("\n")?;
        }
        let exit = match run_scenario(file, &options) {
            Ok(record) => {
                let exit = if record.exit() == Exit::Interrupted
                    || (record.is_empty() && record.stopped.is_some())
                {
                    tell_earlier_pictures(folder)?;
                    record.exit()
                } else {
                    finish(&record, folder, args, look, errors)?
                };
                if let Some(fault) = &record.stopped {
                    print_fault(fault, errors);
                }
                exit
            }
            Err(fault) => {
                tell_earlier_pictures(folder)?;
                print_fault(&fault, errors);
                fault.exit
            }
        };
        worst = worst.or_worse(exit);
        if exit == Exit::Interrupted {
            break;
        }
    }
    Ok(worst)
}

/// Writes, shows and accepts, in that order: nobody accepts what was not shown.
fn finish(
    record: &Record,
    folder: &Path,
    args: &RunArgs,
    look: PageStyle,
    errors: Style,
) -> Result<Exit, Fault> {
    let written = write_folder(record, folder);
    let files = written.as_ref().ok();
    let text = match (args.quiet, args.full) {
        (true, _) => report::failures_only(record, look),
        (false, true) => report::full(record, files, look),
        (false, false) => report::brief(record, files, look),
    };
    print(&text)?;
    let kept = keep_accepted(&[record]);
    if let (Ok(paths), false) = (&kept, args.quiet) {
        for path in paths {
            print(&format!("baseline written: {}\n", tame(&path.display().to_string())))?;
        }
    }
    let mut exit = record.exit();
    for fault in [written.err(), kept.err()].into_iter().flatten() {
        print_fault(&fault, errors);
        exit = exit.or_worse(fault.exit);
    }
    Ok(exit)
}

/// Tells of pictures that would pass as those of a run that left none.
fn tell_earlier_pictures(folder: &Path) -> Result<(), Fault> {
    const WHOSE: &str = "of an earlier run, nothing was drawn now";
    match earlier_pictures(folder).as_slice() {
        [] => Ok(()),
        [first] => print(&format!("{WHOSE}: {}\n", tame(&first.display().to_string()))),
        [first, others @ ..] => print(&format!(
            "{WHOSE}: {} and {} beside it\n",
            tame(&first.display().to_string()),
            others.len()
        )),
    }
}

/// Where each scenario's files go.
fn folders(args: &RunArgs) -> Result<Vec<PathBuf>, Fault> {
    let mut taken: BTreeMap<OsString, &Path> = BTreeMap::new();
    let mut folders = Vec::with_capacity(args.files.len());
    for file in &args.files {
        let name = file.file_stem().unwrap_or(file.as_os_str());
        let folder = match &args.into {
            Some(folder) if args.files.len() == 1 => folder.clone(),
            Some(folder) => folder.join(name),
            None => default_folder(file),
        };
        if let Some(other) = taken.insert(folder.as_os_str().to_ascii_lowercase(), file) {
            return Err(Fault::bad_input(format!(
                "`{}` and `{}` would write to the same folder",
                other.display(),
                file.display()
            ))
            .with_hint("run them one at a time, each with its own --into"));
        }
        folders.push(folder);
    }
    Ok(folders)
}
