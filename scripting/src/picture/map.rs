//! A map of banks: the outcome of each, over two axes, in one or several panels.

use super::axes::PictureAxis;
use super::canvas::Canvas;
use super::colours::{self, Rgb};
use super::error::PictureError;
use super::font;
use super::grid::{Grid, GridPanel, WrittenMarks};
use super::kinds::CellKind;
use super::legend::{LegendEntry, Swatch};
use super::level_lines::ChanceField;
use super::look::PictureLook;
use super::shading::{CellLook, CellText, MissUnit, Shading, Texture, micrometres};

/// The most cells that a map may have, all panels together. Above it the steps lie closer than
/// a page can show, and an SVG would grow past some tens of megabytes.
pub const MOST_CELLS: usize = 200_000;

/// The most panels that a map may have.
pub const MOST_PANELS: usize = 12;

/// One cell of a map.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MapCell {
    /// The outcome of the bank.
    pub kind: CellKind,
    /// The distance of the path from the middle of the pocket's mouth, mm; its sign is not used.
    pub miss_mm: Option<f64>,
    /// A player's chance, which is written in the cell in hundredths.
    pub chance: Option<f64>,
    /// Whether the bank carries a flag; a line parts flagged cells from the others.
    pub flagged: bool,
}

/// One panel of a map.
#[derive(Debug, Clone, PartialEq)]
pub struct Panel {
    /// The conditions of the whole panel, such as `12 in off the rail`.
    pub caption: String,
    /// The cells, row after row; the first row is the first tick of y and lies at the bottom.
    pub cells: Vec<MapCell>,
}

/// A map of banks as a picture.
#[derive(Debug, Clone, PartialEq)]
pub struct MapPicture {
    /// Title of the map.
    pub title: String,
    /// The results in a sentence, whatever the title says; empty for none.
    pub finding: String,
    /// The conditions in words, one line each.
    pub subtitles: Vec<String>,
    /// The horizontal axis.
    pub x: PictureAxis,
    /// The vertical axis.
    pub y: PictureAxis,
    /// One to [`MOST_PANELS`] panels on the same axes.
    pub panels: Vec<Panel>,
    /// The rule that aimed the banks; empty if none is to be named.
    pub rule: String,
    /// The model that computed them; empty if none is to be named.
    pub model: String,
    /// Words at the line between cells without a flag and flagged ones; empty for no line.
    pub flag_label: String,
    /// The meaning of a flag on a cell; used when a cell is flagged.
    pub flag_meaning: String,
    /// Further footnotes.
    pub notes: Vec<String>,
    /// Whether lines of equal chance run between the cells: both axes must be numbers in order.
    pub chance_lines: bool,
    /// Its look.
    pub look: PictureLook,
    /// The unit in which misses are shown.
    pub unit: MissUnit,
    /// Step of the shades in that unit, where several maps share one scale; by its own misses otherwise.
    pub shade_step: Option<f64>,
}

impl MapPicture {
    pub(super) fn canvas(&self) -> Result<Canvas, PictureError> {
        check(self.panels.iter().map(|panel| panel.cells.len()))?;
        let shading = match self.shade_step {
            Some(step) => Shading::of_step(step, self.unit),
            None => Shading::for_misses(self.misses_mm(), self.unit),
        };
        let panels = self
            .panels
            .iter()
            .map(|panel| GridPanel {
                caption: font::clean(&panel.caption),
                summary: summary(&panel.cells, self.is_of_shots()),
                looks: panel.cells.iter().map(|cell| look(cell, &shading)).collect(),
                chances: self.chances(panel),
            })
            .collect();
        let grid = Grid {
            title: &self.title,
            subtitles: &self.subtitles,
            x: &self.x,
            y: &self.y,
            panels,
            legend: self.legend(&shading),
            flag: flag_entry(colours::HOLDS, &self.flag_label, &self.flag_meaning),
            written: WrittenMarks::Misses(self.unit),
            footnotes: footnotes(&self.rule, &self.model, &self.notes),
            with_legend: self.look.legend,
            across: None,
        };
        Ok(grid.draw())
    }

    /// The chances between which lines are drawn; none for other maps.
    fn chances(&self, panel: &Panel) -> Vec<Option<f64>> {
        if !self.chance_lines {
            return Vec::new();
        }
        let known = |cell: &MapCell| cell.chance.filter(|_| cell.kind.is_of_chance());
        panel.cells.iter().map(known).collect()
    }

    pub(super) fn misses_mm(&self) -> impl Iterator<Item = f64> {
        let cells = self.panels.iter().flat_map(|panel| &panel.cells);
        cells.filter(|cell| misses(cell.kind)).filter_map(|cell| cell.miss_mm)
    }

    /// Puts several maps on one scale of misses, in one unit.
    pub fn share_scale(maps: &mut [&mut Self], unit: MissUnit) {
        let step = Shading::for_misses(maps.iter().flat_map(|map| map.misses_mm()), unit).step();
        for map in maps {
            (map.shade_step, map.unit) = (step, unit);
        }
    }

    fn has(&self, wanted: impl Fn(&MapCell) -> bool) -> bool {
        self.panels.iter().any(|panel| panel.cells.iter().any(&wanted))
    }

    /// True when a cell shows what only a whole shot can come to.
    pub(super) fn is_of_shots(&self) -> bool {
        self.has(|cell| cell.kind.is_of_shot())
    }

    pub(super) fn legend(&self, shading: &Shading) -> Vec<LegendEntry> {
        let drawn = |kind: &CellKind| self.has(|cell| cell.kind == *kind);
        let mut kinds: Vec<CellKind> = CellKind::ALL.into_iter().filter(drawn).collect();
        kinds.sort_by_key(|kind| !kind.is_success());
        let mut entries: Vec<LegendEntry> =
            kinds.into_iter().map(|kind| entry(kind, shading)).collect();
        let columns = self.x.ticks.len();
        let lined =
            |panel: &Panel| ChanceField { chances: &self.chances(panel), columns }.is_lined();
        if self.panels.iter().any(lined) {
            entries.push(lines_entry());
        }
        entries
    }
}

/// Refuses more than a picture holds: `cells` counts those of each panel.
pub(super) fn check(cells: impl ExactSizeIterator<Item = usize>) -> Result<(), PictureError> {
    if !(1..=MOST_PANELS).contains(&cells.len()) {
        return Err(PictureError::Panels { panels: cells.len(), most: MOST_PANELS });
    }
    let cells: usize = cells.sum();
    if cells > MOST_CELLS {
        return Err(PictureError::TooManyCells { cells, most: MOST_CELLS });
    }
    Ok(())
}

/// The footnotes under a map: rule and model first.
pub(super) fn footnotes(rule: &str, model: &str, notes: &[String]) -> Vec<String> {
    let mut lines = Vec::new();
    for (word, value) in [("Rule", font::clean(rule)), ("Model", font::clean(model))] {
        if !value.is_empty() {
            lines.push(format!("{word}: {value}"));
        }
    }
    lines.extend(notes.iter().map(|note| font::clean(note)).filter(|note| !note.is_empty()));
    lines
}

/// The number of banks that hold, or of shots that drop, in words.
pub(super) fn summary(cells: &[MapCell], of_shots: bool) -> String {
    let banks = cells.iter().filter(|cell| cell.kind != CellKind::Empty).count();
    let good = cells.iter().filter(|cell| cell.kind.is_success()).count();
    let verb = if of_shots {
        "drop"
    } else if cells.iter().any(|cell| cell.kind.is_of_tables()) {
        "are sure to hold"
    } else if cells.iter().any(|cell| cell.kind.is_of_chance()) {
        "are made half the time or more often"
    } else {
        "hold"
    };
    if cells.iter().any(|cell| cell.kind.is_of_choice()) {
        let counted = |kind: CellKind| cells.iter().filter(|cell| cell.kind == kind).count();
        let (bank, cut) = (counted(CellKind::BankIsBetter), counted(CellKind::CutIsBetter));
        return format!("of {banks} places: bank {bank}, cut {cut}");
    }
    let flagged = cells.iter().filter(|cell| cell.flagged).count();
    let sure = if banks > 0 && flagged == banks { ", all less sure" } else { "" };
    if banks == 0 { "no banks".to_owned() } else { format!("{good} of {banks} {verb}{sure}") }
}

/// Whether a kind's shade deepens with the miss.
const fn misses(kind: CellKind) -> bool {
    matches!(kind, CellKind::Long | CellKind::Short)
}

/// The letter drawn in a cell; none where the ball is where it was meant to go, whose shade says it
/// all.
const fn drawn_letter(kind: CellKind) -> &'static str {
    match kind {
        CellKind::DropsOffJaw => kind.letter(),
        // Paper beside the two that matter.
        CellKind::SureToMiss => "",
        // The number in the cell says it, or else the shade alone.
        _ if kind.is_of_chance() => "",
        _ if kind.is_success() => "",
        _ => kind.letter(),
    }
}

pub(super) fn look(cell: &MapCell, shading: &Shading) -> CellLook {
    let letter = drawn_letter(cell.kind);
    let miss = cell.miss_mm.filter(|miss| misses(cell.kind) && miss.is_finite());
    let (fill, texture) = shade(cell.kind, shading.step_of(miss));
    let mark = match (cell.chance, miss) {
        (Some(chance), _) => CellText::Hundredths(letter, hundredths(chance)),
        (None, Some(miss)) => CellText::Miss(letter, micrometres(miss), shading.unit()),
        (None, None) => CellText::Letter(letter),
    };
    CellLook { fill, texture, mark, flagged: cell.flagged && cell.kind != CellKind::Empty }
}

/// A chance in whole hundredths.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to 100")]
pub fn hundredths(chance: f64) -> u8 {
    (100.0 * chance.clamp(0.0, 1.0)).round() as u8
}

/// Shade and texture of a kind; `step` deepens the shade of a miss.
const fn shade(kind: CellKind, step: usize) -> (Rgb, Texture) {
    match kind {
        CellKind::Holds | CellKind::Drops | CellKind::SureToHold => {
            (colours::HOLDS, Texture::Plain)
        }
        CellKind::Depends => (colours::DEPENDS, Texture::Plain),
        CellKind::SureToMiss => (colours::SURE_TO_MISS, Texture::Plain),
        CellKind::NineInTen => (colours::CHANCES[0], Texture::Plain),
        CellKind::ThreeInFour => (colours::CHANCES[1], Texture::Plain),
        CellKind::OneInTwo => (colours::CHANCES[2], Texture::Plain),
        CellKind::OneInFour => (colours::CHANCES[3], Texture::Plain),
        CellKind::Rarely => (colours::CHANCES[4], Texture::Plain),
        CellKind::BankIsBetter => (colours::BANK_IS_BETTER, Texture::Plain),
        CellKind::CutIsBetter => (colours::CUT_IS_BETTER, Texture::Plain),
        CellKind::CantBeTold => (colours::CANT_BE_TOLD, Texture::Plain),
        CellKind::NeitherIsMade => (colours::NO_VERDICT_LIGHT, Texture::Falling),
        CellKind::TouchesPoint | CellKind::DropsOffJaw => (colours::TOUCHES, Texture::Plain),
        CellKind::NotReached => (colours::NO_VERDICT_LIGHT, Texture::Level),
        CellKind::Kisses => (colours::NO_VERDICT_DARK, Texture::LevelDense),
        CellKind::RattlesOut | CellKind::Aside => (colours::NO_VERDICT_LIGHT, Texture::Upright),
        CellKind::OtherPocket => (colours::NO_VERDICT_LIGHT, Texture::Crossed),
        CellKind::Scratches => (colours::NO_VERDICT_DARK, Texture::Crossed),
        CellKind::NoShot => (colours::NO_VERDICT_LIGHT, Texture::Falling),
        CellKind::Long => (colours::LONG[step], Texture::Plain),
        CellKind::Short => (colours::SHORT[step], Texture::Plain),
        CellKind::StoppedBeforeMouth => (colours::NO_VERDICT_LIGHT, Texture::Level),
        CellKind::StoppedBeforeRail => (colours::NO_VERDICT_DARK, Texture::LevelDense),
        CellKind::OtherRail => (colours::NO_VERDICT_LIGHT, Texture::Upright),
        CellKind::NoRoom => (colours::NO_VERDICT_DARK, Texture::Crossed),
        CellKind::Empty => (colours::PAPER, Texture::Falling),
    }
}

fn entry(kind: CellKind, shading: &Shading) -> LegendEntry {
    let swatch = if misses(kind) {
        let fills = (0..colours::STEPS).map(|step| shade(kind, step).0).collect();
        let (edges, unit) = (shading.edges(), shading.unit());
        Swatch::Ramp { fills, letter: drawn_letter(kind), edges, unit }
    } else {
        let (fill, texture) = shade(kind, 0);
        Swatch::Single(CellLook {
            fill,
            texture,
            mark: CellText::Letter(drawn_letter(kind)),
            flagged: false,
        })
    };
    LegendEntry { swatch, term: kind.word().to_owned(), phrase: kind.phrase().to_owned() }
}

/// The legend's line about lines of equal chance.
fn lines_entry() -> LegendEntry {
    LegendEntry {
        swatch: Swatch::ChanceLines,
        term: "lines: 25, 50, 75, 90 of a hundred".to_owned(),
        phrase: "where the chance passes these, between the middles of cells; 50 is the heaviest"
            .to_owned(),
    }
}

/// The legend's line about flags.
pub(super) fn flag_entry(fill: Rgb, label: &str, meaning: &str) -> LegendEntry {
    let meaning = font::clean(meaning);
    let phrase = if meaning.is_empty() { "this bank carries a flag".to_owned() } else { meaning };
    LegendEntry {
        swatch: Swatch::Single(CellLook {
            fill,
            texture: Texture::Plain,
            mark: CellText::Letter(""),
            flagged: true,
        }),
        term: font::clean(label),
        phrase,
    }
}
