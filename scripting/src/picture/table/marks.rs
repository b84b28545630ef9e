//! Things on the table, lines of aim, ghost balls, and events along the paths.

use super::super::canvas::{Canvas, Paint, Pen};
use super::super::colours::{AS_ASKED, CLOTH, FRAME, INK, OBSTACLE, PAPER, SOFT_INK, TARGET};
use super::super::contour::{Contour, PagePoint, on_circle};
use super::crowd::Crowd;
use super::frame::TableFrame;
use super::input::{MarkKind, TablePicture};

const GUIDE: Pen = Pen { width: 1.3, colour: TARGET, dashes: &[1.5, 4.5], round: true };
/// The line of aim; in the colour of what was asked where another one is advised.
pub(super) const fn guide_pen(is_superseded: bool) -> Pen {
    if is_superseded { Pen { colour: AS_ASKED, ..GUIDE } } else { GUIDE }
}

/// Long dashes in the colour of aims: another play than the one that is drawn.
const OTHER_PLAY: Pen = Pen { width: 1.8, colour: TARGET, dashes: &[9.0, 4.0], round: false };
/// In the colour of what was asked: one that is not to be done again.
const PAST_PLAY: Pen = Pen { width: 1.5, colour: AS_ASKED, ..OTHER_PLAY };

/// The line of another play.
pub(super) const fn other_play(is_past: bool) -> Pen {
    if is_past { PAST_PLAY } else { OTHER_PLAY }
}

pub(super) const GHOST: Pen =
    Pen { width: 1.2, colour: SOFT_INK, dashes: &[3.0, 3.0], round: false };

/// Draws what lies under the paths.
pub(super) fn draw_under(
    canvas: &mut Canvas,
    frame: &TableFrame,
    crowd: &mut Crowd,
    picture: &TablePicture,
) {
    for obstacle in &picture.obstacles {
        let corners: Vec<PagePoint> = obstacle.corners.iter().map(|at| frame.at(*at)).collect();
        let outline = Contour::through(&corners, true);
        crowd.path(&outline.flattened());
        block(canvas, outline);
    }
    for guide in &picture.guides {
        let ends = [frame.at(guide.from), frame.at(guide.to)];
        let line = Contour::through(&ends, false);
        crowd.path(&ends);
        canvas.trace(line, guide_pen(picture.is_superseded()));
    }
}

/// Draws the other play over the paths.
pub(super) fn draw_other_play(
    canvas: &mut Canvas,
    frame: &TableFrame,
    crowd: &mut Crowd,
    picture: &TablePicture,
) {
    let Some(other) = &picture.other_play else { return };
    let guide = other.guide.iter().map(|guide| {
        let ends = [frame.at(guide.from), frame.at(guide.to)];
        Contour::through(&ends, false)
    });
    let ways = other.ways.iter().filter_map(|way| {
        let start = frame.at(way.first()?.from());
        let pieces = way.iter().map(|path| frame.stretch(path)).collect();
        Some(Contour { start, pieces, closed: false })
    });
    let pen = other_play(other.is_past);
    for (at, radius_m) in &other.starts {
        let (at, radius) = (frame.at(*at), frame.length(*radius_m));
        crowd.disc(at, radius);
        canvas.ring(at, radius, Pen { dashes: &[], ..pen });
    }
    for line in guide.chain(ways) {
        crowd.path(&line.flattened());
        canvas.trace(line, pen);
    }
}

/// A thing that lies on the table.
pub(super) fn block(canvas: &mut Canvas, outline: Contour) {
    let look = Paint::edged(OBSTACLE, Pen::plain(1.4, FRAME));
    canvas.curve(outline, look);
}

/// Draws what lies over the paths and under the balls.
pub(super) fn draw_over(
    canvas: &mut Canvas,
    frame: &TableFrame,
    crowd: &mut Crowd,
    picture: &TablePicture,
) {
    for ghost in &picture.ghosts {
        let (at, radius) = (frame.at(ghost.at), frame.length(ghost.radius_m));
        crowd.disc(at, radius);
        canvas.ring(at, radius, GHOST);
    }
    for mark in &picture.marks {
        let at = frame.at(mark.at);
        match mark.kind {
            MarkKind::Rail { nose, radius_m } => {
                crowd.disc(at, frame.length(radius_m));
                rail(canvas, at, frame.at(nose), frame.length(radius_m));
            }
            MarkKind::BallHit => crowd.disc(at, 6.0),
            MarkKind::Note => crowd.disc(at, 5.0),
        }
    }
}

/// Draws what lies over the balls.
pub(super) fn draw_on_top(canvas: &mut Canvas, frame: &TableFrame, picture: &TablePicture) {
    for mark in &picture.marks {
        match mark.kind {
            MarkKind::Rail { .. } => {}
            MarkKind::BallHit => ball_hit(canvas, frame.at(mark.at)),
            MarkKind::Note => note(canvas, frame.at(mark.at)),
        }
    }
}

/// Where a ball touches a nose: the ball as a thin ring, its centre, and the point of the nose.
pub(super) fn rail(canvas: &mut Canvas, at: PagePoint, nose: PagePoint, radius: f64) {
    canvas.ring(at, radius, Pen::plain(0.9, SOFT_INK));
    let line = Contour::through(&[at, nose], false);
    canvas.trace(line, Pen::plain(0.9, SOFT_INK));
    canvas.disc(at, 2.2, INK);
    canvas.disc(nose, 4.6, PAPER);
    canvas.disc(nose, 3.2, INK);
}

/// Where two balls touch: a star of four points.
pub(super) fn ball_hit(canvas: &mut Canvas, at: PagePoint) {
    for (long, short, shade) in [(9.2, 3.4, CLOTH), (7.4, 1.9, INK)] {
        let star = Contour::through(&star(at, long, short), true);
        canvas.area(star, shade);
    }
}

fn star(at: PagePoint, long: f64, short: f64) -> Vec<PagePoint> {
    (0..8)
        .map(|corner| {
            let angle = std::f64::consts::FRAC_PI_4 * f64::from(corner);
            let reach = if corner % 2 == 0 { long } else { short };
            on_circle(at, reach, angle)
        })
        .collect()
}

/// A place to look at: a small square on its edge, empty.
pub(super) fn note(canvas: &mut Canvas, (x, y): PagePoint) {
    let corners = [(x, y - 5.0), (x + 5.0, y), (x, y + 5.0), (x - 5.0, y)];
    let square = Contour::through(&corners, true);
    let look = Paint::edged(PAPER, Pen::plain(1.4, INK));
    canvas.curve(square, look);
}
