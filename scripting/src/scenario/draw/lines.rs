//! `map:draw_lines { x, y, series }`: one number of each bank over an axis.

use super::map::of_rule;
use super::{apart, axis_at, dimension_at, nothing_left};
use crate::fault::Fault;
use crate::lua::options::{Options, text};
use crate::picture::{
    Band, BandEdges, LinesPicture, MOST_POINTS, MOST_SERIES, NumericAxis, PictureError, Series,
};
use crate::record::Picture;
use crate::scenario::map::Map;
use crate::scenario::measures::drawn;
use crate::scenario::point_selection::{AxisOrRules, PointSelection};
use crate::scenario::session::Session;
use mlua::{Lua, Value};
use railproof_engine::bank::Arrival;
use railproof_engine::results::{BANK_MEASURES, BankResult};
use railproof_engine::sweep::Tables;

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw_lines(lua: &Lua, this: &Map, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &["x", "y", "series", "rule", "title", "name"];
    let options = Options::open(lua, "draw_lines", &argument, KEYS)?;
    let picked = of_rule(&options, &this.picked)?;
    let x = numeric_axis(&options, &picked)?;
    let measure = drawn(&options, BANK_MEASURES, "a bank")?;
    let series = dimension_at(&options, "series", &picked)?;
    let mut shown = vec![("x", AxisOrRules::Axis(x))];
    shown.extend(series.map(|series| ("series", series)));
    apart(&options, &shown)?;
    let axes: Vec<AxisOrRules> = shown.into_iter().map(|(_, what)| what).collect();
    nothing_left(&options, &picked, &axes, "`x` or `series`")?;
    let ways = picked.rules.len().max(1);
    let shown = measure.shown();
    let mut tables = Tables::default();
    let lines = series_of(&picked, x, series, |point, rule| {
        let row = this.record.rows.get(point * ways + rule)?;
        let plan = &this.record.plan;
        let result = BankResult::of_row(&mut tables, plan, &plan.digits(point), row).ok()?;
        measure.number(&result).map(|number| shown.of(number))
    });
    fits(&options, &lines)?;
    let mut notes = picked.telling().notes();
    let bands = if measure.name == "miss" { bands(this, &picked, x, series) } else { Vec::new() };
    let of_what = picked.telling().rule;
    let named = if of_what.is_empty() { String::new() } else { format!(": {of_what}") };
    let title = options
        .optional("title", text())?
        .unwrap_or_else(|| format!("{}{named}", headline(measure.title())));
    let text = picked.text(x);
    notes.push(format!("Model: {}.", picked.telling().model()));
    let picture = LinesPicture {
        title,
        subtitles: picked.telling().subtitles(),
        x: NumericAxis { title: text.title.to_owned(), unit: text.picture_unit() },
        y: NumericAxis { title: measure.title().to_owned(), unit: shown.unit.to_owned() },
        series: lines,
        bands,
        notes,
    };
    Session::of(lua)?.add_drawing(&options, "lines", Picture::Lines(picture))?;
    Ok(())
}

fn headline(title: &str) -> String {
    let short = title.split(':').next().unwrap_or(title);
    let mut letters = short.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}

/// The axis at `x`, which must have numbers.
pub fn numeric_axis(options: &Options, picked: &PointSelection) -> Result<usize, Fault> {
    let x = axis_at(options, "x", picked)?;
    if picked.text(x).amounts.is_empty() {
        return Err(options
            .complain(
                "x",
                format!(
                    "lines need numbers along x, and `{}` has none",
                    picked.name_of(AxisOrRules::Axis(x))
                ),
            )
            .with_hint("show it as `series`"));
    }
    Ok(x)
}

/// The lines: one for each place of `series`, its points in the order of x.
pub fn series_of(
    picked: &PointSelection,
    x: usize,
    series: Option<AxisOrRules>,
    mut value: impl FnMut(usize, usize) -> Option<f64>,
) -> Vec<Series> {
    let mut line = |picked: &PointSelection, label: String| {
        let amounts = &picked.text(x).amounts;
        let rule = picked.kept_rules[0];
        let mut points: Vec<(f64, f64)> = picked
            .points()
            .into_iter()
            .zip(&picked.kept[x])
            .map(|(point, place)| (amounts[*place], value(point, rule).unwrap_or(f64::NAN)))
            .collect();
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
        Series { label, points }
    };
    match series {
        None => vec![line(picked, String::new())],
        Some(dimension) => picked
            .places(dimension)
            .iter()
            .map(|place| line(&picked.only(dimension, *place), picked.say(dimension, *place)))
            .collect(),
    }
}

/// Refuses what the picture itself would refuse later, while the place is still known.
pub fn fits(options: &Options, series: &[Series]) -> Result<(), Fault> {
    let points: usize = series.iter().map(|line| line.points.len()).sum();
    let error = if series.len() > MOST_SERIES {
        PictureError::TooManySeries { series: series.len(), most: MOST_SERIES }
    } else if points > MOST_POINTS {
        PictureError::TooManyPoints { points, most: MOST_POINTS }
    } else if series.iter().flat_map(|line| &line.points).all(|(_, y)| !y.is_finite()) {
        PictureError::NothingToDraw
    } else {
        return Ok(());
    };
    Err(options.complain_of_call(error.to_string()))
}

/// Lines at most whose mouths are drawn one by one.
const MOST_MOUTHS: usize = 6;
/// Mouths as near to each other as this at every x are drawn as one, mm.
const ONE_MOUTH_MM: f64 = 0.1;

/// The misses between which each bank clears both mouth points. How wide the mouth is depends on the
/// table and on the angle at which the ball comes, so each line has its own; a bank lies inside its
/// own exactly when it holds.
fn bands(map: &Map, picked: &PointSelection, x: usize, series: Option<AxisOrRules>) -> Vec<Band> {
    let ways = picked.rules.len().max(1);
    let edge = |of: fn(&Arrival) -> f64| {
        series_of(picked, x, series, |point, rule| {
            let row = map.record.rows.get(point * ways + rule)?;
            row.outcome.arrival.as_ref().map(|arrival| 1e3 * of(arrival))
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
    let near = |a: f64, b: f64| (a.is_nan() && b.is_nan()) || (a - b).abs() <= ONE_MOUTH_MM;
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
