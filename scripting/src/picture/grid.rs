//! Draws a map: panels of shaded cells on shared axes, with a legend beside them.

use super::blocks::{Block, blocks};
use super::canvas::{Anchor, Canvas, Lettering};
use super::colours::{self, FRAME, INK, PAPER, Rgb};
use super::font::{self, Weight};
use super::grid_layout::{Layout, label_every, labels};
use super::legend::{self, Entry};
use super::map::Axis;
use super::page::{self, AXIS, CAPTION, MARGIN, TICK};
use super::shading::{Look, Mark, Texture};

/// Cells at least this large are set off by paper-coloured lines.
const LEAST_GRIDDED: f64 = 7.0;
/// Distance between the lines of a hatch, along each axis.
const HATCH_PITCH: f64 = 8.0;
const LEGEND_GAP: f64 = 40.0;
/// Ticks side by side are at least this far apart.
const LABEL_GAP: f64 = 8.0;

/// One panel, ready to be drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct GridPanel {
    pub(super) caption: String,
    pub(super) summary: String,
    /// Row after row from the bottom.
    pub(super) looks: Vec<Look>,
}

/// A map, ready to be drawn; the panels' cells fill the axes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Grid<'a> {
    pub(super) title: &'a str,
    pub(super) subtitles: &'a [String],
    pub(super) x: &'a Axis,
    pub(super) y: &'a Axis,
    pub(super) panels: Vec<GridPanel>,
    pub(super) legend: Vec<Entry>,
    /// What is added to the legend where cells have room for a number or a pair of letters.
    pub(super) when_written: Option<Entry>,
    pub(super) footnotes: Vec<String>,
}

impl Grid<'_> {
    pub(super) fn draw(&self) -> Canvas {
        let (x_labels, x_width) = labels(&self.x.ticks);
        let (y_labels, y_width) = labels(&self.y.ticks);
        let widest_caption = self
            .panels
            .iter()
            .map(|panel| font::width(&panel.caption, CAPTION.em, CAPTION.weight))
            .fold(0.0, f64::max);
        let size = (self.x.ticks.len(), self.y.ticks.len());
        let numbers = self.x.ticks.iter().all(|tick| tick.parse::<f64>().is_ok());
        let word = if numbers { 0.0 } else { x_width + LABEL_GAP + 1.0 };
        let layout = Layout::new(self.panels.len(), size, y_width, (word, widest_caption));

        let mut canvas = Canvas::new(&font::clean(self.title), &self.description());
        canvas.width = 2.0 * MARGIN + layout.width() + LEGEND_GAP + legend::WIDTH;
        let top = page::header(&mut canvas, self.title, self.subtitles);
        for (index, panel) in self.panels.iter().enumerate() {
            let (x, y) = layout.corner(index);
            let corner = (MARGIN + x, top + y);
            caption(&mut canvas, panel, corner, &layout);
            cells(&mut canvas, &panel.looks, corner, &layout, self.x.ticks.len());
            x_ticks(&mut canvas, &x_labels, x_width, corner, &layout);
            if index % layout.panel_columns == 0 {
                y_ticks(&mut canvas, &y_labels, corner, &layout);
            }
        }
        self.y_title(&mut canvas, top + layout.corner(0).1, layout.cells_height());
        let x_title = page::with_unit(&self.x.title, &self.x.unit);
        let left = MARGIN + layout.corner(0).0;
        let room = layout.width() + MARGIN - left;
        let bottom = top + layout.height();
        let x_title = font::fit(&x_title, AXIS.em, AXIS.weight, room);
        canvas.text(&x_title, (left + room / 2.0, bottom + 18.0), Anchor::Middle, AXIS);

        let legend_at = (MARGIN + layout.width() + LEGEND_GAP, top + 4.0);
        let written = self.when_written.iter().filter(|_| self.is_written(layout.cell));
        let entries: Vec<&Entry> = self.legend.iter().chain(written).collect();
        let legend_bottom = legend::draw(&mut canvas, &entries, legend_at);
        page::footer(&mut canvas, &self.footnotes, (bottom + 42.0).max(legend_bottom + 24.0));
        canvas
    }

    /// The title of the y axis once for all rows of panels, in two lines if it must be.
    fn y_title(&self, canvas: &mut Canvas, top: f64, height: f64) {
        let title = page::with_unit(&self.y.title, &self.y.unit);
        let lines = font::wrap(&title, AXIS.em, AXIS.weight, height.max(140.0), 2);
        for (line, back) in lines.iter().rev().zip([0.0, 16.0]) {
            let at = (MARGIN + 11.0 - back, top + height / 2.0);
            canvas.turned_text(line, at, Anchor::Middle, AXIS);
        }
    }

    /// Whether any cell has room for all of a mark that needs explaining.
    fn is_written(&self, cell: (f64, f64)) -> bool {
        let fuller = |look: &&Look| !matches!(look.mark, Mark::Letter(_));
        self.panels.iter().flat_map(|panel| &panel.looks).filter(fuller).any(|look| {
            look.mark.texts().first().is_some_and(|text| fits(text, mark_style(look, cell), cell))
        })
    }

    /// What a reader that cannot show the picture says.
    fn description(&self) -> String {
        let mut parts: Vec<String> = self.subtitles.iter().map(|s| font::clean(s)).collect();
        parts.push(format!(
            "Across: {}. Up: {}.",
            page::with_unit(&self.x.title, &self.x.unit),
            page::with_unit(&self.y.title, &self.y.unit)
        ));
        for panel in &self.panels {
            parts.push(format!("{}: {}.", panel.caption, panel.summary));
        }
        parts.retain(|part| !part.is_empty());
        parts.join(" ")
    }
}

fn caption(canvas: &mut Canvas, panel: &GridPanel, (x, y): (f64, f64), layout: &Layout) {
    let room = layout.caption_width();
    let caption = font::fit(&panel.caption, CAPTION.em, CAPTION.weight, room);
    canvas.text(&caption, (x, y - 25.0), Anchor::Start, CAPTION);
    let summary = font::fit(&panel.summary, TICK.em, TICK.weight, room);
    canvas.text(&summary, (x, y - 9.0), Anchor::Start, TICK);
}

fn x_ticks(
    canvas: &mut Canvas,
    labels: &[String],
    widest: f64,
    (x, y): (f64, f64),
    layout: &Layout,
) {
    let bottom = y + layout.panel.1;
    let every = label_every(layout.cell.0, widest + LABEL_GAP, labels.len());
    for (index, label) in labels.iter().enumerate().step_by(every) {
        let at = x + (index as f64 + 0.5) * layout.cell.0;
        canvas.stroke(vec![(at, bottom), (at, bottom + 4.0)], 1.0, FRAME);
        canvas.text(label, (at, bottom + 16.0), Anchor::Middle, TICK);
    }
}

fn y_ticks(canvas: &mut Canvas, labels: &[String], (x, y): (f64, f64), layout: &Layout) {
    let every = label_every(layout.cell.1, 15.0, labels.len());
    for (index, label) in labels.iter().enumerate().step_by(every) {
        let at = y + layout.panel.1 - (index as f64 + 0.5) * layout.cell.1;
        canvas.stroke(vec![(x - 4.0, at), (x, at)], 1.0, FRAME);
        canvas.text(label, (x - 8.0, at + 4.0), Anchor::End, TICK);
    }
}

/// Draws a panel's cells: shades, textures, hatches, then marks, so that nothing hides a verdict.
fn cells(canvas: &mut Canvas, looks: &[Look], (x, y): (f64, f64), layout: &Layout, columns: usize) {
    let (w, h) = layout.cell;
    let rows = looks.len() / columns;
    let place = |block: &Block| {
        let corner =
            (x + block.columns.start as f64 * w, y + layout.panel.1 - block.rows.end as f64 * h);
        (corner, (block.columns.len() as f64 * w, block.rows.len() as f64 * h))
    };
    let at = |column: usize, row: usize| looks[row * columns + column];

    // The page already is paper.
    for (block, fill) in blocks(columns, rows, |c, r| Some(at(c, r).fill).filter(|f| *f != PAPER)) {
        let (corner, size) = place(&block);
        canvas.rectangle(corner, size, fill);
    }
    let textured =
        |look: Look| (look.texture != Texture::Plain).then_some((look.texture, look.fill));
    for (block, (texture, fill)) in blocks(columns, rows, |c, r| textured(at(c, r))) {
        let (corner, size) = place(&block);
        draw_texture(canvas, texture, fill, corner, size);
    }
    let hatched = |look: Look| look.flagged.then_some(colours::readable_on(look.fill));
    for (block, colour) in blocks(columns, rows, |c, r| hatched(at(c, r))) {
        let (corner, size) = place(&block);
        hatch(canvas, colour, corner, size);
    }
    if w >= LEAST_GRIDDED && h >= LEAST_GRIDDED {
        for column in 1..columns {
            let at = x + column as f64 * w;
            canvas.stroke(vec![(at, y), (at, y + layout.panel.1)], 1.0, PAPER);
        }
        for row in 1..rows {
            let at = y + row as f64 * h;
            canvas.stroke(vec![(x, at), (x + layout.panel.0, at)], 1.0, PAPER);
        }
    }
    for row in 0..rows {
        for column in 0..columns {
            let corner = (x + column as f64 * w, y + layout.panel.1 - (row + 1) as f64 * h);
            draw_mark(canvas, &at(column, row), corner, (w, h));
        }
    }
    canvas.frame((x, y), layout.panel, 1.0, FRAME);
}

/// The lettering of a cell's mark.
fn mark_style(look: &Look, (w, h): (f64, f64)) -> Lettering {
    let em = (0.5 * h).min(0.6 * w).clamp(9.0, 11.5);
    Lettering { em, weight: Weight::Bold, colour: colours::readable_on(look.fill) }
}

fn fits(text: &str, style: Lettering, (w, h): (f64, f64)) -> bool {
    let long = font::width(text, style.em, style.weight);
    !text.is_empty() && h >= 13.0 && w >= 12.0 && long <= w - 5.0
}

/// Writes a cell's mark, or the part of it that there is room for.
fn draw_mark(canvas: &mut Canvas, look: &Look, (x, y): (f64, f64), (w, h): (f64, f64)) {
    let style = mark_style(look, (w, h));
    let Some(text) = look.mark.texts().into_iter().find(|text| fits(text, style, (w, h))) else {
        return;
    };
    let middle = (x + w / 2.0, y + h / 2.0);
    if look.flagged || look.texture != Texture::Plain {
        // A rest in the pattern, or it would run through the letters.
        let long = font::width(&text, style.em, style.weight);
        let half = ((long / 2.0 + 2.0).min(w / 2.0 - 1.0), 0.62 * style.em);
        let corner = (middle.0 - half.0, middle.1 - half.1);
        canvas.rectangle(corner, (2.0 * half.0, 2.0 * half.1), look.fill);
    }
    canvas.text(&text, (middle.0, middle.1 + 0.365 * style.em), Anchor::Middle, style);
}

fn draw_texture(
    canvas: &mut Canvas,
    texture: Texture,
    fill: Rgb,
    (x, y): (f64, f64),
    (w, h): (f64, f64),
) {
    if texture == Texture::Falling {
        falling(canvas, (x, y), (w, h));
        return;
    }
    let colour = if fill == colours::NO_VERDICT_DARK { INK } else { colours::SOFT_INK };
    let (level, upright) = match texture {
        Texture::Plain | Texture::Falling => (None, None),
        Texture::Level => (Some(6.0), None),
        Texture::LevelDense => (Some(3.5), None),
        Texture::Upright => (None, Some(6.0)),
        Texture::Crossed => (Some(6.0), Some(6.0)),
    };
    // Lines lie on a lattice of the page, so that neighbouring blocks continue each other.
    for at in level.into_iter().flat_map(|pitch| lattice(y, y + h, pitch)) {
        canvas.stroke_through(vec![(x, at), (x + w, at)], 0.75, colour, 0.75);
    }
    for at in upright.into_iter().flat_map(|pitch| lattice(x, x + w, pitch)) {
        canvas.stroke_through(vec![(at, y), (at, y + h)], 0.75, colour, 0.75);
    }
}

/// Slanting lines over a box, on a lattice of the page.
fn hatch(canvas: &mut Canvas, colour: Rgb, (x, y): (f64, f64), (w, h): (f64, f64)) {
    let (right, bottom) = (x + w, y + h);
    for sum in lattice(x + y, right + bottom, HATCH_PITCH) {
        let (from, to) = ((sum - bottom).max(x), (sum - y).min(right));
        if to > from {
            canvas.stroke_through(vec![(from, sum - from), (to, sum - to)], 1.0, colour, 0.6);
        }
    }
}

/// Faint lines that slant against a hatch.
fn falling(canvas: &mut Canvas, (x, y): (f64, f64), (w, h): (f64, f64)) {
    let (right, bottom) = (x + w, y + h);
    for difference in lattice(x - bottom, right - y, HATCH_PITCH) {
        let (from, to) = ((y + difference).max(x), (bottom + difference).min(right));
        if to > from {
            let ends = vec![(from, from - difference), (to, to - difference)];
            canvas.stroke(ends, 1.0, colours::HAIRLINE);
        }
    }
}

/// Multiples of `pitch` strictly between two places.
fn lattice(from: f64, to: f64, pitch: f64) -> impl Iterator<Item = f64> {
    let first = (from / pitch).floor() + 1.0;
    (0..).map(move |k| (first + f64::from(k)) * pitch).take_while(move |at| *at < to - 1e-9)
}

/// A look without pattern or flag.
pub(super) const fn plain_look(fill: Rgb, letter: &'static str) -> Look {
    Look { fill, texture: Texture::Plain, mark: Mark::Letter(letter), flagged: false }
}

/// One look as a framed swatch of a legend.
pub(super) fn swatch(canvas: &mut Canvas, look: &Look, corner: (f64, f64), size: (f64, f64)) {
    canvas.rectangle(corner, size, look.fill);
    draw_texture(canvas, look.texture, look.fill, corner, size);
    if look.flagged {
        hatch(canvas, colours::readable_on(look.fill), corner, size);
    }
    draw_mark(canvas, look, corner, size);
    canvas.frame(corner, size, 0.75, FRAME);
}
