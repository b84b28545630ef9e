//! Banks as expected and as seen, a row each, along the rails unrolled at the pocket.

use super::super::canvas::{Anchor, Canvas};
use super::super::colours::{EXPECTED_HALF, EXPECTED_NINETY, FRAME, HAIRLINE, MOUTH, PAPER};
use super::super::error::PictureError;
use super::super::font;
use super::super::page::{self, AXIS, CAPTION, MARGIN, PHRASE, TERM, TICK};
use super::super::shading::plain_number;
use super::interval::DrawnInterval;
use super::key::{self, KeySign, SignMeaning};

/// The axis in words.
pub(super) const ALONG: &str =
    "number on the rail that the ball meets first, in diamonds from the pocket";

const PLOT: f64 = 520.0;
const WIDEST_LABEL: f64 = 440.0;
const WIDEST_SEEN: f64 = 260.0;
const GAP: f64 = 14.0;
const PITCH: f64 = 27.0;
const BAR: f64 = 12.0;
/// The bar's middle, and the line of a word, below the row's top.
const BAR_AT: f64 = 10.0;
const WORD_AT: f64 = 21.0;
/// Room above the rows, for the words over them.
const HEAD: f64 = 22.0;
/// Ticks closer than this run together.
const LEAST_TICK: f64 = 42.0;
const STEPS: [f64; 7] = [0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 4.0];

/// Where the numbers of a rail lie along the unrolled rails.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RailNumbers {
    /// The place of its zero, m.
    pub zero_m: f64,
    /// From a number to the next, m; negative where they run to the short side.
    pub diamond_m: f64,
}

/// What was seen of a bank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SeenMark {
    /// A place, m, and how well it was read, m.
    At {
        /// The place.
        along_m: f64,
        /// The reading error.
        read_to_m: f64,
    },
    /// A word that is said of all places in the mouth.
    InMouth,
    /// A word that is said of all places on the short side.
    Short,
    /// A word that is said of all places on the long side.
    Long,
    /// The ball stopped on its way.
    Stopped,
}

/// A bank.
#[derive(Debug, Clone, PartialEq)]
pub struct BankRow {
    /// The bank in words.
    pub label: String,
    /// The place that was to be expected, m; none where no ball comes to one.
    pub expected: Option<DrawnInterval>,
    /// What was seen.
    pub seen: SeenMark,
    /// The same in words.
    pub seen_words: String,
    /// Whether that is likely a slip.
    pub is_slip: bool,
}

/// Banks to pockets of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct BankPanel {
    /// The kind, where there are several.
    pub caption: String,
    /// The mouth, m along the unrolled rails.
    pub mouth_m: (f64, f64),
    /// The numbers on its short side.
    pub short: RailNumbers,
    /// The numbers on its long side.
    pub long: RailNumbers,
    /// The banks.
    pub rows: Vec<BankRow>,
}

fn widest(texts: impl Iterator<Item = String>, most: f64) -> f64 {
    texts.map(|text| font::width(&text, TERM.em, TERM.weight)).fold(60.0, f64::max).min(most)
}

fn columns(panels: &[BankPanel]) -> (f64, f64) {
    let rows = || panels.iter().flat_map(|panel| &panel.rows);
    let labels = rows().map(|row| font::width(&font::clean(&row.label), PHRASE.em, PHRASE.weight));
    let label = labels.fold(120.0, f64::max).min(WIDEST_LABEL);
    (label, widest(rows().map(|row| font::clean(&row.seen_words)), WIDEST_SEEN))
}

/// The width of the body.
pub(super) fn width(panels: &[BankPanel]) -> f64 {
    let (label, seen) = columns(panels);
    label + GAP + PLOT + GAP + 10.0 + seen
}

/// Draws the panels and returns where they end.
pub(super) fn draw(
    canvas: &mut Canvas,
    panels: &[BankPanel],
    top: f64,
) -> Result<f64, PictureError> {
    if panels.is_empty() {
        let words = ["No bank was measured so far, so there is none to draw.".to_owned()];
        return Ok(page::paragraph(canvas, &words, (MARGIN, top), AXIS));
    }
    let (label, seen) = columns(panels);
    let mut y = top;
    for panel in panels {
        let mut from = y;
        if !panel.caption.is_empty() {
            let text = font::fit(&font::clean(&panel.caption), CAPTION.em, CAPTION.weight, PLOT);
            from = page::paragraph(canvas, &[text], (MARGIN, y), CAPTION) + 4.0;
        }
        let range = range(panel)?;
        let plot = BankPlot { panel, left: MARGIN + label + GAP, top: from + HEAD, range };
        plot.draw_ground(canvas);
        for (index, row) in panel.rows.iter().enumerate() {
            plot.draw_row(canvas, row, plot.top + index as f64 * PITCH, (label, seen));
        }
        y = plot.bottom() + 60.0;
    }
    Ok(y - 8.0)
}

/// All that is drawn, with room for words on both sides of the mouth.
fn range(panel: &BankPanel) -> Result<(f64, f64), PictureError> {
    let mut ends = vec![panel.mouth_m.0, panel.mouth_m.1];
    for row in &panel.rows {
        if let Some(expected) = row.expected.filter(DrawnInterval::is_finite) {
            ends.extend([expected.ninety.0, expected.ninety.1]);
        }
        if let SeenMark::At { along_m, read_to_m } = row.seen {
            ends.extend([along_m - read_to_m, along_m + read_to_m]);
        }
    }
    ends.retain(|end| end.is_finite());
    let low = ends.iter().copied().fold(f64::INFINITY, f64::min);
    let high = ends.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let wide = high - low;
    if !(wide > 0.0 && wide < 1e3) {
        return Err(PictureError::NothingToDraw);
    }
    let room = 0.25 * wide;
    Ok((
        (low - 0.03 * wide).min(panel.mouth_m.0 - room),
        (high + 0.03 * wide).max(panel.mouth_m.1 + room),
    ))
}

struct BankPlot<'a> {
    panel: &'a BankPanel,
    left: f64,
    top: f64,
    range: (f64, f64),
}

impl BankPlot<'_> {
    fn x(&self, along_m: f64) -> f64 {
        self.left + PLOT * (along_m - self.range.0) / (self.range.1 - self.range.0)
    }

    fn bottom(&self) -> f64 {
        self.top + self.panel.rows.len() as f64 * PITCH + 4.0
    }

    fn draw_ground(&self, canvas: &mut Canvas) {
        let (top, bottom) = (self.top, self.bottom());
        let mouth = (self.x(self.panel.mouth_m.0), self.x(self.panel.mouth_m.1));
        canvas.rectangle((mouth.0, top), (mouth.1 - mouth.0, bottom - top), MOUTH);
        for (x, label) in self.ticks() {
            canvas.stroke(&[(x, top), (x, bottom)], 1.0, HAIRLINE);
            canvas.stroke(&[(x, bottom), (x, bottom + 5.0)], 1.0, FRAME);
            canvas.text(&label, (x, bottom + 19.0), Anchor::Middle, TICK);
        }
        canvas.stroke(&[(self.left, bottom), (self.left + PLOT, bottom)], 1.25, FRAME);
        canvas.stroke(&[(self.left, top), (self.left + PLOT, top)], 1.0, FRAME);
        let over = top - 7.0;
        canvas.text("short", (self.left, over), Anchor::Start, TERM);
        canvas.text("mouth", (f64::midpoint(mouth.0, mouth.1), over), Anchor::Middle, TERM);
        canvas.text("long", (self.left + PLOT, over), Anchor::End, TERM);
        canvas.text("seen", (self.left + PLOT + GAP + 10.0, over), Anchor::Start, TERM);
        let under = (self.left + PLOT / 2.0, bottom + 38.0);
        canvas.text(ALONG, under, Anchor::Middle, AXIS);
    }

    /// The numbers on both sides of the mouth, as far apart as their labels need.
    fn ticks(&self) -> Vec<(f64, String)> {
        let middle = self.x(f64::midpoint(self.panel.mouth_m.0, self.panel.mouth_m.1));
        let mut all = Vec::new();
        for numbers in [self.panel.short, self.panel.long] {
            let pitch = (PLOT * numbers.diamond_m / (self.range.1 - self.range.0)).abs();
            let step = STEPS.into_iter().find(|step| step * pitch >= LEAST_TICK);
            let step = step.unwrap_or(STEPS[STEPS.len() - 1]);
            for count in 0..400 {
                let number = step * f64::from(count);
                let along_m = numbers.zero_m + numbers.diamond_m * number;
                let x = self.x(along_m);
                let is_beside = if numbers.diamond_m < 0.0 {
                    along_m <= self.panel.mouth_m.0 && x <= middle - LEAST_TICK / 2.0
                } else {
                    along_m >= self.panel.mouth_m.1 && x >= middle + LEAST_TICK / 2.0
                };
                if is_beside && (self.left..=self.left + PLOT).contains(&x) {
                    all.push((x, plain_number(number, step)));
                }
            }
        }
        all
    }

    fn draw_row(&self, canvas: &mut Canvas, row: &BankRow, top: f64, (label, seen): (f64, f64)) {
        let middle = top + BAR_AT;
        let text = font::fit(&font::clean(&row.label), PHRASE.em, PHRASE.weight, label);
        canvas.text(&text, (self.left - GAP, middle + 4.0), Anchor::End, PHRASE);
        if let Some(expected) = row.expected.filter(DrawnInterval::is_finite) {
            for ((from, to), fill) in
                [(expected.ninety, EXPECTED_NINETY), (expected.half, EXPECTED_HALF)]
            {
                let (from, to) = (self.x(from), self.x(to));
                canvas.rectangle((from, middle - BAR / 2.0), ((to - from).max(2.0), BAR), fill);
            }
            let x = self.x(expected.middle);
            canvas.stroke(&[(x, middle - BAR / 2.0), (x, middle + BAR / 2.0)], 1.5, PAPER);
        }
        let mouth = (self.x(self.panel.mouth_m.0), self.x(self.panel.mouth_m.1));
        let edges = (self.left + 2.0, self.left + PLOT - 2.0);
        let line = top + WORD_AT;
        match row.seen {
            SeenMark::At { along_m, read_to_m } => {
                let at = self.x(along_m);
                key::whiskers(
                    canvas,
                    (self.x(along_m - read_to_m), self.x(along_m + read_to_m)),
                    middle,
                );
                if row.is_slip {
                    key::slip(canvas, (at, middle));
                } else {
                    key::seen(canvas, (at, middle));
                }
            }
            SeenMark::InMouth => key::stretch(canvas, mouth, line, (false, false), row.is_slip),
            SeenMark::Short => {
                key::stretch(canvas, (edges.0, mouth.0), line, (true, false), row.is_slip);
            }
            SeenMark::Long => {
                key::stretch(canvas, (mouth.1, edges.1), line, (false, true), row.is_slip);
            }
            SeenMark::Stopped if row.is_slip => {}
            SeenMark::Stopped => key::stopped(canvas, (self.left + PLOT + GAP, middle)),
        }
        if row.is_slip && !matches!(row.seen, SeenMark::At { .. }) {
            key::slip(canvas, (self.left + PLOT + GAP, middle));
        }
        let style = if row.is_slip { TERM } else { PHRASE };
        let text = font::fit(&font::clean(&row.seen_words), style.em, style.weight, seen);
        let at = (self.left + PLOT + GAP + 10.0, middle + 4.0);
        canvas.text(&text, at, Anchor::Start, style);
    }
}

/// The key to what is drawn.
pub(super) fn key(panels: &[BankPanel]) -> Vec<SignMeaning> {
    let any = |is: &dyn Fn(&BankRow) -> bool| panels.iter().flat_map(|it| &it.rows).any(is);
    let is_number = |row: &BankRow| matches!(row.seen, SeenMark::At { .. });
    let is_stopped = |row: &BankRow| row.seen == SeenMark::Stopped;
    let entries = [
        (
            any(&|row| row.expected.is_some()),
            KeySign::Half,
            "expected half of the time",
            "where the ball was expected, by what the other banks say about the table and by the scatter of one shot; \
             the white line is the middle",
        ),
        (
            any(&|row| row.expected.is_some()),
            KeySign::Ninety,
            "expected nine times in ten",
            "one bank in ten comes to a place outside",
        ),
        (
            any(&|row| is_number(row) && !row.is_slip),
            KeySign::Seen,
            "seen",
            "the number as it was read, and how exactly",
        ),
        (
            any(&|row| !is_number(row) && !is_stopped(row)),
            KeySign::Word,
            "seen, as a word",
            if any(&|row| row.is_slip) {
                "all places that the word covers; a point where they go on, dashes where it is likely a slip"
            } else {
                "all places that the word covers; a point where they go on"
            },
        ),
        (
            any(&|row| row.is_slip),
            KeySign::Slip,
            "likely a slip",
            "hardly any table agrees with this row: measure it again",
        ),
        (any(&is_stopped), KeySign::Stopped, "stopped", "the ball came to rest on its way"),
        (
            !panels.is_empty(),
            KeySign::Mouth,
            "mouth",
            "a ball that comes there holds or touches a point",
        ),
    ];
    entries
        .into_iter()
        .filter(|(is_drawn, ..)| *is_drawn)
        .map(|(_, sign, term, phrase)| SignMeaning { sign, term, phrase })
        .collect()
}

/// The rows in words.
pub(super) fn said(panels: &[BankPanel]) -> Vec<String> {
    let rows = panels.iter().flat_map(|panel| &panel.rows);
    rows.map(|row| format!("{}: seen {}.", row.label, row.seen_words)).collect()
}
