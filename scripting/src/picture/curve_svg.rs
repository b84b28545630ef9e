//! A curve as an SVG element: lines, parabolas and arcs stay what they are.

use super::canvas::{Painted, STEPS_PER_UNIT};
use super::colours::Rgb;
use super::curve::short;
use super::markers;
use std::fmt::Write as _;

/// The curve as a `path` element on a line of its own.
pub(super) fn element(painted: &Painted) -> String {
    let scale = f64::from(STEPS_PER_UNIT);
    let paint = &painted.paint;
    let mut out = format!("<path d=\"{}\"", painted.curve.path_data(scale));
    let _ = match paint.fill {
        Some(fill) => write!(out, " fill=\"{}\"", hex(fill)),
        None => write!(out, " fill=\"none\""),
    };
    if let Some(trace) = paint.trace {
        let width = short(trace.width * scale);
        let _ = write!(out, " stroke=\"{}\" stroke-width=\"{width}\"", hex(trace.colour));
        out.push_str(" stroke-linejoin=\"round\"");
        if trace.round {
            out.push_str(" stroke-linecap=\"round\"");
        }
        if !trace.dashes.is_empty() && !markers::too_long_for_dashes(&painted.curve.flattened()) {
            let lengths: Vec<String> =
                trace.dashes.iter().map(|length| short(length * scale).to_string()).collect();
            let _ = write!(out, " stroke-dasharray=\"{}\"", lengths.join(" "));
        }
    }
    if paint.opacity < 1.0 {
        let _ = write!(out, " opacity=\"{}\"", short(paint.opacity));
    }
    out.push_str("/>\n");
    out
}

fn hex((r, g, b): Rgb) -> String {
    format!("#{r:02X}{g:02X}{b:02X}")
}
