//! Filmed impacts as a member's rail plays them.

use super::FilmedImpact;
use crate::ensemble::{Member, MemberNumber};
use crate::equipment::{Equipment, RailModel};
use crate::impact::{Bounce, CushionContact, Rebound, bounce_many};
use crate::vector::{Vec2, Vec3};

/// Causes along which an impact has slopes: speed and angle before, roll, side.
pub(super) const CAUSES: usize = 4;

/// The plays of one film: as it was seen to come, then either side of each cause.
pub(super) const PLAYS: usize = 2 * CAUSES + 1;

/// A ball that rolls at the rail was sent at between its speed there and 7/5 of it, which a slide from no roll takes:
/// the middle.
const SENT_OF_ROLLING: f64 = 1.2;
/// Of its speed at the rail, what sliding took at most of a ball that was sent without roll: then it rolls.
const MOST_LOST_SLIDING: f64 = 0.4;

/// What a member's table and player make of a ball before the rail, and the rail of it.
pub(super) struct MemberRail {
    contact: CushionContact,
    model: RailModel,
    /// Slowing of a ball that slides and of one that rolls, m/s².
    slides_m_s2: f64,
    rolls_m_s2: f64,
    pivot_rad_s2: f64,
    side_bias: f64,
    pub(super) contact_time_s: f64,
}

/// How a ball may have come to the rail.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum FilmedRoll {
    /// Sent without roll: it slid, or began to roll on the way where that was long enough.
    Unrolled,
    /// Sent with some roll: it slid and has this much at the rail.
    AtRail(f64),
    /// It rolled all the way.
    Rolls,
}

impl MemberRail {
    pub(super) fn new(table: &Equipment, model: RailModel, member: &Member) -> Self {
        let equipment = member.equipment(table);
        let slows = |by: f64| by * equipment.gravity_m_s2;
        Self {
            contact: CushionContact::new(&equipment),
            model,
            slides_m_s2: slows(equipment.cloth.sliding_friction),
            rolls_m_s2: slows(equipment.cloth.rolling_resistance),
            pivot_rad_s2: equipment.cloth.pivot_deceleration_rad_s2,
            side_bias: member.value(MemberNumber::SideBias),
            contact_time_s: equipment.cushion.contact_time_s,
        }
    }

    /// The mean slowing before the rail, m/s², and its variance. Where a ball that was sent without roll began to roll
    /// a film has either slowing, or something between.
    pub(super) fn slowing(&self, film: &FilmedImpact, roll: FilmedRoll) -> (f64, f64) {
        match roll {
            FilmedRoll::Unrolled => {
                let lost = self.slides_m_s2 * film.run_s;
                let slid =
                    (MOST_LOST_SLIDING * film.told[0] / lost.max(f64::MIN_POSITIVE)).min(1.0);
                let apart = self.slides_m_s2 - self.rolls_m_s2;
                (self.rolls_m_s2 + slid * apart, slid * (1.0 - slid) * apart * apart)
            }
            FilmedRoll::AtRail(_) => (self.slides_m_s2, 0.0),
            FilmedRoll::Rolls => (self.rolls_m_s2, 0.0),
        }
    }

    /// The ball at the rail when it was seen to come so, sent with this much more of each cause.
    fn before(&self, film: &FilmedImpact, roll: FilmedRoll, more: [f64; CAUSES]) -> Bounce {
        let (speed, angle) = (film.told[0] + more[0], film.told[1] + more[1]);
        let lost = (self.slides_m_s2 * film.run_s).min(MOST_LOST_SLIDING * speed);
        let (roll, sent) = match roll {
            FilmedRoll::Unrolled => {
                // Sliding adds 5/2 of the speed that it takes (Coriolis 1835).
                let sent = speed + lost;
                (((more[2] * sent + 2.5 * lost) / speed).min(1.0), sent)
            }
            FilmedRoll::AtRail(roll) => (roll + more[2], SENT_OF_ROLLING * speed),
            FilmedRoll::Rolls => (1.0 + more[2], SENT_OF_ROLLING * speed),
        };
        let right = if film.is_to_the_right { 1.0 } else { -1.0 };
        let radius_m = self.contact.radius_m;
        let side = (right * self.side_bias + more[3]) * sent / radius_m;
        let left = (side.abs() - self.pivot_rad_s2 * film.run_s).max(0.0);
        let velocity = Vec2::new(speed * libm::sin(angle), speed * libm::cos(angle));
        let spin = Vec3::new(
            -velocity.y * roll / radius_m,
            velocity.x * roll / radius_m,
            left.copysign(side),
        );
        Bounce { velocity, spin }
    }

    /// Speed, m/s, and angle, rad, after the rail, for each of these films and rolls: as it was seen to come, and with a
    /// deviation less, then more, of each cause. All share the lanes.
    pub(super) fn after<'a>(
        &self,
        balls: impl Iterator<Item = (&'a FilmedImpact, FilmedRoll, [f64; CAUSES])>,
    ) -> Vec<[f64; 2]> {
        let before: Vec<Bounce> = balls
            .flat_map(|(film, roll, sd)| {
                core::array::from_fn::<_, PLAYS, _>(|play| {
                    let mut more = [0.0; CAUSES];
                    if let Some(at) = play.checked_sub(1) {
                        more[at / 2] = if at % 2 == 0 { -sd[at / 2] } else { sd[at / 2] };
                    }
                    self.before(film, roll, more)
                })
            })
            .collect();
        let mut after = vec![NOTHING; before.len()];
        bounce_many(self.model, &self.contact, &before, &mut after);
        let told = |it: &Rebound| [it.velocity.norm(), libm::atan2(it.velocity.x, -it.velocity.y)];
        after.iter().map(told).collect()
    }
}

const NOTHING: Rebound = Rebound {
    velocity: Vec2::ZERO,
    spin: Vec3::ZERO,
    restitution: 0.0,
    outside_checked_speed: false,
    hop: false,
};
