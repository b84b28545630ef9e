//! The odds of a miss's causes, held to misses whose causes are known.

use railproof_engine::column::{Hand, SetUp, columns};
use railproof_engine::ensemble::{Ensemble, Member, MemberNumber};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::evidence::{MeasuredBank, Scatter, Seen};
use railproof_engine::missed::{MissCause, MissOdds, ToldApart};
use railproof_engine::rail::{BankGeometry, Line, Pocket, Rail};
use railproof_engine::sample::{Sample, Sampling};
use railproof_engine::units::{Speed, SpeedWord};
use railproof_tests::{is_thorough, nine_foot_with_cushion};
use rayon::prelude::*;
use std::sync::LazyLock;

const MODEL: RailModel = RailModel::NoseOnly;
const READ_TO_M: f64 = 0.016;
/// Aim, speed, side, roll, contact, start, reading.
const USES: usize = 7;

/// Normal deviations of a shot, by the sum of twelve even numbers.
fn deviations(shot: u64) -> [f64; USES] {
    let how = Sampling::Random;
    let sample = Sample { how, points: 1 << 20, seed: 424, dimensions: 12 * USES };
    core::array::from_fn(|usage| {
        (0..12).map(|at| sample.coordinate(shot, 12 * usage + at)).sum::<f64>() - 6.0
    })
}

/// The shot with those of its causes that are switched on.
fn sent(set_up: &SetUp, diamond_m: f64, by: &[f64; USES], on: [bool; 5]) -> SetUp {
    let scatter = Scatter::CAREFUL;
    let mut sent = *set_up;
    let part = |cause: usize, at: usize| if on[cause] { by[at] } else { 0.0 };
    sent.aim_error_rad += scatter.aim_rad * part(0, 0);
    sent.speed_ratio *= 1.0 + scatter.speed * part(1, 1);
    sent.side += scatter.side * part(2, 2);
    sent.roll += scatter.roll * part(3, 3);
    sent.line.contact += scatter.contact_m / diamond_m * part(4, 4);
    sent.line.start += scatter.start_m / diamond_m * part(4, 5);
    sent
}

fn place_m(table: &Equipment, member: &Member, set_up: &SetUp) -> f64 {
    let members = core::slice::from_ref(member);
    columns(table, MODEL, members, &[*set_up], Hand::Members).expect("a bank")[0][0].along_m
}

/// The member with its lasting causes but the table switched off.
fn neutral(member: &Member, aim: bool, side: bool, speed: bool, words: &[f64; 3]) -> Member {
    let mut other = *member;
    if aim {
        other.place[MemberNumber::AimBias.place()] = 0.5;
    }
    if side {
        other.place[MemberNumber::SideBias.place()] = 0.5;
    }
    if speed {
        let numbers = [MemberNumber::Soft, MemberNumber::Medium, MemberNumber::Firm];
        for (number, place) in numbers.into_iter().zip(words) {
            other.place[number.place()] = *place;
        }
    }
    other
}

/// A miss whose main cause is known.
struct KnownMiss {
    member: Member,
    main: MissCause,
    odds: MissOdds,
}

const WORDS: [f64; 3] = [0.5; 3];

/// Where the line comes to on the mean table, sent exactly, m.
fn line_m(table: &Equipment, ensemble: &Ensemble, set_up: &SetUp) -> f64 {
    let members: Vec<Member> =
        ensemble.members().iter().map(|member| neutral(member, true, true, true, &WORDS)).collect();
    let column = columns(table, MODEL, &members, &[*set_up], Hand::Members).expect("a bank");
    column[0].iter().map(|landing| landing.along_m).sum::<f64>() / members.len() as f64
}

/// The line that goes nearest to the middle on the mean table, so that the line itself is rarely the cause.
fn line_through_the_middle(table: &Equipment, ensemble: &Ensemble) -> (SetUp, f64) {
    let speed = Speed::Word(SpeedWord::Medium);
    let starts = (0..40).map(|at| 3.5 + 0.05 * f64::from(at));
    let asked = starts.map(|start| {
        let line = Line::new(2.0, start);
        let set_up = SetUp::stun(Rail::Left, Pocket::FootRight, line, 0.1, speed);
        (set_up, line_m(table, ensemble, &set_up))
    });
    asked.min_by(|a, b| a.1.abs().total_cmp(&b.1.abs())).expect("starts")
}

/// Shots whose causes are played one by one, and of the misses among them the odds.
static KNOWN_MISSES: LazyLock<Vec<KnownMiss>> = LazyLock::new(|| {
    let shots = if is_thorough() { 1600 } else { 300 };
    let table = nine_foot_with_cushion("cushions/even-bounce");
    let ensemble = Ensemble::wide(1024, 5);
    let (set_up, line_m) = line_through_the_middle(&table, &ensemble);
    let geometry = BankGeometry::new(&table, set_up.rail, set_up.pocket).expect("a bank");
    let (from, to) = geometry.unrolled_mouth_m();
    let truths = Ensemble::wide(4096, 303).members()[4096 - shots..].to_vec();
    let asked: Vec<Option<KnownMiss>> = truths
        .par_iter()
        .enumerate()
        .map(|(shot, member)| {
            let by = deviations(shot as u64);
            let all = [true; 5];
            let play = |member: &Member, on: [bool; 5]| {
                place_m(&table, member, &sent(&set_up, geometry.diamond_m, &by, on))
            };
            let whole = play(member, all);
            let mut parts = [0.0; MissCause::ALL.len()];
            parts[MissCause::Line.place()] = line_m;
            let lasting = [
                (MissCause::AimAlways, neutral(member, true, false, false, &WORDS)),
                (MissCause::SideAlways, neutral(member, false, true, false, &WORDS)),
                (MissCause::SpeedWord, neutral(member, false, false, true, &WORDS)),
            ];
            for (cause, without) in lasting {
                parts[cause.place()] = whole - play(&without, all);
            }
            let once = [
                MissCause::Aim,
                MissCause::Speed,
                MissCause::Side,
                MissCause::Roll,
                MissCause::Placement,
            ];
            for (at, cause) in once.into_iter().enumerate() {
                let mut on = all;
                on[at] = false;
                parts[cause.place()] = whole - play(member, on);
            }
            parts[MissCause::Table.place()] = whole - parts.iter().sum::<f64>();
            let seen_m = whole + READ_TO_M * by[6];
            if !seen_m.is_finite() || (from..=to).contains(&seen_m) {
                return None;
            }
            let toward = whole.signum();
            let main = MissCause::ALL.into_iter().max_by(|a, b| {
                (toward * parts[a.place()]).total_cmp(&(toward * parts[b.place()]))
            })?;
            let seen = Seen::At { along_m: seen_m, read_to_m: READ_TO_M };
            let bank = MeasuredBank { set_up, seen, scatter: Scatter::CAREFUL, repeats: 1 };
            let odds = MissOdds::of(&table, MODEL, &ensemble, &bank, shot as u64 + 1);
            let odds = odds.expect("a bank").ok()?;
            Some(KnownMiss { member: *member, main, odds })
        })
        .collect();
    asked.into_iter().flatten().collect()
});

/// Over many misses each cause is the main one as often as its odds say.
#[test]
fn causes_are_the_main_ones_as_often_as_their_odds_say() {
    let misses = &*KNOWN_MISSES;
    assert!(misses.len() >= 50, "{} misses", misses.len());
    for cause in MissCause::ALL {
        let at = cause.place();
        let count = misses.iter().filter(|miss| miss.main == cause).count() as f64;
        let expected: f64 = misses.iter().map(|miss| miss.odds.causes[at].odds).sum();
        let odds = misses.iter().map(|miss| miss.odds.causes[at].odds);
        let variance: f64 = odds.map(|odds| odds * (1.0 - odds)).sum();
        let apart = (count - expected) / (variance + 0.25).sqrt();
        println!(
            "{}: the main cause of {count} of {} misses, by the odds {expected:.1} ({apart:.1} errors)",
            cause.name(),
            misses.len()
        );
        // Ten causes at one level of a hundredth.
        assert!(apart.abs() < 3.3, "{}: {count} and {expected}", cause.name());
    }
}

/// The bank that is said to tell two causes apart is sent once by the player whose miss it was: over many misses it names
/// the right one as often as it says. Each miss counts as if both causes were alike likely before, which is what is said.
#[test]
fn the_bank_that_tells_two_causes_apart_names_the_right_one_as_often_as_it_says() {
    let table = nine_foot_with_cushion("cushions/even-bounce");
    // Weight, right or not, the chance that was told.
    let mut told: Vec<(f64, f64, f64)> = Vec::new();
    for (at, miss) in KNOWN_MISSES.iter().enumerate() {
        let Some(ToldApart { causes, by: Some(by) }) = miss.odds.apart else { continue };
        let Some(which) = causes.iter().position(|cause| *cause == miss.main) else { continue };
        let odds = causes.map(|cause| miss.odds.causes[cause.place()].odds);
        let share = odds[which] / (odds[0] + odds[1]);
        let geometry = BankGeometry::new(&table, by.set_up.rail, by.set_up.pocket);
        let deviations = deviations(500_000 + at as u64);
        let diamond_m = geometry.expect("a bank").diamond_m;
        let shot = sent(&by.set_up, diamond_m, &deviations, [true; 5]);
        let seen_m = place_m(&table, &miss.member, &shot) + READ_TO_M * deviations[6];
        if seen_m.is_finite() {
            let is_first = (seen_m > by.border_m) == by.first_is_longer;
            told.push((0.5 / share, f64::from(is_first == (which == 0)), by.chance));
        }
    }
    let whole: f64 = told.iter().map(|it| it.0).sum();
    let right = told.iter().map(|it| it.0 * it.1).sum::<f64>() / whole;
    let chance = told.iter().map(|it| it.0 * it.2).sum::<f64>() / whole;
    let squares = told.iter().map(|it| (it.0 * (it.1 - chance)).powi(2)).sum::<f64>();
    let error = squares.sqrt() / whole;
    println!("{} misses: right {right:.3} ± {error:.3}, told {chance:.3}", told.len());
    assert!(2 * told.len() >= KNOWN_MISSES.len(), "{} of {}", told.len(), KNOWN_MISSES.len());
    assert!(chance > 0.6 && (right - chance).abs() < 2.6 * error, "{right} {chance} {error}");
}
