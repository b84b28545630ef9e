//! Pictures of a sweep of shots: a map of verdicts over two axes, or one number over an axis.

use super::axes::{say, tick, title, unit};
use super::set::ShotsObject;
use crate::fault::{Fault, nearest};
use crate::lua::options::{Options, text};
use crate::picture::{
    CellKind, LinesPicture, MOST_CELLS, MOST_PANELS, MOST_POINTS, MOST_SERIES, MapCell, MapPicture,
    NumericAxis, Panel, PictureAxis, PictureError, Series,
};
use crate::plan::ShotValues;
use crate::record::{Picture, ShotsRecord};
use crate::scenario::measures::drawn;
use crate::scenario::session::Session;
use crate::telling::caution::FLAGGED;
use crate::whole_shots::ShotRow;
use mlua::{Lua, Value};
use railproof_engine::results::SHOT_MEASURES;
use railproof_engine::verdict::{Miss, PocketVerdict};
use std::collections::BTreeSet;

/// `shots:draw { x, y, panels }`.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn draw(lua: &Lua, this: &ShotsObject, argument: Value) -> mlua::Result<()> {
    let options =
        Options::open(lua, "draw", &argument, &["x", "y", "panels", "title", "subtitle", "name"])?;
    let x = required_axis(&options, this, "x")?;
    let y = required_axis(&options, this, "y")?;
    let panels = axis(&options, this, "panels")?;
    apart(&options, &[("x", Some(x)), ("y", Some(y)), ("panels", panels)])?;
    nothing_left(&options, this, &[Some(x), Some(y), panels], "`x`, `y` or `panels`")?;
    let cells = this.count();
    if cells > MOST_CELLS {
        let error = PictureError::TooManyCells { cells, most: MOST_CELLS };
        return Err(options.complain_of_call(error.to_string()).into());
    }
    let count = panels.map_or(1, |panels| this.kept[panels].len());
    if count > MOST_PANELS {
        let error = PictureError::Panels { panels: count, most: MOST_PANELS };
        return Err(options.complain("panels", error.to_string()).into());
    }
    let panels = match panels {
        None => vec![Panel { caption: String::new(), cells: cells_of(this, x, y, None) }],
        Some(at) => this.kept[at]
            .iter()
            .map(|place| Panel {
                caption: say(&this.record.axes[at], *place),
                cells: cells_of(this, x, y, Some((at, *place))),
            })
            .collect(),
    };
    let picture = MapPicture {
        title: options
            .optional("title", text())?
            .unwrap_or_else(|| "What became of each shot".to_owned()),
        subtitles: subtitles(&options, this)?,
        x: map_axis(this, x),
        y: map_axis(this, y),
        panels,
        rule: String::new(),
        model: models(&this.record),
        flag_meaning: FLAGGED.to_owned(),
        notes: this.cautions().lines(),
    };
    Session::of(lua)?.add_drawing(&options, "shots-map", Picture::Map(picture))?;
    Ok(())
}

/// `shots:draw_lines { x, y, series }`.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn draw_lines(lua: &Lua, this: &ShotsObject, argument: Value) -> mlua::Result<()> {
    let keys: &[&str] = &["x", "y", "series", "title", "subtitle", "name"];
    let options = Options::open(lua, "draw_lines", &argument, keys)?;
    let x = required_axis(&options, this, "x")?;
    let ShotValues::Numbers { amounts, .. } = &this.record.axes[x].values else {
        return Err(options
            .complain("x", "lines need numbers along x, and these are words")
            .with_hint("show it as `series`")
            .into());
    };
    let measure = drawn(&options, SHOT_MEASURES, "a shot")?;
    let shown = measure.shown();
    let series = axis(&options, this, "series")?;
    apart(&options, &[("x", Some(x)), ("series", series)])?;
    nothing_left(&options, this, &[Some(x), series], "`x` or `series`")?;
    let places = series.map_or(vec![0], |at| this.kept[at].clone());
    if places.len() > MOST_SERIES {
        let error = PictureError::TooManySeries { series: places.len(), most: MOST_SERIES };
        return Err(options.complain("series", error.to_string()).into());
    }
    if this.count() > MOST_POINTS {
        let error = PictureError::TooManyPoints { points: this.count(), most: MOST_POINTS };
        return Err(options.complain_of_call(error.to_string()).into());
    }
    let mut lines: Vec<Series> = places
        .iter()
        .map(|place| Series {
            label: series.map_or_else(String::new, |at| say(&this.record.axes[at], *place)),
            points: Vec::new(),
        })
        .collect();
    for (at, row) in this.rows() {
        let digits = this.record.digits(at);
        let line = series.map_or(Some(0), |at| places.iter().position(|it| *it == digits[at]));
        if let Some(line) = line {
            let si = measure.number(&row.result()).unwrap_or(f64::NAN);
            lines[line].points.push((amounts[digits[x]], shown.of(si)));
        }
    }
    for line in &mut lines {
        line.points.sort_by(|one, other| one.0.total_cmp(&other.0));
    }
    if !lines.iter().flat_map(|line| &line.points).any(|(_, y)| y.is_finite()) {
        return Err(options
            .complain("y", "none of these shots has such a number, so there is nothing to draw")
            .into());
    }
    let picture = LinesPicture {
        title: options.optional("title", text())?.unwrap_or_else(|| measure.title().to_owned()),
        subtitles: subtitles(&options, this)?,
        x: NumericAxis {
            title: title(&this.record.axes[x]),
            unit: unit(&this.record.axes[x].values).to_owned(),
        },
        y: NumericAxis { title: measure.title().to_owned(), unit: shown.unit.to_owned() },
        series: lines,
        bands: Vec::new(),
        notes: [format!("Model: {}.", models(&this.record))]
            .into_iter()
            .chain(this.cautions().lines())
            .collect(),
    };
    Session::of(lua)?.add_drawing(&options, "shots-lines", Picture::Lines(picture))?;
    Ok(())
}

fn subtitles(options: &Options, this: &ShotsObject) -> Result<Vec<String>, Fault> {
    let tables: Vec<&str> =
        this.record.equipment.iter().take(3).map(|equipment| equipment.name.as_str()).collect();
    let more = if this.record.equipment.len() > 3 { " and others" } else { "" };
    let mut lines = vec![format!("{}{more}", tables.join("; "))];
    let fixed: Vec<String> = this
        .record
        .axes
        .iter()
        .zip(&this.kept)
        .filter(|(_, kept)| kept.len() == 1)
        .map(|(axis, kept)| say(axis, kept[0]))
        .collect();
    if !fixed.is_empty() {
        lines.push(fixed.join(", "));
    }
    lines.extend(options.optional("subtitle", text())?);
    Ok(lines)
}

fn models(record: &ShotsRecord) -> String {
    let names: BTreeSet<&str> =
        record.equipment.iter().map(|equipment| equipment.cushion.rail_model.name()).collect();
    format!("{} rail", names.into_iter().collect::<Vec<_>>().join(", "))
}

fn axis(options: &Options, this: &ShotsObject, key: &'static str) -> Result<Option<usize>, Fault> {
    let Some(name) = options.optional(key, text())? else { return Ok(None) };
    let names = || this.record.axes.iter().map(|axis| axis.name.as_str());
    names().position(|known| known == name).map(Some).ok_or_else(|| {
        let fault = options.complain(key, format!("nothing here varies as `{name}`"));
        match nearest(&name, names()) {
            Some(near) => fault.with_hint(format!("did you mean `{near}`?")),
            None => {
                fault.with_hint(format!("what varies: {}", names().collect::<Vec<_>>().join(", ")))
            }
        }
    })
}

fn required_axis(options: &Options, this: &ShotsObject, key: &'static str) -> Result<usize, Fault> {
    options.required(key, text())?;
    axis(options, this, key)?.ok_or_else(|| options.complain_of_call(format!("draw needs `{key}`")))
}

/// Refuses one axis in two places.
fn apart(options: &Options, shown: &[(&'static str, Option<usize>)]) -> Result<(), Fault> {
    for (at, (key, axis)) in shown.iter().enumerate() {
        let earlier = shown[..at].iter().find(|(_, other)| axis.is_some() && other == axis);
        if let Some((other, _)) = earlier {
            return Err(options.complain(key, format!("`{key}` shows the same as `{other}`")));
        }
    }
    Ok(())
}

/// Refuses a picture that would have to leave out what varies.
fn nothing_left(
    options: &Options,
    this: &ShotsObject,
    shown: &[Option<usize>],
    places: &str,
) -> Result<(), Fault> {
    let left =
        (0..this.kept.len()).find(|at| this.kept[*at].len() > 1 && !shown.contains(&Some(*at)));
    let Some(at) = left else { return Ok(()) };
    let axis = &this.record.axes[at];
    Err(options
        .complain_of_call(format!(
            "the picture has no room for `{}` ({} values)",
            axis.name,
            this.kept[at].len()
        ))
        .with_hint(format!(
            "show it as one of {places}, or select one value before: :where {{ {} = … }}, such as {}",
            axis.name,
            say(axis, this.kept[at][0])
        )))
}

fn map_axis(this: &ShotsObject, at: usize) -> PictureAxis {
    let axis = &this.record.axes[at];
    let ticks = this.kept[at].iter().map(|place| tick(&axis.values, *place)).collect();
    PictureAxis { title: title(axis), unit: unit(&axis.values).to_owned(), ticks }
}

/// Cells row after row of y, whatever the order of the axes.
fn cells_of(this: &ShotsObject, x: usize, y: usize, panel: Option<(usize, usize)>) -> Vec<MapCell> {
    let mut digits: Vec<usize> = this.kept.iter().map(|kept| kept[0]).collect();
    if let Some((at, place)) = panel {
        digits[at] = place;
    }
    let mut cells = Vec::with_capacity(this.kept[x].len() * this.kept[y].len());
    for row in &this.kept[y] {
        for column in &this.kept[x] {
            (digits[x], digits[y]) = (*column, *row);
            let point = this
                .record
                .axes
                .iter()
                .zip(&digits)
                .fold(0, |point, (axis, place)| point * axis.values.len() + place);
            let empty = MapCell { kind: CellKind::Empty, miss_mm: None, flagged: false };
            cells.push(this.record.rows.get(point).map_or(empty, cell));
        }
    }
    cells
}

fn cell(row: &ShotRow) -> MapCell {
    let Ok(outcome) = &row.outcome else {
        return MapCell { kind: CellKind::NoShot, miss_mm: None, flagged: false };
    };
    let kind = match outcome.verdict.pocket {
        PocketVerdict::Clean => CellKind::Drops,
        PocketVerdict::OffJaw => CellKind::DropsOffJaw,
        PocketVerdict::Scratched => CellKind::Scratches,
        _ if outcome.verdict.kissed_at_s.is_some() => CellKind::Kisses,
        PocketVerdict::RattledOut => CellKind::RattlesOut,
        PocketVerdict::Missed(Miss::Long) => CellKind::Long,
        PocketVerdict::Missed(Miss::Short) => CellKind::Short,
        PocketVerdict::Missed(Miss::Left | Miss::Right) => CellKind::Aside,
        PocketVerdict::OtherPocket(_) => CellKind::OtherPocket,
        PocketVerdict::NotReached => CellKind::NotReached,
        PocketVerdict::GivenUp => CellKind::Empty,
    };
    MapCell { kind, miss_mm: row.miss_m().map(|miss| 1e3 * miss), flagged: outcome.flagged }
}
