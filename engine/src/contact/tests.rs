//! Contacts whose times are known, and the cases that have no breadth.

use super::*;
use crate::motion::{BallState, ClothMotion, Path, Segment};
use crate::vector::{Vec2, Vec3};

const FOREVER: f64 = f64::INFINITY;

fn v(x: f64, y: f64) -> Vec2 {
    Vec2::new(x, y)
}

fn close(found: Option<f64>, expected: f64) {
    let found = found.expect("there is a contact");
    assert!((found - expected).abs() <= 1e-14 * (1.0 + expected), "{found}, not {expected}");
}

#[test]
fn straight_motion_meets_where_the_line_cuts_the_circle() {
    // A 3-4-5 triangle: abreast by 3, the distance 5 is reached 4 before the nearest point.
    close(first_within(v(-10.0, 3.0), v(2.0, 0.0), Vec2::ZERO, 5.0, FOREVER), 3.0);
    close(first_within(v(-10.0, 3.0), v(2.0, 0.0), Vec2::ZERO, 5.0, 3.0), 3.0);
    assert_eq!(first_within(v(-10.0, 3.0), v(2.0, 0.0), Vec2::ZERO, 5.0, 2.99), None);
    assert_eq!(first_within(v(-10.0, 5.1), v(2.0, 0.0), Vec2::ZERO, 5.0, FOREVER), None);
    assert_eq!(first_within(v(-10.0, 3.0), v(-2.0, 0.0), Vec2::ZERO, 5.0, FOREVER), None);
}

#[test]
fn two_at_rest_never_meet_even_if_they_touch_or_overlap() {
    for gap in [1.0, 0.0, -0.5] {
        assert_eq!(first_within(v(1.0 + gap, 0.0), Vec2::ZERO, Vec2::ZERO, 1.0, FOREVER), None);
    }
}

#[test]
fn acceleration_alone_brings_them_together() {
    // ½·2·t² = 9 from rest.
    close(first_within(v(10.0, 0.0), Vec2::ZERO, v(-2.0, 0.0), 1.0, FOREVER), 3.0);
    assert_eq!(first_within(v(10.0, 0.0), Vec2::ZERO, v(-2.0, 0.0), 1.0, 2.9), None);
    assert_eq!(first_within(v(10.0, 0.0), Vec2::ZERO, v(2.0, 0.0), 1.0, FOREVER), None);
    // Touching at rest.
    assert_eq!(first_within(v(1.0, 0.0), Vec2::ZERO, v(-2.0, 0.0), 1.0, FOREVER), Some(0.0));
    assert_eq!(first_within(v(1.0, 0.0), Vec2::ZERO, v(2.0, 0.0), 1.0, FOREVER), None);
    // Square to the line of centres the distance only grows.
    assert_eq!(first_within(v(1.0, 0.0), Vec2::ZERO, v(0.0, 2.0), 1.0, FOREVER), None);
}

#[test]
fn a_ball_that_stops_short_does_not_touch_and_one_that_just_comes_through_does() {
    // Slowing at 2 from 6 it goes 9 and comes back.
    let slowing = v(-2.0, 0.0);
    assert_eq!(first_within(v(-11.0, 0.0), v(6.0, 0.0), slowing, 1.9, FOREVER), None);
    // A distance of 7 is closed when 6t − t² = 4.
    let time = 3.0 - 5.0_f64.sqrt();
    close(first_within(v(-11.0, 0.0), v(6.0, 0.0), slowing, 7.0, FOREVER), time);
    // It comes to the distance with no speed left: no contact.
    assert_eq!(first_within(v(-11.0, 0.0), v(6.0, 0.0), slowing, 2.0, 3.0), None);
}

#[test]
fn touching_balls_meet_at_once_only_if_they_close() {
    let touch = v(1.0, 0.0);
    assert_eq!(first_within(touch, v(-1.0, 5.0), Vec2::ZERO, 1.0, FOREVER), Some(0.0));
    assert_eq!(first_within(touch, v(-1.0, 5.0), v(3.0, 1.0), 1.0, FOREVER), Some(0.0));
    assert_eq!(first_within(touch, v(-1.0, 5.0), v(3.0, 1.0), 1.0, 0.0), Some(0.0));
    assert_eq!(first_within(touch, v(1.0, 5.0), Vec2::ZERO, 1.0, FOREVER), None);
    // Sliding past each other: the distance grows at second order.
    assert_eq!(first_within(touch, v(0.0, 5.0), Vec2::ZERO, 1.0, FOREVER), None);
    assert_eq!(first_within(touch, v(0.0, 5.0), v(-24.9, 0.0), 1.0, 0.01), None);
    // Held on the circle at second order (v²/D), the acceleration against the travel at third.
    assert_eq!(first_within(touch, v(0.0, 5.0), v(-25.0, -1.0), 1.0, 0.01), Some(0.0));
    assert_eq!(first_within(touch, v(0.0, 5.0), v(-25.1, 0.0), 1.0, 0.01), Some(0.0));
}

#[test]
fn touching_balls_that_part_meet_when_they_come_back() {
    // Out at 3, drawn back at 2: back after 3 s.
    close(first_within(v(1.0, 0.0), v(3.0, 0.0), v(-2.0, 0.0), 1.0, FOREVER), 3.0);
    assert_eq!(first_within(v(1.0, 0.0), v(3.0, 0.0), v(-2.0, 0.0), 1.0, 2.9), None);
    // Through each other and back: it meets the far side from within, which is no contact, and the
    // distance again when it comes back.
    let through = first_within(v(0.5, 0.0), v(3.0, 0.0), v(-2.0, 0.0), 1.0, FOREVER);
    close(through, 1.5 + 1.75_f64.sqrt());
}

#[test]
fn overlapping_balls_meet_when_they_turn_back_before_they_are_clear() {
    // From 0.5 out at 1, drawn back at 2, it turns after 0.5 s at 0.75.
    close(first_within(v(0.5, 0.0), v(1.0, 0.0), v(-2.0, 0.0), 1.0, FOREVER), 0.5);
    assert_eq!(first_within(v(0.5, 0.0), v(1.0, 0.0), v(-2.0, 0.0), 1.0, 0.4), None);
    assert_eq!(first_within(v(0.5, 0.0), v(-1.0, 0.0), v(2.0, 0.0), 1.0, FOREVER), Some(0.0));
}

#[test]
fn rounding_on_either_side_of_a_touch_gives_the_same_answer() {
    for ulps in [-4.0, -1.0, 0.0, 1.0, 4.0] {
        let p = v(0.057_15 * (1.0 + ulps * f64::EPSILON), 0.0);
        let closing = first_within(p, v(-0.3, 1.0), v(0.1, -0.2), 0.057_15, FOREVER);
        assert!(closing.is_some_and(|time| time < 1e-15), "{ulps}: {closing:?}");
        assert_eq!(first_within(p, v(0.3, 1.0), v(0.1, -0.2), 0.057_15, FOREVER), None);
        let back = first_within(p, v(0.3, 0.0), v(-0.2, 0.0), 0.057_15, FOREVER);
        assert!(back.is_some_and(|time| (time - 3.0).abs() < 1e-14), "{ulps}: {back:?}");
    }
}

#[test]
fn a_graze_counts_from_more_than_rounding() {
    let graze =
        |depth: f64| first_within(v(-1.0, 0.1 - depth), v(2.0, 0.0), Vec2::ZERO, 0.1, FOREVER);
    assert_eq!(graze(-1e-15), None);
    assert_eq!(graze(0.0), None);
    assert!(graze(1e-14).is_some());
    let bent = |depth: f64| {
        let (n, u, a) = (v(0.0, 0.1 - depth), v(2.0, 0.0), v(0.3, -1.5));
        first_within(n - u * 0.5 + a * 0.125, u - a * 0.5, a, 0.1, 0.9)
    };
    assert_eq!(bent(-1e-15), None);
    assert_eq!(bent(0.0), None);
    assert!(bent(1e-14).is_some());
}

#[test]
fn both_falls_of_the_distance_are_found() {
    // r = (x(t), 1) with x = t² − 6t + 5: |r| is least, 1, where x = 0, at 1 and at 5.
    let (p, velocity, a) = (v(5.0, 1.0), v(-6.0, 0.0), v(2.0, 0.0));
    let wide = v(5.0, 0.0).dot(v(5.0, 0.0)).sqrt();
    assert_eq!(wide, 5.0);
    // To √1.25 falls where x = ½: first at 3 − √4.5, and after x = −4 where x = −½: at 3 + √3.5.
    let distance = 1.25_f64.sqrt();
    let first = 3.0 - 4.5_f64.sqrt();
    close(first_within(p, velocity, a, distance, FOREVER), first);
    let later = first + 1.0;
    let at = |t: f64| (p + velocity * t + a * (0.5 * t * t), velocity + a * t);
    let (p, velocity) = at(later);
    close(first_within(p, velocity, a, distance, FOREVER), 3.0 + 3.5_f64.sqrt() - later);
    // And after that it only parts.
    let (p, velocity) = at(2.0);
    assert!(first_within(p, velocity, a, distance, FOREVER).is_some());
}

#[test]
fn extremes_end_with_an_answer() {
    let nan = f64::NAN;
    let hit = |p, velocity, a, distance, until| first_within(p, velocity, a, distance, until);
    assert_eq!(hit(v(nan, 0.0), v(-1.0, 0.0), Vec2::ZERO, 1.0, FOREVER), None);
    assert_eq!(hit(v(2.0, 0.0), v(nan, 0.0), v(1.0, 0.0), 1.0, FOREVER), None);
    assert_eq!(hit(v(2.0, 0.0), v(-1.0, 0.0), v(nan, 0.0), 1.0, FOREVER), None);
    assert_eq!(hit(v(2.0, 0.0), v(-1.0, 0.0), Vec2::ZERO, nan, FOREVER), None);
    assert_eq!(hit(v(2.0, 0.0), v(-1.0, 0.0), Vec2::ZERO, 1.0, nan), None);
    assert_eq!(hit(v(2.0, 0.0), v(-1.0, 0.0), Vec2::ZERO, 1.0, -1.0), None);
    assert_eq!(hit(v(FOREVER, 0.0), v(-1.0, 0.0), v(-1.0, 0.0), 1.0, FOREVER), None);
    assert_eq!(hit(v(2.0, 0.0), v(-1.0, 0.0), Vec2::ZERO, 0.0, FOREVER), None);
    // Accelerations from hardly any to enormous.
    for exponent in [-320, -200, -120, -99, -30, 0, 9, 60] {
        let a = v(0.0, libm::pow(10.0, f64::from(exponent)));
        let found = hit(v(2.0, 0.0), v(-1.0, 0.0), a, 1.0, FOREVER);
        // At 1e0 and above it is gone sideways before.
        assert_eq!(found.is_some(), exponent < 0, "1e{exponent}: {found:?}");
    }
}

fn stretch(position: Vec2, velocity: Vec2, acceleration: Vec2, duration_s: f64) -> Segment {
    Segment { position, velocity, acceleration, duration_s }
}

#[test]
fn a_line_is_met_on_the_way_in_only() {
    let line = StraightEdge::endless(v(0.0, 1.0), 2.0);
    let ask = |y: f64, speed: f64, a: f64, until: f64| {
        line.first_contact(&stretch(v(7.0, y), v(1.0, speed), v(0.0, a), FOREVER), until)
    };
    close(ask(0.0, 4.0, 0.0, FOREVER), 0.5);
    close(ask(0.0, 4.0, -2.0, FOREVER), 2.0 - 2.0_f64.sqrt());
    close(ask(0.0, -1.0, 2.0, FOREVER), 2.0);
    close(ask(0.0, 0.0, 4.0, FOREVER), 1.0);
    assert_eq!(ask(0.0, 0.0, 4.0, 0.9), None);
    assert_eq!(ask(0.0, 4.0, -4.1, FOREVER), None);
    // It reaches the line with no speed left.
    assert_eq!(ask(0.0, 4.0, -4.0, FOREVER), None);
    assert_eq!(ask(0.0, 0.0, 0.0, FOREVER), None);
    assert_eq!(ask(0.0, -1.0, 0.0, FOREVER), None);
    // Frozen.
    assert_eq!(ask(2.0, 1.0, -9.0, FOREVER), Some(0.0));
    assert_eq!(ask(2.0, 0.0, 1.0, FOREVER), Some(0.0));
    assert_eq!(ask(2.0, 0.0, 0.0, FOREVER), None);
    assert_eq!(ask(2.0, 0.0, -1.0, FOREVER), None);
    close(ask(2.0, -1.0, 1.0, FOREVER), 2.0);
    // Behind it, it turns before it is clear.
    close(ask(2.5, -1.0, 2.0, FOREVER), 0.5);
    // Not beyond the stretch.
    let short = stretch(v(0.0, 0.0), v(0.0, 4.0), Vec2::ZERO, 0.4);
    assert_eq!(line.first_contact(&short, FOREVER), None);
}

#[test]
fn a_line_with_ends_is_met_between_them() {
    let line = StraightEdge::between(v(0.0, 1.0), v(3.0, 2.0), v(1.0, 2.0));
    assert_eq!(line, StraightEdge { normal: v(0.0, 1.0), offset_m: 2.0, from_m: -3.0, to_m: -1.0 });
    let ask = |x: f64, y: f64, speed: f64| {
        line.first_contact(&stretch(v(x, y), v(0.0, speed), Vec2::ZERO, FOREVER), FOREVER)
    };
    for x in [1.0, 2.0, 3.0, 3.0 + 1e-13] {
        close(ask(x, 0.0, 4.0), 0.5);
    }
    for x in [0.999, 3.001] {
        assert_eq!(ask(x, 0.0, 4.0), None);
    }
    // A centre on another side of the thing that the line bounds does not touch this one.
    assert_eq!(ask(2.0, 2.0 + 1e-9, 1.0), Some(0.0));
    assert_eq!(ask(2.0, 2.1, 1.0), None);
}

#[test]
fn an_arc_is_met_between_its_ends_and_later_contacts_count() {
    let quarter = Arc { centre: v(1.0, 1.0), radius_m: 1.0, from: v(-1.0, 0.0), to: v(0.0, -1.0) };
    let reversed = Arc { from: quarter.to, to: quarter.from, ..quarter };
    for arc in [quarter, reversed] {
        let ask =
            |p: Vec2, u: Vec2| arc.first_contact(&stretch(p, u, Vec2::ZERO, FOREVER), FOREVER);
        close(ask(v(-3.0, 1.0), v(2.0, 0.0)), 1.5);
        close(ask(v(1.0, -3.0), v(0.0, 2.0)), 1.5);
        let diagonal = 2.0_f64.sqrt() - 1.0;
        let slope = 0.5_f64.sqrt();
        close(ask(v(0.0, 0.0), v(slope, slope)), diagonal);
        // From the other quarters.
        assert_eq!(ask(v(-3.0, 1.5), v(2.0, 0.0)), None);
        assert_eq!(ask(v(5.0, 1.0), v(-2.0, 0.0)), None);
        assert_eq!(ask(v(2.0, 2.0), v(-slope, -slope)), None);
        // A gap and a normal for what it meets.
        assert_eq!(arc.gap(v(-3.0, 1.0)), 3.0);
        assert_eq!(arc.normal_at(v(-3.0, 1.0)), v(1.0, 0.0));
    }
    // x = 1 + (t² − 6t + 5), y = 1.5 about the centre (1, 1): the first fall is on the right half, the
    // second on the left.
    let upper_left = Arc { from: v(-1.0, 0.0), to: v(0.0, 1.0), ..quarter };
    let there_and_back = stretch(v(6.0, 1.5), v(-6.0, 0.0), v(2.0, 0.0), FOREVER);
    let half = 0.75_f64.sqrt();
    close(upper_left.first_contact(&there_and_back, FOREVER), 3.0 + (4.0 - half).sqrt());
    assert_eq!(upper_left.first_contact(&there_and_back, 4.0), None);
}

fn cloth() -> ClothMotion {
    ClothMotion {
        radius_m: 0.028_575,
        sliding_deceleration_m_s2: 2.0,
        rolling_deceleration_m_s2: 0.1,
        pivot_deceleration_rad_s2: 10.0,
    }
}

fn path(position: Vec2, velocity: Vec2) -> Path {
    Path::new(BallState { position, velocity, spin: Vec3::ZERO }, cloth())
}

#[test]
fn paths_meet_in_any_of_their_stretches() {
    let rests = path(Vec2::ZERO, Vec2::ZERO);
    // A stun ball at 2.1 m/s slides for 2.1·(2/7)/2 = 0.3 s and 0.54 m, then rolls from 1.5 m/s.
    for gap_m in [0.3, 0.54, 0.9, 8.0] {
        let comes = path(v(-gap_m - 0.057_15, 0.0), v(2.1, 0.0));
        let (roll, rolled_m) = (1.5, gap_m - 0.54);
        let expected = if gap_m <= 0.54 {
            (2.1 - (2.1_f64 * 2.1 - 4.0 * gap_m).sqrt()) / 2.0
        } else {
            0.3 + (roll - (roll * roll - 0.2 * rolled_m).sqrt()) / 0.1
        };
        // By the clock, with the ball sent off at 5 and the question asked at 5.1.
        let found = first_between(&comes, &rests, 5.0, 0.0, 5.1, 0.057_15, FOREVER);
        let found = found.expect("it reaches the other");
        assert!((found - 5.0 - expected).abs() < 1e-13, "{gap_m}: {found}");
        assert_eq!(first_between(&rests, &comes, 0.0, 5.0, 5.1, 0.057_15, FOREVER), Some(found));
        assert_eq!(first_between(&comes, &rests, 5.0, 0.0, 5.1, 0.057_15, found - 1e-9), None);
    }
    // It rolls 11.25 m.
    let short = path(v(-12.0, 0.0), v(2.1, 0.0));
    assert_eq!(first_between(&short, &rests, 0.0, 0.0, 0.0, 0.057_15, FOREVER), None);
    // All is over.
    assert_eq!(first_between(&short, &rests, 0.0, 0.0, 99.0, 0.057_15, FOREVER), None);
}

#[test]
fn a_contact_at_the_change_from_slide_to_roll_is_not_lost() {
    let rests = path(Vec2::ZERO, Vec2::ZERO);
    for index in 0..2000 {
        let speed = 0.5 + 0.001 * f64::from(index);
        let start = path(v(-5.0, 0.0), v(speed, 0.0));
        let at_change = start.state_at(start.rolls_from_s()).position.x;
        let comes = path(v(-5.0 - at_change - 0.057_15, 0.0), v(speed, 0.0));
        let started_s = 0.37 * f64::from(index % 7);
        let found = first_between(&comes, &rests, started_s, 0.0, started_s, 0.057_15, FOREVER);
        let found = found.expect("it reaches the other");
        assert!((found - started_s - comes.rolls_from_s()).abs() < 1e-13, "{index}: {found}");
    }
}
