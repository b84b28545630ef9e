//! The cost of a bank beside that of its rivals, in one run, as ratios.
//!
//! `RAILPROOF_BENCH=short` makes a quick pass whose figures are rough.

use railproof_benches::fixed_step_impact::fixed_step_impact;
use railproof_benches::rigid_body::rigid_body;
use railproof_benches::runge_kutta::runge_kutta;
use railproof_benches::shot::Shot;
use railproof_benches::table::{bank, contact, frozen_stun_impact};
use railproof_benches::timing::{Time, time};
use railproof_engine::bank::{Bank, Launch, exact_start};
use railproof_engine::equipment::RailModel;
use railproof_engine::impact::nose_and_cloth;
use railproof_engine::rail::Reading;
use railproof_engine::rail::{Line, PocketChoice, RailChoice};
use railproof_engine::rule::{NamedRule, Rule};
use railproof_engine::sweep::{Axis, Input, Plan, Values, compare};
use std::hint::black_box;
use std::time::Instant;

fn main() {
    println!("\nA whole bank on one core: slide, impact, slide, roll, arrival, verdict");
    let foot = Launch { off_rail_m: 0.3048, ..Launch::frozen_stun(4.0) };
    let mut planar = None;
    for model in [RailModel::Planar, RailModel::NoseOnly, RailModel::NoseAndCloth] {
        let bank = bank(model);
        let line = holding_line(&bank, foot);
        let one = time(|| bank.play(black_box(line), black_box(foot)));
        // Every bank of a small map, so that easy and hard impacts are met in their proportion.
        let launches: Vec<(Line, Launch)> = spread();
        let mut next = launches.iter().cycle();
        let mixed = time(|| next.next().map(|(line, launch)| bank.play(*line, *launch)));
        println!("  {:<16} {one}   over a map {mixed}", model.name());
        if model == RailModel::Planar {
            planar = Some(one);
        }
    }
    let compliant = bank(RailModel::Compliant);
    let line = holding_line(&compliant, foot);
    let stepped = time(|| compliant.play(black_box(line), black_box(foot)));
    let times = planar.map_or(0.0, |planar| stepped.over(planar));
    println!("  {:<16} {stepped}   {times:.0} times the planar bank", "compliant");
    rivals();
    impact();
    threads();
}

/// The line of contact 2 that goes through the middle of the mouth.
fn holding_line(bank: &Bank, launch: Launch) -> Line {
    Line::new(2.0, exact_start(bank, 2.0, launch).unwrap_or(4.4))
}

/// Contacts, distances and speeds as in a scenario.
fn spread() -> Vec<(Line, Launch)> {
    let mut all = Vec::new();
    for contact in 5..=14 {
        for off_rail_m in [0.0, 0.1, 0.3] {
            for speed in 4..=12 {
                let contact = f64::from(contact) * 0.25;
                let launch = Launch { off_rail_m, ..Launch::frozen_stun(0.5 * f64::from(speed)) };
                all.push((Line::new(contact, 2.2 * contact), launch));
            }
        }
    }
    all
}

fn rivals() {
    println!(
        "\nThe same planar bank by its rivals (time, times the closed form, error at arrival)"
    );
    let shot = Shot::reference();
    let Some(exact) = shot.closed_form() else { return };
    let ours = time(|| black_box(&shot).closed_form());
    println!("  {:<28} {ours}", "closed form");
    let row = |name: &str, spent: Time, arrival: Option<railproof_benches::shot::Arrival>| {
        let error = arrival.map_or_else(
            || "never arrives".to_owned(),
            |arrival| {
                let (along_m, late_s) = arrival.error_from(&exact);
                format!("{:.3} mm, {:.3} ms", 1e3 * along_m, 1e3 * late_s)
            },
        );
        println!("  {name:<28} {spent}   ×{:<9.0} {error}", spent.over(ours));
    };
    for step_s in [1e-3, 1e-4] {
        let spent = time(|| rigid_body(black_box(&shot), step_s));
        row(&format!("rapier2d, {} ms steps", 1e3 * step_s), spent, rigid_body(&shot, step_s));
    }
    let spent = time(|| runge_kutta(black_box(&shot), 1e-3));
    row("fourth-order steps of 1 ms", spent, runge_kutta(&shot, 1e-3));
}

fn impact() {
    println!("\nThe nose-and-cloth impact alone");
    let (contact, before) = (contact(), frozen_stun_impact());
    let ours = time(|| nose_and_cloth(black_box(&contact), black_box(before)));
    let theirs = time(|| fixed_step_impact(black_box(&contact), black_box(before), 5000));
    let off = (nose_and_cloth(&contact, before).velocity
        - fixed_step_impact(&contact, before, 5000).velocity)
        .norm();
    println!("  {:<28} {ours}", "located regimes");
    println!(
        "  {:<28} {theirs}   ×{:<9.0} {off:.1e} m/s off",
        "5000 fixed steps",
        theirs.over(ours)
    );
}

fn threads() {
    let banks = if railproof_benches::timing::is_short() { 50_000 } else { 1_000_000 };
    println!("\nA sweep of {banks} nose-and-cloth banks");
    let speeds: Vec<f64> =
        (0..banks / 1000).map(|i| 2.0 + 4.0 * f64::from(i) / (f64::from(banks) / 1000.0)).collect();
    let axes = vec![
        Axis {
            input: Input::Equipment,
            values: Values::Equipment(vec![bank(RailModel::NoseAndCloth).equipment().clone()]),
        },
        Axis { input: Input::Rail, values: Values::Rails(vec![RailChoice::Long]) },
        Axis { input: Input::Pocket, values: Values::Pockets(vec![PocketChoice::Corner]) },
        Axis {
            input: Input::Contact,
            values: Values::Numbers((0..100).map(|i| 1.0 + 0.025 * f64::from(i)).collect()),
        },
        Axis {
            input: Input::OffRail,
            values: Values::Numbers((0..10).map(|i| 0.03 * f64::from(i)).collect()),
        },
        Axis { input: Input::Speed, values: Values::Numbers(speeds) },
    ];
    let (Ok(plan), Ok(rule)) = (Plan::new(axes), Rule::linear(2.2, 0.0, Reading::Groove)) else {
        return;
    };
    let rules = [NamedRule::from(rule)];
    let mut alone = None;
    for threads in [1, 2] {
        let Ok(pool) = rayon::ThreadPoolBuilder::new().num_threads(threads).build() else {
            return;
        };
        let begun = Instant::now();
        let rows = pool.install(|| compare(&plan, &rules, &|| {}));
        let seconds = begun.elapsed().as_secs_f64();
        let count = rows.map_or(0, |rows| rows.len());
        let rate = count as f64 / seconds / 1e6;
        let gain = alone.map_or_else(String::new, |alone: f64| {
            format!("   ×{:.2} of one thread's rate", alone / seconds)
        });
        println!("  {threads} thread(s): {seconds:.2} s, {rate:.2} million banks a second{gain}");
        alone = alone.or(Some(seconds));
    }
}
