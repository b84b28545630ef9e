//! Check values computed by an independent program from the published equations, to 1e-5; the
//! bound on the error; what holds for every impact.

mod lanes;
mod reference;

use super::*;

fn contact(sin: f64, e: f64, nose: f64, cloth: f64) -> CushionContact {
    CushionContact {
        radius_m: 1.0,
        sin_theta: sin,
        cos_theta: (1.0 - sin * sin).sqrt(),
        nose_friction: nose,
        impact_cloth_friction: cloth,
        restitution: e,
        restitution_loss_s_m: 0.0,
        restitution_floor: 0.0,
        checked_speed_m_s: 2.5,
    }
}

fn rolling(angle_deg: f64, wz: f64) -> Bounce {
    let angle = angle_deg.to_radians();
    let velocity = Vec2::new(libm::cos(angle), libm::sin(angle));
    Bounce { velocity, spin: Vec3::new(-velocity.y, velocity.x, wz) }
}

fn stun(angle_deg: f64) -> Bounce {
    Bounce { spin: Vec3::ZERO, ..rolling(angle_deg, 0.0) }
}

#[test]
fn agrees_with_independent_values() {
    let snooker = contact(0.4, 0.98, 0.14, 0.212);
    let pool = contact(0.27, 0.85, 0.2, 0.2);
    let cases = [
        (snooker, stun(90.0), [0.0, -0.83732, -0.07830, 0.0, 0.0]),
        (snooker, rolling(90.0, 0.0), [0.0, -0.91066, -0.23517, 0.0, 0.0]),
        (snooker, stun(45.0), [0.42057, -0.62871, -0.03293, 0.08662, 0.41225]),
        (snooker, rolling(45.0, 0.0), [0.51390, -0.67406, -0.18251, 0.51390, 0.44269]),
        (snooker, rolling(45.0, 1.0), [0.68613, -0.64411, -0.16710, 0.68613, 1.04807]),
        (snooker, rolling(45.0, -1.0), [0.48941, -0.68226, -0.24281, 0.48941, -0.50120]),
        (snooker, rolling(30.0, 0.0), [0.71409, -0.48168, -0.16491, 0.71409, 0.34813]),
        (pool, rolling(45.0, 0.0), [0.49575, -0.59442, -0.20092, 0.55477, 0.51610]),
    ];
    for (contact, before, expected) in cases {
        let (after, trace) = nose_and_cloth_traced(&contact, before);
        let got = [after.velocity.x, after.velocity.y, after.spin.x, after.spin.y, after.spin.z];
        for (value, wanted) in got.iter().zip(expected) {
            assert!((value - wanted).abs() < 1.1e-5, "{got:?} against {expected:?}, {trace:?}");
        }
    }
}

/// The splitmix64 sequence, scaled to a span.
struct Dice(u64);

impl Dice {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        low + (high - low) * ((z ^ (z >> 31)) >> 11) as f64 / 9_007_199_254_740_992.0
    }

    /// Anything inside the accepted ranges.
    fn any(&mut self) -> (CushionContact, Bounce) {
        let contact = contact(
            self.between(0.0, 0.5),
            self.between(0.0, 1.0),
            self.between(0.0, 0.5),
            self.between(0.0, 0.5),
        );
        let mut before = stun(self.between(0.0, 180.0));
        before.spin =
            Vec3::new(self.between(-2.0, 2.0), self.between(-2.0, 2.0), self.between(-2.0, 2.0));
        (contact, before)
    }

    /// A pool cushion and a ball that comes without side: where contacts stick and leave.
    fn bank(&mut self) -> (CushionContact, Bounce) {
        let contact = contact(
            0.27,
            self.between(0.85, 0.98),
            self.between(0.10, 0.22),
            self.between(0.12, 0.26),
        );
        let mut before = rolling(self.between(35.0, 80.0), 0.0);
        before.spin = before.spin * self.between(-1.0, 1.0).max(0.0);
        (contact, before)
    }
}

fn numbers(after: &Rebound) -> [f64; 5] {
    [after.velocity.x, after.velocity.y, after.spin.x, after.spin.y, after.spin.z]
}

/// Largest difference, in parts of the incoming state.
fn difference(a: &Rebound, b: &Rebound, before: &Bounce) -> f64 {
    let (v, w) = (before.velocity, before.spin);
    let size = (v.dot(v) + w.dot(w)).sqrt();
    let pairs = numbers(a).into_iter().zip(numbers(b));
    pairs.fold(0.0, |worst: f64, (a, b)| worst.max((a - b).abs())) / size
}

#[test]
fn agrees_with_much_shorter_steps() {
    let short = Pace { tolerance: 1e-12, share: 0.14, glide_tolerance: 1e-12, glide_share: 0.14 };
    let mut dice = Dice(1);
    let mut worst: f64 = 0.0;
    for case in 0..6000 {
        let (contact, before) = if case % 2 == 0 { dice.any() } else { dice.bank() };
        let usual = solve(&contact, before, Pace::USUAL).0;
        let fine = solve(&contact, before, short).0;
        let apart = difference(&usual, &fine, &before);
        assert!(apart < 1e-9, "{apart:e} in {contact:?} {before:?}");
        worst = worst.max(apart);
    }
    // Measured: 4e-10 here, 6e-10 in 80,000 cases.
    assert!(worst < 1e-9, "{worst:e}");
}

#[test]
fn friction_and_cushion_only_take_energy() {
    let mut dice = Dice(2);
    for _ in 0..6000 {
        let (contact, before) = dice.any();
        let (after, trace) = nose_and_cloth_traced(&contact, before);
        let energy = |v: Vec2, w: Vec3| v.dot(v) + 0.4 * w.dot(w);
        let (taken, left) =
            (energy(before.velocity, before.spin), energy(after.velocity, after.spin));
        assert!(left <= taken * (1.0 + 1e-9), "{left} from {taken} in {contact:?} {before:?}");
        assert!(after.velocity.y <= 1e-9, "still going in: {after:?}");
        assert!(
            trace.steps < 2000 && trace.regime_changes < 50,
            "{trace:?} {contact:?} {before:?}"
        );
    }
}

#[test]
#[expect(clippy::float_cmp, reason = "the claim is bit for bit")]
fn mirrored_along_the_cushion_bit_for_bit() {
    let mut dice = Dice(3);
    for _ in 0..2000 {
        let (contact, before) = dice.any();
        let mut mirrored = before;
        mirrored.velocity.x = -before.velocity.x;
        (mirrored.spin.y, mirrored.spin.z) = (-before.spin.y, -before.spin.z);
        let (a, b) = (nose_and_cloth(&contact, before), nose_and_cloth(&contact, mirrored));
        let [x, y, wx, wy, wz] = numbers(&a);
        assert_eq!([-x, y, wx, -wy, -wz], numbers(&b), "{contact:?} {before:?}");
    }
}

#[test]
fn twice_the_speed_twice_the_answer() {
    let mut dice = Dice(4);
    for _ in 0..1000 {
        let (contact, before) = dice.any();
        let factor = dice.between(0.01, 50.0);
        let scaled = Bounce { velocity: before.velocity * factor, spin: before.spin * factor };
        let mut one = nose_and_cloth(&contact, before);
        one.velocity = one.velocity * factor;
        one.spin = one.spin * factor;
        let apart = difference(&nose_and_cloth(&contact, scaled), &one, &scaled);
        assert!(apart < 1e-10, "{apart:e} {contact:?} {before:?}");
    }
}

#[test]
#[expect(clippy::float_cmp, reason = "nothing along the cushion is exactly nothing")]
fn straight_in_comes_straight_out() {
    let mut dice = Dice(5);
    for case in 0..2000 {
        let (contact, mut before) = dice.any();
        before.velocity = Vec2::new(0.0, 1.0);
        let wx = if case % 3 == 0 { 0.0 } else { before.spin.x };
        before.spin = Vec3::new(wx, 0.0, 0.0);
        let after = nose_and_cloth(&contact, before);
        assert_eq!([after.velocity.x, after.spin.y, after.spin.z], [0.0; 3], "{contact:?} {wx}");
        // A hair off straight stays a hair off.
        before.velocity.x = 6e-17;
        let off = nose_and_cloth(&contact, before);
        assert!(difference(&off, &after, &before) < 1e-9, "{off:?} {after:?} {contact:?}");
    }
}

#[test]
fn edges_of_the_ranges_end_and_are_finite() {
    for sin in [0.0, 0.27, 0.5] {
        for e in [0.0, 1e-9, 1e-4, 0.5, 1.0] {
            for nose in [0.0, 1e-6, 0.3, 0.5] {
                for cloth in [0.0, 1e-6, 0.3, 0.5] {
                    for angle in [1e-9, 1e-3, 30.0, 89.999, 90.0] {
                        for spin in [0.0, 1e-9, 1.0, -1.0, 1e6] {
                            let contact = contact(sin, e, nose, cloth);
                            let mut before = rolling(angle, spin);
                            before.spin = before.spin * spin;
                            let (after, trace) = nose_and_cloth_traced(&contact, before);
                            let finite = numbers(&after).iter().all(|x| x.is_finite());
                            assert!(
                                finite && trace.steps < 20_000,
                                "{contact:?} {before:?} {trace:?}"
                            );
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn an_approach_below_all_rounding_ends() {
    let contact = CushionContact { radius_m: 0.028_575, ..contact(0.27, 0.955, 0.13, 0.18) };
    for spin in
        [[1.4e-14, 1.4e-14, 5.0], [1e-76, 1e-76, 5e-62], [0.0, 0.0, 30.0], [-30.0, 5.0, 1e-9]]
    {
        let spin = Vec3::new(spin[0], spin[1], spin[2]);
        let slower = core::iter::successors(Some(1.0), |speed| Some(speed * 1e-4)).take(80);
        for speed in slower.chain([5e-324]) {
            let before = Bounce { velocity: Vec2::new(0.1 * speed, speed), spin };
            let (after, trace) = nose_and_cloth_traced(&contact, before);
            assert!(numbers(&after).iter().all(|number| number.is_finite()), "{before:?}");
            assert!(after.velocity.y <= 0.0 && trace.steps < 1000, "{before:?} {after:?}");
        }
    }
}
