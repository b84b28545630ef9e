//! `railproof test`: runs every scenario under a folder and says which expectations failed.

use super::output::{print, print_fault};
use super::threads::Threads;
use super::trial::ScenarioTrial;
use super::{find, interrupt, junit};
use crate::baseline::keep_accepted;
use crate::exit::Exit;
use crate::fault::{Fault, Style, tame};
use crate::files::{apart_from, write_whole};
use crate::record::Record;
use crate::report::{self, PageStyle, as_fault, is_accepted};
use crate::scenario::{RunOptions, run_scenario};
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc;
use std::thread;

/// Stack of a thread that runs scenarios; as large as a main thread commonly has.
const STACK_BYTES: usize = 8 << 20;

const JUNIT_HELP: &str = "Write the results to a file as JUnit XML; it holds no times, so that \
                          the same results give the same file";

/// Flags of `railproof test`.
#[derive(Debug, clap::Args)]
pub struct TestArgs {
    /// Folder that is searched for scenarios (`*.lua`), subfolders included.
    #[arg(value_name = "DIR")]
    pub folder: PathBuf,
    /// File for the results as `JUnit` XML.
    #[arg(long, value_name = "FILE", help = JUNIT_HELP)]
    pub junit: Option<PathBuf>,
    /// Store maps that have moved as their new baselines, after showing the rows that moved.
    #[arg(long)]
    pub accept: bool,
    /// Threads.
    #[command(flatten)]
    pub threads: Threads,
}

/// Runs the scenarios, several at a time, and shows them in order of path.
///
/// # Errors
/// No scenario found, threads that can't be started, or a stream or file that can't be written.
pub fn run(args: &TestArgs, look: PageStyle, errors: Style) -> Result<Exit, Fault> {
    let files = find::scenarios(&args.folder)?;
    if let Some(path) = &args.junit {
        apart_from(path, files.iter().map(PathBuf::as_path))?;
        // A long run does not find out at its end.
        let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
        if let Some(folder) = folder.filter(|folder| !folder.is_dir()) {
            let message = format!("there is no folder `{}` for the JUnit file", folder.display());
            return Err(Fault::bad_input(message).with_hint("make the folder first"));
        }
    }
    args.threads.start()?;
    let options = RunOptions {
        accept_baselines: args.accept,
        stop: interrupt::watch(interrupt::AFTER_THE_SWEEP),
        ..RunOptions::default()
    };
    let mut tested = Vec::with_capacity(files.len());
    let mut output = Ok(());
    run_all(&files, &options, |scenario| {
        // When the output is lost the tests still run: the JUnit file may be what counts.
        if output.is_ok() {
            output = print(&told(&scenario, look));
        }
        tested.push(scenario);
    })?;
    let mut worst = tested.iter().map(ScenarioTrial::exit).fold(Exit::Held, Exit::or_worse);
    // Nobody accepts what was not shown.
    let shown = output.and_then(|()| print(&format!("\n{}\n", totals(&tested))));
    if shown.is_ok() && args.accept {
        worst = worst.or_worse(accept(&tested, errors)?);
    }
    if let Some(path) = &args.junit {
        let text = junit::document(&tested).map_err(|error| {
            Fault::new(Exit::CouldNotFinish, format!("the JUnit file can't be made: {error}"))
        })?;
        write_whole(path, |out| out.write_all(text.as_bytes()))?;
    }
    shown.map(|()| worst)
}

/// Stores the maps that moved.
fn accept(tested: &[ScenarioTrial], errors: Style) -> Result<Exit, Fault> {
    let records: Vec<&Record> =
        tested.iter().filter_map(|scenario| scenario.outcome.as_ref().ok()).collect();
    match keep_accepted(&records) {
        Ok(paths) => {
            for path in paths {
                print(&format!("baseline written: {}\n", tame(&path.display().to_string())))?;
            }
            Ok(Exit::Held)
        }
        Err(fault) => {
            print_fault(&fault, errors);
            Ok(fault.exit)
        }
    }
}

/// Runs the files on a few threads and hands the results over in order.
///
/// These threads are not those that play banks: one of those, waiting for its own sweep, would
/// take up another scenario in the middle of the first.
fn run_all(
    files: &[PathBuf],
    options: &RunOptions,
    mut each: impl FnMut(ScenarioTrial),
) -> Result<(), Fault> {
    let next = AtomicUsize::new(0);
    let (sender, receiver) = mpsc::channel();
    thread::scope(|scope| {
        for _ in 0..rayon::current_num_threads().min(files.len()) {
            let (sender, next) = (sender.clone(), &next);
            let work = move || {
                while let Some(index) = Some(next.fetch_add(1, Ordering::Relaxed))
                    && let Some(file) = files.get(index)
                {
                    let mut outcome = run_scenario(file, options);
                    if let Ok(record) = &mut outcome {
                        record.maps.clear();
                        record.starts.clear();
                        record.frontiers.clear();
                        record.drawings.clear();
                    }
                    // The receiver outlives the threads.
                    let _ = sender.send((index, ScenarioTrial { file: file.clone(), outcome }));
                }
            };
            thread::Builder::new().stack_size(STACK_BYTES).spawn_scoped(scope, work).map_err(
                |error| {
                    let message = format!("the threads could not be started: {error}");
                    Fault::new(Exit::CouldNotFinish, message)
                },
            )?;
        }
        drop(sender);
        let mut waiting = BTreeMap::new();
        let mut due = 0;
        for (index, scenario) in receiver {
            waiting.insert(index, scenario);
            while let Some(scenario) = waiting.remove(&due) {
                each(scenario);
                due += 1;
            }
        }
        Ok(())
    })
}

/// One line for a scenario, and below it what failed.
fn told(scenario: &ScenarioTrial, look: PageStyle) -> String {
    let file = tame(&scenario.file.display().to_string());
    let style = Style { color: look.color };
    match &scenario.outcome {
        Err(fault) => format!("ERROR   {file}\n{}", fault.render(style)),
        Ok(record) if record.expectations.is_empty() && record.exit() == Exit::Held => {
            format!("ok      {file}  (states no expectation)\n")
        }
        Ok(record) => {
            let word = match record.exit() {
                Exit::Held => "ok    ",
                Exit::ExpectationFailed => "FAILED",
                _ => "ERROR ",
            };
            let mut text = format!("{word}  {file}  {}\n", report::tally(record));
            for expectation in record.expectations.iter().filter(|one| !one.held) {
                if !is_accepted(expectation) {
                    text += &as_fault(expectation).render(style);
                }
                text += &report::moved(expectation, look);
            }
            let missing = record.left_out.iter().map(|one| &one.fault).chain(&record.stopped);
            text.extend(missing.map(|fault| fault.render(style)));
            text
        }
    }
}

fn totals(tested: &[ScenarioTrial]) -> String {
    let count =
        |wanted: fn(&ScenarioTrial) -> bool| tested.iter().filter(|one| wanted(one)).count();
    let ok = count(|one| one.exit() == Exit::Held);
    let broken = count(|one| one.stopped().is_some());
    let partial = count(|one| one.stopped().is_none() && one.leaves_out());
    let all = tested.len();
    let failed = all - ok - broken - partial;
    let scenarios = if all == 1 { "scenario" } else { "scenarios" };
    let left_out =
        if partial > 0 { format!(", {partial} left something out") } else { String::new() };
    format!(
        "{all} {scenarios}: {ok} ok, {failed} failed, {broken} could not run to the end{left_out}"
    )
}
