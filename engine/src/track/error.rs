//! Why a film tells no bank.

use thiserror::Error;

/// Why a film tells no bank.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum TrackError {
    /// Fewer marks than a plane map takes.
    #[error("{marks} marks; four or more are needed")]
    FewMarks {
        /// Marks given.
        marks: usize,
    },
    /// Marks that don't decide a plane map.
    #[error("the marks, or all but one of them, lie in one line or on one spot")]
    MarksInLine,
    /// Fewer marks than a lens beside the plane takes.
    #[error("{marks} marks; to find the lens, six or more are needed")]
    FewMarksForLens {
        /// Marks given.
        marks: usize,
    },
    /// Marks that lie so that they say nothing of the lens.
    #[error("the marks don't tell the lens: it bends none of them away from the others")]
    LensNotTold,
    /// A mark where the lens shows nothing.
    #[error("mark {mark} lies so far from the picture's middle that this lens shows nothing there")]
    BeyondLens {
        /// Which mark, from 1.
        mark: usize,
    },
    /// A mark that the others contradict, or that makes them do so.
    #[error(
        "by the other marks, mark {mark} lies {off_mm:.0} mm off its place, or one of the others does"
    )]
    MarkOff {
        /// Which mark, from 1.
        mark: usize,
        /// How far off it lies, mm.
        off_mm: f64,
    },
    /// The ball was marked where the map leads to no place on the table.
    #[error("point {point} of the ball lies far off the table")]
    OffTable {
        /// Which point, from 1.
        point: usize,
    },
    /// Too few points on a side of the rail.
    #[error("fewer than four points before the rail, or after it")]
    FewOnASide,
    /// The way turns at no rail.
    #[error("the ball does not turn at any rail of this table")]
    NoRail,
}
