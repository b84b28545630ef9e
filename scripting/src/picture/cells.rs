//! One cell of a map: shade, pattern, flag and text.

use super::canvas::{Anchor, Canvas, Lettering, Paint, Pen};
use super::colours::{self, FRAME, HAIRLINE, INK, Rgb};
use super::contour::Contour;
use super::font::{self, Weight};
use super::shading::{CellLook, CellText, Fineness, Texture};

/// Distance between slanted lines, along each axis.
const SLANT_PITCH: f64 = 8.0;

/// The lettering of a cell's mark.
pub(super) fn mark_style(look: &CellLook, (w, h): (f64, f64)) -> Lettering {
    let em = (0.5 * h).min(0.6 * w).clamp(9.0, 11.5);
    Lettering { em, weight: Weight::Bold, colour: colours::readable_on(look.fill) }
}

pub(super) fn fits(text: &str, style: Lettering, (w, h): (f64, f64)) -> bool {
    let long = font::width(text, style.em, style.weight);
    !text.is_empty() && h >= 13.0 && w >= 12.0 && long <= w - 5.0
}

/// Writes a cell's mark, or the part of it that there is room for, with a rest in the lines that may run under it;
/// gives half the size of what is written.
pub(super) fn draw_mark(
    canvas: &mut Canvas,
    look: &CellLook,
    ((x, y), (w, h)): ((f64, f64), (f64, f64)),
    (fineness, rests): (Fineness, bool),
) -> Option<(f64, f64)> {
    let style = mark_style(look, (w, h));
    let text = look.mark.texts(fineness).into_iter().find(|text| fits(text, style, (w, h)))?;
    let middle = (x + w / 2.0, y + h / 2.0);
    let long = font::width(&text, style.em, style.weight);
    let half = ((long / 2.0 + 2.0).min(w / 2.0 - 1.0), 0.62 * style.em);
    if rests || look.texture != Texture::Plain {
        // A rest in the pattern, or it would run through the letters.
        let corner = (middle.0 - half.0, middle.1 - half.1);
        canvas.rectangle(corner, (2.0 * half.0, 2.0 * half.1), look.fill);
    }
    canvas.text(&text, (middle.0, middle.1 + 0.365 * style.em), Anchor::Middle, style);
    Some(half)
}

/// Lines over an area that all look alike.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Pattern {
    texture: Texture,
    colour: Rgb,
}

pub(super) fn texture_of(look: &CellLook) -> Option<Pattern> {
    let colour = match (look.texture, look.fill) {
        (Texture::Plain, _) => return None,
        (Texture::Falling, _) => HAIRLINE,
        (_, colours::NO_VERDICT_DARK) => INK,
        _ => colours::SOFT_INK,
    };
    Some(Pattern { texture: look.texture, colour })
}

impl Pattern {
    pub(super) fn paint(self) -> Paint {
        let (width, opacity) = match self.texture {
            Texture::Falling => (1.0, 1.0),
            _ => (0.75, 0.75),
        };
        Paint { opacity, ..Paint::line(Pen::plain(width, self.colour)) }
    }

    /// Its lines over a box, on a lattice of the page, so that neighbouring boxes continue each
    /// other.
    pub(super) fn lines(self, (x, y): (f64, f64), (w, h): (f64, f64)) -> Vec<Contour> {
        let (right, bottom) = (x + w, y + h);
        let line = |ends: [(f64, f64); 2]| Contour::through(&ends, false);
        let level = |pitch| lattice(y, bottom, pitch).map(move |at| line([(x, at), (right, at)]));
        let upright = |pitch| lattice(x, right, pitch).map(move |at| line([(at, y), (at, bottom)]));
        match self.texture {
            Texture::Falling => lattice(x - bottom, right - y, SLANT_PITCH)
                .map(|slip| (slip, (y + slip).max(x), (bottom + slip).min(right)))
                .filter(|(_, from, to)| to > from)
                .map(|(slip, from, to)| line([(from, from - slip), (to, to - slip)]))
                .collect(),
            Texture::Plain => Vec::new(),
            Texture::Level => level(6.0).collect(),
            Texture::LevelDense => level(3.5).collect(),
            Texture::Upright => upright(6.0).collect(),
            Texture::Crossed => level(6.0).chain(upright(6.0)).collect(),
        }
    }
}

/// Multiples of `pitch` strictly between two places.
fn lattice(from: f64, to: f64, pitch: f64) -> impl Iterator<Item = f64> {
    let first = (from / pitch).floor() + 1.0;
    (0..).map(move |k| (first + f64::from(k)) * pitch).take_while(move |at| *at < to - 1e-9)
}

/// A look without pattern or flag.
pub(super) const fn plain_look(fill: Rgb, letter: &'static str) -> CellLook {
    CellLook { fill, texture: Texture::Plain, mark: CellText::Letter(letter), flagged: false }
}

/// Draws pieces of the line between cells without a flag and flagged ones: ink on paper, which no
/// cell has.
pub(super) fn boundary(canvas: &mut Canvas, pieces: &[Contour]) {
    for (width, colour) in [(4.0, colours::PAPER), (2.0, INK)] {
        let pen = Pen { round: true, ..Pen::plain(width, colour) };
        canvas.curves(pieces.to_vec(), Paint::line(pen));
    }
}

/// One look as a framed swatch of a legend.
pub(super) fn swatch(canvas: &mut Canvas, look: &CellLook, corner: (f64, f64), size: (f64, f64)) {
    canvas.rectangle(corner, size, look.fill);
    if let Some(pattern) = texture_of(look) {
        canvas.curves(pattern.lines(corner, size), pattern.paint());
    }
    if look.flagged {
        let (x, bottom) = (corner.0 + 0.5 * size.0, corner.1 + size.1);
        boundary(canvas, &[Contour::through(&[(x, corner.1), (x, bottom)], false)]);
    }
    draw_mark(canvas, look, (corner, size), (Fineness::Fine, false));
    canvas.frame(corner, size, 0.75, FRAME);
}
