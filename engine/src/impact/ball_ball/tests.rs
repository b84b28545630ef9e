//! By hand: cases whose answer is a line of algebra.

use super::*;

const R: f64 = 0.028_575;
const M: f64 = 0.17;
const BALL: Body = Body { radius_m: R, mass_kg: M };
const ALONG_X: Vec2 = Vec2::new(1.0, 0.0);
const AT_REST: (Vec2, Vec3) = (Vec2::ZERO, Vec3::ZERO);

fn contact(restitution: f64, friction: f64) -> BallContact {
    BallContact::constant(restitution, friction)
}

fn near(value: f64, wanted: f64) {
    assert!((value - wanted).abs() <= 1e-12 * (1.0 + wanted.abs()), "{value} instead of {wanted}");
}

#[test]
fn a_stop_shot_hands_the_speed_over() {
    let before = [(Vec2::new(2.0, 0.0), Vec3::ZERO), AT_REST];
    let hit = ball_ball(&contact(1.0, 0.1), ALONG_X, [BALL; 2], before);
    assert_eq!(hit.after, [AT_REST, (Vec2::new(2.0, 0.0), Vec3::ZERO)]);
    near(hit.normal_impulse, M * 2.0);
    assert!(!hit.slides);
    assert_eq!((hit.slip_m_s, hit.friction_impulse), (0.0, 0.0));

    let hit = ball_ball(&contact(0.9, 0.1), ALONG_X, [BALL; 2], before);
    near(hit.after[0].0.x, 0.1);
    near(hit.after[1].0.x, 1.9);
}

#[test]
fn balls_that_do_not_close_are_left_alone() {
    let parting = [(Vec2::new(-1.0, 0.5), Vec3::new(1.0, 2.0, 3.0)), AT_REST];
    let hit = ball_ball(&contact(0.9, 0.1), ALONG_X, [BALL; 2], parting);
    assert_eq!(hit.after, parting);
    assert_eq!((hit.normal_impulse, hit.slides), (0.0, false));
}

/// Follow on the first ball is forward spin there; the surfaces slip up-and-down, so the second ball
/// takes draw, and both lose or gain by the same R·Δw = (5/2)·μ·Pn/m.
#[test]
fn follow_leaves_draw_on_the_other_ball() {
    let before = [(Vec2::new(2.0, 0.0), Vec3::new(0.0, 2.0 / R, 0.0)), AT_REST];
    let hit = ball_ball(&contact(1.0, 0.05), ALONG_X, [BALL; 2], before);
    assert!(hit.slides);
    near(hit.slip_m_s, 2.0);
    assert!(hit.slip_up_m_s < 0.0, "the front of a ball that rolls on moves down");
    near(hit.after[0].1.y * R, 2.0 - 2.5 * 0.05 * 2.0);
    near(hit.after[1].1.y * R, -2.5 * 0.05 * 2.0);
    near(hit.after[1].0.x, 2.0);
}

/// Right side on the first ball (against the clock seen from above), a straight hit: at the contact
/// its surface moves to the left and throws the second ball there; that one takes left side.
#[test]
fn side_throws_and_goes_over_as_the_opposite_side() {
    let before = [(Vec2::new(2.0, 0.0), Vec3::new(0.0, 0.0, 1.0 / R)), AT_REST];
    let hit = ball_ball(&contact(1.0, 0.05), ALONG_X, [BALL; 2], before);
    near(hit.slip_across_m_s, 1.0);
    assert!(hit.slides);
    near(hit.after[1].0.y, 0.05 * 2.0);
    near(hit.after[0].0.y, -0.05 * 2.0);
    near(hit.after[1].1.z * R, -2.5 * 0.05 * 2.0);
    near(hit.after[0].1.z * R, 1.0 - 2.5 * 0.05 * 2.0);
}

/// With friction enough the slip ends: each of two equal balls takes a seventh of it as velocity and
/// 5/14 as turning of its surface.
#[test]
fn friction_ends_the_slip_and_no_more() {
    let before = [(Vec2::new(2.0, 0.0), Vec3::new(0.0, 0.0, 0.1 / R)), AT_REST];
    let hit = ball_ball(&contact(1.0, 0.5), ALONG_X, [BALL; 2], before);
    assert!(!hit.slides);
    near(hit.after[1].0.y, 0.1 / 7.0);
    near(hit.friction_impulse, M * 0.1 / 7.0);
    let [(v1, w1), (v2, w2)] = hit.after;
    near(v1.y - v2.y + R * (w1.z + w2.z), 0.0);
}

/// A heavy second ball: the first comes back with e, as from a wall, and friction takes (2/7)·m·slip.
#[test]
fn against_a_ball_of_vast_mass() {
    let wall = Body { radius_m: R, mass_kg: 1e12 };
    let before = [(Vec2::new(1.0, 1.0), Vec3::ZERO), AT_REST];
    let hit = ball_ball(&contact(0.8, 0.5), ALONG_X, [BALL, wall], before);
    near(hit.after[0].0.x, -0.8);
    near(hit.after[0].0.y, 5.0 / 7.0);
}

/// Radii 20 and 40 mm: the line of centres rises by asin(1/3).
#[test]
fn unlike_balls_touch_off_the_horizontal() {
    let bodies = [Body { radius_m: 0.02, mass_kg: 0.1 }, Body { radius_m: 0.04, mass_kg: 0.8 }];
    let cos = 8.0_f64.sqrt() / 3.0;
    let before = [(Vec2::new(1.0, 0.0), Vec3::ZERO), AT_REST];
    let hit = ball_ball(&contact(1.0, 0.0), ALONG_X, bodies, before);
    let reduced = 0.08 / 0.9;
    near(hit.normal_impulse, 2.0 * reduced * cos);
    near(hit.normal_impulse, 2.0 * effective_mass(bodies) * approach_speed(ALONG_X, before));
    near(hit.after[1].0.x, 2.0 * reduced * cos * cos / 0.8);
    // The slip is the closing seen along the tilted tangent: the small ball's surface moves down
    // along the large one's.
    near(hit.slip_up_m_s, -1.0 / 3.0);

    // Without restitution the tilt alone would leave them closing at a ninth of the speed.
    let hit = ball_ball(&contact(0.0, 0.0), ALONG_X, bodies, before);
    near(approach_speed(ALONG_X, hit.after), 0.0);
    near(hit.after[1].0.x, 0.1 / 0.9);
}

/// Every mix of frictions at the law's points, none among them, at slips on and off its ends: what is
/// lost lies between nothing and all of the slip, and more impulse never loses less.
#[test]
fn the_slip_lost_grows_with_the_impulse_under_any_values() {
    let values = [0.0, 1e-9, 0.01, 0.3, 0.5];
    let slips = [0.05, 0.1, 0.100_000_1, 0.7, 1.0, 1.5, 9.999_999, 10.0, 30.0];
    for low in values {
        for middle in values {
            for high in values {
                let law = BallContact {
                    friction_at_0_1: low,
                    friction_at_1: middle,
                    friction_at_10: high,
                    ..BallContact::USUAL
                };
                for slip in slips {
                    let mut before = 0.0;
                    for tenth in -90..30 {
                        let impulse = libm::exp10(0.1 * f64::from(tenth));
                        let lost = slip_lost_m_s(&law, slip, impulse);
                        let least = before * (1.0 - 1e-13);
                        assert!(lost >= least && lost <= slip, "{law:?}: {lost} of {slip}");
                        before = lost;
                    }
                }
            }
        }
    }
}
