//! The list as SVG that needs nothing but itself: the font is inside.

use super::canvas::{Anchor, Canvas, DrawnThing, Paint};
use super::colours::{PAPER, Rgb};
use super::contour::short;
use super::font::{BOLD, REGULAR, Weight};
use base64::Engine as _;
use std::fmt::Write as _;

/// The page as a complete SVG document, enlarged.
pub(super) fn encode(canvas: &Canvas, size: f64) -> String {
    let (width, height) = canvas.size();
    let (shown_width, shown_height) = canvas.size_at(size * canvas.shown_scale());
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{shown_width}\" height=\"{shown_height}\" \
         viewBox=\"0 0 {width} {height}\" role=\"img\" aria-labelledby=\"title description\">\n\
         <title id=\"title\">{}</title>\n<desc id=\"description\">{}</desc>\n<style>\n",
        escape(&canvas.title),
        escape(&canvas.description)
    );
    for (weight, bytes) in [("normal", REGULAR), ("bold", BOLD)] {
        let data = base64::engine::general_purpose::STANDARD.encode(bytes);
        let _ = writeln!(
            out,
            "@font-face{{font-family:\"DejaVu Sans\";font-weight:{weight};\
             src:url(data:font/ttf;base64,{data}) format(\"truetype\")}}"
        );
    }
    // No kerning: the layout measured the text without it.
    let _ = writeln!(
        out,
        "text{{font-family:\"DejaVu Sans\",sans-serif;font-kerning:none;\
         font-variant-ligatures:none}}\npath{{stroke-linejoin:round}}\n</style>\n\
         <rect width=\"{width}\" height=\"{height}\" fill=\"{}\"/>",
        hex(PAPER)
    );
    for drawn in &canvas.drawn {
        match drawn {
            DrawnThing::Curves(curves, paint) => {
                out.push_str("<path d=\"");
                for curve in curves {
                    curve.write_path(&mut out);
                }
                let _ = writeln!(out, "\"{}/>", look(paint));
            }
            DrawnThing::Text { text, at: (x, y), anchor, turned, lettering } => {
                let (x, y) = (short(*x), short(*y));
                let anchor = match anchor {
                    Anchor::Start => "start",
                    Anchor::Middle => "middle",
                    Anchor::End => "end",
                };
                let (size, fill) = (short(lettering.em), hex(lettering.colour));
                let weight = match lettering.weight {
                    Weight::Regular => "",
                    Weight::Bold => " font-weight=\"bold\"",
                };
                let turn = if *turned {
                    format!(" transform=\"rotate(-90 {x} {y})\"")
                } else {
                    String::new()
                };
                let text = escape(text);
                let _ = writeln!(
                    out,
                    "<text x=\"{x}\" y=\"{y}\" text-anchor=\"{anchor}\" font-size=\"{size}\"\
                     {weight} fill=\"{fill}\"{turn}>{text}</text>"
                );
            }
        }
    }
    out.push_str("</svg>\n");
    out
}

/// The attributes of a path's look.
fn look(paint: &Paint) -> String {
    let mut out = match paint.fill {
        Some(fill) => format!(" fill=\"{}\"", hex(fill)),
        None => " fill=\"none\"".to_owned(),
    };
    if let Some(trace) = paint.trace {
        let _ = write!(
            out,
            " stroke=\"{}\" stroke-width=\"{}\"",
            hex(trace.colour),
            short(trace.width)
        );
        if trace.round {
            out.push_str(" stroke-linecap=\"round\"");
        }
        if !trace.dashes.is_empty() {
            let lengths: Vec<String> = trace.dashes.iter().map(f64::to_string).collect();
            let _ = write!(out, " stroke-dasharray=\"{}\"", lengths.join(" "));
        }
    }
    if paint.opacity < 1.0 {
        let _ = write!(out, " opacity=\"{}\"", short(paint.opacity));
    }
    if paint.crisp {
        out.push_str(" shape-rendering=\"crispEdges\"");
    }
    out
}

fn hex((r, g, b): Rgb) -> String {
    format!("#{r:02X}{g:02X}{b:02X}")
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
