//! Cue ball and object ball away from the rails, with the nine-foot profile's balls, cloth and cue.
//! Common practice, no source.
//!
//! Asked under both laws of friction between balls. Robust: the directions of throw and of the side that
//! goes over, the tangent line, the rolling cue ball's thirty degrees, and all of slow stun. Not robust:
//! how much a hard shot throws (`hard_cuts_throw_twice_as_much_under_one_law_as_under_the_other`).

use super::under_both_laws;
use railproof_engine::equipment::{Equipment, FrictionLaw};
use railproof_engine::impact::{BallHit, Body, ball_ball};
use railproof_engine::motion::{BallState, ClothMotion, Path};
use railproof_engine::stroke::Stroke;
use railproof_engine::units::DEGREE_RAD;
use railproof_engine::vector::{Vec2, Vec3};
use railproof_tests::shipped_equipment;

/// A cue ball along x at a speed, with roll and right side as fractions of natural roll; the object
/// ball is cut to the left.
fn cut(equipment: &Equipment, speed: f64, cut_deg: f64, roll: f64, side: f64) -> BallHit {
    let surface = speed / equipment.ball.radius_m();
    let (sin, cos) = cut_deg.to_radians().sin_cos();
    let cue_ball = (Vec2::new(speed, 0.0), Vec3::new(0.0, roll * surface, side * surface));
    let bodies = [Body::from(&equipment.ball); 2];
    let before = [cue_ball, (Vec2::ZERO, Vec3::ZERO)];
    ball_ball(&equipment.ball_contact, Vec2::new(cos, sin), bodies, before)
}

/// The nine-foot profile's equipment under each law of friction between balls.
fn both_laws() -> [Equipment; 2] {
    under_both_laws(&shipped_equipment("nine-foot"))
}

/// Direction, degrees to the left of x.
fn degrees(v: Vec2) -> f64 {
    v.y.atan2(v.x).to_degrees()
}

/// The way it goes once it rolls.
fn rolled(equipment: &Equipment, (velocity, spin): (Vec2, Vec3)) -> Vec2 {
    let state = BallState { position: Vec2::ZERO, velocity, spin };
    let path = Path::new(state, ClothMotion::new(equipment));
    path.state_at(path.rolls_from_s()).velocity
}

/// The angle by which the object ball is thrown off the line of centres, degrees to the left.
fn throw(equipment: &Equipment, speed: f64, cut_deg: f64, roll: f64, side: f64) -> f64 {
    degrees(cut(equipment, speed, cut_deg, roll, side).after[1].0) - cut_deg
}

/// A cue ball that slides without spin parts from the object ball at nearly a right angle, whatever
/// the cut: the tangent line.
#[test]
fn a_stun_cue_ball_takes_the_tangent_line() {
    for table in both_laws() {
        for speed in [1.0, 3.0, 6.0] {
            for angle in [20.0, 30.0, 45.0, 60.0] {
                let hit = cut(&table, speed, angle, 0.0, 0.0);
                let apart = degrees(hit.after[1].0) - degrees(hit.after[0].0);
                assert!((80.0..=90.0).contains(&apart), "{apart}° at {angle}° and {speed} m/s");
            }
        }
    }
}

/// A rolling cue ball goes off at about 30° from its old way over the middle range of cuts.
#[test]
fn a_rolling_cue_ball_goes_off_at_about_thirty_degrees() {
    for table in both_laws() {
        for speed in [0.5, 1.5, 4.0] {
            for angle in [15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0] {
                let hit = cut(&table, speed, angle, 1.0, 0.0);
                let off = -degrees(rolled(&table, hit.after[0]));
                assert!((25.0..=35.0).contains(&off), "{off}° at {angle}° and {speed} m/s");
            }
        }
    }
}

/// Follow carries the cue ball on after a straight hit, draw brings it back, stun leaves it nearly
/// where it is; the object ball leaves with a little of the opposite.
#[test]
fn follow_stun_and_draw() {
    for table in both_laws() {
        let after = |roll| {
            let hit = cut(&table, 2.0, 0.0, roll, 0.0);
            (rolled(&table, hit.after[0]).x, hit.after[1].1.y)
        };
        let ((follow, gained), (stun, none), (draw, lost)) = (after(1.0), after(0.0), after(-1.0));
        assert!(follow > 0.4 && draw < -0.4, "{follow} and {draw} m/s");
        assert!(stun.abs() < 0.1, "{stun} m/s");
        assert!(gained < 0.0 && lost > 0.0 && none == 0.0);
    }
}

/// Without side a cut throws the object ball the way the cue ball travels, and drags side onto it.
/// Stun throws more than follow or draw; slow shots throw more than fast ones, except where they are
/// so full that friction stops the slip at any speed. A cut to the left leaves right side on the
/// object ball.
#[test]
fn a_cut_throws_and_drags_side_over() {
    for table in both_laws() {
        for angle in [15.0, 30.0, 45.0] {
            let hit = cut(&table, 1.0, angle, 0.0, 0.0);
            assert!(hit.after[1].1.z > 0.0);
            let at = |speed, roll| throw(&table, speed, angle, roll, 0.0);
            assert!(at(1.0, 0.0) < -0.5, "{}", at(1.0, 0.0));
            if angle > 20.0 {
                assert!(at(1.0, 0.0) < at(5.0, 0.0) - 0.2, "slow throws more at {angle}°");
            } else {
                assert!((at(1.0, 0.0) - at(5.0, 0.0)).abs() < 1e-9, "full: alike at any speed");
            }
            assert!(at(1.0, 0.0) < at(1.0, 1.0) && at(1.0, 0.0) < at(1.0, -1.0), "{angle}°");
        }
    }
}

/// Robust. Published maxima, from memory: slow stun is thrown by 5 to 6 degrees at most, near a half-ball
/// hit, where friction just ends the slip; fuller and thinner hits throw less.
#[test]
fn slow_stun_is_thrown_by_five_to_six_degrees_at_most_near_half_ball() {
    for table in both_laws() {
        for speed in [0.5, 0.75, 1.0] {
            let (most, at) = (1..900)
                .map(|tenth| 0.1 * f64::from(tenth))
                .map(|angle| (-throw(&table, speed, angle, 0.0, 0.0), angle))
                .max_by(|a, b| a.0.total_cmp(&b.0))
                .expect("there are angles");
            // 5.76, 5.41 and 5.14 degrees log-linear, 5.83, 5.46 and 5.16 exponential.
            assert!((5.0..=6.0).contains(&most), "{most}° at {speed} m/s");
            assert!((30.0..=36.0).contains(&at), "at {at}°, {speed} m/s");
            let thrown = |angle| -throw(&table, speed, angle, 0.0, 0.0);
            assert!(thrown(15.0) < thrown(25.0) && thrown(25.0) < most, "{speed} m/s");
            assert!(thrown(75.0) < thrown(50.0) && thrown(50.0) < most, "{speed} m/s");
        }
    }
}

/// Not robust: what a hard cut is thrown by. No published figure decides here, so both are stated.
#[test]
fn hard_cuts_throw_twice_as_much_under_one_law_as_under_the_other() {
    for table in both_laws() {
        let stated = match table.ball_contact.friction_law {
            FrictionLaw::LogLinear => [3.60, 3.05, 2.33],
            FrictionLaw::Exponential => [2.17, 1.56, 0.91],
        };
        for (angle, stated) in [25.0, 30.0, 45.0].into_iter().zip(stated) {
            let thrown = -throw(&table, 4.0, angle, 0.0, 0.0);
            assert!((thrown - stated).abs() <= 0.005, "{thrown}° at {angle}°");
        }
    }
}

/// Outside side (here right side, away from the cut) reduces the throw of a cut, and enough of it
/// turns it over; inside side does not. Straight on, right side throws to the left and leaves left
/// side on the object ball.
#[test]
fn side_throws_and_goes_over() {
    for table in both_laws() {
        let plain = throw(&table, 1.5, 30.0, 0.0, 0.0);
        assert!(plain < 0.0);
        assert!(throw(&table, 1.5, 30.0, 0.0, 0.4) > plain);
        assert!(throw(&table, 1.5, 30.0, 0.0, 0.9) > 0.0);
        assert!(throw(&table, 1.5, 30.0, 0.0, -0.5) < 0.0);
        let straight = cut(&table, 1.5, 0.0, 0.0, 0.5);
        assert!(degrees(straight.after[1].0) > 0.5);
        assert!(straight.after[1].1.z < 0.0 && straight.after[0].1.z > 0.0);
    }
}

/// Right side squirts the cue ball to the left at once; under a raised cue it then swerves back to
/// the right, further the more the cue is raised.
#[test]
fn squirt_then_swerve() {
    let table = shipped_equipment("nine-foot");
    let sideways = |elevation_deg: f64| {
        let stroke = Stroke {
            side_offset: 0.3,
            elevation_rad: elevation_deg * DEGREE_RAD,
            ..Stroke::centre(2.0, 0.0)
        };
        let struck = stroke.strike(&table.ball, &table.cue).expect("it is within range");
        let last = rolled(&table, (struck.velocity, struck.spin));
        (degrees(struck.velocity), degrees(last))
    };
    let (at_once, later) = sideways(0.0);
    assert!((0.5..=4.0).contains(&at_once), "{at_once}°");
    assert!((later - at_once).abs() < 1e-9, "a level cue does not swerve");
    let mut before = later;
    for elevation in [3.0, 8.0, 15.0, 30.0] {
        let (at_once, later) = sideways(elevation);
        assert!(at_once > 0.5 && later < before, "{later}° at {elevation}°");
        before = later;
    }
    assert!(before < 0.0, "{before}°: raised enough, swerve beats squirt");
}
