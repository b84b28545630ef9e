//! Every parameter in use, for answers that other programs read.

use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::motion::BallState;
use railproof_engine::shot::{HELD_BELOW_M_S, MAX_EVENTS};
use serde::Serialize;

/// The model and its numbers. SI units, named in the keys.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ModelAnswer {
    pub railproof_version: &'static str,
    pub engine_version: &'static str,
    pub equipment: String,
    pub rail_model: &'static str,
    pub restitution: f64,
    pub restitution_loss_s_m: f64,
    pub restitution_floor: f64,
    pub nose_friction: f64,
    pub impact_cloth_friction: f64,
    pub nose_height_m: f64,
    pub sin_theta: f64,
    pub groove_m: f64,
    pub checked_speed_m_s: f64,
    pub contact_time_s: f64,
    pub sliding_friction: f64,
    pub rolling_resistance: f64,
    pub pivot_deceleration_rad_s2: f64,
    pub gravity_m_s2: f64,
    pub ball_radius_m: f64,
    pub ball_mass_kg: f64,
    pub table_length_m: f64,
    pub table_width_m: f64,
    pub corner_mouth_m: f64,
    pub side_mouth_m: f64,
    pub sight_setback_m: f64,
    pub corner_angle_rad: f64,
    pub side_angle_rad: f64,
    pub corner_radius_m: f64,
    pub side_radius_m: f64,
    pub corner_shelf_m: f64,
    pub side_shelf_m: f64,
    pub jaw_contact_time_s: f64,
    pub ball_restitution: f64,
    pub ball_friction_law: &'static str,
    pub ball_friction_at_0_1: f64,
    pub ball_friction_at_1: f64,
    pub ball_friction_at_10: f64,
    pub ball_friction_far: f64,
    pub ball_friction_rise: f64,
    pub ball_friction_fall_s_m: f64,
    pub cue_end_mass_kg: f64,
    pub miscue_offset: f64,
    pub tip_diameter_m: f64,
    pub butt_diameter_m: f64,
    pub cue_length_m: f64,
    pub rail_height_m: f64,
    pub rail_setback_m: f64,
    /// Slower bounces of a ball that the cloth drives back are not resolved; shots only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub held_below_m_s: Option<f64>,
    /// A shot is given up after so many events; shots only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub most_events: Option<usize>,
    /// When the shot was to end; shots only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub until_s: Option<f64>,
}

impl ModelAnswer {
    /// The parameters of equipment played by a rail model.
    pub fn new(equipment: &Equipment, rail_model: RailModel) -> Self {
        let Equipment { name, table, ball, cloth, cushion, ball_contact, cue, gravity_m_s2 } =
            equipment;
        Self {
            railproof_version: env!("CARGO_PKG_VERSION"),
            engine_version: railproof_engine::VERSION,
            equipment: name.clone(),
            rail_model: rail_model.name(),
            restitution: cushion.restitution,
            restitution_loss_s_m: cushion.restitution_loss_s_m,
            restitution_floor: cushion.restitution_floor.min(cushion.restitution),
            nose_friction: cushion.friction,
            impact_cloth_friction: equipment.impact_cloth_friction(),
            nose_height_m: cushion.nose_height_m,
            sin_theta: equipment.sin_theta(),
            groove_m: equipment.groove_m(),
            checked_speed_m_s: cushion.checked_speed_m_s,
            contact_time_s: cushion.contact_time_s,
            sliding_friction: cloth.sliding_friction,
            rolling_resistance: cloth.rolling_resistance,
            pivot_deceleration_rad_s2: cloth.pivot_deceleration_rad_s2,
            gravity_m_s2: *gravity_m_s2,
            ball_radius_m: ball.radius_m(),
            ball_mass_kg: ball.mass_kg,
            table_length_m: table.length_m,
            table_width_m: table.width_m,
            corner_mouth_m: table.corner_mouth_m,
            side_mouth_m: table.side_mouth_m,
            sight_setback_m: table.sight_setback_m,
            corner_angle_rad: table.jaws.corner_angle_rad,
            side_angle_rad: table.jaws.side_angle_rad,
            corner_radius_m: table.jaws.corner_radius_m,
            side_radius_m: table.jaws.side_radius_m,
            corner_shelf_m: table.jaws.corner_shelf_m,
            side_shelf_m: table.jaws.side_shelf_m,
            jaw_contact_time_s: table.jaws.contact_time_s,
            ball_restitution: ball_contact.restitution,
            ball_friction_law: ball_contact.friction_law.name(),
            ball_friction_at_0_1: ball_contact.friction_at_0_1,
            ball_friction_at_1: ball_contact.friction_at_1,
            ball_friction_at_10: ball_contact.friction_at_10,
            ball_friction_far: ball_contact.friction_far,
            ball_friction_rise: ball_contact.friction_rise,
            ball_friction_fall_s_m: ball_contact.friction_fall_s_m,
            cue_end_mass_kg: cue.end_mass_kg,
            miscue_offset: cue.miscue_offset,
            tip_diameter_m: cue.shape.tip_diameter_m,
            butt_diameter_m: cue.shape.butt_diameter_m,
            cue_length_m: cue.shape.length_m,
            rail_height_m: table.rail_top.height_m,
            rail_setback_m: table.rail_top.setback_m,
            held_below_m_s: None,
            most_events: None,
            until_s: None,
        }
    }

    /// The same with what a shot adds.
    #[must_use]
    pub fn of_shot(self, until_s: Option<f64>) -> Self {
        Self {
            held_below_m_s: Some(HELD_BELOW_M_S),
            most_events: Some(MAX_EVENTS),
            until_s,
            ..self
        }
    }
}

/// A ball's state in the table frame, as other programs read it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct StateAnswer {
    pub position_m: [f64; 2],
    pub velocity_m_s: [f64; 2],
    pub spin_rad_s: [f64; 3],
}

impl From<&BallState> for StateAnswer {
    fn from(state: &BallState) -> Self {
        let BallState { position, velocity, spin } = state;
        // Adding zero turns −0 into 0.
        Self {
            position_m: [position.x, position.y].map(|number| number + 0.0),
            velocity_m_s: [velocity.x, velocity.y].map(|number| number + 0.0),
            spin_rad_s: [spin.x, spin.y, spin.z].map(|number| number + 0.0),
        }
    }
}
