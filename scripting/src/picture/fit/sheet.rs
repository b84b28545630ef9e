//! Banks to be measured, a row each, with boxes for a pencil.

use super::super::canvas::{Anchor, Canvas, Pen};
use super::super::colours::{FRAME, HAIRLINE, INK, PAPER, SOFT_INK};
use super::super::contour::Contour;
use super::super::font;
use super::super::page::{AXIS, MARGIN, PHRASE, TERM};

/// The words of which one is ticked.
const TICKS: [&str; 5] = ["holds", "touches", "long", "short", "stops"];

const NUMBER_AT: f64 = 14.0;
const SKETCH_AT: f64 = 36.0;
const SKETCH: (f64, f64) = (84.0, 42.0);
const WORDS_AT: f64 = 138.0;
const WORDS: f64 = 264.0;
const TICKS_AT: f64 = WORDS_AT + WORDS + 14.0;
const TICK_PITCH: f64 = 58.0;
const BOX: f64 = 18.0;
const PLACE_AT: f64 = TICKS_AT + TICKS.len() as f64 * TICK_PITCH + 12.0;
const PLACE: (f64, f64) = (108.0, 34.0);
const PITCH: f64 = 66.0;
/// Room above the rows, for the words over them.
const HEAD: f64 = 30.0;

/// A bank to be measured.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetRow {
    /// The line and the place of the ball.
    pub line: String,
    /// Speed and pocket.
    pub sent: String,
    /// What it is worth.
    pub worth: String,
    /// Where the line begins, the ball, the contact point and the pocket, as shares of the table from its upper left
    /// corner.
    pub way: [(f64, f64); 4],
}

/// The width of the body.
pub(super) fn width() -> f64 {
    PLACE_AT + PLACE.0
}

/// Draws the rows and returns where they end.
pub(super) fn draw(canvas: &mut Canvas, rows: &[SheetRow], top: f64) -> f64 {
    let head = top + HEAD - 14.0;
    let heading = |canvas: &mut Canvas, text: &str, at: f64| {
        canvas.text(text, (MARGIN + at, head), Anchor::Start, TERM);
    };
    heading(canvas, "set up", WORDS_AT);
    heading(canvas, "tick one", TICKS_AT);
    heading(canvas, "number it met", PLACE_AT);
    let mut y = top + HEAD;
    for (index, row) in rows.iter().enumerate() {
        canvas.stroke(&[(MARGIN, y - 8.0), (MARGIN + width(), y - 8.0)], 1.0, HAIRLINE);
        draw_row(canvas, index + 1, row, y);
        y += PITCH;
    }
    y - 8.0
}

fn draw_row(canvas: &mut Canvas, number: usize, row: &SheetRow, top: f64) {
    let middle = top + SKETCH.1 / 2.0;
    canvas.text(&number.to_string(), (MARGIN + NUMBER_AT, middle + 4.0), Anchor::Middle, TERM);
    sketch(canvas, &row.way, (MARGIN + SKETCH_AT, top));
    for (at, (text, style)) in
        [(&row.line, AXIS), (&row.sent, AXIS), (&row.worth, PHRASE)].into_iter().enumerate()
    {
        let text = font::fit(&font::clean(text), style.em, style.weight, WORDS);
        let baseline = top + 10.0 + 17.0 * at as f64;
        canvas.text(&text, (MARGIN + WORDS_AT, baseline), Anchor::Start, style);
    }
    for (at, word) in TICKS.into_iter().enumerate() {
        let left = MARGIN + TICKS_AT + at as f64 * TICK_PITCH;
        canvas.frame((left, top + 2.0), (BOX, BOX), 1.25, INK);
        canvas.text(word, (left, top + BOX + 18.0), Anchor::Start, PHRASE);
    }
    canvas.frame((MARGIN + PLACE_AT, top + 2.0), PLACE, 1.25, INK);
}

/// The table from above, the ball on its line, and the way to the pocket.
fn sketch(canvas: &mut Canvas, way: &[(f64, f64); 4], (left, top): (f64, f64)) {
    canvas.frame((left, top), SKETCH, 1.0, FRAME);
    let on_table = |(along, down): (f64, f64)| {
        (left + along.clamp(0.0, 1.0) * SKETCH.0, top + down.clamp(0.0, 1.0) * SKETCH.1)
    };
    let [start, ball, contact, pocket] = way.map(on_table);
    let dashes: &[f64] = &[3.0, 3.0];
    let line = Pen { dashes, ..Pen::plain(1.0, SOFT_INK) };
    canvas.trace(Contour::through(&[start, contact], false), line);
    canvas.stroke(&[ball, contact, pocket], 1.5, INK);
    canvas.disc(pocket, 4.0, INK);
    canvas.disc(ball, 3.6, PAPER);
    canvas.ring(ball, 3.6, Pen::plain(1.5, INK));
}

/// The rows in words.
pub(super) fn said(rows: &[SheetRow]) -> Vec<String> {
    let words = |(at, row): (usize, &SheetRow)| {
        format!("{}: {}, {}; {}.", at + 1, row.line, row.sent, row.worth)
    };
    rows.iter().enumerate().map(words).collect()
}
