//! Every parameter in use, for answers that other programs read.

use railproof_engine::equipment::{Equipment, EquipmentNumber, RailModel};
use railproof_engine::motion::BallState;
use railproof_engine::shot::{HELD_BELOW_M_S, MAX_EVENTS};
use serde::Serialize;
use serde_json::{Map, Value};

/// The model and its numbers. SI units, named in the keys.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ModelAnswer {
    pub railproof_version: &'static str,
    pub engine_version: &'static str,
    pub equipment: String,
    pub rail_model: &'static str,
    pub ball_friction_law: &'static str,
    pub sin_theta: f64,
    pub groove_m: f64,
    /// Each number of the equipment by its name with the unit.
    #[serde(flatten)]
    pub numbers: Map<String, Value>,
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
        let numbers = EquipmentNumber::all()
            .map(|number| (number.column(), number.get(equipment).into()))
            .collect();
        Self {
            railproof_version: env!("CARGO_PKG_VERSION"),
            engine_version: railproof_engine::VERSION,
            equipment: equipment.name.clone(),
            rail_model: rail_model.name(),
            ball_friction_law: equipment.ball_contact.friction_law.name(),
            sin_theta: equipment.sin_theta(),
            groove_m: equipment.groove_m(),
            numbers,
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
