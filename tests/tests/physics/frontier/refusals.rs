//! Searches that do not fit their plan.

use super::{along, even, hall, models, numbers, over, ratio};
use railproof_engine::equipment::RailModel;
use railproof_engine::frontier::{FrontierError, Search, find_frontier};
use railproof_engine::sample::Sampling;
use railproof_engine::sweep::{Axis, Input, Plan, PlanError, Span, Values};
use railproof_tests::input;

fn refused(search: &Search) -> FrontierError {
    let plan = Plan::new(vec![
        hall(),
        numbers(Input::Contact, &[2.0]),
        numbers(Input::OffRail, &[0.0, 0.3]),
        numbers(Input::Speed, &even(1.0, 9.0, 9)),
    ])
    .unwrap();
    find_frontier(&plan, &ratio(2.2), search, &|| ()).unwrap_err()
}

#[test]
fn a_search_that_does_not_fit_says_why() {
    let speed = along(Input::Speed, 0.01);
    assert!(matches!(
        refused(&along(Input::Rail, 0.1)),
        FrontierError::NotNumbers { input: "rail" }
    ));
    assert!(matches!(
        refused(&along(Input::Contact, 0.1)),
        FrontierError::NoRange { values: "one value", .. }
    ));
    assert!(matches!(
        refused(&along(input("gravity"), 0.1)),
        FrontierError::NoRange { values: "no value", .. }
    ));
    assert!(matches!(
        refused(&over(speed, Input::Speed, 0.1)),
        FrontierError::Same { input: "speed" }
    ));
    for tolerance in [0.0, -1.0, f64::NAN, f64::INFINITY, 5.0, 1e-12] {
        assert!(matches!(
            refused(&along(Input::Speed, tolerance)),
            FrontierError::Tolerance { .. }
        ));
    }
    assert!(matches!(
        refused(&over(speed, Input::OffRail, 1e-9)),
        FrontierError::Tolerance { input: "off_rail", .. }
    ));
    // Places so close together can't be told apart at all.
    let near = Plan::new(vec![
        hall(),
        numbers(Input::Contact, &[3.0, 3.0 + 1e-12]),
        numbers(Input::Speed, &[3.0]),
    ])
    .unwrap();
    let too_fine = find_frontier(&near, &ratio(2.2), &along(Input::Contact, 1e-14), &|| ());
    assert!(matches!(too_fine, Err(FrontierError::Tolerance { .. })), "{too_fine:?}");
    for probes in [0, 1, 100_001] {
        let search = Search { probes: Some(probes), ..speed };
        assert!(matches!(refused(&search), FrontierError::Probes { .. }));
    }
}

#[test]
fn points_spread_over_ranges_make_no_lines() {
    let ranges = |contact| {
        let speed =
            Axis { input: Input::Speed, values: Values::Range(Span { low: 1.0, high: 9.0 }) };
        vec![hall(), models(&[RailModel::Planar]), contact, speed]
    };
    let range = || Values::Range(Span { low: 1.0, high: 3.0 });
    let search = Search { probes: Some(16), ..along(Input::Speed, 0.01) };
    let found = |plan: &Plan| find_frontier(plan, &ratio(2.2), &search, &|| ());
    let spread = Plan::new(ranges(Axis { input: Input::Contact, values: range() })).unwrap();
    assert_eq!(found(&spread), Err(FrontierError::Spread));
    let one = numbers(Input::Contact, &[2.0]);
    let sampled = Plan::sampled(ranges(one.clone()), Sampling::Sobol, 64, 1).unwrap();
    assert_eq!(found(&sampled), Err(FrontierError::Spread));
    // A range of what is searched says from where to where.
    let found = found(&Plan::new(ranges(one)).unwrap()).unwrap();
    assert_eq!((found.probes[0], found.probes[15]), (1.0, 9.0));
    assert!(!found.sheets[0].lines[0].intervals.is_empty());
}

#[test]
fn what_the_plan_itself_refuses_passes_through() {
    let plan = |distance: f64| {
        Plan::new(vec![
            hall(),
            numbers(Input::Contact, &[2.0]),
            numbers(Input::OffRail, &[0.0, distance]),
            numbers(Input::Speed, &[1.0, 9.0]),
        ])
        .unwrap()
    };
    let search = along(Input::OffRail, 0.01);
    let off_table = find_frontier(&plan(1.9), &ratio(2.2), &search, &|| ()).unwrap_err();
    assert!(matches!(off_table, FrontierError::Plan(PlanError::Launch(_))), "{off_table}");
    let no_rule = find_frontier(&plan(0.3), &[], &search, &|| ()).unwrap_err();
    assert!(matches!(no_rule, FrontierError::Plan(PlanError::Missing { .. })), "{no_rule}");
    let many = Search { probes: Some(100_000), ..along(Input::OffRail, 0.01) };
    let speeds = even(1.0, 9.0, 30);
    let plan = Plan::new(vec![
        hall(),
        numbers(Input::Contact, &[2.0]),
        numbers(Input::OffRail, &[0.0, 0.3]),
        numbers(Input::Speed, &speeds),
    ])
    .unwrap();
    let large = find_frontier(&plan, &ratio(2.2), &many, &|| ()).unwrap_err();
    assert!(
        matches!(large, FrontierError::Plan(PlanError::TooLarge { rows: 3_000_000, .. })),
        "{large}"
    );
}
