//! A page as SVG that needs nothing but itself: the font is inside.

use super::PictureError;
use super::canvas::{Canvas, STEPS_PER_UNIT, Shape};
use super::colours::PAPER;
use super::curve_svg;
use super::font::{BOLD, REGULAR};
use base64::Engine as _;
use plotters::backend::SVGBackend;
use std::fmt::Write as _;

/// The page as a complete SVG document.
pub(super) fn encode(canvas: &Canvas) -> Result<String, PictureError> {
    let (wide, high) = canvas.size_in_steps();
    let body = body(canvas, (wide, high))?;
    let mut out = String::with_capacity(body.len() + 140_000);
    let (width, height) = (wide / STEPS_PER_UNIT, high / STEPS_PER_UNIT);
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" \
         viewBox=\"0 0 {wide} {high}\" role=\"img\" aria-labelledby=\"title description\">"
    );
    let _ = writeln!(out, "<title id=\"title\">{}</title>", escape(&canvas.title));
    let _ = writeln!(out, "<desc id=\"description\">{}</desc>", escape(&canvas.description));
    out.push_str("<style>\n");
    for (weight, bytes) in [("normal", REGULAR), ("bold", BOLD)] {
        let _ = writeln!(
            out,
            "@font-face{{font-family:\"DejaVu Sans\";font-weight:{weight};\
             src:url(data:font/ttf;base64,{}) format(\"truetype\")}}",
            base64::engine::general_purpose::STANDARD.encode(bytes)
        );
    }
    // No kerning: the layout measured the text without it.
    out.push_str("text{font-kerning:none;font-variant-ligatures:none}\n</style>\n");
    let (r, g, b) = PAPER;
    let _ =
        writeln!(out, "<rect width=\"{wide}\" height=\"{high}\" fill=\"#{r:02X}{g:02X}{b:02X}\"/>");
    out.push_str(&body);
    out.push_str("</svg>\n");
    Ok(out)
}

/// The elements of every shape. The library draws all but the curves, which it would break into
/// chords.
fn body(canvas: &Canvas, size: (u32, u32)) -> Result<String, PictureError> {
    let mut out = String::new();
    let is_curve = |shape: &Shape| matches!(shape, Shape::Curve(_));
    for run in canvas.shapes().chunk_by(|a, b| is_curve(a) == is_curve(b)) {
        if is_curve(&run[0]) {
            for shape in run {
                if let Shape::Curve(painted) = shape {
                    out.push_str(&curve_svg::element(painted));
                }
            }
            continue;
        }
        let mut drawn = String::new();
        {
            let mut backend = SVGBackend::with_string(&mut drawn, size);
            Canvas::replay(run, &mut backend, false)?;
        }
        // The library's own opening tag knows no font, no paper and no size other than its steps.
        let elements = drawn
            .split_once(">\n")
            .and_then(|(_, rest)| rest.trim_end().strip_suffix("</svg>"))
            .ok_or_else(|| PictureError::Drawing("no tag around the SVG".to_owned()))?;
        out.push_str(elements);
    }
    Ok(out)
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
