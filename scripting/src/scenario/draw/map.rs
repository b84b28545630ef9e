//! Maps: the outcomes of results over two axes.

use super::PictureAxes;
use crate::fault::Fault;
use crate::lua::options::{Options, text};
use crate::picture::{
    CellKind, MOST_CELLS, MOST_PANELS, MapCell, MapPicture, Panel, PictureAxis, PictureError,
};
use crate::telling::caution::FLAGGED;

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
    /// Where the script gives none.
    pub title: String,
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
    let MapWords { title, subtitles, rule, model, notes } = words;
    Ok(MapPicture {
        title: options.optional("title", text())?.unwrap_or(title),
        subtitles,
        x: picture_axis(axes, layout.x),
        y: picture_axis(axes, layout.y),
        panels: (0..panels).map(panel).collect(),
        rule,
        model,
        flag_meaning: FLAGGED.to_owned(),
        notes,
    })
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
    let empty = MapCell { kind: CellKind::Empty, miss_mm: None, flagged: false };
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
