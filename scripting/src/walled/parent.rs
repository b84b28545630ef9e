//! The parent of a worker: it gives the job, passes on wishes, holds the worker to its time, and makes sense of
//! whatever end it has.

use super::aloud::Watch;
use super::frame;
use super::job::{Job, JobWork, MARK, Manner, ScenarioJob};
use super::message::{Message, Wish};
use super::told::ToldExpectation;
use super::trial::Trial;
use super::worker::ABORTED;
use crate::exit::Exit;
use crate::fault::{Fault, Style, tame};
use crate::files::{MadeFolders, remove_unfinished};
use crate::report::MOST_SHOWN;
use crate::walls::{
    Budget, NO_THREADS, Stop, StopReason, SystemLimits, Walls, WallsHeld, no_threads,
};
use std::ffi::OsString;
use std::io::{self, Read};
use std::path::PathBuf;
use std::process::{Child, ChildStderr, ChildStdin, Command, ExitStatus, Stdio};
use std::sync::mpsc::{self, RecvTimeoutError};
use std::thread;
use std::time::{Duration, Instant};

/// What workers may take and see, beside what their job names.
#[derive(Debug, Clone)]
pub struct Means {
    /// Of each.
    pub budget: Budget,
    /// Folders that may be read besides.
    pub reads: Vec<PathBuf>,
    /// Threads of each.
    pub threads: usize,
    /// The wish of the user that all should end.
    pub stop: Stop,
}

/// Between two looks at the clock and at the user's wish.
const LOOK: Duration = Duration::from_millis(20);
/// From a wish to stop to the end of the process, when its time is over.
const GRACE: Duration = Duration::from_millis(900);
/// The same when the user asks: what was made is written first.
const GRACE_OF_USER: Duration = Duration::from_secs(5);
/// What is kept of a worker's last words.
const LAST_WORDS: usize = 4096;

/// Plays a scenario in a worker. Whatever becomes of it, there is a trial.
pub fn play_walled(job: &ScenarioJob, means: &Means, watch: &dyn Watch) -> Trial {
    let began = Instant::now();
    let style = Style { color: job.color_of_faults };
    let (reads, writes) = job.sees();
    let _made = MadeFolders::make(&writes);
    let walls = Walls {
        reads: [reads, means.reads.clone()].concat(),
        writes,
        budget: means.budget,
        threads: means.threads,
    };
    let asked = Job { work: JobWork::Scenario(job.clone()), walls };
    let mut trial = match WorkerProcess::start(&asked, Stdio::piped(), Stdio::piped()) {
        Ok(worker) => worker.hear(job, means, watch, began),
        Err(fault) => {
            let trial = Trial::cut_short(&job.file, Vec::new(), &fault, style);
            watch.show(&trial);
            trial
        }
    };
    trial.took = began.elapsed();
    trial
}

/// The end of a command that was done in a worker.
#[derive(Debug)]
pub struct CommandEnd {
    /// Its exit.
    pub exit: Exit,
    /// What the worker could not say itself.
    pub fault: Option<Fault>,
}

/// Does a whole command in a worker that has this process's streams.
pub fn run_walled(
    arguments: Vec<OsString>,
    (reads, writes): (Vec<PathBuf>, Vec<PathBuf>),
    means: &Means,
    mut pressed: impl FnMut() -> u32,
) -> CommandEnd {
    let began = Instant::now();
    let _made = MadeFolders::make(&writes);
    let walls = Walls {
        reads: [reads, means.reads.clone()].concat(),
        writes,
        budget: means.budget,
        threads: means.threads,
    };
    let job = Job { work: JobWork::Command(arguments), walls };
    let mut worker = match WorkerProcess::start(&job, Stdio::inherit(), Stdio::inherit()) {
        Ok(worker) => worker,
        Err(fault) => return CommandEnd { exit: fault.exit, fault: Some(fault) },
    };
    let mut clock = Clock::of(&means.budget, began);
    let mut told = 0;
    // Most commands end soon, and nobody waits for a look at the clock.
    let mut pause = Duration::from_millis(1);
    loop {
        match worker.child.try_wait() {
            Ok(Some(status)) => {
                let why = clock.killed_for;
                return match status.code().and_then(exit_of_code) {
                    Some(exit) => CommandEnd { exit, fault: None },
                    None => {
                        let fault = unusual_end(status, why, "", means);
                        CommandEnd { exit: fault.exit, fault: Some(fault) }
                    }
                };
            }
            Ok(None) => {}
            Err(error) => {
                let fault = Fault::new(
                    Exit::CouldNotFinish,
                    format!("can't learn how the process at work ended: {error}"),
                );
                return CommandEnd { exit: fault.exit, fault: Some(fault) };
            }
        }
        let presses = pressed();
        if presses > told {
            // The first press lets it end what it is at.
            worker.wish(if presses == 1 { Wish::Stop(StopReason::Interrupt) } else { Wish::Leave });
            told = presses;
        }
        clock.look(None, &mut worker);
        thread::sleep(pause);
        pause = (pause + pause / 8).min(LOOK);
    }
}

fn exit_of_code(code: i32) -> Option<Exit> {
    Exit::ALL.into_iter().find(|exit| i32::from(exit.code()) == code)
}

/// A worker process.
struct WorkerProcess {
    child: Child,
    wishes: Option<ChildStdin>,
}

impl WorkerProcess {
    fn start(job: &Job, out: Stdio, errors: Stdio) -> Result<Self, Fault> {
        let cannot = |error: io::Error| {
            Fault::new(Exit::CouldNotFinish, format!("no process could be started for it: {error}"))
        };
        let program = std::env::current_exe().map_err(cannot)?;
        let mut command = Command::new(program);
        command.arg(MARK).stdin(Stdio::piped()).stdout(out).stderr(errors);
        #[cfg(unix)]
        {
            use std::os::unix::process::CommandExt;
            // Commands in hints are told as this one was called. Ctrl-C reaches the parent alone.
            if let Some(name) = std::env::args_os().next() {
                command.arg0(name);
            }
            command.process_group(0);
        }
        let mut child = command.spawn().map_err(cannot)?;
        let mut wishes = child.stdin.take();
        let given = wishes.as_mut().map_or(Ok(()), |pipe| frame::write(pipe, job));
        match given {
            // One that ended at once is seen by its end.
            Err(error) if error.kind() != io::ErrorKind::BrokenPipe => {
                let _ = child.kill();
                let _ = child.wait();
                Err(cannot(error))
            }
            _ => Ok(Self { child, wishes }),
        }
    }

    fn wish(&mut self, wish: Wish) {
        if let Some(pipe) = &mut self.wishes {
            let _ = frame::write(pipe, &wish);
        }
    }

    /// Hears a scenario's worker out.
    fn hear(
        mut self,
        job: &ScenarioJob,
        means: &Means,
        watch: &dyn Watch,
        began: Instant,
    ) -> Trial {
        let style = Style { color: job.color_of_faults };
        let (sender, heard) = mpsc::sync_channel(64);
        let out = self.child.stdout.take();
        let reading = thread::Builder::new().spawn(move || {
            let Some(mut out) = out else { return };
            while let Ok(Some(message)) = frame::read::<Message>(&mut out) {
                if sender.send(message).is_err() {
                    break;
                }
            }
        });
        let threads = reading
            .and_then(|reading| Ok((reading, last_words(self.child.stderr.take())?)))
            .map_err(|error| no_threads(&error));
        let (reading, last_words) = match threads {
            Ok(threads) => threads,
            Err(fault) => {
                // Nobody hears it. A thread that reads ends with it.
                let _ = self.child.kill();
                let _ = self.child.wait();
                let trial = Trial::cut_short(&job.file, Vec::new(), &fault, style);
                watch.show(&trial);
                return trial;
            }
        };
        let mut clock = Clock::of(&means.budget, began);
        let mut stated: Vec<ToldExpectation> = Vec::new();
        let mut printed: Vec<String> = Vec::new();
        let mut ended: Option<Trial> = None;
        loop {
            match heard.recv_timeout(LOOK) {
                Ok(Message::Walled(kept)) => tell_lacks(kept, watch),
                Ok(Message::Begin(total)) => watch.progress().begin(total),
                Ok(Message::Ticks(done)) => watch.progress().tick(done),
                Ok(Message::End) => watch.progress().end(),
                Ok(Message::Say(words)) => watch.progress().say(&tame(&words)),
                Ok(Message::Printed(lines)) => printed.extend(lines),
                Ok(Message::Stated(expectation)) => stated.push(*expectation),
                Ok(Message::Played(trial)) => {
                    watch.show(&trial);
                    ended = Some(*trial);
                }
                Err(RecvTimeoutError::Timeout) => {}
                Err(RecvTimeoutError::Disconnected) => break,
            }
            clock.look(means.stop.asked(), &mut self);
        }
        watch.progress().end();
        let status = self.child.wait();
        let _ = reading.join();
        let words = last_words.join().unwrap_or_default();
        ended.unwrap_or_else(|| {
            if let Manner::Run { folder, .. } = &job.manner {
                // Nobody else writes there meanwhile.
                let _ = remove_unfinished(folder);
            }
            let fault = match status {
                Ok(status) => unusual_end(status, clock.killed_for, &words, means),
                Err(error) => Fault::new(
                    Exit::CouldNotFinish,
                    format!("can't learn how the process that played it ended: {error}"),
                ),
            };
            let trial = Trial::cut_short(&job.file, stated, &fault, style);
            let trial = Trial { text: cut_short_text(&trial), printed, ..trial };
            watch.show(&trial);
            trial
        })
    }
}

/// The words on a scenario of which the end is not known.
fn cut_short_text(trial: &Trial) -> String {
    let file = tame(&trial.file.display().to_string());
    let (all, held, failed) = trial.counts();
    let failed = if failed > 0 { format!(", {failed} FAILED") } else { String::new() };
    let mut text = format!(
        "{file}\n{held} of {all} expectations that it stated before held{failed}; its pictures and rows are lost\n"
    );
    text.extend(trial.expectations.iter().take(MOST_SHOWN).map(|one| one.shown.as_str()));
    text
}

fn tell_lacks(kept: WallsHeld, watch: &dyn Watch) {
    if let Some(words) = kept.lacks() {
        watch.lacks(&words);
    }
}

/// Reads what a worker says on its standard error, and keeps the end of it.
///
/// # Errors
/// No thread can be started.
fn last_words(pipe: Option<ChildStderr>) -> io::Result<thread::JoinHandle<String>> {
    thread::Builder::new().spawn(move || {
        let Some(mut pipe) = pipe else { return String::new() };
        let mut kept: Vec<u8> = Vec::new();
        let mut block = [0; LAST_WORDS];
        while let Ok(length @ 1..) = pipe.read(&mut block) {
            kept.extend_from_slice(&block[..length]);
            let past = kept.len().saturating_sub(block.len());
            kept.drain(..past);
        }
        String::from_utf8_lossy(&kept).into_owned()
    })
}

/// The time of a worker, and what is done when it is over.
struct Clock {
    over_at: Option<Instant>,
    asked: Option<(StopReason, Instant)>,
    killed_for: Option<StopReason>,
}

impl Clock {
    fn of(budget: &Budget, began: Instant) -> Self {
        let over_at = budget.time.and_then(|time| began.checked_add(time));
        Self { over_at, asked: None, killed_for: None }
    }

    /// Asks for an end when it is due, and ends by force what does not end.
    fn look(&mut self, wished: Option<StopReason>, worker: &mut WorkerProcess) {
        let now = Instant::now();
        if self.asked.is_none() {
            let over = self.over_at.filter(|at| now >= *at).map(|_| StopReason::Time);
            if let Some(reason) = wished.or(over) {
                worker.wish(Wish::Stop(reason));
                self.asked = Some((reason, now));
            }
        }
        if let Some((reason, since)) = self.asked
            && now.duration_since(since) > grace(reason)
            && self.killed_for.is_none()
        {
            self.killed_for = Some(reason);
            let _ = worker.child.kill();
        }
    }
}

const fn grace(reason: StopReason) -> Duration {
    match reason {
        StopReason::Interrupt => GRACE_OF_USER,
        StopReason::Time | StopReason::Memory => GRACE,
    }
}

/// The fault of a worker that ended without a word.
fn unusual_end(
    status: ExitStatus,
    killed_for: Option<StopReason>,
    words: &str,
    means: &Means,
) -> Fault {
    let budget = &means.budget;
    if let Some(reason) = killed_for {
        return reason.fault(budget);
    }
    let of_system = SystemLimits::below(budget, means.threads);
    if words.contains(NO_THREADS) {
        return Fault::new(Exit::CouldNotFinish, NO_THREADS)
            .with_hint("try fewer with --threads, or raise the system's limits");
    }
    let aborted = status.code() == Some(ABORTED.into());
    if words.contains("memory allocation of") || (aborted && !words.contains("its stack")) {
        return of_system.memory_fault(budget);
    }
    if let Some(signal) = signal_of(status) {
        // Numbers of signal(7), alike on the machines that Rust knows Linux for, but for MIPS and SPARC.
        return match signal {
            9 => Fault::new(
                Exit::CouldNotFinish,
                format!(
                    "the system ended the process that played it: somebody killed it, or memory was short{}",
                    of_system.processor.map_or_else(String::new, |seconds| format!(
                        ", or its {seconds} s on the processor (ulimit -t) were over"
                    ))
                ),
            )
            .with_hint("play less at once, or set a lower limit with --memory"),
            24 => match of_system.processor {
                None => StopReason::Time.fault(budget),
                Some(seconds) => Fault::new(
                    Exit::CouldNotFinish,
                    format!("its {seconds} s on the processor, the system's limit (ulimit -t), were over"),
                ),
            },
            25 => Fault::new(
                Exit::OverBudget,
                format!("it wrote more than {} and was stopped", budget.output_in_words()),
            )
            .with_hint("keep less, or allow more with --output-size"),
            1 | 2 | 3 | 15 => Fault::new(
                Exit::CouldNotFinish,
                format!("the process that played it was ended from outside, by signal {signal}"),
            ),
            _ => program_fault(&format!("signal {signal}"), words),
        };
    }
    program_fault(&format!("exit code {}", status.code().unwrap_or(-1)), words)
}

/// A fault of this program.
fn program_fault(how: &str, words: &str) -> Fault {
    let last = words.lines().map(str::trim).find(|line| !line.is_empty()).unwrap_or_default();
    let told = if last.is_empty() { String::new() } else { format!(": {last}") };
    Fault::new(
        Exit::CouldNotFinish,
        format!("the process that played it ended by {how}, by a fault of this program{told}"),
    )
    .with_hint("please report it, with the file")
}

#[cfg(unix)]
fn signal_of(status: ExitStatus) -> Option<i32> {
    std::os::unix::process::ExitStatusExt::signal(&status)
}

#[cfg(not(unix))]
fn signal_of(_: ExitStatus) -> Option<i32> {
    None
}
