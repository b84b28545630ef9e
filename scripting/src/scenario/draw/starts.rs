//! `starts:draw_lines { x, series }`: exact start numbers over an axis.

use super::PictureAxes;
use super::lines::{LinesLayout, band_between, fits};
use super::look::{headline, picture_look};
use super::tables;
use crate::lua::options::Options;
use crate::picture::{Band, LinesPicture, NumericAxis, PictureLook, Series};
use crate::record::Picture;
use crate::scenario::ensemble::starts::KnownStarts;
use crate::scenario::session::Session;
use crate::scenario::starts::Starts;
use mlua::{Lua, Value};
use railproof_engine::ask::CredibleInterval;

const KEYS: &[&str] = &["x", "series", "title", "subtitle", "legend", "size", "name"];

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw_lines(lua: &Lua, this: &Starts, argument: Value) -> mlua::Result<()> {
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

/// `starts:draw_lines { x, series }` of many tables: the middle, and from where to where the start lies nine times
/// in ten and, for one line, every other time.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw_known(lua: &Lua, this: &KnownStarts, argument: Value) -> mlua::Result<()> {
    let options = Options::open(lua, "draw_lines", &argument, KEYS)?;
    let picked = &this.picked;
    let axes = PictureAxes::of(picked);
    let layout = LinesLayout::read(&options, &axes)?;
    let of = |number: fn(CredibleInterval) -> f64| {
        layout.lines(&axes, |row| this.found.start(row).start.map(number))
    };
    let mut drawn = of(|start| start.middle);
    if let [only] = drawn.as_mut_slice() {
        "the middle one".clone_into(&mut only.label);
    }
    fits(&options, &drawn)?;
    let bands = |(from, to): (Vec<Series>, Vec<Series>), filled: bool, label: &str| {
        let of_line = |(line, (from, to)): (usize, (Series, Series))| {
            band_between(&from, &to, (!filled).then_some(line), label)
        };
        from.into_iter().zip(to).enumerate().map(of_line).collect::<Vec<Band>>()
    };
    let one = drawn.len() == 1;
    let ninety = (of(|start| start.ninety.0), of(|start| start.ninety.1));
    let mut all = bands(ninety, one, "nine times in ten");
    if one {
        let half = (of(|start| start.half.0), of(|start| start.half.1));
        all.extend(bands(half, false, "half the time"));
    }
    let asked = "Start numbers through the middle of the mouth, on the tables that yours could be";
    let found = this.slope().map_or_else(String::new, |slope| {
        let (from, to) = slope.ninety;
        format!(
            "Start = {:.2} x contact; nine times in ten from {from:.2} to {to:.2}.",
            slope.middle
        )
    });
    let (title, subtitles) =
        headline(&options, &found, asked.to_owned(), picked.telling().subtitles())?;
    let mut notes = picked.telling().notes();
    notes.push(tables(&this.known));
    let y = NumericAxis {
        title: "exact start number".to_owned(),
        unit: "diamonds, groove".to_owned(),
        ..NumericAxis::default()
    };
    let look = picture_look(&options, PictureLook::default())?;
    let x = layout.along(&axes);
    let picture = LinesPicture { title, subtitles, x, y, series: drawn, bands: all, notes, look };
    Session::of(lua)?.add_drawing(&options, "lines", Picture::Lines(picture))?;
    Ok(())
}
