//! Regions, edges and bars of a frontier, to be drawn.

use super::axes::NumericAxis;
use super::look::PictureLook;

/// The way a rule breaks beyond an edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum BoundaryKind {
    /// Past the far mouth point, or onto it.
    Long,
    /// Before the near mouth point, or onto it.
    Short,
    /// The ball stops on its way.
    Stops,
    /// It meets something else first.
    Elsewhere,
    /// Half of many tables hold below, the others above.
    Half,
}

/// What many tables say of a stretch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum BarAgreement {
    /// It holds on nearly all.
    Sure,
    /// It holds on some.
    Depends,
    /// It holds on hardly any.
    Misses,
}

/// A part of the plane where the rule holds.
#[derive(Debug, Clone, PartialEq)]
pub struct FrontierRegion {
    /// Its outline, closed from the last point to the first.
    pub outline: Vec<(f64, f64)>,
}

impl FrontierRegion {
    /// Its area in the units of the axes.
    pub(super) fn area(&self) -> f64 {
        let next = self.outline.iter().cycle().skip(1);
        let turned = self.outline.iter().zip(next).map(|(a, b)| a.0 * b.1 - b.0 * a.1);
        0.5 * turned.filter(|part| part.is_finite()).sum::<f64>().abs()
    }
}

/// An edge of a region.
#[derive(Debug, Clone, PartialEq)]
pub struct FrontierCurve {
    /// The way the rule breaks beyond it.
    pub kind: BoundaryKind,
    /// True where the region lies above it, false where it lies below.
    pub lower: bool,
    /// Its points in order.
    pub points: Vec<(f64, f64)>,
}

/// A stretch of one line that holds, for values of x between which nothing was traced.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FrontierBar {
    /// The line.
    pub x: f64,
    /// Its ends.
    pub from: f64,
    /// The upper one.
    pub to: f64,
    /// The way the rule breaks below; nothing at an end of the searched range.
    pub below: Option<BoundaryKind>,
    /// The way the rule breaks above.
    pub above: Option<BoundaryKind>,
    /// What many tables say of it; nothing for a stretch that holds on one table.
    pub agreement: Option<BarAgreement>,
}

/// One panel.
#[derive(Debug, Clone, PartialEq)]
pub struct FrontierPanel {
    /// The conditions of the whole panel, such as `contact 2`.
    pub caption: String,
    /// The findings in a few words.
    pub summary: String,
    /// Where it holds.
    pub regions: Vec<FrontierRegion>,
    /// The edges.
    pub curves: Vec<FrontierCurve>,
    /// Where along x lines of their own were searched, between which nothing was traced; none for a
    /// panel of regions.
    pub lines: Vec<f64>,
    /// Where those lines hold.
    pub bars: Vec<FrontierBar>,
    /// The stretch of y that holds at every x, if there is one.
    pub always: Option<(f64, f64)>,
    /// The end of the range for which the model was checked, within what holds: lines along x, or, for lines of
    /// their own, a point each.
    pub checked: Vec<Vec<(f64, f64)>>,
}

/// Regions and their edges as a picture.
#[derive(Debug, Clone, PartialEq)]
pub struct FrontierPicture {
    /// Title of the picture.
    pub title: String,
    /// The results in a sentence, whatever the title says; empty for none.
    pub finding: String,
    /// The conditions in words, one line each.
    pub subtitles: Vec<String>,
    /// The horizontal axis.
    pub x: NumericAxis,
    /// The vertical axis.
    pub y: NumericAxis,
    /// The searched range along x.
    pub x_range: (f64, f64),
    /// The searched range along y.
    pub y_range: (f64, f64),
    /// Words beyond the end of the checked range.
    pub flag_label: String,
    /// One to [`super::MOST_PANELS`] panels on the same axes.
    pub panels: Vec<FrontierPanel>,
    /// Footnotes.
    pub notes: Vec<String>,
    /// Its look.
    pub look: PictureLook,
}
