//! A table of numbers under the picture of a table.

use super::super::canvas::{Anchor, Canvas, Lettering};
use super::super::colours::{FRAME, HAIRLINE, INK, SOFT_INK};
use super::super::font::{self, Weight};
use super::super::page::{self, MARGIN, TERM};
use super::frame::ROOM;
use super::input::NumberTable;

const NUMBER: Lettering = Lettering { em: 15.0, weight: Weight::Bold, colour: INK };
const UNDER: Lettering = Lettering { em: 11.0, weight: Weight::Regular, colour: SOFT_INK };
const LABEL: Lettering = Lettering { em: 12.5, weight: Weight::Regular, colour: INK };
/// Room for the headings of rows, and the height of a row.
const HEADINGS: f64 = 130.0;
const ROW: f64 = 40.0;
/// A column is at most so wide.
const WIDEST: f64 = 190.0;
/// In place of a number that is not there.
const NOTHING: &str = "–";

/// Draws the table right of what stands beside it, and returns where it ends.
pub(super) fn draw(canvas: &mut Canvas, table: &NumberTable, (beside, top): (f64, f64)) -> f64 {
    let (left, room) = (MARGIN + beside, ROOM.0 - beside);
    let title = font::wrap(&font::clean(&table.title), TERM.em, TERM.weight, room, 2);
    let top = page::paragraph(canvas, &title, (left, top), TERM) + 8.0;
    let columns = table.columns.len().max(1) as f64;
    let wide = ((room - HEADINGS) / columns).min(WIDEST);
    let right = left + HEADINGS + columns * wide;
    let middle = |column: usize| left + HEADINGS + (column as f64 + 0.5) * wide;
    for (column, label) in table.columns.iter().enumerate() {
        let label = font::fit(&font::clean(label), LABEL.em, LABEL.weight, wide - 8.0);
        canvas.text(&label, (middle(column), top + 14.0), Anchor::Middle, LABEL);
    }
    let mut y = top + 24.0;
    canvas.stroke(&[(left, y), (right, y)], 1.0, FRAME);
    for (label, cells) in table.rows.iter().zip(&table.cells) {
        let label = font::fit(&font::clean(label), LABEL.em, LABEL.weight, HEADINGS - 8.0);
        canvas.text(&label, (left, y + 25.0), Anchor::Start, LABEL);
        for (column, cell) in cells.iter().enumerate() {
            let Some(cell) = cell else {
                canvas.text(NOTHING, (middle(column), y + 25.0), Anchor::Middle, LABEL);
                continue;
            };
            let number = font::fit(&font::clean(&cell.number), NUMBER.em, NUMBER.weight, wide);
            let under = font::fit(&font::clean(&cell.under), UNDER.em, UNDER.weight, wide);
            canvas.text(&number, (middle(column), y + 18.0), Anchor::Middle, NUMBER);
            canvas.text(&under, (middle(column), y + 33.0), Anchor::Middle, UNDER);
            if cell.marked {
                let corner = (middle(column) - 0.5 * wide + 3.0, y + 2.0);
                canvas.frame(corner, (wide - 6.0, ROW - 4.0), 1.6, INK);
            }
        }
        y += ROW;
        canvas.stroke(&[(left, y), (right, y)], 1.0, HAIRLINE);
    }
    y + 14.0
}
