//! The same answer for any number of threads, and in the mirror.

use super::{INCH_M, along, even, found, hall, models, numbers, over, ratio};
use railproof_engine::equipment::RailModel;
use railproof_engine::frontier::{Frontier, find_frontier};
use railproof_engine::rail::PocketChoice;
use railproof_engine::sweep::{Axis, Input, Plan, Values};
use std::sync::atomic::{AtomicU64, Ordering};

#[test]
fn any_number_of_threads_gives_the_same_frontier() {
    let plan = Plan::new(vec![
        hall(),
        numbers(Input::Contact, &[1.5, 2.25]),
        numbers(Input::OffRail, &even(0.0, 20.0 * INCH_M, 6)),
        numbers(Input::Speed, &even(1.0, 8.0, 12)),
    ])
    .unwrap();
    let mut rules = ratio(2.2);
    rules.extend(ratio(2.1));
    let search = over(along(Input::Speed, 0.02), Input::OffRail, 0.2 * INCH_M);
    let on = |threads: usize| -> (Frontier, u64) {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let ticks = AtomicU64::new(0);
        let tick = || {
            ticks.fetch_add(1, Ordering::Relaxed);
        };
        let found = pool.install(|| find_frontier(&plan, &rules, &search, &tick).unwrap());
        (found, ticks.into_inner())
    };
    let (one, ticks) = on(1);
    assert_eq!(ticks, one.banks_searching);
    assert!(one.banks_explaining > 0);
    for threads in [2, 3, 7, 16] {
        assert_eq!(on(threads).0, one, "{threads} threads");
    }
}

#[test]
fn a_side_pocket_from_its_other_side_is_the_mirror_image() {
    let contacts = [0.4, 0.7, 1.0];
    let of = |sign: f64| {
        let contacts = contacts.map(|contact| sign * contact);
        let plan = Plan::new(vec![
            hall(),
            models(&[RailModel::NoseOnly]),
            Axis { input: Input::Pocket, values: Values::Pockets(vec![PocketChoice::Side]) },
            numbers(Input::Contact, &contacts),
            numbers(Input::OffRail, &[0.0, 8.0 * INCH_M]),
            numbers(Input::Speed, &even(1.0, 8.0, 12)),
        ])
        .unwrap();
        found(&plan, &ratio(2.2), &along(Input::Speed, 0.01))
    };
    let (one, other) = (of(1.0), of(-1.0));
    assert_eq!(one.sheets.len(), other.sheets.len());
    let mut intervals = 0;
    for (a, b) in one.sheets.iter().zip(&other.sheets) {
        let ends = |sheet: &railproof_engine::frontier::Sheet| -> Vec<_> {
            let ends = |interval: &railproof_engine::frontier::Interval| {
                [&interval.low, &interval.high].map(|end| (end.holding.to_bits(), end.way()))
            };
            sheet.lines[0].intervals.iter().flat_map(ends).collect()
        };
        intervals += ends(a).len();
        assert_eq!(ends(a), ends(b));
    }
    assert!(intervals > 0);
    assert_eq!(one.banks_played(), other.banks_played());
}
