//! `map:draw { x, y, panels }`: the verdicts over two axes.

use super::{apart, axis_at, dimension_at, nothing_left};
use crate::fault::Fault;
use crate::lua::options::{Options, one_or_many, text};
use crate::picture::{
    CellKind, MOST_CELLS, MOST_PANELS, MapCell, MapPicture, Panel, PictureAxis, PictureError,
};
use crate::record::Picture;
use crate::scenario::map::Map;
use crate::scenario::point_selection::{AxisOrRules, PointSelection};
use crate::scenario::selection::rules_named;
use crate::scenario::session::Session;
use crate::scenario::value_choice::RuleName;
use crate::telling::caution::FLAGGED;
use mlua::{Lua, Value};
use railproof_engine::bank::BankVerdict;
use railproof_engine::sweep::Row;

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw(lua: &Lua, this: &Map, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &["x", "y", "panels", "rule", "title", "name"];
    let options = Options::open(lua, "draw", &argument, KEYS)?;
    let picked = of_rule(&options, &this.picked)?;
    let layout = MapLayout::read(&options, &picked)?;
    nothing_left(&options, &picked, &layout.shown(), "`x`, `y` or `panels`")?;
    let mut picture = picture(&options, this, &picked, &layout)?;
    if let Some(title) = options.optional("title", text())? {
        picture.title = title;
    }
    Session::of(lua)?.add_drawing(&options, "map", Picture::Map(picture))?;
    Ok(())
}

/// The banks of the rule that an option names, if it does.
pub fn of_rule(options: &Options, picked: &PointSelection) -> Result<PointSelection, Fault> {
    let mut picked = picked.clone();
    if let Some(wanted) = options.optional("rule", one_or_many(RuleName))? {
        picked.kept_rules = rules_named(options, "rule", &picked, &wanted)?;
    }
    Ok(picked)
}

/// The dimensions along, up and into panels.
#[derive(Debug, Clone, Copy)]
pub struct MapLayout {
    pub x: usize,
    pub y: usize,
    pub panels: Option<AxisOrRules>,
}

impl MapLayout {
    pub fn read(options: &Options, picked: &PointSelection) -> Result<Self, Fault> {
        let x = axis_at(options, "x", picked)?;
        let y = axis_at(options, "y", picked)?;
        let panels = dimension_at(options, "panels", picked)?;
        let mut shown = vec![("x", AxisOrRules::Axis(x)), ("y", AxisOrRules::Axis(y))];
        shown.extend(panels.map(|panels| ("panels", panels)));
        apart(options, &shown)?;
        Ok(Self { x, y, panels })
    }

    pub fn shown(&self) -> Vec<AxisOrRules> {
        [Some(AxisOrRules::Axis(self.x)), Some(AxisOrRules::Axis(self.y)), self.panels]
            .into_iter()
            .flatten()
            .collect()
    }
}

/// The picture of a selection, whose every varying dimension is in the layout.
pub fn picture(
    options: &Options,
    map: &Map,
    picked: &PointSelection,
    layout: &MapLayout,
) -> Result<MapPicture, Fault> {
    let cells = picked.count();
    let panel_count = layout.panels.map_or(1, |panels| picked.count_along(panels));
    if cells > MOST_CELLS {
        let error = PictureError::TooManyCells { cells, most: MOST_CELLS };
        return Err(options.complain_of_call(error.to_string()));
    }
    if panel_count > MOST_PANELS {
        let error = PictureError::Panels { panels: panel_count, most: MOST_PANELS };
        return Err(options.complain("panels", error.to_string()));
    }
    let mut panels = Vec::new();
    match layout.panels {
        None => panels.push(Panel { caption: String::new(), cells: cells_of(map, picked, layout) }),
        Some(dimension) => {
            for place in picked.places(dimension) {
                let one = picked.only(dimension, *place);
                let cells = cells_of(map, &one, layout);
                panels.push(Panel { caption: picked.say(dimension, *place), cells });
            }
        }
    }
    let rule = picked.telling().rule;
    let title = match (rule, picked.rules.len()) {
        ("", 0) => "Where these lines hold".to_owned(),
        ("", _) => "Where these rules hold".to_owned(),
        (rule, _) => format!("Where the rule holds: {rule}"),
    };
    Ok(MapPicture {
        title,
        subtitles: picked.telling().subtitles(),
        x: axis(picked, layout.x),
        y: axis(picked, layout.y),
        panels,
        rule: rule.to_owned(),
        model: picked.telling().model(),
        flag_meaning: FLAGGED.to_owned(),
        notes: picked.telling().notes(),
    })
}

fn axis(picked: &PointSelection, at: usize) -> PictureAxis {
    let text = picked.text(at);
    let ticks = picked.kept[at].iter().map(|place| text.ticks[*place].clone()).collect();
    PictureAxis { title: text.title.to_owned(), unit: text.picture_unit(), ticks }
}

/// Cells row after row of y, whatever the order of the plan's axes.
fn cells_of(map: &Map, picked: &PointSelection, layout: &MapLayout) -> Vec<MapCell> {
    let (columns, rows) = (&picked.kept[layout.x], &picked.kept[layout.y]);
    let mut digits: Vec<usize> = picked.kept.iter().map(|kept| kept[0]).collect();
    let ways = picked.rules.len().max(1);
    let mut cells = Vec::with_capacity(columns.len() * rows.len());
    for row in rows {
        for column in columns {
            digits[layout.x] = *column;
            digits[layout.y] = *row;
            let point = picked
                .plan()
                .axes()
                .iter()
                .zip(&digits)
                .fold(0, |point, (axis, place)| point * axis.values.len() + place);
            let played = map.record.rows.get(point * ways + picked.kept_rules[0]);
            cells.push(
                played
                    .map_or(MapCell { kind: CellKind::Empty, miss_mm: None, flagged: false }, cell),
            );
        }
    }
    cells
}

fn cell(row: &Row) -> MapCell {
    let kind = match row.outcome.verdict() {
        BankVerdict::Holds => CellKind::Holds,
        BankVerdict::TouchesPoint(_) => CellKind::TouchesPoint,
        BankVerdict::Long => CellKind::Long,
        BankVerdict::Short => CellKind::Short,
        BankVerdict::StoppedBeforeRail => CellKind::StoppedBeforeRail,
        BankVerdict::StoppedBeforeMouth => CellKind::StoppedBeforeMouth,
        BankVerdict::OtherRail => CellKind::OtherRail,
        BankVerdict::OtherPocket => CellKind::OtherPocket,
        BankVerdict::NoRoom => CellKind::NoRoom,
    };
    MapCell {
        kind,
        miss_mm: row.outcome.miss_m().map(|miss| 1e3 * miss),
        flagged: row.outcome.flagged(),
    }
}
