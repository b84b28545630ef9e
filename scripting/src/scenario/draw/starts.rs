//! `starts:draw_lines { x, series }`: exact start numbers over an axis.

use super::PictureAxes;
use super::lines::{LinesLayout, fits};
use super::look::{headline, picture_look};
use crate::lua::options::Options;
use crate::picture::{LinesPicture, NumericAxis, PictureLook};
use crate::record::Picture;
use crate::scenario::session::Session;
use crate::scenario::starts::Starts;
use mlua::{Lua, Value};

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw_lines(lua: &Lua, this: &Starts, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &["x", "series", "title", "subtitle", "legend", "size", "name"];
    let options = Options::open(lua, "draw_lines", &argument, KEYS)?;
    let picked = &this.picked;
    let axes = PictureAxes::of(picked);
    let layout = LinesLayout::read(&options, &axes)?;
    let drawn = layout.lines(&axes, |row| {
        this.record.rows.get(row).and_then(|row| row.start.as_ref().ok().copied())
    });
    fits(&options, &drawn)?;
    let asked = "Start numbers through the middle of the pocket's mouth".to_owned();
    let (title, subtitles) = headline(&options, "", asked, picked.telling().subtitles())?;
    let mut notes = picked.telling().notes();
    notes.push(format!("Model: {}.", picked.telling().model()));
    let picture = LinesPicture {
        title,
        subtitles,
        x: layout.along(&axes),
        y: NumericAxis {
            title: "exact start number".to_owned(),
            unit: "diamonds, groove".to_owned(),
            ..NumericAxis::default()
        },
        series: drawn,
        bands: Vec::new(),
        notes,
        look: picture_look(&options, PictureLook::default())?,
    };
    Session::of(lua)?.add_drawing(&options, "lines", Picture::Lines(picture))?;
    Ok(())
}
