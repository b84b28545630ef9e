//! `railproof test`: runs every scenario under folders and says which expectations failed.

mod annotations;
mod document;
mod earlier;
mod find;
mod folders;
mod junit;
mod select;
mod stale;

pub use document::KEYS;

use super::at_terminal::{AtTerminal, Shown};
use super::budget::BudgetFlags;
use super::folder_lock::FolderLock;
use super::interrupt;
use super::output::{print, print_error, print_fault, remark};
use super::scenarios::{TrialStage, tell_troubles};
use super::threads::Threads;
use crate::exit::Exit;
use crate::fault::{Fault, Style, escaped_name};
use crate::files::{apart_from, write_whole};
use crate::report::PageStyle;
use crate::scenario::Silent;
use crate::shards::Share;
use crate::telling::count;
use crate::walled::{Manner, ScenarioJob, ToldFault, Trial, Watch, keep_to_folders_of};
use crate::walls::Budget;
use select::Selection;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

/// Stack of a thread that runs scenarios; as large as a main thread commonly has.
const STACK_BYTES: usize = 8 << 20;

/// Flags of `railproof test`.
#[expect(clippy::struct_excessive_bools, reason = "each is a flag of its own")]
#[derive(Debug, clap::Args)]
pub struct TestArgs {
    /// Folders that are searched for scenarios (`*.lua`, also `*.LUA`), subfolders included, and scenarios.
    #[arg(required = true, value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// Show the scenarios that would be run, and run none.
    #[arg(long)]
    pub list: bool,
    /// Run only scenarios whose path contains this text; can be given several times.
    #[arg(long, value_name = "TEXT")]
    pub filter: Vec<String>,
    /// Count only the expectations that contain this text; can be given several times.
    #[arg(long, value_name = "TEXT")]
    pub expecting: Vec<String>,
    /// Run only a share of the scenarios: 2/7 is the second of seven.
    #[arg(long, value_name = "I/N")]
    pub shard: Option<Share>,
    /// Begin no further scenario after the first that fails.
    #[arg(long)]
    pub fail_fast: bool,
    /// A scenario that states no expectation fails.
    #[arg(long)]
    pub require_expectations: bool,
    /// File for the results as JUnit XML. If the file holds an earlier run, what failed then is run first.
    #[arg(long, value_name = "FILE")]
    pub junit: Option<PathBuf>,
    /// Folder for the pictures and rows of each scenario, one folder each inside it, as `run` writes them: of a map that
    /// differs from its baseline also before, after and the difference.
    #[arg(long, value_name = "DIR")]
    pub into: Option<PathBuf>,
    /// Show the results as JSON instead, at the end; `railproof words test` tells its keys.
    #[arg(long)]
    pub json: bool,
    /// Show each failure as an annotation too, in the form of the workflow commands of GitHub; with --json on standard
    /// error.
    #[arg(long)]
    pub annotations: bool,
    /// Store maps that have moved as their new baselines, after showing the rows that moved; where another
    /// expectation of the scenario failed, nothing is stored.
    #[arg(long)]
    pub accept: bool,
    /// Store them all the same.
    #[arg(long, requires = "accept")]
    pub accept_despite_failures: bool,
    /// Threads.
    #[command(flatten)]
    pub threads: Threads,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

/// Runs the scenarios, several at a time, and shows each as it ends.
///
/// # Errors
/// No scenario found, threads that can't be started, or a stream or file that can't be written.
pub fn run(args: &TestArgs, look: PageStyle, errors: Style) -> Result<Exit, Fault> {
    let stop = interrupt::wish(interrupt::KEEPING);
    let mut means = args.budget.means(Budget::USUAL, args.threads, stop.clone())?;
    let found = find::scenarios(&args.paths, &means.reads)?;
    let selection = Selection { filter: &args.filter, expecting: &args.expecting };
    let mut files = selection.files(&found.files, args.shard)?;
    found.faults.iter().for_each(|fault| print_fault(fault, errors));
    found.notes.iter().for_each(|words| remark(words));
    let unseen = found.faults.iter().fold(Exit::Held, |worst, fault| worst.or_worse(fault.exit));
    if args.list {
        let line = |file: &PathBuf| {
            let link = if file.is_symlink() { "  (a link)" } else { "" };
            format!("{}{link}\n", escaped_name(file))
        };
        print(&files.iter().map(line).collect::<String>())?;
        return Ok(unseen);
    }
    if let Some(path) = &args.junit {
        apart_from(path, files.iter().map(PathBuf::as_path))?;
        junit::check_place(path)?;
        earlier::first(path, &mut files);
    }
    let walled = !args.budget.no_walls;
    let folders = folders::of(args.into.as_deref(), &files)?;
    let jobs = files.iter().zip(folders);
    let jobs: Vec<ScenarioJob> =
        jobs.map(|(file, into)| job(file, into, args, errors, look)).collect();
    if !walled {
        args.threads.start()?;
        keep_to_folders_of(&jobs, &means.reads);
    }
    let at_once = means.threads.min(files.len()).max(1);
    // Twice as many threads as processors keep those busy to the end, when few scenarios are left.
    means.threads = means.threads.min((2 * means.threads).div_ceil(at_once));
    let stage = TrialStage { means, walled, progress: Arc::new(Silent), errors };
    let shown = Shown::default();
    let mut tested = run_all(&jobs, at_once, args, &stage, &shown);
    // What was run is told all the same.
    let uncounted = selection.check_counted(&tested).err();
    if let Some(fault) = &uncounted {
        print_fault(fault, errors);
    }
    let unseen = uncounted.iter().fold(unseen, |worst, fault| worst.or_worse(fault.exit));
    // Before anything is told of all: the results say what was stored, and not what should have been.
    let stored = stage.store(&mut tested, args.json, &shown);
    let unseen = unseen.or_worse(stored);
    let worst = tested.iter().fold(unseen, |worst, trial| worst.or_worse(trial.exit));
    let worst = if stop.asked().is_some() { worst.or_worse(Exit::Interrupted) } else { worst };
    let is_run = |file: &PathBuf| tested.iter().any(|trial| trial.file == *file);
    let not_run: Vec<PathBuf> = files.iter().filter(|file| !is_run(file)).cloned().collect();
    let stale = stale::baselines(&found, &args.paths, &tested);
    // In none of the scenarios, and so at no place.
    let of_run = |fault: &Fault| ToldFault::of(fault, Path::new(""), errors);
    let of_run: Vec<ToldFault> = found.faults.iter().chain(&uncounted).map(of_run).collect();
    if args.json {
        shown.print(&document::json(&tested, (&not_run, &stale), (&of_run, &found.notes), worst)?);
    } else {
        let stale = stale.iter().map(|one| {
            let word = if one.link.is_some() { "note" } else { "warning" };
            format!("{word}: {}\n", one.words())
        });
        let draws = if args.into.is_none() { undrawn(&tested) } else { "" };
        let totals = totals(&tested, not_run.len());
        shown.print(&format!("\n{}{totals}\n{draws}", stale.collect::<String>()));
    }
    if args.annotations {
        let lines = annotations::lines(&tested, &stale, (&of_run, &found.notes));
        // JSON is alone on its stream; a build server reads both.
        if args.json { print_error(&lines) } else { shown.print(&lines) }
    }
    if let Some(path) = &args.junit {
        let text = junit::document(&tested, &not_run, &of_run).map_err(|error| {
            Fault::new(Exit::CouldNotFinish, format!("the JUnit file can't be made: {error}"))
        })?;
        write_whole(path, |out| out.write_all(text.as_bytes()))?;
    }
    shown.written().map(|()| worst)
}

/// Plays scenarios on a few threads. Each is shown as it ends; the trials are given in order of path.
///
/// These threads are not those that play banks: one of those, waiting for its own sweep, would
/// take up another scenario in the middle of the first.
fn run_all(
    jobs: &[ScenarioJob],
    at_once: usize,
    args: &TestArgs,
    stage: &TrialStage,
    shown: &Shown,
) -> Vec<Trial> {
    let (next, failed) = (AtomicUsize::new(0), AtomicBool::new(false));
    let tested = Mutex::new(Vec::with_capacity(jobs.len()));
    let selection = Selection { filter: &args.filter, expecting: &args.expecting };
    let counted = |mut trial: Trial| {
        selection.narrow(&mut trial);
        if args.require_expectations {
            select::require_expectations(&mut trial, stage.errors);
        }
        trial
    };
    let text_of = |trial: &Trial| {
        if args.json { String::new() } else { counted(trial.clone()).test_text() }
    };
    let watch = AtTerminal::new(&*stage.progress, shown, &text_of);
    let play_next = || {
        while stage.means.stop.asked().is_none()
            && !(args.fail_fast && failed.load(Ordering::Relaxed))
        {
            let Some(job) = jobs.get(next.fetch_add(1, Ordering::Relaxed)) else { return };
            let trial = counted(play(job, stage, &watch));
            tell_troubles(&trial);
            if trial.exit != Exit::Held {
                failed.store(true, Ordering::Relaxed);
            }
            tested.lock().unwrap_or_else(PoisonError::into_inner).push(trial);
        }
    };
    thread::scope(|scope| {
        for _ in 0..at_once {
            let thread = thread::Builder::new().stack_size(STACK_BYTES);
            if thread.spawn_scoped(scope, play_next).is_err() {
                // Where no more can be started, fewer play; this one always can.
                play_next();
                break;
            }
        }
    });
    let mut tested = tested.into_inner().unwrap_or_else(PoisonError::into_inner);
    tested.sort_by(|one: &Trial, other| one.file.cmp(&other.file));
    tested
}

/// Plays one scenario; nobody else writes to its folder meanwhile.
fn play(job: &ScenarioJob, stage: &TrialStage, watch: &AtTerminal<'_>) -> Trial {
    let Manner::Test { into: Some(folder) } = &job.manner else { return stage.play(job, watch) };
    match FolderLock::take(folder) {
        Ok(_lock) => stage.play(job, watch),
        Err(fault) => {
            let trial = Trial::cut_short(&job.file, Vec::new(), &fault, stage.errors);
            watch.show(&trial);
            trial
        }
    }
}

/// Said where maps differ from their baselines and no picture of it is kept.
fn undrawn(tested: &[Trial]) -> &'static str {
    let mut baselines = tested.iter().flat_map(|trial| &trial.baselines);
    if baselines.any(|baseline| baseline.picture.is_some()) {
        "--into DIR draws the maps that differ: before, after and the difference\n"
    } else {
        ""
    }
}

fn job(
    file: &Path,
    into: Option<PathBuf>,
    args: &TestArgs,
    errors: Style,
    look: PageStyle,
) -> ScenarioJob {
    ScenarioJob {
        file: file.to_owned(),
        manner: Manner::Test { into },
        accept: args.accept,
        accept_despite_failures: args.accept_despite_failures,
        look,
        color_of_faults: errors.color,
    }
}

fn totals(tested: &[Trial], not_run: usize) -> String {
    let number = |wanted: fn(&Trial) -> bool| tested.iter().filter(|one| wanted(one)).count();
    let ok = number(|one| one.exit == Exit::Held);
    let broken = number(|one| one.stopped.is_some());
    let partial = number(|one| one.stopped.is_none() && !one.left_out.is_empty());
    let unwritten = number(|one| {
        let lacks_nothing = one.stopped.is_none() && one.left_out.is_empty();
        lacks_nothing && !one.troubles.is_empty() && one.counts().2 == 0
    });
    let all = tested.len();
    let failed = all - ok - broken - partial - unwritten;
    let some = |number: usize, words: &str| {
        if number > 0 { format!(", {number} {words}") } else { String::new() }
    };
    let left_out = some(partial, "left something out") + &some(unwritten, "not written whole");
    let not_run = match not_run {
        0 if all == 0 => "; this share has none".to_owned(),
        0 => String::new(),
        more => format!(", {more} not run"),
    };
    format!(
        "{}: {ok} ok, {failed} failed, {broken} could not run to the end{left_out}{not_run}",
        count(all as u64, "scenario", "scenarios")
    )
}
