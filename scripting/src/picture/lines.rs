//! Lines over a numeric axis, with bands such as a tolerance behind them.

use super::axes::NumericAxis;
use super::canvas::{Anchor, Canvas, Pen};
use super::colours::{BAND, FRAME, HAIRLINE, Rgb};
use super::contour::Contour;
use super::error::PictureError;
use super::font;
use super::lines_axes::Scale;
use super::look::PictureLook;
use super::markers;
use super::page::{self, MARGIN, PHRASE, TERM, TICK};

/// The most points that a picture of lines may have, all lines together.
pub const MOST_POINTS: usize = 200_000;

/// The most lines that a picture may have.
pub const MOST_SERIES: usize = 24;

const PLOT: (f64, f64) = (760.0, 430.0);
const LABELS_GAP: f64 = 26.0;
const LABELS_WIDTH: f64 = 230.0;
const KEY_WIDTH: f64 = 42.0;
/// Dots along the edges of a band.
const BAND_EDGE: &[f64] = &[2.0, 4.0];

/// One line.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// The line's name.
    pub label: String,
    /// Its points in order; a point that is not finite leaves a gap.
    pub points: Vec<(f64, f64)>,
}

/// A band behind the lines, such as the pocket's tolerance.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// Its lower and its upper edge, in the order of x.
    pub edges: Vec<BandEdges>,
    /// The only line that it is about; it is drawn as dots in that line's colour. Filled when it is
    /// about all of them.
    pub line: Option<usize>,
    /// The name of the band.
    pub label: String,
}

/// A band at one x. A value that is not finite, or edges the wrong way round, leave a gap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BandEdges {
    /// Where.
    pub x: f64,
    /// The lower edge, on the y axis.
    pub from: f64,
    /// The upper edge, on the y axis.
    pub to: f64,
}

impl Band {
    /// Its stretches without a gap, of two places or more; of a band at one place, that.
    fn runs(&self) -> impl DoubleEndedIterator<Item = &[BandEdges]> {
        let is_gap = |at: &BandEdges| {
            !(at.x.is_finite() && at.from.is_finite() && at.to.is_finite() && at.from <= at.to)
        };
        self.edges.split(is_gap).filter(|run| run.len() > 1 || self.edges.len() == 1)
    }
}

/// Lines as a picture.
#[derive(Debug, Clone, PartialEq)]
pub struct LinesPicture {
    /// Title of the picture.
    pub title: String,
    /// The conditions in words, one line each.
    pub subtitles: Vec<String>,
    /// The horizontal axis.
    pub x: NumericAxis,
    /// The vertical axis.
    pub y: NumericAxis,
    /// The lines, told apart by dash and marker as well as by colour.
    pub series: Vec<Series>,
    /// Bands behind the lines.
    pub bands: Vec<Band>,
    /// Footnotes.
    pub notes: Vec<String>,
    /// Its look.
    pub look: PictureLook,
}

impl LinesPicture {
    pub(super) fn canvas(&self) -> Result<Canvas, PictureError> {
        if self.series.len() > MOST_SERIES {
            return Err(PictureError::TooManySeries {
                series: self.series.len(),
                most: MOST_SERIES,
            });
        }
        let points: usize = self.series.iter().map(|series| series.points.len()).sum();
        if points > MOST_POINTS {
            return Err(PictureError::TooManyPoints { points, most: MOST_POINTS });
        }
        let finite = || self.series.iter().flat_map(|series| finite(&series.points));
        let edges = self.bands.iter().flat_map(Band::runs).flatten();
        let edges = edges.flat_map(|at| [at.from, at.to]);
        let x = Scale::over("x", finite().map(|(x, _)| x), PLOT.0 / 80.0)?.worded(&self.x.words);
        let y = Scale::over("y", finite().map(|(_, y)| y).chain(edges), PLOT.1 / 52.0)?;

        let (y_labels, y_width) = y.labels();
        let mut canvas = Canvas::new(font::clean(&self.title), self.description());
        let left = MARGIN + 28.0 + y_width + 10.0;
        let beside = if self.look.legend { LABELS_GAP + LABELS_WIDTH } else { 0.0 };
        canvas.width = left + PLOT.0 + beside + MARGIN;
        let top = page::header(&mut canvas, &self.title, &self.subtitles);
        let plot = LinesPlot { corner: (left, top + 6.0), x, y };
        plot.draw_bands(&mut canvas, &self.bands);
        plot.draw_axes(&mut canvas, &y_labels, &self.x, &self.y);
        for (index, series) in self.series.iter().enumerate() {
            plot.draw_line(&mut canvas, index, &series.points);
        }
        let labels_bottom = if self.look.legend {
            plot.draw_labels(&mut canvas, &self.series, &self.bands)
        } else {
            top
        };
        let bottom = plot.corner.1 + PLOT.1 + 62.0;
        let mut notes: Vec<String> = self.notes.iter().map(|note| font::clean(note)).collect();
        let without = points - finite().count();
        if without > 0 {
            let have = if without == 1 { "has" } else { "have" };
            notes.push(format!(
                "{without} of {points} points {have} no number; a line has a gap there."
            ));
        }
        page::footer(&mut canvas, &notes, bottom.max(labels_bottom + 20.0));
        Ok(canvas)
    }

    fn description(&self) -> String {
        let labels = self.series.iter().map(|series| font::clean(&series.label));
        page::description(&self.subtitles, (&self.x.words(), &self.y.words()), labels)
    }
}

const fn edge_of_band(colour: Rgb) -> Pen {
    Pen { dashes: BAND_EDGE, ..Pen::plain(1.0, colour) }
}

fn finite(points: &[(f64, f64)]) -> impl DoubleEndedIterator<Item = (f64, f64)> {
    points.iter().copied().filter(|(x, y)| x.is_finite() && y.is_finite())
}

struct LinesPlot {
    corner: (f64, f64),
    x: Scale,
    y: Scale,
}

impl LinesPlot {
    fn at(&self, (x, y): (f64, f64)) -> (f64, f64) {
        (self.corner.0 + self.x.share(x) * PLOT.0, self.corner.1 + (1.0 - self.y.share(y)) * PLOT.1)
    }

    /// The edges of a run of a band on the page: the lower, then the upper.
    fn edges(&self, run: &[BandEdges]) -> [Vec<(f64, f64)>; 2] {
        let edge = |y: fn(&BandEdges) -> f64| {
            if let [only] = run {
                // One value has no width of its own: across the plot.
                let (left, height) = (self.corner.0, self.at((only.x, y(only))).1);
                return vec![(left, height), (left + PLOT.0, height)];
            }
            run.iter().map(|at| self.at((at.x, y(at)))).collect::<Vec<_>>()
        };
        [edge(|at| at.from), edge(|at| at.to)]
    }

    fn draw_bands(&self, canvas: &mut Canvas, bands: &[Band]) {
        for band in bands {
            let colour = band.line.map_or(FRAME, |line| markers::line_look(line).colour);
            for run in band.runs() {
                let [low, high] = self.edges(run);
                if band.line.is_none() {
                    let outline: Vec<_> = low.iter().chain(high.iter().rev()).copied().collect();
                    canvas.polygon(&outline, BAND);
                }
                for edge in [low, high] {
                    canvas.trace(Contour::through(&edge, false), edge_of_band(colour));
                }
            }
        }
    }

    fn draw_axes(
        &self,
        canvas: &mut Canvas,
        y_labels: &[String],
        x_axis: &NumericAxis,
        y_axis: &NumericAxis,
    ) {
        let (left, top) = self.corner;
        let bottom = top + PLOT.1;
        for (value, label) in self.y.ticks.iter().zip(y_labels) {
            let y = self.at((0.0, *value)).1;
            canvas.stroke(&[(left, y), (left + PLOT.0, y)], 1.0, HAIRLINE);
            canvas.text(label, (left - 8.0, y + 4.0), Anchor::End, TICK);
        }
        for (value, label) in self.x.ticks.iter().zip(self.x.labels().0) {
            let x = self.at((*value, 0.0)).0;
            canvas.stroke(&[(x, bottom), (x, bottom + 5.0)], 1.0, FRAME);
            canvas.text(&label, (x, bottom + 19.0), Anchor::Middle, TICK);
        }
        if self.y.contains(0.0) {
            let y = self.at((0.0, 0.0)).1;
            canvas.stroke(&[(left, y), (left + PLOT.0, y)], 1.0, FRAME);
        }
        canvas.stroke(&[(left, bottom), (left + PLOT.0, bottom)], 1.25, FRAME);
        let titles = (x_axis.words(), y_axis.words());
        page::axis_titles(canvas, (&titles.0, &titles.1), (left, top), PLOT);
    }

    fn draw_line(&self, canvas: &mut Canvas, index: usize, points: &[(f64, f64)]) {
        let look = markers::line_look(index);
        for run in points.split(|(x, y)| !(x.is_finite() && y.is_finite())) {
            let path =
                markers::envelope(markers::thinned(run.iter().map(|point| self.at(*point)), 0.5));
            canvas.trace(Contour::through(&path, false), look.trace());
            for at in markers::marked(&path) {
                markers::draw(canvas, look, at);
            }
        }
    }

    /// Writes each line's and each band's label to the right of the plot, at its own height where
    /// there is room, with a sample; returns where the labels end.
    fn draw_labels(&self, canvas: &mut Canvas, series: &[Series], bands: &[Band]) -> f64 {
        let label = |of: LabelSubject, text: &str, at: Option<(f64, f64)>| {
            let room = LABELS_WIDTH - KEY_WIDTH;
            let text = font::wrap(&font::clean(text), TERM.em, TERM.weight, room, 2);
            let height = page::paragraph_height(text.len().max(1), TERM);
            Label { of, text, height, at, top: 0.0 }
        };
        let mut labels: Vec<Label> = Vec::new();
        for (index, series) in series.iter().enumerate() {
            let end = finite(&series.points).next_back().map(|point| self.at(point));
            labels.push(label(LabelSubject::Line(index), &series.label, end));
        }
        // Bands of single lines share one label.
        let mut of_lines = false;
        for band in bands {
            let Some(end) = band.runs().last().and_then(|run| run.last().copied()) else {
                continue;
            };
            if band.line.is_some() && std::mem::replace(&mut of_lines, true) {
                continue;
            }
            // Beside the lower edge, where fewer lines end than in the middle.
            let [low, high] = [end.from, end.to].map(|y| self.at((end.x, y)).1);
            let at = (self.corner.0, (low - 10.0).max(high));
            let of = if band.line.is_some() { LabelSubject::Dots } else { LabelSubject::Band };
            labels.push(label(of, &band.label, Some(at)));
        }
        let middle = self.corner.1 + PLOT.1 / 2.0;
        let wanted = |label: &Label| label.at.map_or(middle, |(_, y)| y);
        labels.sort_by(|a, b| wanted(a).total_cmp(&wanted(b)));
        spread(&mut labels, wanted, (self.corner.1, self.corner.1 + PLOT.1));

        let left = self.corner.0 + PLOT.0 + LABELS_GAP;
        let mut bottom = self.corner.1;
        for label in &labels {
            let y = label.top + page::paragraph_height(1, TERM) / 2.0;
            self.draw_sample(canvas, label, (left, y));
            let style = if matches!(label.of, LabelSubject::Line(_)) { TERM } else { PHRASE };
            bottom = page::paragraph(canvas, &label.text, (left + KEY_WIDTH, label.top), style);
        }
        bottom
    }

    /// Draws a piece of the line or band that a label names.
    fn draw_sample(&self, canvas: &mut Canvas, label: &Label, (x, y): (f64, f64)) {
        let length = KEY_WIDTH - 8.0;
        let LabelSubject::Line(index) = label.of else {
            if label.of == LabelSubject::Band {
                canvas.rectangle((x, y - 7.0), (length, 14.0), BAND);
            }
            for edge in [y - 7.0, y + 7.0] {
                let line = Contour::through(&[(x, edge), (x + length, edge)], false);
                canvas.trace(line, edge_of_band(FRAME));
            }
            return;
        };
        let look = markers::line_look(index);
        // A thread from the line's end to its label, only where it crosses nothing.
        if let Some((end_x, end_y)) = label.at
            && end_x > self.corner.0 + 0.985 * PLOT.0
        {
            canvas.stroke(&[(end_x + 7.0, end_y), (x - 4.0, y)], 0.75, look.colour);
        }
        canvas.trace(Contour::through(&[(x, y), (x + length, y)], false), look.trace());
        markers::draw(canvas, look, (x + length / 2.0, y));
    }
}

/// The thing that a label names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum LabelSubject {
    Line(usize),
    Band,
    /// The dotted bands of single lines.
    Dots,
}

struct Label {
    of: LabelSubject,
    text: Vec<String>,
    height: f64,
    /// A line's end, or a place at the side of a band.
    at: Option<(f64, f64)>,
    top: f64,
}

/// Sets the labels' tops near where they are wanted, in order, without overlap; they start above
/// `to` as far as they fit.
fn spread(labels: &mut [Label], wanted: impl Fn(&Label) -> f64, (from, to): (f64, f64)) {
    const GAP: f64 = 7.0;
    let line = page::paragraph_height(1, TERM);
    let mut free = from - line / 2.0;
    for label in labels.iter_mut() {
        label.top = (wanted(label) - line / 2.0).max(free);
        free = label.top + label.height + GAP;
    }
    let mut limit = to + line / 2.0;
    for label in labels.iter_mut().rev() {
        label.top = label.top.min(limit - label.height);
        limit = label.top - GAP;
    }
    // Too many for the height: let them run on below instead of above.
    let above = (from - line / 2.0) - labels.first().map_or(0.0, |label| label.top);
    if above > 0.0 {
        for label in labels.iter_mut() {
            label.top += above;
        }
    }
}
