//! Where a rule holds over two numeric axes: the region and its edges, in one or several panels.

use super::canvas::Canvas;
use super::error::PictureError;
use super::font;
use super::frontier_data::{
    BarAgreement, BoundaryKind, FrontierPanel, FrontierPicture, FrontierRegion,
};
use super::frontier_key;
use super::frontier_plot::FrontierPlot;
use super::lines::MOST_POINTS;
use super::lines_axes::Scale;
use super::map::MOST_PANELS;
use super::page::{self, MARGIN};

/// Room for the panels, and a row's height by the number of rows.
const MAIN_WIDTH: f64 = 940.0;
const HEIGHTS: [f64; 4] = [400.0, 268.0, 205.0, 190.0];
/// Between panels: from one plot to the next one's.
const GAP: (f64, f64) = (36.0, 78.0);
const CAPTION_HEIGHT: f64 = 40.0;
const KEY_GAP: f64 = 34.0;

impl FrontierPicture {
    pub(super) fn canvas(&self) -> Result<Canvas, PictureError> {
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

        let mut canvas = Canvas::new(font::clean(&self.title), self.description());
        let plots_width = columns as f64 * wide + (columns - 1) as f64 * GAP.0;
        let beside = if self.look.legend { KEY_GAP + frontier_key::WIDTH } else { 0.0 };
        canvas.width = left + plots_width + beside + MARGIN;
        let top = page::header(&mut canvas, &self.title, &self.subtitles);
        let mut bottom = top;
        for (index, panel) in self.panels.iter().enumerate() {
            let (across, down) = (index % columns, index / columns);
            let corner = (
                left + across as f64 * (wide + GAP.0),
                top + CAPTION_HEIGHT + down as f64 * (high + GAP.1),
            );
            let plot = FrontierPlot { corner, size: (wide, high), x: &x, y: &y };
            plot.draw_panel(&mut canvas, panel, &self.flag_label);
            let labels = if across == 0 { y_labels.as_slice() } else { &[] };
            plot.draw_axes(&mut canvas, labels);
            bottom = corner.1 + high;
        }
        let (titles, upper) = ((self.x.words(), self.y.words()), top + CAPTION_HEIGHT);
        let size = (plots_width, bottom - upper);
        page::axis_titles(&mut canvas, (&titles.0, &titles.1), (left, upper), size);
        let key = (left + plots_width + KEY_GAP, top + CAPTION_HEIGHT);
        let key_bottom = if self.look.legend {
            frontier_key::draw(
                &mut canvas,
                self.grounds(),
                (&self.kinds(), &self.agreements()),
                self.flag_label(),
                key,
            )
        } else {
            top
        };
        let notes: Vec<String> = self.notes.iter().map(|note| font::clean(note)).collect();
        page::footer(&mut canvas, &notes, (bottom + 62.0).max(key_bottom + 20.0));
        Ok(canvas)
    }

    /// Words at the end of the checked range, if it is within the picture.
    fn flag_label(&self) -> Option<&str> {
        let bounded = self.panels.iter().any(|panel| !panel.checked.is_empty());
        bounded.then_some(self.flag_label.as_str())
    }

    /// What many tables say of its bars.
    fn agreements(&self) -> Vec<BarAgreement> {
        let bars = self.panels.iter().flat_map(|panel| &panel.bars);
        let mut agreements: Vec<BarAgreement> = bars.filter_map(|bar| bar.agreement).collect();
        agreements.sort_unstable();
        agreements.dedup();
        agreements
    }

    /// Whether any place holds, and whether any does not; neither where many tables say so.
    fn grounds(&self) -> [bool; 2] {
        if !self.agreements().is_empty() {
            return [false, false];
        }
        let (wide, high) = (self.x_range.1 - self.x_range.0, self.y_range.1 - self.y_range.0);
        let shares = self.panels.iter().map(|panel| {
            let regions: f64 = panel.regions.iter().map(FrontierRegion::area).sum();
            let bars: f64 = panel.bars.iter().map(|bar| bar.to - bar.from).sum();
            let searched = if panel.lines.is_empty() { wide } else { panel.lines.len() as f64 };
            (regions + bars) / (searched * high)
        });
        shares.fold([false, false], |[holds, breaks], share| {
            [holds || share > 0.0, breaks || share.is_nan() || share < 1.0 - 1e-6]
        })
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
        let panels = self.panels.iter();
        let panels = panels.map(|it| font::clean(&format!("{} {}", it.caption, it.summary)));
        page::description(&self.subtitles, (&self.x.words(), &self.y.words()), panels)
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
