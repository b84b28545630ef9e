//! Laws that every rebound obeys: energy, restitution, finite numbers, agreement of the models.

use crate::strategies::{cases, constant_impact, impact, impulse_model, motion_in, size};
use proptest::prelude::*;
use railproof_engine::equipment::RailModel;
use railproof_engine::impact::{Bounce, CushionContact, Rebound, bounce, nose_and_cloth};
use railproof_engine::vector::{Vec2, Vec3};

/// Kinetic energy per mass: ½v² + ⅕R²w².
fn energy(velocity: Vec2, spin: Vec3, radius: f64) -> f64 {
    0.5 * velocity.dot(velocity) + 0.2 * radius * radius * spin.dot(spin)
}

fn numbers(rebound: &Rebound, radius: f64) -> [f64; 5] {
    let spin = rebound.spin * radius;
    [rebound.velocity.x, rebound.velocity.y, spin.x, spin.y, spin.z]
}

fn agree(a: &Rebound, b: &Rebound, radius: f64, within: f64) -> Result<(), TestCaseError> {
    for (a, b) in numbers(a, radius).iter().zip(numbers(b, radius)) {
        prop_assert!((a - b).abs() <= within, "{a} against {b}, more than {within}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(cases(1))]

    #[test]
    fn energy_never_grows((contact, before) in impact(), model in impulse_model()) {
        let radius = contact.radius_m;
        let after = bounce(model, &contact, before);
        prop_assert!(numbers(&after, radius).iter().all(|number| number.is_finite()), "{after:?}");
        let had = energy(before.velocity, before.spin, radius);
        let has = energy(after.velocity, after.spin, radius);
        let share = if model == RailModel::NoseAndCloth { 1e-9 } else { 1e-12 };
        prop_assert!(has <= had * (1.0 + share), "{had} grew to {has} in {model:?}");
    }

    #[test]
    fn a_ball_comes_off_the_cushion((contact, before) in impact(), model in impulse_model()) {
        let after = bounce(model, &contact, before);
        // The integrated impact solves for the end and may round past it.
        let rounding =
            if model == RailModel::NoseAndCloth { 1e-15 * size(&before, contact.radius_m) } else { 0.0 };
        prop_assert!(after.velocity.y <= rounding, "{after:?} by {model:?}");
    }

    /// A ball that is not on its way into the cushion keeps its motion.
    #[test]
    fn no_approach_no_impact((contact, before) in impact(), model in impulse_model()) {
        let away = Bounce { velocity: Vec2::new(before.velocity.x, -before.velocity.y), ..before };
        let along = Bounce { velocity: Vec2::new(before.velocity.x, 0.0), ..before };
        for before in [away, along] {
            let after = bounce(model, &contact, before);
            prop_assert_eq!((after.velocity, after.spin), (before.velocity, before.spin));
        }
    }

    #[test]
    fn restitution_falls_with_speed_down_to_its_floor((contact, before) in impact()) {
        let vn = before.velocity.y;
        let e = bounce(RailModel::Planar, &contact, before).restitution;
        let fallen = contact.restitution - contact.restitution_loss_s_m * vn;
        prop_assert!((0.0..=1.0).contains(&e) && e <= contact.restitution);
        prop_assert_eq!(e, fallen.max(contact.restitution_floor));
    }

    /// Planar: Newton's ratio of the speeds square to the rail.
    #[test]
    fn planar_restitution((contact, before) in impact()) {
        let after = bounce(RailModel::Planar, &contact, before);
        prop_assert_eq!(after.velocity.y, -after.restitution * before.velocity.y);
    }

    /// Nose-and-cloth without friction: energetic restitution is Newton's ratio, and e = 1 keeps
    /// the energy.
    #[test]
    fn smooth_restitution((contact, before) in impact()) {
        let smooth = CushionContact { nose_friction: 0.0, impact_cloth_friction: 0.0, ..contact };
        let scale = size(&before, contact.radius_m);
        let after = nose_and_cloth(&smooth, before);
        let out = -after.restitution * before.velocity.y;
        prop_assert!((after.velocity.y - out).abs() <= 1e-9 * scale);
        let lively = CushionContact {
            restitution: 1.0,
            restitution_loss_s_m: 0.0,
            restitution_floor: 0.0,
            ..smooth
        };
        let after = nose_and_cloth(&lively, before);
        let (had, has) = (
            energy(before.velocity, before.spin, contact.radius_m),
            energy(after.velocity, after.spin, contact.radius_m),
        );
        prop_assert!((has - had).abs() <= 1e-9 * had);
    }

    /// Nose-and-cloth: without restitution the ball ends with no speed square to the rail.
    #[test]
    fn dead_cushion((contact, before) in impact()) {
        let dead =
            CushionContact { restitution: 0.0, restitution_floor: 0.0, ..contact };
        let after = nose_and_cloth(&dead, before);
        let scale = size(&before, contact.radius_m);
        prop_assert!(after.velocity.y.abs() <= 1e-9 * scale, "{after:?}");
    }

    /// Nose-and-cloth: more restitution, more speed off the rail.
    #[test]
    fn restitution_is_monotone((contact, before) in constant_impact(), more in 0.0..1.0_f64) {
        let livelier = CushionContact {
            restitution: contact.restitution + more * (1.0 - contact.restitution),
            ..contact
        };
        let slow = nose_and_cloth(&contact, before);
        let fast = nose_and_cloth(&livelier, before);
        let scale = size(&before, contact.radius_m);
        prop_assert!(fast.velocity.y <= slow.velocity.y + 1e-9 * scale, "{slow:?} {fast:?}");
    }

    /// A level nose, no cloth friction, no spin about the rail's direction: one law.
    #[test]
    fn the_models_agree_in_the_plane((contact, before) in impact()) {
        let level =
            CushionContact { sin_theta: 0.0, cos_theta: 1.0, impact_cloth_friction: 0.0, ..contact };
        let spin = Vec3::new(0.0, before.spin.y, before.spin.z);
        let before = Bounce { spin, ..before };
        let within = 1e-9 * size(&before, contact.radius_m);
        let planar = bounce(RailModel::Planar, &level, before);
        agree(&bounce(RailModel::NoseOnly, &level, before), &planar, contact.radius_m, within)?;
        agree(&bounce(RailModel::NoseAndCloth, &level, before), &planar, contact.radius_m, within)?;
    }

    /// With spin about the rail's direction they differ, as derived: holding the centre at its
    /// height lets the slip up the nose fade more slowly (5/2 instead of 7/2), so both leave the
    /// speed square to the rail alone and turn that spin the same way, the held ball no less slowed
    /// along the rail where the slip turns towards it.
    #[test]
    fn spin_about_the_rail_parts_the_models(
        (contact, before) in constant_impact(), tilt in 0.2..0.8_f64, friction in 0.02..0.05_f64,
    ) {
        let level = CushionContact {
            sin_theta: 0.0,
            cos_theta: 1.0,
            impact_cloth_friction: 0.0,
            nose_friction: friction,
            ..contact
        };
        let speed = before.velocity.y;
        let radius = contact.radius_m;
        // Slips all through: far more slip than friction can spend.
        let slip = 2.0 * speed;
        let before = Bounce {
            velocity: Vec2::new(slip * tilt, speed),
            spin: Vec3::new(slip * (1.0 - tilt) / radius, 0.0, 0.0),
        };
        let held = bounce(RailModel::NoseAndCloth, &level, before);
        let free = bounce(RailModel::NoseOnly, &level, before);
        prop_assert!((held.velocity.y - free.velocity.y).abs() <= 1e-9 * speed);
        // The slip of the held ball turns up the nose, so friction takes less along the rail.
        prop_assert!(held.velocity.x > free.velocity.x + 1e-7 * speed, "{held:?} {free:?}");
        prop_assert!(held.spin.x < free.spin.x - 1e-7 * speed / radius, "{held:?} {free:?}");
    }
}

/// Ends of the ranges together: the cushion as high, rough and dead as is accepted.
#[test]
fn extremes_stay_finite() {
    let mut runner = proptest::test_runner::TestRunner::new(cases(5));
    let ends = (prop::sample::select(vec![0.0, 0.5]), prop::sample::select(vec![0.0, 0.5]));
    let strategy =
        (ends, prop::sample::select(vec![0.0, 0.5, 1.0]), any::<bool>(), motion_in(0.02));
    runner
        .run(&strategy, |((nose, cloth), restitution, high, before)| {
            let sin_theta: f64 = if high { 0.5 } else { 0.0 };
            let contact = CushionContact {
                radius_m: 0.02,
                sin_theta,
                cos_theta: (1.0 - sin_theta * sin_theta).sqrt(),
                nose_friction: nose,
                impact_cloth_friction: cloth,
                restitution,
                restitution_loss_s_m: 0.0,
                restitution_floor: 0.0,
                checked_speed_m_s: 2.5,
            };
            for model in [RailModel::NoseAndCloth, RailModel::NoseOnly, RailModel::Planar] {
                let after = bounce(model, &contact, before);
                prop_assert!(numbers(&after, 0.02).iter().all(|n| n.is_finite()), "{after:?}");
            }
            Ok(())
        })
        .unwrap_or_else(|failure| panic!("{failure}"));
}
