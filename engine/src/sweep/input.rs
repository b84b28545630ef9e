//! What a sweep can vary.

use crate::bank::Launch;
use crate::equipment::{Ball, Cloth, Cushion, Equipment, Parameter, Table};
use crate::units::Dimension;
use serde::{Deserialize, Serialize};

/// An input of a bank.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Input {
    /// The equipment as a whole.
    Equipment,
    /// The rail banked off.
    Rail,
    /// The target pocket.
    Pocket,
    /// The rail model.
    RailModel,
    /// Contact number, diamonds, groove reading.
    Contact,
    /// Explicit start number, diamonds, groove reading.
    Start,
    /// Distance off the rail, m.
    OffRail,
    /// Speed at launch, m/s.
    Speed,
    /// Speed at launch in table lengths (see [`crate::units::Speed`]).
    Lag,
    /// Fraction of natural roll at launch.
    Roll,
    /// Side spin at launch, R·wz/v, positive running.
    Side,
    /// Aim error, rad.
    AimError,
    /// Sliding friction of the cloth.
    SlidingFriction,
    /// Rolling resistance of the cloth.
    RollingResistance,
    /// Pivot deceleration, rad/s².
    PivotDeceleration,
    /// Restitution at vanishing speed.
    Restitution,
    /// Restitution loss, s/m.
    RestitutionLoss,
    /// Friction at the nose.
    CushionFriction,
    /// Cloth friction during the impact.
    ImpactClothFriction,
    /// Nose height, m.
    NoseHeight,
    /// Contact time of the compliant model, s.
    ContactTime,
    /// Ball diameter, m.
    BallDiameter,
    /// Corner mouth, m.
    CornerMouth,
    /// Side mouth, m.
    SideMouth,
    /// Gravity, m/s².
    Gravity,
}

impl Input {
    /// All inputs, in the order in which they are listed to people.
    pub const ALL: [Self; 25] = [
        Self::Equipment,
        Self::Rail,
        Self::Pocket,
        Self::RailModel,
        Self::Contact,
        Self::Start,
        Self::OffRail,
        Self::Speed,
        Self::Lag,
        Self::Roll,
        Self::Side,
        Self::AimError,
        Self::SlidingFriction,
        Self::RollingResistance,
        Self::PivotDeceleration,
        Self::Restitution,
        Self::RestitutionLoss,
        Self::CushionFriction,
        Self::ImpactClothFriction,
        Self::NoseHeight,
        Self::ContactTime,
        Self::BallDiameter,
        Self::CornerMouth,
        Self::SideMouth,
        Self::Gravity,
    ];

    /// The name used in scripts and files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Equipment => "on",
            Self::Rail => "rail",
            Self::Pocket => "pocket",
            Self::RailModel => "rail_model",
            Self::Contact => "contact",
            Self::Start => "start",
            Self::OffRail => "off_rail",
            Self::Speed => "speed",
            Self::Lag => "lag",
            Self::Roll => "roll",
            Self::Side => "side",
            Self::AimError => "aim_error",
            Self::SlidingFriction => "sliding_friction",
            Self::RollingResistance => "rolling_resistance",
            Self::PivotDeceleration => "pivot_deceleration",
            Self::Restitution => "restitution",
            Self::RestitutionLoss => "restitution_loss",
            Self::CushionFriction => "cushion_friction",
            Self::ImpactClothFriction => "impact_cloth_friction",
            Self::NoseHeight => "nose_height",
            Self::ContactTime => "contact_time",
            Self::BallDiameter => "ball_diameter",
            Self::CornerMouth => "corner_mouth",
            Self::SideMouth => "side_mouth",
            Self::Gravity => "gravity",
        }
    }

    /// What it means, in a few words.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Equipment => "the equipment",
            Self::Rail => "the rail banked off",
            Self::Pocket => "the target pocket",
            Self::RailModel => "the rail model",
            Self::Contact => "contact number",
            Self::Start => "start number",
            Self::OffRail => "distance off the rail",
            Self::Speed => "speed",
            Self::Lag => "speed in table lengths",
            Self::Roll => "fraction of natural roll",
            Self::Side => "side spin, positive running",
            Self::AimError => "aim error, positive towards the pocket's end",
            Self::SlidingFriction => "sliding friction of the cloth",
            Self::RollingResistance => "rolling resistance of the cloth",
            Self::PivotDeceleration => "pivot deceleration",
            Self::Restitution => "restitution at vanishing speed",
            Self::RestitutionLoss => "loss of restitution with speed",
            Self::CushionFriction => "friction at the nose",
            Self::ImpactClothFriction => "cloth friction during the impact",
            Self::NoseHeight => "nose height",
            Self::ContactTime => "contact time",
            Self::BallDiameter => "ball diameter",
            Self::CornerMouth => "corner mouth",
            Self::SideMouth => "side mouth",
            Self::Gravity => "gravity",
        }
    }

    /// Range and kind of a numeric input; `None` for one that is chosen from words.
    pub const fn parameter(self) -> Option<Parameter> {
        const NUMBER: Parameter = Parameter::new("contact", Dimension::Ratio, -40.0, 40.0, "");
        const START: Parameter = Parameter::new("start", Dimension::Ratio, -200.0, 200.0, "");
        const LAG: Parameter = Parameter::new("lag", Dimension::Ratio, 0.01, 200.0, "");
        Some(match self {
            Self::Equipment | Self::Rail | Self::Pocket | Self::RailModel => return None,
            Self::Contact => NUMBER,
            Self::Start => START,
            Self::OffRail => Launch::OFF_RAIL,
            Self::Speed => Launch::SPEED,
            Self::Lag => LAG,
            Self::Roll => Launch::ROLL,
            Self::Side => Launch::SIDE,
            Self::AimError => Launch::AIM_ERROR,
            Self::SlidingFriction => Cloth::SLIDING_FRICTION,
            Self::RollingResistance => Cloth::ROLLING_RESISTANCE,
            Self::PivotDeceleration => Cloth::PIVOT_DECELERATION,
            Self::Restitution => Cushion::RESTITUTION,
            Self::RestitutionLoss => Cushion::RESTITUTION_LOSS,
            Self::CushionFriction => Cushion::FRICTION,
            Self::ImpactClothFriction => Cushion::CLOTH_FRICTION,
            Self::NoseHeight => Cushion::NOSE_HEIGHT,
            Self::ContactTime => Cushion::CONTACT_TIME,
            Self::BallDiameter => Ball::DIAMETER,
            Self::CornerMouth => Table::CORNER_MOUTH,
            Self::SideMouth => Table::SIDE_MOUTH,
            Self::Gravity => Equipment::GRAVITY,
        })
    }

    /// Sets the equipment's field this input stands for; nothing for inputs of the launch.
    pub(super) fn apply(self, equipment: &mut Equipment, value: f64) {
        match self {
            Self::SlidingFriction => equipment.cloth.sliding_friction = value,
            Self::RollingResistance => equipment.cloth.rolling_resistance = value,
            Self::PivotDeceleration => equipment.cloth.pivot_deceleration_rad_s2 = value,
            Self::Restitution => equipment.cushion.restitution = value,
            Self::RestitutionLoss => equipment.cushion.restitution_loss_s_m = value,
            Self::CushionFriction => equipment.cushion.friction = value,
            Self::ImpactClothFriction => equipment.cushion.cloth_friction = Some(value),
            Self::NoseHeight => equipment.cushion.nose_height_m = value,
            Self::ContactTime => equipment.cushion.contact_time_s = value,
            Self::BallDiameter => equipment.ball.diameter_m = value,
            Self::CornerMouth => equipment.table.corner_mouth_m = value,
            Self::SideMouth => equipment.table.side_mouth_m = value,
            Self::Gravity => equipment.gravity_m_s2 = value,
            _ => {}
        }
    }

    /// True for an input of the launch or the line, false for one that makes another table.
    pub const fn is_launch(self) -> bool {
        matches!(
            self,
            Self::Contact
                | Self::Start
                | Self::OffRail
                | Self::Speed
                | Self::Lag
                | Self::Roll
                | Self::Side
                | Self::AimError
        )
    }
}
