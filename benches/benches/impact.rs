//! The cost of one impact of the nose-and-cloth model, of one meeting of two balls, of one stroke.

use divan::{Bencher, black_box};
use railproof_engine::equipment::{Ball, BallContact, Cue};
use railproof_engine::impact::{Body, Bounce, CushionContact, ball_ball, nose_and_cloth};
use railproof_engine::stroke::Stroke;
use railproof_engine::vector::{Vec2, Vec3};

fn main() {
    divan::main();
}

fn contact(restitution: f64, nose_friction: f64, impact_cloth_friction: f64) -> CushionContact {
    let sin_theta: f64 = 0.27;
    CushionContact {
        radius_m: 0.028_575,
        sin_theta,
        cos_theta: (1.0 - sin_theta * sin_theta).sqrt(),
        nose_friction,
        impact_cloth_friction,
        restitution,
        restitution_loss_s_m: 0.0,
        restitution_floor: 0.0,
        checked_speed_m_s: 2.5,
    }
}

/// A ball at 2 m/s, its path at `angle_deg` to the rail, with this fraction of natural roll.
fn ball(angle_deg: f64, roll: f64) -> Bounce {
    let angle = angle_deg.to_radians();
    let velocity = Vec2::new(2.0 * angle.cos(), 2.0 * angle.sin());
    let spin = Vec3::new(-velocity.y, velocity.x, 0.0) * (roll / 0.028_575);
    Bounce { velocity, spin }
}

#[divan::bench(args = [(45.0, 0.0), (60.0, 0.0), (75.0, 0.0), (45.0, 1.0), (60.0, 1.0)])]
fn one_impact(bencher: Bencher, (angle_deg, roll): (f64, f64)) {
    let (contact, ball) = (contact(0.93, 0.15, 0.19), ball(angle_deg, roll));
    bencher.bench(|| nose_and_cloth(black_box(&contact), black_box(ball)));
}

/// 1,000 impacts spread evenly over angles 35–80° and plausible cushions: divide by 1,000.
#[divan::bench(args = [0.0, 1.0])]
fn thousand_impacts(bencher: Bencher, roll: f64) {
    let cases: Vec<_> = (0..1000)
        .map(|i| {
            let part = |step: f64| (f64::from(i) * step).fract();
            let contact = contact(
                0.85 + 0.13 * part(0.754_877_666),
                0.10 + 0.12 * part(0.569_840_291),
                0.12 + 0.14 * part(0.380_277_569),
            );
            (contact, ball(35.0 + 45.0 * part(0.618_033_989), roll))
        })
        .collect();
    bencher.bench(|| {
        cases.iter().map(|(contact, ball)| nose_and_cloth(contact, *ball).velocity.x).sum::<f64>()
    });
}

/// A rolling cue ball with side against a ball at rest, cut by 20°: the surfaces slide at some tenths
/// of a metre per second, where friction is read off the curve.
#[divan::bench(args = [0.028_575, 0.03])]
fn two_balls(bencher: Bencher, second_radius_m: f64) {
    let contact = BallContact::USUAL;
    let bodies = [
        Body { radius_m: 0.028_575, mass_kg: 0.17 },
        Body { radius_m: second_radius_m, mass_kg: 0.17 },
    ];
    let angle = 20.0_f64.to_radians();
    let normal = Vec2::new(angle.cos(), angle.sin());
    let before = [(Vec2::new(1.0, 0.0), Vec3::new(0.0, 35.0, 12.0)), (Vec2::ZERO, Vec3::ZERO)];
    bencher.bench(|| {
        ball_ball(black_box(&contact), black_box(normal), black_box(bodies), black_box(before))
    });
}

#[divan::bench]
fn one_stroke(bencher: Bencher) {
    let ball = Ball { diameter_m: 0.057_15, mass_kg: 0.17 };
    let stroke = Stroke {
        side_offset: 0.2,
        height_offset: 0.1,
        elevation_rad: 0.05,
        ..Stroke::centre(3.0, 0.7)
    };
    bencher.bench(|| black_box(&stroke).strike(black_box(&ball), black_box(&Cue::USUAL)));
}
