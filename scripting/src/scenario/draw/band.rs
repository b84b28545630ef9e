//! `band:draw { x, panels }`: where it is sure to hold, depends on the table, and is sure to miss.

use super::look::{headline, picture_look};
use super::{PictureAxes, tables};
use crate::lua::options::Options;
use crate::picture::{
    BarAgreement, BoundaryKind, FrontierBar, FrontierPanel, FrontierPicture, MOST_PANELS,
    NumericAxis, PictureError, PictureLook, true_minus,
};
use crate::record::Picture;
use crate::scenario::ensemble::band::EnsembleBand;
use crate::scenario::session::Session;
use crate::telling::InputFormat;
use mlua::{Lua, Value};
use railproof_engine::ask::{Agreement, BandLine, ShareLevel};

/// Lines that a title tells of.
const MOST_TOLD: usize = 2;

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw(lua: &Lua, this: &EnsembleBand, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &["x", "panels", "title", "subtitle", "legend", "size", "name"];
    let options = Options::open(lua, "draw", &argument, KEYS)?;
    let axes = PictureAxes::of(&this.picked);
    let x = axes.required(&options, "x")?;
    if x == this.along {
        let message = "the band runs along this input, which goes up";
        return Err(options.complain("x", message).into());
    }
    if axes.axes[x].amounts.is_empty() {
        return Err(options.complain("x", "`x` must be an axis of numbers").into());
    }
    let panels = axes.axis(&options, "panels")?;
    if panels == Some(this.along) {
        return Err(options.complain("panels", "the band runs along this input").into());
    }
    let mut shown = vec![("x", x)];
    shown.extend(panels.map(|panels| ("panels", panels)));
    PictureAxes::apart(&options, &shown)?;
    let shown: Vec<usize> = shown.into_iter().map(|(_, axis)| axis).chain([this.along]).collect();
    axes.nothing_left(&options, &shown, "`x` or `panels`")?;
    let places: Vec<Option<usize>> = match panels {
        None => vec![None],
        Some(at) => this.picked.kept[at].iter().copied().map(Some).collect(),
    };
    if places.len() > MOST_PANELS {
        let error = PictureError::Panels { panels: places.len(), most: MOST_PANELS };
        return Err(options.complain("panels", error.to_string()).into());
    }
    let up = this.measured();
    let part = |place: &Option<usize>| panel(this, (x, up), panels.zip(*place));
    let told = this.sentences();
    let found = if told.len() <= MOST_TOLD { true_minus(&told.join(" ")) } else { String::new() };
    let asked = "Where it is sure to hold, and where it depends on your table".to_owned();
    let (title, subtitles) = headline(&options, &found, asked, this.picked.telling().subtitles())?;
    let values = &axes.axes[x].amounts;
    let (low, high) = ends(values.iter().copied());
    let beside =
        if values.len() > 1 { 0.5 * (high - low) / (values.len() - 1) as f64 } else { 0.5 };
    let looks = this.found.iter().flat_map(|(_, line)| &line.looks);
    let axis = |at: usize| {
        let text = this.picked.text(at);
        let (title, unit) = (text.title.to_owned(), text.picture_unit());
        NumericAxis { title, unit, ..NumericAxis::default() }
    };
    let mut notes = this.picked.telling().notes();
    notes.push(tables(&this.known));
    let picture = FrontierPicture {
        title,
        finding: found,
        subtitles,
        x: axis(x),
        y: axis(this.along),
        x_range: (low - beside, high + beside),
        y_range: ends(looks.map(|look| up.amount(look.place))),
        flag_label: String::new(),
        panels: places.iter().map(part).collect(),
        notes,
        look: picture_look(&options, PictureLook::default())?,
    };
    Session::of(lua)?.add_drawing(&options, "band", Picture::Frontier(picture))?;
    Ok(())
}

fn ends(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    })
}

fn panel(
    band: &EnsembleBand,
    (x, up): (usize, InputFormat),
    only: Option<(usize, usize)>,
) -> FrontierPanel {
    let mut panel = FrontierPanel {
        caption: only.map_or_else(String::new, |(at, place)| band.picked.text(at).say(place)),
        summary: String::new(),
        regions: Vec::new(),
        curves: Vec::new(),
        lines: Vec::new(),
        bars: Vec::new(),
        always: None,
        checked: Vec::new(),
    };
    let amounts = &band.picked.text(x).amounts;
    let wanted = |digits: &[usize]| only.is_none_or(|(at, place)| digits[at] == place);
    for (digits, line) in band.lines().filter(|(digits, _)| wanted(digits)) {
        let Some(at) = amounts.get(digits[x]).copied() else { continue };
        panel.lines.push(at);
        panel.bars.extend(bars(line, at, up));
    }
    panel
}

/// A bar for each stretch of a line, parted where half of the tables hold.
fn bars(line: &BandLine, x: f64, up: InputFormat) -> Vec<FrontierBar> {
    let halves: Vec<f64> = line.crossings_of(ShareLevel::Half).map(|it| it.place).collect();
    let mut bars = Vec::new();
    for stretch in line.stretches() {
        let agreement = match stretch.agreement {
            Agreement::All => BarAgreement::Sure,
            Agreement::Depends => BarAgreement::Depends,
            Agreement::None => BarAgreement::Misses,
        };
        let inside = halves.iter().copied().filter(|at| stretch.from < *at && *at < stretch.to);
        let mut from = stretch.from;
        for to in inside.chain([stretch.to]) {
            let is_half = to < stretch.to;
            bars.push(FrontierBar {
                x,
                from: up.amount(from),
                to: up.amount(to),
                below: None,
                above: is_half.then_some(BoundaryKind::Half),
                agreement: Some(agreement),
            });
            from = to;
        }
    }
    bars
}
