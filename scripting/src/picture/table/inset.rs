//! The inset: one place of the table enlarged, with the balls' circles at the moments that matter there.

use super::super::canvas::{Anchor, Canvas, Paint, Pen};
use super::super::colours::{CLOTH, CUSHION, FRAME, HOLE, INK, Rgb, SOFT_INK, WOOD};
use super::super::contour::{Contour, PagePoint};
use super::super::font;
use super::super::page::{self, MARGIN, PHRASE, TERM};
use super::crowd::LabelBox;
use super::frame::TableFrame;
use super::input::{Inset, TablePicture};
use super::looks::BallLook;
use super::strip::NUMBER;
use super::{ground, tracks};

/// The enlarged picture.
pub(super) const SIZE: (f64, f64) = (252.0, 252.0 * Inset::HEIGHT_TO_WIDTH);
/// The window's edge, on the table and in the inset.
const EDGE: Pen = Pen { width: 1.0, colour: INK, dashes: &[4.0, 2.5], round: false };
const MOST_LINES: usize = 4;

/// Marks the window on the table.
pub(super) fn mark(canvas: &mut Canvas, frame: &TableFrame, inset: &Inset) {
    let half = (frame.length(inset.half_m), frame.length(inset.half_m) * SIZE.1 / SIZE.0);
    let (x, y) = frame.at(inset.centre);
    let window = Contour::rectangle((x - half.0, y - half.1), (2.0 * half.0, 2.0 * half.1));
    canvas.trace(window, EDGE);
}

/// Draws the inset at the left, and returns where it ends.
pub(super) fn draw(
    canvas: &mut Canvas,
    picture: &TablePicture,
    inset: &Inset,
    looks: &[BallLook],
    top: f64,
) -> f64 {
    let window = LabelBox { corner: (MARGIN, top), size: SIZE };
    let scale = 0.5 * SIZE.0 / inset.half_m;
    let frame = TableFrame::enlarged(&picture.table, inset.centre, window.centre(), scale);
    canvas.rectangle(window.corner, window.size, WOOD);
    let (corner, size) = frame.play();
    area(canvas, &window, &Contour::rectangle(corner, size), CLOTH);
    for pocket in &picture.table.pockets {
        area(canvas, &window, &ground::shelf(&frame, pocket), CLOTH);
        area(canvas, &window, &ground::opening(&frame, pocket, 0.0), HOLE);
    }
    for cushion in &picture.table.cushions {
        let Some(edge) = frame.cushion(&cushion.pieces) else { continue };
        area(canvas, &window, &Contour { closed: true, ..edge.clone() }, CUSHION);
        trace(canvas, &window, &edge.flattened(), Pen::plain(1.2, SOFT_INK));
    }
    for (ball, look) in picture.balls.iter().zip(looks) {
        for (motion, run) in tracks::runs(&frame, ball) {
            trace(canvas, &window, &run.flattened(), tracks::line(motion, look.colour));
        }
    }
    for circle in &inset.circles {
        let (at, radius) = (frame.at(circle.at), frame.length(circle.radius_m));
        let colour = looks.get(circle.ball).map_or(INK, |look| look.colour);
        trace(canvas, &window, &ring(at, radius), Pen::plain(1.6, colour));
    }
    // Moments at one place are told together.
    let mut written: Vec<(PagePoint, String)> = Vec::new();
    for circle in &inset.circles {
        let at = frame.at(circle.at);
        let near =
            |other: &&mut (PagePoint, String)| (other.0.0 - at.0).hypot(other.0.1 - at.1) <= 12.0;
        let number = circle.moment.to_string();
        match written.iter_mut().find(near) {
            // Both balls of a meeting have its number.
            Some((_, numbers)) if numbers.split(", ").any(|it| it == number) => {}
            Some((_, numbers)) => *numbers = format!("{numbers}, {number}"),
            None if holds(&window, at) => written.push((at, number)),
            None => {}
        }
    }
    for (at, numbers) in &written {
        let wide = font::width(numbers, NUMBER.em, NUMBER.weight) + 8.0;
        let plate = LabelBox::around(*at, (wide.max(15.0), 15.0));
        canvas.curve(Contour::rounded_box(plate.corner, plate.size, 7.5), Paint::area(CLOTH));
        canvas.text(numbers, (at.0, at.1 + 0.36 * NUMBER.em), Anchor::Middle, NUMBER);
    }
    canvas.frame(window.corner, window.size, 1.0, FRAME);
    canvas.trace(Contour::rectangle(window.corner, window.size), EDGE);
    let under = top + SIZE.1 + 6.0;
    let term = font::wrap(&font::clean(&inset.title), TERM.em, TERM.weight, SIZE.0, 2);
    let under = page::paragraph(canvas, &term, (MARGIN, under), TERM);
    let words =
        font::wrap(&font::clean(&inset.words), PHRASE.em, PHRASE.weight, SIZE.0, MOST_LINES);
    page::paragraph(canvas, &words, (MARGIN, under), PHRASE)
}

/// A circle as its points, the first again at the end.
fn ring(at: PagePoint, radius: f64) -> Vec<PagePoint> {
    let mut points = Contour::circle(at, radius).flattened();
    points.extend(points.first().copied());
    points
}

fn holds(window: &LabelBox, (x, y): PagePoint) -> bool {
    window.nearest((x, y)) == (x, y)
}

/// Fills the part of an area that lies in the window: the area is cut at one side after another.
fn area(canvas: &mut Canvas, window: &LabelBox, outline: &Contour, fill: Rgb) {
    let ((left, top), (wide, high)) = (window.corner, window.size);
    let mut points = outline.flattened();
    for (axis, limit, sign) in
        [(0, left, 1.0), (0, left + wide, -1.0), (1, top, 1.0), (1, top + high, -1.0)]
    {
        let depth = |at: &PagePoint| sign * (if axis == 0 { at.0 } else { at.1 } - limit);
        let mut kept = Vec::with_capacity(points.len() + 4);
        for (index, a) in points.iter().enumerate() {
            let b = &points[(index + 1) % points.len()];
            let (from, to) = (depth(a), depth(b));
            if from >= 0.0 {
                kept.push(*a);
            }
            if (from >= 0.0) != (to >= 0.0) {
                let share = from / (from - to);
                kept.push((a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1)));
            }
        }
        points = kept;
    }
    if points.len() >= 3 {
        canvas.curve(Contour::through(&points, true), Paint::area(fill));
    }
}

/// Draws the parts of a path that lie in the window.
fn trace(canvas: &mut Canvas, window: &LabelBox, path: &[PagePoint], pen: Pen) {
    let mut run: Vec<PagePoint> = Vec::new();
    let mut end = |run: &mut Vec<PagePoint>| {
        if run.len() > 1 {
            canvas.trace(Contour::through(run, false), pen);
        }
        run.clear();
    };
    for pair in path.windows(2) {
        let Some((from, to)) = cut(window, pair[0], pair[1]) else {
            end(&mut run);
            continue;
        };
        if run.last() != Some(&from) {
            end(&mut run);
            run.push(from);
        }
        run.push(to);
    }
    end(&mut run);
}

/// The part of a straight stretch that lies in the window.
fn cut(window: &LabelBox, a: PagePoint, b: PagePoint) -> Option<(PagePoint, PagePoint)> {
    let ((left, top), (wide, high)) = (window.corner, window.size);
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for (from, run, low, high) in
        [(a.0, b.0 - a.0, left, left + wide), (a.1, b.1 - a.1, top, top + high)]
    {
        if run == 0.0 {
            if from < low || from > high {
                return None;
            }
            continue;
        }
        let (one, other) = ((low - from) / run, (high - from) / run);
        first = first.max(one.min(other));
        last = last.min(one.max(other));
    }
    let at = |share: f64| {
        if share == 0.0 {
            a
        } else if share == 1.0 {
            b
        } else {
            (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1))
        }
    };
    (first < last).then(|| (at(first), at(last)))
}
