//! Why a question has no answer.

use crate::elevation::{NoRoom, Obstruction};
use crate::rail::GeometryError;
use crate::shot::ShotError;
use crate::stroke::StrokeError;
use thiserror::Error;

/// Why there is no such aim, side or place.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum NoAim {
    /// The stroke itself is refused.
    #[error(transparent)]
    Stroke(#[from] StrokeError),
    /// No elevation leaves the cue room.
    #[error(transparent)]
    NoRoom(#[from] NoRoom),
    /// The cue, pointing down as far as was asked, would go through something.
    #[error(
        "the cue has no room: pointing down by {}° it would go through {}; the least that works is {}°",
        hundredths(*given_rad),
        over.name(),
        hundredths_up(*least_rad)
    )]
    Blocked {
        /// The elevation asked for, rad.
        given_rad: f64,
        /// The next one that works, rad.
        least_rad: f64,
        /// The thing in the way.
        over: Obstruction,
    },
    /// The balls can't lie so.
    #[error(transparent)]
    Shot(#[from] ShotError),
    /// The rail and the pocket make no bank.
    #[error(transparent)]
    Geometry(#[from] GeometryError),
    /// The object ball would have to be hit on its far side.
    #[error(
        "no aim does it: the object ball would have to be cut by {:.1}°, and past 90° the cue ball can't reach that side of it",
        cut_rad.to_degrees()
    )]
    BehindTheBall {
        /// The angle between the cue ball's way and the line wanted, rad.
        cut_rad: f64,
    },
    /// The cue ball and the object ball touch from the start on another line.
    #[error(
        "no aim does it: the balls touch, and the object ball leaves along their line of centres, give or take throw"
    )]
    Touching,
    /// The cue ball stops before it comes to the object ball.
    #[error(
        "no aim does it: the cue ball stops after {reach_m:.3} m, before it comes to the object ball"
    )]
    TooSoft {
        /// Its distance, m.
        reach_m: f64,
    },
    /// No aim within those that hit the object ball sends it there.
    #[error(
        "no aim that hits the object ball does it: the nearest is still {off_mrad:.2} mrad off"
    )]
    OutOfReach {
        /// The error left at the best aim, mrad.
        off_mrad: f64,
    },
    /// Gearing asks for more side than the tip can give.
    #[error(
        "gearing would take a tip offset of {needed:.3} of the ball's radius, and beyond {limit:.3} the tip slips off"
    )]
    TooMuchSide {
        /// The offset needed, or at the limit if even that does not do.
        needed: f64,
        /// The cue's limit.
        limit: f64,
    },
    /// The object ball never crosses the pocket's mouth line.
    #[error("the object ball never comes to the pocket's mouth line: {why}")]
    NoArrival {
        /// The result instead.
        why: &'static str,
    },
    /// The solver's function jumps over the answer.
    #[error(
        "the ball's path changes abruptly there ({what}), and no aim in between sends it through the middle"
    )]
    Jump {
        /// The thing that changes.
        what: &'static str,
    },
    /// Nothing in the range holds.
    #[error(
        "none from {from} to {to} {unit} makes it ({looked} tried); the one nearest the middle: {why}"
    )]
    NeverMade {
        /// One end of the range.
        from: f64,
        /// Its other end.
        to: f64,
        /// The range's unit.
        unit: &'static str,
        /// The number looked at.
        looked: usize,
        /// The verdict in the middle of the range.
        why: &'static str,
    },
    /// A double kiss that nothing in the range avoids.
    #[error("the balls kiss {where_m}", where_m = kiss_range(*from, *to, unit))]
    AlwaysKisses {
        /// One end of the range.
        from: f64,
        /// Its other end.
        to: f64,
        /// The range's unit.
        unit: &'static str,
    },
}

impl NoAim {
    /// True when it is the cue that finds no room.
    pub const fn is_no_room(&self) -> bool {
        matches!(self, Self::NoRoom(_) | Self::Blocked { .. })
    }
}

fn hundredths(angle_rad: f64) -> f64 {
    (angle_rad.to_degrees() * 100.0).round() / 100.0
}

/// Rounded up, so that the elevation that is read works.
fn hundredths_up(angle_rad: f64) -> f64 {
    (angle_rad.to_degrees() * 100.0).ceil() / 100.0
}

fn kiss_range(from: f64, to: f64, unit: &str) -> String {
    format!("everywhere from {from} to {to} {unit}")
}
