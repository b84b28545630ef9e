//! Things laid on the table: a box, a book, a bridge's foot.

use super::WorldError;
use super::surface::{Owner, Shape, Surface};
use crate::equipment::{OutOfRange, Parameter};
use crate::units::Dimension;
use crate::vector::Vec2;

/// A thing with upright sides that a ball bounces off, as a convex polygon in plan.
///
/// It stands still, and a ball meets it at the height of its centre (see [`planar`](crate::impact::planar)).
#[derive(Debug, Clone, PartialEq)]
pub struct Obstacle {
    /// Its name for people.
    pub name: String,
    /// Its corners in order, either way round, m.
    pub corners: Vec<Vec2>,
    /// Height over the cloth, m; only a cue over it asks.
    pub height_m: f64,
    /// Restitution of a ball against it.
    pub restitution: f64,
    /// Friction of a ball against it.
    pub friction: f64,
}

impl Obstacle {
    /// Accepted heights.
    pub const HEIGHT: Parameter = Parameter::new("height", Dimension::Length, 0.001, 2.0, "m");
    /// Accepted restitution.
    pub const RESTITUTION: Parameter =
        Parameter::new("restitution", Dimension::Ratio, 0.0, 1.0, "");
    /// Accepted friction.
    pub const FRICTION: Parameter = Parameter::new("friction", Dimension::Ratio, 0.0, 1.0, "");
    /// Height of a thing that nothing is known of, m: a little over a ball's. Chosen.
    pub const USUAL_HEIGHT_M: f64 = 0.06;
    /// Restitution of a thing that nothing is known of: a wooden box, order of magnitude.
    pub const USUAL_RESTITUTION: f64 = 0.5;
    /// Friction of a thing that nothing is known of.
    pub const USUAL_FRICTION: f64 = 0.2;
    /// Most corners of one obstacle.
    pub const MOST_CORNERS: usize = 64;
    /// Most obstacles on a table.
    pub const MOST: usize = 64;

    /// A rectangle of `length_m` along the direction `turned_rad` from the table's long side, and
    /// `width_m` across it.
    pub fn rectangle(
        name: &str,
        middle: Vec2,
        length_m: f64,
        width_m: f64,
        turned_rad: f64,
    ) -> Self {
        let along = Vec2::new(libm::cos(turned_rad), libm::sin(turned_rad)) * (0.5 * length_m);
        let across = Vec2::new(-libm::sin(turned_rad), libm::cos(turned_rad)) * (0.5 * width_m);
        Self {
            name: name.to_owned(),
            corners: vec![
                middle - along - across,
                middle + along - across,
                middle + along + across,
                middle - along + across,
            ],
            height_m: Self::USUAL_HEIGHT_M,
            restitution: Self::USUAL_RESTITUTION,
            friction: Self::USUAL_FRICTION,
        }
    }

    /// Its sides and corners; corners run anticlockwise.
    pub(super) fn surfaces(&self, index: usize) -> Result<Vec<Surface>, WorldError> {
        let corners = self.anticlockwise()?;
        let count = corners.len();
        let outward = |i: usize| {
            let side = corners[(i + 1) % count] - corners[i % count];
            Vec2::new(side.y, -side.x).unit_or_zero()
        };
        let owner = Owner::Obstacle(index);
        let mut surfaces = Vec::with_capacity(2 * count);
        for i in 0..count {
            let (from, to) = (corners[i], corners[(i + 1) % count]);
            surfaces
                .push(Surface { owner, shape: Shape::Straight { from, to, into: -outward(i) } });
            surfaces.push(Surface {
                owner,
                shape: Shape::Round {
                    centre: to,
                    radius_m: 0.0,
                    from: outward(i),
                    to: outward(i + 1),
                },
            });
        }
        Ok(surfaces)
    }

    /// The corners anticlockwise, after checking that they bound a convex thing.
    fn anticlockwise(&self) -> Result<Vec<Vec2>, WorldError> {
        let refuse = |why: &'static str| Err(WorldError::Obstacle { name: self.name.clone(), why });
        let count = self.corners.len();
        if !(3..=Self::MOST_CORNERS).contains(&count) {
            return refuse("it needs 3 to 64 corners");
        }
        if self.corners.iter().any(|corner| !corner.is_finite() || corner.norm() > 10.0) {
            return refuse("its corners must be numbers, at most 10 m from the table's centre");
        }
        let area = |corners: &[Vec2]| -> f64 {
            (0..count).map(|i| corners[i].cross(corners[(i + 1) % count])).sum()
        };
        let mut corners = self.corners.clone();
        if area(&corners) < 0.0 {
            corners.reverse();
        }
        let side = |i: usize| corners[(i + 1) % count] - corners[i % count];
        let sharp = (0..count).all(|i| {
            let (one, next) = (side(i), side(i + 1));
            one.norm() >= 1e-4 && one.cross(next) > 1e-9 * one.norm() * next.norm()
        });
        // A star that winds twice turns left at every corner too.
        let turns: f64 = (0..count)
            .map(|i| libm::atan2(side(i).cross(side(i + 1)), side(i).dot(side(i + 1))))
            .sum();
        if !sharp || turns > 7.0 {
            return refuse(
                "its corners must go round a convex shape with sides of at least 0.1 mm; lay several \
                 obstacles for a shape with a notch",
            );
        }
        Ok(corners)
    }

    pub(super) fn validated(&self) -> Result<(), OutOfRange> {
        Self::HEIGHT.check(self.height_m)?;
        Self::RESTITUTION.check(self.restitution)?;
        Self::FRICTION.check(self.friction)?;
        Ok(())
    }
}
