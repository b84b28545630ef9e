//! The ball.

use super::Parameter;
use crate::units::Dimension;
use serde::{Deserialize, Serialize};

/// A uniform solid ball: its moment of inertia is (2/5)·m·R².
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ball {
    /// Diameter, m.
    pub diameter_m: f64,
    /// Mass, kg.
    pub mass_kg: f64,
}

impl Ball {
    /// Accepted diameters.
    pub const DIAMETER: Parameter = Parameter::new("diameter", Dimension::Length, 40.0, 80.0, "mm");
    /// Accepted masses.
    pub const MASS: Parameter = Parameter::new("mass", Dimension::Mass, 50.0, 500.0, "g");

    /// Radius, m.
    pub fn radius_m(&self) -> f64 {
        0.5 * self.diameter_m
    }
}
