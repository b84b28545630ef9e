//! First contacts of two centres against steps that never pass one. Grazes by 1e-9 to 1e-3 m are a third
//! of the cases.

use super::marching::{Draw, Gap, TOUCH_M, cases};
use railproof_engine::contact::first_within;
use railproof_engine::vector::Vec2;

/// Two centres and what is asked of them.
#[derive(Debug, Clone, Copy)]
struct Case {
    p: Vec2,
    v: Vec2,
    a: Vec2,
    distance_m: f64,
    until_s: f64,
}

impl Case {
    fn position(&self, time_s: f64) -> Vec2 {
        self.p + self.v * time_s + self.a * (0.5 * time_s * time_s)
    }

    fn velocity(&self, time_s: f64) -> Vec2 {
        self.v + self.a * time_s
    }

    fn gap(&self, time_s: f64) -> f64 {
        self.position(time_s).norm() - self.distance_m
    }

    /// The closing speed of the gap, m/s.
    fn closing(&self, time_s: f64) -> f64 {
        let r = self.position(time_s);
        -r.dot(self.velocity(time_s)) / r.norm()
    }

    /// The first touch from `from_s`, and after how many steps.
    fn searched(&self, from_s: f64) -> (Option<f64>, u64) {
        let gap = Gap {
            at: |time| self.gap(time),
            speed: |time| self.velocity(time).norm(),
            acceleration: self.a.norm(),
        };
        gap.first_touch(from_s, self.until_s)
    }
}

impl Draw {
    /// Anywhere on a table, sent roughly at each other.
    fn aimed(&mut self) -> Case {
        let distance_m = self.distance();
        let (speed, acceleration) = (self.size(1e-3, 50.0), self.acceleration());
        let p = self.direction() * self.size(1.001 * distance_m, 4.0);
        let miss = self.direction() * (self.size(0.01, 3.0) * distance_m);
        let v = (miss - p).unit_or_zero() * speed;
        let a = self.direction() * acceleration;
        Case { p, v, a, distance_m, until_s: self.until(speed, acceleration) }
    }

    /// As [`Draw::aimed`], slowed along its path as a rolling ball is.
    fn rolling(&mut self) -> Case {
        let case = self.aimed();
        let (speed, slowing) = (case.v.norm(), self.size(0.01, 3.0));
        let until_s = (speed / slowing).min(self.until(speed, slowing));
        Case { a: case.v * (-slowing / speed), until_s, ..case }
    }

    /// Slow and strongly bent, so that the distance falls more than once.
    fn curling(&mut self) -> Case {
        let distance_m = self.distance();
        let (speed, acceleration) = (self.size(0.01, 2.0), self.size(0.5, 10.0));
        let p = self.direction() * (distance_m * self.between(1.0001, 8.0));
        let (v, a) = (self.direction() * speed, self.direction() * acceleration);
        Case { p, v, a, distance_m, until_s: self.until(speed, acceleration) }
    }

    /// Passing each other by this much at some time, or overlapping by it if negative.
    fn passing(&mut self, clearance_m: f64) -> Case {
        loop {
            let case = self.passing_at_some_time(clearance_m);
            // Apart at first.
            if case.gap(0.0) > 1e-9 {
                return case;
            }
        }
    }

    fn passing_at_some_time(&mut self, clearance_m: f64) -> Case {
        let distance_m = self.distance();
        let n = self.direction();
        let turn = if self.one_in(2.0) { 1.0 } else { -1.0 };
        let (speed, acceleration) = (self.size(0.05, 50.0), self.acceleration());
        let (r, u) = (n * (distance_m + clearance_m), Vec2::new(-n.y, n.x) * (turn * speed));
        let a = self.direction() * acceleration;
        let before = self.share() * self.until(speed, acceleration);
        let p = r - u * before + a * (0.5 * before * before);
        Case { p, v: u - a * before, a, distance_m, until_s: before * self.between(1.0, 3.0) }
    }

    /// Touching to rounding, parting, and drawn back.
    fn parting(&mut self) -> Case {
        let distance_m = self.distance();
        let n = self.direction();
        let (speed, acceleration) = (self.size(0.01, 5.0), self.size(0.05, 10.0));
        let sideways = Vec2::new(-n.y, n.x) * self.between(-1.0, 1.0);
        let v = (n + sideways * self.size(1e-6, 10.0)) * speed;
        let a = (sideways * self.size(1e-6, 1.0) - n) * acceleration;
        let until_s = self.until(v.norm(), a.norm());
        Case { p: n * distance_m, v, a, distance_m, until_s }
    }
}

/// The counts of a run of cases.
#[derive(Debug, Default)]
struct Tally {
    met: u32,
    clear: u32,
    worst_residual_m: f64,
    steps: u64,
}

impl Tally {
    fn check(&mut self, case: &Case, from_s: f64) {
        let Case { p, v, a, distance_m, until_s } = *case;
        let exact = first_within(p, v, a, distance_m, until_s);
        let (searched, steps) = case.searched(from_s);
        self.steps += steps;
        match (exact, searched) {
            (None, None) => self.clear += 1,
            (Some(exact), Some(searched)) => {
                self.met += 1;
                let residual_m = case.gap(exact).abs();
                assert!(residual_m <= 1e-12, "{case:?}: {residual_m:e} m off at {exact}");
                self.worst_residual_m = self.worst_residual_m.max(residual_m);
                let closing = case.closing(exact).min(case.closing(searched));
                assert!(closing > 0.0, "{case:?}: parts at {closing} m/s at {exact}");
                let allowed = 2.0 * (TOUCH_M + residual_m) / closing + 1e-14 * exact;
                let off = (exact - searched).abs();
                assert!(off <= allowed, "{case:?}: {exact}, searched {searched}");
            }
            (exact, searched) => panic!("{case:?}: {exact:?}, searched {searched:?}"),
        }
    }

    /// Both answers must have been common, or the cases have shown little.
    fn finish(&self, name: &str, least_of_each: u32) {
        println!("{name}: {self:?}");
        assert!(self.met >= least_of_each && self.clear >= least_of_each, "{name}: {self:?}");
    }
}

fn run(name: &str, seed: u64, share: u32, case: impl Fn(&mut Draw) -> (Case, f64)) {
    let mut draw = Draw::of(seed);
    let mut tally = Tally::default();
    let count = cases().div_ceil(share);
    for _ in 0..count {
        let (case, from_s) = case(&mut draw);
        tally.check(&case, from_s);
    }
    tally.finish(name, count / 20);
}

#[test]
fn no_contact_is_missed_or_made_up_among_balls_sent_at_each_other() {
    run("aimed", 1, 6, |draw| (draw.aimed(), 0.0));
}

#[test]
fn no_contact_is_missed_or_made_up_among_rolling_balls() {
    run("rolling", 2, 6, |draw| (draw.rolling(), 0.0));
}

#[test]
fn no_contact_is_missed_or_made_up_on_bent_paths() {
    run("curling", 3, 6, |draw| (draw.curling(), 0.0));
}

#[test]
fn no_graze_is_missed_or_made_up() {
    run("passing", 4, 3, |draw| {
        let clearance_m = draw.size(1e-9, 1e-3);
        let overlaps = draw.one_in(2.0);
        (draw.passing(if overlaps { -clearance_m } else { clearance_m }), 0.0)
    });
}

#[test]
fn balls_that_part_from_a_touch_meet_again_when_they_come_back() {
    // After 1e-7 s they are at least 9e-10 m apart.
    run("parting", 5, 6, |draw| (draw.parting(), 1e-7));
}
