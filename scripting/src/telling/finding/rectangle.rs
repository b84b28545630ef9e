//! The largest part of a map in which every result holds.

use super::counts::FindingCount;

/// A larger map is not searched, in steps.
const MOST_STEPS: usize = 20_000_000;

/// First and last places along both axes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Rectangle {
    pub(super) along: (usize, usize),
    pub(super) across: (usize, usize),
}

impl Rectangle {
    pub(super) fn area(&self) -> usize {
        (self.along.1 - self.along.0 + 1) * (self.across.1 - self.across.0 + 1)
    }

    /// The largest one whose every cell was played and holds, of `cells[along][across]`; the first of equals. At least
    /// two values wide along each axis, and `share` of all cells large.
    pub(super) fn of(cells: &[Vec<FindingCount>], share: f64) -> Option<Self> {
        let (length, width) = (cells.len(), cells.first()?.len());
        if width.saturating_mul(width).saturating_mul(length) > MOST_STEPS {
            return None;
        }
        let holds = |cell: &FindingCount| cell.all > 0 && cell.is_whole() && cell.unplayable == 0;
        let mut best: Option<Self> = None;
        for from in 0..width {
            let mut whole = vec![true; length];
            for to in from..width {
                for (whole, row) in whole.iter_mut().zip(cells) {
                    *whole &= holds(&row[to]);
                }
                let Some(along) = longest_run(&whole) else { break };
                let found = Self { along, across: (from, to) };
                if best.is_none_or(|best| found.area() > best.area()) {
                    best = Some(found);
                }
            }
        }
        let is_long = |(from, to): (usize, usize)| from < to;
        let least = share * (length * width) as f64;
        best.filter(|it| is_long(it.along) && is_long(it.across) && it.area() as f64 >= least)
    }
}

/// The longest run of what is true, first and last; the first of equals.
fn longest_run(all: &[bool]) -> Option<(usize, usize)> {
    let mut best: Option<(usize, usize)> = None;
    let mut from = None;
    for (at, holds) in all.iter().enumerate() {
        if !holds {
            from = None;
            continue;
        }
        let first = *from.get_or_insert(at);
        if best.is_none_or(|(a, b)| at - first > b - a) {
            best = Some((first, at));
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(map: &[&str], share: f64) -> Option<Rectangle> {
        let cell = |letter| FindingCount {
            held: usize::from(letter == '#'),
            all: usize::from(letter != ' '),
            ..FindingCount::default()
        };
        let rows: Vec<Vec<_>> = map.iter().map(|row| row.chars().map(cell).collect()).collect();
        Rectangle::of(&rows, share)
    }

    #[test]
    fn the_largest_part_that_holds_throughout() {
        let map = ["....#", "..###", ".####", ".####"];
        let whole = Rectangle { along: (2, 3), across: (1, 4) };
        let tall = Rectangle { along: (1, 3), across: (2, 4) };
        assert_eq!(found(&map, 0.4), Some(tall));
        assert_eq!(found(&map[1..], 0.0), Some(Rectangle { along: (0, 2), ..tall }));
        assert_eq!(found(&map[2..], 0.0), Some(Rectangle { along: (0, 1), ..whole }));
        assert_eq!(found(&map, 0.5), None);
        // A part of one value says nothing of its axis.
        assert_eq!(found(&["###", "..."], 0.0), None);
        assert_eq!(found(&["# #", "# #"], 0.0), None);
    }
}
