//! Why a rule breaks at an edge: cases in which only one thing can be the reason.

use super::{INCH_M, along, even, found, hall, models, numbers, ratio};
use railproof_engine::attribution::{Cause, CauseShare};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::frontier::{BreakKind, Frontier};
use railproof_engine::sweep::{Axis, Input, Plan, Values};
use railproof_tests::input;
use railproof_tests::shipped_equipment;

/// Of every edge: how it breaks, whether it is a lower end, and why, the strongest cause first.
fn causes(front: &Frontier) -> Vec<(BreakKind, bool, Vec<CauseShare>)> {
    let mut all = Vec::new();
    for sheet in &front.sheets {
        for interval in sheet.lines.iter().flat_map(|line| &line.intervals) {
            for (end, lower) in [(&interval.low, true), (&interval.high, false)] {
                if let (Some(breaking), Some(way)) = (&end.breaking, end.way()) {
                    let why = breaking.why.as_ref().expect("both come to the mouth");
                    // The miss at the edge is that of the most room and all that differs.
                    let sum: f64 = why.shares.iter().map(|share| share.share_m).sum();
                    assert_eq!(Some(why.remainder_m), interval.best.1.miss_m());
                    assert_eq!(Some(why.miss_m), breaking.outcome.miss_m());
                    assert!((why.remainder_m + sum - why.miss_m).abs() < 1e-12, "{why:?}");
                    let mut strongest = why.shares.clone();
                    strongest.sort_by(|a, b| b.share_m.abs().total_cmp(&a.share_m.abs()));
                    strongest.retain(|share| share.share_m != 0.0);
                    all.push((way, lower, strongest));
                }
            }
        }
    }
    assert!(!all.is_empty());
    all
}

#[test]
fn along_roll_and_side_they_are_the_reason_themselves() {
    for (input, factor) in [(Input::Roll, Cause::Roll), (Input::RunningSide, Cause::Side)] {
        let plan = Plan::new(vec![
            hall(),
            models(&[RailModel::NoseAndCloth]),
            numbers(Input::Contact, &[1.8, 2.4]),
            numbers(Input::Speed, &[4.0]),
            numbers(input, &even(-0.8, 0.8, 9)),
        ])
        .unwrap();
        for (way, lower, causes) in causes(&found(&plan, &ratio(2.2), &along(input, 1e-3))) {
            // Nothing else differs at the rail, and after it nothing that does not follow from it.
            let [cause] = causes.as_slice() else { panic!("{causes:?}") };
            assert_eq!(cause.cause, factor, "{way:?}");
            assert_eq!(cause.actual < cause.reference, lower);
        }
    }
}

#[test]
fn along_restitution_it_is_the_reason_and_so_is_the_line_along_the_aim() {
    let of = |input, values: &[f64], tolerance| {
        let plan = Plan::new(vec![
            hall(),
            models(&[RailModel::Planar]),
            numbers(Input::Contact, &[2.0, 3.0]),
            numbers(Input::Speed, &[3.0]),
            numbers(input, values),
        ])
        .unwrap();
        causes(&found(&plan, &ratio(2.2), &along(input, tolerance)))
    };
    for (_, _, causes) in of(input("restitution"), &even(0.5, 0.99, 8), 1e-4) {
        assert_eq!(causes[0].cause, Cause::Restitution);
    }
    for (_, _, causes) in of(Input::AimError, &even(-0.05, 0.05, 8), 1e-5) {
        assert_eq!(causes[0].cause, Cause::Line);
    }
}

/// The hall with a cushion that takes no time and loses nothing with speed: a slow ball off the
/// rail then differs from a fast one by its roll at the rail and by how far it slides afterwards.
fn plain_cushion() -> Axis {
    let hall = shipped_equipment("harbour-hall");
    let mut cushion = hall.cushion;
    cushion.restitution_loss_s_m = 0.0;
    cushion.contact_time_s = 0.0;
    let values = vec![Equipment { cushion, ..hall }];
    Axis { input: Input::Equipment, values: Values::Equipment(values) }
}

#[test]
fn a_slow_ball_off_the_rail_goes_long_by_its_roll() {
    let plan = Plan::new(vec![
        plain_cushion(),
        numbers(Input::Contact, &[2.25]),
        numbers(Input::OffRail, &[12.0 * INCH_M]),
        numbers(Input::Speed, &even(1.0, 9.0, 17)),
    ])
    .unwrap();
    let front = found(&plan, &ratio(2.2), &along(Input::Speed, 0.01));
    let (way, lower, causes) = &causes(&front)[0];
    assert!(*lower && *way == BreakKind::Long);
    // Nothing but these two differs: the share of every other cause is nothing.
    let named: Vec<Cause> = causes.iter().map(|share| share.cause).collect();
    assert!(named.contains(&Cause::Roll), "{causes:?}");
    assert!(named.iter().all(|cause| [Cause::Roll, Cause::Bend].contains(cause)), "{causes:?}");
    let roll = causes.iter().find(|share| share.cause == Cause::Roll).unwrap();
    assert!(roll.actual > roll.reference && roll.reference > 0.0);
    let all: f64 = causes.iter().map(|share| share.share_m).sum();
    // Measured: 0.48.
    assert!(roll.share_m / all > 0.4, "{}", roll.share_m / all);
}
