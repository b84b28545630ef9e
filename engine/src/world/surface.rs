//! The surfaces that a ball can touch: pieces of cushion, of jaws and of obstacles, as they stand on the
//! table.

use crate::rail::{Pocket, Rail};
use crate::vector::Vec2;

/// Which of a pocket's two jaws, seen from the table's middle looking into the pocket.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum JawSide {
    /// Of a corner: the jaw on the long rail. Of a side pocket: the one nearer the head rail.
    First,
    /// Of a corner: the jaw on the end rail. Of a side pocket: the one nearer the foot rail.
    Second,
}

/// A part of a jaw.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum JawPart {
    /// The rounded point between nose and facing.
    Point,
    /// The straight facing behind the point.
    Facing,
}

/// The thing that a surface belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Owner {
    /// The straight nose of a rail.
    Nose(Rail),
    /// A jaw of a pocket.
    Jaw {
        /// Which pocket's.
        pocket: Pocket,
        /// Which of its two.
        side: JawSide,
        /// Which part of it.
        part: JawPart,
    },
    /// An obstacle, by its place in the list that was given.
    Obstacle(usize),
}

/// The shape of a surface, in plan, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// A straight piece.
    Straight {
        /// One end.
        from: Vec2,
        /// The other end.
        to: Vec2,
        /// Unit vector square to it, from the table into the solid.
        into: Vec2,
    },
    /// A round piece, convex towards the table; of radius 0 it is a sharp corner.
    Round {
        /// Centre of curvature, inside the solid.
        centre: Vec2,
        /// Radius of curvature.
        radius_m: f64,
        /// Unit vector from the centre to one end.
        from: Vec2,
        /// Unit vector from the centre to the other end, less than half a turn away.
        to: Vec2,
    },
}

/// A surface that a ball can touch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// The thing that it belongs to.
    pub owner: Owner,
    /// Its shape.
    pub shape: Shape,
}

impl Shape {
    /// The two ends, m.
    pub fn ends(&self) -> [Vec2; 2] {
        match *self {
            Self::Straight { from, to, .. } => [from, to],
            Self::Round { centre, radius_m, from, to } => {
                [centre + from * radius_m, centre + to * radius_m]
            }
        }
    }

    /// The same shape moved towards the table by `by_m` at every point: where the centre of a ball
    /// is that touches it with a part so far from its centre.
    #[must_use]
    pub fn grown(&self, by_m: f64) -> Self {
        match *self {
            Self::Straight { from, to, into } => {
                Self::Straight { from: from - into * by_m, to: to - into * by_m, into }
            }
            Self::Round { centre, radius_m, from, to } => {
                Self::Round { centre, radius_m: radius_m + by_m, from, to }
            }
        }
    }
}

impl JawSide {
    /// Both.
    pub const BOTH: [Self; 2] = [Self::First, Self::Second];

    /// The name used in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::First => "first",
            Self::Second => "second",
        }
    }
}

impl JawPart {
    /// The name used in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Point => "point",
            Self::Facing => "facing",
        }
    }
}
