//! The ways in which a stroke is solved for a line that the object ball is to go.

use super::hit::first_hit;
use super::{NoAim, Setup, aim_along, gear, overcut};
use crate::stroke::Stroke;
use crate::vector::Vec2;

/// What of a stroke is solved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sending {
    /// The aim: the object ball leaves along the line.
    Along,
    /// The side with which the balls do not rub, and the aim: the line of centres is the line.
    Gear,
    /// The aim: the object ball comes through the middle of the mouth, near the line.
    Overcut,
}

impl Sending {
    /// Every one, in the order in which they are listed.
    pub const ALL: [Self; 3] = [Self::Along, Self::Gear, Self::Overcut];

    /// The key in files and scripts.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Along => "send",
            Self::Gear => "gear",
            Self::Overcut => "overcut",
        }
    }

    /// The solved stroke, and the place of the cue ball as it hits.
    ///
    /// # Errors
    /// As [`aim_along`], [`gear`] and [`overcut`].
    pub fn solve(
        self,
        setup: &Setup<'_>,
        stroke: &Stroke,
        way: Vec2,
    ) -> Result<(Stroke, Option<Vec2>), NoAim> {
        let aim = match self {
            Self::Along => aim_along(setup, stroke, way)?,
            Self::Gear => gear(setup, stroke, way)?,
            Self::Overcut => {
                let stroke = overcut(setup, stroke, way)?.stroke;
                let hit = first_hit(setup, &stroke)?;
                return Ok((stroke, hit.map(|hit| hit.cue_before.position)));
            }
        };
        Ok((aim.stroke, Some(aim.hit.cue_before.position)))
    }
}
