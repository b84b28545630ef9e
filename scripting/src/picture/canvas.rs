//! A picture as a plain list of drawn things, in points of the page, from the lowest up.

use super::colours::Rgb;
use super::contour::{self, Contour, PagePoint};
use super::font::Weight;

/// Which point of a text's baseline is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

/// The look of a text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Lettering {
    pub(super) em: f64,
    pub(super) weight: Weight,
    pub(super) colour: Rgb,
}

/// A line along a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Pen {
    pub(super) width: f64,
    pub(super) colour: Rgb,
    /// Lengths of stroke and gap by turns; none for an unbroken line.
    pub(super) dashes: &'static [f64],
    /// Whether its ends, and those of its dashes, are round.
    pub(super) round: bool,
}

impl Pen {
    /// An unbroken line.
    pub(super) const fn plain(width: f64, colour: Rgb) -> Self {
        Self { width, colour, dashes: &[], round: false }
    }
}

/// The look of curves: their area, their line, or both.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Paint {
    pub(super) fill: Option<Rgb>,
    pub(super) trace: Option<Pen>,
    pub(super) opacity: f64,
    /// Whether the area ends at whole pixels, so that neighbours meet without a seam.
    pub(super) crisp: bool,
}

impl Paint {
    pub(super) const fn area(fill: Rgb) -> Self {
        Self { fill: Some(fill), trace: None, opacity: 1.0, crisp: false }
    }

    pub(super) const fn line(trace: Pen) -> Self {
        Self { fill: None, trace: Some(trace), opacity: 1.0, crisp: false }
    }

    /// An area with a line around it.
    pub(super) const fn edged(fill: Rgb, trace: Pen) -> Self {
        Self { trace: Some(trace), ..Self::area(fill) }
    }
}

/// One drawn thing.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum DrawnThing {
    /// Curves of one look; their areas are one, by the non-zero rule.
    Curves(Vec<Contour>, Paint),
    /// A line of text; `turned` reads upwards.
    Text { text: String, at: PagePoint, anchor: Anchor, turned: bool, lettering: Lettering },
}

/// A page and the things drawn on it; a point is one CSS pixel, y runs downwards.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Canvas {
    pub(super) width: f64,
    pub(super) height: f64,
    /// The words of a reader that cannot show the picture.
    pub(super) title: String,
    /// A longer description for the same purpose.
    pub(super) description: String,
    pub(super) drawn: Vec<DrawnThing>,
    /// Whether at its plain size it fits one printed page.
    pub(super) printed: bool,
}

/// A sheet of A4 on its side, 297 × 210 mm (ISO 216), less 10 mm on every side; in points, 96 to an inch of
/// 25.4 mm.
const PRINTED: (f64, f64) = (1046.0, 718.0);

impl Canvas {
    pub(super) fn new(title: String, description: String) -> Self {
        Self { width: 0.0, height: 0.0, title, description, drawn: Vec::new(), printed: false }
    }

    /// How much smaller than it is laid out the page is shown, so that it fits one printed sheet, upright or
    /// on its side.
    pub(super) fn shown_scale(&self) -> f64 {
        if !self.printed {
            return 1.0;
        }
        let fit =
            |(wide, high): (f64, f64)| (wide / self.width.ceil()).min(high / self.height.ceil());
        fit(PRINTED).max(fit((PRINTED.1, PRINTED.0))).min(1.0)
    }

    /// The page in whole points.
    pub(super) fn size(&self) -> (u32, u32) {
        self.size_at(1.0)
    }

    /// The page in whole points when all of it is so much larger.
    pub(super) fn size_at(&self, scale: f64) -> (u32, u32) {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "the cast saturates; pages are small"
        )]
        let whole = |length: f64| length.ceil() as u32;
        (whole(scale * self.width.ceil()), whole(scale * self.height.ceil()))
    }

    /// Curves of one look. Dashes that could not be told apart are left out.
    pub(super) fn curves(&mut self, mut curves: Vec<Contour>, mut paint: Paint) {
        curves.retain(|curve| !curve.pieces.is_empty());
        if let Some(trace) = &mut paint.trace
            && !trace.dashes.is_empty()
            && curves.iter().any(|it| contour::length(&it.flattened()) > LONGEST_DASHED)
        {
            trace.dashes = &[];
        }
        if !curves.is_empty() {
            self.drawn.push(DrawnThing::Curves(curves, paint));
        }
    }

    pub(super) fn curve(&mut self, curve: Contour, paint: Paint) {
        self.curves(vec![curve], paint);
    }

    /// The area of a curve.
    pub(super) fn area(&mut self, curve: Contour, fill: Rgb) {
        self.curve(curve, Paint::area(fill));
    }

    /// The line of a curve.
    pub(super) fn trace(&mut self, curve: Contour, trace: Pen) {
        self.curve(curve, Paint::line(trace));
    }

    pub(super) fn rectangle(&mut self, corner: PagePoint, size: (f64, f64), fill: Rgb) {
        self.area(Contour::rectangle(corner, size), fill);
    }

    pub(super) fn polygon(&mut self, points: &[PagePoint], fill: Rgb) {
        self.area(Contour::through(points, true), fill);
    }

    pub(super) fn stroke(&mut self, points: &[PagePoint], width: f64, colour: Rgb) {
        self.trace(Contour::through(points, false), Pen::plain(width, colour));
    }

    /// An empty box with a line around it.
    pub(super) fn frame(&mut self, corner: PagePoint, size: (f64, f64), width: f64, colour: Rgb) {
        self.trace(Contour::rectangle(corner, size), Pen::plain(width, colour));
    }

    pub(super) fn disc(&mut self, centre: PagePoint, radius: f64, fill: Rgb) {
        self.area(Contour::circle(centre, radius), fill);
    }

    pub(super) fn ring(&mut self, centre: PagePoint, radius: f64, trace: Pen) {
        self.trace(Contour::circle(centre, radius), trace);
    }

    pub(super) fn text(&mut self, text: &str, at: PagePoint, anchor: Anchor, style: Lettering) {
        self.put_text(text, at, anchor, style, false);
    }

    /// Text that reads upwards.
    pub(super) fn turned_text(
        &mut self,
        text: &str,
        at: PagePoint,
        anchor: Anchor,
        style: Lettering,
    ) {
        self.put_text(text, at, anchor, style, true);
    }

    fn put_text(
        &mut self,
        text: &str,
        at: PagePoint,
        anchor: Anchor,
        lettering: Lettering,
        turned: bool,
    ) {
        if !text.is_empty() {
            self.drawn.push(DrawnThing::Text {
                text: text.to_owned(),
                at,
                anchor,
                turned,
                lettering,
            });
        }
    }
}

/// A path that winds on for longer is not dashed.
const LONGEST_DASHED: f64 = 20_000.0;
