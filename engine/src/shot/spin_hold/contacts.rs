//! The things that a ball touches.

use super::holders::HELD_BELOW_M_S;
use crate::motion::{BallState, ClothMotion, Path};
use crate::vector::Vec2;
use crate::world::{Boundary, CentreBoundaries, Meeting};
use core::ops::Deref;
use smallvec::SmallVec;

/// A ball that moves more slowly than this share of its speed into or off a surface moves along it.
const ALONG: f64 = 1e-14;
/// As [`ALONG`] for a ball that touches several surfaces, m/s: what one takes, rounding gives another.
pub(super) const ALONG_SEVERAL_M_S: f64 = 1e-12;
/// And as this share of its speed: more than a ball that is let go of one surface leaves it by.
const ALONG_SEVERAL: f64 = 4e-12;
/// A boundary whose end is nearer than this ahead is left, m.
const LEAST_AHEAD_M: f64 = 1e-12;

/// Boundaries that a ball touches as its leg begins and does not meet then.
#[derive(Debug, Default)]
pub(in super::super) struct PassedBoundaries<'w> {
    /// Not met on all of the leg.
    never: SmallVec<[&'w Boundary; 4]>,
    /// Not met at once, but perhaps when the ball comes back.
    pub(super) at_first: SmallVec<[&'w Boundary; 4]>,
}

/// After this time a round boundary has bent away from under a ball, s.
const BENT_AWAY_S: f64 = 1e-6;

impl<'w> PassedBoundaries<'w> {
    /// All of them.
    pub fn all(&self) -> SmallVec<[&'w Boundary; 4]> {
        self.never.iter().chain(&self.at_first).copied().collect()
    }

    /// The first thing met: `met`, or one of these when the ball comes back to it before.
    pub fn first_with_returns(
        &self,
        met: Option<(f64, Meeting)>,
        path: &Path,
        cloth: ClothMotion,
    ) -> Option<(f64, Meeting)> {
        let mut first = met;
        for boundary in &self.at_first {
            let later = Path::new(path.state_at(BENT_AWAY_S), cloth);
            if let Some(time_s) = boundary.first_contact(&later)
                && first.is_none_or(|(sooner_s, _)| BENT_AWAY_S + time_s < sooner_s)
            {
                first = Some((BENT_AWAY_S + time_s, Meeting::Touch(**boundary)));
            }
        }
        first
    }
}

/// A surface that a ball touches.
#[derive(Debug, Clone, Copy)]
pub(super) struct SurfaceContact<'w> {
    pub(super) boundary: &'w Boundary,
    /// Unit vector into the surface.
    pub(super) normal: Vec2,
    /// The centre of the ball.
    centre: Vec2,
}

/// The surfaces that a ball touches, to within rounding.
#[derive(Debug)]
pub(super) struct TouchedSurfaces<'w>(SmallVec<[SurfaceContact<'w>; 4]>);

impl<'w> TouchedSurfaces<'w> {
    /// The surfaces that a ball touches whose centre is there.
    pub(super) fn at(grown: &'w CentreBoundaries, centre: Vec2) -> Self {
        let contacts = grown.touched(centre).map(|boundary| SurfaceContact {
            boundary,
            normal: boundary.normal_at(centre),
            centre,
        });
        Self(contacts.collect())
    }

    /// True when there are two or more.
    pub(super) fn several(&self) -> bool {
        self.0.len() > 1
    }

    /// Those that the ball neither goes into nor comes off, and that it does not leave at their end,
    /// with their places in the list. `drive` is the cloth's acceleration. A ball that touches several
    /// may come off one slowly: it is still there if the cloth drives it back.
    pub(super) fn resting<'a>(
        &'a self,
        state: &'a BallState,
        drive: Vec2,
    ) -> impl Iterator<Item = (usize, &'a SurfaceContact<'w>)> {
        let along = ALONG * state.velocity.norm();
        let (off, into) = if self.several() {
            (HELD_BELOW_M_S, self.rounding(state.velocity))
        } else {
            (along, along)
        };
        self.0.iter().enumerate().filter(move |(_, contact)| {
            let closing = contact.normal.dot(state.velocity);
            closing >= -off
                && closing <= into
                && stays_on(contact, heading(contact.normal, state.velocity, drive))
        })
    }

    /// A ball of this velocity that moves more slowly than this into or off a surface moves along it, m/s.
    fn rounding(&self, velocity: Vec2) -> f64 {
        let share = if self.several() { ALONG_SEVERAL } else { ALONG };
        (share * velocity.norm()).max(ALONG_SEVERAL_M_S)
    }

    /// The boundaries that a ball which begins a way does not meet on it: those whose end it goes over,
    /// and those that it neither goes into nor is `pressed` against.
    pub(super) fn not_met(
        &self,
        velocity: Vec2,
        acceleration: Vec2,
        pressed: impl Fn(&SurfaceContact, f64) -> bool,
    ) -> PassedBoundaries<'w> {
        let rounding = self.rounding(velocity);
        let mut not_met = PassedBoundaries::default();
        for contact in &self.0 {
            if contact.normal.dot(velocity).abs() > rounding {
                continue;
            }
            let drive = contact.normal.dot(acceleration);
            let bends = contact.boundary.curvature_1_m() * velocity.dot(velocity);
            if !stays_on(contact, heading(contact.normal, velocity, acceleration))
                || !pressed(contact, drive)
            {
                not_met.never.push(contact.boundary);
            } else if self.several() && bends > drive {
                not_met.at_first.push(contact.boundary);
            }
        }
        not_met
    }
}

impl<'w> Deref for TouchedSurfaces<'w> {
    type Target = [SurfaceContact<'w>];

    fn deref(&self) -> &[SurfaceContact<'w>] {
        &self.0
    }
}

/// Which way along a surface a ball goes, or will go if it rests.
pub(super) fn heading(normal: Vec2, velocity: Vec2, drive: Vec2) -> Vec2 {
    let along = |it: Vec2| it - normal * normal.dot(it);
    let moves = along(velocity);
    if moves == Vec2::ZERO { along(drive) } else { moves }
}

fn stays_on(contact: &SurfaceContact, heading: Vec2) -> bool {
    heading == Vec2::ZERO || contact.boundary.ahead_m(contact.centre, heading) > LEAST_AHEAD_M
}
