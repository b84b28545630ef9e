//! The cost of keeping a sweep: playing alone beside playing into Parquet shards, one thread beside
//! two, and the memory of small and large sweeps that keep only a map.
//!
//! `RAILPROOF_BENCH=short` makes a quick pass whose figures are rough.

use railproof::files::RealDisk;
use railproof::plan::{Keep, SweepPlan};
use railproof::scenario::FunctionShots;
use railproof::shards::{Folder, PlayOptions, SweepWatch, play_shards};
use railproof_benches::table::nine_foot;
use railproof_benches::timing::is_short;
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::Reading;
use railproof_engine::rule::{NamedRule, Rule};
use railproof_engine::sample::Sampling;
use railproof_engine::sweep::{Axis, Input, Plan, PlayedRows, Player, Span, Tally, Values};
use std::hint::black_box;
use std::sync::atomic::AtomicBool;
use std::time::Instant;

/// Names the child that measures its own memory: points and where to.
const CHILD: &str = "RAILPROOF_NIGHT_CHILD";

struct Nobody;

impl SweepWatch for Nobody {
    fn played(&self, _: &Tally) {}
    fn kept(&self, _: u64) {}
}

fn main() {
    if let Some(points) = std::env::var_os(CHILD) {
        return child(points.to_str().and_then(|text| text.parse().ok()).unwrap_or(0));
    }
    for (model, points) in [(RailModel::NoseAndCloth, 1 << 17), (RailModel::Planar, 1 << 21)] {
        let points = if is_short() { points >> 4 } else { points };
        keeping(&sampled(model, points, Keep::Rows));
    }
    memory();
}

/// A ball over half a table, spread by Sobol's sequence.
fn sampled(model: RailModel, points: u64, keep: Keep) -> SweepPlan {
    let range = |input, low, high| Axis { input, values: Values::Range(Span { low, high }) };
    let axes = vec![
        Axis { input: Input::Equipment, values: Values::Equipment(vec![nine_foot()]) },
        Axis { input: Input::RailModel, values: Values::Models(vec![model]) },
        range(Input::Contact, 1.0, 4.0),
        range(Input::OffRail, 0.0, 0.5),
        range(Input::Speed, 1.5, 7.0),
        range(Input::Roll, 0.0, 1.0),
        range(Input::RunningSide, -0.2, 0.2),
    ];
    let banks = Plan::sampled(axes, Sampling::Sobol, points, 1).expect("the ranges are in range");
    let rule = Rule::linear(2.2, 0.0, Reading::Groove).expect("the numbers are finite");
    SweepPlan::new("night".to_owned(), banks, vec![NamedRule::from(rule)], keep)
}

/// Playing alone, playing and keeping, on one thread and on two: by turns, the fastest of each.
fn keeping(plan: &SweepPlan) {
    let pools = [1, 2].map(|threads| {
        rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads can be had")
    });
    let rounds = if is_short() { 1 } else { 5 };
    let mut best = [f64::INFINITY; 3];
    for _ in 0..rounds {
        let begun = Instant::now();
        alone(plan);
        best[0] = best[0].min(begun.elapsed().as_secs_f64());
        for (best, pool) in best[1..].iter_mut().zip(&pools) {
            let folder = tempfile::tempdir().expect("a temporary folder can be had");
            let begun = Instant::now();
            pool.install(|| kept(plan, folder.path()));
            *best = best.min(begun.elapsed().as_secs_f64());
        }
    }
    let name = plan.banks().unwrap().axes()[1].values.word(0).unwrap_or_default();
    let each = |seconds: f64| 1e9 * seconds / plan.bank_count() as f64;
    println!("\n{} {name} banks by Sobol's sequence, {} shards", plan.bank_count(), plan.shards());
    println!("  played, one thread                  {:9.1} ns a bank", each(best[0]));
    println!(
        "  played and kept, one thread         {:9.1} ns a bank: {:+.1} %",
        each(best[1]),
        100.0 * (best[1] / best[0] - 1.0)
    );
    println!(
        "  played and kept, two threads        {:9.1} ns a bank: {:.2} times one thread's rate",
        each(best[2]),
        best[1] / best[2]
    );
}

fn alone(plan: &SweepPlan) {
    let stop = AtomicBool::new(false);
    let mut played = PlayedRows::default();
    let mut player =
        Player::new(plan.banks().unwrap(), plan.rules(), plan.keep.wanted()).expect("it aims");
    for shard in 0..plan.shards() {
        played.clear();
        player.play(plan.shard(shard), &mut played, &stop);
        black_box(&played);
    }
}

fn kept(plan: &SweepPlan, into: &std::path::Path) {
    let stop = AtomicBool::new(false);
    let how = PlayOptions {
        disk: &RealDisk,
        maker: &FunctionShots,
        watch: &Nobody,
        stop: &stop,
        stop_on_error: false,
    };
    let folder = Folder::new(into);
    let shards: Vec<u64> = (0..plan.shards()).collect();
    folder
        .open(plan, &RealDisk)
        .and_then(|()| play_shards(plan, &shards, &folder, how))
        .expect("there is room in the temporary folder");
}

/// The most memory that sweeps of growing size take which keep only a map, each in a process of its
/// own.
fn memory() {
    println!("\nMost memory of a planar sweep that keeps a map, two threads");
    let sizes: &[u64] = if is_short() { &[100_000, 1_000_000] } else { &[1_000_000, 100_000_000] };
    for points in sizes {
        let begun = Instant::now();
        let child = std::env::current_exe().map(|program| {
            std::process::Command::new(program).env(CHILD, points.to_string()).output()
        });
        let Ok(Ok(output)) = child else {
            println!("  {points:>11} points: no process can be started");
            continue;
        };
        println!(
            "  {points:>11} points: {} in {:.1} s",
            String::from_utf8_lossy(&output.stdout).trim(),
            begun.elapsed().as_secs_f64()
        );
    }
}

fn child(points: u64) {
    let plan = sampled(RailModel::Planar, points, Keep::Map);
    let folder = tempfile::tempdir().expect("a temporary folder can be had");
    let pool = rayon::ThreadPoolBuilder::new().num_threads(2).build().expect("threads can be had");
    pool.install(|| kept(&plan, folder.path()));
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let most = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    println!("{}", most.map_or("this system does not tell", str::trim));
}
