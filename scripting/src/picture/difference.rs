//! Where two models disagree: two maps on the same axes, cell against cell.

use super::axes::PictureAxis;
use super::canvas::Canvas;
use super::colours::{self, Rgb};
use super::error::PictureError;
use super::font;
use super::grid::{Grid, GridPanel, WrittenMarks};
use super::kinds::CellKind;
use super::legend::{LegendEntry, Swatch};
use super::look::PictureLook;
use super::map::{self, MapPicture};
use super::shading::{CellLook, CellText, Texture};

/// The answers of two models for one bank.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DifferenceCell {
    /// The first model's answer.
    pub first: CellKind,
    /// The second model's answer.
    pub second: CellKind,
    /// Whether either of them carries a flag; a line parts flagged cells from the others.
    pub flagged: bool,
}

/// One panel of a picture of differences.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DifferencePanel {
    /// The conditions of the whole panel.
    pub caption: String,
    /// The cells, row after row; the first row is the first tick of y and lies at the bottom.
    pub cells: Vec<DifferenceCell>,
}

/// Where two models, or two rules, answer differently.
#[derive(Debug, Clone, PartialEq)]
pub struct DifferencePicture {
    /// Title: the two things compared.
    pub title: String,
    /// The conditions in words, one line each.
    pub subtitles: Vec<String>,
    /// The first one's name.
    pub first: String,
    /// The second one's name.
    pub second: String,
    /// The horizontal axis.
    pub x: PictureAxis,
    /// The vertical axis.
    pub y: PictureAxis,
    /// One to [`super::MOST_PANELS`] panels on the same axes.
    pub panels: Vec<DifferencePanel>,
    /// Words at the line between cells without a flag and flagged ones; empty for no line.
    pub flag_label: String,
    /// The meaning of a flag on a cell; used when a cell is flagged.
    pub flag_meaning: String,
    /// Footnotes.
    pub notes: Vec<String>,
    /// Its look.
    pub look: PictureLook,
}

/// The relation of two answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Relation {
    Same,
    OnlyFirstHolds,
    OnlySecondHolds,
    OtherMiss,
    Empty,
}

impl DifferencePicture {
    /// The difference of two maps, which are called `first` and `second` in the picture.
    ///
    /// # Errors
    /// Refuses maps whose ticks, number of panels or captions differ.
    pub fn between(
        title: &str,
        (first, first_map): (&str, &MapPicture),
        (second, second_map): (&str, &MapPicture),
    ) -> Result<Self, PictureError> {
        let unlike = |what| Err(PictureError::Unlike { what });
        if first_map.x != second_map.x {
            return unlike("x axis");
        }
        if first_map.y != second_map.y {
            return unlike("y axis");
        }
        if first_map.panels.len() != second_map.panels.len() {
            return unlike("number of panels");
        }
        let mut panels = Vec::new();
        for (left, right) in first_map.panels.iter().zip(&second_map.panels) {
            if left.caption != right.caption {
                return unlike("panel captions");
            }
            if left.cells.len() != right.cells.len() {
                return unlike("number of cells");
            }
            let cells = left.cells.iter().zip(&right.cells).map(|(a, b)| DifferenceCell {
                first: a.kind,
                second: b.kind,
                flagged: a.flagged || b.flagged,
            });
            panels.push(DifferencePanel { caption: left.caption.clone(), cells: cells.collect() });
        }
        Ok(Self {
            title: title.to_owned(),
            subtitles: first_map.subtitles.clone(),
            first: first.to_owned(),
            second: second.to_owned(),
            x: first_map.x.clone(),
            y: first_map.y.clone(),
            panels,
            flag_label: first_map.flag_label.clone(),
            flag_meaning: first_map.flag_meaning.clone(),
            notes: Vec::new(),
            look: first_map.look,
        })
    }

    /// The cells that differ, and all that were compared.
    pub fn differing(&self) -> (usize, usize) {
        let compared = self.cells().filter(|cell| relation(*cell) != Relation::Empty);
        compared.fold((0, 0), |(differ, all), cell| {
            (differ + usize::from(relation(cell) != Relation::Same), all + 1)
        })
    }

    pub(super) fn canvas(&self) -> Result<Canvas, PictureError> {
        map::check(self.panels.iter().map(|panel| panel.cells.len()))?;
        let panels = self
            .panels
            .iter()
            .map(|panel| GridPanel {
                caption: font::clean(&panel.caption),
                summary: summary(&panel.cells),
                looks: panel.cells.iter().copied().map(look).collect(),
                chances: Vec::new(),
            })
            .collect();
        let grid = Grid {
            title: &self.title,
            subtitles: &self.subtitles,
            x: &self.x,
            y: &self.y,
            panels,
            legend: self.legend(),
            flag: map::flag_entry(colours::AGREE, &self.flag_label, &self.flag_meaning),
            written: WrittenMarks::Others(self.letters()),
            footnotes: map::footnotes("", "", &self.notes),
            with_legend: self.look.legend,
            across: None,
        };
        Ok(grid.draw())
    }

    fn legend(&self) -> Vec<LegendEntry> {
        let (first, second) = self.names();
        let all = [
            (Relation::Same, "same answer", format!("{first} and {second} agree")),
            (
                Relation::OnlyFirstHolds,
                "holds in the first only",
                format!("holds with {first}, not with {second}"),
            ),
            (
                Relation::OnlySecondHolds,
                "holds in the second only",
                format!("holds with {second}, not with {first}"),
            ),
            (
                Relation::OtherMiss,
                "another miss",
                "neither holds, and they miss differently".to_owned(),
            ),
        ];
        let single = |(relation, term, phrase): (Relation, &str, String)| LegendEntry {
            swatch: Swatch::Single(CellLook {
                fill: fill(relation),
                texture: Texture::Plain,
                mark: CellText::Letter(""),
                flagged: false,
            }),
            term: term.to_owned(),
            phrase,
        };
        let drawn =
            |entry: &(Relation, &str, String)| self.cells().any(|cell| relation(cell) == entry.0);
        all.into_iter().filter(drawn).map(single).collect()
    }

    fn names(&self) -> (String, String) {
        let name = |text: &str, otherwise: &str| {
            let text = font::clean(text);
            if text.is_empty() { otherwise.to_owned() } else { text }
        };
        (name(&self.first, "the first"), name(&self.second, "the second"))
    }

    fn cells(&self) -> impl Iterator<Item = DifferenceCell> {
        self.panels.iter().flat_map(|panel| panel.cells.iter().copied())
    }

    /// The letters that occur where the answers differ.
    fn letters(&self) -> Option<LegendEntry> {
        let (first, second) = self.names();
        let differing: Vec<DifferenceCell> = self
            .cells()
            .filter(|cell| !matches!(relation(*cell), Relation::Same | Relation::Empty))
            .collect();
        let pair = *differing.first()?;
        let words: Vec<String> = CellKind::ALL
            .into_iter()
            .filter(|kind| differing.iter().any(|cell| cell.first == *kind || cell.second == *kind))
            .map(|kind| format!("{} {}", kind.letter(), kind.word()))
            .collect();
        Some(LegendEntry {
            swatch: Swatch::Single(look(pair)),
            term: "letters".to_owned(),
            phrase: format!("{first} before the dot, {second} after it: {}", words.join(", ")),
        })
    }
}

fn relation(cell: DifferenceCell) -> Relation {
    match (cell.first, cell.second) {
        (CellKind::Empty, _) | (_, CellKind::Empty) => Relation::Empty,
        (first, second) if first == second => Relation::Same,
        (CellKind::Holds, _) => Relation::OnlyFirstHolds,
        (_, CellKind::Holds) => Relation::OnlySecondHolds,
        _ => Relation::OtherMiss,
    }
}

const fn fill(relation: Relation) -> Rgb {
    match relation {
        Relation::Same => colours::AGREE,
        Relation::OnlyFirstHolds => colours::FIRST_ONLY,
        Relation::OnlySecondHolds => colours::SECOND_ONLY,
        Relation::OtherMiss => colours::DIFFERENT_MISS,
        Relation::Empty => colours::PAPER,
    }
}

fn look(cell: DifferenceCell) -> CellLook {
    let relation = relation(cell);
    let mark = match relation {
        Relation::Same | Relation::Empty => CellText::Letter(""),
        _ => CellText::Pair(cell.first.letter(), cell.second.letter()),
    };
    CellLook {
        fill: fill(relation),
        texture: if relation == Relation::Empty { Texture::Falling } else { Texture::Plain },
        mark,
        flagged: cell.flagged && relation != Relation::Empty,
    }
}

fn summary(cells: &[DifferenceCell]) -> String {
    let compared = cells.iter().filter(|cell| relation(**cell) != Relation::Empty).count();
    let same = cells.iter().filter(|cell| relation(**cell) == Relation::Same).count();
    if compared == 0 {
        "nothing to compare".to_owned()
    } else {
        format!("{} of {compared} differ", compared - same)
    }
}
