//! The rebound from the cushion.

use super::lane::{BLOCK, Column, Mask, select};
use super::table::LaneTable;
use super::to_rail::BlockBalls;
use crate::equipment::RailModel;
use crate::impact::{Bounce, Rebound, bounce_many};
use crate::vector::{Vec2, Vec3};

/// Rebounds of a block.
pub(super) struct Rebounds {
    pub(super) vx: Column,
    pub(super) vy: Column,
    pub(super) wx: Column,
    pub(super) wy: Column,
    pub(super) wz: Column,
    pub(super) restitution: Column,
    pub(super) outside_checked_speed: Mask,
    pub(super) hop: Mask,
}

impl Rebounds {
    pub(super) const NONE: Self = Self {
        vx: [0.0; BLOCK],
        vy: [0.0; BLOCK],
        wx: [0.0; BLOCK],
        wy: [0.0; BLOCK],
        wz: [0.0; BLOCK],
        restitution: [0.0; BLOCK],
        outside_checked_speed: [false; BLOCK],
        hop: [false; BLOCK],
    };
}

/// Bounces all balls. One that is not on its way into the cushion is not usual.
#[inline(always)]
pub(super) fn rebound(table: &LaneTable, balls: &mut BlockBalls, rebounds: &mut Rebounds) {
    for i in 0..BLOCK {
        balls.usual[i] &= balls.vy[i] > 0.0;
    }
    match table.model {
        RailModel::NoseAndCloth => gathered(table, balls, rebounds),
        RailModel::NoseOnly => nose_only(table, balls, rebounds),
        RailModel::Planar | RailModel::Compliant => planar(table, balls, rebounds),
    }
}

#[inline(always)]
fn restitution(table: &LaneTable, normal_speed: f64) -> f64 {
    let contact = &table.contact;
    let falling = contact.restitution - contact.restitution_loss_s_m * normal_speed;
    select(falling > contact.restitution_floor, falling, contact.restitution_floor)
}

/// The numbers of [`planar`](crate::impact::planar) for balls on their way in.
#[inline(always)]
fn planar(table: &LaneTable, balls: &BlockBalls, rebounds: &mut Rebounds) {
    let contact = &table.contact;
    let radius = contact.radius_m;
    for i in 0..BLOCK {
        let (vx, vy, wz) = (balls.vx[i], balls.vy[i], balls.wz[i]);
        let restitution = restitution(table, vy);
        let normal_impulse = (1.0 + restitution) * vy;
        let slip = vx - radius * wz;
        let (most, needed) = (contact.nose_friction * normal_impulse, 2.0 / 7.0 * slip.abs());
        let impulse = select(most < needed, most, needed);
        let signed = select(slip > 0.0, -impulse, impulse);
        rebounds.vx[i] = vx + signed;
        rebounds.vy[i] = -restitution * vy;
        rebounds.wx[i] = balls.wx[i];
        rebounds.wy[i] = balls.wy[i];
        rebounds.wz[i] = wz - 2.5 * signed / radius;
        rebounds.restitution[i] = restitution;
        rebounds.outside_checked_speed[i] = vy > contact.checked_speed_m_s;
        rebounds.hop[i] = false;
    }
}

/// The numbers of [`nose_only`](crate::impact::nose_only) for balls on their way in.
#[inline(always)]
fn nose_only(table: &LaneTable, balls: &BlockBalls, rebounds: &mut Rebounds) {
    let contact = &table.contact;
    let (sin, cos, radius) = (contact.sin_theta, contact.cos_theta, contact.radius_m);
    let per_radius = 2.5 / radius;
    for i in 0..BLOCK {
        let (vx, vy) = (balls.vx[i], balls.vy[i]);
        let (wx, wy, wz) = (balls.wx[i], balls.wy[i], balls.wz[i]);
        let restitution = restitution(table, vy);
        let normal_impulse = (1.0 + restitution) * vy * cos;
        let slip_x = vx + radius * (wy * sin - wz * cos);
        let slip_up = -vy * sin + radius * wx;
        let slip = (slip_x * slip_x + slip_up * slip_up).sqrt();
        let (most, needed) = (contact.nose_friction * normal_impulse, 2.0 / 7.0 * slip);
        let friction = select(most < needed, most, needed);
        let slips = slip > 0.0;
        let along = select(slips, -friction * slip_x / slip, 0.0);
        let up = select(slips, -friction * slip_up / slip, 0.0);
        let back = vy - normal_impulse * cos - up * sin;
        rebounds.vx[i] = vx + along;
        rebounds.vy[i] = select(back < 0.0, back, 0.0);
        rebounds.wx[i] = wx + per_radius * up;
        rebounds.wy[i] = wy + per_radius * along * sin;
        rebounds.wz[i] = wz - per_radius * along * cos;
        rebounds.restitution[i] = restitution;
        rebounds.outside_checked_speed[i] = vy > contact.checked_speed_m_s;
        rebounds.hop[i] = false;
    }
}

/// Integrates the impacts of the usual balls, close together.
#[inline(always)]
fn gathered(table: &LaneTable, balls: &BlockBalls, rebounds: &mut Rebounds) {
    let still = Bounce { velocity: Vec2::ZERO, spin: Vec3::ZERO };
    let (mut bounces, mut origin, mut count) = ([still; BLOCK], [0_usize; BLOCK], 0);
    for i in 0..BLOCK {
        if balls.usual[i] {
            bounces[count] = Bounce {
                velocity: Vec2::new(balls.vx[i], balls.vy[i]),
                spin: Vec3::new(balls.wx[i], balls.wy[i], balls.wz[i]),
            };
            origin[count] = i;
            count += 1;
        }
    }
    let nothing = Rebound {
        velocity: Vec2::ZERO,
        spin: Vec3::ZERO,
        restitution: 0.0,
        outside_checked_speed: false,
        hop: false,
    };
    let mut off = [nothing; BLOCK];
    bounce_many(table.model, &table.contact, &bounces[..count], &mut off[..count]);
    for (rebound, &i) in off[..count].iter().zip(&origin[..count]) {
        rebounds.vx[i] = rebound.velocity.x;
        rebounds.vy[i] = rebound.velocity.y;
        rebounds.wx[i] = rebound.spin.x;
        rebounds.wy[i] = rebound.spin.y;
        rebounds.wz[i] = rebound.spin.z;
        rebounds.restitution[i] = rebound.restitution;
        rebounds.outside_checked_speed[i] = rebound.outside_checked_speed;
        rebounds.hop[i] = rebound.hop;
    }
}
