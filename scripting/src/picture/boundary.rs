//! The line between cells of which the model is sure and flagged ones, with words on the flagged side.

use super::canvas::{Anchor, Canvas, Lettering};
use super::cells::{boundary, fits, mark_style};
use super::colours::{INK, PAPER, Rgb};
use super::contour::Contour;
use super::font::{self, Weight};
use super::shading::{CellLook, Fineness};

const WORDS: Lettering = Lettering { em: 11.5, weight: Weight::Bold, colour: INK };
const LINE_HEIGHT: f64 = 14.0;

/// A panel's cells on the page, row after row from the bottom.
pub(super) struct BoundaryPanel<'a> {
    pub(super) looks: &'a [CellLook],
    pub(super) columns: usize,
    /// The lower left corner.
    pub(super) corner: (f64, f64),
    pub(super) cell: (f64, f64),
}

impl BoundaryPanel<'_> {
    /// Draws the boundary, and the words where cells without text leave room for them.
    pub(super) fn draw(&self, canvas: &mut Canvas, words: &str) {
        let pieces = self.pieces();
        if pieces.is_empty() {
            return;
        }
        boundary(canvas, &pieces);
        let words = font::clean(words);
        let broken: Vec<&str> = words.split_inclusive(": ").map(str::trim_end).collect();
        for lines in [vec![words.as_str()], broken] {
            if self.write(canvas, &lines) {
                return;
            }
        }
    }

    /// Whether some cells have a flag beside others that have none.
    pub(super) fn is_bounded(&self) -> bool {
        !self.pieces().is_empty()
    }

    fn rows(&self) -> usize {
        self.looks.len() / self.columns.max(1)
    }

    fn look(&self, column: usize, row: usize) -> &CellLook {
        &self.looks[row * self.columns + column]
    }

    fn at(&self, column: usize, row: usize) -> (f64, f64) {
        (self.corner.0 + column as f64 * self.cell.0, self.corner.1 - row as f64 * self.cell.1)
    }

    /// The sides of flagged cells that others without a flag share.
    fn pieces(&self) -> Vec<Contour> {
        // A cell that nothing was played for has no flag and bounds nothing.
        let parts = |one: &CellLook, other: &CellLook| {
            one.flagged != other.flagged && one.fill != PAPER && other.fill != PAPER
        };
        let mut pieces = Vec::new();
        let mut side = |from: (f64, f64), to: (f64, f64)| {
            pieces.push(Contour::through(&[from, to], false));
        };
        for row in 0..self.rows() {
            for column in 0..self.columns {
                let here = self.look(column, row);
                if column > 0 && parts(here, self.look(column - 1, row)) {
                    side(self.at(column, row), self.at(column, row + 1));
                }
                if row > 0 && parts(here, self.look(column, row - 1)) {
                    side(self.at(column, row), self.at(column + 1, row));
                }
            }
        }
        pieces
    }

    /// Writes lines beside the boundary, in flagged cells of one shade that carry no text; whether
    /// there was room.
    fn write(&self, canvas: &mut Canvas, lines: &[&str]) -> bool {
        let long = lines.iter().map(|line| font::width(line, WORDS.em, WORDS.weight));
        let room = (long.fold(0.0, f64::max) + 12.0, lines.len() as f64 * LINE_HEIGHT + 2.0);
        let whole = |length: f64, step: f64| {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "positive, and the cast saturates"
            )]
            let cells = (length / step).ceil() as usize;
            cells.max(1)
        };
        let need = (whole(room.0, self.cell.0), whole(room.1, self.cell.1));
        let rows = self.rows();
        if need.0 > self.columns || need.1 > rows {
            return false;
        }
        let mut order: Vec<usize> = (0..=rows - need.1).collect();
        order.sort_by_key(|row| (2 * row + need.1).abs_diff(rows));
        let begins = |column: usize, row: usize| {
            column > 0 && !self.look(column - 1, row).flagged && self.look(column, row).flagged
        };
        // Beside an upright piece of the boundary if it can be, or else anywhere on its far side.
        for beside in [true, false] {
            for row in &order {
                for column in 0..=self.columns - need.0 {
                    let middle = row + need.1 / 2;
                    if beside && !begins(column, middle) {
                        continue;
                    }
                    let Some(fill) = self.blank((column, *row), need) else { continue };
                    self.put(canvas, lines, (column, *row), (need, room), fill);
                    return true;
                }
            }
        }
        false
    }

    /// The one shade of flagged cells without text.
    fn blank(&self, (column, row): (usize, usize), need: (usize, usize)) -> Option<Rgb> {
        let fill = self.look(column, row).fill;
        let is_blank = |look: &CellLook| {
            let style = mark_style(look, self.cell);
            let silent =
                look.mark.texts(Fineness::Fine).iter().all(|text| !fits(text, style, self.cell));
            look.flagged && look.fill == fill && silent
        };
        let mut cells =
            (row..row + need.1).flat_map(|r| (column..column + need.0).map(move |c| (c, r)));
        cells.all(|(c, r)| is_blank(self.look(c, r))).then_some(fill)
    }

    fn put(
        &self,
        canvas: &mut Canvas,
        lines: &[&str],
        (column, row): (usize, usize),
        (need, room): ((usize, usize), (f64, f64)),
        fill: Rgb,
    ) {
        let (left, bottom) = self.at(column, row);
        let middle = bottom - 0.5 * need.1 as f64 * self.cell.1;
        let colour = super::colours::readable_on(fill);
        // A rest in the lines between cells.
        let corner = (left + 3.0, middle - 0.5 * room.1 + 1.0);
        canvas.rectangle(corner, (room.0 - 5.0, room.1 - 2.0), fill);
        for (index, line) in lines.iter().enumerate() {
            let from_middle = index as f64 - 0.5 * (lines.len() as f64 - 1.0);
            let baseline = middle + from_middle * LINE_HEIGHT + 0.365 * WORDS.em;
            let style = Lettering { colour, ..WORDS };
            canvas.text(line, (left + 6.0, baseline), Anchor::Start, style);
        }
    }
}
