//! Words and signs beside what they mean: never over each other, off the paths where there is room.

use super::super::canvas::{Anchor, Canvas, Lettering, Paint, Pen};
use super::super::colours::{CLOTH, FRAME, INK, Rgb, SOFT_INK, readable_on};
use super::super::contour::{Contour, PagePoint};
use super::super::font::{self, Weight};
use super::crowd::{Crowd, LabelBox, LabelPlace};
use super::frame::TableFrame;
use super::input::{BallTrack, MarkKind, SpinMark, TablePicture, TrackEnd};
use super::looks::{self, BallLook};
use super::strip::NUMBER;
use super::tracks;

const NAME: Lettering = Lettering { em: 12.0, weight: Weight::Bold, colour: INK };
const WORDS: Lettering = Lettering { em: 11.0, weight: Weight::Regular, colour: INK };
const TAG: Lettering = Lettering { em: 9.5, weight: Weight::Bold, colour: INK };
/// The numbers of a line, which a reader looks for first.
const NUMBERS: Lettering = Lettering { em: 13.0, weight: Weight::Bold, colour: INK };
/// Longest label, and longest numbers of a line.
const ROOM: f64 = 190.0;
const NUMBERS_ROOM: f64 = 340.0;
/// With more balls than this on the way, their paths carry their names.
const FEW: usize = 2;
/// A leg this long carries a name.
const LEAST_TAGGED: f64 = 90.0;
const MOST_TAGS: usize = 4;

/// Draws every label and every number of a spin; returns those that found no room, by their words.
pub(super) fn draw(
    canvas: &mut Canvas,
    frame: &TableFrame,
    crowd: &mut Crowd,
    picture: &TablePicture,
    looks: &[BallLook],
) -> Vec<String> {
    let mut left_out: Vec<(String, usize)> = Vec::new();
    let mut missed = |drawn: bool, words: String| {
        if drawn {
            return;
        }
        match left_out.iter_mut().find(|(known, _)| *known == words) {
            Some((_, times)) => *times += 1,
            None => left_out.push((words, 1)),
        }
    };
    let named: Vec<(&BallTrack, &BallLook, String)> = picture
        .balls
        .iter()
        .zip(looks)
        .map(|(ball, look)| (ball, look, short(&ball.name, NAME)))
        .filter(|(_, _, name)| !name.is_empty())
        .collect();
    let mut outside: Vec<(&BallTrack, &String, bool)> = Vec::new();
    for (ball, look, name) in &named {
        if !inside(canvas, crowd, frame, ball, **look, name) {
            outside.push((ball, name, false));
        }
        if ball.moves()
            && matches!(ball.end, TrackEnd::Rest | TrackEnd::Moving)
            && !ball.runs_short()
            && !at_rest(canvas, crowd, frame, ball, name)
        {
            outside.push((ball, name, true));
        }
    }
    for (index, spin) in picture.spins.iter().enumerate() {
        let number = (index + 1).to_string();
        let words = format!("the number of spin {number}");
        missed(numbered(canvas, crowd, frame, spin, &number), words);
    }
    for (ball, name, end) in outside {
        let at = frame.at(if end { ball.finish() } else { ball.start });
        let radius = frame.length(ball.radius_m);
        let words = format!("the name {name}");
        missed(beside(canvas, crowd, &[at], radius, name, NAME), words);
    }
    for obstacle in &picture.obstacles {
        let name = short(&obstacle.name, WORDS);
        if name.is_empty() || obstacle.corners.is_empty() {
            continue;
        }
        let outline: Vec<PagePoint> = obstacle.corners.iter().map(|at| frame.at(*at)).collect();
        let at = middle_of(&outline);
        let place = LabelBox::around(at, size(&name, WORDS));
        if place.corners().iter().all(|corner| encloses(&outline, *corner))
            && crowd.claim_clear(place)
        {
            write(canvas, &name, place, WORDS);
            continue;
        }
        let far = |corner: &PagePoint| (corner.0 - at.0).hypot(corner.1 - at.1);
        let reach = outline.iter().map(far).fold(0.0, f64::max);
        missed(beside(canvas, crowd, &[at], 0.8 * reach, &name, WORDS), format!("the name {name}"));
    }
    for mark in &picture.marks {
        let (radius, at) = match mark.kind {
            MarkKind::Rail { radius_m, .. } => (frame.length(radius_m), frame.at(mark.at)),
            MarkKind::BallHit | MarkKind::Note => (7.0, frame.at(mark.at)),
        };
        let label = short(&mark.label, WORDS);
        missed(beside(canvas, crowd, &[at], radius, &label, WORDS), label);
    }
    for ghost in &picture.ghosts {
        let (at, radius) = (frame.at(ghost.at), frame.length(ghost.radius_m));
        let label = short(&ghost.label, WORDS);
        missed(beside(canvas, crowd, &[at], radius, &label, WORDS), label);
    }
    let other =
        picture.other_play.iter().filter_map(|play| Some((play.guide.as_ref()?, play.is_past)));
    let own = picture.guides.iter().map(|guide| (guide, picture.is_superseded()));
    for (guide, is_past) in own.chain(other) {
        let ends = [frame.at(guide.from), frame.at(guide.to)];
        let style =
            if is_past { Lettering { weight: Weight::Regular, ..NUMBERS } } else { NUMBERS };
        for (label, end) in guide.labels.iter().zip(ends) {
            let label = fitted(label, style, NUMBERS_ROOM);
            missed(on_wood(canvas, crowd, frame, end, (&label, style)), label);
        }
    }
    if picture.balls.iter().filter(|ball| ball.moves()).count() > FEW {
        for (ball, look, name) in &named {
            tag(canvas, crowd, frame, ball, **look, name);
        }
    }
    counted(left_out)
}

/// The words of what is left out, each once; the last say how many more there are.
fn counted(left_out: Vec<(String, usize)>) -> Vec<String> {
    const TOLD: usize = 12;
    let more = left_out.len().saturating_sub(TOLD);
    let told = left_out.into_iter().take(TOLD).map(|(words, times)| match times {
        1 => words,
        _ => format!("{words} ({times} times)"),
    });
    told.chain((more > 0).then(|| format!("and {more} more"))).collect()
}

fn short(text: &str, style: Lettering) -> String {
    fitted(text, style, ROOM)
}

fn fitted(text: &str, style: Lettering, room: f64) -> String {
    font::fit(&font::clean(text), style.em, style.weight, room)
}

/// The box of a text with a little space around.
fn size(text: &str, style: Lettering) -> (f64, f64) {
    (font::width(text, style.em, style.weight) + 6.0, 1.15 * style.em + 3.0)
}

/// Writes a text in the middle of a box.
fn write(canvas: &mut Canvas, text: &str, place: LabelBox, style: Lettering) {
    let (x, y) = place.centre();
    canvas.text(text, (x, y + 0.36 * style.em), Anchor::Middle, style);
}

/// A light plate under a text, through which paths shimmer.
fn plate(canvas: &mut Canvas, place: LabelBox, edge: Option<Rgb>) {
    let outline = Contour::rounded_box(place.corner, place.size, 4.0);
    let opacity = if edge.is_some() { 1.0 } else { 0.82 };
    let trace = edge.map(|colour| Pen::plain(1.0, colour));
    canvas.curve(outline, Paint { trace, opacity, ..Paint::area(CLOTH) });
}

/// A thread from the rim of a named thing to its label.
fn thread(canvas: &mut Canvas, radius: f64, found: &LabelPlace) {
    if !found.far {
        return;
    }
    let about = found.about;
    let end = found.place.nearest(about);
    let length = (end.0 - about.0).hypot(end.1 - about.1);
    if length <= radius {
        return;
    }
    let share = radius / length;
    let rim = (about.0 + share * (end.0 - about.0), about.1 + share * (end.1 - about.1));
    let line = Contour::through(&[rim, end], false);
    canvas.trace(line, Pen::plain(0.9, SOFT_INK));
}

/// Writes a text where there is room about a place; false if there is none.
fn beside(
    canvas: &mut Canvas,
    crowd: &mut Crowd,
    about: &[PagePoint],
    radius: f64,
    text: &str,
    style: Lettering,
) -> bool {
    if text.is_empty() {
        return true;
    }
    let Some(found) = crowd.find(about, radius, size(text, style)) else { return false };
    thread(canvas, radius, &found);
    plate(canvas, found.place, None);
    write(canvas, text, found.place, style);
    true
}

/// Writes words on the wood between the sights and its outer edge, by a place on a long rail; false if
/// there is no room.
fn on_wood(
    canvas: &mut Canvas,
    crowd: &mut Crowd,
    frame: &TableFrame,
    (x, y): PagePoint,
    (text, style): (&str, Lettering),
) -> bool {
    if text.is_empty() {
        return true;
    }
    let size = size(text, style);
    let ((left, top), (wide, high)) = frame.wood();
    let outer = 0.5 * size.1 + 2.0;
    let middle = frame.centre().1;
    let rail = if y < middle { top + outer } else { top + high - outer };
    let reach = 0.5 * size.0 + 4.0;
    let to_end = (x - left).min(left + wide - x);
    let to_long = (y - top).min(top + high - y);
    let by_long_rail = to_long < 0.25 * high && to_end > to_long;
    let places = [0.0, reach, -reach].map(|aside| {
        LabelBox::around(((x + aside).clamp(left + reach, left + wide - reach), rail), size)
    });
    let found = places.into_iter().find(|place| by_long_rail && crowd.claim(*place));
    let Some(place) = found else {
        return beside(canvas, crowd, &[(x, y)], 4.0, text, style);
    };
    write(canvas, text, place, style);
    true
}

/// The lettering of a name inside a ball, if it fits.
fn fits(name: &str, radius: f64, colour: Rgb) -> Option<Lettering> {
    let style = Lettering { em: (0.95 * radius).min(12.0), colour, ..NAME };
    let fits = style.em >= 8.0 && font::width(name, style.em, style.weight) <= 1.3 * radius;
    fits.then_some(style)
}

/// Writes a short name inside the ball at its start.
fn inside(
    canvas: &mut Canvas,
    crowd: &mut Crowd,
    frame: &TableFrame,
    ball: &BallTrack,
    look: BallLook,
    name: &str,
) -> bool {
    let radius = frame.length(ball.radius_m);
    let ground = looks::inside(look);
    let Some(style) = fits(name, radius, readable_on(ground)) else { return false };
    let place = LabelBox::around(frame.at(ball.start), (1.3 * radius, style.em));
    let free = !ball.runs_short() && crowd.claim(place);
    if free {
        write(canvas, name, place, style);
    }
    free
}

/// Writes a short name inside the ring of a ball at rest.
fn at_rest(
    canvas: &mut Canvas,
    crowd: &mut Crowd,
    frame: &TableFrame,
    ball: &BallTrack,
    name: &str,
) -> bool {
    let radius = frame.length(ball.radius_m);
    let Some(style) = fits(name, radius, INK) else { return false };
    let place = LabelBox::around(frame.at(ball.finish()), (1.3 * radius, style.em));
    let free = crowd.claim(place);
    if free {
        write(canvas, name, place, style);
    }
    free
}

fn middle_of(outline: &[PagePoint]) -> PagePoint {
    let count = outline.len().max(1) as f64;
    let sum = outline.iter().fold((0.0, 0.0), |sum, at| (sum.0 + at.0, sum.1 + at.1));
    (sum.0 / count, sum.1 / count)
}

/// Whether a place lies within an outline: a ray from it crosses the outline an odd number of
/// times.
fn encloses(outline: &[PagePoint], (x, y): PagePoint) -> bool {
    let mut odd = false;
    for (index, &a) in outline.iter().enumerate() {
        let b = outline[(index + 1) % outline.len()];
        if (a.1 > y) != (b.1 > y) && x < a.0 + (y - a.1) / (b.1 - a.1) * (b.0 - a.0) {
            odd = !odd;
        }
    }
    odd
}

/// Writes the number of a spin in the strip about the ball.
fn numbered(
    canvas: &mut Canvas,
    crowd: &mut Crowd,
    frame: &TableFrame,
    spin: &SpinMark,
    number: &str,
) -> bool {
    let (about, radius) = (frame.at(spin.at), frame.length(spin.radius_m));
    let (long, high) = size(number, NUMBER);
    let Some(mut found) = crowd.find(&[about], radius, (long.max(high), high)) else {
        return false;
    };
    found.far = true;
    thread(canvas, radius, &found);
    plate(canvas, found.place, Some(FRAME));
    write(canvas, number, found.place, NUMBER);
    true
}

/// Writes a ball's name on its path, leg by leg.
fn tag(
    canvas: &mut Canvas,
    crowd: &mut Crowd,
    frame: &TableFrame,
    ball: &BallTrack,
    look: BallLook,
    name: &str,
) {
    let name = font::fit(name, TAG.em, TAG.weight, 60.0);
    let size = (font::width(&name, TAG.em, TAG.weight) + 7.0, TAG.em + 3.0);
    let mut tags = 0;
    for leg in tracks::legs(frame, ball) {
        if leg.length < LEAST_TAGGED || tags >= MOST_TAGS {
            continue;
        }
        for share in [0.28, 0.72, 0.18, 0.82, 0.38, 0.62] {
            let place = LabelBox::around(leg.at(share * leg.length).0, size);
            if crowd.claim_clear(place) {
                plate(canvas, place, Some(look.colour));
                write(canvas, &name, place, TAG);
                tags += 1;
                break;
            }
        }
    }
}
