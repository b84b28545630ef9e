//! First contacts: the same bits in a mirror and with the bodies exchanged, closed to rounding, and the
//! same from any earlier time.

use crate::strategies::{any_size, between, cases};
use proptest::prelude::*;
use railproof_engine::contact::{Arc, StraightEdge, first_within};
use railproof_engine::motion::Segment;
use railproof_engine::vector::Vec2;

/// Position, velocity and acceleration of one centre from another, where they touch, and until when.
#[derive(Debug, Clone, Copy)]
struct Question {
    p: Vec2,
    v: Vec2,
    a: Vec2,
    distance_m: f64,
    until_s: f64,
}

impl Question {
    fn answer(&self) -> Option<f64> {
        first_within(self.p, self.v, self.a, self.distance_m, self.until_s)
    }

    fn with(&self, turn: impl Fn(Vec2) -> Vec2) -> Self {
        Self { p: turn(self.p), v: turn(self.v), a: turn(self.a), ..*self }
    }

    fn position(&self, time_s: f64) -> Vec2 {
        self.p + self.v * time_s + self.a * (0.5 * time_s * time_s)
    }

    fn velocity(&self, time_s: f64) -> Vec2 {
        self.v + self.a * time_s
    }
}

fn bits(time: Option<f64>) -> Option<u64> {
    time.map(f64::to_bits)
}

/// A vector whose length has any size up to `most`, now and then along an axis or zero.
fn vector(least: f64, most: f64) -> impl Strategy<Value = Vec2> {
    let angle = prop_oneof![
        4 => 0.0..core::f64::consts::TAU,
        1 => prop::sample::select(vec![0.0, core::f64::consts::FRAC_PI_2, core::f64::consts::PI]),
    ];
    let length = prop_oneof![6 => any_size(least, most), 1 => Just(0.0)];
    (length, angle).prop_map(|(length, angle)| {
        let (sin, cos) = angle.sin_cos();
        // On the axes to the bit.
        let tidy = |part: f64| if part.abs() < 1e-15 { 0.0 } else { part };
        Vec2::new(length * tidy(cos), length * tidy(sin))
    })
}

/// Any two on a table, half of them sent at each other.
fn question() -> impl Strategy<Value = Question> {
    let until = prop_oneof![3 => any_size(1e-3, 4.0), 1 => Just(f64::INFINITY), 1 => Just(0.0)];
    let aimed = (any::<bool>(), any_size(1e-3, 2.0));
    let distance = between(0.02, 0.12);
    (vector(0.01, 4.0), vector(1e-3, 20.0), vector(1e-3, 10.0), distance, until, aimed).prop_map(
        |(p, v, a, distance_m, until_s, (aims, miss))| {
            let at_the_other = (Vec2::new(-p.y, p.x) * (miss * distance_m) - p).unit_or_zero();
            let v = if aims { at_the_other * v.norm() } else { v };
            Question { p, v, a, distance_m, until_s }
        },
    )
}

proptest! {
    #![proptest_config(cases(1))]

    #[test]
    fn mirrors_and_exchange_keep_every_bit(question in question()) {
        let answer = bits(question.answer());
        prop_assert_eq!(answer, bits(question.with(|u| Vec2::new(-u.x, u.y)).answer()));
        prop_assert_eq!(answer, bits(question.with(|u| Vec2::new(u.x, -u.y)).answer()));
        prop_assert_eq!(answer, bits(question.with(|u| -u).answer()));
        prop_assert_eq!(answer, bits(question.with(|u| Vec2::new(u.y, u.x)).answer()));
    }

    #[test]
    fn edges_and_corners_keep_every_bit_in_a_mirror(
        question in question(),
        normal in 0.0..core::f64::consts::TAU,
        width in 0.1..3.1_f64,
    ) {
        let mirror = |u: Vec2| Vec2::new(-u.x, u.y);
        let unit = |angle: f64| Vec2::new(angle.cos(), angle.sin());
        let stretch = Segment {
            position: question.p,
            velocity: question.v,
            acceleration: question.a,
            duration_s: question.until_s,
        };
        let mirrored = Segment {
            position: mirror(question.p),
            velocity: mirror(question.v),
            acceleration: mirror(question.a),
            ..stretch
        };
        let n = unit(normal);
        let tangent = Vec2::new(-n.y, n.x) * 0.3;
        let line = StraightEdge::between(n, tangent, -tangent);
        let line_there = StraightEdge::between(mirror(n), mirror(tangent), mirror(-tangent));
        prop_assert_eq!(
            bits(line.first_contact(&stretch, 1.0)),
            bits(line_there.first_contact(&mirrored, 1.0))
        );
        let arc = Arc {
            centre: Vec2::new(0.01, 0.02),
            radius_m: question.distance_m,
            from: unit(normal),
            to: unit(normal + width),
        };
        let arc_there = Arc {
            centre: mirror(arc.centre),
            from: mirror(arc.from),
            to: mirror(arc.to),
            ..arc
        };
        prop_assert_eq!(
            bits(arc.first_contact(&stretch, 1.0)),
            bits(arc_there.first_contact(&mirrored, 1.0))
        );
    }

    #[test]
    fn at_a_contact_the_gap_is_closed_to_rounding_and_closing(question in question()) {
        let Some(time) = question.answer() else { return Ok(()) };
        prop_assert!(time >= 0.0 && time <= question.until_s);
        let r = question.position(time);
        let gap_m = r.norm() - question.distance_m;
        let terms_m = question.p.norm()
            + question.v.norm() * time
            + 0.5 * question.a.norm() * time * time;
        let rounding_m = 8.0 * f64::EPSILON * terms_m;
        if question.p.norm() > question.distance_m {
            prop_assert!(gap_m.abs() <= rounding_m, "{gap_m:e} m at {time}");
            prop_assert!(terms_m > 30.0 || gap_m.abs() <= 1e-12, "{gap_m:e} m at {time}");
        } else {
            prop_assert!(gap_m <= rounding_m, "{gap_m:e} m at {time}");
        }
        let approach = -r.dot(question.velocity(time)) / r.norm();
        let speed = question.v.norm() + question.a.norm() * time;
        prop_assert!(approach >= -1e-12 * speed, "parts at {approach} m/s at {time}");
    }

    #[test]
    fn asking_later_but_before_the_contact_finds_the_same(
        question in question(),
        share in 0.0..0.999_f64,
    ) {
        if question.p.norm() <= question.distance_m {
            return Ok(());
        }
        let Some(time) = question.answer() else { return Ok(()) };
        let later_s = share * time;
        let later = Question {
            p: question.position(later_s),
            v: question.velocity(later_s),
            until_s: question.until_s - later_s + 1e-9,
            ..question
        };
        // Rounding of the start moves the contact by as much as its depth at the nearest allows.
        let r = question.position(time);
        let approach = -r.dot(question.velocity(time)) / r.norm();
        let terms_m = question.p.norm()
            + question.v.norm() * time
            + question.a.norm() * time * time;
        let off_s = 100.0 * f64::EPSILON * terms_m / approach;
        if off_s >= 1e-3 * time {
            return Ok(());
        }
        let again = later.answer();
        prop_assert!(
            again.is_some_and(|again| (later_s + again - time).abs() <= off_s + 1e-14),
            "{time} and {later_s} + {again:?}"
        );
    }

    #[test]
    fn after_an_impact_without_loss_the_next_contact_is_later(question in question()) {
        let Some(time) = question.answer() else { return Ok(()) };
        let (r, u) = (question.position(time), question.velocity(time));
        let n = r.unit_or_zero();
        // The balls part as fast as they came.
        let bounced = u - n * (2.0 * n.dot(u));
        if n.dot(bounced) <= 1e-6 * u.norm().max(1.0) {
            return Ok(());
        }
        let next = Question { p: r, v: bounced, until_s: f64::INFINITY, ..question };
        if let Some(again) = next.answer() {
            // No sooner than the acceleration can turn them back, and bring them back if they have
            // come clear.
            let turned = n.dot(bounced) / question.a.norm();
            let overlap = question.p.norm() <= question.distance_m;
            let soonest = if overlap { turned } else { 2.0 * turned };
            prop_assert!(again >= 0.999 * soonest, "after {again} s, not {soonest}");
        }
    }
}
