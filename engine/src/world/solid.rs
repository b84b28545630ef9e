//! The surfaces as colliders of rapier2d, for queries, placements, and a rigid-body stepper.
//!
//! A shape grown by a reach is exact here too: a straight piece becomes a capsule, a round one a
//! disc (the whole circle of a jaw's point lies inside its rubber), and an obstacle a rounded
//! polygon.

use super::obstacle::Obstacle;
use super::surface::{Owner, Shape, Surface};
use crate::vector::Vec2;
use rapier2d::prelude::*;

/// A collider's shape and its owner.
#[derive(Clone)]
pub struct SolidShape {
    /// Whose it is.
    pub owner: Owner,
    /// Its shape.
    pub shape: SharedShape,
    /// Where it is.
    pub pose: Pose,
}

/// The world as colliders.
pub struct Solid {
    world: PhysicsWorld,
    shapes: Vec<SolidShape>,
}

impl core::fmt::Debug for Solid {
    fn fmt(&self, formatter: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        formatter.debug_struct("Solid").field("shapes", &self.shapes.len()).finish_non_exhaustive()
    }
}

fn point(vector: Vec2) -> Vector {
    Vector::new(vector.x, vector.y)
}

impl Solid {
    /// The colliders, each grown by the reach that its owner is given.
    pub(super) fn new(
        surfaces: &[Surface],
        obstacles: &[Obstacle],
        reach_m: impl Fn(Owner) -> f64,
    ) -> Self {
        let mut shapes: Vec<SolidShape> = surfaces
            .iter()
            .filter(|surface| !matches!(surface.owner, Owner::Obstacle(_)))
            .map(|surface| collider(surface, reach_m(surface.owner)))
            .collect();
        for (index, obstacle) in obstacles.iter().enumerate() {
            let owner = Owner::Obstacle(index);
            let corners: Vec<Vector> = obstacle.corners.iter().map(|it| point(*it)).collect();
            let reach = reach_m(owner);
            let shape = if reach > 0.0 {
                SharedShape::round_convex_hull(&corners, reach)
            } else {
                SharedShape::convex_hull(&corners)
            };
            // The builder has checked that the corners bound a convex thing.
            if let Some(shape) = shape {
                shapes.push(SolidShape { owner, shape, pose: Pose::IDENTITY });
            }
        }
        let mut world = PhysicsWorld::new();
        world.gravity = Vector::ZERO;
        for (index, solid) in shapes.iter().enumerate() {
            let collider = ColliderBuilder::new(solid.shape.clone())
                .position(solid.pose)
                .user_data(index as u128);
            world.insert_collider(collider, None);
        }
        world.detect_collisions(&(), &());
        Self { world, shapes }
    }

    /// The colliders' shapes.
    pub fn shapes(&self) -> &[SolidShape] {
        &self.shapes
    }

    /// Whose boxes meet the box between two corners, in no particular order: nothing that reaches
    /// into it is left out.
    pub fn near(&self, low: Vec2, high: Vec2) -> Vec<Owner> {
        let aabb = rapier2d::parry::bounding_volume::Aabb::new(point(low), point(high));
        let query = self.world.query_pipeline();
        let found = query.intersect_aabb_conservative(aabb);
        found.filter_map(|(_, collider)| self.owner_of(collider)).collect()
    }

    /// The first thing that a straight line from `from` along the unit vector `direction` meets within
    /// `longest_m`, and the distance to it, m.
    pub fn cast(&self, from: Vec2, direction: Vec2, longest_m: f64) -> Option<(Owner, f64)> {
        let query = self.world.query_pipeline();
        let ray = Ray::new(point(from), point(direction));
        let (handle, distance) = query.cast_ray(&ray, longest_m, false)?;
        Some((self.owner_of(&self.world.colliders[handle])?, distance))
    }

    /// Whose surfaces a disc about `centre` overlaps or touches.
    pub fn overlapped_by(&self, centre: Vec2, radius_m: f64) -> Vec<Owner> {
        let disc = rapier2d::parry::shape::Ball::new(radius_m);
        let query = self.world.query_pipeline();
        let found = query.intersect_shape(Pose::from_translation(point(centre)), &disc);
        found.filter_map(|(_, collider)| self.owner_of(collider)).collect()
    }

    fn owner_of(&self, collider: &Collider) -> Option<Owner> {
        let index = usize::try_from(collider.user_data).ok()?;
        self.shapes.get(index).map(|shape| shape.owner)
    }

    /// True when two convex polygons have a point in common.
    pub(super) fn polygons_meet(one: &[Vec2], other: &[Vec2]) -> bool {
        let hull = |corners: &[Vec2]| {
            SharedShape::convex_hull(&corners.iter().map(|it| point(*it)).collect::<Vec<_>>())
        };
        let (Some(one), Some(other)) = (hull(one), hull(other)) else { return false };
        rapier2d::parry::query::intersection_test(
            &Pose::IDENTITY,
            one.as_ref(),
            &Pose::IDENTITY,
            other.as_ref(),
        )
        .is_ok_and(|found| found.intersecting)
    }
}

fn collider(surface: &Surface, reach_m: f64) -> SolidShape {
    let owner = surface.owner;
    match surface.shape {
        Shape::Straight { from, to, .. } => {
            let shape = if reach_m > 0.0 {
                SharedShape::capsule(point(from), point(to), reach_m)
            } else {
                SharedShape::segment(point(from), point(to))
            };
            SolidShape { owner, shape, pose: Pose::IDENTITY }
        }
        Shape::Round { centre, radius_m, .. } => SolidShape {
            owner,
            shape: SharedShape::ball(radius_m + reach_m),
            pose: Pose::from_translation(point(centre)),
        },
    }
}
