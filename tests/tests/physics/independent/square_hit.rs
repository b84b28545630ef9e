//! The nose-and-cloth law for a ball that travels square to the cushion without side: everything
//! happens in one plane, slip at either contact can only point one way or the other, so between
//! changes all rates are constant and the impact is solved exactly from change to change. M = R = 1.

use railproof_engine::impact::{Bounce, CushionContact, nose_and_cloth};
use railproof_engine::vector::{Vec2, Vec3};

#[derive(Debug, Clone, Copy)]
struct Square {
    sin: f64,
    cos: f64,
    restitution: f64,
    nose: f64,
    cloth: f64,
}

/// The state of a contact until the next change.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Grip {
    Slips(f64),
    Sticks,
}

impl Square {
    /// Rates of vy and wx for a traction up the nose and one back along the cloth, each per normal
    /// impulse at the nose.
    fn rates(&self, up: f64, back: f64) -> (f64, f64) {
        (-(self.cos - self.sin * up + back), -2.5 * (up + back))
    }

    /// Rates of the slips at the nose, wx − vy·sinθ, and at the cloth, vy + wx.
    fn slip_rates(&self, (dv, dw): (f64, f64)) -> (f64, f64) {
        (dw - self.sin * dv, dv + dw)
    }

    fn press(&self, up: f64) -> f64 {
        (self.sin + self.cos * up).max(0.0)
    }

    /// Rates for a pair of grips, or `None` where a contact cannot hold what sticking needs.
    fn solve(&self, nose: Grip, cloth: Grip) -> Option<(f64, f64)> {
        match (nose, cloth) {
            (Grip::Slips(n), Grip::Slips(c)) => {
                let up = self.nose * n;
                Some(self.rates(up, self.cloth * c * self.press(up)))
            }
            (Grip::Sticks, Grip::Slips(c)) => {
                // The nose's slip rate is linear in its traction while the cloth is pressed.
                let rate = |up: f64| {
                    let back = self.cloth * c * (self.sin + self.cos * up);
                    self.slip_rates(self.rates(up, back)).0
                };
                let up = -rate(0.0) / (rate(1.0) - rate(0.0));
                let back = self.cloth * c * self.press(up);
                (up.abs() <= self.nose).then(|| self.rates(up, back))
            }
            (Grip::Slips(n), Grip::Sticks) => {
                let up = self.nose * n;
                let rate = |back: f64| self.slip_rates(self.rates(up, back)).1;
                let back = -rate(0.0) / (rate(1.0) - rate(0.0));
                (back.abs() <= self.cloth * self.press(up)).then(|| self.rates(up, back))
            }
            // Both at once would hold vy at 0 against the normal force.
            (Grip::Sticks, Grip::Sticks) => None,
        }
    }

    /// The rates that follow from two slips; a slip of 0 may stick or leave either way, and exactly
    /// one choice is consistent with where it leads.
    fn follow(&self, slips: (f64, f64)) -> ((f64, f64), Grip, Grip) {
        let choices = |slip: f64| {
            if slip == 0.0 {
                vec![Grip::Sticks, Grip::Slips(1.0), Grip::Slips(-1.0)]
            } else {
                vec![Grip::Slips(slip.signum())]
            }
        };
        let leaves = |slip: f64, grip: Grip, rate: f64| match grip {
            Grip::Slips(way) if slip == 0.0 => rate * way > 0.0,
            _ => true,
        };
        let mut found = Vec::new();
        for nose in choices(slips.0) {
            for cloth in choices(slips.1) {
                if let Some(rates) = self.solve(nose, cloth) {
                    let (dn, dc) = self.slip_rates(rates);
                    if leaves(slips.0, nose, dn) && leaves(slips.1, cloth, dc) {
                        found.push((rates, nose, cloth));
                    }
                }
            }
        }
        assert_eq!(found.len(), 1, "{self:?} at slips {slips:?}: {found:?}");
        found[0]
    }

    /// vy and wx at the end, from vy = 1 and this wx.
    fn exact(&self, wx: f64) -> (f64, f64) {
        let (mut v, mut w, mut work, mut peak) = (1.0_f64, wx, 0.0_f64, None::<f64>);
        let mut slips = (w - self.sin * v, v + w);
        loop {
            let ((dv, dw), nose, cloth) = self.follow(slips);
            let (dn, dc) = self.slip_rates((dv, dw));
            let until = |value: f64, rate: f64| {
                if value * rate < 0.0 { -value / rate } else { f64::INFINITY }
            };
            let nose_s = if nose == Grip::Sticks { f64::INFINITY } else { until(slips.0, dn) };
            let cloth_s = if cloth == Grip::Sticks { f64::INFINITY } else { until(slips.1, dc) };
            let turn_s = if peak.is_none() { until(v, dv) } else { f64::INFINITY };
            let next = nose_s.min(cloth_s).min(turn_s);
            if let Some(peak) = peak {
                // ½·dv·cosθ·p² + v·cosθ·p + work = (1 − e²)·peak, with dv and v both ≤ 0.
                let left = work - (1.0 - self.restitution * self.restitution) * peak;
                let (a, b) = (0.5 * dv * self.cos, v * self.cos);
                let p = 2.0 * left / (-b + (b * b - 4.0 * a * left).sqrt());
                if p <= next {
                    return (v + dv * p, w + dw * p);
                }
            }
            work += self.cos * (v + 0.5 * dv * next) * next;
            (v, w) = (v + dv * next, w + dw * next);
            slips = (w - self.sin * v, v + w);
            // Changes that fall together, as they do when a ball that sticks to the nose turns
            // back, do so exactly; rounding must not part them.
            let meets = |time: f64| (time - next).abs() < 1e-12;
            if meets(turn_s) {
                (v, peak) = (0.0, Some(work));
            }
            if nose == Grip::Sticks || meets(nose_s) {
                slips.0 = 0.0;
            }
            if meets(cloth_s) || cloth == Grip::Sticks {
                slips.1 = 0.0;
            }
        }
    }
}

/// 90° without spin and 90° rolling, sinθ 0.4, e 0.98, μw 0.14, μs 0.212: values computed by a
/// program of its own that integrates the published equations; 5 digits.
#[test]
fn the_exact_solution_gives_values_computed_elsewhere() {
    let square =
        Square { sin: 0.4, cos: 0.84_f64.sqrt(), restitution: 0.98, nose: 0.14, cloth: 0.212 };
    for (wx, v_after, w_after) in [(0.0, -0.83732, -0.07830), (-1.0, -0.91066, -0.23517)] {
        let (v, w) = square.exact(wx);
        assert!((v - v_after).abs() < 1e-5 && (w - w_after).abs() < 1e-5, "{v} {w}");
    }
}

#[test]
fn the_engine_solves_a_square_hit_exactly() {
    let (radius_m, speed_m_s) = (0.031, 1.7);
    let mut worst = (0.0_f64, String::new());
    for sin in [0.27_f64, 0.4] {
        for (nose, cloth) in [(0.14, 0.212), (0.05, 0.3), (0.2, 0.1), (0.25, 0.45)] {
            for restitution in [0.6, 0.85, 0.98] {
                let cos = (1.0 - sin * sin).sqrt();
                let square = Square { sin, cos, restitution, nose, cloth };
                let contact = CushionContact {
                    radius_m,
                    sin_theta: sin,
                    cos_theta: cos,
                    nose_friction: nose,
                    impact_cloth_friction: cloth,
                    restitution,
                    restitution_loss_s_m: 0.0,
                    restitution_floor: 0.0,
                    checked_speed_m_s: 50.0,
                };
                for roll in [-0.6, 0.0, 0.3, 1.0, 1.4] {
                    let (v, w) = square.exact(-roll);
                    let after = nose_and_cloth(
                        &contact,
                        Bounce {
                            velocity: Vec2::new(0.0, speed_m_s),
                            spin: Vec3::new(-roll * speed_m_s / radius_m, 0.0, 0.0),
                        },
                    );
                    let off_v = (after.velocity.y / speed_m_s - v).abs();
                    let off_w = (after.spin.x * radius_m / speed_m_s - w).abs();
                    let off = off_v.max(off_w);
                    if off > worst.0 {
                        worst = (off, format!("{square:?} roll {roll}: {v} {w}, {off_v} {off_w}"));
                    }
                    assert_eq!((after.velocity.x, after.spin.y, after.spin.z), (0.0, 0.0, 0.0));
                }
            }
        }
    }
    assert!(worst.0 < 1e-9, "off by {} in {}", worst.0, worst.1);
}
