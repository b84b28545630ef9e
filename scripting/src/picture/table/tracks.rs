//! The paths of the balls: a ball's motion shows in the line, its way in arrowheads.

use super::super::canvas::{Canvas, Pen};
use super::super::colours::{CLOTH, Rgb};
use super::super::contour::{Contour, PagePoint};
use super::crowd::{Crowd, LabelBox};
use super::frame::TableFrame;
use super::input::{BallTrack, Motion};
use super::looks::BallLook;

pub(super) const WIDTH: f64 = 2.0;
/// A leg at least this long carries an arrowhead.
const LEAST_LEG: f64 = 44.0;
/// Room that an arrowhead takes about its middle.
const ARROW: f64 = 6.5;
/// Turns sharper than this part a path into legs: the cosine of about 8°.
const KINK: f64 = 0.99;

/// The line of a path while a ball has this motion.
pub(super) fn line(motion: Motion, colour: Rgb) -> Pen {
    let plain = Pen { round: true, ..Pen::plain(WIDTH, colour) };
    match motion {
        Motion::Roll => plain,
        Motion::Slide => Pen { dashes: &[6.0, 5.0], ..plain },
        Motion::Cushion => Pen { width: 2.0 * WIDTH, ..plain },
        Motion::Hop => Pen { dashes: &[0.1, 5.0], width: 1.3 * WIDTH, ..plain },
    }
}

/// Draws every path.
pub(super) fn draw(
    canvas: &mut Canvas,
    frame: &TableFrame,
    crowd: &mut Crowd,
    tracked: &[BallTrack],
    looks: &[BallLook],
) {
    for (ball, look) in tracked.iter().zip(looks).filter(|(ball, _)| !ball.runs_short()) {
        draw_one(canvas, frame, ball, look.colour);
    }
    for (_, run) in tracked.iter().flat_map(|ball| runs(frame, ball)) {
        crowd.path(&run.flattened());
    }
}

/// Draws a ball's path with a light edge, so that one crosses over another.
fn draw_one(canvas: &mut Canvas, frame: &TableFrame, ball: &BallTrack, colour: Rgb) {
    let runs = runs(frame, ball);
    for (_, run) in &runs {
        canvas.trace(run.clone(), Pen::plain(2.5 * WIDTH, CLOTH));
    }
    for (motion, run) in runs {
        canvas.trace(run, line(motion, colour));
    }
}

/// Draws an arrowhead on each long leg of every path: above all paths and balls, and where least
/// else lies.
pub(super) fn draw_ways(
    canvas: &mut Canvas,
    frame: &TableFrame,
    crowd: &mut Crowd,
    tracked: &[BallTrack],
    looks: &[BallLook],
) {
    for (ball, look) in tracked.iter().zip(looks).filter(|(ball, _)| !ball.runs_short()) {
        for leg in legs(frame, ball).iter().filter(|leg| leg.length >= LEAST_LEG) {
            let mut best = (f64::INFINITY, leg.at(0.0));
            for share in [0.5, 0.4, 0.6, 0.3, 0.7] {
                let place = leg.at(share * leg.length);
                let room = LabelBox::around(place.0, (2.0 * ARROW, 2.0 * ARROW));
                // The middle stays unless another place is clearer by more than a grain.
                let cost = crowd.crowding(&room);
                if cost + 1.0 < best.0 && crowd.discs_in(&room) < ARROW {
                    best = (cost, place);
                }
            }
            // A leg that balls cover from end to end has no room for one.
            if best.0.is_finite() {
                let (middle, along) = best.1;
                crowd.disc(middle, ARROW);
                let tip = (middle.0 + 5.0 * along.0, middle.1 + 5.0 * along.1);
                arrowhead(canvas, tip, along, look.colour);
            }
        }
    }
}

/// Draws a path that hardly leaves its ball.
pub(super) fn draw_thin(canvas: &mut Canvas, frame: &TableFrame, ball: &BallTrack, colour: Rgb) {
    for (motion, run) in runs(frame, ball) {
        let trace = line(motion, colour);
        let dashes: &[f64] = if trace.dashes.is_empty() { &[] } else { &[2.5, 2.0] };
        canvas.trace(run, Pen { width: 0.65 * trace.width, dashes, round: false, ..trace });
    }
}

/// An arrowhead with a light edge.
pub(super) fn arrowhead(canvas: &mut Canvas, tip: PagePoint, along: (f64, f64), colour: Rgb) {
    for (back, half, lead, shade) in [(11.8, 6.2, 1.8, CLOTH), (9.5, 4.2, 0.0, colour)] {
        let base = (tip.0 - back * along.0, tip.1 - back * along.1);
        let corners = [
            (tip.0 + lead * along.0, tip.1 + lead * along.1),
            (base.0 - half * along.1, base.1 + half * along.0),
            (base.0 + half * along.1, base.1 - half * along.0),
        ];
        let head = Contour::through(&corners, true);
        canvas.area(head, shade);
    }
}

/// A ball's path in runs of one motion each, as exact curves.
pub(super) fn runs(frame: &TableFrame, ball: &BallTrack) -> Vec<(Motion, Contour)> {
    let mut out: Vec<(Motion, Contour)> = Vec::new();
    let mut here = None;
    for piece in &ball.pieces {
        let next = frame.stretch(&piece.path);
        match out.last_mut() {
            Some((motion, run)) if *motion == piece.motion && here == Some(piece.path.from()) => {
                run.pieces.push(next);
            }
            _ => {
                let start = frame.at(piece.path.from());
                out.push((piece.motion, Contour { start, pieces: vec![next], closed: false }));
            }
        }
        here = Some(piece.path.to());
    }
    out
}

/// A part of a path without a kink.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct TrackLeg {
    points: Vec<PagePoint>,
    pub(super) length: f64,
}

impl TrackLeg {
    /// The place this far along the leg, and the direction there.
    pub(super) fn at(&self, far: f64) -> (PagePoint, (f64, f64)) {
        let mut left = far;
        let mut last = ((0.0, 0.0), (1.0, 0.0));
        for pair in self.points.windows(2) {
            let (a, b) = (pair[0], pair[1]);
            let length = (b.0 - a.0).hypot(b.1 - a.1);
            if length == 0.0 {
                continue;
            }
            let along = ((b.0 - a.0) / length, (b.1 - a.1) / length);
            last = (b, along);
            if left <= length {
                return ((a.0 + left * along.0, a.1 + left * along.1), along);
            }
            left -= length;
        }
        last
    }
}

/// A ball's path parted where it turns sharply.
pub(super) fn legs(frame: &TableFrame, ball: &BallTrack) -> Vec<TrackLeg> {
    let mut out: Vec<TrackLeg> = Vec::new();
    let mut before: Option<(f64, f64)> = None;
    for (_, run) in runs(frame, ball) {
        for pair in run.flattened().windows(2) {
            let (a, b) = (pair[0], pair[1]);
            let length = (b.0 - a.0).hypot(b.1 - a.1);
            if length == 0.0 {
                continue;
            }
            let along = ((b.0 - a.0) / length, (b.1 - a.1) / length);
            let straight = before.is_some_and(|last| last.0 * along.0 + last.1 * along.1 >= KINK);
            match out.last_mut() {
                Some(leg) if straight => {
                    leg.points.push(b);
                    leg.length += length;
                }
                _ => out.push(TrackLeg { points: vec![a, b], length }),
            }
            before = Some(along);
        }
    }
    out
}
