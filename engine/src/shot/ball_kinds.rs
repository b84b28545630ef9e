//! The things that balls of one size share: the world grown for them, and the action of cushions and cloth
//! on them.

use super::ShotBall;
use super::response::SurfaceResponse;
use super::start::groove_m;
use crate::equipment::{Ball, Equipment, RailModel};
use crate::impact::CushionContact;
use crate::motion::ClothMotion;
use crate::world::{CentreBoundaries, Obstacle, Owner, World};
use std::borrow::Cow;

/// Things that balls of one size share.
pub(super) struct BallKind<'w> {
    grown: Cow<'w, CentreBoundaries>,
    pub(super) contact: CushionContact,
    pub(super) cloth: ClothMotion,
}

impl BallKind<'_> {
    pub(super) fn grown(&self) -> &CentreBoundaries {
        &self.grown
    }

    /// The answer of a solid thing to such a ball.
    pub(super) fn answer_of(
        &self,
        world: &World,
        model: RailModel,
        owner: Owner,
    ) -> SurfaceResponse {
        match owner {
            Owner::Obstacle(index) => {
                let Obstacle { restitution, friction, .. } = world.obstacles()[index];
                let contact = upright(&self.contact, restitution, friction);
                SurfaceResponse { model: RailModel::Planar, contact, lasts_s: 0.0 }
            }
            Owner::Nose(_) | Owner::Jaw { .. } => SurfaceResponse {
                model,
                contact: self.contact,
                lasts_s: world.contact_time_s(owner),
            },
        }
    }
}

/// The contact of a ball with an upright thing of its own restitution and friction.
fn upright(of_ball: &CushionContact, restitution: f64, friction: f64) -> CushionContact {
    CushionContact {
        sin_theta: 0.0,
        cos_theta: 1.0,
        nose_friction: friction,
        restitution,
        restitution_loss_s_m: 0.0,
        restitution_floor: 0.0,
        checked_speed_m_s: f64::INFINITY,
        ..*of_ball
    }
}

/// The sizes of the balls, and which ball has which.
pub(super) struct Kinds<'w> {
    pub(super) kinds: Vec<BallKind<'w>>,
    pub(super) of_ball: Vec<usize>,
}

impl<'w> Kinds<'w> {
    pub(super) fn new(world: &'w World, balls: &[ShotBall]) -> Self {
        let equipment = world.equipment();
        let mut diameters: Vec<f64> = Vec::with_capacity(1);
        let mut kinds = Vec::with_capacity(1);
        let mut of_ball = Vec::with_capacity(balls.len());
        for ShotBall { ball, .. } in balls {
            let known = diameters.iter().position(|diameter| *diameter == ball.diameter_m);
            of_ball.push(known.unwrap_or_else(|| {
                diameters.push(ball.diameter_m);
                kinds.push(BallKind::new(world, equipment, ball));
                kinds.len() - 1
            }));
        }
        Self { kinds, of_ball }
    }
}

impl<'w> BallKind<'w> {
    fn new(world: &'w World, equipment: &Equipment, ball: &Ball) -> Self {
        let usual = ball.diameter_m == equipment.ball.diameter_m;
        let radius_m = ball.radius_m();
        let mut contact = CushionContact::new(equipment);
        let mut cloth = ClothMotion::new(equipment);
        if !usual {
            let sin_theta = (equipment.cushion.nose_height_m - radius_m) / radius_m;
            contact.radius_m = radius_m;
            contact.sin_theta = sin_theta;
            contact.cos_theta = (1.0 - sin_theta * sin_theta).sqrt();
            cloth.radius_m = radius_m;
        }
        let grown = if usual {
            Cow::Borrowed(world.grown())
        } else {
            Cow::Owned(world.grown_for(groove_m(equipment, ball), radius_m))
        };
        Self { grown, contact, cloth }
    }
}
