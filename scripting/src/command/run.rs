//! `railproof run`: plays scenarios, shows what came out, and writes pictures and rows.

use super::at_terminal::{AtTerminal, Shown};
use super::budget::BudgetFlags;
use super::folder_lock::FolderLock;
use super::interrupt;
use super::output::{print_fault, print_told};
use super::progress::Bar;
use super::scenarios::{TrialStage, tell_troubles};
use super::taken_folders::TakenFolders;
use super::threads::Threads;
use crate::exit::Exit;
use crate::fault::{Fault, Style};
use crate::files::{check_no_link, folder_named_for};
use crate::report::PageStyle;
use crate::scenario::{Progress, Silent};
use crate::store::{TableCells, default_folder};
use crate::walled::{Manner, ScenarioJob, Trial, keep_to_folders_of};
use crate::walls::Budget;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Flags of `railproof run`.
#[expect(clippy::struct_excessive_bools, reason = "each is a flag of its own")]
#[derive(Debug, clap::Args)]
pub struct RunArgs {
    /// Scenarios, run one after another.
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<PathBuf>,
    /// Folder for pictures and rows, `out/<scenario>` unless given, inside a folder that has its own
    /// my-table.yaml; for several scenarios, one folder each inside it.
    #[arg(long, value_name = "DIR")]
    pub into: Option<PathBuf>,
    /// Store maps that have moved as their new baselines, after showing the rows that moved; where another
    /// expectation failed, nothing is stored.
    #[arg(long)]
    pub accept: bool,
    /// Store them all the same.
    #[arg(long, requires = "accept")]
    pub accept_despite_failures: bool,
    /// Show only failures.
    #[arg(long, short)]
    pub quiet: bool,
    /// Tell everything: maps in text, counts, rankings, every expectation.
    #[arg(long, conflicts_with = "quiet")]
    pub full: bool,
    /// In tables, mark words that begin with = + - or @ as text, so that a spreadsheet does not compute them.
    #[arg(long)]
    pub spreadsheet_safe: bool,
    /// Threads.
    #[command(flatten)]
    pub threads: Threads,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

/// Runs the scenarios. A scenario that can't be run does not keep the next from running; the worst
/// end counts.
///
/// # Errors
/// Threads that can't be started, two scenarios that would write to one folder, or standard output
/// that can't be written.
pub fn run(args: &RunArgs, look: PageStyle, errors: Style) -> Result<Exit, Fault> {
    let folders = folders(args)?;
    let stop = interrupt::wish(interrupt::KEEPING);
    let means = args.budget.means(Budget::USUAL, args.threads, stop.clone())?;
    let walled = !args.budget.no_walls;
    let jobs: Vec<ScenarioJob> = args
        .files
        .iter()
        .zip(&folders)
        .map(|(file, folder)| job(file, folder, args, look, errors))
        .collect();
    if !walled {
        args.threads.start()?;
        keep_to_folders_of(&jobs, &means.reads);
    }
    let progress: Arc<dyn Progress> =
        if args.quiet { Arc::new(Silent) } else { Arc::new(Bar::default()) };
    let stage = TrialStage { means, walled, progress, errors };
    let shown = Shown::default();
    let mut worst = Exit::Held;
    for (index, (job, folder)) in jobs.iter().zip(&folders).enumerate() {
        if index > 0 && !args.quiet {
            shown.print("\n");
        }
        let exit = play_one(job, folder, args, &stage, &shown);
        shown.written()?;
        worst = worst.or_worse(exit);
        if stop.asked().is_some() {
            worst = worst.or_worse(Exit::Interrupted);
            break;
        }
    }
    Ok(worst)
}

fn play_one(
    job: &ScenarioJob,
    folder: &Path,
    args: &RunArgs,
    stage: &TrialStage,
    shown: &Shown,
) -> Exit {
    let _lock = match FolderLock::take(folder) {
        Ok(lock) => lock,
        Err(fault) => {
            print_fault(&fault, stage.errors);
            return fault.exit;
        }
    };
    let text_of = |trial: &Trial| trial.text.clone();
    let mut trial = stage.play(job, &AtTerminal::new(&*stage.progress, shown, &text_of));
    trial.stopped.iter().for_each(print_told);
    tell_troubles(&trial);
    let stored = stage.store(std::slice::from_mut(&mut trial), args.quiet, shown);
    trial.exit.or_worse(stored)
}

fn job(file: &Path, folder: &Path, args: &RunArgs, look: PageStyle, errors: Style) -> ScenarioJob {
    ScenarioJob {
        file: file.to_owned(),
        manner: Manner::Run {
            folder: folder.to_owned(),
            quiet: args.quiet,
            full: args.full,
            cells: if args.spreadsheet_safe {
                TableCells::SpreadsheetSafe
            } else {
                TableCells::Plain
            },
        },
        accept: args.accept,
        accept_despite_failures: args.accept_despite_failures,
        look,
        color_of_faults: errors.color,
    }
}

/// Where each scenario's files go.
fn folders(args: &RunArgs) -> Result<Vec<PathBuf>, Fault> {
    let mut taken = TakenFolders::default();
    let mut folders = Vec::with_capacity(args.files.len());
    for file in &args.files {
        let folder = match &args.into {
            Some(folder) if args.files.len() == 1 => folder.clone(),
            Some(into) => {
                let folder = into.join(folder_named_for(file)?);
                check_no_link(into, &folder)?;
                folder
            }
            None => default_folder(file)?,
        };
        taken.take(&folder, file, "run")?;
        folders.push(folder);
    }
    Ok(folders)
}
