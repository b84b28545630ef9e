//! One panel of regions, their edges and lines of their own.

use super::canvas::{Anchor, Canvas, Lettering, Paint, Pen};
use super::colours::{FRAME, HOLDS, INK, NO_VERDICT_LIGHT, PAPER};
use super::contour::{Contour, distance, length};
use super::font::{self, Weight};
use super::frontier_data::{FrontierBar, FrontierCurve, FrontierPanel};
use super::frontier_key::{bar_colour, curve_look};
use super::lines_axes::Scale;
use super::markers;
use super::page::{CAPTION, PHRASE, TICK};

/// Words beside an edge.
const EDGE_WORD: Lettering = Lettering { em: 11.5, weight: Weight::Bold, colour: INK };
/// Shorter edges carry no word.
const LEAST_EDGE: f64 = 46.0;
/// Half the width of a bar, at most.
const WIDEST_BAR: f64 = 15.0;

/// Where a panel lies on the page, and its scales.
pub(super) struct FrontierPlot<'a> {
    pub(super) corner: (f64, f64),
    pub(super) size: (f64, f64),
    pub(super) x: &'a Scale,
    pub(super) y: &'a Scale,
}

impl FrontierPlot<'_> {
    pub(super) fn draw_panel(&self, canvas: &mut Canvas, panel: &FrontierPanel, flagged: &str) {
        let (left, top) = self.corner;
        let caption = font::clean(&panel.caption);
        let caption = font::fit(&caption, CAPTION.em, CAPTION.weight, self.size.0);
        let summary = font::clean(&panel.summary);
        let summary = font::fit(&summary, PHRASE.em, PHRASE.weight, self.size.0);
        let lower = if caption.is_empty() { 22.0 } else { 24.0 };
        canvas.text(&caption, (left, top - lower), Anchor::Start, CAPTION);
        canvas.text(&summary, (left, top - 8.0), Anchor::Start, PHRASE);
        // What was searched, in grey; where it holds, light.
        let half = self.bar_half(&panel.lines);
        if panel.lines.is_empty() {
            canvas.rectangle(self.corner, self.size, NO_VERDICT_LIGHT);
        }
        for x in panel.lines.iter().filter(|x| x.is_finite()) {
            let (middle, top) = (self.at((*x, 0.0)).0, self.corner.1);
            canvas.rectangle((middle - half, top), (2.0 * half, self.size.1), NO_VERDICT_LIGHT);
        }
        for region in &panel.regions {
            let outline: Vec<(f64, f64)> =
                finite(&region.outline).map(|point| self.at(point)).collect();
            if outline.len() >= 3 {
                canvas.polygon(&outline, HOLDS);
            }
        }
        self.draw_hairlines(canvas);
        // A ground of paper keeps dashes apart from grey and hairlines; all of it lies below all edges,
        // so that none is cut where it meets the next.
        for curve in &panel.curves {
            canvas.stroke(&self.path(curve), 4.0, PAPER);
        }
        for curve in &panel.curves {
            self.draw_curve(canvas, curve);
        }
        let drawable = |bar: &&FrontierBar| [bar.x, bar.from, bar.to].iter().all(|v| v.is_finite());
        // Lines across a bar lie above the next stretch of it.
        for bar in panel.bars.iter().filter(drawable) {
            self.draw_bar(canvas, bar, half);
        }
        for bar in panel.bars.iter().filter(drawable) {
            self.draw_bar_ends(canvas, bar, half);
        }
        let mut taken = self.draw_checked(canvas, panel, half, &font::clean(flagged));
        for curve in &panel.curves {
            self.draw_word(canvas, curve, &panel.curves, &mut taken);
        }
    }

    /// Draws the end of the checked range with its words once, above it; returns the words' extent.
    fn draw_checked(
        &self,
        canvas: &mut Canvas,
        panel: &FrontierPanel,
        half: f64,
        words: &str,
    ) -> Vec<[f64; 4]> {
        let mut pieces = Vec::new();
        for run in &panel.checked {
            let path: Vec<(f64, f64)> = finite(run).map(|point| self.at(point)).collect();
            match path.as_slice() {
                [] => {}
                [(x, y)] => pieces.push(vec![(x - half, *y), (x + half, *y)]),
                _ => pieces.push(path),
            }
        }
        let contours: Vec<Contour> =
            pieces.iter().map(|piece| Contour::through(piece, false)).collect();
        super::cells::boundary(canvas, &contours);
        let long = font::width(words, EDGE_WORD.em, EDGE_WORD.weight);
        let Some(longest) = pieces.iter().max_by(|a, b| length(a).total_cmp(&length(b))) else {
            return Vec::new();
        };
        let mut edges = pieces.clone();
        edges.extend(panel.curves.iter().map(|curve| self.path(curve)));
        let bars = panel.bars.iter().flat_map(|bar| [bar.from, bar.to].map(|y| (bar.x, y)));
        edges.extend(bars.map(|at| self.at(at)).map(|(x, y)| vec![(x - half, y), (x + half, y)]));
        let (first, last) = (
            self.corner.0 + 4.0,
            (self.corner.0 + self.size.0 - long - 4.0).max(self.corner.0 + 4.0),
        );
        // The nearest place above the line, or else a little further up.
        for lift in [7.0, 14.0, 24.0, 38.0] {
            for share in [0.5, 0.35, 0.65, 0.2, 0.8, 0.0, 1.0] {
                let Some((at, along)) = point_at(longest, share * length(longest)) else {
                    continue;
                };
                let rise = 0.5 * long * (along.1 / along.0.abs().max(1e-3)).abs().min(1.0);
                let baseline = at.1 - lift - rise;
                let left = (at.0 - 0.5 * long).clamp(first, last);
                let extent = [left - 2.0, baseline - 11.0, left + long + 2.0, baseline + 4.0];
                if self.holds(&extent) && edges.iter().all(|edge| is_clear(edge, &extent)) {
                    canvas.text(words, (left, baseline), Anchor::Start, EDGE_WORD);
                    return vec![extent];
                }
            }
        }
        Vec::new()
    }

    /// Whether a box lies within the plot.
    fn holds(&self, extent: &[f64; 4]) -> bool {
        extent[0] > self.corner.0
            && extent[1] > self.corner.1
            && extent[2] < self.corner.0 + self.size.0
            && extent[3] < self.corner.1 + self.size.1
    }

    fn at(&self, (x, y): (f64, f64)) -> (f64, f64) {
        (
            self.corner.0 + self.x.share(x) * self.size.0,
            self.corner.1 + (1.0 - self.y.share(y)) * self.size.1,
        )
    }

    fn draw_hairlines(&self, canvas: &mut Canvas) {
        let (left, top) = self.corner;
        let within = |scale: &Scale| {
            let inside = scale.ticks.iter().filter(|tick| scale.contains(**tick));
            inside.map(|tick| scale.share(*tick)).collect::<Vec<f64>>()
        };
        let (wide, high) = self.size;
        let level = within(self.y).into_iter().map(|share| {
            let y = top + (1.0 - share) * high;
            [(left, y), (left + wide, y)]
        });
        let upright = within(self.x).into_iter().map(|share| {
            let x = left + share * wide;
            [(x, top), (x, top + high)]
        });
        let lines = level.chain(upright).map(|ends| Contour::through(&ends, false)).collect();
        let look = Paint::line(Pen::plain(0.75, FRAME));
        canvas.curves(lines, Paint { opacity: 0.3, ..look });
    }

    pub(super) fn draw_axes(&self, canvas: &mut Canvas, y_labels: &[String]) {
        let (left, top) = self.corner;
        let bottom = top + self.size.1;
        for (value, label) in self.y.ticks.iter().zip(y_labels) {
            let y = top + (1.0 - self.y.share(*value)) * self.size.1;
            canvas.text(label, (left - 8.0, y + 4.0), Anchor::End, TICK);
        }
        for (value, label) in self.x.ticks.iter().zip(self.x.labels().0) {
            let x = left + self.x.share(*value) * self.size.0;
            canvas.stroke(&[(x, bottom), (x, bottom + 4.0)], 1.0, FRAME);
            canvas.text(&label, (x, bottom + 18.0), Anchor::Middle, TICK);
        }
        canvas.frame(self.corner, self.size, 1.0, FRAME);
    }

    fn path(&self, curve: &FrontierCurve) -> Vec<(f64, f64)> {
        markers::thinned(finite(&curve.points).map(|point| self.at(point)), 0.5)
    }

    fn draw_curve(&self, canvas: &mut Canvas, curve: &FrontierCurve) {
        let look = curve_look(curve.kind);
        canvas.trace(Contour::through(&self.path(curve), false), look.trace(2.25));
    }

    /// Half the width of a bar: apart from its nearest neighbour, and within the plot.
    fn bar_half(&self, lines: &[f64]) -> f64 {
        let (left, right) = (self.corner.0, self.corner.0 + self.size.0);
        let mut places: Vec<f64> =
            lines.iter().filter(|x| x.is_finite()).map(|x| self.at((*x, 0.0)).0).collect();
        places.extend([2.0 * left - right, 2.0 * right - left]);
        places.sort_by(f64::total_cmp);
        places.dedup();
        let nearest = places.windows(2).map(|pair| pair[1] - pair[0]).fold(f64::INFINITY, f64::min);
        (0.36 * nearest).clamp(1.0, WIDEST_BAR)
    }

    fn draw_bar(&self, canvas: &mut Canvas, bar: &FrontierBar, half: f64) {
        let (x, top) = self.at((bar.x, bar.to));
        let (_, bottom) = self.at((bar.x, bar.from));
        canvas.rectangle((x - half, top), (2.0 * half, bottom - top), bar_colour(bar.agreement));
        for side in [x - half, x + half] {
            canvas.stroke(&[(side, top), (side, bottom)], 0.75, FRAME);
        }
    }

    fn draw_bar_ends(&self, canvas: &mut Canvas, bar: &FrontierBar, half: f64) {
        let (x, top) = self.at((bar.x, bar.to));
        let (_, bottom) = self.at((bar.x, bar.from));
        for (kind, y) in [(bar.above, top), (bar.below, bottom)] {
            let Some(kind) = kind else { continue };
            let look = curve_look(kind);
            let ends = [(x - half - 2.0, y), (x + half + 2.0, y)];
            canvas.stroke(&ends, 4.0, PAPER);
            canvas.trace(Contour::through(&ends, false), look.trace(2.5));
        }
    }

    /// Writes what happens beyond an edge beside it, outside the region, where nothing is in its
    /// way.
    fn draw_word(
        &self,
        canvas: &mut Canvas,
        curve: &FrontierCurve,
        all: &[FrontierCurve],
        taken: &mut Vec<[f64; 4]>,
    ) {
        let path = self.path(curve);
        let length = length(&path);
        if length < LEAST_EDGE {
            return;
        }
        let word = curve_look(curve.kind).word;
        let half = (0.5 * font::width(word, EDGE_WORD.em, EDGE_WORD.weight), 0.4 * EDGE_WORD.em);
        for share in [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9] {
            let Some((at, along)) = point_at(&path, share * length) else { continue };
            // Square to the edge, away from the region: down the page below a lower edge.
            let mut normal = (-along.1, along.0);
            if (normal.1 > 0.0) != curve.lower {
                normal = (-normal.0, -normal.1);
            }
            let reach = 7.0 + half.0 * normal.0.abs() + half.1 * normal.1.abs();
            let middle = (at.0 + reach * normal.0, at.1 + reach * normal.1);
            let extent = [
                middle.0 - half.0 - 2.0,
                middle.1 - half.1 - 2.0,
                middle.0 + half.0 + 2.0,
                middle.1 + half.1 + 2.0,
            ];
            let free = taken.iter().all(|other| !overlap(other, &extent));
            let clear = all.iter().all(|other| is_clear(&self.path(other), &extent));
            if self.holds(&extent) && free && clear {
                let baseline = (middle.0, middle.1 + half.1);
                canvas.text(word, baseline, Anchor::Middle, EDGE_WORD);
                taken.push(extent);
                return;
            }
        }
    }
}

fn finite(points: &[(f64, f64)]) -> impl DoubleEndedIterator<Item = (f64, f64)> {
    points.iter().copied().filter(|(x, y)| x.is_finite() && y.is_finite())
}

/// The place so far along a path, and the path's direction there.
fn point_at(path: &[(f64, f64)], mut left: f64) -> Option<((f64, f64), (f64, f64))> {
    for pair in path.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let length = distance(a, b);
        if left <= length && length > 0.0 {
            let along = ((b.0 - a.0) / length, (b.1 - a.1) / length);
            return Some(((a.0 + left * along.0, a.1 + left * along.1), along));
        }
        left -= length;
    }
    None
}

fn overlap(a: &[f64; 4], b: &[f64; 4]) -> bool {
    a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
}

/// Whether a path stays out of a box.
fn is_clear(path: &[(f64, f64)], extent: &[f64; 4]) -> bool {
    path.windows(2).all(|pair| !crosses(pair[0], pair[1], extent))
}

/// Whether a straight piece of a path runs through a box: the part of it within the box's columns and
/// rows is not empty.
fn crosses(a: (f64, f64), b: (f64, f64), of: &[f64; 4]) -> bool {
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for (from, run, low, high) in [(a.0, b.0 - a.0, of[0], of[2]), (a.1, b.1 - a.1, of[1], of[3])] {
        if run == 0.0 {
            if from <= low || from >= high {
                return false;
            }
            continue;
        }
        let (one, other) = ((low - from) / run, (high - from) / run);
        first = first.max(one.min(other));
        last = last.min(one.max(other));
    }
    first < last
}
