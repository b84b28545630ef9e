//! Every verdict of a dense grid is the one that the frontier says, but for places within the
//! tolerance of an edge.

use super::{INCH_M, along, even, found, hall, models, numbers, over, ratio};
use railproof_engine::bank::BankVerdict;
use railproof_engine::equipment::RailModel;
use railproof_engine::frontier::Certificate;
use railproof_engine::rule::NamedRule;
use railproof_engine::sweep::{Axis, Input, Plan, Row, compare};
use railproof_tests::input;

/// Verdicts of a dense grid in place of the axis `dense`.
fn grid(axes: &[Axis], dense: &[Axis], rules: &[NamedRule]) -> (Plan, Vec<Row>) {
    let mut axes: Vec<Axis> = axes
        .iter()
        .filter(|axis| dense.iter().all(|other| other.input != axis.input))
        .cloned()
        .collect();
    axes.extend(dense.iter().cloned());
    let plan = Plan::new(axes).unwrap();
    let rows = compare(&plan, rules, &|| ()).unwrap();
    (plan, rows)
}

/// Compares lines along one input with a dense grid of the tolerance's steps; returns how many of
/// the lines hold somewhere, and how many intervals there are.
fn lines_agree(axes: &[Axis], input: Input, tolerance: f64, probes: usize) -> (usize, usize) {
    let rules = ratio(2.2);
    let plan = Plan::new(axes.to_vec()).unwrap();
    let search = along(input, tolerance);
    let front = found(&plan, &rules, &super::Search { probes: Some(probes), ..search });
    let (from, to) = (front.probes[0], front.probes[front.probes.len() - 1]);
    let steps = usize::try_from(front.dense_banks).unwrap() / front.sheets.len();
    assert!(((to - from) / (steps - 1) as f64 / tolerance - 1.0).abs() < 1e-9, "{steps}");
    let values = even(from, to, steps);
    let (_, rows) = grid(axes, &[numbers(input, &values)], &rules);
    assert_eq!(front.sheets.len() * steps, rows.len());
    let (mut holding, mut intervals) = (0, 0);
    for (sheet, rows) in front.sheets.iter().zip(rows.chunks(steps)) {
        let line = &sheet.lines[0];
        assert!(matches!(line.looked, Certificate::Searched { unsettled: 0, .. }));
        holding += usize::from(!line.intervals.is_empty());
        intervals += line.intervals.len();
        for (at, row) in values.iter().zip(rows) {
            let near = line.intervals.iter().any(|interval| {
                [&interval.low, &interval.high]
                    .iter()
                    .any(|end| (end.place() - at).abs() <= tolerance)
            });
            let holds = row.outcome.verdict() == BankVerdict::Holds;
            assert!(near || holds == line.holds(*at), "{} {at}: {:?}", input.name(), sheet.digits);
        }
        for interval in &line.intervals {
            for end in [&interval.low, &interval.high] {
                if let Some(breaking) = &end.breaking {
                    assert!((breaking.at - end.holding).abs() <= tolerance);
                    assert_ne!(breaking.outcome.verdict(), BankVerdict::Holds);
                } else {
                    assert!(end.holding == from || end.holding == to);
                }
            }
        }
    }
    (holding, intervals)
}

fn axes() -> Vec<Axis> {
    vec![
        hall(),
        models(&[RailModel::Planar, RailModel::NoseOnly]),
        numbers(Input::Contact, &[1.2, 1.8, 2.4, 3.0, 3.6]),
        numbers(Input::OffRail, &[0.0, 6.0 * INCH_M, 14.0 * INCH_M, 22.0 * INCH_M]),
        numbers(Input::Speed, &[0.8, 9.0]),
        numbers(Input::Roll, &[-0.5, 0.0, 0.5]),
    ]
}

fn with(input: Input, values: &[f64]) -> Vec<Axis> {
    let mut axes = axes();
    axes.retain(|axis| axis.input != input);
    if input != Input::Speed {
        axes.retain(|axis| axis.input != Input::Speed);
        axes.push(numbers(Input::Speed, &[2.0, 4.5]));
    }
    axes.push(numbers(input, values));
    axes
}

#[test]
fn along_speed() {
    let (holding, intervals) = lines_agree(&axes(), Input::Speed, 0.01, 24);
    assert!(holding > 20 && intervals >= holding, "{holding} {intervals}");
}

#[test]
fn along_distance_off_the_rail() {
    let (holding, _) = lines_agree(&with(Input::OffRail, &[0.0, 0.6]), Input::OffRail, 0.001, 16);
    assert!(holding > 10, "{holding}");
}

#[test]
fn along_the_contact_number_there_are_several_intervals() {
    let (holding, intervals) =
        lines_agree(&with(Input::Contact, &[0.8, 4.0]), Input::Contact, 0.002, 24);
    assert!(holding > 10 && intervals > holding, "{holding} {intervals}");
}

#[test]
fn along_spins_and_aim() {
    for (input, values) in [
        (Input::Roll, [-1.0, 1.0]),
        (Input::RunningSide, [-0.6, 0.6]),
        (Input::AimError, [-0.04, 0.04]),
    ] {
        let (holding, _) =
            lines_agree(&with(input, &values), input, 1e-3 * (values[1] - values[0]), 16);
        assert!(holding > 10, "{}", input.name());
    }
}

#[test]
fn along_what_makes_another_table() {
    for (input, values) in [
        (input("restitution"), [0.7, 0.99]),
        (input("sliding_friction"), [0.1, 0.3]),
        (input("corner_mouth"), [0.1, 0.13]),
    ] {
        let (holding, _) =
            lines_agree(&with(input, &values), input, 2e-3 * (values[1] - values[0]), 12);
        assert!(holding > 10, "{}", input.name());
    }
}

/// Compares the region over speed and distance with every cell of a grid of the tolerances' steps;
/// returns the saving, and the share of cells that hold.
fn region_agrees(axes: &[Axis], steps: (usize, usize), lines: (usize, usize)) -> (f64, f64) {
    let rules = ratio(2.2);
    let distances = even(0.0, 22.0 * INCH_M, steps.0 + 1);
    let speeds = even(1.0, 9.0, steps.1 + 1);
    let coarse = [
        numbers(Input::OffRail, &even(0.0, 22.0 * INCH_M, lines.0)),
        numbers(Input::Speed, &even(1.0, 9.0, lines.1)),
    ];
    let plan = Plan::new([axes, &coarse].concat()).unwrap();
    let (along_m_s, across_m) = (8.0 / steps.1 as f64, 22.0 * INCH_M / steps.0 as f64);
    let search = over(along(Input::Speed, along_m_s), Input::OffRail, across_m);
    let front = found(&plan, &rules, &search);
    let dense = [numbers(Input::OffRail, &distances), numbers(Input::Speed, &speeds)];
    let (_, rows) = grid(axes, &dense, &rules);
    assert_eq!(front.dense_banks, rows.len() as u128);
    let cells = distances.len() * speeds.len();
    let mut held = 0;
    for (sheet, rows) in front.sheets.iter().zip(rows.chunks(cells)) {
        let holds =
            |i: usize, j: usize| rows[i * speeds.len() + j].outcome.verdict() == BankVerdict::Holds;
        for (i, distance) in distances.iter().enumerate() {
            for (j, speed) in speeds.iter().enumerate() {
                held += usize::from(holds(i, j));
                if sheet.holds(*distance, *speed).unwrap() == holds(i, j) {
                    continue;
                }
                // Then the verdict changes within a cell's reach, which is the tolerance.
                let around =
                    |at: usize, count: usize| at.saturating_sub(1)..=(at + 1).min(count - 1);
                let changes = around(i, distances.len())
                    .any(|a| around(j, speeds.len()).any(|b| holds(a, b) != holds(i, j)));
                assert!(changes, "{distance} m, {speed} m/s: {:?}", sheet.digits);
            }
        }
    }
    (front.saving(), held as f64 / rows.len() as f64)
}

#[test]
fn over_speed_and_distance_every_cell_agrees_and_fifty_times_fewer_banks_are_played() {
    let axes = [
        hall(),
        models(&[RailModel::NoseOnly, RailModel::Planar]),
        numbers(Input::Contact, &[1.5, 2.0, 2.5, 3.0]),
    ];
    let (saving, share) = region_agrees(&axes, (220, 400), (12, 17));
    // Measured: 86.
    assert!(saving >= 50.0, "{saving}");
    assert!(share > 0.05 && share < 0.95, "{share}");
}

#[test]
fn the_same_by_the_default_model_on_two_tables() {
    let equipment = ["harbour-hall", "seven-foot"].map(railproof_tests::shipped_equipment);
    let equipment = railproof_engine::sweep::Values::Equipment(equipment.to_vec());
    let axes = [
        Axis { input: Input::Equipment, values: equipment },
        numbers(Input::Contact, &[1.75, 2.5]),
        numbers(Input::RunningSide, &[0.0, 0.2]),
    ];
    let (saving, share) = region_agrees(&axes, (110, 160), (8, 13));
    // A coarse grid, for it is played too: the saving grows as the tolerances shrink. Measured: 55.
    assert!(saving >= 40.0, "{saving}");
    assert!(share > 0.05 && share < 0.95, "{share}");
}

#[test]
fn curves_close_where_a_region_ends_and_where_a_gap_opens_in_it() {
    // Far from the rail the region closes; near it a tongue of short banks parts it in two.
    let plan = Plan::new(vec![
        hall(),
        models(&[RailModel::NoseOnly]),
        numbers(Input::Contact, &[2.5]),
        numbers(Input::OffRail, &even(0.0, 22.0 * INCH_M, 12)),
        numbers(Input::Speed, &even(1.0, 9.0, 17)),
    ])
    .unwrap();
    let (along_m_s, across_m) = (0.01, 0.05 * INCH_M);
    let search = over(along(Input::Speed, along_m_s), Input::OffRail, across_m);
    let front = found(&plan, &ratio(2.2), &search);
    let sheet = &front.sheets[0];
    assert!(sheet.strips.len() >= 3 && sheet.strips.iter().all(|strip| strip.part == 0));
    let curves = sheet.curves();
    let ends: Vec<(f64, f64)> = curves
        .iter()
        .flat_map(|curve| [curve.points[0], curve.points[curve.points.len() - 1]])
        .collect();
    let at_range = |(x, y): (f64, f64)| {
        x == 0.0 || x >= 22.0 * INCH_M || y <= 1.0 + along_m_s || y >= 9.0 - along_m_s
    };
    // Every other end lies on another curve's, as closely as was asked; but where the way of
    // breaking changes, the pieces lie on neighbouring lines.
    for (at, end) in ends.iter().enumerate().filter(|(_, end)| !at_range(**end)) {
        let meets = ends.iter().enumerate().any(|(other, place)| {
            other != at && (end.0 - place.0).abs() <= across_m && (end.1 - place.1).abs() <= 0.05
        });
        assert!(meets, "{end:?} of {ends:?}");
    }
    let furthest =
        ends.iter().copied().fold((0.0, 0.0), |far, end| if end.0 > far.0 { end } else { far });
    assert_eq!(ends.iter().filter(|end| **end == furthest).count(), 2, "{furthest:?}");
    assert!(furthest.0 < 17.0 * INCH_M);
}
