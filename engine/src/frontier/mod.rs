//! Where holding turns into breaking: a few looks where the answer changes, instead of a dense
//! grid.
//!
//! Along a line (one input varies) every interval where the rule holds is found to a tolerance. The
//! verdict decides; the clearances to the two mouth points, which change smoothly and change sign
//! at most edges, choose the places to look at ([`Search`] holds the tolerances). Over a second input the edges
//! are followed from line to line, so that they become the boundary curves of the region where the
//! rule holds. The looks come with the answer ([`Certificate`]): a stretch that is
//! narrower than the probes are apart and shows in no clearance may be missed.

mod answer;
mod case;
mod edge;
mod error;
mod hidden_change;
mod line;
mod probe;
mod search;
mod sheet;
mod strips;

pub use answer::{
    BreakKind, Breaking, Certificate, Curve, Frontier, FrontierLine, Interval, IntervalEnd, Sheet,
    Strip,
};
pub use error::FrontierError;
pub use search::find_frontier;

use crate::sweep::Input;
use serde::Serialize;

/// The field to search, and the tolerances.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Search {
    /// The input along which the edges are found; the plan says from where to where.
    pub along: Input,
    /// The greatest distance between the place that holds and the one that breaks which enclose an edge, SI.
    pub tolerance: f64,
    /// The number of places, evenly spread, at which a line is probed first; `None` for the plan's own
    /// values.
    pub probes: Option<usize>,
    /// A second input over which the edges are traced; the plan's own values of it are lines that
    /// are searched all along.
    pub across: Option<SecondInput>,
}

/// A second input over which edges are traced.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SecondInput {
    /// The input.
    pub input: Input,
    /// The width to which turning points are closed in on, SI.
    pub tolerance: f64,
}
