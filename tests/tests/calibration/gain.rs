//! Banks that are planned tell more than random ones, and about as much as the plan says.
//!
//! Made-up tables, drawn from the wide ensemble under `nose-only`, are measured by six planned banks and by six random
//! candidates, and fitted with the settings that ship. `RAILPROOF_GAIN_TABLES=100` asks as many tables, and other
//! hands and readings beside. Measured so, with the widths of 90 % intervals, and half the slope's width in the middle:
//!
//! | six banks | slope, planned over random | slope known to |
//! |---|---|---|
//! | side sd 0.02, read to 0.05 of a diamond | 0.82 ± 0.02 | ± 0.036 |
//! | read to 0.1 | 0.84 ± 0.02 | ± 0.041 |
//! | side sd 0.05 | 0.83 ± 0.01 | ± 0.039 |
//! | side sd 0.1 | 0.84 ± 0.02 | ± 0.046 |
//! | a plan for the slope alone | 0.79 ± 0.02 | ± 0.033 |
//! | six at twice the contact | 0.89 ± 0.02 | ± 0.039 |
//!
//! From 4 inches off the plan leaves 0.85 ± 0.02 of what the six at twice the contact leave, and 0.92 ± 0.02 of what a plan for the
//! slope alone does; from 12 inches off 0.92 ± 0.02 and 0.96 ± 0.02. No bank comes twice in this plan. It foretells 0.342, 0.395
//! and 0.358 of the widths of slope and places; 0.324, 0.376 and 0.325 were left.

use crate::protocol::six_at_twice_the_contact;
use railproof_engine::ask::{CredibleInterval, best_slopes};
use railproof_engine::column::SetUp;
use railproof_engine::ensemble::{Ensemble, Member};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::evidence::{Evidence, MadeUpTable, Scatter, Watching};
use railproof_engine::narrow::{NarrowSettings, narrow};
use railproof_engine::planning::{
    MOST_REPEATS, PlayedCandidates, WantedNumber, candidates, places, plan_with_repeats,
    usual_banks, usual_numbers,
};
use railproof_engine::sample::{Sample, Sampling};
use railproof_tests::{is_thorough, nine_foot_with_cushion};
use rayon::prelude::*;

const MODEL: RailModel = RailModel::NoseOnly;
/// Banks of a plan.
pub(crate) const SIX: usize = 6;
/// Members that are asked for slopes and places.
pub(crate) const ASKED: usize = 512;
/// The slope, and the places from 4 and 12 inches off the rail.
pub(crate) const NUMBERS: usize = 3;
/// A diamond of the end rail, m.
const DIAMOND_M: f64 = 0.3175;

/// A hand and how well it reads, in diamonds.
#[derive(Clone, Copy)]
pub(crate) struct Measuring {
    scatter: Scatter,
    read_to: f64,
}

pub(crate) const CAREFUL: Measuring = Measuring { scatter: Scatter::CAREFUL, read_to: 0.05 };

const fn with_side(side: f64) -> Measuring {
    Measuring { scatter: Scatter { side, ..Scatter::CAREFUL }, ..CAREFUL }
}

/// The widths of the 90 % intervals of each number.
pub(crate) fn widths(table: &Equipment, model: RailModel, ensemble: &Ensemble) -> [f64; NUMBERS] {
    let members = ensemble.members();
    let step = (members.len() / ASKED).max(1);
    let some = Ensemble::even(members.iter().step_by(step).copied().collect());
    let slopes = best_slopes(table, model, &some).expect("banks of this table");
    let off = places(table, model, some.members(), &usual_banks()).expect("banks of this table");
    let width = |wanted: &WantedNumber| {
        CredibleInterval::of(&wanted.values, some.weights()).expect("places").width()
    };
    [slopes.interval.expect("slopes").width(), width(&off[0]), width(&off[1])]
}

/// The widths after these banks of a table.
fn fitted(
    table: &Equipment,
    model: RailModel,
    truth: &Member,
    banks: &[SetUp],
    measuring: Measuring,
    seed: u64,
) -> [f64; NUMBERS] {
    let scatter = &measuring.scatter;
    let watching = Watching::Numbers { read_to_m: measuring.read_to * DIAMOND_M };
    let banks: Vec<_> = banks.iter().map(|bank| (*bank, watching)).collect();
    let known = MadeUpTable { table, model, member: truth, scatter, seed };
    let seen = known.watched(&banks).expect("banks of this table");
    let evidence = Evidence::new(table, model, seen).expect("banks of this table");
    let narrowed = narrow(&evidence, NarrowSettings::SHIPPED).expect("banks of this table");
    widths(table, model, &narrowed.ensemble)
}

/// Six candidates by the draw.
fn random_six(table: u64) -> Vec<SetUp> {
    let all = candidates();
    let drawn = Sample { how: Sampling::Random, points: 1 << 20, seed: 808, dimensions: SIX };
    let one = |at: usize| {
        let share = drawn.coordinate(table, at) * all.len() as f64;
        (0..all.len()).rfind(|at| *at as f64 <= share).map_or(all[0], |at| all[at])
    };
    (0..SIX).map(one).collect()
}

/// The members of another sample than the fits and the plan begin with.
pub(crate) fn truths(count: usize) -> Vec<Member> {
    Ensemble::wide(4096, 177).members()[4096 - count..].to_vec()
}

/// A plan from published ranges alone, as a fit of no bank makes it.
pub(crate) struct WidePlan {
    pub(crate) played: PlayedCandidates,
    wanted: Vec<WantedNumber>,
}

impl WidePlan {
    pub(crate) fn of(table: &Equipment, model: RailModel) -> Self {
        let wide = Ensemble::wide(ASKED, 1);
        let slopes = best_slopes(table, model, &wide).expect("banks of this table").slopes;
        let wanted = usual_numbers(table, model, wide.members(), &slopes).expect("banks");
        let played = PlayedCandidates::of(table, model, wide.members(), &[]).expect("banks");
        Self { played, wanted }
    }

    pub(crate) fn banks(&self, most_repeats: usize) -> Vec<usize> {
        let PlayedCandidates { seen, noise_m2, .. } = &self.played;
        plan_with_repeats(seen, noise_m2, &self.wanted, SIX, most_repeats)
            .iter()
            .map(|bank| bank.candidate)
            .collect()
    }

    /// A plan for the slope and nothing else.
    fn for_the_slope(&self) -> Vec<SetUp> {
        let banks = self.played.next(&self.wanted[..1], SIX);
        banks.iter().map(|(set_up, _)| *set_up).collect()
    }

    pub(crate) fn set_ups(&self, banks: &[usize]) -> Vec<SetUp> {
        banks.iter().map(|&at| self.played.set_ups[at]).collect()
    }

    /// What these banks are expected to leave of each number: updating goes in any order.
    pub(crate) fn expected(&self, banks: &[usize]) -> [f64; NUMBERS] {
        let seen: Vec<_> = banks.iter().map(|&at| self.played.seen[at].clone()).collect();
        let noise: Vec<_> = banks.iter().map(|&at| self.played.noise_m2[at]).collect();
        core::array::from_fn(|number| {
            // One bank that comes three times is three columns here.
            let wanted = [self.wanted[number].clone()];
            plan_with_repeats(&seen, &noise, &wanted, SIX, 1).pop().expect("six banks").left
        })
    }
}

/// Each table's widths.
pub(crate) fn measured(
    table: &Equipment,
    model: RailModel,
    truths: &[Member],
    measuring: Measuring,
    banks: &(impl Fn(u64) -> Vec<SetUp> + Sync),
) -> Vec<[f64; NUMBERS]> {
    truths
        .par_iter()
        .enumerate()
        .map(|(at, truth)| {
            let at = at as u64;
            fitted(table, model, truth, &banks(at), measuring, 61_000 + at)
        })
        .collect()
}

/// The geometric mean of the ratio of widths, table by table, and its standard error.
pub(crate) fn ratio(
    these: &[[f64; NUMBERS]],
    others: &[[f64; NUMBERS]],
    number: usize,
) -> (f64, f64) {
    let logs: Vec<f64> =
        these.iter().zip(others).map(|(a, b)| (a[number] / b[number]).ln()).collect();
    geometric_mean(&logs)
}

/// Of numbers whose logarithms these are, with its standard error.
pub(crate) fn geometric_mean(logs: &[f64]) -> (f64, f64) {
    let count = logs.len() as f64;
    let mean = logs.iter().sum::<f64>() / count;
    let variance = logs.iter().map(|log| (log - mean).powi(2)).sum::<f64>() / (count - 1.0);
    (mean.exp(), mean.exp() * (variance / count).sqrt())
}

pub(crate) fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

#[test]
fn planned_banks_tell_more_than_random_ones_and_as_much_as_the_plan_says() {
    let table = nine_foot_with_cushion("cushions/even-bounce");
    let asked = std::env::var("RAILPROOF_GAIN_TABLES").ok();
    let tables = asked.as_ref().map_or_else(
        || if is_thorough() { 40 } else { 10 },
        |text| text.parse().expect("a number of tables"),
    );
    let truths = truths(tables);
    let plan = WidePlan::of(&table, MODEL);
    let six = plan.banks(MOST_REPEATS);
    let planned = plan.set_ups(&six);
    for bank in &planned {
        let (line, off_in) = (bank.line, bank.off_rail_m / 0.0254);
        println!(
            "{} from {}, {off_in:.0} in, {:?}, {}",
            line.contact,
            line.start,
            bank.speed,
            bank.pocket.name()
        );
    }
    let ours = measured(&table, MODEL, &truths, CAREFUL, &|_| planned.clone());
    let random = measured(&table, MODEL, &truths, CAREFUL, &random_six);
    let slope = ratio(&ours, &random, 0);
    println!(
        "slope's width, planned over random: {:.3} ± {:.3} ({tables} tables)",
        slope.0, slope.1
    );
    assert!(slope.0 + 2.0 * slope.1 < 1.0, "{slope:?}");

    let before = widths(&table, MODEL, &Ensemble::wide(ASKED, 1));
    let expected = plan.expected(&six);
    for (number, name) in ["slope", "4 in off", "12 in off"].into_iter().enumerate() {
        let left =
            ours.iter().map(|widths| widths[number] / before[number]).sum::<f64>() / tables as f64;
        let off = expected[number] / left;
        println!("{name}: expected to leave {:.3}, left {left:.3}", expected[number]);
        assert!((1.0 / 1.5..=1.5).contains(&off), "{name}: {} and {left}", expected[number]);
    }
    let half = median(ours.iter().map(|widths| 0.5 * widths[0]).collect());
    println!("slope known to ± {half:.4} in most");
    // 0.036 over 100 tables; 0.035 was hoped for, which a plan for the slope alone keeps.
    assert!(half <= 0.04, "{half}");
    if asked.is_some() {
        others(&table, &truths, &plan, &planned, &ours);
    }
}

/// Other hands and readings, six at twice the contact, and plans in which no bank is repeated.
fn others(
    table: &Equipment,
    truths: &[Member],
    plan: &WidePlan,
    planned: &[SetUp],
    ours: &[[f64; NUMBERS]],
) {
    let careless = Measuring { read_to: 0.1, ..CAREFUL };
    for (name, measuring) in
        [("read to 0.1", careless), ("side 0.05", with_side(0.05)), ("side 0.1", with_side(0.1))]
    {
        let these = measured(table, MODEL, truths, measuring, &|_| planned.to_vec());
        let random = measured(table, MODEL, truths, measuring, &random_six);
        let slope = ratio(&these, &random, 0);
        let half = median(these.iter().map(|widths| 0.5 * widths[0]).collect());
        println!("{name}: {:.3} ± {:.3}; slope known to ± {half:.4} in most", slope.0, slope.1);
        assert!(slope.0 + 2.0 * slope.1 < 1.0 && half <= 0.05, "{name}: {slope:?}, {half}");
    }
    let usual = six_at_twice_the_contact();
    let once = plan.set_ups(&plan.banks(1));
    let of_slope = plan.for_the_slope();
    for (name, banks) in
        [("six at twice the contact", usual), ("no bank twice", once), ("slope alone", of_slope)]
    {
        let these = measured(table, MODEL, truths, CAREFUL, &|_| banks.clone());
        let half = median(these.iter().map(|widths| 0.5 * widths[0]).collect());
        println!("{name}: slope known to ± {half:.4} in most");
        for number in 0..NUMBERS {
            let (mean, error) = ratio(ours, &these, number);
            println!("planned over {name}, number {number}: {mean:.3} ± {error:.3}");
        }
    }
}
