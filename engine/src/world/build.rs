//! The one builder: from equipment and obstacles to surfaces.

use super::centre_boundaries::CentreBoundaries;
use super::error::WorldError;
use super::jaws::{PocketWorld, noses, rounding_m};
use super::obstacle::Obstacle;
use super::solid::Solid;
use super::surface::{Owner, Shape, Surface};
use crate::equipment::Equipment;
use crate::rail::{Outline, Pocket, Rail};
use crate::vector::Vec2;

/// A table with what lies on it.
pub struct World {
    equipment: Equipment,
    outline: Outline,
    noses: [Surface; 6],
    pockets: [PocketWorld; 6],
    obstacles: Vec<Obstacle>,
    obstacle_surfaces: Vec<Surface>,
    grown: CentreBoundaries,
    solid: Solid,
}

impl core::fmt::Debug for World {
    fn fmt(&self, formatter: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let obstacles: Vec<&str> = self.obstacles.iter().map(|it| it.name.as_str()).collect();
        formatter
            .debug_struct("World")
            .field("equipment", &self.equipment.name)
            .field("obstacles", &obstacles)
            .finish_non_exhaustive()
    }
}

impl World {
    /// Builds the world of validated equipment.
    ///
    /// # Errors
    /// [`WorldError`] for pockets that can't be, and for obstacles that are no convex things, lie
    /// over a pocket or off the table.
    pub fn new(equipment: &Equipment, obstacles: &[Obstacle]) -> Result<Self, WorldError> {
        let outline = Outline::new(equipment)?;
        let noses = straight_noses(equipment, &outline)?;
        let built = Pocket::ALL.map(|pocket| PocketWorld::new(equipment, &outline, pocket));
        let [a, b, c, d, e, f] = built;
        let pockets = [a?, b?, c?, d?, e?, f?];
        let count = obstacles.len();
        if count > Obstacle::MOST {
            return Err(WorldError::TooManyObstacles { count, most: Obstacle::MOST });
        }
        let mut obstacle_surfaces = Vec::new();
        for (index, obstacle) in obstacles.iter().enumerate() {
            let name = || obstacle.name.clone();
            obstacle
                .validated()
                .map_err(|error| WorldError::ObstacleValue { name: name(), error })?;
            let surfaces = obstacle.surfaces(index)?;
            let area = [
                Vec2::new(-outline.half_length_m, -outline.half_width_m),
                Vec2::new(outline.half_length_m, -outline.half_width_m),
                Vec2::new(outline.half_length_m, outline.half_width_m),
                Vec2::new(-outline.half_length_m, outline.half_width_m),
            ];
            if !Solid::polygons_meet(&obstacle.corners, &area) {
                return Err(WorldError::Obstacle { name: name(), why: "it lies off the table" });
            }
            let over = pockets
                .iter()
                .find(|pocket| Solid::polygons_meet(&obstacle.corners, &opening(&outline, pocket)));
            if let Some(pocket) = over {
                return Err(WorldError::OverPocket { name: name(), pocket: pocket.pocket });
            }
            obstacle_surfaces.extend(surfaces);
        }
        let grown = CentreBoundaries::new(
            &outline,
            &noses,
            &pockets,
            &obstacle_surfaces,
            equipment.groove_m(),
            equipment.ball.radius_m(),
        );
        let surfaces: Vec<Surface> = all(&noses, &pockets, &obstacle_surfaces).collect();
        let solid = Solid::new(&surfaces, obstacles, |_| 0.0);
        Ok(Self {
            equipment: equipment.clone(),
            outline,
            noses,
            pockets,
            obstacles: obstacles.to_vec(),
            obstacle_surfaces,
            grown,
            solid,
        })
    }

    /// Contact time of the surface's owner with a ball that meets it, s; 0 is an impulse.
    pub fn contact_time_s(&self, owner: Owner) -> f64 {
        match owner {
            Owner::Nose(_) => self.equipment.cushion.contact_time_s,
            Owner::Jaw { .. } => self.equipment.table.jaws.contact_time_s,
            Owner::Obstacle(_) => 0.0,
        }
    }

    /// The equipment that it was built from.
    pub fn equipment(&self) -> &Equipment {
        &self.equipment
    }

    /// Where noses and mouths stand.
    pub fn outline(&self) -> &Outline {
        &self.outline
    }

    /// The pockets, in [`Pocket::ALL`]'s order.
    pub fn pockets(&self) -> &[PocketWorld; 6] {
        &self.pockets
    }

    /// A pocket.
    pub fn pocket(&self, pocket: Pocket) -> &PocketWorld {
        // Pocket::ALL names each pocket once and `pockets` follows it.
        let index = Pocket::ALL.iter().position(|it| *it == pocket).unwrap_or_default();
        &self.pockets[index]
    }

    /// The things laid on the table.
    pub fn obstacles(&self) -> &[Obstacle] {
        &self.obstacles
    }

    /// Every surface: noses, jaws, obstacles.
    pub fn surfaces(&self) -> impl Iterator<Item = Surface> + '_ {
        all(&self.noses, &self.pockets, &self.obstacle_surfaces)
    }

    /// The world for the centre of the equipment's own ball.
    pub fn grown(&self) -> &CentreBoundaries {
        &self.grown
    }

    /// The world for the centre of a ball that touches noses `groove_m` and upright things
    /// `radius_m` from its centre.
    pub fn grown_for(&self, groove_m: f64, radius_m: f64) -> CentreBoundaries {
        CentreBoundaries::new(
            &self.outline,
            &self.noses,
            &self.pockets,
            &self.obstacle_surfaces,
            groove_m,
            radius_m,
        )
    }

    /// The surfaces as colliders of a rigid-body world.
    pub fn solid(&self) -> &Solid {
        &self.solid
    }

    /// The colliders of the world grown for a ball: a ray cast in it tells where a ball on a straight
    /// path touches first.
    pub fn solid_for(&self, groove_m: f64, radius_m: f64) -> Solid {
        let surfaces: Vec<Surface> = self.surfaces().collect();
        Solid::new(&surfaces, &self.obstacles, |owner| match owner {
            Owner::Nose(_) | Owner::Jaw { .. } => groove_m,
            Owner::Obstacle(_) => radius_m,
        })
    }
}

fn all<'a>(
    noses: &'a [Surface; 6],
    pockets: &'a [PocketWorld; 6],
    obstacles: &'a [Surface],
) -> impl Iterator<Item = Surface> + 'a {
    let jaws = pockets.iter().flat_map(|pocket| pocket.jaws.iter());
    noses.iter().chain(jaws).chain(obstacles).copied()
}

/// A pocket's opening in plan: between its points and its drop line.
fn opening(outline: &Outline, pocket: &PocketWorld) -> [Vec2; 4] {
    let [a, b] = outline.mouth_points(pocket.pocket);
    let across = (b - a).unit_or_zero() * pocket.drop.half_width_m;
    let deep = if pocket.drop.middle == (a + b) * 0.5 {
        pocket.drop.middle + pocket.drop.normal * 1e-3
    } else {
        pocket.drop.middle
    };
    [a, b, deep + across, deep - across]
}

/// The six straight noses, from where one point's rounding ends to where the next begins.
fn straight_noses(equipment: &Equipment, outline: &Outline) -> Result<[Surface; 6], WorldError> {
    let built = noses().map(|(rail, from, to)| {
        let into = rail.outward();
        let end = |pocket: Pocket, other: Pocket| {
            let vertex = vertex_on(outline, rail, pocket, other);
            let towards = (vertex_on(outline, rail, other, pocket) - vertex).unit_or_zero();
            vertex + towards * rounding_m(equipment, pocket)
        };
        let (from, to) = (end(from, to), end(to, from));
        if !runs_upwards(rail, from, to) {
            return Err(WorldError::NoNose { rail });
        }
        Ok(Surface { owner: Owner::Nose(rail), shape: Shape::Straight { from, to, into } })
    });
    let [a, b, c, d, e, f] = built;
    Ok([a?, b?, c?, d?, e?, f?])
}

/// True when a nose still runs from low to high coordinates.
fn runs_upwards(rail: Rail, from: Vec2, to: Vec2) -> bool {
    if rail.is_end() { from.y < to.y } else { from.x < to.x }
}

/// The mouth point of `pocket` that ends the nose between it and `other` on this rail.
fn vertex_on(outline: &Outline, rail: Rail, pocket: Pocket, other: Pocket) -> Vec2 {
    let [a, b] = outline.mouth_points(pocket);
    if !pocket.is_side() {
        return if rail.is_end() { b } else { a };
    }
    // A side pocket's first point is nearer the head.
    if other.signs().0 < 0.0 { a } else { b }
}
