//! The same by other means: banks, likelihoods, posteriors and quantiles written again in Python.
//!
//! `written_again.py` holds the banks and their likelihood in numpy, from the equations; `other_means.py` samples
//! by emcee (D. Foreman-Mackey, D. Hogg, D. Lang and J. Goodman 2013, PASP 125:306–312), integrates over grids, and
//! compares. `RAILPROOF_PYTHON` names a Python that has numpy, scipy and emcee; without it these tests are left out.

use crate::protocol::banks;
use railproof_engine::ask::CredibleInterval;
use railproof_engine::column::{Hand, SetUp, columns};
use railproof_engine::ensemble::{Ensemble, Member, MemberNumber, Spread};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::evidence::{Evidence, Levers, MadeUpTable, MeasuredBank, Scatter, Seen};
use railproof_engine::narrow::{NarrowSettings, narrow};
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::sample::{Sample, Sampling};
use railproof_engine::units::{INCH_M, Speed, SpeedWord};
use railproof_tests::nine_foot_with_cushion;
use serde_json::{Map, Value, json};
use std::path::Path;
use std::process::Command;

const MODEL: RailModel = RailModel::NoseOnly;

/// Holds the engine's numbers to what Python makes of the same question.
fn compared(check: &str, told: &Value) {
    let Some(python) = std::env::var_os("RAILPROOF_PYTHON") else {
        println!("left out: RAILPROOF_PYTHON names no Python");
        return;
    };
    let scripts = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/calibration");
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("other-means-{check}.json"));
    std::fs::write(&file, told.to_string()).expect("the build's folder takes files");
    let mut command = Command::new(python);
    command.arg("-B").arg(scripts.join("other_means.py")).arg(check).arg(&file);
    let ended = command.output().expect("a Python that starts");
    println!("{}", String::from_utf8_lossy(&ended.stdout));
    assert!(
        ended.status.success(),
        "{check}, by a Python with numpy, scipy and emcee: {}",
        String::from_utf8_lossy(&ended.stderr)
    );
}

fn table() -> Equipment {
    nine_foot_with_cushion("cushions/even-bounce")
}

fn members(count: usize, seed: u64) -> Vec<Member> {
    Ensemble::wide_members(0..count, seed)
}

/// All that Python is told whatever it is asked.
fn question(table: &Equipment, measured: &[MeasuredBank]) -> Map<String, Value> {
    let spreads: Vec<Value> = MemberNumber::all()
        .map(|number| {
            let numbers = match number.spread() {
                Spread::Even { from, to } => json!({ "from": from, "to": to }),
                Spread::Factor { middle, most } => json!({ "middle": middle, "most": most }),
                Spread::About { sd } => json!({ "sd": sd }),
            };
            json!({ "name": number.name(), "spread": numbers })
        })
        .collect();
    let told = json!({
        "table": {
            "length": table.table.length_m,
            "width": table.table.width_m,
            "corner_mouth": table.table.corner_mouth_m,
            "side_mouth": table.table.side_mouth_m,
            "radius": table.ball.radius_m(),
            "gravity": table.gravity_m_s2,
            "pivot": table.cloth.pivot_deceleration_rad_s2,
            "restitution_floor": table.cushion.restitution_floor,
        },
        "spreads": spreads,
        "wide": places(&members(Levers::MEMBERS, 1)),
        "banks": measured.iter().map(bank).collect::<Vec<Value>>(),
    });
    let Value::Object(told) = told else { unreachable!("written as an object") };
    told
}

fn places(members: &[Member]) -> Value {
    json!(members.iter().map(|member| member.place).collect::<Vec<_>>())
}

fn bank(measured: &MeasuredBank) -> Value {
    let (set_up, scatter) = (&measured.set_up, &measured.scatter);
    assert_eq!(set_up.rail, Rail::Left, "Python knows banks off the left rail");
    let end = match set_up.pocket {
        Pocket::FootRight => 1,
        Pocket::HeadRight => -1,
        other => panic!("Python knows no bank into {}", other.name()),
    };
    let seen = match measured.seen {
        Seen::Holds => json!("holds"),
        Seen::Touches => json!("touches"),
        Seen::Long => json!("long"),
        Seen::Short => json!("short"),
        Seen::Stops => json!("stops"),
        Seen::At { along_m, read_to_m } => json!({ "along": along_m, "read_to": read_to_m }),
    };
    json!({
        "end": end,
        "contact": set_up.line.contact,
        "start": set_up.line.start,
        "off_rail": set_up.off_rail_m,
        "speed": match set_up.speed {
            Speed::Word(word) => json!(word.name()),
            Speed::MetresPerSecond(m_s) => json!(m_s),
            Speed::TableLengths(_) => panic!("Python knows no lag"),
        },
        "speed_ratio": set_up.speed_ratio,
        "roll": set_up.roll,
        "side": set_up.side,
        "aim_error": set_up.aim_error_rad,
        "seen": seen,
        "scatter": [
            scatter.aim_rad, scatter.speed, scatter.side, scatter.roll, scatter.contact_m, scatter.start_m,
        ],
        "wrong": scatter.wrong,
        "repeats": measured.repeats,
    })
}

/// Contact, start, inches off the rail, speed, roll, side.
const VARIED: [(f64, f64, f64, Speed, f64, f64); 12] = {
    const SOFT: Speed = Speed::Word(SpeedWord::Soft);
    const MEDIUM: Speed = Speed::Word(SpeedWord::Medium);
    const FIRM: Speed = Speed::Word(SpeedWord::Firm);
    [
        (2.0, 4.2, 0.0, SOFT, 0.0, 0.0),
        (1.5, 3.3, 0.0, MEDIUM, 0.0, 0.0),
        (3.0, 6.4, 0.0, FIRM, 0.0, 0.0),
        (2.5, 5.0, 12.0, SOFT, 0.0, 0.0),
        (3.5, 7.2, 12.0, MEDIUM, 0.0, 0.0),
        (2.0, 4.0, 12.0, FIRM, 0.0, 0.0),
        (1.0, 2.1, 4.0, MEDIUM, 0.5, 0.0),
        (2.5, 4.6, 20.0, FIRM, -0.4, 0.15),
        (3.0, 5.2, 12.0, MEDIUM, 1.0, -0.2),
        (3.5, 6.0, 30.0, Speed::MetresPerSecond(6.5), 0.3, 0.1),
        (0.5, 1.1, 0.0, FIRM, 0.0, 0.0),
        (3.25, 9.0, 12.0, Speed::MetresPerSecond(0.9), 0.2, 0.3),
    ]
};

/// The varied banks into alternate corners, each seen in every way.
fn varied(wrong: f64) -> Vec<MeasuredBank> {
    let seen = [
        Seen::Holds,
        Seen::Touches,
        Seen::Long,
        Seen::Short,
        Seen::Stops,
        Seen::At { along_m: 0.21, read_to_m: 0.016 },
        Seen::At { along_m: -0.34, read_to_m: 0.0 },
    ];
    let scatter = Scatter { wrong, ..Scatter::CAREFUL };
    let banks = VARIED.iter().zip([1_u32, 2, 3].into_iter().cycle()).enumerate().flat_map(
        |(at, (&(contact, start, inches, speed, roll, side), repeats))| {
            let pocket = if at % 2 == 0 { Pocket::FootRight } else { Pocket::HeadRight };
            let line = Line::new(contact, start);
            let stun = SetUp::stun(Rail::Left, pocket, line, inches * INCH_M, speed);
            let set_up = SetUp { roll, side, ..stun };
            seen.map(|seen| MeasuredBank { set_up, seen, scatter, repeats })
        },
    );
    banks.collect()
}

#[test]
fn landings_and_likelihoods_are_those_of_numpy() {
    let table = table();
    let members = members(64, 7);
    // Nothing wrong ever: then words and numbers show the tails of the normal law.
    for (check, wrong) in [("likelihoods", Scatter::CAREFUL.wrong), ("tails", 0.0)] {
        let measured = varied(wrong);
        let set_ups: Vec<SetUp> = measured.iter().map(|bank| bank.set_up).collect();
        let landings = columns(&table, MODEL, &members, &set_ups, Hand::Members).expect("banks");
        let told = |of: &dyn Fn(&railproof_engine::column::Landing) -> f64| -> Value {
            landings.iter().map(|column| column.iter().map(of).collect::<Vec<f64>>()).collect()
        };
        let mut question = question(&table, &measured);
        question.insert("members".into(), places(&members));
        question.insert("along".into(), told(&|landing| landing.along_m));
        question.insert("speed".into(), told(&|landing| landing.speed_m_s));
        question.insert("rests".into(), told(&|landing| f64::from(landing.is_stopped())));
        question.insert("holds_from".into(), told(&|landing| landing.holds_m.0));
        question.insert("holds_to".into(), told(&|landing| landing.holds_m.1));
        question.insert("mouth_from".into(), told(&|landing| landing.mouth_m.0));
        question.insert("mouth_to".into(), told(&|landing| landing.mouth_m.1));
        let evidence = Evidence::new(&table, MODEL, measured).expect("banks");
        let rows = evidence.log_likelihoods(&members).expect("banks");
        question.insert("log_likelihoods".into(), json!(rows));
        compared(check, &question.into());
    }
}

/// Twelve banks of a known table, as its player's shots were seen.
fn watched(table: &Equipment, count: usize) -> (Member, Vec<MeasuredBank>) {
    let truth = members(8, 11)[5];
    let known =
        MadeUpTable { table, model: MODEL, member: &truth, scatter: &Scatter::CAREFUL, seed: 42 };
    let seen = known.watched(&banks(count)).expect("banks of this table");
    (truth, seen)
}

/// Lines of the grid over two numbers.
const GRID: usize = 200;

#[test]
fn two_free_numbers_have_the_same_posterior_on_a_grid() {
    let table = table();
    let (truth, mut measured) = watched(&table, 12);
    // Banks near their rest are held to numpy above, member by member; over a grid and a chain they take too long there.
    measured.retain(|bank| bank.set_up.speed != Speed::Word(SpeedWord::Soft));
    let mut question = question(&table, &measured);
    let evidence = Evidence::new(&table, MODEL, measured).expect("banks");
    let free = [MemberNumber::Restitution, MemberNumber::Medium].map(MemberNumber::place);
    let middle = |at: usize| (at as f64 + 0.5) / GRID as f64;
    let mut of_grid = Vec::with_capacity(GRID * GRID);
    for first in 0..GRID {
        for second in 0..GRID {
            let mut member = truth;
            member.place[free[0]] = middle(first);
            member.place[free[1]] = middle(second);
            of_grid.push(member);
        }
    }
    let rows = evidence.log_likelihoods(&of_grid).expect("banks");
    let sums: Vec<f64> = rows.iter().map(|row| row.iter().sum()).collect();
    question.insert("held".into(), json!(truth.place));
    question.insert("free".into(), json!(free));
    question.insert("grid".into(), json!(GRID));
    question.insert("log_likelihoods".into(), json!(sums));
    compared("two-free", &question.into());
}

/// Runs of the engine's own sampler.
const RUNS: u64 = 16;
/// Below which of a number's values the members are counted, as shares in hundredths.
const SHARES: [usize; 5] = [5, 25, 50, 75, 95];
/// Steps of emcee.
const STEPS: usize = 4000;

#[test]
fn narrowed_members_have_the_posterior_of_emcee() {
    let table = table();
    let (_, mut measured) = watched(&table, 12);
    measured.retain(|bank| bank.set_up.speed != Speed::Word(SpeedWord::Soft));
    let mut question = question(&table, &measured);
    let evidence = Evidence::new(&table, MODEL, measured).expect("banks");
    let runs: Vec<Vec<Member>> = (0..RUNS)
        .map(|run| {
            let settings = NarrowSettings { seed: 700 + run, ..NarrowSettings::SHIPPED };
            narrow(&evidence, settings).expect("banks").ensemble.members().to_vec()
        })
        .collect();
    let places = |run: &[Member], number: usize| -> Vec<f64> {
        run.iter().map(|member| member.place[number]).collect()
    };
    let marks: Vec<[f64; 5]> = (0..MemberNumber::COUNT)
        .map(|number| {
            let mut all: Vec<f64> = runs.iter().flat_map(|run| places(run, number)).collect();
            all.sort_by(f64::total_cmp);
            SHARES.map(|share| all[share * all.len() / 100])
        })
        .collect();
    let below: Vec<Vec<[f64; 5]>> = runs
        .iter()
        .map(|run| {
            let of_number = marks.iter().enumerate().map(|(number, marks)| {
                let places = places(run, number);
                marks.map(|mark| {
                    let count = places.iter().filter(|place| **place < mark).count();
                    count as f64 / places.len() as f64
                })
            });
            of_number.collect()
        })
        .collect();
    question.insert("marks".into(), json!(marks));
    question.insert("runs".into(), json!(below));
    question.insert("steps".into(), json!(STEPS));
    compared("all-free", &question.into());
}

#[test]
fn intervals_are_those_of_numpy() {
    let sets: Vec<Value> = (0..60)
        .map(|at| {
            let count = 1 + at * at;
            let how = Sampling::Random;
            let sample = Sample { how, points: count, seed: 900 + at, dimensions: 2 };
            let column = |usage: usize| -> Vec<f64> {
                (0..count).map(|index| sample.coordinate(index, usage)).collect()
            };
            // Some values stand together.
            let values: Vec<f64> = column(0).iter().map(|x| (x * 300.0).round() / 7.0).collect();
            let even = vec![1.0 / count as f64; values.len()];
            let told = |weights: &[f64]| {
                let interval = CredibleInterval::of(&values, weights).expect("values");
                let (half, ninety) = (interval.half, interval.ninety);
                json!([ninety.0, half.0, interval.middle, half.1, ninety.1])
            };
            json!({
                "values": values,
                "even": told(&even),
                "weights": column(1),
                "weighted": told(&column(1)),
            })
        })
        .collect();
    compared("intervals", &json!({ "sets": sets }));
}
