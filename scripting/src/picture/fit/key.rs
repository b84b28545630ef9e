//! The key under a picture of a fit.

use super::super::canvas::{Canvas, Lettering, Pen};
use super::super::colours::{
    BEFORE, EXPECTED_HALF, EXPECTED_NINETY, FRAME, INK, MOUTH, PAPER, SOFT_INK,
};
use super::super::contour::Contour;
use super::super::font;
use super::super::page::{self, MARGIN, PHRASE, TERM};

const SIGN: (f64, f64) = (34.0, 14.0);
const TEXT_AT: f64 = 46.0;
const COLUMN: f64 = 300.0;
const COLUMN_GAP: f64 = 26.0;
const BETWEEN: f64 = 11.0;

/// A thing that the key explains.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum KeySign {
    Half,
    Ninety,
    Seen,
    Word,
    Slip,
    Stopped,
    Mouth,
    Before,
    Untold,
    Member,
    AlongAxis,
}

/// A line of the key.
#[derive(Debug, Clone, Copy)]
pub(super) struct SignMeaning {
    pub(super) sign: KeySign,
    pub(super) term: &'static str,
    pub(super) phrase: &'static str,
}

/// Draws the key in columns and returns where it ends.
pub(super) fn draw(canvas: &mut Canvas, entries: &[SignMeaning], top: f64) -> f64 {
    if entries.is_empty() {
        return top;
    }
    let heights: Vec<f64> = entries.iter().map(height).collect();
    let room = canvas.width - 2.0 * MARGIN;
    let most = if room >= 3.0 * COLUMN + 2.0 * COLUMN_GAP { 3 } else { 2 };
    let mut bottom = top;
    for (column, part) in page::columns(&heights, most).into_iter().enumerate() {
        let x = MARGIN + column as f64 * (COLUMN + COLUMN_GAP);
        let mut y = top;
        for entry in &entries[part] {
            sign(canvas, entry.sign, (x, y + 2.0));
            let [term, phrase] = lines(entry);
            let below = page::paragraph(canvas, &term, (x + TEXT_AT, y), TERM);
            page::paragraph(canvas, &phrase, (x + TEXT_AT, below), PHRASE);
            y += height(entry);
        }
        bottom = bottom.max(y - BETWEEN);
    }
    bottom
}

fn lines(entry: &SignMeaning) -> [Vec<String>; 2] {
    let room = COLUMN - TEXT_AT;
    let wrapped = |text, style: Lettering| font::wrap(text, style.em, style.weight, room, 4);
    [wrapped(entry.term, TERM), wrapped(entry.phrase, PHRASE)]
}

fn height(entry: &SignMeaning) -> f64 {
    let [term, phrase] = lines(entry);
    let text =
        page::paragraph_height(term.len(), TERM) + page::paragraph_height(phrase.len(), PHRASE);
    text.max(SIGN.1 + 4.0) + BETWEEN
}

fn sign(canvas: &mut Canvas, sign: KeySign, (x, y): (f64, f64)) {
    let middle = (x + SIGN.0 / 2.0, y + SIGN.1 / 2.0);
    let ends = (x + 2.0, x + SIGN.0 - 2.0);
    match sign {
        KeySign::Half => canvas.rectangle((x, y), SIGN, EXPECTED_HALF),
        KeySign::Ninety => canvas.rectangle((x, y), SIGN, EXPECTED_NINETY),
        KeySign::Mouth => canvas.rectangle((x, y), SIGN, MOUTH),
        KeySign::Before => canvas.rectangle((x, y), SIGN, BEFORE),
        KeySign::Untold => untold(canvas, (x, y), SIGN),
        KeySign::Seen => {
            whiskers(canvas, ends, middle.1);
            seen(canvas, middle);
        }
        KeySign::Word => stretch(canvas, ends, middle.1, (true, false), false),
        KeySign::Slip => slip(canvas, middle),
        KeySign::Stopped => stopped(canvas, middle),
        KeySign::Member => {
            for (right, down) in [(-9.0, 2.0), (-3.0, -3.0), (2.0, 3.0), (8.0, -1.0)] {
                canvas.disc((middle.0 + right, middle.1 + down), 2.0, EXPECTED_HALF);
            }
        }
        KeySign::AlongAxis => canvas.stroke(&[(ends.0, middle.1), (ends.1, middle.1)], 4.0, INK),
    }
}

/// The mark of a number that was seen.
pub(super) fn seen(canvas: &mut Canvas, at: (f64, f64)) {
    canvas.disc(at, 5.4, PAPER);
    canvas.disc(at, 4.2, INK);
}

/// The mark of a result that is likely a slip.
pub(super) fn slip(canvas: &mut Canvas, (x, y): (f64, f64)) {
    let corners = [(x - 6.5, y), (x, y - 6.5), (x + 6.5, y), (x, y + 6.5)];
    canvas.polygon(&corners, PAPER);
    canvas.trace(Contour::through(&corners, true), Pen::plain(1.75, INK));
}

/// The mark of a ball that stopped on its way.
pub(super) fn stopped(canvas: &mut Canvas, (x, y): (f64, f64)) {
    canvas.rectangle((x - 4.0, y - 4.0), (8.0, 8.0), INK);
}

/// How well a number was read.
pub(super) fn whiskers(canvas: &mut Canvas, (from, to): (f64, f64), y: f64) {
    canvas.stroke(&[(from, y), (to, y)], 4.0, PAPER);
    canvas.stroke(&[(from, y), (to, y)], 1.75, INK);
    for x in [from, to] {
        canvas.stroke(&[(x, y - 3.5), (x, y + 3.5)], 1.75, INK);
    }
}

/// The stretch of places for which a word is said; an end that goes on has a point.
pub(super) fn stretch(
    canvas: &mut Canvas,
    (from, to): (f64, f64),
    y: f64,
    (on_left, on_right): (bool, bool),
    is_slip: bool,
) {
    let dashes: &[f64] = if is_slip { &[5.0, 4.0] } else { &[] };
    let line = Contour::through(&[(from, y), (to, y)], false);
    canvas.trace(line, Pen { dashes, ..Pen::plain(2.0, INK) });
    for (x, goes_on, inward) in [(from, on_left, 7.0), (to, on_right, -7.0)] {
        if goes_on {
            canvas.polygon(&[(x, y), (x + inward, y - 4.0), (x + inward, y + 4.0)], INK);
        } else {
            canvas.stroke(&[(x, y - 3.5), (x, y + 3.5)], 2.0, INK);
        }
    }
}

/// An interval of which the banks say nothing.
pub(super) fn untold(canvas: &mut Canvas, corner: (f64, f64), size: (f64, f64)) {
    canvas.rectangle(corner, size, BEFORE);
    let line = Pen { dashes: &[3.0, 3.0], ..Pen::plain(1.0, FRAME) };
    canvas.trace(Contour::rectangle(corner, size), line);
    let middle = corner.0 + size.0 / 2.0;
    canvas.stroke(&[(middle, corner.1), (middle, corner.1 + size.1)], 1.0, SOFT_INK);
}
