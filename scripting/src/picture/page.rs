//! The frame of every picture: margins, a title with the conditions under it, footnotes.

use super::canvas::{Anchor, Canvas, Lettering};
use super::colours::{HAIRLINE, INK, SOFT_INK};
use super::font::{self, Weight};
use std::ops::Range;

/// Empty space around a picture.
pub(super) const MARGIN: f64 = 40.0;

pub(super) const TITLE: Lettering = Lettering { em: 22.0, weight: Weight::Bold, colour: INK };
pub(super) const SUBTITLE: Lettering =
    Lettering { em: 13.5, weight: Weight::Regular, colour: SOFT_INK };
pub(super) const CAPTION: Lettering = Lettering { em: 13.0, weight: Weight::Bold, colour: INK };
pub(super) const AXIS: Lettering = Lettering { em: 12.5, weight: Weight::Regular, colour: INK };
pub(super) const TICK: Lettering =
    Lettering { em: 11.5, weight: Weight::Regular, colour: SOFT_INK };
pub(super) const TERM: Lettering = Lettering { em: 12.0, weight: Weight::Bold, colour: INK };
pub(super) const PHRASE: Lettering =
    Lettering { em: 11.5, weight: Weight::Regular, colour: SOFT_INK };
pub(super) const NOTE: Lettering =
    Lettering { em: 11.0, weight: Weight::Regular, colour: SOFT_INK };

const LINE_HEIGHT: f64 = 1.38;
/// A title or a condition of more lines is cut.
const MOST_LINES: usize = 6;
const MOST_SUBTITLES: usize = 6;
const MOST_NOTES: usize = 12;

/// Writes lines one under another from `top` and returns where the next block may start.
pub(super) fn paragraph(
    canvas: &mut Canvas,
    lines: &[String],
    (x, top): (f64, f64),
    style: Lettering,
) -> f64 {
    let pitch = (style.em * LINE_HEIGHT).round();
    let mut y = top;
    for line in lines {
        // The letters stand in the middle of their line.
        let baseline = y + f64::midpoint(pitch, 0.73 * style.em);
        canvas.text(line, (x, baseline), Anchor::Start, style);
        y += pitch;
    }
    y
}

/// The height of that many lines of [`paragraph`].
pub(super) fn paragraph_height(lines: usize, style: Lettering) -> f64 {
    lines as f64 * (style.em * LINE_HEIGHT).round()
}

/// Things of these heights in order, in at most so many columns, the highest as low as it can be.
pub(super) fn columns(heights: &[f64], most: usize) -> Vec<Range<usize>> {
    let parted = |limit: f64| {
        let mut parts: Vec<Range<usize>> = Vec::new();
        let mut high = f64::INFINITY;
        for (at, height) in heights.iter().enumerate() {
            match parts.last_mut() {
                Some(part) if high + height <= limit => part.end = at + 1,
                _ => {
                    parts.push(at..at + 1);
                    high = 0.0;
                }
            }
            high += height;
        }
        parts
    };
    let tallest = heights.iter().copied().fold(0.0, f64::max);
    let mut limit = tallest.max(heights.iter().sum::<f64>() / most as f64) + 1e-6;
    while parted(limit).len() > most {
        limit += 2.0;
    }
    parted(limit)
}

/// Writes title and conditions, and returns where the body may start.
pub(super) fn header(canvas: &mut Canvas, title: &str, subtitles: &[String]) -> f64 {
    let room = canvas.width - 2.0 * MARGIN;
    let mut y = MARGIN - 8.0;
    let title = font::wrap(&font::clean(title), TITLE.em, TITLE.weight, room, MOST_LINES);
    y = paragraph(canvas, &title, (MARGIN, y), TITLE) + 4.0;
    for subtitle in shown(subtitles, MOST_SUBTITLES) {
        let lines = font::wrap(&subtitle, SUBTITLE.em, SUBTITLE.weight, room, MOST_LINES);
        y = paragraph(canvas, &lines, (MARGIN, y), SUBTITLE);
    }
    y + 20.0
}

/// Writes the footnotes under a hairline and closes the page below them.
pub(super) fn footer(canvas: &mut Canvas, footnotes: &[String], top: f64) {
    let room = canvas.width - 2.0 * MARGIN;
    let mut y = top;
    let notes = shown(footnotes, MOST_NOTES);
    if !notes.is_empty() {
        canvas.stroke(&[(MARGIN, y), (canvas.width - MARGIN, y)], 1.0, HAIRLINE);
        y += 10.0;
        for note in notes {
            let lines = font::wrap(&note, NOTE.em, NOTE.weight, room, 3);
            y = paragraph(canvas, &lines, (MARGIN, y), NOTE);
        }
    }
    canvas.height = y + MARGIN - 12.0;
}

/// The first texts, cleaned, and the number of the others.
fn shown(texts: &[String], most: usize) -> Vec<String> {
    let all: Vec<&String> = texts.iter().filter(|text| !text.trim().is_empty()).collect();
    let mut out: Vec<String> = all.iter().take(most).map(|text| font::clean(text)).collect();
    if all.len() > most {
        out.push(format!("… and {} more", all.len() - most));
    }
    out
}

/// The words of a reader that cannot show a picture: conditions, axes across and up, then the rest.
pub(super) fn description(
    subtitles: &[String],
    (across, up): (&str, &str),
    rest: impl Iterator<Item = String>,
) -> String {
    let axes = format!("Across: {across}. Up: {up}.");
    let parts = subtitles.iter().map(|line| font::clean(line)).chain([axes]).chain(rest);
    parts.filter(|part| !part.trim().is_empty()).collect::<Vec<_>>().join(" ")
}

/// The titles of the axes of plots that fill a box: in the middle under it, and turned on its left.
pub(super) fn axis_titles(
    canvas: &mut Canvas,
    (across, up): (&str, &str),
    (left, top): (f64, f64),
    (wide, high): (f64, f64),
) {
    let across = font::fit(across, AXIS.em, AXIS.weight, wide);
    let under = (left + wide / 2.0, top + high + 42.0);
    canvas.text(&across, under, Anchor::Middle, AXIS);
    let up = font::fit(up, AXIS.em, AXIS.weight, high);
    canvas.turned_text(&up, (MARGIN + 11.0, top + high / 2.0), Anchor::Middle, AXIS);
}

/// An axis title with its unit in parentheses.
pub(super) fn with_unit(title: &str, unit: &str) -> String {
    let (title, unit) = (font::clean(title), font::clean(unit));
    match (title.is_empty(), unit.is_empty()) {
        (_, true) => title,
        (true, false) => unit,
        (false, false) => format!("{title} ({unit})"),
    }
}
