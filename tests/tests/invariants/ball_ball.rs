//! Two balls that meet, over the whole of what the engine accepts: unlike radii and masses too.

use crate::strategies::{accepted, any_size, between, cases};
use proptest::prelude::*;
use railproof_engine::equipment::{Ball, BallContact, FrictionLaw};
use railproof_engine::impact::{
    BallHit, Body, approach_speed, ball_ball, effective_mass, with_normal_impulse,
};
use railproof_engine::vector::{Vec2, Vec3};

type Motion = (Vec2, Vec3);

#[derive(Debug, Clone, Copy)]
struct Meeting {
    contact: BallContact,
    normal: Vec2,
    bodies: [Body; 2],
    before: [Motion; 2],
}

impl Meeting {
    fn hit(&self) -> BallHit {
        ball_ball(&self.contact, self.normal, self.bodies, self.before)
    }

    /// Largest speed of any point of either ball.
    fn size(&self) -> f64 {
        let [first, second] = [0, 1]
            .map(|k| self.before[k].0.norm() + self.bodies[k].radius_m * self.before[k].1.norm());
        first.max(second)
    }

    fn swapped(&self) -> Self {
        let ([first, second], [before, after]) = (self.bodies, self.before);
        Self { normal: -self.normal, bodies: [second, first], before: [after, before], ..*self }
    }
}

fn contact() -> impl Strategy<Value = BallContact> {
    let restitution = accepted(BallContact::RESTITUTION);
    let law = prop::sample::select(FrictionLaw::ALL.to_vec());
    let points =
        [BallContact::FRICTION_AT_0_1, BallContact::FRICTION_AT_1, BallContact::FRICTION_AT_10]
            .map(|point| prop_oneof![1 => Just(0.0), 9 => accepted(point)]);
    let exponential = (
        accepted(BallContact::FRICTION_FAR),
        accepted(BallContact::FRICTION_RISE),
        prop_oneof![1 => Just(0.0), 9 => accepted(BallContact::FRICTION_FALL)],
    );
    (restitution, law, points, exponential).prop_map(
        |(restitution, friction_law, points, (friction_far, friction_rise, friction_fall_s_m))| {
            let [friction_at_0_1, friction_at_1, friction_at_10] = points;
            BallContact {
                restitution,
                friction_law,
                friction_at_0_1,
                friction_at_1,
                friction_at_10,
                friction_far,
                friction_rise,
                friction_fall_s_m,
            }
        },
    )
}

/// The least and the most friction that a law gives at any slip up to the given one.
fn friction_range(contact: &BallContact, slip_m_s: f64) -> (f64, f64) {
    match contact.friction_law {
        FrictionLaw::LogLinear => {
            let given = [contact.friction_at_0_1, contact.friction_at_1, contact.friction_at_10];
            let low = given.into_iter().fold(f64::INFINITY, f64::min);
            (low, given.into_iter().fold(0.0, f64::max))
        }
        FrictionLaw::Exponential => (contact.friction_at(slip_m_s), contact.friction_at(0.0)),
    }
}

fn body() -> impl Strategy<Value = Body> {
    (accepted(Ball::DIAMETER), accepted(Ball::MASS))
        .prop_map(|(diameter, mass_kg)| Body { radius_m: 0.5 * diameter, mass_kg })
}

fn motion() -> impl Strategy<Value = Motion> {
    let moving = (
        any_size(0.001, 20.0),
        0.0..core::f64::consts::TAU,
        any_size(0.001, 20.0),
        [between(-1.0, 1.0), between(-1.0, 1.0), between(-1.0, 1.0)],
    )
        .prop_map(|(speed, way, surface, [x, y, z])| {
            let velocity = Vec2::new(speed * way.cos(), speed * way.sin());
            (velocity, Vec3::new(x, y, z) * (surface / 0.03))
        });
    prop_oneof![1 => Just((Vec2::ZERO, Vec3::ZERO)), 3 => moving]
}

/// Mostly balls that close, half of them alike in size.
fn meeting() -> impl Strategy<Value = Meeting> {
    let bodies = (body(), body(), prop::bool::ANY).prop_map(|(first, second, alike)| {
        [first, if alike { Body { radius_m: first.radius_m, ..second } } else { second }]
    });
    (contact(), bodies, motion(), motion(), 0.0..core::f64::consts::TAU, 0_u8..10).prop_map(
        |(contact, bodies, first, second, way, part)| {
            let (sin, cos) = way.sin_cos();
            let normal = Vec2::new(cos, sin);
            let before = [first, second];
            let turn = approach_speed(normal, before) < 0.0 && part > 0;
            Meeting { contact, normal: if turn { -normal } else { normal }, bodies, before }
        },
    )
}

/// As [`meeting`], with one friction at every slip.
fn constant() -> impl Strategy<Value = Meeting> {
    meeting().prop_map(|mut meeting| {
        let BallContact { restitution, friction_law, friction_at_1, .. } = meeting.contact;
        meeting.contact = BallContact::constant(restitution, friction_at_1).under(friction_law);
        meeting
    })
}

fn energy(bodies: [Body; 2], motions: [Motion; 2]) -> f64 {
    [0, 1]
        .map(|k| {
            let (Body { radius_m, mass_kg }, (v, w)) = (bodies[k], motions[k]);
            mass_kg * (0.5 * v.dot(v) + 0.2 * radius_m * radius_m * w.dot(w))
        })
        .iter()
        .sum()
}

fn numbers(hit: &BallHit) -> Vec<f64> {
    hit.after.iter().flat_map(|(v, w)| [v.x, v.y, w.x, w.y, w.z]).collect()
}

/// A signed zero counts as zero.
fn bits(numbers: impl IntoIterator<Item = f64>) -> Vec<u64> {
    numbers.into_iter().map(|number| (number + 0.0).to_bits()).collect()
}

/// Seen in a mirror square to x, or to y: spin is an axial vector.
fn mirrored((v, w): Motion, square_to_x: bool) -> Motion {
    if square_to_x {
        (Vec2::new(-v.x, v.y), Vec3::new(w.x, -w.y, -w.z))
    } else {
        (Vec2::new(v.x, -v.y), Vec3::new(-w.x, w.y, -w.z))
    }
}

proptest! {
    #![proptest_config(cases(1))]

    #[test]
    fn momentum_is_kept_and_energy_never_grows(meeting in meeting()) {
        let hit = meeting.hit();
        let [first, second] = meeting.bodies.map(|body| body.mass_kg);
        let total = |motions: [Motion; 2]| motions[0].0 * first + motions[1].0 * second;
        let change = total(hit.after) - total(meeting.before);
        prop_assert!(change.norm() <= 1e-14 * (first + second) * meeting.size(), "{change:?}");

        let (before, after) =
            (energy(meeting.bodies, meeting.before), energy(meeting.bodies, hit.after));
        prop_assert!(after <= before * (1.0 + 1e-14), "{after} after {before}");
    }

    /// An impulse at the contact turns both balls the same way: I·Δw/R is equal.
    #[test]
    fn both_balls_are_turned_alike(meeting in meeting()) {
        let hit = meeting.hit();
        let [a, b] = [0, 1].map(|k| {
            let (body, (_, old), (_, new)) = (meeting.bodies[k], meeting.before[k], hit.after[k]);
            [new.x - old.x, new.y - old.y, new.z - old.z].map(|w| w * body.mass_kg * body.radius_m)
        });
        let scale = meeting.bodies[0].mass_kg.max(meeting.bodies[1].mass_kg) * meeting.size();
        for (a, b) in a.into_iter().zip(b) {
            prop_assert!((a - b).abs() <= 1e-13 * scale, "{a} and {b}");
        }
    }

    /// Balls alike in size part at e times the speed they closed with; unlike ones never close.
    #[test]
    fn closing_reverses(meeting in meeting()) {
        let hit = meeting.hit();
        let (before, after) = (
            approach_speed(meeting.normal, meeting.before),
            approach_speed(meeting.normal, hit.after),
        );
        let rounding = 1e-14 * meeting.size();
        if before <= 0.0 {
            prop_assert_eq!(hit.after, meeting.before);
            prop_assert_eq!(hit.normal_impulse, 0.0);
        } else {
            prop_assert!(after <= rounding, "still closing at {after}");
            if meeting.bodies[0].radius_m == meeting.bodies[1].radius_m {
                let wanted = -meeting.contact.restitution * before;
                prop_assert!((after - wanted).abs() <= rounding, "{after}, not {wanted}");
            }
        }
    }

    /// Friction lies in its cone and never drives the slip back: what is left of it across the line
    /// of centres points as before.
    #[test]
    fn friction_is_bounded(meeting in meeting()) {
        let hit = meeting.hit();
        let (least, most) = friction_range(&meeting.contact, hit.slip_m_s);
        let pn = hit.normal_impulse;
        prop_assert!(hit.friction_impulse <= most * pn * (1.0 + 1e-14), "{hit:?}");
        let grips = !hit.slides || hit.friction_impulse >= least * pn * (1.0 - 1e-14);
        prop_assert!(grips || meeting.bodies[0].radius_m != meeting.bodies[1].radius_m, "{hit:?}");
        if meeting.bodies[0].radius_m == meeting.bodies[1].radius_m {
            let after = with_normal_impulse(
                &meeting.contact, meeting.normal, meeting.bodies, hit.after, 0.0,
            );
            let left = after.slip_across_m_s * hit.slip_across_m_s.signum();
            prop_assert!(left >= -1e-14 * meeting.size(), "{left}");
            if hit.normal_impulse > 0.0 && !hit.slides {
                prop_assert!(left <= 1e-14 * meeting.size(), "{left}");
            }
        }
    }

    #[test]
    fn exchanging_the_balls_exchanges_the_results(meeting in meeting()) {
        let (hit, swapped) = (meeting.hit(), meeting.swapped().hit());
        let [first, second] = swapped.after;
        prop_assert_eq!(
            bits(numbers(&hit)),
            bits(numbers(&BallHit { after: [second, first], ..swapped }))
        );
        prop_assert_eq!(hit.normal_impulse, swapped.normal_impulse);
    }

    #[test]
    fn mirrors_mirror(meeting in meeting(), square_to_x in prop::bool::ANY) {
        let flip = |motion| mirrored(motion, square_to_x);
        let normal = flip((meeting.normal, Vec3::ZERO)).0;
        let image = Meeting { normal, before: meeting.before.map(flip), ..meeting }.hit();
        let hit = meeting.hit();
        prop_assert_eq!(
            bits(numbers(&image)),
            bits(numbers(&BallHit { after: hit.after.map(flip), ..hit }))
        );
    }

    /// With one friction at every slip, speeds times a power of two give results times it, to the
    /// bit.
    #[test]
    fn speeds_scale(meeting in constant(), factor in prop::sample::select(vec![0.25, 0.5, 2.0, 8.0])) {
        let faster = Meeting {
            before: meeting.before.map(|(v, w)| (v * factor, w * factor)),
            ..meeting
        };
        prop_assert_eq!(
            bits(numbers(&faster.hit())),
            bits(numbers(&meeting.hit()).into_iter().map(|number| number * factor))
        );
    }

    /// So do masses, which leave the motion as it is.
    #[test]
    fn masses_scale(meeting in meeting(), factor in prop::sample::select(vec![0.25, 0.5, 2.0, 8.0])) {
        let bodies = meeting.bodies.map(|body| Body { mass_kg: body.mass_kg * factor, ..body });
        prop_assert_eq!(
            bits(numbers(&Meeting { bodies, ..meeting }.hit())),
            bits(numbers(&meeting.hit()))
        );
    }

    /// The impulse of an impact by hand gives the same impact.
    #[test]
    fn a_given_impulse_does_the_same(meeting in meeting()) {
        let Meeting { contact, normal, bodies, before } = meeting;
        let speed = approach_speed(normal, before).max(0.0);
        let impulse = (1.0 + contact.restitution) * effective_mass(bodies) * speed;
        let given = with_normal_impulse(&contact, normal, bodies, before, impulse);
        let hit = meeting.hit();
        if approach_speed(normal, given.after) <= 0.0 {
            prop_assert_eq!(bits(numbers(&hit)), bits(numbers(&given)));
        }
    }

    /// A law that hardly changes gives nearly what constant friction does: the difference falls with
    /// that of the frictions.
    #[test]
    fn a_law_that_hardly_changes_is_like_constant_friction(
        meeting in constant(), change in any_size(1e-12, 1e-3),
    ) {
        let mut changing = meeting;
        let friction = meeting.contact.friction_at(1.0);
        changing.contact.friction_at_0_1 = friction + change;
        changing.contact.friction_rise = change;
        let (hit, plain) = (changing.hit(), meeting.hit());
        let off = numbers(&hit).into_iter().zip(numbers(&plain));
        // Per unit of friction: an impulse of at most 2·m·size turns a surface by 5/2 of it.
        let most = (change + 1e-14) * hit.normal_impulse
            / meeting.bodies[0].mass_kg.min(meeting.bodies[1].mass_kg);
        let radius = meeting.bodies[0].radius_m.min(meeting.bodies[1].radius_m);
        let rounding = 1e-13 * meeting.size() * (1.0 + 2.5 / radius);
        for (a, b) in off {
            prop_assert!((a - b).abs() <= most * (1.0 + 2.5 / radius) + rounding, "{a} and {b}");
        }
    }

    /// A contact in two halves, with the slip that the first leaves, is the contact.
    #[test]
    fn a_contact_in_two_parts_is_the_contact(meeting in meeting(), share in 0.01..0.99_f64) {
        let Meeting { contact, normal, mut bodies, .. } = meeting;
        bodies[1].radius_m = bodies[0].radius_m;
        let meeting = Meeting { bodies, ..meeting };
        let whole = meeting.hit();
        let part = |before, share: f64| {
            with_normal_impulse(&contact, normal, bodies, before, share * whole.normal_impulse)
        };
        // Vertical velocity is forgotten between the parts, so the slip has to be level.
        let level = meeting.before.map(|(v, w)| (v, Vec3::new(0.0, 0.0, w.z)));
        let whole = part(level, 1.0);
        let parts = part(part(level, share).after, 1.0 - share);
        for (a, b) in numbers(&whole).into_iter().zip(numbers(&parts)) {
            let scale = 1.0 + 1.0 / bodies[0].radius_m.min(bodies[1].radius_m);
            prop_assert!((a - b).abs() <= 1e-12 * meeting.size() * scale, "{a} and {b}");
        }
    }

    #[test]
    fn friction_stays_between_its_values(contact in contact(), slip in any_size(1e-4, 1e3)) {
        let (low, high) = friction_range(&contact, slip);
        let friction = contact.friction_at(slip);
        prop_assert!(friction >= low - 1e-16 && friction <= high + 1e-16, "{friction}");
    }
}
