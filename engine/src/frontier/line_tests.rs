//! Lines whose stretches are known.

use super::super::probe::testing::{room, rooms};
use super::*;
use core::f64::consts::PI;
use std::convert::Infallible;

fn probes(from: f64, to: f64, count: usize) -> Vec<f64> {
    (0..count).map(|k| from + (to - from) * k as f64 / (count - 1) as f64).collect()
}

fn seen(
    probes: &[f64],
    tolerance: f64,
    look: impl Fn(f64) -> Result<Probe<()>, Infallible>,
) -> (Vec<(f64, f64)>, usize, LineFindings<()>) {
    let first: Vec<_> = probes.iter().map(|at| look(*at).unwrap()).collect();
    let mut looks = first.len();
    let seen = search(probes, first, tolerance, &mut |at| {
        looks += 1;
        look(at)
    })
    .unwrap();
    assert_eq!(looks, seen.looks.len());
    assert!(seen.looks.is_sorted_by(|a, b| a.at < b.at));
    for stretch in &seen.stretches {
        for limit in [&stretch.low, &stretch.high] {
            if let Limit::Edge { holding, breaking } = limit {
                assert!(holding.holds && !breaking.holds);
                assert!((holding.at - breaking.at).abs() <= tolerance);
            }
        }
    }
    let ends =
        seen.stretches.iter().map(|stretch| (stretch.low.place(), stretch.high.place())).collect();
    (ends, looks, seen)
}

fn close_to(found: &[(f64, f64)], wanted: &[(f64, f64)], tolerance: f64) {
    assert_eq!(found.len(), wanted.len(), "{found:?}");
    for (found, wanted) in found.iter().zip(wanted) {
        assert!((found.0 - wanted.0).abs() <= tolerance, "{found:?} for {wanted:?}");
        assert!((found.1 - wanted.1).abs() <= tolerance, "{found:?} for {wanted:?}");
    }
}

#[test]
fn every_stretch_of_a_wave_is_found() {
    // Positive on (2k, 2k + 1).
    let look = room(|x| libm::sin(PI * x));
    let (found, looks, seen) = seen(&probes(0.3, 9.7, 25), 1e-4, look);
    let wanted = [(0.3, 1.0), (2.0, 3.0), (4.0, 5.0), (6.0, 7.0), (8.0, 9.0)];
    close_to(&found, &wanted, 1e-4);
    assert!(matches!(seen.stretches[0].low, Limit::Range(_)));
    // Nine edges; a grid as fine takes 94,000.
    assert!(looks <= 25 + 9 * 6, "{looks}");
}

#[test]
fn a_sweep_over_the_mouth_between_two_probes_is_found() {
    // Both probes miss, one short and one long; the mouth is 0.02 wide at 0.437.
    let look = rooms(|x| 0.01 - (x - 0.437), |x| 0.01 + (x - 0.437));
    let (found, looks, _) = seen(&[0.0, 1.0], 1e-4, look);
    close_to(&found, &[(0.427, 0.447)], 1e-4);
    assert!(looks <= 10, "{looks}");
}

#[test]
fn an_island_that_the_rooms_point_at_is_found_between_probes() {
    // The top of a parabola, 0.02 wide, between the probes 0.5 and 0.6.
    let look = room(|x| 1e-4 - (x - 0.5432) * (x - 0.5432));
    let (found, _, _) = seen(&probes(0.0, 1.0, 11), 1e-4, look);
    close_to(&found, &[(0.5332, 0.5532)], 1e-4);
    // And a gap of the same kind.
    let look = room(|x| (x - 0.5432) * (x - 0.5432) - 1e-4);
    let (found, _, _) = seen(&probes(0.0, 1.0, 11), 1e-4, look);
    close_to(&found, &[(0.0, 0.5332), (0.5532, 1.0)], 1e-4);
}

#[test]
fn a_touch_that_does_not_cross_costs_few_looks_and_gives_no_gap() {
    let look = room(|x| (x - 0.5432) * (x - 0.5432) + 1e-9);
    let (found, looks, _) = seen(&probes(0.0, 1.0, 11), 1e-4, look);
    close_to(&found, &[(0.0, 1.0)], 0.0);
    assert!(looks <= 11 + MOST_SUSPICIONS + 2, "{looks}");
}

#[test]
fn an_island_without_a_sign_is_missed_only_below_the_certified_gap() {
    // Flat everywhere else, so nothing points at it.
    let island = |half: f64| {
        move |at: f64| -> Result<Probe<()>, Infallible> {
            let holds = (at - 0.55).abs() < half;
            let rooms = Some(if holds { [1.0, 1.0] } else { [-1.0, 1.0] });
            Ok(Probe { at, holds, rooms, what: () })
        }
    };
    let (found, _, missed) = seen(&probes(0.0, 1.0, 11), 1e-4, island(0.04));
    assert!(found.is_empty());
    assert!(missed.widest_gap >= 0.08, "{}", missed.widest_gap);
    let (found, _, seen) = seen(&probes(0.0, 1.0, 11), 1e-4, island(0.06));
    close_to(&found, &[(0.49, 0.61)], 1e-4);
    assert!(seen.widest_gap < 0.12);
}

#[test]
fn what_holds_everywhere_or_nowhere_takes_the_probes_alone() {
    let (found, looks, _) = seen(&probes(0.0, 1.0, 9), 1e-6, room(|_| 1.0));
    assert_eq!((found.as_slice(), looks), ([(0.0, 1.0)].as_slice(), 9));
    let (found, looks, _) = seen(&probes(0.0, 1.0, 9), 1e-6, room(|_| -1.0));
    assert_eq!((found.len(), looks), (0, 9));
}

#[test]
fn an_end_without_rooms_is_bisected_and_looked_behind() {
    // Below 0.31 the path never arrives; from there on it holds a little.
    let look = |at: f64| -> Result<Probe<()>, Infallible> {
        let rooms = (at > 0.31).then_some([0.4 - at, 1.0]);
        Ok(Probe { at, holds: at > 0.31 && at < 0.4, rooms, what: () })
    };
    // The probes 0.3 and 0.5 straddle the island; the rooms at 0.5, 0.7, … run up to it.
    let (found, _, _) = seen(&probes(0.1, 1.1, 6), 1e-4, look);
    close_to(&found, &[(0.31, 0.4)], 1e-4);
}
