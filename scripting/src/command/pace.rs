//! Progress of a sweep: a bar on a terminal, otherwise a line now and then.

use crate::plan::SweepPlan;
use crate::shards::{Inventory, SweepWatch};
use crate::telling::amounts::{duration, grouped};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use railproof_engine::sweep::Tally;
use std::io::{IsTerminal, Write};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

/// Between two looks.
const LOOK: Duration = Duration::from_millis(200);
/// The first line when there is no terminal.
const FIRST_LINE: Duration = Duration::from_secs(10);
/// Lines after it.
const NEXT_LINES: Duration = Duration::from_mins(1);

#[derive(Debug, Default)]
struct Counts {
    /// The things that are played.
    noun: &'static str,
    /// The number of kinds of verdict that succeed.
    successes: usize,
    /// Banks played by this run.
    now: AtomicU64,
    /// Banks that were there already.
    before: u64,
    /// Banks in all that this run is to end with.
    total: u64,
    holds: AtomicU64,
    played: AtomicU64,
    failed: AtomicU64,
}

/// Shows the progress of the sweep until it is ended.
#[derive(Debug)]
pub(super) struct SweepProgress {
    counts: Arc<Counts>,
    over: Arc<AtomicBool>,
    shown: Mutex<Option<JoinHandle<()>>>,
}

impl SweepProgress {
    /// Begins to show.
    pub fn start(plan: &SweepPlan, inventory: &Inventory, todo: &[u64], quiet: bool) -> Self {
        let mut counts =
            Counts { noun: plan.noun(), successes: plan.successes(), ..Counts::default() };
        for found in inventory.found.values() {
            counts.before += found.note.points * plan.ways();
            found.note.tallies.iter().for_each(|tally| counts.add(tally));
        }
        let left: u64 = todo
            .iter()
            .map(|shard| {
                let points = plan.shard(*shard);
                (points.end - points.start) * plan.ways()
            })
            .sum();
        counts.total = counts.before + left;
        counts.now = AtomicU64::new(0);
        let (counts, over) = (Arc::new(counts), Arc::new(AtomicBool::new(false)));
        // Without a thread to show it nothing is shown.
        let shown = (!quiet).then(|| {
            let (counts, over) = (Arc::clone(&counts), Arc::clone(&over));
            std::thread::Builder::new().spawn(move || {
                if std::io::stderr().is_terminal() {
                    bar(&counts, &over);
                } else {
                    lines(&counts, &over);
                }
            })
        });
        let shown = shown.and_then(Result::ok);
        Self { counts, over, shown: Mutex::new(shown) }
    }

    /// Shows no more.
    pub fn end(&self) {
        self.over.store(true, Ordering::Relaxed);
        let shown = self.shown.lock().unwrap_or_else(PoisonError::into_inner).take();
        if let Some(shown) = shown {
            let _ = shown.join();
        }
    }
}

impl SweepWatch for SweepProgress {
    fn played(&self, tally: &Tally) {
        self.counts.now.fetch_add(tally.played() + tally.failed, Ordering::Relaxed);
        self.counts.add(tally);
    }

    fn kept(&self, _: u64) {}
}

impl Counts {
    fn add(&self, tally: &Tally) {
        self.played.fetch_add(tally.played(), Ordering::Relaxed);
        self.holds.fetch_add(tally.of_first(self.successes), Ordering::Relaxed);
        self.failed.fetch_add(tally.failed, Ordering::Relaxed);
    }

    fn done(&self) -> u64 {
        self.before + self.now.load(Ordering::Relaxed)
    }

    /// Rate, time left, share holding and failures.
    fn say(&self, since: Instant) -> String {
        if self.now.load(Ordering::Relaxed) == 0 {
            return "beginning".to_owned();
        }
        let rate = self.now.load(Ordering::Relaxed) as f64 / since.elapsed().as_secs_f64();
        let left = self.total.saturating_sub(self.done()) as f64 / rate.max(1e-9);
        let left = Duration::try_from_secs_f64(left).unwrap_or(Duration::MAX);
        let played = self.played.load(Ordering::Relaxed).max(1) as f64;
        format!(
            "{} {}/s, {} left, {:.1} % {}, {} failed",
            per_second(rate),
            self.noun,
            duration(left),
            100.0 * self.holds.load(Ordering::Relaxed) as f64 / played,
            if self.successes == 1 { "hold" } else { "made" },
            grouped(self.failed.load(Ordering::Relaxed))
        )
    }
}

fn per_second(rate: f64) -> String {
    match rate {
        _ if rate < 1e4 => format!("{rate:.0}"),
        _ if rate < 1e6 => format!("{:.0} thousand", rate / 1e3),
        _ => format!("{:.2} million", rate / 1e6),
    }
}

fn bar(counts: &Counts, over: &AtomicBool) {
    let since = Instant::now();
    let bar = ProgressBar::with_draw_target(Some(counts.total), ProgressDrawTarget::stderr());
    if let Ok(style) = ProgressStyle::with_template("{bar:24} {percent} % {msg}") {
        bar.set_style(style);
    }
    while !over.load(Ordering::Relaxed) {
        std::thread::sleep(LOOK);
        bar.set_position(counts.done());
        bar.set_message(counts.say(since));
    }
    bar.finish_and_clear();
}

fn lines(counts: &Counts, over: &AtomicBool) {
    let since = Instant::now();
    let mut next = FIRST_LINE;
    while !over.load(Ordering::Relaxed) {
        std::thread::sleep(LOOK);
        if since.elapsed() >= next {
            next += NEXT_LINES;
            let _ = writeln!(
                std::io::stderr(),
                "{} of {} {}, {}",
                grouped(counts.done()),
                grouped(counts.total),
                counts.noun,
                counts.say(since)
            );
        }
    }
}
