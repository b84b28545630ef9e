//! The nose-and-cloth impact against a plain fixed-step integration of its equations, written here
//! from the form of Mathavan, Jackson & Parkin 2010, Proc. Inst. Mech. Eng. C 224(9):1863–1873: difference
//! equations in the normal impulse at the nose, with the two slip angles Φ and Φ'.

use railproof_engine::impact::{Bounce, CushionContact, nose_and_cloth};
use railproof_engine::vector::{Vec2, Vec3};

/// The unknowns, in the paper's axes (x along the cushion, y into it, z up) with M = R = 1, so that
/// spins are w·R.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Unknowns {
    x: f64,
    y: f64,
    spin: [f64; 3],
}

#[derive(Debug, Clone, Copy)]
struct Coefficients {
    sin: f64,
    restitution: f64,
    nose: f64,
    cloth: f64,
}

impl Unknowns {
    fn plus(self, rate: Self, by: f64) -> Self {
        let mut spin = self.spin;
        for (value, change) in spin.iter_mut().zip(rate.spin) {
            *value += by * change;
        }
        Self { x: self.x + by * rate.x, y: self.y + by * rate.y, spin }
    }

    /// Rates of change per normal impulse at the nose.
    ///
    /// `soft` keeps the slip directions from flipping at every step once slip is spent: sinΦ and
    /// cosΦ are slip over √(slip² + soft²), which gives sticking back as `soft` goes to 0.
    fn rate(&self, c: &Coefficients, soft: f64) -> Self {
        let cos = (1.0 - c.sin * c.sin).sqrt();
        let [wx, wy, wz] = self.spin;
        let (nose_x, nose_up) = (self.x + wy * c.sin - wz * cos, -self.y * c.sin + wx);
        let (cloth_x, cloth_y) = (self.x - wy, self.y + wx);
        let nose = (nose_x * nose_x + nose_up * nose_up + soft * soft).sqrt();
        let cloth = (cloth_x * cloth_x + cloth_y * cloth_y + soft * soft).sqrt();
        let (cos_nose, sin_nose) = (nose_x / nose, nose_up / nose);
        let (cos_cloth, sin_cloth) = (cloth_x / cloth, cloth_y / cloth);
        // The cloth only pushes.
        let press = (c.sin + c.nose * sin_nose * cos).max(0.0);
        let cloth_x = c.cloth * cos_cloth * press;
        let cloth_y = c.cloth * sin_cloth * press;
        Self {
            x: -(c.nose * cos_nose + cloth_x),
            y: -(cos - c.nose * c.sin * sin_nose + cloth_y),
            spin: [
                -2.5 * (c.nose * sin_nose + cloth_y),
                -2.5 * (c.nose * cos_nose * c.sin - cloth_x),
                2.5 * c.nose * cos_nose * cos,
            ],
        }
    }
}

/// Midpoint steps of `step` in impulse, through compression and restitution, to W = (1 − e²)·Wc.
fn by_fixed_steps(c: &Coefficients, start: Unknowns, step: f64) -> Unknowns {
    let cos = (1.0 - c.sin * c.sin).sqrt();
    let soft = 4.0 * step;
    let (mut now, mut work, mut end_work) = (start, 0.0, f64::NEG_INFINITY);
    loop {
        let half = now.plus(now.rate(c, soft), 0.5 * step);
        let rate = half.rate(c, soft);
        let next = now.plus(rate, step);
        let gained = 0.5 * (now.y + next.y) * cos * step;
        if now.y > 0.0 && next.y <= 0.0 {
            // Work peaks where y vanishes; y is linear within the step.
            let share = now.y / (now.y - next.y);
            let peak = work + 0.5 * now.y * share * cos * step;
            end_work = (1.0 - c.restitution * c.restitution) * peak;
        }
        if next.y <= 0.0 && work + gained <= end_work {
            let share = (work - end_work) / -gained;
            return now.plus(rate, share.clamp(0.0, 1.0) * step);
        }
        work += gained;
        now = next;
    }
}

fn start(degrees_from_cushion: f64, roll: f64, side: f64) -> Unknowns {
    let (y, x) = degrees_from_cushion.to_radians().sin_cos();
    Unknowns { x, y, spin: [-roll * y, roll * x, side] }
}

fn largest_difference(a: &Unknowns, b: &Unknowns) -> f64 {
    let spins = a.spin.iter().zip(b.spin).map(|(a, b)| (a - b).abs());
    spins.fold((a.x - b.x).abs().max((a.y - b.y).abs()), f64::max)
}

/// Computed once by a program of its own from the same published equations; 5 digits.
#[test]
fn the_fixed_steps_reach_values_computed_elsewhere() {
    let c = Coefficients { sin: 0.4, restitution: 0.98, nose: 0.14, cloth: 0.212 };
    let cases = [
        (start(45.0, 0.0, 0.0), [0.42057, -0.62871, -0.03293, 0.08662, 0.41225]),
        (start(45.0, 1.0, 0.0), [0.51390, -0.67406, -0.18251, 0.51390, 0.44269]),
        (start(30.0, 1.0, 0.0), [0.71409, -0.48168, -0.16491, 0.71409, 0.34813]),
    ];
    for (start, [x, y, wx, wy, wz]) in cases {
        let expected = Unknowns { x, y, spin: [wx, wy, wz] };
        let off = largest_difference(&by_fixed_steps(&c, start, 2e-6), &expected);
        assert!(off < 1.2e-5, "{start:?}: off by {off}");
    }
}

#[test]
fn the_engine_agrees_to_the_fixed_steps_own_order() {
    // Speed, radius and mass that are not 1, which the law must not mind.
    let (radius_m, speed_m_s) = (0.031, 2.3);
    let step = 1e-5;
    let mut compared = 0;
    for (sin, restitution, nose, cloth) in [
        (0.4, 0.98, 0.14, 0.212),
        (0.27, 0.85, 0.2, 0.2),
        (0.27, 0.6, 0.05, 0.3),
        // Grips enough to lift the ball: the cloth's push must stay at 0.
        (0.27, 0.9, 0.35, 0.2),
    ] {
        let c = Coefficients { sin, restitution, nose, cloth };
        let contact = CushionContact {
            radius_m,
            sin_theta: sin,
            cos_theta: (1.0 - sin * sin).sqrt(),
            nose_friction: nose,
            impact_cloth_friction: cloth,
            restitution,
            restitution_loss_s_m: 0.0,
            restitution_floor: 0.0,
            checked_speed_m_s: 50.0,
        };
        for degrees in [20.0, 45.0, 75.0, 90.0, 130.0] {
            for (roll, side) in [(0.0, 0.0), (1.0, 0.0), (-0.6, 0.0), (1.0, 1.0), (0.5, -1.0)] {
                let start = start(degrees, roll, side);
                let fine = by_fixed_steps(&c, start, step);
                let coarse = by_fixed_steps(&c, start, 2.0 * step);
                let per_spin = speed_m_s / radius_m;
                let [wx, wy, wz] = start.spin.map(|spin| spin * per_spin);
                let after = nose_and_cloth(
                    &contact,
                    Bounce {
                        velocity: Vec2::new(start.x, start.y) * speed_m_s,
                        spin: Vec3::new(wx, wy, wz),
                    },
                );
                let ours = Unknowns {
                    x: after.velocity.x / speed_m_s,
                    y: after.velocity.y / speed_m_s,
                    spin: [after.spin.x, after.spin.y, after.spin.z].map(|spin| spin / per_spin),
                };
                // Halving a first-order step moves the answer by as much as is left to go. Where a
                // slip passes close to zero without sticking the order is a little under one, and
                // more is left (measured: up to 1.6 times as much).
                let own_error = largest_difference(&fine, &coarse);
                let off = largest_difference(&fine, &ours);
                let case = format!("{c:?} {degrees}° roll {roll} side {side}");
                assert!(off < 2.0 * own_error + 1e-9, "{case}: {off} against {own_error}");
                // Measured: at most 1.4e-4.
                assert!(own_error < 2e-4, "{case}: the fixed steps are off by {own_error}");
                compared += 1;
            }
        }
    }
    assert_eq!(compared, 100);
}
