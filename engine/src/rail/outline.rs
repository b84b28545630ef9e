//! The table's outline in its own frame: where the grooves are, where the cushions leave off for
//! pockets, and the mouths.
//!
//! The cushions are the straight noses between mouth points. Every number is built from half
//! lengths by the same operations for both mirror images, so mirrored tables match to the bit.

use super::{GeometryError, Pocket, Rail};
use crate::equipment::Equipment;
use crate::vector::Vec2;

/// A table's outline. Table frame, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outline {
    /// Half the playing length, nose to nose.
    pub half_length_m: f64,
    /// Half the playing width, nose to nose.
    pub half_width_m: f64,
    /// Nose line to groove, R·cosθ.
    pub groove_m: f64,
    /// The length that a corner pocket takes off each of its two noses: the mouth over √2.
    pub corner_cut_m: f64,
    /// Half a side pocket's mouth.
    pub half_side_m: f64,
}

/// A stretch of a rail that a pocket takes away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// The rail.
    pub rail: Rail,
    /// One end: a mouth point.
    pub from: Vec2,
    /// The other end: a mouth point of a side pocket, the corner of the noses of a corner pocket.
    pub to: Vec2,
}

impl Outline {
    /// The outline of validated equipment.
    ///
    /// # Errors
    /// [`GeometryError::NoCushion`] when the pockets leave none on a rail.
    pub fn new(equipment: &Equipment) -> Result<Self, GeometryError> {
        let table = &equipment.table;
        let outline = Self {
            half_length_m: 0.5 * table.length_m,
            half_width_m: 0.5 * table.width_m,
            groove_m: equipment.groove_m(),
            corner_cut_m: table.corner_mouth_m * core::f64::consts::FRAC_1_SQRT_2,
            half_side_m: 0.5 * table.side_mouth_m,
        };
        if outline.half_length_m - outline.corner_cut_m - outline.half_side_m <= 0.0 {
            return Err(GeometryError::NoCushion { rail: Rail::Left });
        }
        if table.width_m - 2.0 * outline.corner_cut_m <= 0.0 {
            return Err(GeometryError::NoCushion { rail: Rail::Head });
        }
        Ok(outline)
    }

    /// Distance of a rail's groove from the table's centre.
    pub fn groove_offset_m(&self, rail: Rail) -> f64 {
        let half = if rail.is_end() { self.half_length_m } else { self.half_width_m };
        half - self.groove_m
    }

    /// The two mouth points of a pocket.
    pub fn mouth_points(&self, pocket: Pocket) -> [Vec2; 2] {
        let (sign_x, sign_y) = pocket.signs();
        if pocket.is_side() {
            let y = sign_y * self.half_width_m;
            [Vec2::new(-self.half_side_m, y), Vec2::new(self.half_side_m, y)]
        } else {
            [
                Vec2::new(
                    sign_x * (self.half_length_m - self.corner_cut_m),
                    sign_y * self.half_width_m,
                ),
                Vec2::new(
                    sign_x * self.half_length_m,
                    sign_y * (self.half_width_m - self.corner_cut_m),
                ),
            ]
        }
    }

    /// A pocket's mouth line as a normal out of the table (not of unit length) and the value of
    /// `normal`·p on it.
    pub fn mouth_line(&self, pocket: Pocket) -> (Vec2, f64) {
        let (sign_x, sign_y) = pocket.signs();
        let reach = if pocket.is_side() {
            self.half_width_m
        } else {
            self.half_length_m + self.half_width_m - self.corner_cut_m
        };
        (Vec2::new(sign_x, sign_y), reach)
    }

    /// The stretches of rail that a pocket takes away: one for a side pocket, two for a corner.
    pub fn gaps(&self, pocket: Pocket) -> impl Iterator<Item = Gap> + use<> {
        let (sign_x, sign_y) = pocket.signs();
        let corner = Vec2::new(sign_x * self.half_length_m, sign_y * self.half_width_m);
        let long_rail = if sign_y > 0.0 { Rail::Left } else { Rail::Right };
        let end_rail = if sign_x > 0.0 { Rail::Foot } else { Rail::Head };
        let [a, b] = self.mouth_points(pocket);
        let (first, second) = if pocket.is_side() {
            (Gap { rail: long_rail, from: a, to: b }, None)
        } else {
            (
                Gap { rail: long_rail, from: a, to: corner },
                Some(Gap { rail: end_rail, from: b, to: corner }),
            )
        };
        core::iter::once(first).chain(second)
    }
}

impl Rail {
    /// Unit vector from the table's middle into the rail, table frame.
    pub const fn outward(self) -> Vec2 {
        match self {
            Self::Head => Vec2::new(-1.0, 0.0),
            Self::Foot => Vec2::new(1.0, 0.0),
            Self::Left => Vec2::new(0.0, 1.0),
            Self::Right => Vec2::new(0.0, -1.0),
        }
    }
}
