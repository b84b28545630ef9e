//! Pictures of a sweep of shots: a map of verdicts over two axes, or one number over an axis.

use super::axes::say;
use super::set::ShotsObject;
use crate::lua::options::Options;
use crate::picture::{CellKind, LinesPicture, MapCell, NumericAxis, PictureLook};
use crate::record::{Picture, ShotsRecord};
use crate::scenario::draw::PictureAxes;
use crate::scenario::draw::lines::{LinesLayout, fits};
use crate::scenario::draw::look::{headline, picture_look};
use crate::scenario::draw::map::{MapLayout, MapWords, map_picture};
use crate::scenario::measures::{drawn, picture_unit};
use crate::scenario::session::Session;
use crate::whole_shots::ShotRow;
use mlua::{Lua, Value};
use railproof_engine::results::SHOT_MEASURES;
use railproof_engine::verdict::{Miss, PocketVerdict};
use std::collections::BTreeSet;

/// `shots:draw { x, y, panels }`.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn draw(lua: &Lua, this: &ShotsObject, argument: Value) -> mlua::Result<()> {
    const MAP_KEYS: &[&str] = &["x", "y", "panels", "title", "subtitle", "legend", "size", "name"];
    let options = Options::open(lua, "draw", &argument, MAP_KEYS)?;
    let axes = PictureAxes::of(this);
    let layout = MapLayout::read(&options, &axes)?;
    let words = MapWords {
        asked: "Which of these shots drop".to_owned(),
        found: None,
        subtitles: subtitles(this),
        rule: String::new(),
        model: models(&this.record),
        notes: this.cautions().lines(),
    };
    let cell = |row: usize| this.record.rows.get(row).map(cell);
    let picture = map_picture(&options, &axes, &layout, words, &cell)?;
    Session::of(lua)?.add_drawing(&options, "shots-map", Picture::Map(picture))?;
    Ok(())
}

/// `shots:draw_lines { x, y, series }`.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn draw_lines(lua: &Lua, this: &ShotsObject, argument: Value) -> mlua::Result<()> {
    let keys: &[&str] = &["x", "y", "series", "title", "subtitle", "legend", "size", "name"];
    let options = Options::open(lua, "draw_lines", &argument, keys)?;
    let axes = PictureAxes::of(this);
    let measure = drawn(&options, SHOT_MEASURES, "a shot")?;
    let layout = LinesLayout::read(&options, &axes)?;
    let shown = picture_unit(measure.shown(), Session::of(lua)?.miss_unit());
    let lines = layout.lines(&axes, |row| {
        measure.number(&this.record.rows.get(row)?.result()).map(|si| shown.of(si))
    });
    fits(&options, &lines)?;
    let notes = [format!("Model: {}.", models(&this.record))];
    let asked = measure.title().to_owned();
    let (title, mut subtitles) = headline(&options, "", asked, subtitles(this))?;
    subtitles.extend(layout.less_sure(&axes, |row| {
        Some(this.record.rows.get(row)?.outcome.as_ref().is_ok_and(|it| it.flagged))
    }));
    let picture = LinesPicture {
        title,
        subtitles,
        x: layout.along(&axes),
        y: NumericAxis {
            title: measure.title().to_owned(),
            unit: shown.unit.to_owned(),
            ..NumericAxis::default()
        },
        series: lines,
        bands: Vec::new(),
        notes: notes.into_iter().chain(this.cautions().lines()).collect(),
        look: picture_look(&options, PictureLook::default())?,
    };
    Session::of(lua)?.add_drawing(&options, "shots-lines", Picture::Lines(picture))?;
    Ok(())
}

fn subtitles(this: &ShotsObject) -> Vec<String> {
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
    lines
}

fn models(record: &ShotsRecord) -> String {
    let names: BTreeSet<&str> =
        record.equipment.iter().map(|equipment| equipment.cushion.rail_model.name()).collect();
    format!("{} rail", names.into_iter().collect::<Vec<_>>().join(", "))
}

fn cell(row: &ShotRow) -> MapCell {
    let Ok(outcome) = &row.outcome else {
        return MapCell { kind: CellKind::NoShot, miss_mm: None, flagged: false, chance: None };
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
    MapCell {
        kind,
        miss_mm: row.miss_m().map(|miss| 1e3 * miss),
        flagged: outcome.flagged,
        chance: None,
    }
}
