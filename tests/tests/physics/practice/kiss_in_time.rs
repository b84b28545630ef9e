//! The double kiss once more, with both contacts resolved in time instead of an impulse and a wait: the
//! cue ball is pressed against the object ball by a spring for a quarter of a millisecond, and the rail
//! holds the object ball by a spring and damper that lasts the cushion's contact time, gives back what
//! the rail model gives back, and turns the way along the rail in step with its push. The ball goes into
//! the cushion and comes out of it, so two balls that pass are looked at all the while.

use super::double_kiss::{Hit, room_mm};
use super::{Case, by_rule, span};
use railproof_engine::bank::{Bank, Launch};
use railproof_engine::motion::{BallState, ClothMotion, Path};
use railproof_engine::stepped::Softness;
use railproof_engine::units::INCH_M;
use railproof_engine::vector::{Vec2, Vec3};
use railproof_tests::shipped_equipment;

/// The time for which two balls press each other, s: an order of magnitude, from memory.
const BALLS_S: f64 = 0.25e-3;
/// Step in time, s.
const STEP_S: f64 = 2e-6;

/// A full hit by a sliding cue ball on a ball that lies on the rule's line.
#[derive(Debug, Clone, Copy)]
struct FullHit {
    contact: f64,
    cue_ball_m_s: f64,
    /// Restitution between the balls.
    restitution: f64,
    off_rail_m: f64,
}

/// The outcome.
#[derive(Debug, Clone, Copy)]
struct Passed {
    /// The room between the balls where it is least after the blow, mm; not positive when they met again.
    room_mm: f64,
    /// The depth to which the ball went into the rail, mm.
    depth_mm: f64,
}

/// Plays it in time.
fn in_time(bank: &Bank, hit: &FullHit) -> Passed {
    let given = 0.5 * (1.0 + hit.restitution) * hit.cue_ball_m_s;
    let launch = Launch { off_rail_m: hit.off_rail_m, ..Launch::frozen_stun(given) };
    let outcome = by_rule(bank, hit.contact, launch);
    let (at_rail, rebound) =
        outcome.at_rail.zip(outcome.rebound).expect("it comes to the rail and off it");
    let (arrives, leaves) = (at_rail.state.velocity, rebound.state.velocity);
    let equipment = bank.equipment();
    let diameter_m = equipment.ball.diameter_m;
    let rail =
        Softness::new((-leaves.y / arrives.y).clamp(0.0, 1.0), equipment.cushion.contact_time_s);
    let along_per_push = (arrives.x - leaves.x) / (arrives.y - leaves.y);
    let balls = Softness::new(hit.restitution, BALLS_S);
    let groove_m = bank.geometry().span_m;
    let cloth = ClothMotion::new(equipment);
    let slide_m_s2 = equipment.sliding_deceleration_m_s2();

    let way = outcome.launch.velocity.unit_or_zero();
    let mut object = (outcome.launch.position, Vec2::ZERO);
    let mut cue = (object.0 - way * diameter_m, way * hit.cue_ball_m_s);
    let (mut held, mut depth_m) = (false, 0.0_f64);
    // Parted from the object ball, the cue ball goes its way on the cloth.
    let mut parted: Option<(f64, Path)> = None;
    let mut least_m = f64::INFINITY;
    let spring = |it: &Softness, depth: f64, speed: f64| {
        let frequency = it.angular_frequency_rad_s;
        (frequency * frequency * depth + 2.0 * it.damping_ratio * frequency * speed).max(0.0)
    };
    let between = |object: Moving, cue: Moving| {
        let apart = object.0 - cue.0;
        let normal = apart.unit_or_zero();
        // Half of the change of their closing for each of two equal balls.
        let closing = (cue.1 - object.1).dot(normal);
        normal * (0.5 * spring(&balls, diameter_m - apart.norm(), closing))
    };
    let on_object = |object: Moving| {
        let depth = object.0.y - groove_m;
        if depth < 0.0 {
            return object.1.unit_or_zero() * -slide_m_s2;
        }
        let push = spring(&rail, depth, object.1.y);
        Vec2::new(-along_per_push * push, -push)
    };
    let mut time_s = 0.0;
    // Until the rail has let it go; the midpoint rule.
    while !(held && object.1.y < 0.0 && on_object(object).y >= 0.0) {
        let push = if parted.is_none() { between(object, cue) } else { Vec2::ZERO };
        let middle_object = moved(object, object.1, push + on_object(object), 0.5 * STEP_S);
        let middle_cue = moved(cue, cue.1, -push, 0.5 * STEP_S);
        let push = if parted.is_none() { between(middle_object, middle_cue) } else { Vec2::ZERO };
        object = moved(object, middle_object.1, push + on_object(middle_object), STEP_S);
        time_s += STEP_S;
        held |= object.0.y > groove_m;
        depth_m = depth_m.max(object.0.y - groove_m);
        if let Some((since_s, path)) = &parted {
            let centre = path.state_at(time_s - since_s).position;
            least_m = least_m.min((object.0 - centre).norm() - diameter_m);
            if least_m < -1e-5 {
                return Passed { room_mm: 1e3 * least_m, depth_mm: 1e3 * depth_m };
            }
            // Only the way back counts.
            if object.1.y > 0.0 {
                least_m = f64::INFINITY;
            }
        } else {
            cue = moved(cue, middle_cue.1, -push, STEP_S);
            if push == Vec2::ZERO && (cue.1 - object.1).dot(way) < 0.0 {
                let state = BallState { position: cue.0, velocity: cue.1, spin: Vec3::ZERO };
                parted = Some((time_s, Path::new(state, cloth)));
            }
        }
    }
    // Off the rail both go their ways on the cloth.
    let object = BallState { position: object.0, velocity: object.1, spin: rebound.state.spin };
    let object = Path::new(object, cloth);
    let (since_s, cue) = parted.expect("the blow is over long before the rail lets go");
    let room = |later_s: f64| {
        let centre = cue.state_at(time_s + later_s - since_s).position;
        (object.state_at(later_s).position - centre).norm() - diameter_m
    };
    let step_s = 2e-4 / leaves.norm();
    let later = (0..1500).map(|step| room(f64::from(step) * step_s)).fold(f64::INFINITY, f64::min);
    Passed { room_mm: 1e3 * least_m.min(later), depth_mm: 1e3 * depth_m }
}

/// Place and velocity.
type Moving = (Vec2, Vec2);

fn moved(from: Moving, velocity: Vec2, push: Vec2, time_s: f64) -> Moving {
    (from.0 + velocity * time_s, from.1 + push * time_s)
}

fn with_time(contact_time_s: f64) -> Case {
    let mut equipment = shipped_equipment("nine-foot");
    equipment.cushion.contact_time_s = contact_time_s;
    Case::new("nine-foot", &equipment)
}

/// An impulse and a wait, and contacts in time, agree on how far off the rail a bank has to be not to
/// kiss: in the closed form within 0.05 in of the resolved one, at every contact time. At 2 m/s, a cue
/// ball that stops dead, in: 6.0 / 2.1 / 0.8 / 0.25 / 0 for contact 0.5 / 1 / 1.5 / 2 / 2.5 at 5 ms and
/// 5.7 / 1.7 / 0.45 / 0 / 0 at 15 ms.
#[test]
fn resolving_the_contacts_hardly_moves_the_least_gap() {
    for contact_time_s in [5e-3, 8e-3, 10e-3, 15e-3] {
        let Case { long, .. } = with_time(contact_time_s);
        for (contact, cue_ball_m_s, restitution) in [
            (0.5, 2.0, 1.0),
            (1.0, 2.0, 1.0),
            (1.5, 2.0, 1.0),
            (2.0, 2.0, 1.0),
            (2.5, 2.0, 1.0),
            (1.0, 4.0, 1.0),
            (1.5, 4.0, 1.0),
            (1.0, 2.0, 0.94),
            (1.5, 4.0, 0.94),
            (2.0, 2.0, 0.94),
        ] {
            let waits = |gap_in: f64| {
                let hit = Hit { restitution, off_rail_m: gap_in * INCH_M };
                room_mm(&long, contact, cue_ball_m_s, &hit) < 0.0
            };
            let resolved = |gap_in: f64| {
                let off_rail_m = gap_in * INCH_M;
                in_time(&long, &FullHit { contact, cue_ball_m_s, restitution, off_rail_m }).room_mm
                    < 0.0
            };
            let waited_in = least_gap_in(waits);
            let at = format!(
                "{contact_time_s} s, contact {contact}, {cue_ball_m_s} m/s, {waited_in:.2} in"
            );
            assert!(!resolved(waited_in + 0.05), "{at}");
            assert!(waited_in < 0.05 || resolved(waited_in - 0.05), "{at}");
        }
    }
}

/// The least whole millisecond with which frozen balls come back past the cue ball off contacts 2 to 3.5,
/// for cue balls of some speed up to 5 m/s: resolved or waited for alike. So the profile's 15 ms rests on
/// the slowest banks of the fact; from 3 m/s up 10 ms are enough, which is what is usually quoted (from
/// memory).
#[test]
fn what_contact_time_double_kiss_practice_asks_for() {
    let least_ms = |restitution: f64, slowest: f64, resolved: bool| {
        (4..20).find(|ms| {
            let Case { long, .. } = with_time(1e-3 * f64::from(*ms));
            span(2.0, 3.5, 0.5).all(|contact| {
                span(slowest, 5.0, 0.5).all(|cue_ball_m_s| {
                    let room = if resolved {
                        let off_rail_m = 0.0;
                        in_time(&long, &FullHit { contact, cue_ball_m_s, restitution, off_rail_m })
                            .room_mm
                    } else {
                        room_mm(&long, contact, cue_ball_m_s, &Hit { restitution, off_rail_m: 0.0 })
                    };
                    room > 0.0
                })
            })
        })
    };
    // A cue ball that stops dead, and one that creeps after the object ball.
    for (slowest, stopped, creeping) in [(2.0, 13, 15), (3.0, 9, 10), (4.0, 7, 8)] {
        for (restitution, stated) in [(1.0, stopped), (0.94, creeping)] {
            for resolved in [false, true] {
                let least = least_ms(restitution, slowest, resolved);
                assert_eq!(least, Some(stated), "from {slowest} m/s, {restitution}, {resolved}");
            }
        }
    }
}

/// From memory: balls are said to go 1 to 1.5 cm into a rail at 4 m/s. A linear cushion says so for 9 to
/// 12 ms; with the 15 ms that banks of 2 m/s ask for it is 1.8 cm.
#[test]
fn how_far_a_ball_goes_into_the_rail() {
    for (ms, stated_mm) in [(8.0, 9.6), (10.0, 12.0), (12.0, 14.4), (15.0, 18.0)] {
        let Case { long, .. } = with_time(1e-3 * ms);
        let hit = FullHit { contact: 0.5, cue_ball_m_s: 4.0, restitution: 1.0, off_rail_m: 0.0 };
        let depth_mm = in_time(&long, &hit).depth_mm;
        assert!((depth_mm - stated_mm).abs() < 0.05, "{ms} ms: {depth_mm} mm");
    }
}

/// The least distance off the rail, in, from which on the hit does not kiss.
fn least_gap_in(kisses: impl Fn(f64) -> bool) -> f64 {
    let Some(last) = (0..=140).rev().find(|gap| kisses(0.05 * f64::from(*gap))) else { return 0.0 };
    let (mut no, mut yes) = (0.05 * f64::from(last), 0.05 * f64::from(last + 1));
    while yes - no > 1e-3 {
        let middle = 0.5 * (no + yes);
        if kisses(middle) { no = middle } else { yes = middle }
    }
    yes
}
