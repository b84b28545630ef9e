//! Joins equal neighbouring cells into rectangles, so that a large map stays a small file.

use std::ops::Range;

/// A rectangle of cells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Block {
    pub(super) columns: Range<usize>,
    pub(super) rows: Range<usize>,
}

/// Rectangles that together cover each cell with a key exactly once; cells without one stay
/// uncovered. Runs of equal keys in a row are joined with equal runs in the rows above.
pub(super) fn blocks<K: PartialEq + Copy>(
    columns: usize,
    rows: usize,
    key: impl Fn(usize, usize) -> Option<K>,
) -> Vec<(Block, K)> {
    let mut done: Vec<(Block, K)> = Vec::new();
    let mut open: Vec<(Block, K)> = Vec::new();
    for row in 0..rows {
        let mut next: Vec<(Block, K)> = Vec::new();
        let mut column = 0;
        let mut candidates = open.into_iter().peekable();
        while column < columns {
            let here = key(column, row);
            let start = column;
            while column < columns && key(column, row) == here {
                column += 1;
            }
            let Some(here) = here else { continue };
            while let Some(left) = candidates.next_if(|(block, _)| block.columns.start < start) {
                done.push(left);
            }
            let grown =
                candidates.next_if(|(block, k)| block.columns == (start..column) && *k == here);
            next.push(match grown {
                Some((block, k)) => (Block { rows: block.rows.start..row + 1, ..block }, k),
                None => (Block { columns: start..column, rows: row..row + 1 }, here),
            });
        }
        done.extend(candidates);
        open = next;
    }
    done.extend(open);
    done
}

#[cfg(test)]
mod tests {
    use super::*;

    fn covered(columns: usize, rows: usize, grid: &[u8]) -> Vec<(Block, u8)> {
        let found = blocks(columns, rows, |c, r| Some(grid[r * columns + c]).filter(|k| *k != 0));
        let mut seen = vec![0_u8; grid.len()];
        for (block, key) in &found {
            for row in block.rows.clone() {
                for column in block.columns.clone() {
                    assert_eq!(seen[row * columns + column], 0, "covered twice");
                    seen[row * columns + column] = *key;
                }
            }
        }
        assert_eq!(seen, grid);
        found
    }

    #[test]
    fn each_cell_is_covered_once_with_its_own_key() {
        // A fixed generator of small numbers: many shapes, always the same.
        let mut state = 7_u32;
        for size in 1..40 {
            let (columns, rows) = (1 + size % 7, 1 + size % 5);
            let grid: Vec<u8> = (0..columns * rows)
                .map(|_| {
                    state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                    u8::try_from((state >> 24) % 3).unwrap()
                })
                .collect();
            covered(columns, rows, &grid);
        }
    }

    #[test]
    fn a_plain_area_is_one_rectangle() {
        assert_eq!(covered(50, 20, &[3; 1000]).len(), 1);
        let halves: Vec<u8> = (0..1000).map(|i| if i % 50 < 20 { 1 } else { 2 }).collect();
        assert_eq!(covered(50, 20, &halves).len(), 2);
    }
}
