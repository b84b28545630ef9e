//! How much of each pixel an area or a stroke covers: exact across, in fine rows downwards, and a
//! place covered twice counts once.

use super::curve::Place;
use std::f64::consts::PI;

/// Rows to one pixel.
const ROWS: i32 = 4;

/// A side of an area, from its upper end down.
struct Side {
    /// First and last fine row whose middle it crosses.
    rows: (i32, i32),
    top: Place,
    /// Steps across for one down.
    slope: f64,
    turn: i32,
}

/// Calls `run` with place, length and coverage (0 to 1) of every level run of pixels that the
/// contours cover, within a page of this size. Contours close themselves; what lies within
/// contours of one turning direction is covered once (the non-zero rule).
pub(super) fn fill<E>(
    contours: &[Vec<Place>],
    (wide, high): (u32, u32),
    mut run: impl FnMut(i32, i32, i32, f64) -> Result<(), E>,
) -> Result<(), E> {
    let mut sides = sides_of(contours, high.cast_signed() * ROWS);
    sides.sort_by_key(|side| side.rows.0);
    let Some(first) = sides.first().map(|side| side.rows.0) else { return Ok(()) };
    let last = sides.iter().map(|side| side.rows.1).max().unwrap_or(first);
    let mut line = Line::new(wide);
    let mut waiting = sides.iter().peekable();
    let mut active: Vec<&Side> = Vec::new();
    let mut crossings: Vec<(f64, i32)> = Vec::new();
    for row in first..=last {
        active.retain(|side| side.rows.1 >= row);
        while let Some(side) = waiting.next_if(|side| side.rows.0 <= row) {
            active.push(side);
        }
        let y = middle(row);
        crossings.clear();
        crossings.extend(
            active.iter().map(|side| (side.top.0 + (y - side.top.1) * side.slope, side.turn)),
        );
        crossings.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut winding = 0;
        let mut entered = 0.0;
        for (x, turn) in &crossings {
            let before = winding;
            winding += turn;
            if before == 0 {
                entered = *x;
            } else if winding == 0 {
                line.cover(entered, *x, 1.0 / f64::from(ROWS));
            }
        }
        if row == last || (row + 1) % ROWS == 0 {
            line.emit(row / ROWS, &mut run)?;
        }
    }
    Ok(())
}

fn middle(row: i32) -> f64 {
    (f64::from(row) + 0.5) / f64::from(ROWS)
}

fn sides_of(contours: &[Vec<Place>], rows: i32) -> Vec<Side> {
    let mut out = Vec::new();
    for contour in contours {
        for (index, &a) in contour.iter().enumerate() {
            let b = contour[(index + 1) % contour.len()];
            let (top, bottom, turn) = if a.1 <= b.1 { (a, b, 1) } else { (b, a, -1) };
            #[expect(clippy::cast_possible_truncation, reason = "the cast saturates")]
            let row_at = |y: f64| (y * f64::from(ROWS) - 0.5).ceil() as i32;
            let span = (row_at(top.1).max(0), row_at(bottom.1).min(rows) - 1);
            if span.0 <= span.1 {
                let slope = (bottom.0 - top.0) / (bottom.1 - top.1);
                out.push(Side { rows: span, top, slope, turn });
            }
        }
    }
    out
}

/// One row of pixels being gathered.
struct Line {
    /// What each pixel is covered by itself.
    own: Vec<f64>,
    /// Where a run of covered pixels begins and ends.
    change: Vec<f64>,
    touched: std::ops::Range<usize>,
}

impl Line {
    fn new(wide: u32) -> Self {
        let wide = wide as usize;
        Self { own: vec![0.0; wide + 1], change: vec![0.0; wide + 1], touched: wide..0 }
    }

    fn cover(&mut self, from: f64, to: f64, weight: f64) {
        let wide = self.own.len() - 1;
        let (from, to) = (from.clamp(0.0, wide as f64), to.clamp(0.0, wide as f64));
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped to the page just above"
        )]
        let (first, last) = (from as usize, to as usize);
        if first == last {
            self.own[first] += weight * (to - from);
        } else {
            self.own[first] += weight * (first as f64 + 1.0 - from);
            self.own[last] += weight * (to - last as f64);
            self.change[first + 1] += weight;
            self.change[last] -= weight;
        }
        self.touched.start = self.touched.start.min(first);
        self.touched.end = self.touched.end.max(last + 1);
    }

    fn emit<E>(
        &mut self,
        y: i32,
        run: &mut impl FnMut(i32, i32, i32, f64) -> Result<(), E>,
    ) -> Result<(), E> {
        let wide = self.own.len() - 1;
        let mut under = 0.0;
        let mut begun = (0_usize, 0.0_f64);
        let range = self.touched.start..self.touched.end.max(self.touched.start);
        self.touched = wide..0;
        begun.0 = range.start;
        for x in range.clone() {
            under += std::mem::take(&mut self.change[x]);
            let covered = (under + std::mem::take(&mut self.own[x])).clamp(0.0, 1.0);
            if covered != begun.1 || x >= wide {
                put(begun, x.min(wide), y, run)?;
                begun = (x, covered);
            }
        }
        put(begun, range.end.min(wide), y, run)
    }
}

fn put<E>(
    (from, covered): (usize, f64),
    to: usize,
    y: i32,
    run: &mut impl FnMut(i32, i32, i32, f64) -> Result<(), E>,
) -> Result<(), E> {
    if covered <= 0.0 || to <= from {
        return Ok(());
    }
    let at = i32::try_from(from).unwrap_or(i32::MAX);
    run(at, y, i32::try_from(to - from).unwrap_or(i32::MAX), covered)
}

/// The contours of a stroke along a path: a box for each stretch, a disc for each bend that would
/// show a notch, and discs at the ends of a round one.
pub(super) fn stroke(path: &[Place], width: f64, round: bool) -> Vec<Vec<Place>> {
    let half = width / 2.0;
    let mut out = Vec::new();
    let mut before: Option<Place> = None;
    for pair in path.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let length = (b.0 - a.0).hypot(b.1 - a.1);
        if length == 0.0 {
            continue;
        }
        let along = ((b.0 - a.0) / length, (b.1 - a.1) / length);
        let (dx, dy) = (-along.1 * half, along.0 * half);
        out.push(vec![
            (a.0 + dx, a.1 + dy),
            (a.0 - dx, a.1 - dy),
            (b.0 - dx, b.1 - dy),
            (b.0 + dx, b.1 + dy),
        ]);
        // The notch on the outside of a bend is about half·angle wide.
        if let Some(last) = before
            && (last.0 - along.0).hypot(last.1 - along.1) * half > 0.02
        {
            out.push(disc(a, half));
        }
        before = Some(along);
    }
    if round {
        out.extend(path.first().into_iter().chain(path.last()).map(|end| disc(*end, half)));
    }
    out
}

/// A disc that turns the same way as the boxes of [`stroke`].
fn disc((x, y): Place, radius: f64) -> Vec<Place> {
    const CORNERS: u32 = 24;
    (0..CORNERS)
        .map(|corner| {
            let angle = 2.0 * PI * f64::from(corner) / f64::from(CORNERS);
            (x + radius * angle.cos(), y + radius * angle.sin())
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(contours: &[Vec<Place>]) -> f64 {
        let mut sum = 0.0;
        fill(contours, (60, 40), |x, y, length, covered| {
            assert!(x >= 0 && y >= 0 && x + length <= 60 && y < 40, "{x} {y} {length}");
            sum += f64::from(length) * covered;
            Ok::<(), ()>(())
        })
        .unwrap();
        sum
    }

    #[test]
    fn what_is_covered_adds_up_to_the_area() {
        let triangle = vec![(3.2, 4.1), (31.7, 9.0), (12.4, 33.3)];
        let cross = |a: Place, b: Place| a.0 * b.1 - a.1 * b.0;
        let exact = 0.5
            * (cross(triangle[0], triangle[1])
                + cross(triangle[1], triangle[2])
                + cross(triangle[2], triangle[0]));
        let found = area(&[triangle]);
        // Measured: 0.03 off, from the rows at the upper and lower corner.
        assert!((found - exact).abs() < 0.2, "{found} against {exact}");
        let round = area(&[disc((20.0, 20.0), 10.0)]);
        assert!((round - PI * 100.0).abs() < 4.0, "{round}");
    }

    #[test]
    fn a_place_covered_twice_counts_once() {
        let one = vec![(5.0, 5.0), (5.0, 15.0), (15.0, 15.0), (15.0, 5.0)];
        assert!((area(&[one.clone(), one.clone()]) - 100.0).abs() < 1e-9);
        // Boxes and discs of a stroke turn the same way, so none cancels another.
        let straight = area(&stroke(&[(10.0, 20.0), (50.0, 20.0)], 6.0, false));
        assert!((straight - 240.0).abs() < 1e-9, "{straight}");
        let bent = area(&stroke(&[(10.0, 20.0), (30.0, 20.0), (30.0, 35.0)], 6.0, false));
        let least = 20.0 * 6.0 + 15.0 * 6.0 - 9.0;
        assert!(bent > least && bent < least + 9.0, "{bent} above {least}");
    }

    #[test]
    fn what_lies_off_the_page_is_left_out() {
        assert_eq!(area(&[vec![(-90.0, -9.0), (-90.0, 80.0), (-5.0, 80.0), (-5.0, -9.0)]]), 0.0);
        let whole = vec![(-90.0, -9.0), (-90.0, 80.0), (500.0, 80.0), (500.0, -9.0)];
        assert_eq!(area(&[whole]), 2400.0);
        assert_eq!(area(&[]), 0.0);
    }
}
