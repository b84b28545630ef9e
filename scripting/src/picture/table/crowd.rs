//! The places taken on the page already, and the places free for a label.

use super::super::contour::PagePoint;
use std::f64::consts::TAU;

/// Side of a cell in which paths are counted.
const CELL: f64 = 3.0;

/// Directions and distances at which a label is tried, nearest first.
const DIRECTIONS: u32 = 16;
const DISTANCES: [f64; 9] = [4.0, 10.0, 18.0, 30.0, 46.0, 66.0, 92.0, 126.0, 170.0];

/// From this distance on a label needs a thread to what it names.
pub(super) const FAR: f64 = 18.0;

/// A level box: upper left corner and size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct LabelBox {
    pub(super) corner: PagePoint,
    pub(super) size: (f64, f64),
}

impl LabelBox {
    pub(super) fn around((x, y): PagePoint, (w, h): (f64, f64)) -> Self {
        Self { corner: (x - w / 2.0, y - h / 2.0), size: (w, h) }
    }

    pub(super) fn centre(&self) -> PagePoint {
        (self.corner.0 + self.size.0 / 2.0, self.corner.1 + self.size.1 / 2.0)
    }

    pub(super) fn corners(&self) -> [PagePoint; 4] {
        let ((x, y), (w, h)) = (self.corner, self.size);
        [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]
    }

    fn grown(&self, by: f64) -> Self {
        let (x, y) = self.corner;
        Self { corner: (x - by, y - by), size: (self.size.0 + 2.0 * by, self.size.1 + 2.0 * by) }
    }

    fn meets(&self, other: &Self) -> bool {
        self.corner.0 < other.corner.0 + other.size.0
            && other.corner.0 < self.corner.0 + self.size.0
            && self.corner.1 < other.corner.1 + other.size.1
            && other.corner.1 < self.corner.1 + self.size.1
    }

    fn lies_in(&self, other: &Self) -> bool {
        self.corner.0 >= other.corner.0
            && self.corner.1 >= other.corner.1
            && self.corner.0 + self.size.0 <= other.corner.0 + other.size.0
            && self.corner.1 + self.size.1 <= other.corner.1 + other.size.1
    }

    /// The point of the box that is nearest to a place.
    pub(super) fn nearest(&self, (x, y): PagePoint) -> PagePoint {
        (
            x.clamp(self.corner.0, self.corner.0 + self.size.0),
            y.clamp(self.corner.1, self.corner.1 + self.size.1),
        )
    }
}

/// A place that was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct LabelPlace {
    pub(super) place: LabelBox,
    /// The place that it is about.
    pub(super) about: PagePoint,
    /// Whether it lies so far off that a thread must lead to it.
    pub(super) far: bool,
}

/// The places taken.
#[derive(Debug, Clone)]
pub(super) struct Crowd {
    /// Labels stay in here.
    play: LabelBox,
    discs: Vec<(PagePoint, f64)>,
    taken: Vec<LabelBox>,
    corner: PagePoint,
    columns: usize,
    rows: usize,
    /// Whether a path runs through a cell, row by row.
    cells: Vec<bool>,
    /// Sums of `cells` over all rows above and columns before.
    sums: Vec<u32>,
}

impl Crowd {
    pub(super) fn new(wood: (PagePoint, (f64, f64)), play: (PagePoint, (f64, f64))) -> Self {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "the table is laid out within the page"
        )]
        let count = |length: f64| (length / CELL).ceil() as usize + 1;
        let (columns, rows) = (count(wood.1.0), count(wood.1.1));
        Self {
            play: LabelBox { corner: play.0, size: play.1 },
            discs: Vec::new(),
            taken: Vec::new(),
            corner: wood.0,
            columns,
            rows,
            cells: vec![false; columns * rows],
            sums: Vec::new(),
        }
    }

    /// A ball or a mark that labels should leave free.
    pub(super) fn disc(&mut self, at: PagePoint, radius: f64) {
        self.discs.push((at, radius));
    }

    /// A path that labels should leave free.
    pub(super) fn path(&mut self, path: &[PagePoint]) {
        for pair in path.windows(2) {
            let (a, b) = (pair[0], pair[1]);
            let length = (b.0 - a.0).hypot(b.1 - a.1);
            let steps = (length / (0.5 * CELL)).ceil().max(1.0);
            let mut walked = 0.0;
            while walked <= steps {
                let share = walked / steps;
                let at = (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1));
                if let Some(index) = self.cell(at) {
                    self.cells[index] = true;
                }
                walked += 1.0;
            }
        }
        self.sums.clear();
    }

    fn cell(&self, (x, y): PagePoint) -> Option<usize> {
        let (column, row) = (((x - self.corner.0) / CELL), ((y - self.corner.1) / CELL));
        if !(column >= 0.0 && row >= 0.0) {
            return None;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "not negative, and the cast saturates"
        )]
        let (column, row) = (column as usize, row as usize);
        (column < self.columns && row < self.rows).then_some(row * self.columns + column)
    }

    fn sum_up(&mut self) {
        if !self.sums.is_empty() {
            return;
        }
        let wide = self.columns + 1;
        self.sums = vec![0; wide * (self.rows + 1)];
        for row in 0..self.rows {
            let mut along = 0;
            for column in 0..self.columns {
                along += u32::from(self.cells[row * self.columns + column]);
                self.sums[(row + 1) * wide + column + 1] =
                    self.sums[row * wide + column + 1] + along;
            }
        }
    }

    /// The number of cells of a box with a path in them.
    fn paths_in(&mut self, place: &LabelBox) -> f64 {
        self.sum_up();
        let wide = self.columns + 1;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped to the cells"
        )]
        let bound =
            |length: f64, most: usize| (length / CELL).round().clamp(0.0, most as f64) as usize;
        let (x, y) = (place.corner.0 - self.corner.0, place.corner.1 - self.corner.1);
        let (left, right) = (bound(x, self.columns), bound(x + place.size.0, self.columns));
        let (top, bottom) = (bound(y, self.rows), bound(y + place.size.1, self.rows));
        let sum = |row: usize, column: usize| f64::from(self.sums[row * wide + column]);
        sum(bottom, right) - sum(top, right) - sum(bottom, left) + sum(top, left)
    }

    /// The depth to which a box reaches into discs, in points.
    pub(super) fn discs_in(&self, place: &LabelBox) -> f64 {
        self.discs
            .iter()
            .map(|(at, radius)| {
                let near = place.nearest(*at);
                (radius + 1.0 - (near.0 - at.0).hypot(near.1 - at.1)).max(0.0)
            })
            .sum()
    }

    /// Takes this very box if nothing has taken any of it.
    pub(super) fn claim(&mut self, place: LabelBox) -> bool {
        let free = self.taken.iter().all(|taken| !taken.meets(&place));
        if free {
            self.taken.push(place);
        }
        free
    }

    /// Takes this very box if it lies on the table, free of labels and, but for those about `own`,
    /// of discs.
    pub(super) fn claim_clear(&mut self, place: LabelBox) -> bool {
        place.lies_in(&self.play) && self.discs_in(&place) <= 0.0 && self.claim(place)
    }

    /// The weight of the paths and discs in a box.
    pub(super) fn crowding(&mut self, place: &LabelBox) -> f64 {
        2.0 * self.paths_in(place) + 3.0 * self.discs_in(place)
    }

    /// Takes the best place for a box of this size about one of these discs; none if every place is
    /// taken.
    pub(super) fn find(
        &mut self,
        about: &[PagePoint],
        radius: f64,
        size: (f64, f64),
    ) -> Option<LabelPlace> {
        let mut best = None;
        for about in about {
            self.better(*about, radius, size, &mut best);
        }
        let found: LabelPlace = best?.1;
        self.taken.push(found.place);
        Some(found)
    }

    /// A cheaper place about a disc than the best one so far.
    fn better(
        &mut self,
        about: PagePoint,
        radius: f64,
        size: (f64, f64),
        best: &mut Option<(f64, LabelPlace)>,
    ) {
        for distance in DISTANCES {
            // A farther place costs more than this one whatever else it has.
            if best.is_some_and(|(cost, _)| cost <= far_cost(distance)) {
                break;
            }
            for direction in 0..DIRECTIONS {
                let angle = TAU * f64::from(direction) / f64::from(DIRECTIONS);
                let (dx, dy) = (libm::cos(angle), libm::sin(angle));
                // The box begins at a point this way and lies beyond it.
                let off = radius + distance;
                let begins = (about.0 + off * dx, about.1 + off * dy);
                let beyond = |share: f64, side: f64| (share / 0.7).clamp(-1.0, 1.0) * side / 2.0;
                let middle = (begins.0 + beyond(dx, size.0), begins.1 + beyond(dy, size.1));
                let place = LabelBox::around(middle, size);
                let room = place.grown(1.5);
                if !place.lies_in(&self.play) || self.taken.iter().any(|taken| taken.meets(&room)) {
                    continue;
                }
                let cost = far_cost(distance)
                    + self.crowding(&room)
                    // Level and upright neighbours read a little better than slanted ones.
                    + if direction % 4 == 0 { 0.0 } else { 1.5 };
                if best.is_none_or(|(least, _)| cost < least) {
                    *best = Some((cost, LabelPlace { place, about, far: distance >= FAR }));
                }
            }
        }
    }
}

fn far_cost(distance: f64) -> f64 {
    0.35 * (distance - DISTANCES[0])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn crowd() -> Crowd {
        Crowd::new(((0.0, 0.0), (300.0, 200.0)), ((20.0, 20.0), (260.0, 160.0)))
    }

    #[test]
    fn labels_about_one_place_stay_apart_and_on_the_table() {
        let mut crowd = crowd();
        let mut found: Vec<LabelBox> = Vec::new();
        while let Some(next) = crowd.find(&[(150.0, 100.0)], 8.0, (40.0, 14.0)) {
            assert!(next.place.lies_in(&crowd.play), "{next:?}");
            assert!(found.iter().all(|other| !other.meets(&next.place)), "{next:?}");
            found.push(next.place);
            assert!(found.len() < 200);
        }
        assert!(found.len() > 12, "{}", found.len());
    }

    #[test]
    fn a_label_keeps_off_paths_and_discs_where_it_can() {
        let mut crowd = crowd();
        crowd.path(&[(150.0, 100.0), (280.0, 100.0)]);
        crowd.disc((110.0, 100.0), 12.0);
        let found = crowd.find(&[(150.0, 100.0)], 8.0, (40.0, 14.0)).unwrap();
        assert_eq!(crowd.paths_in(&found.place), 0.0, "{found:?}");
        assert_eq!(crowd.discs_in(&found.place), 0.0, "{found:?}");
        assert!(!found.far);
    }

    #[test]
    fn a_box_is_claimed_once() {
        let mut crowd = crowd();
        let place = LabelBox::around((100.0, 100.0), (20.0, 10.0));
        assert!(crowd.claim_clear(place));
        assert!(!crowd.claim(place));
        assert!(!crowd.claim_clear(LabelBox::around((10.0, 10.0), (20.0, 10.0))), "on the rail");
    }
}
