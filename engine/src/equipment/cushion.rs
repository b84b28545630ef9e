//! The cushion: its nose, its restitution, and its friction.

use super::Parameter;
use crate::units::Dimension;
use serde::{Deserialize, Serialize};

/// Which law turns the ball's motion before the cushion into its motion after.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RailModel {
    /// Impulses at the nose and at the cloth together, integrated through slip and stick.
    #[default]
    NoseAndCloth,
    /// One impulse at the raised nose, in closed form; the cloth's reaction is left out.
    NoseOnly,
    /// One impulse at the ball's equator, in closed form.
    Planar,
    /// A second opinion: a soft planar cushion stepped in time on a rigid-body solver.
    Compliant,
}

impl RailModel {
    /// All models, the default first.
    pub const ALL: [Self; 4] = [Self::NoseAndCloth, Self::NoseOnly, Self::Planar, Self::Compliant];

    /// The name used in profiles, scripts and on the command line.
    pub const fn name(self) -> &'static str {
        match self {
            Self::NoseAndCloth => "nose-and-cloth",
            Self::NoseOnly => "nose-only",
            Self::Planar => "planar",
            Self::Compliant => "compliant",
        }
    }
}

/// A cushion. A fitted restitution belongs to the model it was fitted with: the same number means
/// another bounce in another model.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cushion {
    /// The rail model these values were chosen for.
    pub rail_model: RailModel,
    /// Height of the nose over the cloth, m.
    pub nose_height_m: f64,
    /// Restitution at vanishing speed, e0.
    pub restitution: f64,
    /// Loss of restitution per speed square to the rail, k, s/m.
    pub restitution_loss_s_m: f64,
    /// Restitution never falls below this.
    pub restitution_floor: f64,
    /// Friction between ball and nose, μw.
    pub nose_friction: f64,
    /// Friction between ball and cloth while the cushion acts; `None` takes the sliding friction.
    pub impact_cloth_friction: Option<f64>,
    /// Speed square to the rail up to which the model has been checked, m/s.
    pub checked_speed_m_s: f64,
    /// Contact time with a rail, s; 0 is the limit of an impulse. Meanwhile the ball goes on along the rail
    /// (see [`Bank`](crate::bank::Bank)); the compliant model resolves it. Jaws have a time of their own.
    pub contact_time_s: f64,
}

impl Cushion {
    /// Accepted nose heights.
    pub const NOSE_HEIGHT: Parameter =
        Parameter::new("nose_height", Dimension::Length, 20.0, 60.0, "mm");
    /// Accepted nose heights as a share of the ball's diameter. Tables in use have 0.59 to 0.65. Up to
    /// the upper end, with friction up to 0.5, the ball can't jam between nose and cloth, and the
    /// integrated impact is exact to what it promises; above it rounding could decide what a contact
    /// at the very edge of its friction cone does.
    pub const NOSE_RATIO: Parameter =
        Parameter::new("nose_height in ball diameters", Dimension::Ratio, 0.5, 0.7, "");
    /// Accepted restitution.
    pub const RESTITUTION: Parameter =
        Parameter::new("restitution", Dimension::Ratio, 0.0, 1.0, "");
    /// Accepted loss of restitution per speed.
    pub const RESTITUTION_LOSS: Parameter =
        Parameter::new("restitution_loss", Dimension::PerSpeed, 0.0, 0.5, "s/m");
    /// Accepted floor of restitution.
    pub const RESTITUTION_FLOOR: Parameter =
        Parameter::new("restitution_floor", Dimension::Ratio, 0.0, 1.0, "");
    /// Accepted friction at the nose.
    pub const NOSE_FRICTION: Parameter =
        Parameter::new("nose_friction", Dimension::Ratio, 0.0, 0.5, "");
    /// Accepted friction at the cloth during the impact.
    pub const IMPACT_CLOTH_FRICTION: Parameter =
        Parameter::new("impact_cloth_friction", Dimension::Ratio, 0.0, 0.5, "");
    /// Accepted limits of the checked range.
    pub const CHECKED_SPEED: Parameter =
        Parameter::new("checked_speed", Dimension::Speed, 0.1, 50.0, "m/s");
    /// Accepted contact times.
    pub const CONTACT_TIME: Parameter =
        Parameter::new("contact_time", Dimension::Time, 0.0, 50.0, "ms");
    /// Contact times that the compliant model can resolve in its steps.
    pub const RESOLVED_CONTACT_TIME: Parameter =
        Parameter::new("contact_time", Dimension::Time, 0.5, 50.0, "ms");

    /// The usual floor of restitution.
    pub const USUAL_RESTITUTION_FLOOR: f64 = 0.5;
    /// The usual limit of the checked range, m/s.
    pub const USUAL_CHECKED_SPEED_M_S: f64 = 2.5;
    /// The usual contact time, s.
    pub const USUAL_CONTACT_TIME_S: f64 = 15.0 * 0.001;

    /// e(vn) = max(floor, e0 − k·vn), with vn ≥ 0 the centre's speed square to the rail when
    /// contact begins, m/s; the floor never lifts it over e0.
    pub fn restitution_at(&self, normal_speed_m_s: f64) -> f64 {
        let floor = self.restitution_floor.min(self.restitution);
        (self.restitution - self.restitution_loss_s_m * normal_speed_m_s).max(floor)
    }
}
