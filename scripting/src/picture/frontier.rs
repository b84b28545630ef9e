//! Where a rule holds over two numeric axes: the region and its edges, in one or several panels.

use super::canvas::{Anchor, Canvas};
use super::font;
use super::frontier_key;
use super::frontier_plot::Plot;
use super::lines::NumericAxis;
use super::lines_axes::Scale;
use super::page::{self, AXIS, MARGIN};
use super::{MOST_PANELS, MOST_POINTS, PictureError, png_file, svg_file};

/// Room for the panels, and a row's height by the number of rows.
const MAIN_WIDTH: f64 = 940.0;
const HEIGHTS: [f64; 4] = [400.0, 268.0, 205.0, 190.0];
/// Between panels: from one plot to the next one's.
const GAP: (f64, f64) = (36.0, 78.0);
const CAPTION_HEIGHT: f64 = 40.0;
const KEY_GAP: f64 = 34.0;
/// How a rule breaks beyond an edge.
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
}

/// A part of the plane where the rule holds.
#[derive(Debug, Clone, PartialEq)]
pub struct FrontierRegion {
    /// Its outline, closed from the last point to the first.
    pub outline: Vec<(f64, f64)>,
}

/// An edge of a region.
#[derive(Debug, Clone, PartialEq)]
pub struct FrontierCurve {
    /// What happens beyond it.
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
    /// What happens below; nothing at an end of what was searched.
    pub below: Option<BoundaryKind>,
    /// What happens above.
    pub above: Option<BoundaryKind>,
}

/// One panel.
#[derive(Debug, Clone, PartialEq)]
pub struct FrontierPanel {
    /// What is the same all over it, such as `contact 2`.
    pub caption: String,
    /// What was found in a few words.
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
}

/// Regions and their edges as a picture.
#[derive(Debug, Clone, PartialEq)]
pub struct FrontierPicture {
    /// What the picture shows.
    pub title: String,
    /// The conditions in words, one line each.
    pub subtitles: Vec<String>,
    /// The horizontal axis.
    pub x: NumericAxis,
    /// The vertical axis.
    pub y: NumericAxis,
    /// What was searched along x.
    pub x_range: (f64, f64),
    /// What was searched along y.
    pub y_range: (f64, f64),
    /// One to [`MOST_PANELS`] panels on the same axes.
    pub panels: Vec<FrontierPanel>,
    /// Footnotes.
    pub notes: Vec<String>,
}

impl FrontierPicture {
    /// The picture as a complete SVG document with its font inside.
    ///
    /// # Errors
    /// Refuses no or too many panels, too many points, and a range that can't be divided.
    pub fn to_svg(&self) -> Result<String, PictureError> {
        svg_file::encode(&self.canvas()?)
    }

    /// The picture as the bytes of a PNG file.
    ///
    /// # Errors
    /// As [`Self::to_svg`].
    pub fn to_png(&self) -> Result<Vec<u8>, PictureError> {
        png_file::encode(&self.canvas()?)
    }

    fn canvas(&self) -> Result<Canvas, PictureError> {
        let count = self.panels.len();
        if !(1..=MOST_PANELS).contains(&count) {
            return Err(PictureError::Panels { panels: count, most: MOST_PANELS });
        }
        let in_panel = |panel: &FrontierPanel| {
            let regions: usize = panel.regions.iter().map(|region| region.outline.len()).sum();
            let curves: usize = panel.curves.iter().map(|curve| curve.points.len()).sum();
            regions + curves + panel.bars.len() + panel.lines.len()
        };
        let points = self.panels.iter().map(in_panel).sum();
        if points > MOST_POINTS {
            return Err(PictureError::TooManyPoints { points, most: MOST_POINTS });
        }
        let columns = columns(count);
        let rows = count.div_ceil(columns);
        let high = HEIGHTS[rows.min(HEIGHTS.len()) - 1];
        let room = MAIN_WIDTH - (columns - 1) as f64 * GAP.0;
        let y = Scale::between("y", self.y_range, high / 40.0)?;
        let (y_labels, y_width) = y.labels();
        let left = MARGIN + 28.0 + y_width + 10.0;
        let wide = ((room - (left - MARGIN)) / columns as f64).min(640.0);
        let x = Scale::between("x", self.x_range, wide / 62.0)?;

        let mut canvas = Canvas::new(&font::clean(&self.title), &self.description());
        let plots_width = columns as f64 * wide + (columns - 1) as f64 * GAP.0;
        canvas.width = left + plots_width + KEY_GAP + frontier_key::WIDTH + MARGIN;
        let top = page::header(&mut canvas, &self.title, &self.subtitles);
        let mut bottom = top;
        for (index, panel) in self.panels.iter().enumerate() {
            let (across, down) = (index % columns, index / columns);
            let corner = (
                left + across as f64 * (wide + GAP.0),
                top + CAPTION_HEIGHT + down as f64 * (high + GAP.1),
            );
            let plot = Plot { corner, size: (wide, high), x: &x, y: &y };
            plot.draw_panel(&mut canvas, panel);
            let labels = if across == 0 { y_labels.as_slice() } else { &[] };
            plot.draw_axes(&mut canvas, labels);
            bottom = corner.1 + high;
        }
        self.draw_titles(&mut canvas, (left, top + CAPTION_HEIGHT), (plots_width, bottom));
        let key = (left + plots_width + KEY_GAP, top + CAPTION_HEIGHT);
        let key_bottom = frontier_key::draw(&mut canvas, &self.kinds(), key);
        let notes: Vec<String> = self.notes.iter().map(|note| font::clean(note)).collect();
        page::footer(&mut canvas, &notes, (bottom + 62.0).max(key_bottom + 20.0));
        Ok(canvas)
    }

    fn draw_titles(
        &self,
        canvas: &mut Canvas,
        (left, top): (f64, f64),
        (wide, bottom): (f64, f64),
    ) {
        let x_title = page::with_unit(&self.x.title, &self.x.unit);
        let x_title = font::fit(&x_title, AXIS.em, AXIS.weight, wide);
        canvas.text(&x_title, (left + wide / 2.0, bottom + 42.0), Anchor::Middle, AXIS);
        let y_title = page::with_unit(&self.y.title, &self.y.unit);
        let y_title = font::fit(&y_title, AXIS.em, AXIS.weight, bottom - top);
        let middle = f64::midpoint(top, bottom);
        canvas.turned_text(&y_title, (MARGIN + 11.0, middle), Anchor::Middle, AXIS);
    }

    fn kinds(&self) -> Vec<BoundaryKind> {
        let of_panel = |panel: &FrontierPanel| -> Vec<BoundaryKind> {
            let curves = panel.curves.iter().map(|curve| curve.kind);
            let bars = panel.bars.iter().flat_map(|bar| [bar.below, bar.above]).flatten();
            curves.chain(bars).collect()
        };
        let mut kinds: Vec<BoundaryKind> = self.panels.iter().flat_map(of_panel).collect();
        kinds.sort_unstable();
        kinds.dedup();
        kinds
    }

    fn description(&self) -> String {
        let mut parts: Vec<String> = self.subtitles.iter().map(|s| font::clean(s)).collect();
        parts.push(format!(
            "Across: {}. Up: {}.",
            page::with_unit(&self.x.title, &self.x.unit),
            page::with_unit(&self.y.title, &self.y.unit)
        ));
        for panel in &self.panels {
            parts.push(font::clean(&format!("{} {}", panel.caption, panel.summary)));
        }
        parts.retain(|part| !part.trim().is_empty());
        parts.join(" ")
    }
}

/// Panels beside each other.
const fn columns(panels: usize) -> usize {
    match panels {
        0 | 1 => 1,
        2 | 4 => 2,
        3 | 5 | 6 | 9 => 3,
        _ => 4,
    }
}
