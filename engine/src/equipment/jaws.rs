//! The jaws of the pockets: the cushions' ends that turn in at a mouth, and the drop line.

use super::Parameter;
use crate::units::{DEGREE_RAD, Dimension, INCH_M};
use serde::{Deserialize, Serialize};

/// Both kinds of pocket; all corners are alike, and so are both sides.
///
/// At a mouth's point the nose turns from the rail into the pocket's facing over an arc. The cut
/// angle is measured inside the rubber, between the nose line and the facing: 180° would run
/// straight on, 90° would turn square into the pocket.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Jaws {
    /// Cut angle at a corner, rad.
    pub corner_angle_rad: f64,
    /// Cut angle at a side pocket, rad.
    pub side_angle_rad: f64,
    /// Radius of the rounded point at a corner, m; 0 is a sharp point.
    pub corner_radius_m: f64,
    /// Radius of the rounded point at a side pocket, m; 0 is a sharp point.
    pub side_radius_m: f64,
    /// Distance of a corner's drop line behind its mouth line, m.
    pub corner_shelf_m: f64,
    /// Distance of a side pocket's drop line behind its mouth line, m.
    pub side_shelf_m: f64,
    /// Contact time with a jaw, s; 0 is the limit of an impulse. A jaw's rubber is thin and backed by wood,
    /// so it lets go much sooner than a rail's.
    pub contact_time_s: f64,
}

impl Jaws {
    /// Cut angles 142° and 104° (World Pool-Billiard Association, equipment specifications);
    /// shelves in the middle of 1–2.25 in and 0–3/8 in (the same, from memory); points rounded to
    /// 1/4 in and a contact time of 1 ms, for which there is no source.
    pub const USUAL: Self = Self {
        corner_angle_rad: 142.0 * DEGREE_RAD,
        side_angle_rad: 104.0 * DEGREE_RAD,
        corner_radius_m: 0.25 * INCH_M,
        side_radius_m: 0.25 * INCH_M,
        corner_shelf_m: 1.625 * INCH_M,
        side_shelf_m: 0.004_762_5,
        contact_time_s: 1.0 * 0.001,
    };

    /// Accepted cut angles at a corner.
    pub const CORNER_ANGLE: Parameter =
        Parameter::new("corner_angle", Dimension::Angle, 110.0, 175.0, "deg");
    /// Accepted cut angles at a side pocket.
    pub const SIDE_ANGLE: Parameter =
        Parameter::new("side_angle", Dimension::Angle, 91.0, 175.0, "deg");
    /// Accepted radii of a corner's points.
    pub const CORNER_RADIUS: Parameter =
        Parameter::new("corner_radius", Dimension::Length, 0.0, 60.0, "mm");
    /// Accepted radii of a side pocket's points.
    pub const SIDE_RADIUS: Parameter =
        Parameter::new("side_radius", Dimension::Length, 0.0, 60.0, "mm");
    /// Accepted shelves of a corner.
    pub const CORNER_SHELF: Parameter =
        Parameter::new("corner_shelf", Dimension::Length, 0.0, 120.0, "mm");
    /// Accepted shelves of a side pocket.
    pub const SIDE_SHELF: Parameter =
        Parameter::new("side_shelf", Dimension::Length, 0.0, 60.0, "mm");
    /// Accepted contact times of a jaw.
    pub const CONTACT_TIME: Parameter =
        Parameter::new("jaw_contact_time", Dimension::Time, 0.0, 50.0, "ms");
}
