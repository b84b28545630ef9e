//! The cost of questions to a table that is not known exactly: a fit of two dozen banks, a map over a thousand
//! members beside as many banks one after another and beside the same map from kept answers, and the choice of the
//! next banks.
//!
//! `RAILPROOF_BENCH=short` makes a quick pass whose figures are rough.

use railproof::fitting::{KeptShares, MeasuredTable};
use railproof_benches::table::nine_foot;
use railproof_benches::timing::time;
use railproof_engine::bank::Bank;
use railproof_engine::column::SetUp;
use railproof_engine::ensemble::Ensemble;
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::evidence::{Evidence, MadeUpTable, Scatter, Watching};
use railproof_engine::narrow::{NarrowSettings, narrow};
use railproof_engine::planning::{PlayedCandidates, places, protocol, usual_banks};
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::units::Speed;
use std::hint::black_box;
use std::time::Instant;

const MODEL: RailModel = RailModel::NoseAndCloth;
/// A twentieth of a diamond of the end rail, m.
const READ_TO_M: f64 = 0.016;

fn main() {
    let table = nine_foot();
    println!(
        "\nA table that is not known exactly, nose-and-cloth, {} threads",
        rayon::current_num_threads()
    );
    fit(&table);
    map(&table);
    planning(&table);
}

fn fit(table: &Equipment) {
    let truth = Ensemble::wide(1, 3).members()[0];
    let scatter = Scatter::CAREFUL;
    let known = MadeUpTable { table, model: MODEL, member: &truth, scatter: &scatter, seed: 1 };
    let read = Watching::Numbers { read_to_m: READ_TO_M };
    let banks: Vec<(SetUp, Watching)> =
        protocol().cycle().take(24).map(|set_up| (set_up, read)).collect();
    let seen = known.watched(&banks).expect("banks of this table");
    let started = Instant::now();
    let evidence = Evidence::new(table, MODEL, seen).expect("banks of this table");
    let levers = started.elapsed().as_secs_f64();
    let narrowed = narrow(&evidence, NarrowSettings::SHIPPED).expect("banks of this table");
    let seconds = started.elapsed().as_secs_f64();
    let moves = NarrowSettings::SHIPPED.moves;
    let played = 24 * NarrowSettings::SHIPPED.members * (1 + moves * narrowed.stages);
    println!(
        "  24 banks, {} members: {seconds:.2} s ({levers:.2} s of it levers), {} stages, {:.2} million banks a second",
        NarrowSettings::SHIPPED.members,
        narrowed.stages,
        1e-6 * played as f64 / (seconds - levers),
    );
}

/// 510 banks: 17 contacts, 30 distances, at 3 m/s.
fn set_ups() -> Vec<SetUp> {
    let distances = (0..30).map(|step| 0.0127 * f64::from(step));
    let bank = |contact: f64, off_rail_m: f64| {
        let line = Line::new(contact, 2.2 * contact);
        SetUp::stun(Rail::Left, Pocket::FootRight, line, off_rail_m, Speed::MetresPerSecond(3.0))
    };
    distances
        .flat_map(|off| (0..17).map(move |step| bank(1.5 + 0.125 * f64::from(step), off)))
        .collect()
}

fn map(table: &Equipment) {
    let known = MeasuredTable { model: MODEL, ..MeasuredTable::wide(table, true) };
    let (all, folder) = (set_ups(), tempfile::tempdir().expect("a folder"));
    let kept = KeptShares::in_folder(folder.path()).expect("a program");
    // The first map is played, the second is read.
    let [(played, seconds), (again, read_s)] = [(); 2].map(|()| {
        let started = Instant::now();
        let shares = kept.shares(&known, &all, &|| ()).expect("banks of this table");
        (shares, started.elapsed().as_secs_f64())
    });
    assert_eq!(played, again, "what was kept is what was played");
    let (members, few) = (known.ensemble.len(), &known.ensemble.members()[..4]);
    let one = time(|| {
        let mut told = 0_usize;
        for member in few {
            let equipment = member.equipment(table);
            let bank = Bank::new(&equipment, Rail::Left, Pocket::FootRight, MODEL).expect("a bank");
            for set_up in &all {
                let outcome = bank.play(set_up.line, set_up.launch(&equipment));
                told += usize::from(black_box(outcome).is_ok());
            }
        }
        told
    });
    let each = one.seconds / few.len() as f64 * members as f64;
    println!(
        "  a map of {} banks on {members} tables: {seconds:.2} s; one bank after another on one core {each:.1} s, x{:.1}; \
         from kept answers {read_s:.3} s",
        played.len(),
        each / seconds
    );
}

fn planning(table: &Equipment) {
    let wide = Ensemble::wide(1024, 1);
    let members = wide.members();
    let started = Instant::now();
    let played = PlayedCandidates::of(table, MODEL, members, &[]).expect("banks of this table");
    let seconds = started.elapsed().as_secs_f64();
    let wanted = places(table, MODEL, members, &usual_banks()).expect("banks of this table");
    let planned = played.next(&wanted, 6);
    println!(
        "  {} of {} candidates chosen over {} members: {:.2} s ({seconds:.2} s of it banks)",
        planned.len(),
        played.set_ups.len(),
        wide.len(),
        started.elapsed().as_secs_f64()
    );
}
