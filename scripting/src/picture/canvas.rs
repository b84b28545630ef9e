//! A list of simple shapes, laid out once and drawn as SVG and as PNG alike.

use super::PictureError;
use super::colours::Rgb;
use super::curve::{Curve, Place};
use super::curve_pixels;
use super::font::Weight;
use super::pens::{Pen, Style, TOP_TO_BASELINE_EM};
use plotters_backend::DrawingBackend;

/// Drawing steps to one unit of the layout: shapes lie on whole steps, and this keeps them fine.
pub(super) const STEPS_PER_UNIT: u32 = 4;

/// Which point of a text's baseline is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

/// How a text looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Lettering {
    pub(super) em: f64,
    pub(super) weight: Weight,
    pub(super) colour: Rgb,
}

/// A line along a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Trace {
    pub(super) width: f64,
    pub(super) colour: Rgb,
    /// Lengths of stroke and gap by turns; none for an unbroken line.
    pub(super) dashes: &'static [f64],
    /// Whether its ends, and those of its dashes, are round.
    pub(super) round: bool,
}

impl Trace {
    /// An unbroken line.
    pub(super) const fn plain(width: f64, colour: Rgb) -> Self {
        Self { width, colour, dashes: &[], round: false }
    }
}

/// How a curve is shown: its area, its line, or both.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Paint {
    pub(super) fill: Option<Rgb>,
    pub(super) trace: Option<Trace>,
    pub(super) opacity: f64,
}

/// A curve and how it is shown.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Painted {
    pub(super) curve: Curve,
    pub(super) paint: Paint,
}

#[derive(Debug, Clone, PartialEq)]
pub(super) enum Shape {
    Rectangle { corner: (f64, f64), size: (f64, f64), fill: Rgb, opacity: f64 },
    Polygon { points: Vec<(f64, f64)>, fill: Rgb },
    Stroke { points: Vec<(f64, f64)>, width: f64, colour: Rgb, opacity: f64 },
    Text { text: String, at: (f64, f64), anchor: Anchor, turned: bool, lettering: Lettering },
    Curve(Painted),
}

/// A page with shapes on it, in units of the layout (one CSS pixel each), y downwards.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Canvas {
    pub(super) width: f64,
    pub(super) height: f64,
    /// What a reader that cannot show the picture says instead.
    pub(super) title: String,
    /// A longer description for the same purpose.
    pub(super) description: String,
    shapes: Vec<Shape>,
}

impl Canvas {
    pub(super) fn new(title: &str, description: &str) -> Self {
        Self {
            width: 0.0,
            height: 0.0,
            title: title.to_owned(),
            description: description.to_owned(),
            shapes: Vec::new(),
        }
    }

    pub(super) fn rectangle(&mut self, corner: (f64, f64), size: (f64, f64), fill: Rgb) {
        self.shapes.push(Shape::Rectangle { corner, size, fill, opacity: 1.0 });
    }

    pub(super) fn polygon(&mut self, points: Vec<(f64, f64)>, fill: Rgb) {
        self.shapes.push(Shape::Polygon { points, fill });
    }

    pub(super) fn stroke(&mut self, points: Vec<(f64, f64)>, width: f64, colour: Rgb) {
        self.stroke_through(points, width, colour, 1.0);
    }

    pub(super) fn stroke_through(
        &mut self,
        points: Vec<(f64, f64)>,
        width: f64,
        colour: Rgb,
        opacity: f64,
    ) {
        if points.len() >= 2 {
            self.shapes.push(Shape::Stroke { points, width, colour, opacity });
        }
    }

    /// An empty box with a line around it.
    pub(super) fn frame(
        &mut self,
        (x, y): (f64, f64),
        (w, h): (f64, f64),
        width: f64,
        colour: Rgb,
    ) {
        let around = vec![(x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y)];
        self.stroke(around, width, colour);
    }

    /// A curve with its area, its line, or both.
    pub(super) fn curve(&mut self, curve: Curve, paint: Paint) {
        self.shapes.push(Shape::Curve(Painted { curve, paint }));
    }

    /// The area of a curve.
    pub(super) fn area(&mut self, curve: Curve, fill: Rgb) {
        self.curve(curve, Paint { fill: Some(fill), trace: None, opacity: 1.0 });
    }

    /// The line of a curve.
    pub(super) fn trace(&mut self, curve: Curve, trace: Trace) {
        self.curve(curve, Paint { fill: None, trace: Some(trace), opacity: 1.0 });
    }

    pub(super) fn disc(&mut self, centre: Place, radius: f64, fill: Rgb) {
        self.area(Curve::circle(centre, radius), fill);
    }

    pub(super) fn ring(&mut self, centre: Place, radius: f64, trace: Trace) {
        self.trace(Curve::circle(centre, radius), trace);
    }

    pub(super) fn text(&mut self, text: &str, at: (f64, f64), anchor: Anchor, style: Lettering) {
        self.put_text(text, at, anchor, style, false);
    }

    /// Text that reads upwards.
    pub(super) fn turned_text(
        &mut self,
        text: &str,
        at: (f64, f64),
        anchor: Anchor,
        style: Lettering,
    ) {
        self.put_text(text, at, anchor, style, true);
    }

    fn put_text(
        &mut self,
        text: &str,
        at: (f64, f64),
        anchor: Anchor,
        lettering: Lettering,
        turned: bool,
    ) {
        if !text.is_empty() {
            self.shapes.push(Shape::Text { text: text.to_owned(), at, anchor, turned, lettering });
        }
    }

    /// The page in drawing steps.
    pub(super) fn size_in_steps(&self) -> (u32, u32) {
        let steps = |length: f64| step(length.ceil()).unsigned_abs();
        (steps(self.width), steps(self.height))
    }

    /// Every shape, from the lowest up.
    pub(super) fn shapes(&self) -> &[Shape] {
        &self.shapes
    }

    /// Draws shapes; `joins` rounds the corners of strokes for a backend that leaves notches.
    pub(super) fn replay<B: DrawingBackend>(
        shapes: &[Shape],
        backend: &mut B,
        joins: bool,
    ) -> Result<(), PictureError> {
        let failed = |error: &dyn std::fmt::Display| PictureError::Drawing(error.to_string());
        for shape in shapes {
            match shape {
                Shape::Rectangle { corner, size, fill, opacity } => {
                    let (a, b) = (place(*corner), place((corner.0 + size.0, corner.1 + size.1)));
                    backend.draw_rect(a, b, &Pen::new(*fill, *opacity, 1), true)
                }
                Shape::Polygon { points, fill } => {
                    backend.fill_polygon(points.iter().map(|p| place(*p)), &Pen::new(*fill, 1.0, 1))
                }
                Shape::Stroke { points, width, colour, opacity } => {
                    let pen = Pen::new(*colour, *opacity, step(*width).unsigned_abs().max(1));
                    if joins {
                        stroke_with_round_joins(backend, points, &pen)
                    } else {
                        backend.draw_path(points.iter().map(|p| place(*p)), &pen)
                    }
                }
                Shape::Text { text, at, anchor, turned, lettering } => {
                    let drop = TOP_TO_BASELINE_EM * lettering.em;
                    let (x, y) = *at;
                    let top = if *turned { (x - drop, y) } else { (x, y - drop) };
                    let style = Style { anchor: *anchor, turned: *turned, lettering: *lettering };
                    backend.draw_text(text, &style, place(top))
                }
                Shape::Curve(painted) => curve_pixels::draw(backend, painted),
            }
            .map_err(|error| failed(&error))?;
        }
        backend.present().map_err(|error| failed(&error))
    }
}

fn stroke_with_round_joins<B: DrawingBackend>(
    backend: &mut B,
    points: &[(f64, f64)],
    pen: &Pen,
) -> Result<(), plotters_backend::DrawingErrorKind<B::ErrorType>> {
    for pair in points.windows(2) {
        let (a, b) = (place(pair[0]), place(pair[1]));
        if a != b {
            backend.draw_path([a, b], pen)?;
        }
    }
    // Round joins would show as darker dots through a stroke that is not opaque.
    if pen.width >= 6 && pen.opacity >= 1.0 && points.len() > 2 {
        for joint in &points[1..points.len() - 1] {
            backend.draw_circle(place(*joint), pen.width / 2 - 1, pen, true)?;
        }
    }
    Ok(())
}

/// A length in drawing steps.
fn step(length: f64) -> i32 {
    #[expect(clippy::cast_possible_truncation, reason = "the cast saturates; pages are small")]
    let steps = (length * f64::from(STEPS_PER_UNIT)).round() as i32;
    steps
}

fn place((x, y): (f64, f64)) -> (i32, i32) {
    (step(x), step(y))
}
