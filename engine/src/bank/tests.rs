//! Banks whose answer is plain geometry, and mirrored ones.

use super::*;
use crate::equipment::RailModel;
use crate::rail::{Line, Pocket, Rail};

fn frictionless() -> crate::equipment::Equipment {
    let mut equipment = crate::rail::testing::nine_foot();
    equipment.cushion.nose_friction = 0.0;
    equipment.cushion.impact_cloth_friction = Some(0.0);
    equipment.cushion.restitution = 1.0;
    equipment.cushion.restitution_loss_s_m = 0.0;
    equipment.cloth.sliding_friction = 0.0;
    equipment.cushion.contact_time_s = 0.0;
    equipment
}

#[test]
fn a_perfect_mirror_needs_mirror_geometry() {
    // Equal angles: the exact start is where the reflected line to the mouth's midpoint goes.
    let bank =
        Bank::new(&frictionless(), Rail::Left, Pocket::FootRight, RailModel::Planar).unwrap();
    let geometry = bank.geometry();
    let middle = geometry.mouth.midpoint;
    let contact = 2.0;
    let run = contact * geometry.diamond_m - middle.x;
    let expected =
        contact + run * geometry.span_m / (geometry.span_m - middle.y) / geometry.diamond_m;
    let start = exact_start(&bank, contact, Launch::frozen_stun(3.0)).unwrap();
    assert!((start - expected).abs() < 1e-10, "{start} against {expected}");
}

#[test]
fn a_side_pocket_plays_alike_from_both_sides() {
    let equipment = crate::rail::testing::nine_foot();
    let bank =
        Bank::new(&equipment, Rail::Left, Pocket::SideRight, RailModel::NoseAndCloth).unwrap();
    let launch = Launch { side: 0.3, roll: 0.2, off_rail_m: 0.2, ..Launch::frozen_stun(3.0) };
    let one = bank.play(Line::new(1.0, 2.1), launch).unwrap();
    let other = bank.play(Line::new(-1.0, -2.1), launch).unwrap();
    assert_eq!(one.verdict(), other.verdict());
    assert_eq!(one.miss_m(), other.miss_m());
    let (a, b) = (one.rebound.unwrap().state, other.rebound.unwrap().state);
    assert_eq!(a.position.x, -b.position.x);
    assert_eq!(a.spin.z, -b.spin.z);
    assert_eq!(a.spin.x, b.spin.x);
}

#[test]
fn a_slow_ball_stops_and_says_where() {
    let equipment = crate::rail::testing::nine_foot();
    let bank =
        Bank::new(&equipment, Rail::Left, Pocket::FootRight, RailModel::NoseAndCloth).unwrap();
    let slow = Launch { off_rail_m: 0.5, ..Launch::frozen_stun(0.1) };
    let outcome = bank.play(Line::new(2.0, 4.4), slow).unwrap();
    assert_eq!(outcome.verdict(), BankVerdict::StoppedBeforeRail);
    let gentle = Launch::frozen_stun(0.3);
    let outcome = bank.play(Line::new(2.0, 4.4), gentle).unwrap();
    assert_eq!(outcome.verdict(), BankVerdict::StoppedBeforeMouth);
}

#[test]
fn a_contact_in_a_pocket_is_no_cushion() {
    // Contact 4 on the long rail of a nine-foot table is the middle of the side pocket.
    let equipment = crate::rail::testing::nine_foot();
    let bank =
        Bank::new(&equipment, Rail::Left, Pocket::FootRight, RailModel::NoseAndCloth).unwrap();
    let outcome = bank.play(Line::new(4.0, 8.8), Launch::frozen_stun(3.0)).unwrap();
    assert_eq!(outcome.verdict(), BankVerdict::OtherPocket);
}

/// A ball that stays where it lies is sent on another line through its place.
#[test]
fn the_line_of_a_ball_that_stays_goes_through_its_place_and_the_middle_of_the_mouth() {
    let equipment = crate::rail::testing::nine_foot();
    let bank =
        Bank::new(&equipment, Rail::Left, Pocket::FootRight, RailModel::NoseAndCloth).unwrap();
    let span_m = bank.geometry().span_m;
    for (off_rail_m, speed_m_s) in [(0.1, 1.5), (0.254, 3.0), (0.5, 2.0)] {
        let launch = Launch { off_rail_m, ..Launch::frozen_stun(speed_m_s) };
        let asked = Line::new(2.0, 4.4);
        let found = line_as_it_lies(&bank, asked, launch).unwrap();
        let place = |line: Line| line.contact + off_rail_m / span_m * (line.start - line.contact);
        assert!((place(found) - place(asked)).abs() < 1e-12, "{found:?}");
        let outcome = bank.play(found, launch).unwrap();
        assert_eq!(outcome.verdict(), BankVerdict::Holds);
        assert!(outcome.miss_m().unwrap().abs() < 1e-9, "{found:?}");
        // It is the start that the contact asks for, found the other way round.
        let start = exact_start(&bank, found.contact, launch).unwrap();
        assert!((start - found.start).abs() < 1e-6, "{start} against {found:?}");
    }
    assert_eq!(line_as_it_lies(&bank, Line::new(2.0, 4.4), Launch::frozen_stun(3.0)), None);
}
