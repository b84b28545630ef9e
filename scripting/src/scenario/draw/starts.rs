//! `starts:draw_lines { x, series }`: exact start numbers over an axis.

use super::lines::{fits, numeric_axis, series_of};
use super::{apart, dimension_at, nothing_left};
use crate::lua::options::{Options, text};
use crate::picture::{LinesPicture, NumericAxis};
use crate::record::Picture;
use crate::scenario::point_selection::AxisOrRules;
use crate::scenario::session::Session;
use crate::scenario::starts::Starts;
use mlua::{Lua, Value};

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw_lines(lua: &Lua, this: &Starts, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &["x", "series", "title", "name"];
    let options = Options::open(lua, "draw_lines", &argument, KEYS)?;
    let picked = &this.picked;
    let x = numeric_axis(&options, picked)?;
    let series = dimension_at(&options, "series", picked)?;
    let mut shown = vec![("x", AxisOrRules::Axis(x))];
    shown.extend(series.map(|series| ("series", series)));
    apart(&options, &shown)?;
    let shown: Vec<AxisOrRules> = shown.into_iter().map(|(_, what)| what).collect();
    nothing_left(&options, picked, &shown, "`x` or `series`")?;
    let drawn = series_of(picked, x, series, |point, _| {
        this.record.rows.get(point).and_then(|row| row.start.as_ref().ok().copied())
    });
    fits(&options, &drawn)?;
    let along = picked.text(x);
    let title = options
        .optional("title", text())?
        .unwrap_or_else(|| "Start numbers through the middle of the pocket's mouth".to_owned());
    let mut notes = picked.telling().notes();
    notes.push(format!("Model: {}.", picked.telling().model()));
    let picture = LinesPicture {
        title,
        subtitles: picked.telling().subtitles(),
        x: NumericAxis { title: along.title.to_owned(), unit: along.picture_unit() },
        y: NumericAxis {
            title: "exact start number".to_owned(),
            unit: "diamonds, groove".to_owned(),
        },
        series: drawn,
        bands: Vec::new(),
        notes,
    };
    Session::of(lua)?.add_drawing(&options, "lines", Picture::Lines(picture))?;
    Ok(())
}
