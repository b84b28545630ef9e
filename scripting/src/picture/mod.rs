//! Pictures for people: maps, lines and differences as SVG and PNG, and a small map in text.
//!
//! What lives here turns plain data into bytes and does nothing else: no files, no clock, no
//! engine types. The same data gives the same bytes. The font travels inside the program, and
//! inside each SVG.

mod blocks;
mod canvas;
#[cfg(test)]
mod colour_vision;
mod colours;
mod coverage;
mod curve;
mod curve_pixels;
mod curve_svg;
mod difference;
mod font;
mod frontier;
mod frontier_key;
mod frontier_plot;
mod grid;
mod grid_layout;
mod kinds;
mod legend;
mod lines;
mod lines_axes;
mod map;
mod markers;
mod page;
mod pens;
mod png_file;
mod shading;
mod svg_file;
mod table;
mod terminal;
#[cfg(test)]
mod tests;

pub use difference::{DifferenceCell, DifferencePanel, DifferencePicture};
pub use frontier::{
    BoundaryKind, FrontierBar, FrontierCurve, FrontierPanel, FrontierPicture, FrontierRegion,
};
pub use kinds::CellKind;
pub use lines::{Band, BandEdges, LinesPicture, MOST_POINTS, MOST_SERIES, NumericAxis, Series};
pub use map::{Axis, Cell, MOST_CELLS, MOST_PANELS, MapPicture, Panel};
pub use table::{
    BallTrack, CushionLine, CushionPiece, Ghost, Guide, Mark, MarkKind, Motion, Obstacle,
    PocketShape, Sight, SpinMark, TablePicture, TablePoint, TableShape, TrackEnd, TrackPath,
    TrackPiece,
};
pub use terminal::text_map;

/// Why a picture was not drawn.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PictureError {
    /// More cells than can be told apart on a page.
    #[error(
        "the map has {cells} cells; a picture holds at most {most}: take coarser steps or fewer panels"
    )]
    TooManyCells {
        /// Cells in all panels together.
        cells: usize,
        /// The most that are drawn, [`MOST_CELLS`].
        most: usize,
    },
    /// No panel, or more than fit on a page.
    #[error("the map has {panels} panels; a picture holds 1 to {most}")]
    Panels {
        /// Panels given.
        panels: usize,
        /// The most that are drawn, [`MOST_PANELS`].
        most: usize,
    },
    /// An axis without a tick has no cells to draw.
    #[error("the {axis} axis has no ticks, so there is no cell to draw")]
    NoTicks {
        /// `x` or `y`.
        axis: &'static str,
    },
    /// A panel's cells do not fill its rows and columns.
    #[error(
        "panel {panel} has {found} cells; {columns} columns by {rows} rows need {}",
        columns * rows
    )]
    CellCount {
        /// Number of the panel, from 1.
        panel: usize,
        /// Cells given.
        found: usize,
        /// Ticks of the x axis.
        columns: usize,
        /// Ticks of the y axis.
        rows: usize,
    },
    /// Two maps that are to be compared lie on different axes or have different panels.
    #[error("the two maps differ in their {what}, so their cells cannot be compared")]
    Unlike {
        /// What differs.
        what: &'static str,
    },
    /// More lines than can be told apart.
    #[error("the picture has {series} lines; at most {most} can be told apart")]
    TooManySeries {
        /// Lines given.
        series: usize,
        /// The most that are drawn, [`MOST_SERIES`].
        most: usize,
    },
    /// More points than a picture shows.
    #[error("the lines have {points} points together; a picture holds at most {most}")]
    TooManyPoints {
        /// Points of all lines.
        points: usize,
        /// The most that are drawn, [`MOST_POINTS`].
        most: usize,
    },
    /// No line has a finite point.
    #[error("no line has a point with finite numbers, so there is nothing to draw")]
    NothingToDraw,
    /// An axis runs over a range too wide for a picture.
    #[error("the {axis} axis would run from {from} to {to}, which is too wide to draw")]
    Range {
        /// `x` or `y`.
        axis: &'static str,
        /// Lower end, as text.
        from: String,
        /// Upper end, as text.
        to: String,
    },
    /// More of something than a picture of a table holds.
    #[error("the table has {found} {what}; its picture holds at most {most}")]
    TooMany {
        /// What there is too much of.
        what: &'static str,
        /// How many were given.
        found: usize,
        /// The most that are drawn.
        most: usize,
    },
    /// A size that no table has, or that is no number.
    #[error("{what} is {value} m; a picture needs {low} to {high} m")]
    Size {
        /// What is measured.
        what: &'static str,
        /// The size, as text.
        value: String,
        /// Smallest that is drawn, as text.
        low: String,
        /// Largest that is drawn, as text.
        high: String,
    },
    /// A number that is none, or too large to draw.
    #[error("{what} {number} has a number that is not finite, or too large to draw")]
    NotANumber {
        /// What has the number.
        what: &'static str,
        /// Which one, from 1.
        number: usize,
    },
    /// A place outside the wood around the table.
    #[error("{what} {number} reaches past the table's edge, so it cannot be drawn")]
    OffTheTable {
        /// What lies outside.
        what: &'static str,
        /// Which one, from 1.
        number: usize,
    },
    /// The drawing library reported a failure.
    #[error("the picture could not be drawn: {0}")]
    Drawing(String),
}
