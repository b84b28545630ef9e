//! The table under the shot: wood, cloth, pockets, cushions and sights.

use super::super::canvas::{Anchor, Canvas, Lettering, Paint, Pen};
use super::super::colours::{CLOTH, CUSHION, HOLE, INK, PAPER, SOFT_INK, TARGET, WOOD, WOOD_EDGE};
use super::super::contour::{Contour, ContourPiece, PagePoint};
use super::super::font;
use super::super::page::TICK;
use super::crowd::{Crowd, LabelBox};
use super::frame::TableFrame;
use super::input::{PocketShape, Sight, TableShape};
use std::f64::consts::TAU;

/// Room for a sight's number.
const NUMBER_ROOM: f64 = 60.0;

/// Draws the table.
pub(super) fn draw(canvas: &mut Canvas, frame: &TableFrame, crowd: &mut Crowd, table: &TableShape) {
    let (corner, size) = frame.wood();
    let wood = Paint::edged(WOOD, Pen::plain(1.0, WOOD_EDGE));
    canvas.curve(Contour::rounded_box(corner, size, 16.0), wood);
    let (corner, size) = frame.play();
    canvas.area(Contour::rounded_box(corner, size, 0.0), CLOTH);
    for pocket in &table.pockets {
        draw_pocket(canvas, frame, pocket);
    }
    for cushion in &table.cushions {
        let Some(edge) = frame.cushion(&cushion.pieces) else { continue };
        crowd.path(&edge.flattened());
        canvas.area(Contour { closed: true, ..edge.clone() }, CUSHION);
        canvas.trace(edge, Pen { round: true, ..Pen::plain(1.1, SOFT_INK) });
    }
    for sight in &table.sights {
        draw_sight(canvas, frame, crowd, sight);
    }
    if table.named {
        draw_pocket_names(canvas, frame, crowd);
    }
}

const PLACE_NAME: Lettering = Lettering { em: 10.5, ..TICK };
/// From the middle of a name's letters down to the line that they stand on.
const LOW: f64 = 0.36 * PLACE_NAME.em;
/// Shares of a rail, from the head or the left on, half way between two sights and away from the pockets.
const ALONG: [f64; 4] = [0.3125, 0.6875, 0.1875, 0.8125];
const ACROSS: [f64; 3] = [0.375, 0.625, 0.5];

fn name_size(name: &str) -> (f64, f64) {
    let width = font::width(name, PLACE_NAME.em, PLACE_NAME.weight);
    (width + 6.0, PLACE_NAME.em + 2.0)
}

/// Names of the rails on the wood, where the fewest lines cross them.
pub(super) fn draw_rail_names(canvas: &mut Canvas, frame: &TableFrame, crowd: &mut Crowd) {
    let ((left, top), (wide, high)) = frame.wood();
    let ((play_left, play_top), (play_wide, play_high)) = frame.play();
    let (right, bottom) = (left + wide, top + high);
    let rail = 0.5 * (play_top - top);
    let mut claim = |places: Vec<LabelBox>| {
        let crossed = |place: &LabelBox| crowd.crowding(place);
        let crossed: Vec<f64> = places.iter().map(crossed).collect();
        let least = crossed.iter().copied().fold(f64::INFINITY, f64::min);
        let (place, _) = places.into_iter().zip(crossed).find(|(_, it)| *it <= least)?;
        crowd.claim(place).then(|| place.centre())
    };
    for (name, y) in [("left rail", top + rail), ("right rail", bottom - rail)] {
        let place =
            |share: f64| LabelBox::around((play_left + play_wide * share, y), name_size(name));
        if let Some((x, y)) = claim(ALONG.map(place).to_vec()) {
            canvas.text(name, (x, y + LOW), Anchor::Middle, PLACE_NAME);
        }
    }
    for (name, x) in [("head rail", left + rail), ("foot rail", right - rail)] {
        let (long, thick) = name_size(name);
        let place = |share: f64| LabelBox::around((x, play_top + play_high * share), (thick, long));
        if let Some((x, y)) = claim(ACROSS.map(place).to_vec()) {
            canvas.turned_text(name, (x + LOW, y), Anchor::Middle, PLACE_NAME);
        }
    }
}

/// Names of the pockets outside the wood.
fn draw_pocket_names(canvas: &mut Canvas, frame: &TableFrame, crowd: &mut Crowd) {
    let ((left, top), (wide, high)) = frame.wood();
    let (right, bottom) = (left + wide, top + high);
    let columns = [
        ("head-", left, Anchor::Start),
        ("", f64::midpoint(left, right), Anchor::Middle),
        ("foot-", right, Anchor::End),
    ];
    for (side, y) in [("left", top - 11.0), ("right", bottom + 11.0)] {
        for (end, x, anchor) in columns {
            let name = if end.is_empty() { format!("{side} side") } else { format!("{end}{side}") };
            let shift = match anchor {
                Anchor::Start => 0.5,
                Anchor::Middle => 0.0,
                Anchor::End => -0.5,
            };
            let (long, thick) = name_size(&name);
            if crowd.claim(LabelBox::around((x + shift * long, y), (long, thick))) {
                canvas.text(&name, (x, y + LOW), anchor, PLACE_NAME);
            }
        }
    }
}

/// The shelf as cloth, and beyond the drop line the opening.
fn draw_pocket(canvas: &mut Canvas, frame: &TableFrame, pocket: &PocketShape) {
    canvas.area(shelf(frame, pocket), CLOTH);
    if pocket.target {
        canvas.area(opening(frame, pocket, 5.5), TARGET);
        canvas.area(opening(frame, pocket, 2.0), WOOD);
    }
    canvas.area(opening(frame, pocket, 0.0), HOLE);
}

/// The cloth between the mouth and the drop line.
pub(super) fn shelf(frame: &TableFrame, pocket: &PocketShape) -> Contour {
    let [from, to] = pocket.mouth.map(|at| frame.at(at));
    let [left, right] = pocket.drop.map(|at| frame.at(at));
    Contour::through(&[from, left, right, to], true)
}

/// The opening beyond the drop line, as most of a circle, so much wider.
pub(super) fn opening(frame: &TableFrame, pocket: &PocketShape, margin: f64) -> Contour {
    /// The width at which the opening begins, hidden by the cushions, as a multiple of the drop line's.
    const WIDER: f64 = 1.05;
    /// The distance of the circle's centre behind the drop line, to half the opening's width.
    const BEHIND: f64 = 0.45;
    let [from, to] = pocket.mouth.map(|at| frame.at(at));
    let [left, right] = pocket.drop.map(|at| frame.at(at));
    let drop = middle(left, right);
    let half = 0.5 * WIDER * (right.0 - left.0).hypot(right.1 - left.1);
    let out = outwards(frame, middle(from, to), drop);
    let centre = (drop.0 + BEHIND * half * out.0, drop.1 + BEHIND * half * out.1);
    let radius = half * BEHIND.hypot(1.0) + margin;
    // The arc leaves out what lies before the drop line.
    let open = libm::acos(BEHIND * half / radius);
    let back = libm::atan2(-out.1, -out.0);
    Contour { closed: true, ..Contour::arc(centre, radius, back + open, TAU - 2.0 * open) }
}

/// The direction, of length 1, in which a pocket lies off the table.
fn outwards(frame: &TableFrame, mouth: PagePoint, drop: PagePoint) -> (f64, f64) {
    let along = (drop.0 - mouth.0, drop.1 - mouth.1);
    let length = along.0.hypot(along.1);
    if length > 1e-3 {
        return (along.0 / length, along.1 / length);
    }
    let centre = frame.centre();
    let away = (drop.0 - centre.0, drop.1 - centre.1);
    let length = away.0.hypot(away.1).max(1e-9);
    (away.0 / length, away.1 / length)
}

fn middle(a: PagePoint, b: PagePoint) -> PagePoint {
    (f64::midpoint(a.0, b.0), f64::midpoint(a.1, b.1))
}

/// A sight as a small diamond, and its number outside the wood.
fn draw_sight(canvas: &mut Canvas, frame: &TableFrame, crowd: &mut Crowd, sight: &Sight) {
    let (x, y) = frame.at(sight.at);
    let diamond = Contour {
        start: (x, y - 4.6),
        pieces: vec![
            ContourPiece::Line { to: (x + 3.4, y) },
            ContourPiece::Line { to: (x, y + 4.6) },
            ContourPiece::Line { to: (x - 3.4, y) },
        ],
        closed: true,
    };
    let look = Paint::edged(PAPER, Pen::plain(1.0, SOFT_INK));
    canvas.curve(diamond, look);
    let number = font::fit(&font::clean(&sight.number), TICK.em, TICK.weight, NUMBER_ROOM);
    if number.is_empty() {
        return;
    }
    let ((left, top), (wide, high)) = frame.wood();
    let (right, bottom) = (left + wide, top + high);
    let long = font::width(&number, TICK.em, TICK.weight);
    let sides = [
        (y - top, (x, top - 11.0), Anchor::Middle),
        (bottom - y, (x, bottom + 11.0), Anchor::Middle),
        (x - left, (left - 8.0, y), Anchor::End),
        (right - x, (right + 8.0, y), Anchor::Start),
    ];
    let nearest = sides.into_iter().min_by(|a, b| a.0.total_cmp(&b.0));
    let Some((_, (x, y), anchor)) = nearest else { return };
    let shift = match anchor {
        Anchor::Start => long / 2.0,
        Anchor::Middle => 0.0,
        Anchor::End => -long / 2.0,
    };
    // Numbers in one place would hide each other: the first stays.
    if crowd.claim(LabelBox::around((x + shift, y), (long + 4.0, TICK.em))) {
        let style = Lettering { colour: INK, ..TICK };
        canvas.text(&number, (x, y + 0.36 * TICK.em), anchor, style);
    }
}
