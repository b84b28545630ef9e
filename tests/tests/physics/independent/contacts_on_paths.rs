//! First contacts of two balls that slide, roll and rest, against steps that never pass one. In half of
//! the cases the balls' size is such that they graze by 1e-9 to 1e-3 m at their nearest.

use super::marching::{Draw, Gap, TOUCH_M, cases};
use railproof_engine::contact::first_between;
use railproof_engine::motion::{BallState, ClothMotion, Path};
use railproof_engine::vector::{Vec2, Vec3};

/// A ball sent off at some time by the clock.
struct Sent {
    path: Path,
    started_s: f64,
}

impl Sent {
    fn state_at(&self, clock_s: f64) -> BallState {
        self.path.state_at(clock_s - self.started_s)
    }
}

const SLIDING_M_S2: f64 = 2.0;
const ROLLING_M_S2: f64 = 0.15;
/// No ball on this cloth has a greater acceleration.
const GREATEST_M_S2: f64 = 2.0;

impl Draw {
    fn sent(&mut self, rests: bool, towards: Vec2) -> Sent {
        let radius_m = 0.028_575;
        let cloth = ClothMotion {
            radius_m,
            sliding_deceleration_m_s2: SLIDING_M_S2,
            rolling_deceleration_m_s2: ROLLING_M_S2,
            pivot_deceleration_rad_s2: 10.0,
        };
        let position = Vec2::new(self.between(-1.2, 1.2), self.between(-0.6, 0.6));
        let speed = if rests { 0.0 } else { self.size(0.05, 10.0) };
        let off = self.direction() * self.size(0.01, 1.0);
        let velocity = (towards + off - position).unit_or_zero() * speed;
        let level = self.direction() * (self.between(0.0, 3.0) * speed / radius_m);
        let rolling = BallState { position, velocity, spin: Vec3::ZERO }.rolling(radius_m);
        let state = match self.between(0.0, 3.0) {
            kind if kind < 1.0 => rolling,
            kind if kind < 2.0 => BallState { spin: Vec3::ZERO, ..rolling },
            _ => BallState { spin: Vec3::new(level.x, level.y, 20.0 * speed), ..rolling },
        };
        Sent { path: Path::new(state, cloth), started_s: self.between(0.0, 8.0) }
    }
}

fn apart(a: &Sent, b: &Sent, clock_s: f64) -> f64 {
    (a.state_at(clock_s).position - b.state_at(clock_s).position).norm()
}

/// The smallest distance apart, of 400 samples and then between the best one's neighbours.
fn nearest(a: &Sent, b: &Sent, now_s: f64, until_s: f64) -> f64 {
    let time = |index: u32| now_s + (until_s - now_s) * f64::from(index) / 400.0;
    let best = (0..=400)
        .min_by(|i, j| apart(a, b, time(*i)).total_cmp(&apart(a, b, time(*j))))
        .unwrap_or_default();
    let (mut low, mut high) = (time(best.saturating_sub(1)), time((best + 1).min(400)));
    for _ in 0..100 {
        let (third, other) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if apart(a, b, third) < apart(a, b, other) { high = other } else { low = third }
    }
    apart(a, b, 0.5 * (low + high))
}

#[test]
fn balls_on_their_paths_meet_where_a_search_meets_them() {
    let mut draw = Draw::of(21);
    let (mut met, mut rolling, mut clear, mut worst_m) = (0, 0, 0, 0.0_f64);
    let count = cases().div_ceil(2);
    for index in 0..count {
        let other_rests = draw.one_in(2.0);
        let b = draw.sent(other_rests, Vec2::ZERO);
        let a = draw.sent(false, b.state_at(b.started_s).position);
        let now_s = a.started_s.max(b.started_s) + draw.size(1e-3, 1.0);
        let until_s = now_s + draw.size(0.1, 20.0);
        let mut distance_m = draw.distance();
        if index % 2 == 0 {
            let off_m = draw.size(1e-9, 1e-3);
            let overlap_m = if draw.one_in(2.0) { off_m } else { -off_m };
            distance_m = nearest(&a, &b, now_s, until_s) + overlap_m;
        }
        // They start apart, and are of some size.
        if apart(&a, &b, now_s) < distance_m + 1e-9 || distance_m < 1e-3 {
            continue;
        }
        let gap = Gap {
            at: |time| apart(&a, &b, time) - distance_m,
            speed: |time| (a.state_at(time).velocity - b.state_at(time).velocity).norm(),
            acceleration: 2.0 * GREATEST_M_S2,
        };
        let exact =
            first_between(&a.path, &b.path, a.started_s, b.started_s, now_s, distance_m, until_s);
        let swapped =
            first_between(&b.path, &a.path, b.started_s, a.started_s, now_s, distance_m, until_s);
        assert_eq!(exact.map(f64::to_bits), swapped.map(f64::to_bits));
        let (searched, _) = gap.first_touch(now_s, until_s);
        let what = || {
            let (p, q) = (a.state_at(now_s), b.state_at(now_s));
            format!("case {index}: {p:?} {q:?} {distance_m} from {now_s} until {until_s}")
        };
        match (exact, searched) {
            (None, None) => clear += 1,
            (Some(exact), Some(searched)) => {
                met += 1;
                rolling += u32::from(exact > a.started_s + a.path.rolls_from_s());
                let residual_m = (gap.at)(exact).abs();
                worst_m = worst_m.max(residual_m);
                assert!(residual_m < 1e-12, "{}: {residual_m:e} m off", what());
                let closing = |time: f64| {
                    let (p, q) = (a.state_at(time), b.state_at(time));
                    let r = p.position - q.position;
                    -r.dot(p.velocity - q.velocity) / r.norm()
                };
                let slower = closing(exact).min(closing(searched));
                let allowed = 2.0 * (TOUCH_M + residual_m) / slower + 1e-13;
                let off = (exact - searched).abs();
                assert!(slower > 0.0 && off <= allowed, "{}: {exact} {searched}", what());
            }
            _ => panic!("{}: {exact:?}, searched {searched:?}", what()),
        }
    }
    println!("paths: {met} met ({rolling} rolling), {clear} clear, at most {worst_m:e} m off");
    assert!(met.min(rolling).min(clear) > count / 20, "{met} {rolling} {clear}");
}
