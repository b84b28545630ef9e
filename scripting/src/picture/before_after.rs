//! A map before a change, after it, and the difference: three panels side by side, in rows.

use super::axes::PictureAxis;
use super::canvas::Canvas;
use super::colours;
use super::error::PictureError;
use super::font;
use super::grid::{Grid, GridPanel, WrittenMarks};
use super::kinds::CellKind;
use super::legend::{LegendEntry, Swatch};
use super::look::PictureLook;
use super::map::{self, MapCell, MapPicture, Panel};
use super::shading::{CellLook, CellText, MissUnit, Shading, Texture};

/// Panels in a row: before, after, and the difference.
const IN_A_ROW: usize = 3;

/// The difference of one bank.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CellChange {
    /// There is no bank here.
    Nothing,
    /// None that counts.
    Same,
    /// The same verdict, and another miss.
    Moved,
    /// Another verdict, so near to an edge that it says little.
    AtEdge,
    /// Another verdict.
    Verdict,
    /// The bank is not there before.
    New,
    /// The bank is not there after.
    Gone,
}

/// One bank before and after.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeforeAfterCell {
    /// The bank before.
    pub before: MapCell,
    /// The bank after.
    pub after: MapCell,
    /// The difference.
    pub change: CellChange,
}

/// One row of panels.
#[derive(Debug, Clone, PartialEq)]
pub struct BeforeAfterPanels {
    /// The conditions of the row; empty for none.
    pub caption: String,
    /// The cells, row after row; the first row is the first tick of y and lies at the bottom.
    pub cells: Vec<BeforeAfterCell>,
}

/// A map before a change and after it.
#[derive(Debug, Clone, PartialEq)]
pub struct BeforeAfterPicture {
    /// Title: the finding.
    pub title: String,
    /// The conditions in words, one line each.
    pub subtitles: Vec<String>,
    /// The horizontal axis.
    pub x: PictureAxis,
    /// The vertical axis.
    pub y: PictureAxis,
    /// One to four rows of panels on the same axes.
    pub rows: Vec<BeforeAfterPanels>,
    /// Footnotes.
    pub notes: Vec<String>,
    /// Its look.
    pub look: PictureLook,
    /// The unit in which misses are shown.
    pub unit: MissUnit,
}

impl BeforeAfterPicture {
    /// The most rows of panels.
    pub const MOST_ROWS: usize = super::MOST_PANELS / IN_A_ROW;

    pub(super) fn canvas(&self) -> Result<Canvas, PictureError> {
        let counts: Vec<usize> =
            self.rows.iter().flat_map(|row| [row.cells.len(); IN_A_ROW]).collect();
        map::check(counts.into_iter())?;
        let maps = self.maps();
        let shading = Shading::for_misses(maps.misses_mm(), self.unit);
        let mut legend = maps.legend(&shading);
        legend.extend(self.legend());
        let panels = self.rows.iter().zip(maps.panels.chunks(2));
        let panels = panels.flat_map(|(row, maps)| {
            let map = |map: &Panel| GridPanel {
                caption: font::clean(&map.caption),
                summary: map::summary(&map.cells, false),
                looks: map.cells.iter().map(|cell| map::look(cell, &shading)).collect(),
                chances: Vec::new(),
            };
            let difference = GridPanel {
                caption: font::clean(&captioned("difference", &row.caption)),
                summary: summary(&row.cells),
                looks: row.cells.iter().map(look).collect(),
                chances: Vec::new(),
            };
            maps.iter().map(map).chain([difference]).collect::<Vec<_>>()
        });
        let grid = Grid {
            title: &self.title,
            subtitles: &self.subtitles,
            x: &self.x,
            y: &self.y,
            panels: panels.collect(),
            legend,
            flag: map::flag_entry(colours::HOLDS, "", ""),
            written: WrittenMarks::Misses(self.unit),
            footnotes: map::footnotes("", "", &self.notes),
            with_legend: self.look.legend,
            across: Some(IN_A_ROW),
        };
        Ok(grid.draw())
    }

    /// The panels of before and after as one map.
    fn maps(&self) -> MapPicture {
        let panel =
            |row: &BeforeAfterPanels, word: &str, of: fn(&BeforeAfterCell) -> MapCell| Panel {
                caption: captioned(word, &row.caption),
                cells: row.cells.iter().map(of).collect(),
            };
        let both = |row| [panel(row, "before", |it| it.before), panel(row, "after", |it| it.after)];
        MapPicture {
            title: String::new(),
            finding: String::new(),
            subtitles: Vec::new(),
            x: self.x.clone(),
            y: self.y.clone(),
            panels: self.rows.iter().flat_map(both).collect(),
            rule: String::new(),
            model: String::new(),
            flag_label: String::new(),
            flag_meaning: String::new(),
            notes: Vec::new(),
            chance_lines: false,
            look: self.look,
            unit: self.unit,
            shade_step: None,
        }
    }

    /// The legend of the differences that occur.
    fn legend(&self) -> Vec<LegendEntry> {
        let cells = || self.rows.iter().flat_map(|row| &row.cells);
        let mut seen = Vec::new();
        for one in [
            DifferenceKind::Same,
            DifferenceKind::HeldBefore,
            DifferenceKind::HoldsNow,
            DifferenceKind::OtherMiss,
            DifferenceKind::Moved,
            DifferenceKind::AtEdge,
            DifferenceKind::New,
            DifferenceKind::Gone,
        ] {
            if let Some(cell) = cells().find(|cell| DifferenceKind::of(cell) == one) {
                seen.push(LegendEntry {
                    swatch: Swatch::Single(look(cell)),
                    term: one.words().0.to_owned(),
                    phrase: one.words().1.to_owned(),
                });
            }
        }
        seen
    }
}

/// `before, 12 in off the rail`.
fn captioned(word: &str, caption: &str) -> String {
    if caption.is_empty() { word.to_owned() } else { format!("{word}, {caption}") }
}

/// The kinds that a panel of differences tells apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum DifferenceKind {
    Same,
    HeldBefore,
    HoldsNow,
    OtherMiss,
    Moved,
    AtEdge,
    New,
    Gone,
    Nothing,
}

impl DifferenceKind {
    fn of(cell: &BeforeAfterCell) -> Self {
        match cell.change {
            CellChange::Same => Self::Same,
            CellChange::Moved => Self::Moved,
            CellChange::AtEdge => Self::AtEdge,
            CellChange::New => Self::New,
            CellChange::Gone => Self::Gone,
            CellChange::Nothing => Self::Nothing,
            CellChange::Verdict if cell.before.kind == CellKind::Holds => Self::HeldBefore,
            CellChange::Verdict if cell.after.kind == CellKind::Holds => Self::HoldsNow,
            CellChange::Verdict => Self::OtherMiss,
        }
    }

    /// The term and its meaning.
    const fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Same => ("same", "the bank is as it was"),
            Self::HeldBefore => ("held before", "it held before and does not now"),
            Self::HoldsNow => ("holds now", "it did not hold before and does now"),
            Self::OtherMiss => {
                ("another miss", "it holds neither before nor now, and misses otherwise")
            }
            Self::Moved => ("moved", "the verdict is as it was, the miss is another"),
            Self::AtEdge => {
                ("at an edge", "another verdict, so near to an edge that it says little")
            }
            Self::New => ("new", "the bank was not there before"),
            Self::Gone => ("gone", "the bank is not there now"),
            Self::Nothing => ("", ""),
        }
    }
}

fn look(cell: &BeforeAfterCell) -> CellLook {
    let kind = DifferenceKind::of(cell);
    let (fill, texture) = match kind {
        DifferenceKind::Same | DifferenceKind::AtEdge => (colours::AGREE, Texture::Plain),
        DifferenceKind::HeldBefore => (colours::FIRST_ONLY, Texture::Plain),
        DifferenceKind::HoldsNow => (colours::SECOND_ONLY, Texture::Plain),
        DifferenceKind::OtherMiss => (colours::DIFFERENT_MISS, Texture::Plain),
        DifferenceKind::Moved => (colours::AGREE, Texture::Level),
        DifferenceKind::New => (colours::PAPER, Texture::Upright),
        DifferenceKind::Gone => (colours::PAPER, Texture::Crossed),
        DifferenceKind::Nothing => (colours::PAPER, Texture::Falling),
    };
    let mark = match kind {
        DifferenceKind::HeldBefore
        | DifferenceKind::HoldsNow
        | DifferenceKind::OtherMiss
        | DifferenceKind::AtEdge => {
            CellText::Pair(cell.before.kind.letter(), cell.after.kind.letter())
        }
        DifferenceKind::New => CellText::Letter("+"),
        DifferenceKind::Gone => CellText::Letter("–"),
        DifferenceKind::Same | DifferenceKind::Moved | DifferenceKind::Nothing => {
            CellText::Letter("")
        }
    };
    CellLook { fill, texture, mark, flagged: false }
}

/// `3 verdicts, 12 misses of 40`.
fn summary(cells: &[BeforeAfterCell]) -> String {
    let count = |wanted: CellChange| cells.iter().filter(|cell| cell.change == wanted).count();
    let told: Vec<String> = [
        (CellChange::Verdict, "changed"),
        (CellChange::Moved, "moved"),
        (CellChange::AtEdge, "at an edge"),
        (CellChange::New, "new"),
        (CellChange::Gone, "gone"),
    ]
    .into_iter()
    .filter(|(kind, _)| count(*kind) > 0)
    .map(|(kind, word)| format!("{} {word}", count(kind)))
    .collect();
    if told.is_empty() { "the same".to_owned() } else { told.join(", ") }
}
