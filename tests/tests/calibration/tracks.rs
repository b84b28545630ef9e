//! Films of banks whose truth is known: what they tell is right, and as sure as they say.

use crate::binomial::two_sided;
use crate::film::{Film, Filming, MANY_MARKS, MARKS, PICTURE, launch};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::sample::{Sample, Sampling};
use railproof_engine::track::{
    Lens, LensKnown, PictureSize, RollAtRail, TrackAmount, TrackError, TrackedBank,
};
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
    // Where it is not told, nothing is claimed.
    let all = (f64::NEG_INFINITY, f64::INFINITY);
    let unknown = TrackAmount { middle: f64::NAN, fifty: all, ninety: all };
    let along = bank.along_kept.unwrap_or(unknown);
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
                model: RailModel::NoseAndCloth,
                pictures: 240.0,
                click: 0.0,
                is_until_roll: false,
                k1: 0.0,
                marks: &MARKS,
                seed: at as u64,
            };
            let film = filming.film(&table);
            let bank = TrackedBank::new(&film.marks, &film.points, &table, LensKnown::Straight)
                .expect("a bank");
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
                    // Told for a cloth slicker by the tenth that its friction is known to.
                    let least = 0.9 * truth;
                    assert!(gained <= least && gained > 0.9 * least, "{gained} of {truth}");
                }
                (other, _) => panic!("{rail:?} {roll}: {other:?}"),
            }
        }
    }
}

/// Films on which neither side changes from sliding to rolling: clicks scatter, those of marks too, and each interval
/// holds the truth as often as it says.
#[test]
fn intervals_hold_the_truth_as_often_as_they_say() {
    let wrong = wrong_counts(true, LensOfFilm::None);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A film's lens, and whether its coefficient is given or found.
#[derive(Debug, Clone, Copy, PartialEq)]
enum LensOfFilm {
    None,
    Given,
    Found,
}

const SIZE: PictureSize = PictureSize { width: PICTURE.0, height: PICTURE.1 };

impl LensOfFilm {
    fn k1(self, drawn: f64) -> f64 {
        if self == Self::None { 0.0 } else { drawn }
    }

    fn marks(self) -> &'static [(f64, f64)] {
        if self == Self::Found { &MANY_MARKS } else { &MARKS }
    }

    fn known(self, k1: f64) -> LensKnown {
        match self {
            Self::None => LensKnown::Straight,
            Self::Given => LensKnown::Given(Lens::new(SIZE, k1).expect("a lens")),
            Self::Found => LensKnown::Found(SIZE),
        }
    }
}

/// A film without noise through a lens.
fn clear_film((rail, pocket): (Rail, Pocket), k1: f64, marks: &'static [(f64, f64)]) -> Filming {
    Filming {
        rail,
        pocket,
        line: Line::new(1.6, 3.2),
        launch: launch(0.75, 3.2, 0.0),
        model: RailModel::NoseAndCloth,
        pictures: 240.0,
        click: 0.0,
        is_until_roll: false,
        k1,
        marks,
        seed: 1,
    }
}

/// Through a lens that bends: without noise the truth comes out and so does the lens, from six marks and from twelve; whoever
/// takes it for straight is told another motion.
#[test]
fn a_bank_seen_through_a_lens_comes_out_as_it_was_played() {
    let table = shipped_equipment("nine-foot");
    for (at, k1) in [-0.14, -0.05, 0.0, 0.03, 0.14].into_iter().enumerate() {
        for marks in [&MARKS[..], &MANY_MARKS] {
            let film = clear_film(CORNERS[at % 4], k1, marks).film(&table);
            let off = |lens: LensKnown| {
                let bank = TrackedBank::new(&film.marks, &film.points, &table, lens);
                let bank = bank.expect("a bank");
                let told = told(&bank).into_iter().zip(truths(&film));
                (told.map(|(told, truth)| (told.middle - truth).abs()).fold(0.0, f64::max), bank)
            };
            for lens in [LensOfFilm::Given, LensOfFilm::Found] {
                let (most, bank) = off(lens.known(k1));
                assert!(most < 1e-3, "{k1} {lens:?}: off by {most}");
                let told = bank.lens_k1.expect("a lens").middle;
                assert!((told - k1).abs() < 1e-9, "{k1} {lens:?}: {told}");
                assert!(bank.worst_mark_m < 1e-9, "{k1} {lens:?}: {}", bank.worst_mark_m);
            }
            let (most, _) = off(LensKnown::Straight);
            assert!(k1.abs() < 0.1 || most > 5e-3, "{k1} taken for straight: off by {most}");
        }
    }
}

/// Films through lenses that bend either way: the intervals hold the truth as often as they say, whether the lens is given
/// or found, and so do those of the coefficient that is found.
#[test]
fn intervals_through_a_lens_hold_the_truth_as_often_as_they_say() {
    let wrong =
        [LensOfFilm::Given, LensOfFilm::Found].map(|lens| wrong_counts(true, lens)).concat();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Six marks on four places: the plane takes them all up.
const FOUR_PLACES: [(f64, f64); 6] =
    [(-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0), (1.0, 1.0), (1.0, 1.0), (-1.0, 1.0)];

#[test]
fn marks_that_tell_no_lens_are_refused() {
    let table = shipped_equipment("nine-foot");
    let read = |marks: &'static [(f64, f64)], lens| {
        let film = clear_film(CORNERS[0], -0.05, marks).film(&table);
        TrackedBank::new(&film.marks, &film.points, &table, lens)
    };
    let five = read(&MANY_MARKS[..5], LensKnown::Found(SIZE));
    assert_eq!(five, Err(TrackError::FewMarksForLens { marks: 5 }));
    assert_eq!(read(&FOUR_PLACES, LensKnown::Found(SIZE)), Err(TrackError::LensNotTold));
    // A picture so small that the marks lie far outside it.
    let small = PictureSize { width: 200.0, height: 100.0 };
    let lens = LensKnown::Given(Lens::new(small, -0.14).expect("a lens"));
    assert_eq!(read(&MARKS, lens), Err(TrackError::BeyondLens { mark: 1 }));
}

/// Intervals that hold the truth too often or too seldom.
fn wrong_counts(is_until_roll: bool, lens: LensOfFilm) -> Vec<String> {
    let table = shipped_equipment("nine-foot");
    let drawn =
        Sample { how: Sampling::Random, points: FILMS as u64, seed: 20_261_130, dimensions: 6 };
    let held: Vec<[[bool; 2]; 7]> = (0..FILMS as u64)
        .into_par_iter()
        .map(|at| {
            let between =
                |usage, from: f64, to: f64| from + (to - from) * drawn.coordinate(at, usage);
            let (rail, pocket) = CORNERS[usize::try_from(at % 4).expect("small")];
            // A ball sent to slide is sent fast, so that it slides all the way.
            let roll = (at / 4 % 2) as f64;
            let contact = between(0, 1.4, 2.6);
            let filming = Filming {
                rail,
                pocket,
                line: Line::new(contact, contact * between(1, 1.9, 2.3)),
                launch: launch(
                    between(2, 0.6, 0.9),
                    between(3, 1.5, 3.5) + 1.5 * (1.0 - roll),
                    roll,
                ),
                model: RailModel::NoseAndCloth,
                pictures: if between(4, 0.0, 1.0) < 0.5 { 120.0 } else { 240.0 },
                click: 1.0,
                is_until_roll,
                k1: lens.k1(between(5, -0.1, 0.1)),
                marks: lens.marks(),
                seed: 500 + at,
            };
            let film = filming.film(&table);
            let bank = TrackedBank::new(&film.marks, &film.points, &table, lens.known(filming.k1))
                .unwrap_or_else(|error| panic!("film {at}: {error}: {filming:?}"));
            let truths = truths(&film);
            let told = told(&bank);
            let holds = |amount: &TrackAmount, truth: f64| {
                [amount.fifty, amount.ninety].map(|(from, to)| (from..=to).contains(&truth))
            };
            std::array::from_fn(|number| match told.get(number) {
                Some(amount) => holds(amount, truths[number]),
                None => bank.lens_k1.map_or([true; 2], |k1| holds(&k1, filming.k1)),
            })
        })
        .collect();
    // The coefficient of a lens that is found comes after the amounts.
    let found = (lens == LensOfFilm::Found).then_some("k1");
    let names: Vec<&str> = NAMES.into_iter().chain(found).collect();
    let checks = 2 * names.len();
    let mut wrong = Vec::new();
    for (number, name) in names.iter().enumerate() {
        for (at, chance) in [0.5, 0.9].into_iter().enumerate() {
            let count = held.iter().filter(|held| held[number][at]).count();
            let level = two_sided(count, FILMS, chance);
            println!("{lens:?}, {name}: {count} of {FILMS} intervals of {chance}");
            if level < LEVEL / checks as f64 {
                wrong.push(format!("{name}: {count} of {FILMS} intervals of {chance}"));
            }
        }
    }
    wrong
}

/// Films that go on into the roll: the change is found where it shows. Where it hides in the scatter the intervals for
/// the speed after the rail and the restitution are somewhat narrow (some 84 of 100 for 90), within this level.
#[test]
fn intervals_of_films_that_go_on_into_the_roll_hold_nearly_as_often() {
    let wrong = wrong_counts(false, LensOfFilm::None);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
