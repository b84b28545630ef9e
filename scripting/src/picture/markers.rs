//! Dashes and markers that tell lines apart without colour.

use super::canvas::Canvas;
use super::colours::{LINES, PAPER, Rgb};

/// Lengths of stroke and gap by turns; none for an unbroken line.
const DASHES: [&[f64]; 5] =
    [&[], &[9.0, 4.0], &[2.5, 3.5], &[14.0, 4.0, 2.5, 4.0], &[5.0, 3.0, 5.0, 8.0]];

/// The shape of a marker.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Shape {
    Disc,
    Square,
    Triangle,
    Diamond,
}

/// Colour, dashes and marker of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct LineLook {
    pub(super) colour: Rgb,
    pub(super) dashes: &'static [f64],
    shape: Shape,
    hollow: bool,
}

/// The look of the line with this number. Dash, marker and colour go round at 5, 8 and 6, so that
/// neighbours differ in all of them.
pub(super) fn line_look(index: usize) -> LineLook {
    let shapes = [Shape::Disc, Shape::Square, Shape::Triangle, Shape::Diamond];
    LineLook {
        colour: LINES[index % LINES.len()],
        dashes: DASHES[index % DASHES.len()],
        shape: shapes[index % shapes.len()],
        hollow: (index / shapes.len()) % 2 == 1,
    }
}

/// Draws a marker with a thin edge of paper, so that it stands out from lines under it.
pub(super) fn draw(canvas: &mut Canvas, look: LineLook, at: (f64, f64)) {
    canvas.polygon(outline(look.shape, at, 5.6), PAPER);
    canvas.polygon(outline(look.shape, at, 4.4), look.colour);
    if look.hollow {
        canvas.polygon(outline(look.shape, at, 2.4), PAPER);
    }
}

fn outline(shape: Shape, (x, y): (f64, f64), radius: f64) -> Vec<(f64, f64)> {
    // Sides and turn of the polygon, and a factor that makes the areas look alike.
    let (corners, turn, factor) = match shape {
        Shape::Disc => (24, 0.0, 1.0),
        Shape::Square => (4, 0.125, 1.2),
        Shape::Triangle => (3, -0.25, 1.3),
        Shape::Diamond => (4, 0.0, 1.25),
    };
    (0..corners)
        .map(|corner| {
            let angle = std::f64::consts::TAU * (f64::from(corner) / f64::from(corners) + turn);
            (x + factor * radius * angle.cos(), y + factor * radius * angle.sin())
        })
        .collect()
}

/// The points of a path that lie at least `least` apart, with the first and the last.
pub(super) fn thinned(
    points: impl DoubleEndedIterator<Item = (f64, f64)>,
    least: f64,
) -> Vec<(f64, f64)> {
    let mut out: Vec<(f64, f64)> = Vec::new();
    let mut last = None;
    for point in points {
        last = Some(point);
        if out.last().is_none_or(|kept| (kept.0 - point.0).hypot(kept.1 - point.1) >= least) {
            out.push(point);
        }
    }
    if let Some(end) = last
        && out.last() != Some(&end)
    {
        // Two marks on top of each other would blur: the end takes the place of its neighbour.
        if out.len() > 1 {
            out.pop();
        }
        out.push(end);
    }
    out
}

/// The points of a path that carry a marker: evenly many points apart, far enough to stay clear
/// of each other, and the last.
pub(super) fn marked(path: &[(f64, f64)]) -> Vec<(f64, f64)> {
    const LEAST: f64 = 22.0;
    const MOST: f64 = 60.0;
    let length = length(path);
    let gaps = path.len().saturating_sub(1).max(1);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "positive, and the cast saturates"
    )]
    let every = (gaps as f64 * (LEAST / length.max(1e-9)).max(1.0 / MOST)).ceil() as usize;
    thinned(
        path.iter()
            .copied()
            .enumerate()
            .filter(|(i, _)| i % every == 0 || *i == gaps)
            .map(|(_, p)| p),
        LEAST / 2.0,
    )
}

/// A path with its turning points: of each stretch of many points the first, the lowest, the
/// highest and the last. A path of few points stays as it is.
pub(super) fn envelope(path: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    const STRETCHES: usize = 1500;
    if path.len() <= 4 * STRETCHES {
        return path;
    }
    let mut out = Vec::with_capacity(4 * STRETCHES);
    for stretch in path.chunks(path.len().div_ceil(STRETCHES)) {
        let by_height = |a: &usize, b: &usize| stretch[*a].1.total_cmp(&stretch[*b].1);
        let lowest = (0..stretch.len()).min_by(by_height).unwrap_or(0);
        let highest = (0..stretch.len()).max_by(by_height).unwrap_or(0);
        let mut kept = [0, lowest, highest, stretch.len() - 1];
        kept.sort_unstable();
        out.extend(kept.map(|index| stretch[index]));
    }
    out.dedup();
    out
}

fn length(path: &[(f64, f64)]) -> f64 {
    path.windows(2).map(|pair| (pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1)).sum()
}

/// The longest path that is dashed.
const LONGEST_DASHED: f64 = 20_000.0;

/// Whether a path winds so much that dashes could not be told apart.
pub(super) fn too_long_for_dashes(path: &[(f64, f64)]) -> bool {
    length(path) > LONGEST_DASHED
}

/// A path cut into the strokes of a dash pattern; the whole path if there is no pattern, or if it
/// winds so much that dashes could not be told apart.
pub(super) fn dashes(path: &[(f64, f64)], pattern: &[f64]) -> Vec<Vec<(f64, f64)>> {
    if pattern.is_empty() || path.len() < 2 || too_long_for_dashes(path) {
        return vec![path.to_vec()];
    }
    let mut out = Vec::new();
    let mut turn = 0;
    let mut left = pattern[0];
    let mut stroke = vec![path[0]];
    for pair in path.windows(2) {
        let ((x, y), end) = (pair[0], pair[1]);
        let length = (end.0 - x).hypot(end.1 - y);
        let mut walked = 0.0;
        while length - walked > left {
            walked += left;
            let share = walked / length;
            let here = (x + share * (end.0 - x), y + share * (end.1 - y));
            if turn % 2 == 0 {
                stroke.push(here);
                out.push(std::mem::take(&mut stroke));
            } else {
                stroke = vec![here];
            }
            turn = (turn + 1) % pattern.len();
            left = pattern[turn];
        }
        left -= length - walked;
        if turn % 2 == 0 {
            stroke.push(end);
        }
    }
    if stroke.len() > 1 {
        out.push(stroke);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_lines_look_the_same() {
        let looks: Vec<LineLook> = (0..super::super::MOST_SERIES).map(line_look).collect();
        for (i, a) in looks.iter().enumerate() {
            for b in &looks[..i] {
                let in_grey = (a.dashes, a.shape, a.hollow) != (b.dashes, b.shape, b.hollow);
                assert!(in_grey, "{a:?} and {b:?} differ in colour only");
            }
        }
    }

    #[test]
    fn dashes_keep_the_length_of_the_strokes() {
        let path = [(0.0, 0.0), (30.0, 40.0), (30.0, 90.0)];
        let strokes = dashes(&path, &[9.0, 1.0]);
        assert_eq!(strokes.len(), 10);
        let drawn: f64 = strokes
            .iter()
            .flat_map(|stroke| stroke.windows(2))
            .map(|pair| (pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1))
            .sum();
        assert!((drawn - 90.0).abs() < 1e-9, "{drawn}");
    }

    #[test]
    fn an_envelope_keeps_the_extremes_of_a_long_path() {
        let mut path: Vec<(f64, f64)> = (0..100_000).map(|i| (f64::from(i), 0.0)).collect();
        path[70_001].1 = 9.0;
        path[33_333].1 = -9.0;
        let kept = envelope(path.clone());
        assert!(kept.len() <= 6000, "{}", kept.len());
        for index in [0, 33_333, 70_001, 99_999] {
            assert!(kept.contains(&path[index]), "{index}");
        }
        assert!(kept.is_sorted_by(|a, b| a.0 <= b.0));
    }

    #[test]
    fn thinning_keeps_both_ends() {
        let points = (0..=100).map(|i| (f64::from(i), 0.0));
        let kept = thinned(points, 7.0);
        assert_eq!((kept[0].0, kept[kept.len() - 1].0), (0.0, 100.0));
        assert!(kept.windows(2).all(|pair| pair[1].0 - pair[0].0 >= 7.0));
    }
}
