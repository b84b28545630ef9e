//! By hand, and the refusals.

use super::*;
use crate::equipment::{Ball, Cue};
use crate::units::DEGREE_RAD;
use crate::vector::Vec2;

const BALL: Ball = Ball { diameter_m: 0.05715, mass_kg: 0.17 };
const R: f64 = 0.028_575;
const CUE: Cue = Cue::USUAL;
/// Straight along x, so that left is y.
const LEVEL: Stroke = Stroke::centre(2.0, 0.0);

fn struck(stroke: Stroke) -> StruckBall {
    stroke.strike(&BALL, &CUE).expect("the stroke is inside its ranges")
}

fn near(value: f64, wanted: f64) {
    assert!((value - wanted).abs() <= 1e-12 * (1.0 + wanted.abs()), "{value} instead of {wanted}");
}

#[test]
fn the_centre_is_stun_along_the_aim() {
    for aim in [0.0, 0.7, -2.5, 9.0] {
        let ball = struck(Stroke { aim_rad: aim, ..LEVEL });
        near(ball.velocity.x, 2.0 * libm::cos(aim));
        near(ball.velocity.y, 2.0 * libm::sin(aim));
        near(ball.spin.norm(), 0.0);
        assert_eq!((ball.squirt_rad, ball.miscue), (0.0, false));
    }
}

#[test]
fn four_tenths_above_the_centre_rolls_at_once() {
    let cue = Cue { end_mass_kg: 0.0, ..CUE };
    let stroke = Stroke { height_offset: 0.4, aim_rad: 1.1, ..LEVEL };
    let ball = stroke.strike(&BALL, &cue).expect("it is allowed");
    near(ball.velocity.x, R * ball.spin.y);
    near(ball.velocity.y, -R * ball.spin.x);
    assert_eq!((ball.spin.z, ball.squirt_rad), (0.0, 0.0));
}

#[test]
fn right_side_turns_against_the_clock_and_squirts_to_the_left() {
    let ball = struck(Stroke { side_offset: 0.3, ..LEVEL });
    near(ball.spin.z * R, 2.5 * 0.3 * 2.0 * 21.0 / (21.0 + 2.5 * 0.91));
    assert!(ball.velocity.y > 0.0 && ball.squirt_rad > 0.0);
    near(ball.velocity.x, 2.0);
    // The arm of the impulse about the centre.
    let arm = libm::sin(libm::asin(0.3) - ball.squirt_rad);
    near(ball.spin.z * R, 2.5 * ball.velocity.norm() * arm);
    near(ball.squirt_rad, libm::atan2(ball.velocity.y, ball.velocity.x));
    let other = struck(Stroke { side_offset: -0.3, ..LEVEL });
    assert_eq!(other.velocity, Vec2::new(ball.velocity.x, -ball.velocity.y));
    assert_eq!((other.spin.z, other.squirt_rad), (-ball.spin.z, -ball.squirt_rad));
}

#[test]
fn an_end_without_mass_does_not_squirt() {
    let cue = Cue { end_mass_kg: 0.0, ..CUE };
    let ball = Stroke { side_offset: 0.5, ..LEVEL }.strike(&BALL, &cue).expect("it is allowed");
    assert_eq!((ball.squirt_rad, ball.velocity), (0.0, Vec2::new(2.0, 0.0)));
}

/// Right side under a raised cue: the ball also turns about its line of travel, so that its lowest
/// point moves to the left over the cloth, and the cloth takes the ball to the right.
#[test]
fn a_raised_cue_tilts_the_axis_of_side() {
    let elevation_rad = 30.0 * DEGREE_RAD;
    let cue = Cue { end_mass_kg: 0.0, ..CUE };
    let stroke = Stroke { side_offset: 0.4, elevation_rad, ..LEVEL };
    let ball = stroke.strike(&BALL, &cue).expect("it is allowed");
    near(ball.velocity.x, 2.0 * libm::cos(elevation_rad));
    near(ball.spin.x * R, 2.5 * 0.4 * 2.0 * 0.5);
    near(ball.spin.z * R, 2.5 * 0.4 * 2.0 * libm::cos(elevation_rad));
    let cloth_slip_left = ball.velocity.y + R * ball.spin.x;
    assert!(cloth_slip_left > 0.0);
    // The spin is as large as from a level cue.
    near(ball.spin.norm() * R, 2.5 * 0.4 * 2.0);
}

#[test]
fn refusals_name_the_reason() {
    let refused =
        |stroke: Stroke| stroke.strike(&BALL, &CUE).expect_err("it must be refused").to_string();
    let text = refused(Stroke { side_offset: 0.6, height_offset: -0.8, ..LEVEL });
    assert!(text.contains("the tip misses the ball") && text.contains("1.000 of"), "{text}");
    let text = refused(Stroke { side_offset: f64::NAN, ..LEVEL });
    assert!(text.contains("the tip misses the ball"), "{text}");
    let text = refused(Stroke { side_offset: 0.4, height_offset: 0.4, ..LEVEL });
    assert!(text.contains("a miscue") && text.contains("0.566"), "{text}");
    for elevation_rad in [-0.01, 81.0 * DEGREE_RAD, f64::INFINITY] {
        let text = refused(Stroke { elevation_rad, ..LEVEL });
        assert!(text.contains("elevation") && text.contains("from 0 deg to 80 deg"), "{text}");
    }
    for speed_m_s in [0.0, -1.0, 25.0, f64::NAN] {
        let text = refused(Stroke { speed_m_s, ..LEVEL });
        assert!(text.contains("speed") && text.contains("20 m/s"), "{text}");
    }
    let text = refused(Stroke { aim_rad: f64::NAN, ..LEVEL });
    assert!(text.contains("not a finite angle"), "{text}");
}

#[test]
fn a_miscue_is_played_on_where_it_is_asked_for() {
    let on_the_limit = struck(Stroke { side_offset: 0.3, height_offset: 0.4, ..LEVEL });
    assert!(!on_the_limit.miscue);
    let beyond = struck(Stroke { side_offset: 0.7, allow_miscue: true, ..LEVEL });
    assert!(beyond.miscue);
    near(beyond.spin.z * R, 2.5 * 0.7 * 2.0 * 21.0 / (21.0 + 2.5 * 0.51));
}

/// With no mass at the shaft's end, by hand: spin counts (5/4)·m·v²·b²/R².
#[test]
fn a_cue_blow_keeps_momentum_and_energy() {
    let blow = CueBlow { speed_m_s: 3.0, cue_mass_kg: 0.54, tip_restitution: 1.0 };
    for offset in [0.0, 0.2, 0.5] {
        let ball = blow.ball_speed_m_s(0.17, 0.0, offset);
        let cue = blow.speed_m_s - 0.17 * ball / 0.54;
        let energy =
            0.5 * 0.54 * cue * cue + 0.5 * 0.17 * ball * ball * (1.0 + 2.5 * offset * offset);
        near(energy, 0.5 * 0.54 * 9.0);
        assert!(ball > cue);
        // An end with mass takes spin away, so the ball is easier to move.
        assert!(offset == 0.0 || blow.ball_speed_m_s(0.17, 0.0085, offset) > ball);
    }
    let dead = CueBlow { tip_restitution: 0.0, ..blow };
    near(2.0 * dead.ball_speed_m_s(0.17, 0.01, 0.3), blow.ball_speed_m_s(0.17, 0.01, 0.3));
}

/// The hop by hand: 4 m/s down a cue raised by 20° is 1.368 m/s into the cloth, half of which comes back.
#[test]
fn a_steep_hard_stroke_makes_the_ball_jump() {
    let raised = |speed_m_s: f64, degrees: f64| {
        struck(Stroke { speed_m_s, elevation_rad: degrees * DEGREE_RAD, ..LEVEL })
    };
    let up = 0.5 * 4.0 * libm::sin(20.0 * DEGREE_RAD);
    near(raised(4.0, 20.0).hop_m(9.81), up * up / (2.0 * 9.81));
    assert!(raised(4.0, 20.0).jumps(9.81));
    assert!(!raised(4.0, 4.0).jumps(9.81) && !raised(1.0, 20.0).jumps(9.81));
    // Squirt of a level draw stroke lifts the ball a little, of a follow stroke presses it down.
    let draw = struck(Stroke { height_offset: -0.4, ..LEVEL });
    let follow = struck(Stroke { height_offset: 0.4, ..LEVEL });
    assert!(draw.up_m_s > 0.0 && follow.up_m_s < 0.0);
    near(draw.up_m_s, -follow.up_m_s);
    assert!(!draw.jumps(9.81));
}
