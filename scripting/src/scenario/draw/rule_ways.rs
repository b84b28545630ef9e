//! `report:draw_lines { … }`: the errors of three ways of going between known lines.

use super::lines::fits;
use super::look::{headline, picture_look};
use crate::lua::options::{Options, choice};
use crate::picture::{LinesPicture, NumericAxis, PictureLook, Series};
use crate::record::Picture;
use crate::scenario::rule_ways::WaysReport;
use crate::scenario::session::Session;
use mlua::{Lua, Value};
use railproof_engine::rule::WaysRow;

type Of = fn(&WaysRow) -> f64;

pub fn draw_lines(lua: &Lua, this: &WaysReport, argument: Value) -> mlua::Result<()> {
    const ALONG: &[(&str, (Of, &str))] = &[
        ("contact", (|row| row.contact, "contact number")),
        ("from_line", (|row| row.from_line, "distance from the nearest known line")),
    ];
    const KEYS: &[&str] = &["x", "title", "subtitle", "legend", "size", "name"];
    let options = Options::open_or_none(lua, "draw_lines", argument, KEYS)?;
    let (along, x_title) = options.optional("x", choice(ALONG))?.unwrap_or(ALONG[0].1);
    let report = &this.0;
    let ways: [(String, Of); 3] = [
        ("interpolated".to_owned(), |row| row.interpolated.unwrap_or(f64::NAN)),
        (format!("shifted {} to 1", report.ratio), |row| row.proportional),
        ("shifted parallel".to_owned(), |row| row.parallel),
    ];
    let series: Vec<Series> = ways
        .into_iter()
        .map(|(label, of)| {
            let mut points: Vec<(f64, f64)> =
                report.rows.iter().map(|row| (along(row), of(row))).collect();
            points.sort_by(|a, b| a.0.total_cmp(&b.0));
            Series { label, points }
        })
        .filter(|line| line.points.iter().any(|(_, y)| y.is_finite()))
        .collect();
    fits(&options, &series)?;
    let asked = "How wrong each way of going between known lines is".to_owned();
    let conditions = vec!["Start number that each way gives, minus the exact one.".to_owned()];
    let (title, subtitles) = headline(&options, "", asked, conditions)?;
    let picture = LinesPicture {
        title,
        subtitles,
        x: NumericAxis {
            title: x_title.to_owned(),
            unit: "diamonds, groove".to_owned(),
            ..NumericAxis::default()
        },
        y: NumericAxis {
            title: "error of the start number".to_owned(),
            unit: "diamonds".to_owned(),
            ..NumericAxis::default()
        },
        series,
        bands: Vec::new(),
        notes: vec![
            "Above zero the start lies too far from the pocket's end of the rail.".to_owned(),
        ],
        look: picture_look(&options, PictureLook::default())?,
    };
    Session::of(lua)?.add_drawing(&options, "lines", Picture::Lines(picture))?;
    Ok(())
}
