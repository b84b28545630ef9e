//! The picture of a stored map, of this one, and of the difference.

use super::align::{RowChange, RowPair};
use super::compare::Differences;
use super::entries::Entry;
use crate::picture::{
    BeforeAfterCell, BeforeAfterPanels, BeforeAfterPicture, CellChange, CellKind, MOST_CELLS,
    MapCell, MissUnit, PictureAxis, PictureLook,
};
use crate::telling::{AxisText, capital, count};
use railproof_engine::sweep::{Axis, Input, Values};
use railproof_engine::units::{Dimension, plain};
use std::collections::{BTreeMap, BTreeSet};

/// Parameters that the picture names.
const MOST_PARAMETERS: usize = 4;
/// The rule's place among the inputs of a row.
const RULE: &str = "rule";

/// An input that varies, with its values in order.
struct PictureDimension {
    name: String,
    values: Vec<String>,
    text: AxisText,
}

impl PictureDimension {
    fn of(name: &str, values: BTreeSet<&str>, seen: &[&str], unit: MissUnit) -> Self {
        let input = Input::all().find(|input| input.column() == name);
        let mut numbers: Vec<(f64, &str)> =
            values.iter().filter_map(|value| Some((value.parse().ok()?, *value))).collect();
        if let Some(input) = input.filter(|_| numbers.len() == values.len()) {
            numbers.sort_by(|a, b| a.0.total_cmp(&b.0));
            let amounts = numbers.iter().map(|(number, _)| *number).collect();
            let values: Vec<String> =
                numbers.iter().map(|(_, value)| (*value).to_owned()).collect();
            let text = axis_text(input, amounts, unit);
            return Self { name: name.to_owned(), values, text: text.shortened() };
        }
        // Words stay as they came.
        let mut left = values;
        let values: Vec<String> =
            seen.iter().filter(|value| left.remove(**value)).map(|it| (*it).to_owned()).collect();
        let title = if name == RULE { "rule" } else { input.map_or("", Input::title) };
        let text = AxisText {
            input: input.unwrap_or(Input::Equipment),
            title,
            unit: "",
            ticks: values.clone(),
            amounts: Vec::new(),
            words: Vec::new(),
            mixed: false,
        };
        Self { name: name.to_owned(), values, text }
    }

    fn is_number(&self) -> bool {
        !self.text.amounts.is_empty()
    }

    fn axis(&self) -> PictureAxis {
        PictureAxis {
            title: self.text.title.to_owned(),
            unit: self.text.picture_unit(),
            ticks: self.text.ticks.clone(),
        }
    }
}

/// Numbers of an input, SI, in the units of the picture.
fn axis_text(input: Input, amounts: Vec<f64>, unit: MissUnit) -> AxisText {
    let is_length = input.parameter().is_some_and(|it| it.dimension == Dimension::Length);
    if is_length && unit == MissUnit::Inches {
        let words = vec![None; amounts.len()];
        let amounts = amounts.into_iter().map(|amount| 1e3 * amount / unit.mm()).collect();
        return AxisText::of_numbers(input, unit.symbol(), amounts, words);
    }
    AxisText::of(&Axis { input, values: Values::Numbers(amounts) })
}

/// The picture of what differs; nothing when nothing does, or when it is too much for one.
pub(super) fn picture(
    file: &str,
    differences: &Differences<'_>,
    within_mm: f64,
    unit: MissUnit,
) -> Option<BeforeAfterPicture> {
    let title = headline(file, differences, within_mm)?;
    let mut dimensions = dimensions(&differences.rows, unit);
    // The longest two that are numbers lie along the page.
    dimensions.sort_by_key(|it| (!it.is_number(), std::cmp::Reverse(it.values.len())));
    // Words have more room beside a map than under it.
    let is_words = matches!(dimensions.as_slice(), [only] if !only.is_number());
    let mut rest = dimensions.into_iter();
    let none = || PictureDimension::of("", BTreeSet::new(), &[], unit);
    let x = if is_words { none() } else { rest.next().unwrap_or_else(none) };
    let y = rest.next().unwrap_or_else(none);
    let rest: Vec<PictureDimension> = rest.collect();
    let (wide, high) = (x.values.len().max(1), y.values.len().max(1));
    if wide.saturating_mul(high) > MOST_CELLS / 3 {
        return None;
    }
    let place = |dimension: &PictureDimension| -> BTreeMap<String, usize> {
        dimension.values.iter().cloned().zip(0..).collect()
    };
    let (along_x, along_y) = (place(&x), place(&y));
    let mut panels: BTreeMap<Vec<usize>, Vec<BeforeAfterCell>> = BTreeMap::new();
    let along_rest: Vec<BTreeMap<String, usize>> = rest.iter().map(place).collect();
    for row in &differences.rows {
        let value = |name: &str| row.inputs.iter().find(|(known, _)| known == name);
        let at = |dimension: &PictureDimension, along: &BTreeMap<String, usize>| {
            value(&dimension.name).and_then(|(_, value)| along.get(value)).copied().unwrap_or(0)
        };
        let key: Vec<usize> =
            rest.iter().zip(&along_rest).map(|(it, along)| at(it, along)).collect();
        let places = panels.len();
        let cells = panels.entry(key).or_default();
        if cells.is_empty() {
            if (places + 1).saturating_mul(wide * high) > MOST_CELLS {
                return None;
            }
            cells.resize(wide * high, NOTHING);
        }
        let cell = &mut cells[at(&y, &along_y) * wide + at(&x, &along_x)];
        if cell.change == CellChange::Nothing {
            *cell = cell_of(row);
        }
    }
    let most = (MOST_CELLS / (3 * wide * high)).min(BeforeAfterPicture::MOST_ROWS);
    let (rows, left) = chosen(panels, &rest, most);
    // A row that is stored twice lies where the bank that it repeats is drawn.
    if rows.is_empty() {
        return None;
    }
    let words = differences.parameters.iter().take(MOST_PARAMETERS);
    let mut subtitles: Vec<String> = words.map(|it| capital(&it.words)).collect();
    if differences.parameters.len() > MOST_PARAMETERS {
        let more = differences.parameters.len() - MOST_PARAMETERS;
        subtitles.push(format!("And {more} more parameters moved"));
    }
    let mut notes = vec![
        "Letters in a cell of the difference, where there is room: before · after; H holds."
            .to_owned(),
        format!("Moved: by more than {} mm.", plain(within_mm)),
    ];
    if left > 0 {
        notes.push(format!("{left} more panels are not drawn; these changed most."));
    }
    let blank = |axis: PictureAxis| {
        let ticks = if axis.ticks.is_empty() { vec![String::new()] } else { axis.ticks };
        PictureAxis { ticks, ..axis }
    };
    let look = PictureLook::default();
    Some(BeforeAfterPicture {
        title,
        subtitles,
        x: blank(x.axis()),
        y: blank(y.axis()),
        rows,
        notes,
        look,
        unit,
    })
}

/// The finding in a sentence.
fn headline(file: &str, differences: &Differences<'_>, within_mm: f64) -> Option<String> {
    let verdicts = differences.count(|it| it == RowChange::Verdict);
    let moved = differences.count(|it| matches!(it, RowChange::Moved(_)));
    let edges = differences.count(|it| matches!(it, RowChange::AtEdge(_)));
    let new = differences.count(|it| it == RowChange::New);
    let gone = differences.count(|it| matches!(it, RowChange::Gone { .. }));
    let by = format!(" by more than {} mm", plain(within_mm));
    let told: Vec<String> = [
        (verdicts, "verdict changed", "verdicts changed", ""),
        (moved, "miss moved", "misses moved", &by),
        (edges, "verdict changed at an edge", "verdicts changed at an edge", ""),
        (new, "bank is new", "banks are new", ""),
        (gone, "bank is gone", "banks are gone", ""),
    ]
    .into_iter()
    .filter(|(number, ..)| *number > 0)
    .map(|(number, one, many, by)| format!("{}{by}", count(number as u64, one, many)))
    .collect();
    let of = differences.rows.len();
    (!told.is_empty()).then(|| format!("{file}: of {of} banks, {}.", told.join(", ")))
}

/// Inputs with more than one value, stored or now.
fn dimensions(rows: &[RowPair<'_>], unit: MissUnit) -> Vec<PictureDimension> {
    let mut values: BTreeMap<&str, (BTreeSet<&str>, Vec<&str>)> = BTreeMap::new();
    for row in rows {
        for (name, value) in &row.inputs {
            let (known, seen) = values.entry(name).or_default();
            if known.insert(value) {
                seen.push(value);
            }
        }
    }
    let varying = values.into_iter().filter(|(_, (known, _))| known.len() > 1);
    varying.map(|(name, (known, seen))| PictureDimension::of(name, known, &seen, unit)).collect()
}

/// The panels that changed most, in order, and the number of those that changed and are left.
fn chosen(
    panels: BTreeMap<Vec<usize>, Vec<BeforeAfterCell>>,
    rest: &[PictureDimension],
    most: usize,
) -> (Vec<BeforeAfterPanels>, usize) {
    let weight = |cells: &[BeforeAfterCell]| {
        let count = |wanted: fn(CellChange) -> bool| {
            cells.iter().filter(|cell| wanted(cell.change)).count()
        };
        (count(|it| it == CellChange::Verdict), count(|it| it > CellChange::Same))
    };
    let mut changed: Vec<(Vec<usize>, Vec<BeforeAfterCell>)> =
        panels.into_iter().filter(|(_, cells)| weight(cells).1 > 0).collect();
    changed.sort_by_key(|(_, cells)| std::cmp::Reverse(weight(cells)));
    let left = changed.len().saturating_sub(most);
    changed.truncate(most);
    changed.sort_by(|a, b| a.0.cmp(&b.0));
    let caption = |at: &[usize]| {
        let said = rest.iter().zip(at).map(|(dimension, at)| match dimension.name.as_str() {
            RULE => dimension.values[*at].clone(),
            _ => dimension.text.say(*at),
        });
        said.collect::<Vec<_>>().join(", ")
    };
    let rows =
        changed.into_iter().map(|(at, cells)| BeforeAfterPanels { caption: caption(&at), cells });
    (rows.collect(), left)
}

const EMPTY: MapCell =
    MapCell { kind: CellKind::Empty, miss_mm: None, chance: None, flagged: false };
const NOTHING: BeforeAfterCell =
    BeforeAfterCell { before: EMPTY, after: EMPTY, change: CellChange::Nothing };

fn cell_of(row: &RowPair<'_>) -> BeforeAfterCell {
    let change = match row.change {
        RowChange::Same => CellChange::Same,
        RowChange::Moved(_) => CellChange::Moved,
        RowChange::AtEdge(_) => CellChange::AtEdge,
        RowChange::Verdict => CellChange::Verdict,
        RowChange::New => CellChange::New,
        RowChange::Gone { .. } => CellChange::Gone,
    };
    let cell = |entry: Option<&Entry>| entry.map_or(EMPTY, map_cell);
    BeforeAfterCell { before: cell(row.before), after: cell(row.after), change }
}

fn map_cell(entry: &Entry) -> MapCell {
    let kind = CellKind::from(entry.verdict);
    MapCell { kind, miss_mm: entry.miss_mm, chance: None, flagged: false }
}
