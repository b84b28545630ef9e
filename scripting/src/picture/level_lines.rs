//! Lines of equal chance over a map, with their labels.
//!
//! A chance is known at the middle of each cell. Between the middles of neighbours it is taken to change in equal steps,
//! so a line crosses from middle to middle where that straight change passes its level. Among four middles of which
//! one is not known there is no line.

use super::canvas::{Anchor, Canvas, Lettering, Paint, Pen};
use super::colours::{CHANCES, FRAME, INK, PAPER};
use super::contour::{Contour, PagePoint, distance};
use super::font::{self, Weight};
use std::collections::BTreeMap;

/// The levels, in hundredths.
const LEVELS: [u8; 4] = [25, 50, 75, 90];

const LABEL: Lettering = Lettering { em: 10.0, weight: Weight::Bold, colour: INK };
const LABEL_HEIGHT: f64 = 11.0;
/// A label keeps this far from a mark beside it, and so far from another label.
const MARK_GAP: f64 = 6.0;
const LABELS_APART: f64 = 40.0;
/// Shorter lines go without a label.
const LEAST_LABELLED: f64 = 30.0;
/// Labels are tried at places so far apart along a line.
const LABEL_STEP: f64 = 3.0;

/// Chances at the middles of cells, row after row from the bottom; `None` where there is none.
#[derive(Debug, Clone, Copy)]
pub(super) struct ChanceField<'a> {
    pub(super) chances: &'a [Option<f64>],
    pub(super) columns: usize,
}

/// One line, in cells: the middle of the first cell of the lowest row is (0, 0), and y goes up.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct LevelLine {
    pub(super) points: Vec<(f64, f64)>,
    pub(super) closed: bool,
}

/// Two neighbouring middles: from a cell to the one on its right, or above it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct MiddlePair {
    column: usize,
    row: usize,
    up: bool,
}

impl ChanceField<'_> {
    fn rows(&self) -> usize {
        self.chances.len() / self.columns.max(1)
    }

    fn at(&self, column: usize, row: usize) -> Option<f64> {
        self.chances.get(row * self.columns + column).copied().flatten()
    }

    /// Whether any line runs.
    pub(super) fn is_lined(&self) -> bool {
        LEVELS.iter().any(|level| !self.lines(f64::from(*level) / 100.0).is_empty())
    }

    /// The lines of one level.
    pub(super) fn lines(&self, level: f64) -> Vec<LevelLine> {
        let mut pieces: Vec<[MiddlePair; 2]> = Vec::new();
        for row in 1..self.rows() {
            for column in 1..self.columns {
                pieces.extend(self.pieces((column - 1, row - 1), level).into_iter().flatten());
            }
        }
        joined(&pieces)
            .into_iter()
            .map(|(pairs, closed)| LevelLine {
                points: pairs.iter().map(|it| self.crossing(*it, level)).collect(),
                closed,
            })
            .collect()
    }

    /// The pieces of a line among four middles, the lower left one given.
    fn pieces(&self, (column, row): (usize, usize), level: f64) -> [Option<[MiddlePair; 2]>; 2] {
        let corners = [(0, 0), (1, 0), (1, 1), (0, 1)].map(|(c, r)| self.at(column + c, row + r));
        let [Some(a), Some(b), Some(c), Some(d)] = corners else { return [None; 2] };
        let low = MiddlePair { column, row, up: false };
        let left = MiddlePair { column, row, up: true };
        let (right, high) =
            (MiddlePair { column: column + 1, ..left }, MiddlePair { row: row + 1, ..low });
        let sides = [(low, a, b), (right, b, c), (high, c, d), (left, d, a)];
        let crossed: Vec<MiddlePair> = sides
            .into_iter()
            .filter(|(_, from, to)| (*from >= level) != (*to >= level))
            .map(|(side, ..)| side)
            .collect();
        match crossed[..] {
            [one, other] => [Some([one, other]), None],
            // Two lines: the middle of all four says which corners hang together.
            [low, right, high, left] => {
                let middle_is_above = 0.25 * (a + b + c + d) >= level;
                if middle_is_above == (a >= level) {
                    [Some([low, right]), Some([high, left])]
                } else {
                    [Some([left, low]), Some([right, high])]
                }
            }
            _ => [None; 2],
        }
    }

    fn crossing(&self, side: MiddlePair, level: f64) -> (f64, f64) {
        let next = if side.up { (side.column, side.row + 1) } else { (side.column + 1, side.row) };
        let ends = (self.at(side.column, side.row), self.at(next.0, next.1));
        let share = match ends {
            (Some(from), Some(to)) => ((level - from) / (to - from)).clamp(0.0, 1.0),
            _ => 0.5,
        };
        let (x, y) = (side.column as f64, side.row as f64);
        if side.up { (x, y + share) } else { (x + share, y) }
    }
}

/// Pieces put together at the pairs that they share, and whether each run comes back to its start.
fn joined(pieces: &[[MiddlePair; 2]]) -> Vec<(Vec<MiddlePair>, bool)> {
    let mut at: BTreeMap<MiddlePair, Vec<usize>> = BTreeMap::new();
    for (place, ends) in pieces.iter().enumerate() {
        for end in ends {
            at.entry(*end).or_default().push(place);
        }
    }
    let mut used = vec![false; pieces.len()];
    let mut runs = Vec::new();
    // Open lines first, from either end; what is left runs round.
    let open = at.iter().filter(|(_, places)| places.len() == 1).map(|(end, _)| *end);
    for start in open.chain(at.keys().copied()) {
        let mut run = vec![start];
        let mut here = start;
        while let Some(next) = at[&here].iter().copied().find(|place| !used[*place]) {
            used[next] = true;
            let [one, other] = pieces[next];
            here = if one == here { other } else { one };
            run.push(here);
        }
        if run.len() > 1 {
            let closed = here == start;
            runs.push((run, closed));
        }
    }
    runs
}

/// The cells of a panel on the page.
#[derive(Debug, Clone, Copy)]
pub(super) struct LinePlace {
    /// The lower left corner.
    pub(super) corner: PagePoint,
    pub(super) cell: (f64, f64),
}

impl LinePlace {
    fn on_page(&self, (x, y): (f64, f64)) -> PagePoint {
        let (wide, high) = self.cell;
        (self.corner.0 + (x + 0.5) * wide, self.corner.1 - (y + 0.5) * high)
    }

    /// All lines, on the page, by level.
    fn lines(&self, field: ChanceField) -> Vec<(u8, Vec<Vec<PagePoint>>)> {
        let of = |level: u8| {
            let lines = field.lines(f64::from(level) / 100.0).into_iter();
            lines.map(|line| line.points.iter().map(|at| self.on_page(*at)).collect()).collect()
        };
        LEVELS.map(|level| (level, of(level))).to_vec()
    }

    /// Draws the lines; marks of cells come after them, and labels after those.
    pub(super) fn draw(&self, canvas: &mut Canvas, field: ChanceField) {
        for (level, lines) in self.lines(field) {
            stroke(canvas, level, &lines);
        }
    }

    /// Writes each level beside its lines, clear of the marks of cells, which stand in these boxes: middle and half
    /// sizes.
    pub(super) fn label(
        &self,
        canvas: &mut Canvas,
        field: ChanceField,
        marks: &[(PagePoint, (f64, f64))],
    ) {
        let mut written: Vec<PagePoint> = Vec::new();
        for (level, lines) in self.lines(field) {
            let text = level.to_string();
            let half = (0.5 * font::width(&text, LABEL.em, LABEL.weight) + 2.0, 0.5 * LABEL_HEIGHT);
            for line in lines.iter().filter(|line| length(line) >= LEAST_LABELLED) {
                let free = |at: &PagePoint| {
                    marks.iter().all(|(middle, size)| {
                        (at.0 - middle.0).abs() >= half.0 + size.0 + MARK_GAP
                            || (at.1 - middle.1).abs() >= half.1 + size.1
                    }) && written.iter().all(|other| distance(*at, *other) >= LABELS_APART)
                };
                if let Some(at) = places(line).into_iter().find(free) {
                    let corner = (at.0 - half.0, at.1 - half.1);
                    canvas.rectangle(corner, (2.0 * half.0, 2.0 * half.1), PAPER);
                    canvas.text(&text, (at.0, at.1 + 0.365 * LABEL.em), Anchor::Middle, LABEL);
                    written.push(at);
                }
            }
        }
    }
}

/// Draws lines of a level: ink on paper, that of 50 the heaviest.
fn stroke(canvas: &mut Canvas, level: u8, lines: &[Vec<PagePoint>]) {
    let ink = if level == 50 { 2.0 } else { 1.1 };
    for (width, colour) in [(ink + 1.6, PAPER), (ink, INK)] {
        let curves: Vec<Contour> = lines.iter().map(|line| Contour::through(line, false)).collect();
        if !curves.is_empty() {
            canvas.curves(curves, Paint::line(Pen { round: true, ..Pen::plain(width, colour) }));
        }
    }
}

/// Their swatch in a legend.
pub(super) fn swatch(canvas: &mut Canvas, (x, y): PagePoint, (wide, high): (f64, f64)) {
    canvas.rectangle((x, y), (wide, high), CHANCES[3]);
    for (level, share) in [(50, 0.35), (75, 0.7)] {
        let at = x + share * wide;
        stroke(canvas, level, &[vec![(at - 4.0, y + high), (at + 4.0, y)]]);
    }
    canvas.frame((x, y), (wide, high), 0.75, FRAME);
}

fn length(line: &[PagePoint]) -> f64 {
    line.windows(2).map(|pair| distance(pair[0], pair[1])).sum()
}

/// Places along a line, those nearest to its middle first.
fn places(line: &[PagePoint]) -> Vec<PagePoint> {
    let middle = 0.5 * length(line);
    let (mut gone, mut next) = (0.0, 0.0);
    let mut places: Vec<(f64, PagePoint)> = Vec::new();
    for pair in line.windows(2) {
        let long = distance(pair[0], pair[1]);
        while next <= gone + long && long > 0.0 {
            let share = (next - gone) / long;
            let between = |from: f64, to: f64| from + share * (to - from);
            let at = (between(pair[0].0, pair[1].0), between(pair[0].1, pair[1].1));
            places.push(((next - middle).abs(), at));
            next += LABEL_STEP;
        }
        gone += long;
    }
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    places.into_iter().map(|(_, at)| at).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn field(columns: usize, rows: usize, of: impl Fn(f64, f64) -> f64) -> Vec<Option<f64>> {
        (0..columns * rows)
            .map(|at| Some(of((at % columns) as f64, (at / columns) as f64)))
            .collect()
    }

    #[test]
    fn lines_of_a_plane_are_exact() {
        let of = |x: f64, y: f64| 0.05 + 0.07 * x + 0.03 * y;
        let chances = field(9, 7, of);
        let lines = ChanceField { chances: &chances, columns: 9 };
        for level in LEVELS.map(|level| f64::from(level) / 100.0) {
            let found = lines.lines(level);
            let corners = [of(0.0, 0.0), of(8.0, 6.0)];
            let due = usize::from(corners[0] < level && level < corners[1]);
            assert_eq!(found.len(), due, "{level}");
            for line in found {
                assert!(!line.closed);
                for (x, y) in line.points {
                    assert!((of(x, y) - level).abs() < 1e-12, "{level}: {x} {y}");
                }
            }
        }
    }

    #[test]
    fn a_hill_has_one_ring_a_level_near_the_true_circle() {
        let (columns, top) = (41, (20.3, 19.6));
        let of = |x: f64, y: f64| 1.0 - 0.002 * ((x - top.0).powi(2) + (y - top.1).powi(2));
        let chances = field(columns, columns, of);
        for level in LEVELS.map(|level| f64::from(level) / 100.0) {
            let found = ChanceField { chances: &chances, columns }.lines(level);
            let radius = ((1.0 - level) / 0.002).sqrt();
            // A parabola strays from its chord by an eighth of its second derivative, 0.004, at most.
            let stray = 0.004 / 8.0 / (2.0 * 0.002 * radius);
            let whole = radius < 18.0;
            assert!(!whole || (found.len() == 1 && found[0].closed), "{level}: {}", found.len());
            for (x, y) in found.iter().flat_map(|line| &line.points) {
                let far = (x - top.0).hypot(y - top.1);
                assert!((far - radius).abs() < 1.5 * stray, "{level}: {far} for {radius}");
            }
        }
    }

    #[test]
    fn no_line_runs_over_a_hole() {
        let columns = 12;
        let of = |x: f64, y: f64| 0.5 + 0.1 * (x - 5.4) + 0.01 * y;
        let mut chances = field(columns, 9, of);
        let whole = ChanceField { chances: &chances, columns }.lines(0.5);
        assert_eq!(whole.len(), 1);
        let hole = (5, 4);
        chances[hole.1 * columns + hole.0] = None;
        let broken = ChanceField { chances: &chances, columns }.lines(0.5);
        assert_eq!(broken.len(), 2);
        for (x, y) in broken.iter().flat_map(|line| &line.points) {
            let inside = (x - hole.0 as f64).abs() < 1.0 && (y - hole.1 as f64).abs() < 1.0;
            assert!(!inside, "{x} {y}");
        }
    }

    #[test]
    fn a_saddle_is_parted_by_its_middle() {
        for (high, joins) in [(0.8, true), (0.6, false)] {
            let chances = [Some(high), Some(0.3), Some(0.3), Some(high)];
            let lines = ChanceField { chances: &chances, columns: 2 }.lines(0.5);
            assert_eq!(lines.len(), 2);
            // Where the high corners hang together each line cuts a low corner off.
            let cuts_low = lines
                .iter()
                .any(|line| line.points.iter().all(|(x, y)| (x - 1.0).abs() + y.abs() < 1.0));
            assert_eq!(cuts_low, joins, "{lines:?}");
        }
    }
}
