//! The list as PNG, at two pixels to a point so that it prints crisply.

use super::canvas::{Anchor, Canvas, DrawnThing, Lettering};
use super::colours::{PAPER, Rgb};
use super::contour::{Contour, ContourPiece, PagePoint};
use super::error::PictureError;
use super::font::{self, LetterPiece};
use std::f64::consts::FRAC_PI_2;
use tiny_skia::{
    Color, FillRule, LineCap, LineJoin, Paint, Path, PathBuilder, Pixmap, Stroke, StrokeDash,
    Transform,
};

/// Pixels to one point.
const PIXELS_PER_POINT: u32 = 2;
/// Pixels to a metre that the file states: 192 to an inch, so that it shows at the page's size.
const PIXELS_PER_METRE: u32 = 7559;

/// The page as the bytes of a PNG file, enlarged.
pub(super) fn encode(canvas: &Canvas, size: f64) -> Result<Vec<u8>, PictureError> {
    let (wide, high) = canvas.size_at(size);
    let (wide, high) =
        (wide.saturating_mul(PIXELS_PER_POINT), high.saturating_mul(PIXELS_PER_POINT));
    let mut pixmap = Pixmap::new(wide, high)
        .ok_or_else(|| PictureError::Drawing(format!("no page has {wide} by {high} pixels")))?;
    let (r, g, b) = PAPER;
    pixmap.fill(Color::from_rgba8(r, g, b, u8::MAX));
    let scale = single(f64::from(PIXELS_PER_POINT) * size);
    canvas.drawn.iter().for_each(|drawn| draw(&mut pixmap, drawn, scale));

    let mut out = Vec::new();
    let mut encoder = png::Encoder::new(&mut out, wide, high);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    // Flat areas and few colours pack best unfiltered.
    encoder.set_filter(png::FilterType::NoFilter);
    encoder.set_compression(png::Compression::Best);
    encoder.set_source_srgb(png::SrgbRenderingIntent::Perceptual);
    encoder.set_pixel_dims(Some(png::PixelDimensions {
        xppu: PIXELS_PER_METRE,
        yppu: PIXELS_PER_METRE,
        unit: png::Unit::Meter,
    }));
    // The page is opaque.
    let pixels: Vec<u8> =
        pixmap.data().chunks_exact(4).flat_map(|rgba| &rgba[..3]).copied().collect();
    let failed = |error: png::EncodingError| PictureError::Drawing(error.to_string());
    let mut writer = encoder.write_header().map_err(failed)?;
    writer.write_image_data(&pixels).map_err(failed)?;
    writer.finish().map_err(failed)?;
    Ok(out)
}

fn draw(pixmap: &mut Pixmap, drawn: &DrawnThing, scale: f32) {
    let page = Transform::from_scale(scale, scale);
    match drawn {
        DrawnThing::Curves(curves, look) => {
            let Some(path) = path_of(curves) else { return };
            if let Some(fill) = look.fill {
                let mut paint = paint(fill, look.opacity);
                paint.anti_alias = !look.crisp;
                pixmap.fill_path(&path, &paint, FillRule::Winding, page, None);
            }
            if let Some(trace) = look.trace {
                let stroke = Stroke {
                    width: single(trace.width),
                    line_cap: if trace.round { LineCap::Round } else { LineCap::Butt },
                    line_join: LineJoin::Round,
                    dash: StrokeDash::new(trace.dashes.iter().copied().map(single).collect(), 0.0),
                    ..Stroke::default()
                };
                let paint = paint(trace.colour, look.opacity);
                pixmap.stroke_path(&path, &paint, &stroke, page, None);
            }
        }
        DrawnThing::Text { text, at, anchor, turned, lettering } => {
            let (x, y) = (single(at.0), single(at.1));
            let way = if *turned {
                Transform::from_row(0.0, -1.0, 1.0, 0.0, x, y)
            } else {
                Transform::from_translate(x, y)
            };
            if let Some(path) = letters(text, *anchor, *lettering) {
                let paint = paint(lettering.colour, 1.0);
                let way = way.post_concat(page);
                pixmap.fill_path(&path, &paint, FillRule::Winding, way, None);
            }
        }
    }
}

fn paint((r, g, b): Rgb, opacity: f64) -> Paint<'static> {
    let mut paint = Paint::default();
    let opaque = Color::from_rgba8(r, g, b, u8::MAX);
    let mut colour = opaque;
    colour.apply_opacity(single(opacity));
    paint.set_color(colour);
    paint
}

/// A line of text that stands on the x axis, about the origin.
fn letters(text: &str, anchor: Anchor, style: Lettering) -> Option<Path> {
    let left = match anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => -0.5 * font::width(text, style.em, style.weight),
        Anchor::End => -font::width(text, style.em, style.weight),
    };
    let mut path = PathBuilder::new();
    let mut open = false;
    font::letters(text, style.em, style.weight, |piece| {
        let at = |(x, y): PagePoint| (single(left + x), single(y));
        match piece {
            LetterPiece::Begin(to) => {
                if std::mem::replace(&mut open, true) {
                    path.close();
                }
                let (x, y) = at(to);
                path.move_to(x, y);
            }
            LetterPiece::Line(to) => {
                let (x, y) = at(to);
                path.line_to(x, y);
            }
            LetterPiece::Parabola(control, to) => {
                let ((cx, cy), (x, y)) = (at(control), at(to));
                path.quad_to(cx, cy, x, y);
            }
            LetterPiece::Cubic(first, second, to) => {
                let ((ax, ay), (bx, by), (x, y)) = (at(first), at(second), at(to));
                path.cubic_to(ax, ay, bx, by, x, y);
            }
        }
    });
    if open {
        path.close();
    }
    path.finish()
}

/// Curves as one path; arcs become cubic curves of at most a quarter turn, which stray from the
/// circle by less than a three-thousandth of its radius.
fn path_of(curves: &[Contour]) -> Option<Path> {
    let mut path = PathBuilder::new();
    for curve in curves {
        path.move_to(single(curve.start.0), single(curve.start.1));
        for piece in &curve.pieces {
            match *piece {
                ContourPiece::Line { to } => path.line_to(single(to.0), single(to.1)),
                ContourPiece::Parabola { control, to } => {
                    path.quad_to(single(control.0), single(control.1), single(to.0), single(to.1));
                }
                ContourPiece::Arc { centre, radius, from, sweep } => {
                    let parts = (sweep.abs() / FRAC_PI_2 - 1e-9).ceil().max(1.0);
                    let step = sweep / parts;
                    let reach = 4.0 / 3.0 * libm::tan(step / 4.0) * radius;
                    let mut begin = from;
                    let mut done = 0.0;
                    while done < parts {
                        done += 1.0;
                        let end = from + sweep * done / parts;
                        let ((s0, c0), (s1, c1)) = (libm::sincos(begin), libm::sincos(end));
                        path.cubic_to(
                            single(centre.0 + radius * c0 - reach * s0),
                            single(centre.1 + radius * s0 + reach * c0),
                            single(centre.0 + radius * c1 + reach * s1),
                            single(centre.1 + radius * s1 - reach * c1),
                            single(centre.0 + radius * c1),
                            single(centre.1 + radius * s1),
                        );
                        begin = end;
                    }
                }
            }
        }
        if curve.closed {
            path.close();
        }
    }
    path.finish()
}

fn single(number: f64) -> f32 {
    #[expect(clippy::cast_possible_truncation, reason = "places on a page")]
    let number = number as f32;
    number
}
