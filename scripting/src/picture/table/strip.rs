//! The strip of spins under the table: each with its number on the table, its ball and its moment.

use super::super::canvas::{Anchor, Canvas, Lettering};
use super::super::colours::{CLOTH, INK, Rgb};
use super::super::contour::Contour;
use super::super::font::{self, Weight};
use super::super::page::{self, MARGIN, PHRASE, TERM};
use super::frame::ROOM;
use super::glyphs::{self, Spin};
use super::input::SpinMark;

/// The number of a spin, on the table and in the strip.
pub(super) const NUMBER: Lettering = Lettering { em: 11.0, weight: Weight::Bold, colour: INK };

const MOST_ACROSS: usize = 6;
const GAP: f64 = 14.0;
/// Room for the number before the sign.
const NUMBER_ROOM: f64 = 20.0;
const HEIGHT: f64 = 2.0 * glyphs::REACH + 6.0;

/// Draws the strip, one colour for each spin, and returns where it ends.
pub(super) fn draw(canvas: &mut Canvas, spins: &[SpinMark], colours: &[Rgb], top: f64) -> f64 {
    if spins.is_empty() {
        return top;
    }
    let heading = ["Spin at the numbered places".to_owned()];
    let top = page::paragraph(canvas, &heading, (MARGIN, top), TERM) + 4.0;
    let wide = (ROOM.0 + GAP) / MOST_ACROSS as f64 - GAP;
    for (index, (spin, colour)) in spins.iter().zip(colours).enumerate() {
        let x = MARGIN + (index % MOST_ACROSS) as f64 * (wide + GAP);
        let y = top + (index / MOST_ACROSS) as f64 * (HEIGHT + 4.0);
        let middle = y + 0.5 * HEIGHT;
        let face = Contour::rounded_box((x, y), (NUMBER_ROOM + 2.0 * glyphs::REACH, HEIGHT), 4.0);
        canvas.area(face, CLOTH);
        let number = (x + 0.5 * NUMBER_ROOM, middle + 0.36 * NUMBER.em);
        canvas.text(&(index + 1).to_string(), number, Anchor::Middle, NUMBER);
        let at = (x + NUMBER_ROOM + glyphs::REACH, middle);
        // The page's y axis points down.
        let travel = (spin.travel.0, -spin.travel.1);
        glyphs::draw(canvas, at, Spin { travel, side: spin.side, along: spin.along }, *colour);
        let text_at = NUMBER_ROOM + 2.0 * glyphs::REACH + 8.0;
        let label = font::clean(&spin.label);
        let lines = font::wrap(&label, PHRASE.em, PHRASE.weight, wide - text_at, 3);
        let half = 0.5 * page::paragraph_height(lines.len(), PHRASE);
        page::paragraph(canvas, &lines, (x + text_at, middle - half), PHRASE);
    }
    top + spins.len().div_ceil(MOST_ACROSS) as f64 * (HEIGHT + 4.0) + 10.0
}
