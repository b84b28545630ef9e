//! The legend beside a map: a swatch, a term, and its meaning.

use super::canvas::{Anchor, Canvas};
use super::cells;
use super::colours::{FRAME, Rgb};
use super::font;
use super::level_lines;
use super::page::{self, PHRASE, TERM, TICK};
use super::shading::{CellLook, MissUnit};

/// Width of a legend.
pub(super) const WIDTH: f64 = 262.0;

const SWATCH: (f64, f64) = (34.0, 20.0);
const TEXT_AT: f64 = 46.0;
const STEP_WIDTH: f64 = 34.0;
const BETWEEN: f64 = 13.0;
const COLUMN_GAP: f64 = 28.0;
/// A legend this much higher than the panels does not stand beside them.
const MOST_BESIDE: f64 = 1.25;

/// The sign that stands for a term.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Swatch {
    /// One look.
    Single(CellLook),
    /// Lines of equal chance.
    ChanceLines,
    /// Shades that deepen with the miss, with the misses between them.
    Ramp { fills: Vec<Rgb>, letter: &'static str, edges: Vec<String>, unit: MissUnit },
}

/// One line of a legend.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct LegendEntry {
    pub(super) swatch: Swatch,
    pub(super) term: String,
    pub(super) phrase: String,
}

/// Where a legend stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum LegendPlace {
    None,
    Beside,
    /// Under the panels, in so many columns: beside them it would leave half the page blank.
    Under(usize),
}

impl LegendPlace {
    /// The place beside or under panels of this size.
    pub(super) fn of(entries: &[&LegendEntry], (wide, high): (f64, f64)) -> Self {
        if entries.is_empty() {
            return Self::None;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "positive, and the cast saturates"
        )]
        let columns = ((wide + COLUMN_GAP) / (WIDTH + COLUMN_GAP)) as usize;
        let beside: f64 = entries.iter().map(|entry| height(entry)).sum();
        if columns >= 2 && beside > MOST_BESIDE * high {
            Self::Under(columns)
        } else {
            Self::Beside
        }
    }
}

/// The height of an entry with the space under it.
fn height(entry: &LegendEntry) -> f64 {
    draw(&mut Canvas::new(String::new(), String::new()), &[entry], (0.0, 0.0)) + BETWEEN
}

/// Draws the legend in columns of about one height, and returns where it ends.
pub(super) fn draw_columns(
    canvas: &mut Canvas,
    entries: &[&LegendEntry],
    (x, top): (f64, f64),
    columns: usize,
) -> f64 {
    let heights: Vec<f64> = entries.iter().map(|entry| height(entry)).collect();
    let mut bottom = top;
    for (column, part) in page::columns(&heights, columns).into_iter().enumerate() {
        let at = (x + column as f64 * (WIDTH + COLUMN_GAP), top);
        bottom = bottom.max(draw(canvas, &entries[part], at));
    }
    bottom
}

/// Draws the legend and returns where it ends.
pub(super) fn draw(canvas: &mut Canvas, entries: &[&LegendEntry], (x, top): (f64, f64)) -> f64 {
    let mut y = top;
    for entry in entries {
        let text_x = x + TEXT_AT;
        let room = WIDTH - TEXT_AT;
        match &entry.swatch {
            Swatch::Single(look) => cells::swatch(canvas, look, (x, y + 1.0), SWATCH),
            Swatch::ChanceLines => level_lines::swatch(canvas, (x, y + 1.0), SWATCH),
            Swatch::Ramp { fills, letter, .. } => {
                let look = cells::plain_look(fills[1], letter);
                cells::swatch(canvas, &look, (x, y + 1.0), SWATCH);
            }
        }
        let term = font::wrap(&entry.term, TERM.em, TERM.weight, room, 2);
        let mut bottom = page::paragraph(canvas, &term, (text_x, y), TERM);
        let phrase = font::wrap(&entry.phrase, PHRASE.em, PHRASE.weight, room, 5);
        bottom = page::paragraph(canvas, &phrase, (text_x, bottom), PHRASE);
        if let Swatch::Ramp { fills, edges, unit, .. } = &entry.swatch
            && !edges.is_empty()
        {
            bottom = ramp(canvas, fills, (edges, unit.symbol()), (text_x, bottom + 6.0));
        }
        y = bottom.max(y + SWATCH.1) + BETWEEN;
    }
    y - BETWEEN
}

/// Draws the steps of a shade with the misses between them, and returns where that ends.
fn ramp(
    canvas: &mut Canvas,
    fills: &[Rgb],
    (edges, unit): (&[String], &str),
    (x, y): (f64, f64),
) -> f64 {
    let height = 12.0;
    for (index, fill) in fills.iter().enumerate() {
        let left = x + index as f64 * STEP_WIDTH;
        canvas.rectangle((left, y), (STEP_WIDTH, height), *fill);
    }
    canvas.frame((x, y), (fills.len() as f64 * STEP_WIDTH, height), 0.75, FRAME);
    let baseline = y + height + 13.0;
    for (index, edge) in edges.iter().enumerate() {
        let at = x + (index + 1) as f64 * STEP_WIDTH;
        canvas.stroke(&[(at, y + height), (at, y + height + 3.0)], 0.75, FRAME);
        let label = font::fit(edge, TICK.em, TICK.weight, STEP_WIDTH - 2.0);
        canvas.text(&label, (at, baseline), Anchor::Middle, TICK);
    }
    let end = x + fills.len() as f64 * STEP_WIDTH;
    canvas.text(unit, (end + 7.0, y + 10.5), Anchor::Start, TICK);
    baseline + 4.0
}
