//! Lines: one number of results over an axis.

use super::PictureAxes;
use crate::fault::Fault;
use crate::lua::options::Options;
use crate::picture::{
    Band, BandEdges, MOST_POINTS, MOST_SERIES, NumericAxis, PictureError, Series,
};
use crate::telling::caution::LESS_SURE;

/// The axis along x, and the one that has a line for each of its values.
#[derive(Debug, Clone, Copy)]
pub struct LinesLayout {
    pub x: usize,
    pub series: Option<usize>,
}

impl LinesLayout {
    /// What the options say; every axis that varies must be shown.
    pub fn read(options: &Options, axes: &PictureAxes) -> Result<Self, Fault> {
        let layout = Self::of(options, axes)?;
        layout.has_room(options, axes)?;
        Ok(layout)
    }

    /// What the options say.
    pub fn of(options: &Options, axes: &PictureAxes) -> Result<Self, Fault> {
        let x = axes.required(options, "x")?;
        let axis = &axes.axes[x];
        if axis.amounts.is_empty() {
            let message = format!("lines need numbers along x, and `{}` has none", axis.name);
            return Err(options.complain("x", message).with_hint("show it as `series`"));
        }
        let series = axes.axis(options, "series")?;
        let mut shown = vec![("x", x)];
        shown.extend(series.map(|series| ("series", series)));
        PictureAxes::apart(options, &shown)?;
        Ok(Self { x, series })
    }

    /// The axes that it shows.
    pub fn shown(&self) -> Vec<usize> {
        [Some(self.x), self.series].into_iter().flatten().collect()
    }

    /// Refuses a picture in which an axis that varies is not shown.
    pub fn has_room(&self, options: &Options, axes: &PictureAxes) -> Result<(), Fault> {
        axes.nothing_left(options, &self.shown(), "`x` or `series`")
    }

    /// The axis along x as the picture has it.
    pub fn along(&self, axes: &PictureAxes) -> NumericAxis {
        let axis = &axes.axes[self.x];
        let words = axis.amounts.iter().copied().zip(axis.ticks.iter().cloned());
        let words = if axis.by_word { words.collect() } else { Vec::new() };
        NumericAxis { title: axis.title.clone(), unit: axis.unit.clone(), words }
    }

    /// Words for points of which the model is less sure; nothing where there are none.
    pub fn less_sure(
        &self,
        axes: &PictureAxes,
        flagged: impl FnMut(usize) -> Option<bool>,
    ) -> Option<String> {
        let lines = self.flagged(axes, flagged);
        let points = || lines.iter().flat_map(|line| &line.points);
        let from =
            points().filter(|(_, flag)| *flag > 0.5).map(|(x, _)| *x).min_by(f64::total_cmp)?;
        let axis = &axes.axes[self.x];
        let whole = points().all(|(x, flag)| *x < from || *flag > 0.5 || flag.is_nan());
        let label = axis.amounts.iter().position(|x| *x == from).map(|at| &axis.labels[at]);
        Some(match label.filter(|_| whole && ["speed", "lag"].contains(&axis.name.as_str())) {
            Some(_) if points().all(|(_, flag)| *flag > 0.5 || flag.is_nan()) => {
                format!("Less sure: all of these {LESS_SURE}.")
            }
            Some(label) => {
                format!("From {label} on, less sure: harder than the model was checked for.")
            }
            None => {
                let known = || points().filter(|(_, flag)| !flag.is_nan());
                less_sure_part(known().filter(|(_, flag)| *flag > 0.5).count(), known().count())
            }
        })
    }

    /// The lines of flags: 1 where a point has one.
    pub fn flagged(
        &self,
        axes: &PictureAxes,
        mut flagged: impl FnMut(usize) -> Option<bool>,
    ) -> Vec<Series> {
        self.lines(axes, |row| flagged(row).map(|flagged| f64::from(u8::from(flagged))))
    }

    /// The lines, each with its points in the order of x; `value` is the number of a row.
    pub fn lines(
        &self,
        axes: &PictureAxes,
        mut value: impl FnMut(usize) -> Option<f64>,
    ) -> Vec<Series> {
        let count = self.series.map_or(1, |series| axes.count_along(series));
        let mut line = |place: usize| {
            let point = |(at, x): (usize, &f64)| {
                let mut places = vec![(self.x, at)];
                places.extend(self.series.map(|series| (series, place)));
                (*x, axes.row(&places).and_then(&mut value).unwrap_or(f64::NAN))
            };
            let mut points: Vec<(f64, f64)> =
                axes.axes[self.x].amounts.iter().enumerate().map(point).collect();
            points.sort_by(|a, b| a.0.total_cmp(&b.0));
            let label = self.series.map(|series| axes.axes[series].labels[place].clone());
            Series { label: label.unwrap_or_default(), points }
        };
        (0..count).map(&mut line).collect()
    }
}

/// The band between the lowest and the highest course of a line; `line` says of which, where it is of one.
pub fn band_between(low: &Series, high: &Series, line: Option<usize>, label: &str) -> Band {
    let edges = low.points.iter().zip(&high.points);
    let edges = edges.map(|((x, from), (_, to))| BandEdges { x: *x, from: *from, to: *to });
    Band { edges: edges.collect(), line, label: label.to_owned() }
}

/// Words for the flagged results among all of a picture.
pub fn less_sure_part(flagged: usize, all: usize) -> String {
    let part = match all {
        all if flagged == all => "all",
        all if 2 * flagged > all => "most",
        _ => "some",
    };
    format!("Less sure: {part} of these {LESS_SURE}.")
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
