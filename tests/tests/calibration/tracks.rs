//! Films of banks whose truth is known: what they tell is right, and as sure as they say.

use crate::binomial::two_sided;
use crate::film::{Film, Filming, launch};
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::sample::{Sample, Sampling};
use railproof_engine::track::{RollAtRail, TrackAmount, TrackedBank};
use railproof_tests::shipped_equipment;
use rayon::prelude::*;

/// The level of the whole family of checks.
const LEVEL: f64 = 0.01;
const FILMS: usize = 300;
const NAMES: [&str; 6] =
    ["speed before", "angle before", "speed after", "angle after", "restitution", "along kept"];

const CORNERS: [(Rail, Pocket); 4] = [
    (Rail::Left, Pocket::FootRight),
    (Rail::Right, Pocket::HeadLeft),
    (Rail::Foot, Pocket::HeadLeft),
    (Rail::Head, Pocket::FootRight),
];

fn truths(film: &Film) -> [f64; 6] {
    let (at_rail, rebound) =
        (film.truth.at_rail.expect("it came"), film.truth.rebound.expect("it left"));
    let (came, left) = (at_rail.state.velocity, rebound.state.velocity);
    [
        came.norm(),
        at_rail.incidence_rad(),
        left.norm(),
        rebound.angle_rad(came),
        -left.y / came.y,
        left.x / came.x,
    ]
}

fn told(bank: &TrackedBank) -> [TrackAmount; 6] {
    let along = bank.along_kept.expect("it came at an angle");
    let TrackedBank { speed_before, angle_before, speed_after, angle_after, restitution, .. } =
        *bank;
    [speed_before, angle_before, speed_after, angle_after, restitution, along]
}

/// Off every rail: without noise the truth comes out, and the rail is named.
#[test]
fn a_bank_without_noise_comes_out_as_it_was_played() {
    let table = shipped_equipment("nine-foot");
    for (at, (rail, pocket)) in CORNERS.into_iter().enumerate() {
        for roll in [0.0, 1.0] {
            let filming = Filming {
                rail,
                pocket,
                line: Line::new(1.6, 3.2),
                launch: launch(0.75, 3.2, roll),
                pictures: 240.0,
                click: 0.0,
                seed: at as u64,
            };
            let film = filming.film(&table);
            let bank = TrackedBank::new(&film.marks, &film.points, &table).expect("a bank");
            assert_eq!(bank.rail, rail);
            for ((name, told), truth) in NAMES.iter().zip(told(&bank)).zip(truths(&film)) {
                let off = (told.middle - truth).abs();
                assert!(off < 1e-3, "{rail:?} {roll} {name}: {} for {truth}", told.middle);
            }
            match (bank.roll, roll) {
                (RollAtRail::Rolls, 1.0) => {}
                (RollAtRail::Slides { gained }, 0.0) => {
                    let state = film.truth.at_rail.expect("it came").state;
                    let radius_m = table.ball.radius_m();
                    let truth = state.natural_roll_fraction(radius_m).expect("it moves");
                    assert!(gained <= truth && gained > 0.9 * truth, "{gained} of {truth}");
                }
                (other, _) => panic!("{rail:?} {roll}: {other:?}"),
            }
        }
    }
}

/// Over films of scattered clicks, marks too, each interval holds the truth as often as it says.
#[test]
fn intervals_hold_the_truth_as_often_as_they_say() {
    let table = shipped_equipment("nine-foot");
    let drawn =
        Sample { how: Sampling::Random, points: FILMS as u64, seed: 20_261_130, dimensions: 5 };
    let held: Vec<[[bool; 2]; 6]> = (0..FILMS as u64)
        .into_par_iter()
        .map(|at| {
            let between =
                |usage, from: f64, to: f64| from + (to - from) * drawn.coordinate(at, usage);
            let (rail, pocket) = CORNERS[usize::try_from(at % 4).expect("small")];
            let contact = between(0, 1.4, 2.6);
            let filming = Filming {
                rail,
                pocket,
                line: Line::new(contact, contact * between(1, 1.9, 2.3)),
                launch: launch(between(2, 0.6, 0.9), between(3, 1.5, 3.5), (at / 4 % 2) as f64),
                pictures: if between(4, 0.0, 1.0) < 0.5 { 120.0 } else { 240.0 },
                click: 1.0,
                seed: 500 + at,
            };
            let film = filming.film(&table);
            let bank = TrackedBank::new(&film.marks, &film.points, &table)
                .unwrap_or_else(|error| panic!("film {at}: {error}: {filming:?}"));
            let truths = truths(&film);
            let told = told(&bank);
            std::array::from_fn(|number| {
                let TrackAmount { fifty, ninety, .. } = told[number];
                [fifty, ninety].map(|(from, to)| (from..=to).contains(&truths[number]))
            })
        })
        .collect();
    let checks = 2 * NAMES.len();
    let mut wrong = Vec::new();
    for (number, name) in NAMES.iter().enumerate() {
        for (at, chance) in [0.5, 0.9].into_iter().enumerate() {
            let count = held.iter().filter(|held| held[number][at]).count();
            let level = two_sided(count, FILMS, chance);
            println!("{name}: {count} of {FILMS} at {chance}, {level:.3}");
            if level < LEVEL / checks as f64 {
                wrong.push(format!("{name}: {count} of {FILMS} intervals of {chance}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
