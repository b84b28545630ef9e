//! Equipment for this crate's unit tests.

use crate::equipment::{
    Ball, BallContact, Cloth, Cue, Cushion, Equipment, Jaws, RailModel, RailTop, SpokenSpeeds,
    Table,
};
use crate::units::INCH_M;

/// A nine-foot table with standard dimensions: playing area 100 × 50 in, sights 3 11/16 in behind
/// the nose, nose at 63.5 % of a 2.25 in ball (World Pool-Billiard Association, equipment
/// specifications; the nose's wording from memory).
pub(crate) fn nine_foot() -> Equipment {
    let diameter_m = 2.25 * INCH_M;
    Equipment {
        name: "nine-foot".to_owned(),
        table: Table {
            length_m: 100.0 * INCH_M,
            width_m: 50.0 * INCH_M,
            corner_mouth_m: 4.5625 * INCH_M,
            side_mouth_m: 5.0625 * INCH_M,
            sight_setback_m: 3.6875 * INCH_M,
            jaws: Jaws::USUAL,
            rail_top: RailTop::USUAL,
        },
        ball: Ball { diameter_m, mass_kg: 0.163 },
        cloth: Cloth {
            sliding_friction: 0.2,
            rolling_resistance: 0.0128,
            pivot_deceleration_rad_s2: 10.0,
        },
        cushion: Cushion {
            rail_model: RailModel::NoseAndCloth,
            nose_height_m: 0.635 * diameter_m,
            restitution: 0.95,
            restitution_loss_s_m: 0.02,
            restitution_floor: 0.5,
            nose_friction: 0.15,
            impact_cloth_friction: None,
            checked_speed_m_s: 2.5,
            contact_time_s: 0.01,
        },
        ball_contact: BallContact::USUAL,
        cue: Cue::USUAL,
        speeds: SpokenSpeeds::USUAL,
        gravity_m_s2: 9.806_65,
    }
}
