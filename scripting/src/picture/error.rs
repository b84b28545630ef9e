//! Refusals of pictures.

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
        /// The most that are drawn, `MOST_CELLS`.
        most: usize,
    },
    /// No panel, or more than fit on a page.
    #[error("the map has {panels} panels; a picture holds 1 to {most}")]
    Panels {
        /// Panels given.
        panels: usize,
        /// The most that are drawn, `MOST_PANELS`.
        most: usize,
    },
    /// Two maps that are to be compared lie on different axes or have different panels.
    #[error("the two maps differ in their {what}, so their cells cannot be compared")]
    Unlike {
        /// The thing that differs.
        what: &'static str,
    },
    /// More lines than can be told apart.
    #[error("the picture has {series} lines; at most {most} can be told apart")]
    TooManySeries {
        /// Lines given.
        series: usize,
        /// The most that are drawn, `MOST_SERIES`.
        most: usize,
    },
    /// More points than a picture shows.
    #[error("the lines have {points} points together; a picture holds at most {most}")]
    TooManyPoints {
        /// Points of all lines.
        points: usize,
        /// The most that are drawn, `MOST_POINTS`.
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
    /// The pixels could not be drawn or packed.
    #[error("the picture could not be drawn: {0}")]
    Drawing(String),
}
