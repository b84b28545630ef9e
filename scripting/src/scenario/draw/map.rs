//! Maps: the outcomes of results over two axes.

use super::PictureAxes;
use super::lines::less_sure_part;
use super::look::{headline, picture_look};
use crate::fault::Fault;
use crate::lua::options::Options;
use crate::picture::{
    CellKind, MOST_CELLS, MOST_PANELS, MapCell, MapPicture, MissUnit, Panel, PictureAxis,
    PictureError, PictureLook, true_minus,
};
use crate::telling::caution::FLAGGED;
use crate::telling::{FindingAcross, FindingCount, FindingGroup, finding};

/// The axes along, up and into panels.
#[derive(Debug, Clone, Copy)]
pub struct MapLayout {
    pub x: usize,
    pub y: usize,
    pub panels: Option<usize>,
}

impl MapLayout {
    pub fn read(options: &Options, axes: &PictureAxes) -> Result<Self, Fault> {
        let x = axes.required(options, "x")?;
        let y = axes.required(options, "y")?;
        let panels = axes.axis(options, "panels")?;
        let mut shown = vec![("x", x), ("y", y)];
        shown.extend(panels.map(|panels| ("panels", panels)));
        PictureAxes::apart(options, &shown)?;
        Ok(Self { x, y, panels })
    }

    pub fn shown(&self) -> Vec<usize> {
        [Some(self.x), Some(self.y), self.panels].into_iter().flatten().collect()
    }
}

/// The words around a map.
pub struct MapWords {
    /// The question that the map answers.
    pub asked: String,
    /// What was found, where it isn't where banks hold.
    pub found: Option<String>,
    pub subtitles: Vec<String>,
    pub rule: String,
    pub model: String,
    pub notes: Vec<String>,
}

/// The picture of results, whose every varying axis must be in the layout.
pub fn map_picture(
    options: &Options,
    axes: &PictureAxes,
    layout: &MapLayout,
    words: MapWords,
    cell: &dyn Fn(usize) -> Option<MapCell>,
) -> Result<MapPicture, Fault> {
    axes.nothing_left(options, &layout.shown(), "`x`, `y` or `panels`")?;
    if axes.count() > MOST_CELLS {
        let error = PictureError::TooManyCells { cells: axes.count(), most: MOST_CELLS };
        return Err(options.complain_of_call(error.to_string()));
    }
    let panels = layout.panels.map_or(1, |panels| axes.count_along(panels));
    if panels > MOST_PANELS {
        let error = PictureError::Panels { panels, most: MOST_PANELS };
        return Err(options.complain("panels", error.to_string()));
    }
    let panel = |place: usize| Panel {
        caption: layout.panels.map_or_else(String::new, |at| axes.axes[at].labels[place].clone()),
        cells: cells(axes, layout, place, cell),
    };
    let panels: Vec<Panel> = (0..panels).map(panel).collect();
    let MapWords { asked, found, subtitles, rule, model, notes } = words;
    let found = found.unwrap_or_else(|| true_minus(&map_finding(axes, layout, &panels)));
    let (title, mut subtitles) = headline(options, &found, asked, subtitles)?;
    // A line across one speed has no room for words.
    let one_speed = [layout.x, layout.y]
        .into_iter()
        .any(|at| axes.count_along(at) == 1 && is_speed(&axes.axes[at].name));
    if one_speed {
        subtitles.extend(less_sure(&panels));
    }
    Ok(MapPicture {
        title,
        finding: found,
        subtitles,
        x: picture_axis(axes, layout.x),
        y: picture_axis(axes, layout.y),
        panels,
        rule,
        model,
        flag_label: if one_speed {
            String::new()
        } else {
            flag_label([layout.x, layout.y].map(|at| axes.axes[at].name.as_str()))
        },
        flag_meaning: FLAGGED.to_owned(),
        notes,
        chance_lines: [layout.x, layout.y].into_iter().all(|at| is_ordered(&axes.axes[at].amounts)),
        look: picture_look(options, PictureLook::default())?,
        unit: MissUnit::default(),
        shade_step: None,
    })
}

/// Whether amounts grow all along, or fall: between others nothing can be interpolated.
fn is_ordered(amounts: &[f64]) -> bool {
    let steps = || amounts.windows(2).map(|pair| pair[1] - pair[0]);
    amounts.len() > 1 && (steps().all(|step| step > 0.0) || steps().all(|step| step < 0.0))
}

/// Words at the line past which the model is less sure.
pub fn flag_label(shown: [&str; 2]) -> String {
    let by_speed = shown.iter().any(|name| is_speed(name));
    let label = if by_speed { "harder than here: less sure" } else { "on this side: less sure" };
    label.to_owned()
}

/// Words where some cells of a panel are flagged beside others that are not.
fn less_sure(panels: &[Panel]) -> Option<String> {
    let known = |panel: &Panel| panel.cells.iter().filter(|it| it.kind != CellKind::Empty).count();
    let flagged = |panel: &Panel| panel.cells.iter().filter(|it| it.flagged).count();
    let parted = |panel: &Panel| (1..known(panel)).contains(&flagged(panel));
    panels
        .iter()
        .any(parted)
        .then(|| less_sure_part(panels.iter().map(flagged).sum(), panels.iter().map(known).sum()))
}

/// Whether an axis is the speed, in whatever unit.
pub fn is_speed(name: &str) -> bool {
    matches!(name, "speed" | "lag")
}

/// The finding of a map: along the speed if several are shown, or else along x.
fn map_finding(axes: &PictureAxes, layout: &MapLayout, panels: &[Panel]) -> String {
    let numbers = |at: usize| !axes.axes[at].amounts.is_empty();
    let several = |at: usize| axes.count_along(at) > 1;
    let by_speed = |at: usize| is_speed(&axes.axes[at].name);
    let upright = several(layout.y)
        && (!several(layout.x)
            || by_speed(layout.y)
            || (!numbers(layout.x) && numbers(layout.y) && !by_speed(layout.x)));
    let (along, across) = if upright { (layout.y, layout.x) } else { (layout.x, layout.y) };
    let columns = axes.count_along(layout.x);
    let table = |panel: &Panel| {
        let none = vec![FindingCount::default(); axes.count_along(across)];
        let mut table = vec![none; axes.count_along(along)];
        for (at, cell) in panel.cells.iter().enumerate() {
            let (column, row) = (at % columns, at / columns);
            let (one, other) = if upright { (row, column) } else { (column, row) };
            table[one][other] = counted(cell);
        }
        table
    };
    let group = |panel: &Panel| {
        let cells = table(panel);
        FindingGroup {
            label: panel.caption.clone(),
            counts: cells.iter().map(|row| FindingCount::of(row.iter().copied())).collect(),
            across: several(across)
                .then(|| FindingAcross { axis: axes.axes[across].to_finding(), cells }),
        }
    };
    let groups: Vec<FindingGroup> = panels.iter().map(group).collect();
    let any = |wanted: fn(CellKind) -> bool| {
        panels.iter().flat_map(|panel| &panel.cells).any(|cell| wanted(cell.kind))
    };
    let verb = if any(CellKind::is_of_shot) {
        "Drops"
    } else if any(CellKind::is_of_tables) {
        "Sure to hold"
    } else {
        "Holds"
    };
    let found = finding(&axes.axes[along].to_finding(), &groups, verb);
    // Where nothing holds, the way in which all miss is the finding.
    let played = || panels.iter().flat_map(|panel| &panel.cells).map(|cell| cell.kind);
    let played = || played().filter(|kind| *kind != CellKind::Empty);
    let several = played().nth(1).is_some();
    let all = |kind: CellKind| several && played().all(|it| it == kind);
    match (all(CellKind::Long), all(CellKind::Short)) {
        (true, _) => format!("{found} All go long."),
        (_, true) => format!("{found} All fall short."),
        _ => found,
    }
}

/// One cell, counted.
fn counted(cell: &MapCell) -> FindingCount {
    match cell.kind {
        CellKind::Empty => FindingCount::default(),
        CellKind::NoRoom | CellKind::NoShot => {
            FindingCount { unplayable: 1, ..FindingCount::default() }
        }
        kind => FindingCount {
            all: 1,
            held: usize::from(kind.is_success()),
            less_sure: usize::from(kind.is_success() && cell.flagged),
            unplayable: 0,
        },
    }
}

fn picture_axis(axes: &PictureAxes, at: usize) -> PictureAxis {
    let axis = &axes.axes[at];
    PictureAxis { title: axis.title.clone(), unit: axis.unit.clone(), ticks: axis.ticks.clone() }
}

/// Cells row after row of y, whatever the order of the axes.
fn cells(
    axes: &PictureAxes,
    layout: &MapLayout,
    panel: usize,
    cell: &dyn Fn(usize) -> Option<MapCell>,
) -> Vec<MapCell> {
    let empty = MapCell { kind: CellKind::Empty, miss_mm: None, flagged: false, chance: None };
    let (columns, rows) = (axes.count_along(layout.x), axes.count_along(layout.y));
    let mut cells = Vec::with_capacity(columns * rows);
    for row in 0..rows {
        for column in 0..columns {
            let mut places = vec![(layout.x, column), (layout.y, row)];
            places.extend(layout.panels.map(|at| (at, panel)));
            cells.push(axes.row(&places).and_then(cell).unwrap_or(empty));
        }
    }
    cells
}
