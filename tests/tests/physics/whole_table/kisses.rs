//! The double kiss.

use super::{SMOOTH, impulsive, table};
use railproof_engine::aim::{KissStudy, LineSetup, least_angle, least_gap};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::stroke::Stroke;
use railproof_tests::shipped_equipment;

fn frozen(contact: f64) -> LineSetup {
    LineSetup {
        rail: Rail::Left,
        pocket: Pocket::FootRight,
        line: Line::new(contact, 2.2 * contact),
        off_rail_m: 0.0,
        // The cue ball all but touches, so that it arrives without roll and stops dead.
        cue_distance_m: 1e-4,
        cut_rad: 0.0,
    }
}

#[test]
fn least_gaps_without_contact_time_are_those_computed_elsewhere() {
    // Least distance off the rail, square to it, that avoids the kiss, in: computed by another
    // program from the same equations for a plausible cushion (not this one, so only nearly).
    let elsewhere =
        [(0.5, 6.1), (1.0, 2.1), (1.5, 0.9), (2.0, 0.36), (2.5, 0.14), (3.0, 0.03), (3.5, 0.0)];
    let mut equipment = impulsive(RailModel::NoseAndCloth);
    equipment.ball_contact = SMOOTH;
    let world = table(&equipment);
    for (contact, gap_in) in elsewhere {
        let least =
            least_gap(&world, &frozen(contact), &Stroke::centre(3.0, 0.0), (0.0, 0.3)).unwrap();
        let inches = least / 0.0254;
        assert!(
            (inches - gap_in).abs() <= 0.08 * gap_in + 0.02,
            "{contact}: {inches}, not {gap_in}"
        );
    }
}

#[test]
fn with_the_default_contact_time_only_the_steep_frozen_banks_kiss() {
    let world = table(&shipped_equipment("nine-foot"));
    for speed in [2.0, 3.0, 4.0, 5.0] {
        let stroke = Stroke::centre(speed, 0.0);
        for contact in [2.0, 2.5, 3.0, 3.5] {
            let study = KissStudy::new(&world, &frozen(contact), &stroke).unwrap();
            assert!(!study.kisses(), "{contact} at {speed} m/s");
        }
        assert!(KissStudy::new(&world, &frozen(0.5), &stroke).unwrap().kisses(), "{speed} m/s");
    }
}

#[test]
fn the_clearance_vanishes_where_the_kiss_begins() {
    let mut equipment = impulsive(RailModel::NoseAndCloth);
    equipment.ball_contact = SMOOTH;
    let world = table(&equipment);
    let (at, stroke) = (frozen(1.5), Stroke::centre(3.0, 0.0));
    let least = least_gap(&world, &at, &stroke, (0.0, 0.3)).unwrap();
    let at_gap =
        |off_rail_m: f64| KissStudy::new(&world, &LineSetup { off_rail_m, ..at }, &stroke).unwrap();
    let just = at_gap(least).clearance_m.unwrap();
    assert!((0.0..1e-5).contains(&just), "{just}");
    assert!(at_gap(least - 2e-6).kisses() && !at_gap(least + 1e-6).kisses());
    assert!(at_gap(least + 0.01).clearance_m.unwrap() > at_gap(least + 0.005).clearance_m.unwrap());
}

#[test]
fn a_flatter_angle_avoids_it_too() {
    let world = table(&shipped_equipment("nine-foot"));
    let stroke = Stroke::centre(3.0, 0.0);
    let least =
        least_angle(&world, &frozen(1.0), &stroke, |c| Line::new(c, 2.2 * c), (0.5, 3.5)).unwrap();
    assert!((0.5..2.0).contains(&least), "{least}");
    let kisses = |c: f64| KissStudy::new(&world, &frozen(c), &stroke).unwrap().kisses();
    assert!(kisses(least - 1e-5) && !kisses(least + 1e-5));
}
