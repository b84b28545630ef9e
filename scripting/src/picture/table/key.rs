//! The legend under the table, in columns.

use super::super::canvas::Canvas;
use super::super::colours::{
    BALLS, CLOTH, CUE, CUSHION, HAIRLINE, HOLE, PAPER, Rgb, SOFT_INK, TARGET,
};
use super::super::contour::{Contour, PagePoint};
use super::super::font;
use super::super::page::{self, MARGIN, PHRASE, TERM};
use super::balls;
use super::frame::ROOM;
use super::glyphs::{self, Spin};
use super::input::Motion;
use super::looks::BallLook;
use super::{marks, tracks};
use std::f64::consts::PI;

/// A column is at least so wide.
const LEAST_COLUMN: f64 = 230.0;
pub(super) const GAP: f64 = 26.0;
const SAMPLE: (f64, f64) = (58.0, 24.0);
const TEXT_AT: f64 = 72.0;
const BETWEEN: f64 = 11.0;
const SAMPLE_RADIUS: f64 = 9.5;

/// The sign that stands for a term.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum KeySample {
    Line(Motion),
    Start,
    OtherStart,
    CueStart,
    Rest,
    Moving,
    Drop,
    Gone,
    Ghost,
    Rail,
    BallHit,
    Note,
    Guide { is_superseded: bool },
    OtherPlay { is_past: bool },
    Obstacle,
    Target,
    Side,
    Roll,
}

/// One line of the legend.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct KeyEntry<'p> {
    pub(super) sample: KeySample,
    pub(super) term: &'p str,
    pub(super) phrase: &'p str,
}

/// Draws the legend right of what stands beside it, in the colour of the ball that is meant for the pocket, and
/// returns where it ends.
pub(super) fn draw(
    canvas: &mut Canvas,
    entries: &[KeyEntry<'_>],
    colour: Rgb,
    (beside, top): (f64, f64),
) -> f64 {
    if entries.is_empty() {
        return top;
    }
    let left = MARGIN + beside;
    canvas.stroke(&[(left, top), (canvas.width - MARGIN, top)], 1.0, HAIRLINE);
    let top = top + 16.0;
    let wide = ROOM.0 - beside;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a few columns, at least one"
    )]
    let columns = ((wide + GAP) / (LEAST_COLUMN + GAP)).max(1.0) as usize;
    let column = (wide + GAP) / columns as f64 - GAP;
    let heights: Vec<f64> = entries.iter().map(|entry| height(entry, column) + BETWEEN).collect();
    let mut bottom = top;
    for (index, part) in page::columns(&heights, columns).into_iter().enumerate() {
        let x = left + index as f64 * (column + GAP);
        let mut y = top;
        for at in part {
            sample(canvas, entries[at].sample, colour, (x + SAMPLE.0 / 2.0, y + SAMPLE.1 / 2.0));
            let terms = font::wrap(entries[at].term, TERM.em, TERM.weight, column - TEXT_AT, 2);
            let under = page::paragraph(canvas, &terms, (x + TEXT_AT, y), TERM);
            let phrase = wrapped(&entries[at], column);
            page::paragraph(canvas, &phrase, (x + TEXT_AT, under), PHRASE);
            y += heights[at];
        }
        bottom = bottom.max(y - BETWEEN);
    }
    bottom
}

fn wrapped(entry: &KeyEntry<'_>, column: f64) -> Vec<String> {
    font::wrap(entry.phrase, PHRASE.em, PHRASE.weight, column - TEXT_AT, 6)
}

fn height(entry: &KeyEntry<'_>, column: f64) -> f64 {
    let words = page::paragraph_height(1, TERM)
        + page::paragraph_height(wrapped(entry, column).len(), PHRASE);
    let tall = if matches!(entry.sample, KeySample::Side | KeySample::Roll) {
        2.0 * glyphs::REACH
    } else {
        0.0
    };
    words.max(SAMPLE.1).max(tall)
}

fn sample(canvas: &mut Canvas, sample: KeySample, colour: Rgb, (x, y): PagePoint) {
    let ball = BallLook { colour, is_cue: false, ringed: false };
    let level = |half: f64| [(x - half, y), (x + half, y)];
    match sample {
        KeySample::Line(motion) => {
            let half = if motion == Motion::Cushion { 9.0 } else { 26.0 };
            let line = Contour::through(&level(half), false);
            canvas.trace(line, tracks::line(motion, colour));
            if motion == Motion::Roll {
                tracks::arrowhead(canvas, (x + 5.0, y), (1.0, 0.0), colour);
            }
        }
        KeySample::Start => balls::standing(canvas, (x, y), SAMPLE_RADIUS, ball),
        KeySample::OtherStart => {
            let look = BallLook { colour: BALLS[1], ..ball };
            balls::standing(canvas, (x, y), SAMPLE_RADIUS, look);
        }
        KeySample::CueStart => {
            let look = BallLook { is_cue: true, colour: CUE, ..ball };
            balls::standing(canvas, (x, y), SAMPLE_RADIUS, look);
        }
        KeySample::Rest => balls::finish(canvas, (x, y), SAMPLE_RADIUS, ball),
        KeySample::Moving => balls::moving(canvas, (x, y), SAMPLE_RADIUS, ball),
        KeySample::Drop => {
            canvas.disc((x, y), 12.0, HOLE);
            balls::dropped(canvas, (x, y), SAMPLE_RADIUS + 1.5, colour);
        }
        KeySample::Gone => balls::gone(canvas, (x, y), SAMPLE_RADIUS, colour),
        KeySample::Ghost => canvas.ring((x, y), SAMPLE_RADIUS, marks::GHOST),
        KeySample::Rail => {
            canvas.rectangle((x - 26.0, y - 14.0), (52.0, 5.0), CUSHION);
            canvas.stroke(&[(x - 26.0, y - 9.0), (x + 26.0, y - 9.0)], 1.0, SOFT_INK);
            marks::rail(canvas, (x, y), (x, y - 9.0), SAMPLE_RADIUS);
        }
        KeySample::BallHit => marks::ball_hit(canvas, (x, y)),
        KeySample::Note => marks::note(canvas, (x, y)),
        KeySample::Guide { is_superseded } => {
            canvas.trace(Contour::through(&level(26.0), false), marks::guide_pen(is_superseded));
        }
        KeySample::OtherPlay { is_past } => {
            let line = Contour::through(&level(26.0), false);
            canvas.trace(line, marks::other_play(is_past));
        }
        KeySample::Obstacle => {
            marks::block(canvas, Contour::rounded_box((x - 17.0, y - 9.0), (34.0, 18.0), 0.0));
        }
        KeySample::Target => {
            // Open towards the table, which lies below.
            let open = |radius| Contour {
                closed: true,
                ..Contour::arc((x, y + 1.0), radius, 0.85 * PI, 1.3 * PI)
            };
            for (radius, fill) in [(15.5, TARGET), (12.0, PAPER), (10.0, HOLE)] {
                canvas.area(open(radius), fill);
            }
        }
        KeySample::Side | KeySample::Roll => {
            let (side, along) = if sample == KeySample::Side { (0.5, 0.0) } else { (0.0, 1.0) };
            let at = (x, y + 7.0);
            let corner = (at.0 - glyphs::REACH, at.1 - glyphs::REACH);
            let size = (2.0 * glyphs::REACH, 2.0 * glyphs::REACH);
            let back = Contour::rounded_box(corner, size, 4.0);
            canvas.area(back, CLOTH);
            glyphs::draw(canvas, at, Spin { travel: (0.0, -1.0), side, along }, colour);
        }
    }
}
