//! Pictures for people: maps, lines, differences, frontiers, tables and fits as SVG and PNG, and a small
//! map in text.
//!
//! Every kind of picture lays itself out once, as a plain list of drawn things (`canvas`): curves
//! with their area and line, and text, in points. A backend turns the list into a file and decides
//! nothing about the layout: `svg` and `png` do. A backend for PDF belongs beside them.
//!
//! This module turns plain data into bytes and does nothing else: no files, no clock, no engine
//! types. The same data gives the same bytes. The font travels inside the program, and inside each
//! SVG.

mod axes;
mod before_after;
mod blocks;
mod boundary;
mod canvas;
mod cells;
#[cfg(test)]
mod colour_vision;
mod colours;
mod contour;
mod difference;
mod error;
mod fit;
mod font;
mod frontier;
mod frontier_data;
mod frontier_key;
mod frontier_plot;
mod grid;
mod grid_layout;
mod kinds;
mod legend;
mod level_lines;
mod lines;
mod lines_axes;
mod look;
mod map;
mod markers;
mod page;
mod png;
mod shading;
mod svg;
mod table;
mod terminal;
#[cfg(test)]
pub(crate) mod tests;

pub use axes::{NumericAxis, PictureAxis};
pub use before_after::{BeforeAfterCell, BeforeAfterPanels, BeforeAfterPicture, CellChange};
pub use difference::{DifferenceCell, DifferencePanel, DifferencePicture};
pub use error::PictureError;
pub use fit::{
    BankPanel, BankRow, DrawnInterval, FitBody, FitPicture, NumberStrip, PairAxis, PairPanel,
    RailNumbers, SeenMark, SheetRow,
};
pub use font::true_minus;
pub use frontier_data::{
    BarAgreement, BoundaryKind, FrontierBar, FrontierCurve, FrontierPanel, FrontierPicture,
    FrontierRegion,
};
pub use kinds::CellKind;
pub use lines::{Band, BandEdges, LinesPicture, MOST_POINTS, MOST_SERIES, Series};
pub use look::PictureLook;
pub use map::{MOST_CELLS, MOST_PANELS, MapCell, MapPicture, Panel, hundredths};
pub use shading::MissUnit;
pub use table::{
    BallTrack, CushionLine, CushionPiece, DrawnObstacle, Ghost, Guide, Inset, InsetCircle, Mark,
    MarkKind, Motion, NumberCell, NumberTable, OtherPlay, PocketShape, Sight, SpinMark,
    TablePicture, TablePoint, TableShape, TrackEnd, TrackPath, TrackPiece,
};
pub use terminal::text_map;

macro_rules! files {
    ($($picture:ty),*) => {$(
        impl $picture {
            /// The picture as a complete SVG document with its font inside.
            ///
            /// # Errors
            /// Refuses more than a picture holds, and nothing to draw.
            pub fn to_svg(&self) -> Result<String, PictureError> {
                Ok(svg::encode(&self.canvas()?, self.look.size))
            }

            /// The picture as the bytes of a PNG file.
            ///
            /// # Errors
            /// As `to_svg`.
            pub fn to_png(&self) -> Result<Vec<u8>, PictureError> {
                png::encode(&self.canvas()?, self.look.size)
            }
        }
    )*};
}

files!(
    MapPicture,
    DifferencePicture,
    BeforeAfterPicture,
    LinesPicture,
    FrontierPicture,
    TablePicture,
    FitPicture
);
