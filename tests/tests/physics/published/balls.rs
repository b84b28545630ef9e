//! Ball against ball: deflection, separation, throw.

use super::{exact, printed, table};
use railproof_engine::equipment::BallContact;
use railproof_engine::impact::{BallHit, Body, ball_ball};
use railproof_engine::motion::{BallState, ClothMotion, Path};
use railproof_engine::vector::{Vec2, Vec3};

const R: f64 = 0.028_575;
const BALL: Body = Body { radius_m: R, mass_kg: 0.17 };

fn contact(restitution: f64, friction: f64) -> BallContact {
    BallContact::constant(restitution, friction)
}

/// A cue ball at 1 m/s along x, with this fraction of natural roll, and an object ball at rest that
/// is cut to the left by `cut_deg`.
fn cut(contact: &BallContact, cut_deg: f64, roll: f64) -> BallHit {
    let (sin, cos) = cut_deg.to_radians().sin_cos();
    let cue_ball = (Vec2::new(1.0, 0.0), Vec3::new(0.0, roll / R, 0.0));
    ball_ball(contact, Vec2::new(cos, sin), [BALL; 2], [cue_ball, (Vec2::ZERO, Vec3::ZERO)])
}

/// Direction against x, degrees; the cue ball goes to the right of it.
fn degrees(v: Vec2) -> f64 {
    v.y.atan2(v.x).to_degrees()
}

/// Angle between the two ways, degrees.
fn separation(hit: &BallHit) -> f64 {
    degrees(hit.after[1].0) - degrees(hit.after[0].0)
}

/// Where the cue ball goes once it rolls again, degrees to the right of where it came from.
fn rolled_deflection(hit: &BallHit) -> f64 {
    let (velocity, spin) = hit.after[0];
    let path = Path::new(
        BallState { position: Vec2::ZERO, velocity, spin },
        ClothMotion::new(&table::nine_foot()),
    );
    -degrees(path.state_at(path.rolls_from_s()).velocity)
}

/// Where a function of an angle is largest between two, and its value there, by thirds.
fn largest(f: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> (f64, f64) {
    for _ in 0..200 {
        let third = (high - low) / 3.0;
        if f(low + third) < f(high - third) { low += third } else { high -= third }
    }
    (0.5 * (low + high), f(0.5 * (low + high)))
}

/// Largest deflection of a smooth ball by an equal one at rest: asin((1 + e)/(3 − e)), published in
/// a Sixth Term Examination Paper (UK); 64.79° at e = 0.9.
#[test]
fn largest_deflection_of_a_smooth_ball() {
    for e in [0.3, 0.6, 0.9] {
        let (_, most) =
            largest(|angle| -degrees(cut(&contact(e, 0.0), angle, 0.0).after[0].0), 1.0, 89.0);
        exact(most, ((1.0 + e) / (3.0 - e)).asin().to_degrees());
    }
    let (_, most) =
        largest(|angle| -degrees(cut(&contact(0.9, 0.0), angle, 0.0).after[0].0), 1.0, 89.0);
    printed(most, "64.79");
}

/// Derived: a smooth, perfectly elastic stun shot parts at a right angle. Computed: 87.0255° at 30°
/// and e = 0.94.
#[test]
fn stun_separation() {
    for angle in [5.0, 30.0, 45.0, 80.0] {
        exact(separation(&cut(&contact(1.0, 0.0), angle, 0.0)), 90.0);
    }
    printed(separation(&cut(&contact(0.94, 0.0), 30.0, 0.0)), "87.0255");
}

/// Computed: a rolling cue ball, e = 1, smooth; its way once it rolls again. Derived besides: in units
/// of the speed it leaves with sin φ along the tangent and keeps its spin, so it rolls on with
/// (5/7)·sin φ along the tangent and 2/7 along its old way.
#[test]
fn deflection_of_a_rolling_cue_ball() {
    let deflection = |angle: f64| rolled_deflection(&cut(&contact(1.0, 0.0), angle, 1.0));
    for (angle, digits) in [(15.0, "28.162"), (30.0, "33.670"), (45.0, "29.055"), (60.0, "20.633")]
    {
        printed(deflection(angle), digits);
        let (sin, cos) = f64::to_radians(angle).sin_cos();
        exact(deflection(angle), (5.0 * sin * cos).atan2(5.0 * sin * sin + 2.0).to_degrees());
    }
    let (at, most) = largest(deflection, 10.0, 60.0);
    printed(most, "33.749");
    // The top is flat: its place is known to half the digits only.
    assert!((at - 28.126).abs() < 6e-4, "{at}");
}

/// Computed: throw of a stun shot at e = 1 and μ = 0.05. Derived: tan δ = min(μ, 2·tanφ/(7·(1 + e))),
/// the first where the surfaces slide all through, the second where friction stops them.
#[test]
fn throw_of_a_stun_shot() {
    let throw = |hit: &BallHit, angle: f64| angle - degrees(hit.after[1].0);
    let stuck = cut(&contact(1.0, 0.05), 15.0, 0.0);
    assert!(!stuck.slides);
    printed(throw(&stuck, 15.0), "2.1921");
    let slid = cut(&contact(1.0, 0.05), 30.0, 0.0);
    assert!(slid.slides);
    printed(throw(&slid, 30.0), "2.8624");

    for (e, friction) in [(1.0, 0.05), (0.94, 0.06), (0.8, 0.2)] {
        for angle in [3.0, 10.0, 20.0, 40.0, 70.0] {
            let hit = cut(&contact(e, friction), angle, 0.0);
            let stop = 2.0 * angle.to_radians().tan() / (7.0 * (1.0 + e));
            exact(throw(&hit, angle), stop.min(friction).atan().to_degrees());
            assert_eq!(hit.slides, friction < stop);
        }
    }
}

/// Derived: gearing. With side so that wz·R = v·sinφ at contact the surfaces do not slip sideways:
/// no throw, no side goes over, whatever the friction.
#[test]
fn gearing_side() {
    for angle in [5.0, 30.0, 60.0] {
        let (sin, cos) = f64::to_radians(angle).sin_cos();
        // A cut to the left slips to the right; side that takes it back turns against the clock.
        let cue_ball = (Vec2::new(1.0, 0.0), Vec3::new(0.0, 0.0, sin / R));
        let rest = (Vec2::ZERO, Vec3::ZERO);
        let normal = Vec2::new(cos, sin);
        let hit = ball_ball(&contact(0.94, 0.3), normal, [BALL; 2], [cue_ball, rest]);
        assert!(hit.slip_m_s < 1e-15, "{}", hit.slip_m_s);
        exact(degrees(hit.after[1].0), angle);
        assert!((hit.after[1].1.z * R).abs() < 1e-15);
    }
}

/// Friction of ball on ball falls with slip: 0.11, 0.06 and 0.01 at 0.1, 1 and 10 m/s (Marlow 1995,
/// *The Physics of Pocket Billiards*, quoted from memory). Straight in the logarithm between them:
/// our choice.
#[test]
fn friction_falls_with_slip() {
    let contact = BallContact::USUAL;
    for (slip, digits) in [(0.1, "0.11"), (1.0, "0.06"), (10.0, "0.01")] {
        exact(contact.friction_at(slip), digits.parse().expect("a number"));
    }
    exact(contact.friction_at(0.1_f64.sqrt()), 0.085);
    exact(contact.friction_at(10.0_f64.sqrt()), 0.035);
    assert_eq!((contact.friction_at(0.0), contact.friction_at(50.0)), (0.11, 0.01));
}
