//! `map:draw { x, y, panels }` and `map:draw_lines { x, y, series }`: pictures of banks.

use super::PictureAxes;
use super::lines::{LinesLayout, fits};
use super::look::{headline, picture_look};
use super::map::{MapLayout, MapWords, map_picture};
use super::room::{PANELS, SERIES, free_place, parts};
use super::usual::tell_usual;
use crate::fault::Fault;
use crate::lua::options::{Options, one_or_many};
use crate::picture::{
    Band, BandEdges, CellKind, LinesPicture, MapCell, MapPicture, MissUnit, NumericAxis,
    PictureLook, Series,
};
use crate::record::Picture;
use crate::scenario::map::Map;
use crate::scenario::measures::{drawn, picture_unit};
use crate::scenario::point_selection::{AxisOrRules, PointSelection};
use crate::scenario::selection::rules_named;
use crate::scenario::session::Session;
use crate::scenario::undrawn;
use crate::scenario::value_choice::RuleName;
use crate::telling::{FindingCount, FindingGroup, capital, finding, slope_of_sweep};
use mlua::{Lua, Value};
use railproof_engine::bank::{Arrival, BankVerdict};
use railproof_engine::results::{BANK_MEASURES, BankResult};
use railproof_engine::sweep::{Row, Tables};

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw(lua: &Lua, this: &Map, argument: Value) -> mlua::Result<()> {
    draw_map(lua, this, &argument, tell_usual)
}

/// Draws a map; `tell` is given the axes that it shows.
pub fn draw_map(
    lua: &Lua,
    this: &Map,
    argument: &Value,
    tell: impl FnOnce(&Lua, &Options, &PointSelection, &[AxisOrRules]) -> mlua::Result<()>,
) -> mlua::Result<()> {
    const KEYS: &[&str] =
        &["x", "y", "panels", "rule", "title", "subtitle", "legend", "size", "name"];
    let options = Options::open(lua, "draw", argument, KEYS)?;
    let picked = of_rule(&options, &this.picked)?;
    let axes = PictureAxes::of(&picked);
    let layout = MapLayout::read(&options, &axes)?;
    let free = free_place(lua, &picked, &axes, (&layout.shown(), layout.panels), PANELS);
    let layout = MapLayout { panels: free.or(layout.panels), ..layout };
    let parts = parts(lua, &picked, &axes, &layout.shown());
    let pictures = parts
        .iter()
        .map(|(apart, part)| {
            let drawn = picture(&options, this, part, &PictureAxes::of(part), &layout)?;
            Ok((apart.clone(), Picture::Map(drawn)))
        })
        .collect::<Result<Vec<_>, Fault>>()?;
    let shown: Vec<AxisOrRules> = layout.shown().into_iter().map(|at| picked.at(at)).collect();
    tell(lua, &options, &picked, &shown)?;
    Session::of(lua)?.add_drawings(&options, "map", pictures)?;
    undrawn::strike_out(lua, this);
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

/// The map of a selection, whose axes these are.
pub fn picture(
    options: &Options,
    map: &Map,
    picked: &PointSelection,
    axes: &PictureAxes,
    layout: &MapLayout,
) -> Result<MapPicture, Fault> {
    let telling = picked.telling();
    let way_out = map.record.way_out().map(|found| slope_of_sweep(&found));
    let asked = match (telling.rule(), picked.rules.len()) {
        ("", 0) => "Where these lines hold".to_owned(),
        ("", _) => "Where these rules hold".to_owned(),
        (rule, _) => format!("Where the rule holds: {rule}"),
    };
    let words = MapWords {
        asked,
        found: None,
        subtitles: way_out.into_iter().chain(telling.subtitles()).collect(),
        rule: telling.rule().to_owned(),
        model: telling.model(),
        notes: telling.notes(),
    };
    let cell = |row: usize| map.record.rows.get(row).map(cell);
    map_picture(options, axes, layout, words, &cell)
}

fn cell(row: &Row) -> MapCell {
    MapCell {
        kind: CellKind::from(row.outcome.verdict()),
        miss_mm: row.outcome.miss_m().map(|miss| 1e3 * miss),
        flagged: row.outcome.flagged(),
        chance: None,
    }
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw_lines(lua: &Lua, this: &Map, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] =
        &["x", "y", "series", "rule", "title", "subtitle", "legend", "size", "name"];
    let options = Options::open(lua, "draw_lines", &argument, KEYS)?;
    let picked = of_rule(&options, &this.picked)?;
    let axes = PictureAxes::of(&picked);
    let layout = LinesLayout::of(&options, &axes)?;
    let free = free_place(lua, &picked, &axes, (&layout.shown(), layout.series), SERIES);
    let layout = LinesLayout { series: free.or(layout.series), ..layout };
    let shown = layout.shown();
    let unit = Session::of(lua)?.miss_unit();
    let pictures = parts(lua, &picked, &axes, &shown)
        .iter()
        .map(|(apart, part)| {
            let drawn = lines_picture(&options, this, part, layout, unit)?;
            Ok((apart.clone(), Picture::Lines(drawn)))
        })
        .collect::<Result<Vec<_>, Fault>>()?;
    let shown: Vec<AxisOrRules> = shown.into_iter().map(|at| picked.at(at)).collect();
    tell_usual(lua, &options, &picked, &shown)?;
    Session::of(lua)?.add_drawings(&options, "lines", pictures)?;
    Ok(())
}

/// The lines of a selection.
fn lines_picture(
    options: &Options,
    this: &Map,
    picked: &PointSelection,
    layout: LinesLayout,
    unit: MissUnit,
) -> Result<LinesPicture, Fault> {
    let axes = &PictureAxes::of(picked);
    let measure = drawn(options, BANK_MEASURES, "a bank")?;
    layout.has_room(options, axes)?;
    let shown = picture_unit(measure.shown(), unit);
    let plan = &this.record.plan;
    let mut tables = Tables::default();
    let lines = layout.lines(axes, |row| {
        let row = this.record.rows.get(row)?;
        let result = BankResult::of_row(&mut tables, plan, &plan.digits(row.point), row).ok()?;
        measure.number(&result).map(|number| shown.of(number))
    });
    fits(options, &lines)?;
    let telling = picked.telling();
    let named =
        if telling.rule().is_empty() { String::new() } else { format!(": {}", telling.rule()) };
    let asked =
        format!("{}{named}", capital(measure.title().split(':').next().unwrap_or_default()));
    let found =
        if measure.name == "miss" { found(this, axes, layout, &lines) } else { String::new() };
    let (title, mut subtitles) = headline(options, &found, asked, telling.subtitles())?;
    subtitles
        .extend(layout.less_sure(axes, |row| Some(this.record.rows.get(row)?.outcome.flagged())));
    let mut notes = telling.notes();
    notes.push(format!("Model: {}.", telling.model()));
    Ok(LinesPicture {
        title,
        subtitles,
        x: layout.along(axes),
        y: NumericAxis {
            title: measure.title().to_owned(),
            unit: shown.unit.to_owned(),
            ..NumericAxis::default()
        },
        series: lines,
        bands: if measure.name == "miss" { bands(this, axes, layout, unit) } else { Vec::new() },
        notes,
        look: picture_look(options, PictureLook::default())?,
    })
}

/// Where along x each line holds.
fn found(map: &Map, axes: &PictureAxes, layout: LinesLayout, lines: &[Series]) -> String {
    let held = layout.lines(axes, |row| {
        let verdict = map.record.rows.get(row)?.outcome.verdict();
        Some(if verdict == BankVerdict::Holds { 1.0 } else { 0.0 })
    });
    let flagged = layout.flagged(axes, |row| Some(map.record.rows.get(row)?.outcome.flagged()));
    // Lines stand in the order of x.
    let mut along = axes.axes[layout.x].to_finding();
    let mut order: Vec<usize> = (0..along.amounts.len()).collect();
    order.sort_by(|a, b| along.amounts[*a].total_cmp(&along.amounts[*b]));
    let sorted = |words: &[String]| order.iter().map(|at| words[*at].clone()).collect();
    (along.ticks, along.labels) = (sorted(&along.ticks), sorted(&along.labels));
    along.amounts.sort_by(f64::total_cmp);
    let count = |((_, held), (_, flagged)): (&(f64, f64), &(f64, f64))| FindingCount {
        held: usize::from(*held > 0.5),
        all: usize::from(held.is_finite()),
        less_sure: usize::from(*held > 0.5 && *flagged > 0.5),
        ..FindingCount::default()
    };
    let group = |((held, flagged), line): ((&Series, &Series), &Series)| FindingGroup {
        label: line.label.clone(),
        counts: held.points.iter().zip(&flagged.points).map(count).collect(),
        across: None,
    };
    let groups: Vec<FindingGroup> = held.iter().zip(&flagged).zip(lines).map(group).collect();
    finding(&along, &groups, "Holds")
}

/// Lines at most whose mouths are drawn one by one.
const MOST_MOUTHS: usize = 6;
/// Mouths as near to each other as this at every x are drawn as one, mm.
const ONE_MOUTH_MM: f64 = 0.1;

/// The misses between which each bank clears both mouth points. How wide the mouth is depends on the
/// table and on the angle at which the ball comes, so each line has its own; a bank lies inside its
/// own exactly when it holds.
fn bands(map: &Map, axes: &PictureAxes, layout: LinesLayout, unit: MissUnit) -> Vec<Band> {
    let edge = |of: fn(&Arrival) -> f64| {
        layout.lines(axes, |row| {
            let arrival = map.record.rows.get(row)?.outcome.arrival.as_ref();
            arrival.map(|arrival| 1e3 * of(arrival) / unit.mm())
        })
    };
    let lower = edge(|arrival| arrival.miss_m - arrival.clearance_short_m);
    let upper = edge(|arrival| arrival.miss_m + arrival.clearance_long_m);
    let mouths: Vec<Vec<BandEdges>> = lower
        .into_iter()
        .zip(upper)
        .map(|(lower, upper)| {
            let both = lower.points.into_iter().zip(upper.points);
            both.map(|((x, from), (_, to))| BandEdges { x, from, to }).collect()
        })
        .collect();
    let near =
        |a: f64, b: f64| (a.is_nan() && b.is_nan()) || (a - b).abs() * unit.mm() <= ONE_MOUTH_MM;
    let alike = |one: &[BandEdges], other: &[BandEdges]| {
        one.iter().zip(other).all(|(a, b)| near(a.from, b.from) && near(a.to, b.to))
    };
    if mouths.iter().all(|mouth| alike(mouth, &mouths[0])) {
        let first = mouths.into_iter().take(1);
        let label = "clears both mouth points";
        return first.map(|edges| Band { edges, line: None, label: label.to_owned() }).collect();
    }
    if mouths.len() > MOST_MOUTHS {
        return Vec::new();
    }
    let label = "between its own dots a line clears both mouth points";
    mouths
        .into_iter()
        .enumerate()
        .map(|(at, edges)| Band { edges, line: Some(at), label: label.to_owned() })
        .collect()
}
