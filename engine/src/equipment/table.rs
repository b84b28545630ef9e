//! The table: playing area, pocket mouths and sights.

use super::{Jaws, Parameter, RailTop};
use crate::units::Dimension;
use serde::{Deserialize, Serialize};

/// A pocket table, symmetric about both its axes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Table {
    /// Playing length, nose to nose, m.
    pub length_m: f64,
    /// Playing width, nose to nose, m.
    pub width_m: f64,
    /// Corner mouth, point to point, m.
    pub corner_mouth_m: f64,
    /// Side mouth, point to point, m.
    pub side_mouth_m: f64,
    /// Distance of the sights' centres behind the nose, m.
    pub sight_setback_m: f64,
    /// The cushions' ends, where they turn in at the mouths.
    pub jaws: Jaws,
    /// Where the rails are highest.
    #[serde(default = "RailTop::usual")]
    pub rail_top: RailTop,
}

impl Table {
    /// Accepted playing lengths.
    pub const LENGTH: Parameter = Parameter::new("length", Dimension::Length, 1.0, 4.0, "m");
    /// Accepted playing widths.
    pub const WIDTH: Parameter = Parameter::new("width", Dimension::Length, 0.5, 2.5, "m");
    /// Accepted corner mouths.
    pub const CORNER_MOUTH: Parameter =
        Parameter::new("corner_mouth", Dimension::Length, 70.0, 200.0, "mm");
    /// Accepted side mouths.
    pub const SIDE_MOUTH: Parameter =
        Parameter::new("side_mouth", Dimension::Length, 70.0, 200.0, "mm");
    /// Accepted distances of the sights behind the nose.
    pub const SIGHT_SETBACK: Parameter =
        Parameter::new("sight_setback", Dimension::Length, 0.0, 250.0, "mm");

    /// Diamonds along a long rail.
    pub const LONG_RAIL_DIAMONDS: f64 = 8.0;
    /// Diamonds along an end rail.
    pub const END_RAIL_DIAMONDS: f64 = 4.0;

    /// One diamond along a long rail: an eighth of the playing length, m.
    pub fn long_rail_diamond_m(&self) -> f64 {
        self.length_m / Self::LONG_RAIL_DIAMONDS
    }

    /// One diamond along an end rail: a quarter of the playing width, m.
    pub fn end_rail_diamond_m(&self) -> f64 {
        self.width_m / Self::END_RAIL_DIAMONDS
    }
}
