//! The table that banks are timed on: nine-foot, with a plausible cushion.

use railproof_engine::bank::Bank;
use railproof_engine::equipment::{
    Ball, BallContact, Cloth, Cue, Cushion, Equipment, Jaws, RailModel, RailTop, SpokenSpeeds,
    Table,
};
use railproof_engine::impact::{Bounce, CushionContact};
use railproof_engine::rail::{Pocket, Rail};
use railproof_engine::units::{INCH_M, STANDARD_GRAVITY_M_S2};
use railproof_engine::vector::{Vec2, Vec3};

/// Nine-foot equipment.
pub fn nine_foot() -> Equipment {
    Equipment {
        name: "nine-foot".to_owned(),
        table: Table {
            length_m: 100.0 * INCH_M,
            width_m: 50.0 * INCH_M,
            corner_mouth_m: 4.5625 * INCH_M,
            side_mouth_m: 5.125 * INCH_M,
            sight_setback_m: 3.6875 * INCH_M,
            jaws: Jaws::USUAL,
            rail_top: RailTop::USUAL,
        },
        ball: Ball { diameter_m: 2.25 * INCH_M, mass_kg: 0.17 },
        cloth: Cloth {
            sliding_friction: 0.2,
            rolling_resistance: 0.0128,
            pivot_deceleration_rad_s2: 10.0,
        },
        cushion: Cushion {
            rail_model: RailModel::NoseAndCloth,
            nose_height_m: 1.42875 * INCH_M,
            restitution: 0.95,
            restitution_loss_s_m: 0.02,
            restitution_floor: 0.5,
            nose_friction: 0.14,
            impact_cloth_friction: Some(0.2),
            checked_speed_m_s: 2.5,
            contact_time_s: 0.01,
        },
        ball_contact: BallContact::USUAL,
        cue: Cue::USUAL,
        speeds: SpokenSpeeds::USUAL,
        gravity_m_s2: STANDARD_GRAVITY_M_S2,
    }
}

/// Banks off a long rail into the corner across, by `model`.
///
/// # Panics
/// Never: that rail and that pocket make a bank on this table.
pub fn bank(model: RailModel) -> Bank {
    Bank::new(&nine_foot(), Rail::Left, Pocket::FootRight, model)
        .expect("a long rail and the corner across from it")
}

/// The cushion's numbers for an impact.
pub fn contact() -> CushionContact {
    CushionContact::new(&nine_foot())
}

/// A stun ball at 4 m/s down the line from 4.4 to 2.
pub fn frozen_stun_impact() -> Bounce {
    let angle = libm::atan2(2.4 * 12.5, 47.834);
    Bounce {
        velocity: Vec2::new(-4.0 * libm::sin(angle), 4.0 * libm::cos(angle)),
        spin: Vec3::ZERO,
    }
}
