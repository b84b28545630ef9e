//! Numbers before and after the banks, a strip each, all scaled to their first spread.

use super::super::canvas::{Anchor, Canvas};
use super::super::colours::{BEFORE, EXPECTED_HALF, EXPECTED_NINETY, PAPER};
use super::super::font;
use super::super::page::{MARGIN, PHRASE, TERM, TICK};
use super::interval::DrawnInterval;
use super::key::{self, KeySign, SignMeaning};

const PLOT: f64 = 460.0;
const WIDEST_LABEL: f64 = 280.0;
const WIDEST_WORDS: f64 = 240.0;
const GAP: f64 = 34.0;
const PITCH: f64 = 44.0;
const STRIP: f64 = 16.0;
/// Room for the text at an end of a strip.
const MOST_END: f64 = 64.0;
/// Room above the strips.
const HEAD: f64 = 6.0;

/// A number before and after the banks.
#[derive(Debug, Clone, PartialEq)]
pub struct NumberStrip {
    /// Its name and unit.
    pub label: String,
    /// Before the banks.
    pub before: DrawnInterval,
    /// The ends of its first spread, as text.
    pub before_ends: (String, String),
    /// After them.
    pub after: DrawnInterval,
    /// The finding in words.
    pub words: String,
    /// Whether the banks determine it.
    pub is_told: bool,
}

fn columns(strips: &[NumberStrip]) -> (f64, f64) {
    let widest = |texts: &dyn Fn(&NumberStrip) -> &str, most: f64| {
        let widths = strips
            .iter()
            .map(|strip| font::width(&font::clean(texts(strip)), TERM.em, TERM.weight));
        widths.fold(60.0, f64::max).min(most)
    };
    (widest(&|strip| &strip.label, WIDEST_LABEL), widest(&|strip| &strip.words, WIDEST_WORDS))
}

/// The width of the body.
pub(super) fn width(strips: &[NumberStrip]) -> f64 {
    let (label, words) = columns(strips);
    label + GAP + PLOT + GAP + words
}

/// The share of a first spread's width at which a value lies.
fn share(strip: &NumberStrip, value: f64) -> f64 {
    let (from, to) = strip.before.ninety;
    (value - from) / (to - from)
}

fn can_be_drawn(strip: &NumberStrip) -> bool {
    let (from, to) = strip.before.ninety;
    strip.before.is_finite() && strip.after.is_finite() && to > from
}

/// Draws the strips and returns where they end.
pub(super) fn draw(canvas: &mut Canvas, strips: &[NumberStrip], top: f64) -> f64 {
    let (label, words) = columns(strips);
    let left = MARGIN + label + GAP;
    // As far outside its first spread as any number lies, the strips are drawn narrower.
    let drawn = || strips.iter().filter(|strip| can_be_drawn(strip));
    let outside = drawn()
        .map(|strip| {
            (-share(strip, strip.after.ninety.0)).max(share(strip, strip.after.ninety.1) - 1.0)
        })
        .fold(0.02, f64::max)
        .min(2.0);
    let x = |share: f64| {
        left + PLOT * (share.clamp(-outside, 1.0 + outside) + outside) / (1.0 + 2.0 * outside)
    };
    let mut y = top + HEAD;
    for strip in strips {
        let baseline = y + STRIP / 2.0 + 4.0;
        let style = if strip.is_told { TERM } else { PHRASE };
        let name = font::fit(&font::clean(&strip.label), style.em, style.weight, label);
        canvas.text(&name, (MARGIN, baseline), Anchor::Start, style);
        let found = font::fit(&font::clean(&strip.words), style.em, style.weight, words);
        canvas.text(&found, (left + PLOT + GAP, baseline), Anchor::Start, style);
        if can_be_drawn(strip) {
            let span = |(from, to): (f64, f64)| {
                let (from, to) = (x(share(strip, from)), x(share(strip, to)));
                (from, (to - from).max(2.0))
            };
            let (from, wide) = span(strip.before.ninety);
            if strip.is_told {
                canvas.rectangle((from, y), (wide, STRIP), BEFORE);
                for (interval, fill) in
                    [(strip.after.ninety, EXPECTED_NINETY), (strip.after.half, EXPECTED_HALF)]
                {
                    let (from, wide) = span(interval);
                    canvas.rectangle((from, y), (wide, STRIP), fill);
                }
                let middle = x(share(strip, strip.after.middle));
                canvas.stroke(&[(middle, y), (middle, y + STRIP)], 1.5, PAPER);
            } else {
                key::untold(canvas, (from, y), (wide, STRIP));
            }
            let below = y + STRIP + 13.0;
            for (end, at) in [(&strip.before_ends.0, from), (&strip.before_ends.1, from + wide)] {
                let end = font::fit(&font::clean(end), TICK.em, TICK.weight, MOST_END);
                canvas.text(&end, (at, below), Anchor::Middle, TICK);
            }
        }
        y += PITCH;
    }
    y - 8.0
}

/// The key to what is drawn.
pub(super) fn key(strips: &[NumberStrip]) -> Vec<SignMeaning> {
    let told = strips.iter().any(|strip| strip.is_told);
    let untold = strips.iter().any(|strip| !strip.is_told);
    let entries = [
        (told, KeySign::Half, "after the banks, half of the time", "the white line is the middle"),
        (
            told,
            KeySign::Ninety,
            "after the banks, nine times in ten",
            "the same in numbers on the right",
        ),
        (
            told,
            KeySign::Before,
            "before the banks, nine times in ten",
            "its ends stand below it; every strip is scaled to it",
        ),
        (
            untold,
            KeySign::Untold,
            "not determined",
            "the banks leave nine tenths of the first spread, or more",
        ),
    ];
    entries
        .into_iter()
        .filter(|(is_drawn, ..)| *is_drawn)
        .map(|(_, sign, term, phrase)| SignMeaning { sign, term, phrase })
        .collect()
}

/// The strips in words.
pub(super) fn said(strips: &[NumberStrip]) -> Vec<String> {
    strips.iter().map(|strip| format!("{}: {}.", strip.label, strip.words)).collect()
}
