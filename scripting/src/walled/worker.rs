//! A worker: it reads its job, raises its walls, works, and heeds its parent.

use super::aloud::ToParent;
use super::frame;
use super::job::{Job, JobWork, ScenarioJob};
use super::message::{Message, Wish};
use super::play::finish;
use super::trial::Trial;
use crate::exit::Exit;
use crate::fault::{Fault, Style};
use crate::files::{hurry, reach};
use crate::scenario::{RunOptions, run_scenario};
use crate::walls::{
    Budget, MemoryGauge, Stop, StopReason, SystemLimits, WallsHeld, end_with, no_threads, raise,
};
use std::ffi::OsString;
use std::io::{self, Read, Write};
use std::process::exit;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, OnceLock};
use std::thread;
use std::time::Duration;

/// Said where nothing is kept of work that is done in one piece.
pub const INTERRUPTED: &str = "Interrupted before there was an answer.";

/// The code of a worker that was aborted, for its parent alone: it had no memory left.
pub(super) const ABORTED: u8 = 86;

/// Between two looks at the memory.
const LOOK: Duration = Duration::from_millis(10);
/// Given to work that is asked to end, before its results are taken from it.
const GRACE: Duration = Duration::from_millis(250);
/// Stack of the thread that plays; as large as a main thread commonly has.
const STACK_BYTES: usize = 8 << 20;

/// What a whole command inside walls knows of them.
#[derive(Debug)]
pub struct Inside {
    stop: Stop,
    budget: Budget,
    flag: Arc<AtomicBool>,
    /// Said when the user asks for an end; without it nobody waits for one.
    saying: OnceLock<&'static str>,
    /// Threads that work.
    pub threads: usize,
}

static INSIDE: OnceLock<Inside> = OnceLock::new();

impl Inside {
    /// Of this process, if it is a worker.
    pub fn this() -> Option<&'static Self> {
        INSIDE.get()
    }

    /// A flag that turns true when an end is asked for, and the words that are said then.
    pub fn watch(&self, saying: &'static str) -> Arc<AtomicBool> {
        let _ = self.saying.set(saying);
        Arc::clone(&self.flag)
    }

    /// Whether it was stopped for its time or memory, which says more than its own last words.
    pub fn is_over_budget(&self) -> bool {
        matches!(self.stop.asked(), Some(StopReason::Time | StopReason::Memory))
    }

    /// Ends a whole command that was stopped for its time or memory, in its words.
    pub fn end(&self, ended: Exit) -> (Exit, Option<Fault>) {
        match self.stop.asked() {
            Some(reason @ (StopReason::Time | StopReason::Memory)) => {
                let fault = reason.fault(&self.budget);
                (fault.exit, Some(fault))
            }
            _ => (ended, None),
        }
    }
}

/// Does the job that comes in by standard input. `obey` does a whole command from its arguments.
pub fn work(obey: impl FnOnce(Vec<OsString>) -> Exit) -> Exit {
    let mut from_parent = io::stdin();
    let Ok(Some(job)) = frame::read::<Job>(&mut from_parent) else { return Exit::BadInput };
    die_with_parent();
    let gauge = MemoryGauge::open();
    let of_system = SystemLimits::below(&job.walls.budget, job.walls.threads);
    // A file of its own budget's size ends it; one of the system's limit can't be written, and the rest goes on.
    end_with(ABORTED, of_system.output.is_none());
    let kept = raise(&job.walls);
    reach::keep_to(&[job.walls.reads.as_slice(), &job.walls.writes].concat());
    let stop = Stop::default();
    let threads = job.walls.threads;
    match job.work {
        JobWork::Scenario(scenario) => {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build_global();
            let begun = pool.map_err(|error| io::Error::other(error.to_string()));
            let style = Style { color: scenario.color_of_faults };
            let file = scenario.file.clone();
            let played = begun
                .and_then(|()| play(scenario, job.walls.budget, kept, stop, gauge, from_parent));
            played.unwrap_or_else(|error| {
                let fault = no_threads(&error);
                let trial = Trial::cut_short(&file, Vec::new(), &fault, style);
                ToParent::tell(&Message::Played(Box::new(trial)));
                fault.exit
            })
        }
        JobWork::Command(arguments) => {
            if let Some(words) = kept.lacks() {
                eprintln!("note: {words}");
            }
            let inside = Inside {
                stop: stop.clone(),
                budget: job.walls.budget,
                flag: Arc::default(),
                saying: OnceLock::new(),
                threads,
            };
            let inside = INSIDE.get_or_init(|| inside);
            let watched = watch_memory(
                gauge,
                (job.walls.budget, stop.clone()),
                || {},
                || inside.leave_soon(),
            );
            let heard = listen(from_parent, move |wish| match wish {
                Wish::Stop(reason) => {
                    stop.ask(reason);
                    inside.leave_soon();
                }
                Wish::Leave => exit(Exit::Interrupted.code().into()),
            });
            if let Err(error) = watched.and(heard) {
                let fault = no_threads(&error);
                let _ = io::stderr().lock().write_all(fault.render(Style::PLAIN).as_bytes());
                return fault.exit;
            }
            obey(arguments)
        }
    }
}

impl Inside {
    /// Asks for an end; work that is over its budget is not waited for.
    fn leave_soon(&'static self) {
        self.flag.store(true, Ordering::Relaxed);
        match (self.stop.asked(), self.saying.get()) {
            (Some(StopReason::Interrupt), Some(saying)) => eprintln!("\n{saying}"),
            (Some(StopReason::Interrupt), None) => {
                eprintln!("\n{INTERRUPTED}");
                exit(Exit::Interrupted.code().into());
            }
            _ => {}
        }
        if let (_, Some(fault)) = self.end(Exit::Held) {
            apart(move || {
                thread::sleep(GRACE);
                let _ = io::stderr().lock().write_all(fault.render(Style::PLAIN).as_bytes());
                exit(fault.exit.code().into());
            });
        }
    }
}

/// Takes the record of a scenario that does not end, once.
#[derive(Debug, Default)]
struct FirstToFinish(AtomicBool);

impl FirstToFinish {
    fn claim(&self) -> bool {
        !self.0.swap(true, Ordering::SeqCst)
    }
}

fn play(
    job: ScenarioJob,
    budget: Budget,
    kept: WallsHeld,
    stop: Stop,
    gauge: Option<MemoryGauge>,
    from_parent: io::Stdin,
) -> io::Result<Exit> {
    ToParent::tell(&Message::Walled(kept));
    let style = Style { color: job.color_of_faults };
    let to_parent = Arc::new(ToParent::new(job.look, style));
    let options = RunOptions {
        accept_baselines: job.accept,
        progress: Arc::clone(&to_parent) as _,
        stop: stop.clone(),
        budget,
        kept: job.kept(),
        ..RunOptions::default()
    };
    let first = Arc::new(FirstToFinish::default());
    let end_it = {
        let (job, to_parent, first) = (job.clone(), Arc::clone(&to_parent), Arc::clone(&first));
        let stop = stop.clone();
        Arc::new(move || end_for(&job, &to_parent, &first, &stop, &budget))
    };
    let of_memory = Arc::clone(&end_it);
    let aloud = Arc::clone(&to_parent);
    let each = move || aloud.tell_printed();
    watch_memory(gauge, (budget, stop.clone()), each, move || of_memory())?;
    listen(from_parent, move |wish| match wish {
        Wish::Stop(reason) => {
            stop.ask(reason);
            end_it();
        }
        Wish::Leave => exit(Exit::Interrupted.code().into()),
    })?;
    let playing = thread::Builder::new().stack_size(STACK_BYTES).spawn(move || {
        let outcome = run_scenario(&job.file, &options);
        if first.claim() {
            ToParent::tell(&Message::Played(Box::new(finish(&job, outcome))));
        } else {
            // The other thread ends the process.
            thread::park();
        }
    })?;
    Ok(match playing.join() {
        Ok(()) => Exit::Held,
        Err(_) => Exit::CouldNotFinish,
    })
}

/// Does something in a thread of its own, or here where none can be started: nothing else is left to do then.
fn apart(work: impl FnOnce() + Send + Clone + 'static) {
    if thread::Builder::new().spawn(work.clone()).is_err() {
        work();
    }
}

/// Ends a scenario that was asked to end and does not: what it recorded is reported from this thread.
fn end_for(
    job: &ScenarioJob,
    to_parent: &Arc<ToParent>,
    first: &Arc<FirstToFinish>,
    stop: &Stop,
    budget: &Budget,
) {
    let (job, to_parent, first) = (job.clone(), Arc::clone(to_parent), Arc::clone(first));
    let Some(reason) = stop.asked() else { return };
    let fault = reason.fault(budget);
    if reason != StopReason::Interrupt {
        hurry();
    }
    apart(move || {
        thread::sleep(GRACE);
        let Some(unfinished) = to_parent.unfinished() else { return };
        if !first.claim() {
            return;
        }
        if let Some(record) = unfinished.stopped(fault) {
            // The threads that play may be at work for long.
            let own = rayon::ThreadPoolBuilder::new().num_threads(1).build();
            let finished = own.map(|own| own.install(|| finish(&job, Ok(record))));
            if let Ok(finished) = finished {
                ToParent::tell(&Message::Played(Box::new(finished)));
            }
        }
        exit(Exit::OverBudget.code().into());
    });
}

/// Calls at each look, and when the memory is over its budget, once.
fn watch_memory(
    gauge: Option<MemoryGauge>,
    (budget, stop): (Budget, Stop),
    each: impl Fn() + Send + 'static,
    over: impl Fn() + Send + 'static,
) -> io::Result<()> {
    let Some(gauge) = gauge else { return Ok(()) };
    let watching = thread::Builder::new().spawn(move || {
        while gauge.bytes().is_none_or(|bytes| bytes <= budget.memory) {
            each();
            thread::sleep(LOOK);
        }
        stop.ask(StopReason::Memory);
        over();
    });
    watching.map(drop)
}

/// Hears what the parent wishes. A parent that has gone away takes its worker along.
fn listen(
    mut from_parent: impl Read + Send + 'static,
    heed: impl Fn(Wish) + Send + 'static,
) -> io::Result<()> {
    let listening = thread::Builder::new().spawn(move || {
        while let Ok(Some(wish)) = frame::read::<Wish>(&mut from_parent) {
            heed(wish);
        }
        exit(Exit::Interrupted.code().into());
    });
    listening.map(drop)
}

/// Asks the system to end this process with its parent.
fn die_with_parent() {
    #[cfg(target_os = "linux")]
    {
        let _ =
            rustix::process::set_parent_process_death_signal(Some(rustix::process::Signal::KILL));
    }
}
