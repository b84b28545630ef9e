//! The double kiss: whether the object ball, back off the rail, meets the cue ball again.

use super::setup::LineSetup;
use super::{CUE, NoAim, OBJECT, Setup, aim_along};
use crate::rail::Line;
use crate::root::last_true;
use crate::shot::{EventKind, Shot};
use crate::stroke::Stroke;
use crate::verdict::{Separation, closest};
use crate::world::World;

/// A bank looked at for its double kiss.
#[derive(Debug, Clone, PartialEq)]
pub struct KissStudy {
    /// The shot.
    pub shot: Shot,
    /// When the double kiss was, s, as [`kissed_at_s`](crate::verdict::ShotVerdict::kissed_at_s);
    /// `None` when the balls passed.
    pub kissed_at_s: Option<f64>,
    /// The nearest they came once the object ball was off the rail; `None` when it met none or they
    /// kissed.
    pub nearest: Option<Separation>,
    /// Room between their surfaces then, m; 0 when they kissed.
    pub clearance_m: Option<f64>,
}

impl KissStudy {
    /// Plays a straight or cut shot along a line of rail numbers and looks at the balls after the
    /// object ball's first rail. The aim is solved, so that the object ball leaves along the line.
    ///
    /// # Errors
    /// [`NoAim`] when the shot can't be laid or aimed.
    pub fn new(world: &World, at: &LineSetup, stroke: &Stroke) -> Result<Self, NoAim> {
        let (setup, direction) = Setup::on_line(world, at)?;
        let aimed = aim_along(&setup, stroke, direction)?;
        Self::of(&setup, &aimed.stroke)
    }

    /// Looks at a given stroke.
    ///
    /// # Errors
    /// As [`Setup::judge`].
    pub fn of(setup: &Setup<'_>, stroke: &Stroke) -> Result<Self, NoAim> {
        let (shot, verdict) = setup.judge(stroke)?;
        let off_rail_s = shot
            .events
            .iter()
            .find(|event| event.ball == OBJECT && matches!(event.kind, EventKind::Cushion(_)))
            .map(|event| event.time_s);
        let until_s = shot
            .events
            .iter()
            .filter(|event| {
                event.ball == OBJECT && off_rail_s.is_some_and(|off| event.time_s > off)
            })
            .find(|event| matches!(event.kind, EventKind::Cushion(_) | EventKind::Drop(_)))
            .map_or(f64::INFINITY, |event| event.time_s);
        let kissed_at_s = verdict.kissed_at_s;
        let nearest = match (off_rail_s, kissed_at_s) {
            (Some(off_s), None) => closest(&shot, CUE, OBJECT, off_s, until_s),
            _ => None,
        };
        let clearance_m = match kissed_at_s {
            Some(_) => Some(0.0),
            None => nearest.map(|it| it.distance_m - setup.contact_m()),
        };
        Ok(Self { shot, kissed_at_s, nearest, clearance_m })
    }

    /// True when there was a double kiss.
    pub fn kisses(&self) -> bool {
        self.kissed_at_s.is_some()
    }
}

/// Looks between the ends of a range.
const LOOKS: usize = 60;

/// The least distance off the rail, square to it, m, from `from_m` up, from which on the line up to
/// `to_m` the bank does not kiss; to 1e-6 m.
///
/// # Errors
/// [`NoAim::AlwaysKisses`] when it kisses at `to_m`, and refusals.
pub fn least_gap(
    world: &World,
    at: &LineSetup,
    stroke: &Stroke,
    (from_m, to_m): (f64, f64),
) -> Result<f64, NoAim> {
    let kisses = |off_rail_m: f64| -> Result<bool, NoAim> {
        Ok(KissStudy::new(world, &LineSetup { off_rail_m, ..*at }, stroke)?.kisses())
    };
    last_change(kisses, (from_m, to_m), 1e-6, "m off the rail")
}

/// The least contact number of at least `from`, to 1e-6 diamonds, from which on up to `to` the bank
/// along the line that `line_at` gives for it does not kiss: the flattest angle is the safest.
///
/// # Errors
/// As [`least_gap`].
pub fn least_angle(
    world: &World,
    at: &LineSetup,
    stroke: &Stroke,
    line_at: impl Fn(f64) -> Line,
    (from, to): (f64, f64),
) -> Result<f64, NoAim> {
    let kisses = |contact: f64| -> Result<bool, NoAim> {
        Ok(KissStudy::new(world, &LineSetup { line: line_at(contact), ..*at }, stroke)?.kisses())
    };
    last_change(kisses, (from, to), 1e-6, "diamonds of contact")
}

/// The last place from which on `kisses` is false up to the range's end.
fn last_change(
    mut kisses: impl FnMut(f64) -> Result<bool, NoAim>,
    (from, to): (f64, f64),
    tolerance: f64,
    unit: &'static str,
) -> Result<f64, NoAim> {
    if kisses(to)? {
        return Err(NoAim::AlwaysKisses { from, to, unit });
    }
    let mut clear = to;
    for look in (0..LOOKS).rev() {
        // Denser towards the beginning, where small distances decide.
        let share = look as f64 / LOOKS as f64;
        let here = from + (to - from) * share * share;
        if kisses(here)? {
            return last_true((clear, here), |_| tolerance, |place| Ok(!kisses(place)?));
        }
        clear = here;
    }
    Ok(from)
}
