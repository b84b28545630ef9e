//! Places of a map's panels, and the size of a cell.

use super::font;
use super::page::TICK;

/// Room for the panels of a picture.
const MAIN_WIDTH: f64 = 980.0;
const MAIN_HEIGHT: f64 = 600.0;
/// Panels that must be higher than the room are still arranged within this.
const MOST_HEIGHT: f64 = 800.0;
/// A panel keeps this much, or its caption and ticks would not fit.
const LEAST_PANEL: (f64, f64) = (120.0, 90.0);
const LARGEST_CELL: (f64, f64) = (76.0, 52.0);
/// Height of a panel's caption with the summary under it.
const CAPTION_HEIGHT: f64 = 42.0;
/// Height of the ticks under a panel.
const TICKS_HEIGHT: f64 = 24.0;
const BETWEEN: (f64, f64) = (28.0, 14.0);
/// A caption may reach this far into the gap beside its panel.
const CAPTION_OVERHANG: f64 = BETWEEN.0 - 20.0;
/// Width of the turned title of the y axis.
const Y_TITLE: f64 = 26.0;
const MOST_LABEL_WIDTH: f64 = 170.0;

/// Places and sizes for one map, measured from the body's upper left corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct PanelLayout {
    pub(super) cell: (f64, f64),
    pub(super) panel: (f64, f64),
    pub(super) panel_columns: usize,
    pub(super) panel_rows: usize,
    /// Width taken by the ticks of the y axis.
    pub(super) y_ticks: f64,
    /// Width kept for a panel: its cells or, if wider and there is room, its caption.
    slot: f64,
}

impl PanelLayout {
    /// The arrangement that gives the largest cells. `word` is the width of the widest tick of x
    /// when those are words, of which none may be left out; `caption` that of the widest caption.
    /// So many panels stand side by side as are asked for, or as fit best.
    pub(super) fn new(
        (panels, asked): (usize, Option<usize>),
        (columns, rows): (usize, usize),
        y_tick_width: f64,
        (word, caption): (f64, f64),
    ) -> Self {
        let y_ticks = y_tick_width.min(MOST_LABEL_WIDTH) + 10.0;
        let arranged =
            |across| Self::with_columns(across, panels, (columns, rows), y_ticks, (word, caption));
        if let Some(across) = asked {
            // Words of which none may be left out stand under each other's panels, or not at all.
            let layout = arranged(across);
            return if layout.cell.0 >= word { layout } else { arranged(1) };
        }
        (1..=panels.clamp(1, 4))
            .map(arranged)
            .filter(|layout| layout.height() <= MOST_HEIGHT)
            .max_by(|a, b| a.merit(panels).total_cmp(&b.merit(panels)))
            .unwrap_or_else(|| arranged(4))
    }

    fn with_columns(
        across: usize,
        panels: usize,
        (nx, ny): (usize, usize),
        y_ticks: f64,
        (word, caption): (f64, f64),
    ) -> Self {
        let down = panels.div_ceil(across);
        let (nx, ny) = (nx as f64, ny as f64);
        let wide = (MAIN_WIDTH - Y_TITLE - y_ticks + BETWEEN.0) / across as f64 - BETWEEN.0;
        let high =
            (MAIN_HEIGHT + BETWEEN.1) / down as f64 - BETWEEN.1 - CAPTION_HEIGHT - TICKS_HEIGHT;
        let high = high.max(LEAST_PANEL.1);
        let mut width = (wide / nx).min(LARGEST_CELL.0.max(word));
        let height = (high / ny).min(LARGEST_CELL.1).min((1.6 * width).max(LEAST_PANEL.1 / ny));
        width = width.min((2.2 * height).max(LEAST_PANEL.0 / nx).max(word));
        let panel = (width * nx, height * ny);
        Self {
            cell: (width, height),
            panel,
            panel_columns: across,
            panel_rows: down,
            y_ticks,
            slot: panel.0.max(LEAST_PANEL.0).max((caption - CAPTION_OVERHANG).min(wide)),
        }
    }

    fn merit(&self, panels: usize) -> f64 {
        let filled = panels as f64 / (self.panel_columns * self.panel_rows) as f64;
        // Cells that are too small to write in are worth less than their area.
        let (w, h) = self.cell;
        w * h * filled * (w.min(h) / 14.0).clamp(0.2, 1.0)
    }

    /// Upper left corner of a panel's cells.
    pub(super) fn corner(&self, panel: usize) -> (f64, f64) {
        let (across, down) = (panel % self.panel_columns, panel / self.panel_columns);
        let pitch =
            (self.slot + BETWEEN.0, self.panel.1 + CAPTION_HEIGHT + TICKS_HEIGHT + BETWEEN.1);
        (Y_TITLE + self.y_ticks + across as f64 * pitch.0, CAPTION_HEIGHT + down as f64 * pitch.1)
    }

    /// Width of a panel's caption.
    pub(super) fn caption_width(&self) -> f64 {
        self.slot + CAPTION_OVERHANG
    }

    /// Width of all panels with their y axis.
    pub(super) fn width(&self) -> f64 {
        self.corner(self.panel_columns - 1).0 + self.slot
    }

    /// Height from the first panel's cells to the last one's.
    pub(super) fn cells_height(&self) -> f64 {
        self.height() - TICKS_HEIGHT - CAPTION_HEIGHT
    }

    /// Height of all panels with their ticks.
    pub(super) fn height(&self) -> f64 {
        self.corner(self.panel_columns * (self.panel_rows - 1)).1 + self.panel.1 + TICKS_HEIGHT
    }
}

/// The number of ticks from label to label, so that labels of `label` length on a pitch of
/// `pitch` keep apart; every 1, 2, 4, 5, 10, 20, 25 and so on.
pub(super) fn label_every(pitch: f64, label: f64, ticks: usize) -> usize {
    let mut decade = 1_usize;
    loop {
        for factor in [1.0, 2.0, 2.5, 4.0, 5.0] {
            let every = factor * decade as f64;
            if every.fract() == 0.0 && every * pitch >= label {
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "whole, positive and at most fifty times the ticks"
                )]
                return every as usize;
            }
        }
        if decade >= ticks {
            return ticks.max(1);
        }
        decade *= 10;
    }
}

/// The labels of an axis, cut to a sensible length, and the width of the longest.
pub(super) fn labels(ticks: &[String]) -> (Vec<String>, f64) {
    let labels: Vec<String> = ticks
        .iter()
        .map(|tick| font::fit(&font::clean(tick), TICK.em, TICK.weight, MOST_LABEL_WIDTH))
        .collect();
    let widest =
        labels.iter().map(|label| font::width(label, TICK.em, TICK.weight)).fold(0.0, f64::max);
    (labels, widest)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_are_thinned_until_they_keep_apart() {
        assert_eq!(label_every(40.0, 30.0, 20), 1);
        assert_eq!(label_every(16.0, 30.0, 20), 2);
        assert_eq!(label_every(1.8, 40.0, 500), 25);
        assert_eq!(label_every(0.001, 40.0, 500), 500);
    }

    #[test]
    fn a_caption_wider_than_its_cells_gets_the_room_there_is() {
        let narrow = PanelLayout::new((5, None), (3, 10), 30.0, (0.0, 0.0));
        assert!(narrow.caption_width() < 250.0, "{narrow:?}");
        let wide = PanelLayout::new((5, None), (3, 10), 30.0, (0.0, 250.0));
        assert!(wide.caption_width() >= 250.0, "{wide:?}");
        assert!(wide.width() <= MAIN_WIDTH + 40.0, "{wide:?}");
    }

    #[test]
    fn ticks_that_are_words_all_find_room() {
        let layout = PanelLayout::new((2, None), (3, 3), 30.0, (110.0, 0.0));
        assert!(layout.cell.0 >= 110.0, "{layout:?}");
        assert!(layout.width() <= MAIN_WIDTH + 40.0, "{layout:?}");
    }

    #[test]
    fn panels_do_not_overlap_and_stay_in_the_room() {
        for panels in 1..=12 {
            for (columns, rows) in [(1, 1), (9, 6), (17, 10), (500, 200), (1, 40), (2000, 1)] {
                let caption = 60.0 * (panels % 7) as f64;
                let layout = PanelLayout::new(
                    (panels, None),
                    (columns, rows),
                    30.0,
                    (0.5 * caption, caption),
                );
                assert!(layout.width() <= MAIN_WIDTH + 40.0, "{panels} {columns} {layout:?}");
                assert!(layout.height() <= MOST_HEIGHT, "{panels} {columns} {layout:?}");
                for a in 0..panels {
                    for b in 0..a {
                        let (p, q) = (layout.corner(a), layout.corner(b));
                        let apart_x = (p.0 - q.0).abs() >= layout.panel.0 + 10.0;
                        let apart_y =
                            (p.1 - q.1).abs() >= layout.panel.1 + CAPTION_HEIGHT + TICKS_HEIGHT;
                        assert!(apart_x || apart_y, "{panels} {columns} {rows}: {a} and {b}");
                    }
                }
            }
        }
    }
}
