//! The balls where they stand before the shot and where they are after it.

use super::super::canvas::{Canvas, Paint, Pen};
use super::super::colours::{CLOTH, PAPER, Rgb, readable_on};
use super::super::contour::{Contour, PagePoint};
use super::crowd::Crowd;
use super::frame::TableFrame;
use super::input::{BallTrack, TrackEnd};
use super::looks::BallLook;
use super::tracks;

/// The outer ring of a ball that still moves stands so far off its rim.
const MOVING: f64 = 2.5;

/// Draws every ball at its start and at its end.
pub(super) fn draw(
    canvas: &mut Canvas,
    frame: &TableFrame,
    crowd: &mut Crowd,
    balls: &[BallTrack],
    looks: &[BallLook],
) {
    // Balls at rest below all starts, so that none hides where another stood.
    for (ball, look) in balls.iter().zip(looks) {
        let draw = match ball.end {
            TrackEnd::Rest => finish,
            TrackEnd::Moving => moving,
            TrackEnd::Drop | TrackEnd::Gone => continue,
        };
        if ball.moves() && !ball.runs_short() {
            let (end, radius) = (frame.at(ball.finish()), frame.length(ball.radius_m));
            crowd.disc(end, radius);
            draw(canvas, end, radius, *look);
        }
    }
    for (ball, look) in balls.iter().zip(looks) {
        let (start, radius) = (frame.at(ball.start), frame.length(ball.radius_m));
        crowd.disc(start, radius);
        if !ball.runs_short() {
            standing(canvas, start, radius, *look);
            continue;
        }
        // A path as short as the ball shows on a pale ball.
        let trace = Pen::plain(1.2, look.colour);
        let fill = if look.is_cue { PAPER } else { pale(look.colour) };
        let face = Paint::edged(fill, trace);
        canvas.curve(Contour::circle(start, radius - 0.6), face);
    }
    for (ball, look) in balls.iter().zip(looks).filter(|(ball, _)| ball.runs_short()) {
        let radius = frame.length(ball.radius_m);
        let end = frame.at(ball.finish());
        if matches!(ball.end, TrackEnd::Rest | TrackEnd::Moving) {
            crowd.disc(end, radius);
            canvas.ring(end, radius - 0.75, Pen::plain(1.5, look.colour));
        }
        if ball.end == TrackEnd::Moving {
            canvas.ring(end, radius + MOVING, Pen::plain(1.0, look.colour));
        }
        tracks::draw_thin(canvas, frame, ball, look.colour);
        canvas.disc(end, 2.0, look.colour);
    }
    // Above all balls, so that none hides another's end.
    for (ball, look) in balls.iter().zip(looks) {
        let radius = frame.length(ball.radius_m);
        let end = frame.at(ball.finish());
        if !ball.moves() {
            continue;
        }
        match ball.end {
            TrackEnd::Rest | TrackEnd::Moving => {}
            TrackEnd::Drop => {
                crowd.disc(end, 0.62 * radius);
                dropped(canvas, end, radius, look.colour);
            }
            TrackEnd::Gone => {
                crowd.disc(end, 0.62 * radius);
                gone(canvas, end, radius, look.colour);
            }
        }
    }
}

/// A colour thinned by cloth.
fn pale((r, g, b): Rgb) -> Rgb {
    let mix = |ink: u8, cloth: u8| {
        u8::try_from((u16::from(ink) + 3 * u16::from(cloth)) / 4).unwrap_or(cloth)
    };
    (mix(r, CLOTH.0), mix(g, CLOTH.1), mix(b, CLOTH.2))
}

/// A ball before the shot: a full disc; the cue ball is a thick ring.
pub(super) fn standing(canvas: &mut Canvas, at: PagePoint, radius: f64, look: BallLook) {
    canvas.disc(at, radius + 1.2, CLOTH);
    canvas.disc(at, radius, look.colour);
    if look.is_cue || look.ringed {
        let rim = if look.is_cue { 0.24 * radius } else { 0.36 * radius };
        canvas.disc(at, radius - rim, PAPER);
    }
}

/// A ball at rest after the shot: a thin ring.
pub(super) fn finish(canvas: &mut Canvas, at: PagePoint, radius: f64, look: BallLook) {
    let trace = Pen::plain(1.5, look.colour);
    let look = Paint::edged(CLOTH, trace);
    canvas.curve(Contour::circle(at, radius - 0.75), look);
}

/// A ball that still moves: a thin ring in another.
pub(super) fn moving(canvas: &mut Canvas, at: PagePoint, radius: f64, look: BallLook) {
    finish(canvas, at, radius, look);
    canvas.ring(at, radius + MOVING, Pen::plain(1.0, look.colour));
}

/// A ball that drops: a small disc with a light rim and a light core.
pub(super) fn dropped(canvas: &mut Canvas, at: PagePoint, radius: f64, colour: Rgb) {
    canvas.disc(at, 0.62 * radius, PAPER);
    canvas.disc(at, 0.62 * radius - 1.6, colour);
    canvas.disc(at, 0.2 * radius, readable_on(colour));
}

/// A ball that leaves the table: a slanted cross.
pub(super) fn gone(canvas: &mut Canvas, (x, y): PagePoint, radius: f64, colour: Rgb) {
    let arm = 0.5 * radius;
    for (width, shade) in [(4.6, PAPER), (2.2, colour)] {
        for side in [1.0, -1.0] {
            let ends = [(x - arm, y - side * arm), (x + arm, y + side * arm)];
            let stroke = Contour::through(&ends, false);
            canvas.trace(stroke, Pen { round: true, ..Pen::plain(width, shade) });
        }
    }
}
