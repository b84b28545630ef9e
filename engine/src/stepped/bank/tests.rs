//! No reference but mechanics: the spring and damper against its own closed form, the grip against
//! the planar closed form, free motion against the path, and energy.

use super::*;
use crate::equipment::{Cloth, Cushion, Equipment, RailModel};
use crate::impact::{Bounce, CushionContact, planar};
use crate::motion::{ClothMotion, Path};
use crate::rail::testing::nine_foot;
use crate::stepped::Softness;
use crate::vector::{Vec2, Vec3};

const GROOVE: f64 = 1.2;
const RADIUS: f64 = 0.028_575;

fn equipment(restitution: f64, friction: f64, contact_time_s: f64) -> Equipment {
    let nine_foot = nine_foot();
    let cushion = Cushion {
        rail_model: RailModel::Compliant,
        nose_height_m: RADIUS,
        restitution,
        restitution_loss_s_m: 0.0,
        restitution_floor: 0.0,
        nose_friction: friction,
        contact_time_s,
        ..nine_foot.cushion
    };
    Equipment { cushion, ..nine_foot }
}

fn without_cloth(mut equipment: Equipment) -> Equipment {
    equipment.cloth =
        Cloth { sliding_friction: 0.0, rolling_resistance: 0.0, pivot_deceleration_rad_s2: 0.0 };
    equipment
}

fn at(y: f64, velocity: Vec2, spin: Vec3) -> BallState {
    BallState { position: Vec2::new(0.3, y), velocity, spin }
}

fn steps(contact_steps: u32) -> CompliantSettings {
    CompliantSettings { contact_steps, ..CompliantSettings::default() }
}

fn energy(state: &BallState) -> f64 {
    state.energy_per_mass(RADIUS)
}

/// A square hit without friction: (error of restitution, error of contact time over itself).
fn square_hit_errors(restitution: f64, contact_steps: u32) -> (f64, f64) {
    let table = without_cloth(equipment(restitution, 0.0, 0.01));
    let start = at(GROOVE - 0.1, Vec2::new(0.0, 2.0), Vec3::ZERO);
    let hit = step_to_departure(&table, start, GROOVE, &steps(contact_steps)).unwrap();
    assert!((hit.contact_began_s - 0.05).abs() < 1e-12);
    (-hit.departure.velocity.y / 2.0 - restitution, hit.contact_time_s / 0.01 - 1.0)
}

#[test]
fn gives_back_the_restitution_asked_for_with_an_error_that_halves_with_the_step() {
    for restitution in [0.98, 0.9, 0.7, 0.4, 0.1] {
        let [(coarse, _), (fine, _)] = [200, 400].map(|n| square_hit_errors(restitution, n));
        // Measured: at most 5.7e-4 at 400 steps, ratios 1.97 to 1.99.
        assert!(fine.abs() < 6e-4, "e = {restitution}: off by {fine}");
        assert!((1.9..2.1).contains(&(coarse / fine)), "e = {restitution}: {coarse} to {fine}");
    }
    // Full restitution is short by the floor under the damping alone, of second order.
    let [(coarse, _), (fine, _)] = [200, 400].map(|n| square_hit_errors(1.0, n));
    assert!((-3e-5..=0.0).contains(&fine), "e = 1: off by {fine}");
    assert!((3.8..4.2).contains(&(coarse / fine)));
}

#[test]
fn holds_the_ball_for_the_contact_time_asked_for_to_within_two_steps() {
    for restitution in [1.0, 0.98, 0.9, 0.7, 0.4, 0.1] {
        for n in [200, 400] {
            let (_, time) = square_hit_errors(restitution, n);
            assert!(time.abs() < 2.01 / f64::from(n), "e = {restitution}, {n} steps: {time}");
        }
    }
}

#[test]
fn push_in_depth_is_that_of_the_damped_spring() {
    // Deepest at tan ωt = ω/β: (v/ω₀)·exp(−ζ·acos ζ/√(1−ζ²)), from x of `Softness::new`.
    for restitution in [0.95, 0.6] {
        let softness = Softness::new(restitution, 0.01);
        let zeta = softness.damping_ratio;
        let depth = 2.0 / softness.angular_frequency_rad_s
            * libm::exp(-zeta * libm::acos(zeta) / (1.0 - zeta * zeta).sqrt());
        let table = without_cloth(equipment(restitution, 0.0, 0.01));
        let start = at(GROOVE, Vec2::new(0.0, 2.0), Vec3::ZERO);
        let hit = step_to_departure(&table, start, GROOVE, &steps(800)).unwrap();
        // Measured: 3e-5 and 2.4e-4.
        assert!((hit.push_in_m / depth - 1.0).abs() < 4e-4, "{} of {depth}", hit.push_in_m);
    }
}

#[test]
fn softness_is_continuous_through_critical_damping() {
    // At ζ = 1 the contact of `Softness::new` gives back exp(−2) and lasts 2/ω₀.
    let critical = Softness::new(libm::exp(-2.0), 0.01);
    assert!((critical.damping_ratio - 1.0).abs() < 1e-9);
    assert!((critical.angular_frequency_rad_s - 200.0).abs() < 1e-6);
    let mut last = Softness::new(0.9, 0.01);
    for step in 1_u32..899 {
        let next = Softness::new(0.9 - 1e-3 * f64::from(step), 0.01);
        assert!(next.damping_ratio > last.damping_ratio);
        last = next;
    }
}

/// Both directions along the rail, with and without side; none of the balls rolls.
fn oblique() -> impl Iterator<Item = (Vec2, Vec3)> {
    [(0.5, 2.0), (2.0, 2.0), (-2.0, 1.0), (3.0, 0.5)]
        .into_iter()
        .flat_map(|(x, y)| [-60.0, 0.0, 45.0].map(|z| (Vec2::new(x, y), Vec3::new(7.0, -11.0, z))))
}

#[test]
fn grips_as_the_planar_closed_form_does() {
    let (mut slid, mut stuck) = (0, 0);
    for friction in [0.05, 0.2, 0.45] {
        for (velocity, spin) in oblique() {
            let table = without_cloth(equipment(0.85, friction, 0.01));
            let start = at(GROOVE - 0.02, velocity, spin);
            let hit = step_to_departure(&table, start, GROOVE, &steps(100)).unwrap();
            // Held to its own restitution, so that only the grip is compared.
            let mut contact = CushionContact::new(&table);
            contact.restitution = -hit.departure.velocity.y / velocity.y;
            let hard = planar(&contact, Bounce { velocity, spin });
            let (vx, wz) = (hit.departure.velocity.x, hit.departure.spin.z);
            assert!((vx - hard.velocity.x).abs() < 1e-11, "{velocity:?} {spin:?}: vx {vx}");
            assert!((wz - hard.spin.z).abs() < 1e-9, "{velocity:?} {spin:?}: wz {wz}");
            assert_eq!((hit.departure.spin.x, hit.departure.spin.y), (spin.x, spin.y));
            if (vx - RADIUS * wz).abs() < 1e-9 { stuck += 1 } else { slid += 1 }
        }
    }
    assert!(slid > 10 && stuck > 10, "{slid} slid, {stuck} stuck");
}

#[test]
fn short_contacts_tend_to_the_planar_closed_form_on_cloth() {
    let velocity = Vec2::new(1.5, 2.0);
    let error = |contact_time_s: f64| {
        let table = equipment(0.85, 0.15, contact_time_s);
        let start = at(GROOVE, velocity, Vec3::new(0.0, 0.0, 20.0));
        let hit = step_to_departure(&table, start, GROOVE, &steps(4000)).unwrap();
        let hard = planar(&CushionContact::new(&table), Bounce { velocity, spin: start.spin });
        (hit.departure.velocity - hard.velocity).norm()
    };
    let (long, short) = (error(4e-3), error(2e-3));
    // What is left is the cloth's work during the contact, in proportion to its length, and the
    // contact's own error of restitution. Measured: 2.8e-3 m/s at 2 ms, ratio 1.986.
    assert!(short < 4e-3, "{short}");
    assert!((1.9..2.1).contains(&(long / short)), "{long} to {short}");
}

#[test]
fn energy_never_grows() {
    for restitution in [1.0, 0.9, 0.3] {
        for (velocity, spin) in oblique() {
            let table = equipment(restitution, 0.2, 0.01);
            let start = at(GROOVE - 0.3, velocity, spin);
            let hit = step_to_departure(&table, start, GROOVE, &steps(60)).unwrap();
            let [before, arrival, departure] =
                [start, hit.arrival, hit.departure].map(|state| energy(&state));
            assert!(arrival <= before * (1.0 + 1e-12), "{velocity:?} {spin:?}");
            assert!(departure <= arrival, "{velocity:?} {spin:?}: {arrival} to {departure}");
        }
    }
}

#[test]
fn free_motion_is_the_closed_form_whatever_the_step() {
    let table = equipment(0.85, 0.2, 0.01);
    let cloth = ClothMotion::new(&table);
    // Away from the cushion, through slide and roll.
    let line = StopLine { normal: Vec2::new(0.3, -1.0), offset_m: -0.2, before_departure: true };
    for (velocity, spin) in oblique() {
        let start = at(1.0, Vec2::new(velocity.x, -velocity.y), spin);
        let path = Path::new(start, cloth);
        for step_s in [1e-4, 7e-3] {
            let settings = CompliantSettings { step_s, ..CompliantSettings::default() };
            let bank = step_bank(&table, start, GROOVE, &[line], &settings);
            let exact = path.first_crossing(line.normal, line.offset_m, 0.0);
            match (exact, bank.end) {
                (Some(exact_s), CompliantEnd::Crossed { time_s, state, .. }) => {
                    // The crossing is interpolated: ⅛·acceleration·step² of distance.
                    let room = 0.125 * 2.0 * step_s * step_s + 1e-11;
                    let off = (state.position - path.state_at(exact_s).position).norm();
                    assert!(off < 10.0 * room, "{off} m");
                    assert!((time_s - exact_s).abs() < 10.0 * room, "{time_s} and {exact_s}");
                }
                (None, CompliantEnd::Rested { time_s, state }) => {
                    let rest_s = path.centre_rests_from_s();
                    assert!((time_s - rest_s).abs() < 1e-8, "{time_s} and {rest_s}");
                    let off = (state.position - path.state_at(rest_s).position).norm();
                    assert!(off < 1e-9, "{off} m");
                }
                (exact, end) => panic!("{exact:?} and {end:?}"),
            }
            for (time_s, position) in bank.path.iter().rev().skip(1) {
                let off = (*position - path.state_at(*time_s).position).norm();
                assert!(off < 1e-9, "{off} m at {time_s} s");
            }
        }
    }
}

#[test]
fn fast_spin_about_the_vertical_is_not_capped() {
    let table = equipment(0.85, 0.2, 0.01);
    let start = at(0.2, Vec2::new(0.3, 0.0), Vec3::new(0.0, 0.0, 1500.0));
    let settings = CompliantSettings { time_limit_s: 0.5, ..CompliantSettings::default() };
    let bank = step_bank(&table, start, GROOVE, &[], &settings);
    let CompliantEnd::TimeLimit { state, .. } = bank.end else { panic!("{:?}", bank.end) };
    assert!((state.spin.z - 1495.0).abs() < 1e-9, "{}", state.spin.z);
}

#[test]
fn a_bank_goes_on_from_the_departure() {
    let table = equipment(0.85, 0.15, 0.008);
    let opposite =
        StopLine { normal: Vec2::new(0.0, -1.0), offset_m: 0.0, before_departure: false };
    let start = at(0.0, Vec2::new(1.0, 3.0), Vec3::new(0.0, 0.0, 30.0));
    let settings = CompliantSettings::default();
    let bank = step_bank(&table, start, GROOVE, &[opposite], &settings);
    let alone = step_to_departure(&table, start, GROOVE, &settings).unwrap();
    assert_eq!(bank.impact.as_ref(), Some(&alone));
    let CompliantEnd::Crossed { line: 0, time_s, state } = bank.end else {
        panic!("{:?}", bank.end)
    };
    let path = Path::new(alone.departure, ClothMotion::new(&table));
    let exact_s = path.first_crossing(opposite.normal, 0.0, 0.0).unwrap();
    let left_s = alone.contact_began_s + alone.contact_time_s;
    assert!((time_s - left_s - exact_s).abs() < 1e-5);
    assert!((state.velocity - path.state_at(exact_s).velocity).norm() < 1e-5);
    assert!(bank.path.windows(2).all(|pair| pair[0].0 < pair[1].0));
}

#[test]
fn the_same_start_gives_the_same_bits() {
    let table = equipment(0.85, 0.15, 0.01);
    let start = at(0.2, Vec2::new(1.0, 3.0), Vec3::new(-40.0, 10.0, 30.0));
    let run = || step_bank(&table, start, GROOVE, &[], &CompliantSettings::default());
    let (first, second) = (run(), run());
    assert_eq!(first, second);
    assert!(matches!(first.end, CompliantEnd::Rested { .. }), "{:?}", first.end);
}

#[test]
fn says_why_a_ball_never_came_off() {
    let table = equipment(0.85, 0.15, 0.01);
    let settings = CompliantSettings::default();
    let end = |start| step_to_departure(&table, start, GROOVE, &settings).unwrap_err();
    let short = end(at(0.2, Vec2::new(0.0, 0.3), Vec3::ZERO).rolling(RADIUS));
    assert!(matches!(short, CompliantEnd::Rested { .. }), "{short:?}");
    // Frozen, with the cloth driving it in by a spin that takes over a second to spend.
    let held = end(at(GROOVE, Vec2::ZERO, Vec3::new(-300.0, 0.0, 0.0)));
    assert!(matches!(held, CompliantEnd::Held { .. }), "{held:?}");
    let not_finite = end(at(0.2, Vec2::new(f64::NAN, 1.0), Vec3::ZERO));
    assert_eq!(not_finite, CompliantEnd::NotFinite);
    let endless = without_cloth(table.clone());
    let away = at(0.2, Vec2::new(0.0, -1.0), Vec3::ZERO);
    let limit = step_to_departure(&endless, away, GROOVE, &settings).unwrap_err();
    assert!(matches!(limit, CompliantEnd::TimeLimit { time_s: 60.0, .. }), "{limit:?}");
}
