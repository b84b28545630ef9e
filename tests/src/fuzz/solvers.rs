//! Impacts, banks and shots on raw bits: whatever is accepted ends in numbers.

use crate::shipped_equipment;
use railproof_engine::bank::{Bank, Launch};
use railproof_engine::equipment::{EquipmentNumber, RailModel};
use railproof_engine::impact::{Bounce, CushionContact, bounce};
use railproof_engine::motion::BallState;
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::shot::{ShotBall, play};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::World;

/// Numbers off raw bits: a byte says how the eight that follow are taken, so that many are within a range.
struct RawNumbers<'a>(&'a [u8]);

impl RawNumbers<'_> {
    fn bits(&mut self) -> (u8, u64) {
        let mut taken = [0; 9];
        let count = self.0.len().min(taken.len());
        taken[..count].copy_from_slice(&self.0[..count]);
        self.0 = &self.0[count..];
        let mut number = [0; 8];
        number.copy_from_slice(&taken[1..]);
        (taken[0], u64::from_le_bytes(number))
    }

    /// A number as it stands, or one from `low` to `high`.
    fn near(&mut self, low: f64, high: f64) -> f64 {
        let (how, bits) = self.bits();
        match how % 8 {
            0 => f64::from_bits(bits),
            1 => low,
            2 => high,
            3 => 0.0,
            4 => f64::from_bits(bits >> 12),
            _ => low + (high - low) * ((bits >> 11) as f64 * 0.5 * f64::EPSILON),
        }
    }

    fn choice(&mut self, count: usize) -> usize {
        usize::from(self.bits().0) % count
    }
}

/// No ball of any game is faster; the engine's shots refuse more.
const FASTEST_M_S: f64 = 20.0;

pub(super) fn impact(bytes: &[u8]) {
    let mut raw = RawNumbers(bytes);
    let mut equipment = shipped_equipment("nine-foot");
    for _ in 0..raw.choice(6) {
        let at = raw.choice(EquipmentNumber::all().count());
        let number = EquipmentNumber::all().nth(at).expect("one of them");
        let value = raw.near(0.5, 1.5);
        let value = if value.is_normal() { number.get(&equipment) * value } else { value };
        number.set(&mut equipment, value);
    }
    let Ok(equipment) = equipment.validated() else { return };
    let models = [RailModel::NoseAndCloth, RailModel::NoseOnly, RailModel::Planar];
    let model = models[raw.choice(models.len())];
    if let Ok(bank) = Bank::new(&equipment, Rail::Left, Pocket::FootRight, model) {
        let line = Line::new(raw.near(0.0, 4.0), raw.near(0.0, 8.0));
        let launch = Launch {
            off_rail_m: raw.near(0.0, 0.6),
            speed_m_s: raw.near(0.01, FASTEST_M_S),
            roll: raw.near(-3.0, 3.0),
            side: raw.near(-3.0, 3.0),
            aim_error_rad: raw.near(-0.3, 0.3),
        };
        if let Ok(outcome) = bank.play(line, launch) {
            let told = [outcome.miss_m(), outcome.clearance_m()];
            let of_numbers = line.contact.is_finite() && line.start.is_finite();
            let whole = told.into_iter().flatten().all(f64::is_finite);
            assert!(whole || !of_numbers, "{line:?} {launch:?}: {outcome:?}");
        }
    }
    let radius = equipment.ball.radius_m();
    let fastest_rad_s = 4.0 * FASTEST_M_S / radius;
    let mut speed = || raw.near(-FASTEST_M_S, FASTEST_M_S);
    let velocity = Vec2::new(speed(), speed());
    let mut spin = || raw.near(-fastest_rad_s, fastest_rad_s);
    let spin = Vec3::new(spin(), spin(), spin());
    let all = [velocity.x, velocity.y, spin.x * radius, spin.y * radius, spin.z * radius];
    if all.into_iter().any(|number| number.is_nan() || number.abs() > 5.0 * FASTEST_M_S) {
        return;
    }
    let before = Bounce { velocity, spin };
    let after = bounce(model, &CushionContact::new(&equipment), before);
    let all = [
        after.velocity.x,
        after.velocity.y,
        after.spin.x,
        after.spin.y,
        after.spin.z,
        after.restitution,
    ];
    assert!(all.into_iter().all(f64::is_finite), "{before:?} {after:?} by {model:?}");
}

pub(super) fn shot(bytes: &[u8]) {
    let mut raw = RawNumbers(bytes);
    let mut equipment = shipped_equipment("nine-foot");
    equipment.cushion.contact_time_s = [0.0, 0.005, 0.015][raw.choice(3)];
    equipment.ball_contact.restitution = [0.7, 0.95, 1.0][raw.choice(3)];
    let Ok(world) = World::new(&equipment, &[]) else { return };
    let count = 1 + raw.choice(5);
    let balls: Vec<ShotBall> = (0..count)
        .map(|_| {
            let position = Vec2::new(raw.near(-1.2, 1.2), raw.near(-0.6, 0.6));
            let velocity = Vec2::new(raw.near(-6.0, 6.0), raw.near(-6.0, 6.0));
            let spin = Vec3::new(
                raw.near(-200.0, 200.0),
                raw.near(-200.0, 200.0),
                raw.near(-200.0, 200.0),
            );
            ShotBall::of(&equipment, BallState { position, velocity, spin })
        })
        .collect();
    let Ok(shot) = play(&world, &balls, None) else { return };
    assert!(!shot.gave_up(), "given up: {balls:?}");
    let duration_s = shot.duration_s();
    assert!(duration_s.is_finite() && duration_s >= 0.0, "{balls:?}");
    for ball in 0..count {
        for share in [0.0, 0.3, 1.0] {
            let Some(state) = shot.state_at(ball, share * duration_s) else { continue };
            let BallState { position, velocity, spin } = state;
            let all = [position.x, position.y, velocity.x, velocity.y, spin.x, spin.y, spin.z];
            assert!(all.into_iter().all(f64::is_finite), "{balls:?}: {state:?}");
        }
    }
}
