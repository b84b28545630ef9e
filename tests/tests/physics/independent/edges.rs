//! First contacts with edges and round corners against steps that never pass one, with angles taken by
//! the arctangent.

use super::marching::{Draw, Gap, cases};
use railproof_engine::contact::{Arc, StraightEdge};
use railproof_engine::motion::Segment;
use railproof_engine::vector::Vec2;

/// The times at which the gap closes, in order, from outside.
fn touches<G: Fn(f64) -> f64, S: Fn(f64) -> f64>(gap: &Gap<G, S>, until_s: f64) -> Vec<f64> {
    let mut times = Vec::new();
    let mut from = Some(0.0);
    while let Some(time) = from.and_then(|from| gap.first_touch(from, until_s).0) {
        times.push(time);
        from = gap.first_clear(time, until_s);
    }
    times
}

impl Draw {
    fn stretch(&mut self, near: Vec2, within_m: f64) -> Segment {
        let position = near + self.direction() * self.size(0.03, 2.0);
        let towards = near + self.direction() * (within_m * self.share()) - position;
        let direction = towards.unit_or_zero();
        let (speed, acceleration) = (self.size(0.01, 20.0), self.acceleration());
        if self.one_in(2.0) {
            return Segment {
                position,
                velocity: direction * speed,
                acceleration: self.direction() * acceleration,
                duration_s: self.until(speed, acceleration),
            };
        }
        // There and back.
        let back = self.direction() * (0.3 * self.share()) - direction;
        let turns_after_m = (position - near).norm() * self.between(0.8, 2.0);
        let acceleration = self.size(0.5, 10.0);
        let speed = (2.0 * acceleration * turns_after_m).sqrt();
        Segment {
            position,
            velocity: direction * speed,
            acceleration: back * acceleration,
            duration_s: self.between(1.0, 3.0) * speed / acceleration,
        }
    }
}

fn agree(what: &str, exact: Option<f64>, searched: Option<f64>, closing: impl Fn(f64) -> f64) {
    match (exact, searched) {
        (None, None) => {}
        (Some(exact), Some(searched)) => {
            let closing = closing(exact).min(closing(searched));
            assert!(closing > 0.0, "{what}: parts at {exact}");
            let allowed = 3e-13 / closing + 1e-14 * exact;
            assert!((exact - searched).abs() <= allowed, "{what}: {exact}, searched {searched}");
        }
        _ => panic!("{what}: {exact:?}, searched {searched:?}"),
    }
}

#[test]
fn edges_are_met_where_a_search_meets_them() {
    let mut draw = Draw::of(11);
    let (mut met, mut past_an_end, mut clear) = (0, 0, 0);
    let count = cases().div_ceil(2);
    for _ in 0..count {
        let normal = draw.direction();
        let tangent = Vec2::new(-normal.y, normal.x);
        let middle = draw.direction() * draw.between(0.0, 1.0);
        let half_m = draw.between(0.01, 0.5);
        let line =
            StraightEdge::between(normal, middle - tangent * half_m, middle + tangent * half_m);
        let stretch = draw.stretch(middle, 2.0 * half_m);
        // From the side that can be met.
        if line.gap(stretch.position) < 1e-9 {
            continue;
        }
        let gap = Gap {
            at: |time| (middle - stretch.position_at(time)).dot(normal),
            speed: |time| stretch.velocity_at(time).norm(),
            acceleration: stretch.acceleration.norm(),
        };
        let times = touches(&gap, stretch.duration_s);
        let is_between =
            |time: &f64| (stretch.position_at(*time) - middle).dot(tangent).abs() <= half_m;
        let searched = times.iter().copied().find(is_between);
        let exact = line.first_contact(&stretch, f64::INFINITY);
        let what = format!("{line:?} {stretch:?}");
        agree(&what, exact, searched, |time| normal.dot(stretch.velocity_at(time)));
        match (searched, times.is_empty()) {
            (Some(_), _) => met += 1,
            (None, false) => past_an_end += 1,
            (None, true) => clear += 1,
        }
        if let Some(exact) = exact {
            assert!(line.gap(stretch.position_at(exact)).abs() < 1e-12, "{what}");
        }
    }
    println!("edges: {met} met, {past_an_end} past an end, {clear} clear");
    assert!(met.min(past_an_end).min(clear) > count / 20, "{met} {past_an_end} {clear}");
}

#[test]
fn round_corners_are_met_where_a_search_meets_them() {
    let mut draw = Draw::of(12);
    let (mut met, mut later, mut outside, mut clear) = (0, 0, 0, 0);
    let count = cases().div_ceil(2);
    for _ in 0..count {
        let centre = draw.direction() * draw.between(0.0, 1.0);
        let radius_m = draw.between(0.02, 0.3);
        let (from, width) = (draw.between(-3.1, 3.1), draw.between(0.2, 3.1));
        let unit = |angle: f64| Vec2::new(angle.cos(), angle.sin());
        let mut arc = Arc { centre, radius_m, from: unit(from), to: unit(from + width) };
        if draw.one_in(2.0) {
            arc = Arc { from: arc.to, to: arc.from, ..arc };
        }
        let stretch = draw.stretch(centre, 1.5 * radius_m);
        if arc.gap(stretch.position) < 1e-9 {
            continue;
        }
        let gap = Gap {
            at: |time| (stretch.position_at(time) - centre).norm() - radius_m,
            speed: |time| stretch.velocity_at(time).norm(),
            acceleration: stretch.acceleration.norm(),
        };
        let times = touches(&gap, stretch.duration_s);
        let faces = |time: &f64| {
            let r = stretch.position_at(*time) - centre;
            (r.y.atan2(r.x) - from).rem_euclid(core::f64::consts::TAU) <= width
        };
        let searched = times.iter().copied().find(faces);
        let exact = arc.first_contact(&stretch, f64::INFINITY);
        let what = format!("{arc:?} {stretch:?}");
        agree(&what, exact, searched, |time| {
            arc.normal_at(stretch.position_at(time)).dot(stretch.velocity_at(time))
        });
        match (searched, times.first()) {
            (Some(time), first) if first == Some(&time) => met += 1,
            (Some(_), _) => later += 1,
            (None, Some(_)) => outside += 1,
            (None, None) => clear += 1,
        }
        if let Some(exact) = exact {
            assert!(arc.gap(stretch.position_at(exact)).abs() < 1e-12, "{what}");
        }
    }
    println!("corners: {met} met, {later} at a later touch, {outside} outside, {clear} clear");
    assert!(met.min(outside).min(clear) > count / 20, "{met} {outside} {clear}");
    assert!(later > count / 200, "{later} corners were met at a later touch");
}
