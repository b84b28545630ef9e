//! The equipment these comparisons are made on.

use railproof_engine::equipment::{
    Ball, BallContact, Cloth, Cue, Cushion, Equipment, Jaws, RailModel, RailTop, SpokenSpeeds,
    Table,
};

pub const RADIUS_M: f64 = 0.028_575;
pub const MASS_KG: f64 = 0.163;

/// A nine-foot table with a ball of [`RADIUS_M`]; the cushion's and cloth's values are arbitrary.
pub fn equipment() -> Equipment {
    Equipment {
        name: "independent".to_owned(),
        table: Table {
            length_m: 2.54,
            width_m: 1.27,
            corner_mouth_m: 0.115_887_5,
            side_mouth_m: 0.128_587_5,
            sight_setback_m: 0.093_662_5,
            jaws: Jaws::USUAL,
            rail_top: RailTop::USUAL,
        },
        ball: Ball { diameter_m: 2.0 * RADIUS_M, mass_kg: MASS_KG },
        cloth: Cloth {
            sliding_friction: 0.2,
            rolling_resistance: 0.0128,
            pivot_deceleration_rad_s2: 10.0,
        },
        cushion: Cushion {
            rail_model: RailModel::Planar,
            nose_height_m: 0.635 * 2.0 * RADIUS_M,
            restitution: 0.85,
            restitution_loss_s_m: 0.0,
            restitution_floor: 0.0,
            nose_friction: 0.2,
            impact_cloth_friction: None,
            checked_speed_m_s: 2.5,
            contact_time_s: 0.01,
        },
        ball_contact: BallContact::USUAL,
        cue: Cue::USUAL,
        speeds: SpokenSpeeds::USUAL,
        gravity_m_s2: 9.81,
    }
}
