//! `shares:draw { x, y, panels }`: where a bank is sure to hold, depends on the table, and is sure to miss.

use super::PictureAxes;
use super::map::{MapLayout, MapWords, map_picture};
use super::tables;
use crate::lua::options::Options;
use crate::picture::{CellKind, MapCell};
use crate::record::Picture;
use crate::scenario::ensemble::shares::Shares;
use crate::scenario::session::Session;
use mlua::{Lua, Value};
use railproof_engine::ask::{Agreement, MemberShare};

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw(lua: &Lua, this: &Shares, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &["x", "y", "panels", "title", "subtitle", "legend", "size", "name"];
    let options = Options::open(lua, "draw", &argument, KEYS)?;
    let axes = PictureAxes::of(&this.picked);
    let layout = MapLayout::read(&options, &axes)?;
    let telling = this.picked.telling();
    let known = &this.known;
    let mut notes = telling.notes();
    notes.push(tables(known));
    let words = MapWords {
        asked: "On how many of the tables that yours could be does it hold?".to_owned(),
        found: None,
        subtitles: telling.subtitles(),
        rule: telling.rule().to_owned(),
        model: format!("{} rail; each table with its own cushion and cloth", known.model.name()),
        notes,
    };
    let cell = |point: usize| this.found.get(point).map(cell);
    let picture = map_picture(&options, &axes, &layout, words, &cell)?;
    Session::of(lua)?.add_drawing(&options, "shares", Picture::Map(picture))?;
    Ok(())
}

fn cell(share: &MemberShare) -> MapCell {
    let kind = match share.agreement() {
        Agreement::All => CellKind::SureToHold,
        Agreement::Depends => CellKind::Depends,
        Agreement::None => CellKind::SureToMiss,
    };
    MapCell { kind, miss_mm: None, flagged: false, chance: None }
}
