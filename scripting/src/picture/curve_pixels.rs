//! A curve in pixels, smooth at its edges.

use super::canvas::{Painted, STEPS_PER_UNIT};
use super::colours::Rgb;
use super::coverage;
use super::curve::Place;
use super::markers;
use super::pens::{Pen, paint};
use plotters_backend::{DrawingBackend, DrawingErrorKind};

/// From this many pixels on, a run is drawn as a box.
const LONG_RUN: i32 = 8;

/// Draws the area and the line of a curve.
pub(super) fn draw<B: DrawingBackend>(
    backend: &mut B,
    painted: &Painted,
) -> Result<(), DrawingErrorKind<B::ErrorType>> {
    let path = painted.curve.flattened();
    let opacity = painted.paint.opacity;
    if let Some(fill) = painted.paint.fill {
        cover(backend, &[in_steps(&path)], fill, opacity)?;
    }
    if let Some(trace) = painted.paint.trace {
        for dash in markers::dashes(&path, trace.dashes) {
            let width = trace.width * f64::from(STEPS_PER_UNIT);
            let contours = coverage::stroke(&in_steps(&dash), width, trace.round);
            cover(backend, &contours, trace.colour, opacity)?;
        }
    }
    Ok(())
}

fn in_steps(path: &[Place]) -> Vec<Place> {
    let scale = f64::from(STEPS_PER_UNIT);
    path.iter().map(|(x, y)| (x * scale, y * scale)).collect()
}

fn cover<B: DrawingBackend>(
    backend: &mut B,
    contours: &[Vec<Place>],
    colour: Rgb,
    opacity: f64,
) -> Result<(), DrawingErrorKind<B::ErrorType>> {
    let size = backend.get_size();
    coverage::fill(contours, size, |x, y, length, covered| {
        if length >= LONG_RUN {
            let pen = Pen::new(colour, opacity * covered, 1);
            return backend.draw_rect((x, y), (x + length, y + 1), &pen, true);
        }
        (x..x + length)
            .try_for_each(|x| backend.draw_pixel((x, y), paint(colour, opacity * covered)))
    })
}
