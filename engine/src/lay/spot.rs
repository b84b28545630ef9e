//! A place as people tell it.

use crate::equipment::Ball;
use crate::rail::{Line, Pocket, Rail};
use crate::vector::Vec2;

/// A ball and where it is to lie.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidBall {
    /// Its size and mass.
    pub ball: Ball,
    /// Where its centre is.
    pub spot: Spot,
}

/// Where a ball's centre is. Balls are named by their place in the list that is laid.
#[derive(Debug, Clone, PartialEq)]
pub enum Spot {
    /// At a point, table frame, m.
    At(Vec2),
    /// Where another ball lies.
    Ball(usize),
    /// The middle of a pocket's mouth: something to aim at.
    Pocket(Pocket),
    /// Beside a rail, at a number.
    OnRail {
        /// The rail.
        rail: Rail,
        /// The number, in diamonds (groove reading).
        number: f64,
        /// The pocket from which it is counted.
        counted_from: Pocket,
        /// Distance from the groove, square to the rail, m; 0 is frozen.
        off_rail_m: f64,
    },
    /// On the line of a bank.
    OnLine {
        /// The line.
        line: LineSpot,
        /// Distance from the contacted rail's groove, square to the rail, m; 0 is at the contact.
        off_rail_m: f64,
    },
    /// Between two places.
    Between {
        /// The place at share 0.
        one: Box<Spot>,
        /// The place at share 1.
        other: Box<Spot>,
        /// Share of the way from the one to the other.
        share: f64,
    },
    /// Beside another ball, on a line through its centre.
    Beside {
        /// The other ball.
        ball: usize,
        /// The direction of the line.
        heading: Box<Heading>,
        /// Before the other ball, seen along the heading, and not behind it.
        ahead: bool,
        /// Room between the two balls, m; 0 touches: the place of the ghost ball.
        gap_m: f64,
    },
}

/// A line by its rail numbers, with what they are counted on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineSpot {
    /// The rail that it banks off.
    pub rail: Rail,
    /// The pocket from which it is counted.
    pub pocket: Pocket,
    /// The numbers (groove reading).
    pub line: Line,
}

/// A direction over the table.
#[derive(Debug, Clone, PartialEq)]
pub enum Heading {
    /// From the table's x axis towards its y axis, rad.
    Angle(f64),
    /// To a place.
    To(Spot),
    /// Along a bank's line, from its start to its contact.
    Along(LineSpot),
}
