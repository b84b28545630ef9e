//! The cost of a sweep's banks, one by one, as a batch, and by rivals: all by turns in one run, the
//! fastest round of each, so that other work of the machine spoils no ratio.
//!
//! The compiled rival needs a Python with numba; `RAILPROOF_PYTHON` names one. `RAILPROOF_BENCH=short`
//! makes a quick pass whose figures are rough.

use railproof_benches::draws::{RANGES, fill};
use railproof_benches::numba_rival::NumbaRival;
use railproof_benches::rigid_body::rigid_body;
use railproof_benches::shot::Shot;
use railproof_benches::table::bank;
use railproof_benches::timing::is_short;
use railproof_engine::bank::{Bank, BankVerdict, Launch};
use railproof_engine::batch::{ColumnChoice, Inputs, Outcomes, Width, play};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::Line;
use rayon::prelude::*;
use std::cell::RefCell;
use std::hint::black_box;
use std::time::Instant;

/// Banks that are drawn and played together: their columns stay in the second cache.
const TOGETHER: usize = 4096;

/// Something that plays a number of banks.
struct Way<'a> {
    name: &'static str,
    banks: usize,
    seconds: f64,
    run: Box<dyn FnMut() -> Option<f64> + 'a>,
}

impl<'a> Way<'a> {
    /// One that is timed here.
    fn new(name: &'static str, banks: usize, mut work: impl FnMut() + 'a) -> Self {
        let run = Box::new(move || {
            let begun = Instant::now();
            work();
            Some(begun.elapsed().as_secs_f64())
        });
        Self { name, banks, seconds: f64::INFINITY, run }
    }

    fn nanoseconds(&self) -> f64 {
        1e9 * self.seconds / self.banks as f64
    }
}

/// Runs all by turns and keeps the fastest round of each.
fn by_turns(ways: &mut [Way<'_>]) {
    let rounds = if is_short() { 3 } else { 25 };
    for _ in 0..rounds {
        for way in &mut *ways {
            if let Some(seconds) = (way.run)() {
                way.seconds = way.seconds.min(seconds);
            }
        }
    }
}

fn main() {
    let count = TOGETHER * if is_short() { 8 } else { 64 };
    println!(
        "\n{count} banks drawn over a map; {:?} is the widest this processor has",
        Width::widest()
    );
    shares(count);
    let bank = bank(RailModel::Planar);
    let rival = match NumbaRival::start(&bank, &RANGES, count) {
        Ok(mut rival) => {
            println!("rival: {}", rival.versions);
            compare_numbers(&bank, &mut rival, count);
            Some(rival)
        }
        Err(why) => {
            println!("NO COMPILED RIVAL in this run: {why} (RAILPROOF_PYTHON names a Python)");
            None
        }
    };
    planar(&bank, rival, count);
    integrated(count / 64);
    threads();
}

/// The share of each verdict, since the cost of a bank depends on its way.
fn shares(count: usize) {
    let (mut inputs, mut verdicts) = (Inputs::default(), Outcomes::default());
    fill(&mut inputs, 0, count);
    play(&bank(RailModel::Planar), &inputs, ColumnChoice::Verdicts, &mut verdicts);
    for verdict in BankVerdict::ALL {
        let met = verdicts.verdict.iter().filter(|other| **other == verdict).count();
        print!("  {} {:.1} %", verdict.name(), 100.0 * met as f64 / count as f64);
    }
    println!();
}

/// The rival's numbers beside the batch's.
fn compare_numbers(bank: &Bank, rival: &mut NumbaRival, count: usize) {
    let file = std::env::temp_dir().join(format!("planar-banks-{}", std::process::id()));
    let theirs = rival.answers(&file);
    let _ = std::fs::remove_file(&file);
    let (mut inputs, mut verdicts) = (Inputs::default(), Outcomes::default());
    fill(&mut inputs, 0, count);
    play(bank, &inputs, ColumnChoice::Verdicts, &mut verdicts);
    let Ok(theirs) = theirs else {
        println!("the rival's numbers are not to be had");
        return;
    };
    let mut largest: f64 = 0.0;
    let mut apart = 0;
    for i in 0..count {
        let ours =
            [verdicts.miss_m[i], verdicts.clearance_long_m[i], verdicts.clearance_short_m[i]];
        for (ours, column) in ours.into_iter().zip(1..) {
            let difference = (ours - theirs[column * count + i]).abs();
            // A number that only one of them has is as far apart as can be.
            let alike = ours.is_nan() && theirs[column * count + i].is_nan();
            largest =
                largest.max(if difference.is_nan() && !alike { f64::INFINITY } else { difference });
        }
        let place = BankVerdict::ALL.iter().position(|verdict| *verdict == verdicts.verdict[i]);
        apart += usize::from(place.map(|place| place as f64) != Some(theirs[i]));
    }
    println!("its numbers differ by {largest:.1e} m at most, and {apart} verdicts");
}

fn planar(bank: &Bank, rival: Option<NumbaRival>, count: usize) {
    let compiled = rival.map(RefCell::new);
    let mut inputs = Inputs::default();
    fill(&mut inputs, 0, count);
    let pieces: Vec<Inputs> = (0..count / TOGETHER)
        .map(|piece| {
            let mut inputs = Inputs::default();
            fill(&mut inputs, (piece * TOGETHER) as u64, TOGETHER);
            inputs
        })
        .collect();
    let mut ways = vec![
        Way::new("one by one", count, || one_by_one(bank, &inputs)),
        Way::new("batch, all columns", count, || {
            let mut outcomes = Outcomes::default();
            for piece in &pieces {
                play(bank, piece, ColumnChoice::Everything, &mut outcomes);
                black_box(&outcomes);
            }
        }),
        Way::new("batch, verdicts", count, || {
            let mut verdicts = Outcomes::default();
            for piece in &pieces {
                play(bank, piece, ColumnChoice::Verdicts, &mut verdicts);
                black_box(&verdicts);
            }
        }),
        Way::new("drawing the inputs alone", count, || {
            let mut inputs = Inputs::default();
            for piece in 0..count / TOGETHER {
                fill(&mut inputs, (piece * TOGETHER) as u64, TOGETHER);
                black_box(&inputs);
            }
        }),
        Way::new("batch, all columns, and drawing", count, || {
            let (mut inputs, mut outcomes) = (Inputs::default(), Outcomes::default());
            for piece in 0..count / TOGETHER {
                fill(&mut inputs, (piece * TOGETHER) as u64, TOGETHER);
                play(bank, &inputs, ColumnChoice::Everything, &mut outcomes);
                black_box(&outcomes);
            }
        }),
        Way::new("batch, verdicts, and drawing", count, || {
            drawn_verdicts(bank, 0, count, TOGETHER);
        }),
    ];
    if let Some(rival) = &compiled {
        let modes = [
            ("numba", "given"),
            ("numba, fast mathematics", "given-fast"),
            ("numba, and drawing", "drawn"),
            ("numba, fast mathematics, and drawing", "drawn-fast"),
        ];
        for (name, mode) in modes {
            let run = Box::new(move || rival.borrow_mut().seconds(mode).ok());
            ways.push(Way { name, banks: count, seconds: f64::INFINITY, run });
        }
    }
    by_turns(&mut ways);
    println!("\nA planar bank on one core");
    let of = |name: &str| ways.iter().find(|way| way.name == name).map(Way::nanoseconds);
    let (rival, drawing_rival) = (of("numba"), of("numba, and drawing"));
    for way in &ways {
        let beside = if way.name.ends_with("drawing") { drawing_rival } else { rival };
        let ratio = match beside {
            Some(beside) if way.name != "drawing the inputs alone" => {
                format!("   {:5.2} times numba's rate", beside / way.nanoseconds())
            }
            _ => String::new(),
        };
        println!("  {:<38} {:7.1} ns{ratio}", way.name, way.nanoseconds());
    }
}

/// Draws and plays `count` banks, so many together.
fn drawn_verdicts(bank: &Bank, first: usize, count: usize, together: usize) {
    let (mut inputs, mut verdicts) = (Inputs::default(), Outcomes::default());
    for piece in 0..count / together {
        fill(&mut inputs, (first + piece * together) as u64, together);
        play(bank, &inputs, ColumnChoice::Verdicts, &mut verdicts);
        black_box(&verdicts);
    }
}

fn one_by_one(bank: &Bank, inputs: &Inputs) {
    for i in 0..inputs.len() {
        let line = Line::new(inputs.contact[i], inputs.start[i]);
        let launch = Launch {
            off_rail_m: inputs.off_rail_m[i],
            speed_m_s: inputs.speed_m_s[i],
            roll: inputs.roll[i],
            side: inputs.side[i],
            aim_error_rad: inputs.aim_error_rad[i],
        };
        let _ = black_box(bank.play(line, launch));
    }
}

/// The integrated impact, beside the planar bank stepped on a rigid-body solver.
fn integrated(count: usize) {
    let bank = bank(RailModel::NoseAndCloth);
    let mut inputs = Inputs::default();
    fill(&mut inputs, 0, count);
    let shot = Shot::reference();
    let mut ways = [
        Way::new("one by one", count, || one_by_one(&bank, &inputs)),
        Way::new("batch, all columns", count, || {
            let mut outcomes = Outcomes::default();
            play(&bank, &inputs, ColumnChoice::Everything, &mut outcomes);
            black_box(&outcomes);
        }),
        Way::new("batch, verdicts", count, || {
            let mut outcomes = Outcomes::default();
            play(&bank, &inputs, ColumnChoice::Verdicts, &mut outcomes);
            black_box(&outcomes);
        }),
        Way::new("planar, stepped by 1 ms on rapier2d", 10, || {
            for _ in 0..10 {
                black_box(rigid_body(black_box(&shot), 1e-3));
            }
        }),
    ];
    by_turns(&mut ways);
    println!("\nA nose-and-cloth bank on one core");
    let batch = ways[2].nanoseconds();
    for way in &ways {
        let each = way.nanoseconds();
        println!(
            "  {:<38} {each:9.1} ns   {:8.4} million a second   the batch is {:.2} times as fast",
            way.name,
            1e3 / each,
            each / batch
        );
    }
}

/// The batch on two threads, each with pieces of its own.
fn threads() {
    println!("\nBatches on two threads, drawing and verdicts");
    let widths = [1, 2];
    let pools: Vec<_> = widths
        .iter()
        .filter_map(|threads| rayon::ThreadPoolBuilder::new().num_threads(*threads).build().ok())
        .collect();
    for (model, together) in [(RailModel::Planar, TOGETHER), (RailModel::NoseAndCloth, 64)] {
        let bank = bank(model);
        let pieces = if is_short() { 128 } else { 512 };
        let banks = pieces * together;
        let mut ways: Vec<Way<'_>> = pools
            .iter()
            .map(|pool| {
                Way::new(model.name(), banks, || {
                    pool.install(|| {
                        (0..pieces).into_par_iter().for_each(|piece| {
                            drawn_verdicts(&bank, piece * together, together, together);
                        });
                    });
                })
            })
            .collect();
        by_turns(&mut ways);
        let [one, two] = &ways[..] else { return };
        println!(
            "  {:<38} {:9.1} ns on one, {:9.1} ns on two: {:.2} times the rate",
            model.name(),
            one.nanoseconds(),
            two.nanoseconds(),
            one.seconds / two.seconds
        );
    }
}
