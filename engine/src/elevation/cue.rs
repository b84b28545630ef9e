//! The cue behind a ball, and places seen from it.

use crate::equipment::Ball;
use crate::stroke::Stroke;
use crate::vector::Vec2;
use crate::world::World;

/// The cue behind a ball, at any elevation.
#[derive(Debug, Clone, Copy)]
pub(super) struct CueLine {
    from: Vec2,
    back: Vec2,
    right: Vec2,
    /// The struck ball's radius, m.
    pub radius_m: f64,
    /// Tip right of and above the ball's centre, and behind it, m.
    right_m: f64,
    above_m: f64,
    behind_m: f64,
    tip_m: f64,
    butt_m: f64,
    /// The cue's length, m.
    pub length_m: f64,
}

/// A point from the struck ball's centre: backwards along the cue's plan, right of the cue, up, m.
#[derive(Debug, Clone, Copy)]
pub(super) struct CuePoint {
    pub s: f64,
    pub y: f64,
    pub z: f64,
}

impl CueLine {
    pub fn new(world: &World, ball: &Ball, from: Vec2, stroke: &Stroke) -> Self {
        let (sin, cos) = libm::sincos(stroke.aim_rad);
        let radius_m = ball.radius_m();
        let cue = &world.equipment().cue;
        let offset = stroke.offset();
        Self {
            from,
            back: Vec2::new(-cos, -sin),
            right: Vec2::new(sin, -cos),
            radius_m,
            right_m: radius_m * stroke.side_offset,
            above_m: radius_m * stroke.height_offset,
            behind_m: radius_m * (1.0 - offset * offset).max(0.0).sqrt(),
            tip_m: 0.5 * cue.shape.tip_diameter_m,
            butt_m: 0.5 * cue.shape.butt_diameter_m,
            length_m: cue.shape.length_m,
        }
    }

    /// A point over the table, `height_m` over the cloth.
    pub fn place(&self, at: Vec2, height_m: f64) -> CuePoint {
        let apart = at - self.from;
        CuePoint {
            s: apart.dot(self.back),
            y: apart.dot(self.right) - self.right_m,
            z: height_m - self.radius_m,
        }
    }

    /// The height of a point over the cloth, m.
    pub fn height_over_cloth_m(&self, at: CuePoint) -> f64 {
        at.z + self.radius_m
    }

    /// The place over the table, m, and the height over the cloth, m, of the point on the butt's rim that
    /// is lowest over a slope that rises by `tilt`.
    pub fn rim_over(&self, tilt: Vec2, (sin, cos): (f64, f64)) -> (Vec2, f64) {
        let from_ball = self.behind_m + self.length_m;
        let middle = self.from
            + self.back * (from_ball * cos - self.above_m * sin)
            + self.right * self.right_m;
        let middle_m = self.radius_m + from_ball * sin + self.above_m * cos;
        // The rim is spanned by the player's right and by what stands square to the cue.
        let (right, up) = (-tilt.dot(self.right), cos + sin * tilt.dot(self.back));
        let radius = self.butt_m / libm::hypot(right, up);
        let (right, up) = (-radius * right, -radius * up);
        (middle + self.right * right - self.back * (up * sin), middle_m + up * cos)
    }

    /// Half the cue's greatest width, m.
    pub fn half_width_m(&self) -> f64 {
        self.tip_m.max(self.butt_m)
    }

    /// The distance of the axis above a point, square to the axis, and the distance along the axis from the
    /// tip to the point's foot, m.
    pub fn over(&self, at: CuePoint, (sin, cos): (f64, f64)) -> (f64, f64) {
        let above = self.above_m + at.s * sin - at.z * cos;
        (above, at.s * cos + at.z * sin - self.behind_m)
    }

    /// The cue's radius so far from its tip, m.
    pub fn radius_at(&self, from_tip_m: f64) -> f64 {
        let share = (from_tip_m / self.length_m).clamp(0.0, 1.0);
        self.tip_m + (self.butt_m - self.tip_m) * share
    }

    /// Room over the cloth at the tip and at the butt, the smaller, m.
    pub fn over_cloth(&self, (sin, cos): (f64, f64)) -> f64 {
        let height = |from_tip_m: f64, radius_m: f64| {
            self.radius_m + self.above_m * cos + (self.behind_m + from_tip_m) * sin - radius_m * cos
        };
        height(0.0, self.tip_m).min(height(self.length_m, self.butt_m))
    }
}
