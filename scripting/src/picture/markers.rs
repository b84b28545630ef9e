//! Dashes and markers that tell lines apart without colour.

use super::canvas::{Canvas, Pen};
use super::colours::{LINES, PAPER, Rgb};
use super::contour::{distance, length, on_circle};

/// Lengths of stroke and gap by turns; none for an unbroken line. None is of dots alone: so are the
/// edges of bands.
const DASHES: [&[f64]; 5] =
    [&[], &[9.0, 4.0], &[20.0, 6.0], &[14.0, 4.0, 2.5, 4.0], &[5.0, 3.0, 5.0, 8.0]];

/// The shape of a marker.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum MarkerShape {
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
    shape: MarkerShape,
    hollow: bool,
}

impl LineLook {
    pub(super) const fn trace(self) -> Pen {
        Pen { dashes: self.dashes, ..Pen::plain(2.0, self.colour) }
    }
}

/// The look of the line with this number. Dash, marker and colour go round at 5, 8 and 6, so that
/// neighbours differ in all of them.
pub(super) fn line_look(index: usize) -> LineLook {
    let shapes =
        [MarkerShape::Disc, MarkerShape::Square, MarkerShape::Triangle, MarkerShape::Diamond];
    LineLook {
        colour: LINES[index % LINES.len()],
        dashes: DASHES[index % DASHES.len()],
        shape: shapes[index % shapes.len()],
        hollow: (index / shapes.len()) % 2 == 1,
    }
}

/// Draws a marker with a thin edge of paper, so that it stands out from lines under it.
pub(super) fn draw(canvas: &mut Canvas, look: LineLook, at: (f64, f64)) {
    look.shape.draw(canvas, at, 5.6, PAPER);
    look.shape.draw(canvas, at, 4.4, look.colour);
    if look.hollow {
        look.shape.draw(canvas, at, 2.4, PAPER);
    }
}

impl MarkerShape {
    fn draw(self, canvas: &mut Canvas, at: (f64, f64), radius: f64, fill: Rgb) {
        // Corners and turn of the polygon, and a factor that makes the areas look alike.
        let (corners, turn, factor) = match self {
            Self::Disc => return canvas.disc(at, radius, fill),
            Self::Square => (4, 0.125, 1.2),
            Self::Triangle => (3, -0.25, 1.3),
            Self::Diamond => (4, 0.0, 1.25),
        };
        let corner = |corner: i32| {
            let share = f64::from(corner) / f64::from(corners) + turn;
            on_circle(at, factor * radius, std::f64::consts::TAU * share)
        };
        canvas.polygon(&(0..corners).map(corner).collect::<Vec<_>>(), fill);
    }
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
        if out.last().is_none_or(|kept| distance(*kept, point) >= least) {
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
    const LEAST: f64 = 14.0;
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
