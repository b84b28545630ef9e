//! Where a rule holds over two numeric axes: the region and its edges, in one or several panels.

use super::canvas::{Anchor, Canvas, Lettering};
use super::colours::{FRAME, HOLDS, INK, NO_VERDICT_LIGHT, PAPER};
use super::font::{self, Weight};
use super::frontier_key::{self, curve_look};
use super::lines::NumericAxis;
use super::lines_axes::Scale;
use super::markers;
use super::page::{self, AXIS, CAPTION, MARGIN, PHRASE, TICK};
use super::{MOST_PANELS, MOST_POINTS, PictureError, png_file, svg_file};

/// Room for the panels, and a row's height by the number of rows.
const MAIN_WIDTH: f64 = 940.0;
const HEIGHTS: [f64; 4] = [400.0, 268.0, 205.0, 190.0];
/// Between panels: from one plot to the next one's.
const GAP: (f64, f64) = (26.0, 78.0);
const CAPTION_HEIGHT: f64 = 40.0;
const KEY_GAP: f64 = 34.0;
/// Words beside an edge.
const EDGE_WORD: Lettering = Lettering { em: 11.5, weight: Weight::Bold, colour: INK };
/// Shorter edges carry no word.
const LEAST_EDGE: f64 = 46.0;
/// Half the width of a bar, at most.
const WIDEST_BAR: f64 = 15.0;

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
    /// Where along x lines of their own were searched, between which nothing was traced; none for a panel
    /// of regions.
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
            self.draw_panel(&mut canvas, panel, &plot);
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

    fn draw_panel(&self, canvas: &mut Canvas, panel: &FrontierPanel, plot: &Plot<'_>) {
        let (left, top) = plot.corner;
        let caption = font::clean(&panel.caption);
        let caption = font::fit(&caption, CAPTION.em, CAPTION.weight, plot.size.0);
        let summary = font::clean(&panel.summary);
        let summary = font::fit(&summary, PHRASE.em, PHRASE.weight, plot.size.0);
        let lower = if caption.is_empty() { 22.0 } else { 24.0 };
        canvas.text(&caption, (left, top - lower), Anchor::Start, CAPTION);
        canvas.text(&summary, (left, top - 8.0), Anchor::Start, PHRASE);
        // What was searched, in grey; where it holds, light.
        let half = plot.bar_half(&panel.lines);
        if panel.lines.is_empty() {
            canvas.rectangle(plot.corner, plot.size, NO_VERDICT_LIGHT);
        }
        for x in &panel.lines {
            let (middle, top) = (plot.at((*x, 0.0)).0, plot.corner.1);
            canvas.rectangle((middle - half, top), (2.0 * half, plot.size.1), NO_VERDICT_LIGHT);
        }
        for region in &panel.regions {
            canvas.polygon(region.outline.iter().map(|point| plot.at(*point)).collect(), HOLDS);
        }
        plot.draw_hairlines(canvas);
        for curve in &panel.curves {
            plot.draw_curve(canvas, curve);
        }
        for bar in &panel.bars {
            plot.draw_bar(canvas, bar, half);
        }
        let mut taken = Vec::new();
        for curve in &panel.curves {
            plot.draw_word(canvas, curve, &panel.curves, &mut taken);
        }
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

struct Plot<'a> {
    corner: (f64, f64),
    size: (f64, f64),
    x: &'a Scale,
    y: &'a Scale,
}

impl Plot<'_> {
    fn at(&self, (x, y): (f64, f64)) -> (f64, f64) {
        (
            self.corner.0 + self.x.share(x) * self.size.0,
            self.corner.1 + (1.0 - self.y.share(y)) * self.size.1,
        )
    }

    fn draw_hairlines(&self, canvas: &mut Canvas) {
        let (left, top) = self.corner;
        for value in self.y.ticks.iter().filter(|value| self.y.contains(**value)) {
            let y = top + (1.0 - self.y.share(*value)) * self.size.1;
            canvas.stroke_through(vec![(left, y), (left + self.size.0, y)], 0.75, FRAME, 0.3);
        }
        for value in self.x.ticks.iter().filter(|value| self.x.contains(**value)) {
            let x = left + self.x.share(*value) * self.size.0;
            canvas.stroke_through(vec![(x, top), (x, top + self.size.1)], 0.75, FRAME, 0.3);
        }
    }

    fn draw_axes(&self, canvas: &mut Canvas, y_labels: &[String]) {
        let (left, top) = self.corner;
        let bottom = top + self.size.1;
        for (value, label) in self.y.ticks.iter().zip(y_labels) {
            let y = top + (1.0 - self.y.share(*value)) * self.size.1;
            canvas.text(label, (left - 8.0, y + 4.0), Anchor::End, TICK);
        }
        for (value, label) in self.x.ticks.iter().zip(self.x.labels().0) {
            let x = left + self.x.share(*value) * self.size.0;
            canvas.stroke(vec![(x, bottom), (x, bottom + 4.0)], 1.0, FRAME);
            canvas.text(&label, (x, bottom + 18.0), Anchor::Middle, TICK);
        }
        canvas.frame(self.corner, self.size, 1.0, FRAME);
    }

    fn path(&self, curve: &FrontierCurve) -> Vec<(f64, f64)> {
        let finite = curve.points.iter().filter(|(x, y)| x.is_finite() && y.is_finite());
        markers::thinned(finite.map(|point| self.at(*point)), 0.5)
    }

    fn draw_curve(&self, canvas: &mut Canvas, curve: &FrontierCurve) {
        let look = curve_look(curve.kind);
        let path = self.path(curve);
        // A ground of paper keeps the dashes apart from grey and hairlines.
        canvas.stroke(path.clone(), 4.0, PAPER);
        for dash in markers::dashes(&path, look.dashes) {
            canvas.stroke(dash, 2.25, look.colour);
        }
    }

    /// Half the width of a bar: apart from its nearest neighbour, and within the plot.
    fn bar_half(&self, lines: &[f64]) -> f64 {
        let (left, right) = (self.corner.0, self.corner.0 + self.size.0);
        let mut places: Vec<f64> = lines.iter().map(|x| self.at((*x, 0.0)).0).collect();
        places.extend([2.0 * left - right, 2.0 * right - left]);
        places.sort_by(f64::total_cmp);
        places.dedup();
        let nearest = places.windows(2).map(|pair| pair[1] - pair[0]).fold(f64::INFINITY, f64::min);
        (0.36 * nearest).clamp(1.0, WIDEST_BAR)
    }

    fn draw_bar(&self, canvas: &mut Canvas, bar: &FrontierBar, half: f64) {
        let (x, top) = self.at((bar.x, bar.to));
        let (_, bottom) = self.at((bar.x, bar.from));
        canvas.rectangle((x - half, top), (2.0 * half, bottom - top), HOLDS);
        for side in [x - half, x + half] {
            canvas.stroke(vec![(side, top), (side, bottom)], 0.75, FRAME);
        }
        for (kind, y) in [(bar.above, top), (bar.below, bottom)] {
            let Some(kind) = kind else { continue };
            let look = curve_look(kind);
            let ends = vec![(x - half - 2.0, y), (x + half + 2.0, y)];
            canvas.stroke(ends.clone(), 4.0, PAPER);
            for dash in markers::dashes(&ends, look.dashes) {
                canvas.stroke(dash, 2.5, look.colour);
            }
        }
    }

    /// Writes what happens beyond an edge beside it, outside the region, where nothing is in its way.
    fn draw_word(
        &self,
        canvas: &mut Canvas,
        curve: &FrontierCurve,
        all: &[FrontierCurve],
        taken: &mut Vec<[f64; 4]>,
    ) {
        let path = self.path(curve);
        let length: f64 = path.windows(2).map(|pair| distance(pair[0], pair[1])).sum();
        if length < LEAST_EDGE {
            return;
        }
        let word = curve_look(curve.kind).word;
        let half = (0.5 * font::width(word, EDGE_WORD.em, EDGE_WORD.weight), 0.4 * EDGE_WORD.em);
        for share in [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9] {
            let Some((at, along)) = point_at(&path, share * length) else { continue };
            // Square to the edge, away from the region: down the page below a lower edge.
            let mut normal = (-along.1, along.0);
            if (normal.1 > 0.0) != curve.lower {
                normal = (-normal.0, -normal.1);
            }
            let reach = 7.0 + half.0 * normal.0.abs() + half.1 * normal.1.abs();
            let middle = (at.0 + reach * normal.0, at.1 + reach * normal.1);
            let extent = [
                middle.0 - half.0 - 2.0,
                middle.1 - half.1 - 2.0,
                middle.0 + half.0 + 2.0,
                middle.1 + half.1 + 2.0,
            ];
            let inside = extent[0] > self.corner.0
                && extent[1] > self.corner.1
                && extent[2] < self.corner.0 + self.size.0
                && extent[3] < self.corner.1 + self.size.1;
            let free = taken.iter().all(|other| !overlap(other, &extent));
            let clear = all.iter().all(|other| {
                self.path(other).windows(2).all(|pair| !crosses(pair[0], pair[1], &extent))
            });
            if inside && free && clear {
                let baseline = (middle.0, middle.1 + half.1);
                canvas.text(word, baseline, Anchor::Middle, EDGE_WORD);
                taken.push(extent);
                return;
            }
        }
    }
}

fn distance(a: (f64, f64), b: (f64, f64)) -> f64 {
    (b.0 - a.0).hypot(b.1 - a.1)
}

/// The place so far along a path, and the path's direction there.
fn point_at(path: &[(f64, f64)], mut left: f64) -> Option<((f64, f64), (f64, f64))> {
    for pair in path.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let length = distance(a, b);
        if left <= length && length > 0.0 {
            let along = ((b.0 - a.0) / length, (b.1 - a.1) / length);
            return Some(((a.0 + left * along.0, a.1 + left * along.1), along));
        }
        left -= length;
    }
    None
}

fn overlap(a: &[f64; 4], b: &[f64; 4]) -> bool {
    a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
}

/// Whether a piece of a path runs through a box, by places close enough together.
fn crosses(a: (f64, f64), b: (f64, f64), of: &[f64; 4]) -> bool {
    let beside = (a.0 < of[0] && b.0 < of[0])
        || (a.0 > of[2] && b.0 > of[2])
        || (a.1 < of[1] && b.1 < of[1])
        || (a.1 > of[3] && b.1 > of[3]);
    !beside
        && (0..=16).any(|k| {
            let share = f64::from(k) / 16.0;
            let (x, y) = (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1));
            x > of[0] && x < of[2] && y > of[1] && y < of[3]
        })
}
