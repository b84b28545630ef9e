//! Regions whose outline is known, against every cell of a dense grid.

use super::super::probe::testing::rooms;
use super::super::strips::chains;
use super::*;
use std::convert::Infallible;
use std::sync::atomic::{AtomicUsize, Ordering};

fn even(from: f64, to: f64, count: usize) -> Vec<f64> {
    (0..count).map(|k| from + (to - from) * k as f64 / (count - 1) as f64).collect()
}

/// Whether a place between the lines lies in the region as traced.
fn inside(lines: &[SheetLine<()>], across: f64, along: f64) -> bool {
    let right = lines.partition_point(|line| line.across < across).clamp(1, lines.len() - 1);
    let (a, b) = (&lines[right - 1], &lines[right]);
    let share = (across - a.across) / (b.across - a.across);
    a.stretches.iter().any(|of_a| {
        b.stretches.iter().filter(|of_b| overlap(of_a, of_b)).any(|of_b| {
            let between = |a: f64, b: f64| a + share * (b - a);
            along >= between(of_a.low.place(), of_b.low.place())
                && along <= between(of_a.high.place(), of_b.high.place())
        })
    })
}

/// Traces the region where both functions are positive on [0, 1]², and compares it with a dense
/// grid: a place may differ only where the verdict changes within the tolerances around it. Returns
/// how many parts there are and the ratio of looks.
fn compared(
    long: impl Fn(f64, f64) -> f64 + Sync,
    short: impl Fn(f64, f64) -> f64 + Sync,
    lines: usize,
) -> (usize, f64) {
    const TOLERANCE: f64 = 0.002;
    let looks = AtomicUsize::new(0);
    let holds = |x: f64, y: f64| long(x, y) > 0.0 && short(x, y) > 0.0;
    let look = |x: f64, y: f64| -> Result<Probe<()>, Infallible> {
        looks.fetch_add(1, Ordering::Relaxed);
        rooms(|y| long(x, y), |y| short(x, y))(y)
    };
    let probes = even(0.0, 1.0, 11);
    let net = Net { probes: &probes, along: TOLERANCE, across: TOLERANCE };
    let found = sheet(&even(0.0, 1.0, lines), net, &look).unwrap();
    assert!(found.is_sorted_by(|a, b| a.across < b.across));
    let steps = 251;
    for i in 0..steps {
        for j in 0..steps {
            let (x, y) = (f64::from(i) / f64::from(steps - 1), f64::from(j) / f64::from(steps - 1));
            if inside(&found, x, y) != holds(x, y) {
                let near = [-1.0, 0.0, 1.0]
                    .iter()
                    .flat_map(|dx| {
                        [-1.0, 0.0, 1.0].map(|dy| (x + dx * TOLERANCE, y + dy * TOLERANCE))
                    })
                    .any(|(nx, ny)| holds(nx, ny) != holds(x, y));
                assert!(near, "({x}, {y}) holds: {}", holds(x, y));
            }
        }
    }
    let parts = chains(&found).iter().map(|chain| chain.part + 1).max().unwrap_or(0);
    let dense = (1.0 / TOLERANCE + 1.0) * (1.0 / TOLERANCE + 1.0);
    (parts, dense / looks.into_inner() as f64)
}

#[test]
fn a_band_between_two_curves() {
    let (parts, saving) =
        compared(|x, y| 0.8 - 0.3 * x * x - y, |x, y| y - 0.2 - 0.2 * libm::sin(3.0 * x), 8);
    assert_eq!(parts, 1);
    assert!(saving > 500.0, "{saving}");
}

#[test]
fn a_disc_closes_at_both_turning_points() {
    let disc = |x: f64, y: f64| 0.09 - (x - 0.47) * (x - 0.47) - (y - 0.52) * (y - 0.52);
    let (parts, saving) = compared(disc, |_, _| 1.0, 8);
    assert_eq!(parts, 1);
    // Measured: 232.
    assert!(saving > 150.0, "{saving}");
}

#[test]
fn two_discs_are_two_parts_and_a_ring_is_one() {
    let disc = |cx: f64, cy: f64, r: f64| {
        move |x: f64, y: f64| r * r - (x - cx) * (x - cx) - (y - cy) * (y - cy)
    };
    let (one, other) = (disc(0.3, 0.3, 0.2), disc(0.7, 0.66, 0.23));
    let (parts, saving) = compared(|x, y| one(x, y).max(other(x, y)), |_, _| 1.0, 8);
    assert_eq!(parts, 2);
    // Measured: 107 for the discs, and as much for the ring.
    assert!(saving > 75.0, "{saving}");
    let (outer, hole) = (disc(0.5, 0.5, 0.4), disc(0.5, 0.5, 0.2));
    let (parts, saving) = compared(outer, |x, y| -hole(x, y), 8);
    assert_eq!(parts, 1);
    assert!(saving > 75.0, "{saving}");
}

#[test]
fn a_band_that_leaves_through_an_end_of_the_range_and_a_kink() {
    let (parts, _) =
        compared(|x, y| 0.7 + 0.6 * x - y, |x, y| y - (0.2 + 0.9 * (x - 0.55).max(0.0)), 6);
    assert_eq!(parts, 1);
}

#[test]
fn an_s_between_two_probed_lines_does_not_pass_for_straight() {
    // Vanishes at both lines and midway between them.
    let s = |x: f64| 0.5 + 0.05 * libm::sin(2.0 * core::f64::consts::PI * x);
    compared(|x, y| s(x) - y, |_, _| 1.0, 2);
}
