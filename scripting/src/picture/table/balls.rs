//! The balls where they stand before the shot and where they are after it.

use super::super::canvas::{Canvas, Paint, Trace};
use super::super::colours::{BALLS, CLOTH, CUE, PAPER, Rgb, readable_on};
use super::super::curve::{Curve, Place};
use super::crowd::Crowd;
use super::frame::Frame;
use super::input::{BallTrack, TrackEnd};
use super::tracks;

/// How a ball and its path look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct BallLook {
    pub(super) colour: Rgb,
    pub(super) is_cue: bool,
    /// Balls past the last colour begin again, with a ring inside.
    pub(super) ringed: bool,
}

/// The looks of the balls, in their order.
pub(super) fn looks(balls: &[BallTrack]) -> Vec<BallLook> {
    let mut others = 0;
    balls
        .iter()
        .map(|ball| {
            if ball.is_cue {
                return BallLook { colour: CUE, is_cue: true, ringed: false };
            }
            let index = others;
            others += 1;
            BallLook {
                colour: BALLS[index % BALLS.len()],
                is_cue: false,
                ringed: (index / BALLS.len()) % 2 == 1,
            }
        })
        .collect()
}

/// The colour inside a ball at its start, on which a name is read.
pub(super) fn inside(look: BallLook) -> Rgb {
    if look.is_cue || look.ringed { PAPER } else { look.colour }
}

/// Whether a ball's path hides under the ball itself.
pub(super) fn runs_short(ball: &BallTrack) -> bool {
    let far = |(x, y): (f64, f64)| (x - ball.start.0).hypot(y - ball.start.1);
    ball.moves() && ball.pieces.iter().all(|piece| far(piece.path.to()) < 2.2 * ball.radius_m)
}

/// Draws every ball at its start and at its end.
pub(super) fn draw(
    canvas: &mut Canvas,
    frame: &Frame,
    crowd: &mut Crowd,
    balls: &[BallTrack],
    looks: &[BallLook],
) {
    for (ball, look) in balls.iter().zip(looks) {
        let radius = frame.length(ball.radius_m);
        let (start, end) = (frame.at(ball.start), frame.at(ball.finish()));
        let short = runs_short(ball);
        if ball.moves() && !short && ball.end == TrackEnd::Rest {
            crowd.disc(end, radius);
            finish(canvas, end, radius, *look);
        }
        crowd.disc(start, radius);
        if !short {
            standing(canvas, start, radius, *look);
            continue;
        }
        // A path as short as the ball shows on a pale ball.
        let trace = Trace::plain(1.2, look.colour);
        let fill = if look.is_cue { PAPER } else { pale(look.colour) };
        let face = Paint { fill: Some(fill), trace: Some(trace), opacity: 1.0 };
        canvas.curve(Curve::circle(start, radius - 0.6), face);
    }
    for (ball, look) in balls.iter().zip(looks).filter(|(ball, _)| runs_short(ball)) {
        let radius = frame.length(ball.radius_m);
        let end = frame.at(ball.finish());
        if ball.end == TrackEnd::Rest {
            crowd.disc(end, radius);
            canvas.ring(end, radius - 0.75, Trace::plain(1.5, look.colour));
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
            TrackEnd::Rest => {}
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
pub(super) fn standing(canvas: &mut Canvas, at: Place, radius: f64, look: BallLook) {
    canvas.disc(at, radius + 1.2, CLOTH);
    canvas.disc(at, radius, look.colour);
    if look.is_cue || look.ringed {
        let rim = if look.is_cue { 0.24 * radius } else { 0.36 * radius };
        canvas.disc(at, radius - rim, PAPER);
    }
}

/// A ball at rest after the shot: a thin ring.
pub(super) fn finish(canvas: &mut Canvas, at: Place, radius: f64, look: BallLook) {
    let trace = Trace::plain(1.5, look.colour);
    let look = Paint { fill: Some(CLOTH), trace: Some(trace), opacity: 1.0 };
    canvas.curve(Curve::circle(at, radius - 0.75), look);
}

/// A ball that drops: a small disc with a light rim and a light core.
pub(super) fn dropped(canvas: &mut Canvas, at: Place, radius: f64, colour: Rgb) {
    canvas.disc(at, 0.62 * radius, PAPER);
    canvas.disc(at, 0.62 * radius - 1.6, colour);
    canvas.disc(at, 0.2 * radius, readable_on(colour));
}

/// A ball that leaves the table: a slanted cross.
pub(super) fn gone(canvas: &mut Canvas, (x, y): Place, radius: f64, colour: Rgb) {
    let arm = 0.5 * radius;
    for (width, shade) in [(4.6, PAPER), (2.2, colour)] {
        for side in [1.0, -1.0] {
            let ends = [(x - arm, y - side * arm), (x + arm, y + side * arm)];
            if let Some(stroke) = Curve::through(&ends, false) {
                canvas.trace(stroke, Trace { round: true, ..Trace::plain(width, shade) });
            }
        }
    }
}
