//! The numbers of a piece of equipment that a script can change.

use railproof_engine::equipment::{Ball, Cloth, Cushion, Equipment, Jaws, Parameter, Table};

/// One number of an [`Equipment`].
#[derive(Debug, Clone, Copy)]
pub struct EquipmentNumber {
    /// The name used in scripts, the same as that of a sweep's input where there is one.
    pub name: &'static str,
    /// What it is in words.
    pub words: &'static str,
    /// Kind and range.
    pub parameter: Parameter,
    /// Reads it, SI.
    pub get: fn(&Equipment) -> f64,
    /// Sets it, SI.
    pub set: fn(&mut Equipment, f64),
}

macro_rules! number {
    ($name:literal, $words:literal, $parameter:expr, $($field:ident).+) => {
        EquipmentNumber {
            name: $name,
            words: $words,
            parameter: $parameter,
            get: |equipment| equipment.$($field).+,
            set: |equipment, value| equipment.$($field).+ = value,
        }
    };
}

/// All of them.
pub const NUMBERS: [EquipmentNumber; 20] = [
    number!("length", "playing length", Table::LENGTH, table.length_m),
    number!("width", "playing width", Table::WIDTH, table.width_m),
    number!("corner_mouth", "corner mouth", Table::CORNER_MOUTH, table.corner_mouth_m),
    number!("side_mouth", "side mouth", Table::SIDE_MOUTH, table.side_mouth_m),
    number!("sight_setback", "sights behind the nose", Table::SIGHT_SETBACK, table.sight_setback_m),
    number!("ball_diameter", "ball diameter", Ball::DIAMETER, ball.diameter_m),
    number!("ball_mass", "ball mass", Ball::MASS, ball.mass_kg),
    number!(
        "sliding_friction",
        "sliding friction",
        Cloth::SLIDING_FRICTION,
        cloth.sliding_friction
    ),
    number!(
        "rolling_resistance",
        "rolling resistance",
        Cloth::ROLLING_RESISTANCE,
        cloth.rolling_resistance
    ),
    number!(
        "pivot_deceleration",
        "pivot deceleration",
        Cloth::PIVOT_DECELERATION,
        cloth.pivot_deceleration_rad_s2
    ),
    number!("nose_height", "nose height", Cushion::NOSE_HEIGHT, cushion.nose_height_m),
    number!("restitution", "restitution", Cushion::RESTITUTION, cushion.restitution),
    number!(
        "restitution_loss",
        "restitution loss",
        Cushion::RESTITUTION_LOSS,
        cushion.restitution_loss_s_m
    ),
    number!(
        "restitution_floor",
        "restitution floor",
        Cushion::RESTITUTION_FLOOR,
        cushion.restitution_floor
    ),
    number!("cushion_friction", "cushion friction", Cushion::FRICTION, cushion.friction),
    EquipmentNumber {
        name: "impact_cloth_friction",
        words: "cloth friction in the impact",
        parameter: Cushion::CLOTH_FRICTION,
        get: Equipment::impact_cloth_friction,
        set: |equipment, value| equipment.cushion.cloth_friction = Some(value),
    },
    number!("checked_speed", "checked speed", Cushion::CHECKED_SPEED, cushion.checked_speed_m_s),
    number!("contact_time", "contact time", Cushion::CONTACT_TIME, cushion.contact_time_s),
    number!("jaw_contact_time", "jaw contact time", Jaws::CONTACT_TIME, table.jaws.contact_time_s),
    number!("gravity", "gravity", Equipment::GRAVITY, gravity_m_s2),
];
