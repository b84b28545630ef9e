//! Pairs of numbers over the members: which go together.

use super::super::canvas::{Anchor, Canvas, Paint};
use super::super::colours::{EXPECTED_HALF, FRAME, HAIRLINE, INK};
use super::super::contour::Contour;
use super::super::error::PictureError;
use super::super::font;
use super::super::lines_axes::Scale;
use super::super::page::{AXIS, CAPTION, MARGIN, TICK};
use super::key::{KeySign, SignMeaning};

const PLOT: (f64, f64) = (232.0, 196.0);
/// Room on the left for an axis, and below for the other.
const BESIDE: f64 = 74.0;
const BELOW: f64 = 58.0;
const CAPTION_HEIGHT: f64 = 24.0;
const COLUMN_GAP: f64 = 26.0;
const MOST_COLUMNS: usize = 3;
/// A page of one panel has room for its words all the same.
const LEAST_WIDTH: f64 = 660.0;
const POINT: f64 = 1.6;

/// An axis of a pair.
#[derive(Debug, Clone, PartialEq)]
pub struct PairAxis {
    /// The number and its unit.
    pub title: String,
    /// Where it lies nine times in ten.
    pub ninety: (f64, f64),
}

/// Two numbers over the members.
#[derive(Debug, Clone, PartialEq)]
pub struct PairPanel {
    /// What is to be said of the two.
    pub caption: String,
    /// The number across.
    pub x: PairAxis,
    /// The number up.
    pub y: PairAxis,
    /// A point for each member that is drawn.
    pub points: Vec<(f64, f64)>,
}

fn columns(panels: &[PairPanel]) -> usize {
    if panels.len() == 4 { 2 } else { panels.len().clamp(1, MOST_COLUMNS) }
}

/// The width of the body.
pub(super) fn width(panels: &[PairPanel]) -> f64 {
    let columns = columns(panels) as f64;
    (columns * (BESIDE + PLOT.0) + (columns - 1.0) * COLUMN_GAP).max(LEAST_WIDTH)
}

/// Draws the panels and returns where they end.
pub(super) fn draw(
    canvas: &mut Canvas,
    panels: &[PairPanel],
    top: f64,
) -> Result<f64, PictureError> {
    let columns = columns(panels);
    let high = CAPTION_HEIGHT + PLOT.1 + BELOW;
    for (index, panel) in panels.iter().enumerate() {
        let (column, row) = (index % columns, index / columns);
        let left = MARGIN + BESIDE + column as f64 * (BESIDE + PLOT.0 + COLUMN_GAP);
        draw_panel(canvas, panel, (left, top + CAPTION_HEIGHT + row as f64 * high))?;
    }
    Ok(top + panels.len().div_ceil(columns) as f64 * high)
}

fn draw_panel(
    canvas: &mut Canvas,
    panel: &PairPanel,
    (left, top): (f64, f64),
) -> Result<(), PictureError> {
    let finite = || panel.points.iter().filter(|(x, y)| x.is_finite() && y.is_finite());
    let x = Scale::over("x", finite().map(|point| point.0), PLOT.0 / 76.0)?;
    let y = Scale::over("y", finite().map(|point| point.1), PLOT.1 / 48.0)?;
    let at = |across: f64, up: f64| {
        (left + PLOT.0 * x.share(across), top + PLOT.1 * (1.0 - y.share(up)))
    };
    let bottom = top + PLOT.1;
    let caption = font::fit(&font::clean(&panel.caption), CAPTION.em, CAPTION.weight, PLOT.0);
    canvas.text(&caption, (left, top - 9.0), Anchor::Start, CAPTION);
    for (tick, label) in x.ticks.iter().zip(x.labels().0) {
        let across = at(*tick, 0.0).0;
        canvas.stroke(&[(across, top), (across, bottom)], 1.0, HAIRLINE);
        canvas.text(&label, (across, bottom + 18.0), Anchor::Middle, TICK);
    }
    for (tick, label) in y.ticks.iter().zip(y.labels().0) {
        let up = at(0.0, *tick).1;
        canvas.stroke(&[(left, up), (left + PLOT.0, up)], 1.0, HAIRLINE);
        canvas.text(&label, (left - 9.0, up + 4.0), Anchor::End, TICK);
    }
    let discs = finite().map(|(across, up)| Contour::circle(at(*across, *up), POINT)).collect();
    canvas.curves(discs, Paint::area(EXPECTED_HALF));
    canvas.frame((left, top), PLOT, 1.0, FRAME);
    let within = |value: f64| value.clamp(0.0, 1.0);
    let (from, to) = panel.x.ninety;
    let along = [from, to].map(|value| (left + PLOT.0 * within(x.share(value)), bottom));
    canvas.stroke(&along, 4.0, INK);
    let (from, to) = panel.y.ninety;
    let along = [from, to].map(|value| (left, top + PLOT.1 * (1.0 - within(y.share(value)))));
    canvas.stroke(&along, 4.0, INK);
    let across = font::fit(&font::clean(&panel.x.title), AXIS.em, AXIS.weight, PLOT.0);
    canvas.text(&across, (left + PLOT.0 / 2.0, bottom + 37.0), Anchor::Middle, AXIS);
    let up = font::fit(&font::clean(&panel.y.title), AXIS.em, AXIS.weight, PLOT.1);
    let beside = (left - BESIDE + 13.0, top + PLOT.1 / 2.0);
    canvas.turned_text(&up, beside, Anchor::Middle, AXIS);
    Ok(())
}

/// The key to what is drawn.
pub(super) fn key(panels: &[PairPanel]) -> Vec<SignMeaning> {
    if panels.is_empty() {
        return Vec::new();
    }
    vec![
        SignMeaning {
            sign: KeySign::Member,
            term: "a table that this one could be",
            phrase: "a slanting cloud: the banks pin down the two together better than each alone",
        },
        SignMeaning {
            sign: KeySign::AlongAxis,
            term: "nine times in ten",
            phrase: "where each number lies by itself",
        },
    ]
}

/// The panels in words.
pub(super) fn said(panels: &[PairPanel]) -> Vec<String> {
    let text =
        |panel: &PairPanel| format!("{} and {}: {}.", panel.x.title, panel.y.title, panel.caption);
    panels.iter().map(text).collect()
}
