//! Draws a map: panels of shaded cells on shared axes, with a legend beside them.

use super::axes::PictureAxis;
use super::blocks::{Block, blocks};
use super::boundary;
use super::canvas::{Anchor, Canvas, Paint, Pen};
use super::cells::{Pattern, draw_mark, fits, mark_style, plain_look, texture_of};
use super::colours::{FRAME, PAPER, Rgb};
use super::contour::Contour;
use super::font;
use super::grid_layout::{PanelLayout, label_every, labels};
use super::legend::{self, LegendEntry, LegendPlace, Swatch};
use super::level_lines::{ChanceField, LinePlace};
use super::page::{self, AXIS, CAPTION, MARGIN, TICK};
use super::shading::{CellLook, CellText, Fineness, MissUnit};
use std::collections::BTreeMap;

/// Cells at least this large are set off by paper-coloured lines.
const LEAST_GRIDDED: f64 = 7.0;
const LEGEND_GAP: f64 = 40.0;
/// Ticks side by side are at least this far apart.
const LABEL_GAP: f64 = 8.0;

/// One panel, ready to be drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct GridPanel {
    pub(super) caption: String,
    pub(super) summary: String,
    /// Row after row from the bottom.
    pub(super) looks: Vec<CellLook>,
    /// Beside them the chances between which lines run; empty for no lines.
    pub(super) chances: Vec<Option<f64>>,
}

/// The marks that a legend explains where a cell has room for one.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum WrittenMarks {
    /// Misses, in this unit.
    Misses(MissUnit),
    /// Others, by their entry.
    Others(Option<LegendEntry>),
}

/// A map, ready to be drawn; the panels' cells fill the axes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Grid<'a> {
    pub(super) title: &'a str,
    pub(super) subtitles: &'a [String],
    pub(super) x: &'a PictureAxis,
    pub(super) y: &'a PictureAxis,
    pub(super) panels: Vec<GridPanel>,
    pub(super) legend: Vec<LegendEntry>,
    /// The legend's entry for the boundary of flagged cells; its term stands beside the boundary,
    /// which is left out without one.
    pub(super) flag: LegendEntry,
    /// The marks of cells with room for more than a letter.
    pub(super) written: WrittenMarks,
    pub(super) footnotes: Vec<String>,
    pub(super) with_legend: bool,
    /// Panels side by side; as fits best unless it is said.
    pub(super) across: Option<usize>,
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
        let panels = (self.panels.len(), self.across);
        let layout = PanelLayout::new(panels, size, y_width, (word, widest_caption));

        let mut canvas = Canvas::new(font::clean(self.title), self.description());
        let fineness = self.fineness(layout.cell);
        let written = self.written(layout.cell, fineness);
        let entries = self.entries(&layout, written.as_ref());
        let place = LegendPlace::of(&entries, (layout.width(), layout.height()));
        let beside = match place {
            LegendPlace::Beside => LEGEND_GAP + legend::WIDTH,
            LegendPlace::None | LegendPlace::Under(_) => 0.0,
        };
        canvas.width = 2.0 * MARGIN + layout.width() + beside;
        let top = page::header(&mut canvas, self.title, self.subtitles);
        for (index, panel) in self.panels.iter().enumerate() {
            let (x, y) = layout.corner(index);
            let corner = (MARGIN + x, top + y);
            caption(&mut canvas, panel, corner, &layout);
            let columns = self.x.ticks.len();
            cells(&mut canvas, &panel.looks, corner, &layout, columns);
            let corner_below = (corner.0, corner.1 + layout.panel.1);
            let place = LinePlace { corner: corner_below, cell: layout.cell };
            let field = ChanceField { chances: &panel.chances, columns };
            place.draw(&mut canvas, field);
            let rests = !panel.chances.is_empty();
            let boxes = marks(&mut canvas, panel, corner, &layout, (columns, fineness, rests));
            place.label(&mut canvas, field, &boxes);
            canvas.frame(corner, layout.panel, 1.0, FRAME);
            if !self.flag.term.is_empty() {
                self.edge(panel, corner_below, &layout).draw(&mut canvas, &self.flag.term);
            }
            x_ticks(&mut canvas, &x_labels, x_width, corner, &layout);
            if index % layout.panel_columns == 0 {
                y_ticks(&mut canvas, &y_labels, corner, &layout);
            }
        }
        self.y_title(&mut canvas, top + layout.corner(0).1, layout.cells_height());
        let x_title = self.x.words();
        let left = MARGIN + layout.corner(0).0;
        let room = layout.width() + MARGIN - left;
        let bottom = top + layout.height();
        let x_title = font::fit(&x_title, AXIS.em, AXIS.weight, room);
        canvas.text(&x_title, (left + room / 2.0, bottom + 18.0), Anchor::Middle, AXIS);

        let end = match place {
            LegendPlace::None => bottom + 42.0,
            LegendPlace::Beside => {
                let at = (MARGIN + layout.width() + LEGEND_GAP, top + 4.0);
                (bottom + 42.0).max(legend::draw(&mut canvas, &entries, at) + 24.0)
            }
            LegendPlace::Under(columns) => {
                let at = (MARGIN, bottom + 44.0);
                legend::draw_columns(&mut canvas, &entries, at, columns) + 24.0
            }
        };
        page::footer(&mut canvas, &self.footnotes, end);
        canvas
    }

    /// The lines of the legend for what is drawn; none where no legend is wanted.
    fn entries<'a>(
        &'a self,
        layout: &PanelLayout,
        written: Option<&'a LegendEntry>,
    ) -> Vec<&'a LegendEntry> {
        if !self.with_legend {
            return Vec::new();
        }
        let bounded = |panel: &GridPanel| self.edge(panel, (0.0, 0.0), layout).is_bounded();
        let parted = !self.flag.term.is_empty() && self.panels.iter().any(bounded);
        let flag = parted.then_some(&self.flag);
        self.legend.iter().chain(flag).chain(written).collect()
    }

    fn edge<'a>(
        &self,
        panel: &'a GridPanel,
        corner: (f64, f64),
        layout: &PanelLayout,
    ) -> boundary::BoundaryPanel<'a> {
        let columns = self.x.ticks.len();
        boundary::BoundaryPanel { looks: &panel.looks, columns, corner, cell: layout.cell }
    }

    /// The title of the y axis once for all rows of panels, in two lines if it must be.
    fn y_title(&self, canvas: &mut Canvas, top: f64, height: f64) {
        let title = self.y.words();
        let lines = font::wrap(&title, AXIS.em, AXIS.weight, height.max(140.0), 2);
        for (line, back) in lines.iter().rev().zip([0.0, 16.0]) {
            let at = (MARGIN + 11.0 - back, top + height / 2.0);
            canvas.turned_text(line, at, Anchor::Middle, AXIS);
        }
    }

    /// The marks of more than a letter, and whether a cell has room for all of each.
    fn full_marks(
        &self,
        cell: (f64, f64),
        fineness: Fineness,
    ) -> impl Iterator<Item = (CellText, bool)> {
        let looks = self.panels.iter().flat_map(|panel| &panel.looks);
        looks
            .filter(|look| !matches!(look.mark, CellText::Letter(_) | CellText::Hundredths(..)))
            .map(move |look| {
                let texts = look.mark.texts(fineness);
                let fits = |text: &String| fits(text, mark_style(look, cell), cell);
                (look.mark, texts.first().is_some_and(fits))
            })
    }

    /// Fine, unless a number would then be lost that is not lost without its decimals.
    fn fineness(&self, cell: (f64, f64)) -> Fineness {
        let lost = |fineness| self.full_marks(cell, fineness).filter(|(_, fits)| !fits).count();
        let fine = lost(Fineness::Fine);
        if fine == 0 || lost(Fineness::Coarse) == fine { Fineness::Fine } else { Fineness::Coarse }
    }

    /// The legend's entry for such marks, where one is written. Numbers that have no room are told.
    fn written(&self, cell: (f64, f64), fineness: Fineness) -> Option<LegendEntry> {
        self.full_marks(cell, fineness).find(|(_, fits)| *fits)?;
        let unit = match &self.written {
            WrittenMarks::Others(entry) => return entry.clone(),
            WrittenMarks::Misses(unit) => *unit,
        };
        let word = unit.word(fineness);
        let lost = self.full_marks(cell, fineness).filter(|(_, fits)| !fits);
        let least = lost.filter_map(|(mark, _)| match mark {
            CellText::Miss(_, count, _) => Some(count),
            _ => None,
        });
        let lost = least.min().map_or_else(String::new, |count| {
            format!("; a letter without a number: {} or more", unit.shown(count, fineness))
        });
        Some(LegendEntry {
            swatch: Swatch::Single(plain_look(PAPER, "34")),
            term: "number in a cell".to_owned(),
            phrase: format!(
                "the miss in {word}: how far from the middle of the mouth the ball's path passes{lost}"
            ),
        })
    }

    /// The words of a reader that cannot show the picture.
    fn description(&self) -> String {
        let panels = self.panels.iter().map(|it| format!("{}: {}.", it.caption, it.summary));
        page::description(self.subtitles, (&self.x.words(), &self.y.words()), panels)
    }
}

fn caption(canvas: &mut Canvas, panel: &GridPanel, (x, y): (f64, f64), layout: &PanelLayout) {
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
    layout: &PanelLayout,
) {
    let bottom = y + layout.panel.1;
    let every = label_every(layout.cell.0, widest + LABEL_GAP, labels.len());
    for (index, label) in labels.iter().enumerate().step_by(every) {
        let at = x + (index as f64 + 0.5) * layout.cell.0;
        canvas.stroke(&[(at, bottom), (at, bottom + 4.0)], 1.0, FRAME);
        canvas.text(label, (at, bottom + 16.0), Anchor::Middle, TICK);
    }
}

fn y_ticks(canvas: &mut Canvas, labels: &[String], (x, y): (f64, f64), layout: &PanelLayout) {
    let every = label_every(layout.cell.1, 15.0, labels.len());
    for (index, label) in labels.iter().enumerate().step_by(every) {
        let at = y + layout.panel.1 - (index as f64 + 0.5) * layout.cell.1;
        canvas.stroke(&[(x - 4.0, at), (x, at)], 1.0, FRAME);
        canvas.text(label, (x - 8.0, at + 4.0), Anchor::End, TICK);
    }
}

/// Draws a panel's cells: shades, then textures; marks come after all lines, so that nothing hides a verdict.
fn cells(
    canvas: &mut Canvas,
    looks: &[CellLook],
    (x, y): (f64, f64),
    layout: &PanelLayout,
    columns: usize,
) {
    let (w, h) = layout.cell;
    let rows = looks.len() / columns;
    let place = |block: &Block| {
        let corner =
            (x + block.columns.start as f64 * w, y + layout.panel.1 - block.rows.end as f64 * h);
        (corner, (block.columns.len() as f64 * w, block.rows.len() as f64 * h))
    };
    let at = |column: usize, row: usize| looks[row * columns + column];

    // Equal looks are one thing each; the page already is paper.
    let mut areas: BTreeMap<Rgb, Vec<Contour>> = BTreeMap::new();
    for (block, fill) in blocks(columns, rows, |c, r| Some(at(c, r).fill).filter(|f| *f != PAPER)) {
        let (corner, size) = place(&block);
        areas.entry(fill).or_default().push(Contour::rectangle(corner, size));
    }
    for (fill, area) in areas {
        canvas.curves(area, Paint { crisp: true, ..Paint::area(fill) });
    }
    let mut patterns: BTreeMap<Pattern, Vec<Contour>> = BTreeMap::new();
    for (block, pattern) in blocks(columns, rows, |c, r| texture_of(&at(c, r))) {
        let (corner, size) = place(&block);
        patterns.entry(pattern).or_default().extend(pattern.lines(corner, size));
    }
    for (pattern, lines) in patterns {
        canvas.curves(lines, pattern.paint());
    }
    if w >= LEAST_GRIDDED && h >= LEAST_GRIDDED {
        let upright = (1..columns).map(|column| x + column as f64 * w);
        let level = (1..rows).map(|row| y + row as f64 * h);
        let upright = upright.map(|at| [(at, y), (at, y + layout.panel.1)]);
        let level = level.map(|at| [(x, at), (x + layout.panel.0, at)]);
        let lines = upright.chain(level).map(|ends| Contour::through(&ends, false)).collect();
        canvas.curves(lines, Paint::line(Pen::plain(1.0, PAPER)));
    }
}

/// Writes a panel's marks, and gives the middle and half the size of each.
fn marks(
    canvas: &mut Canvas,
    panel: &GridPanel,
    (x, y): (f64, f64),
    layout: &PanelLayout,
    (columns, fineness, rests): (usize, Fineness, bool),
) -> Vec<((f64, f64), (f64, f64))> {
    let (w, h) = layout.cell;
    let mut boxes = Vec::new();
    for (place, look) in panel.looks.iter().enumerate() {
        let (column, row) = (place % columns, place / columns);
        let corner = (x + column as f64 * w, y + layout.panel.1 - (row + 1) as f64 * h);
        if let Some(half) = draw_mark(canvas, look, (corner, (w, h)), (fineness, rests)) {
            boxes.push(((corner.0 + w / 2.0, corner.1 + h / 2.0), half));
        }
    }
    boxes
}
