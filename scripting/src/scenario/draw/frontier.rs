//! `front:draw { x, panels }`: where it holds, with its edges.

use super::PictureAxes;
use super::look::{headline, picture_look};
use super::map::{flag_label, is_speed};
use crate::fault::Fault;
use crate::lua::options::Options;
use crate::lua::quantity::shown;
use crate::picture::{
    BoundaryKind, FrontierBar, FrontierCurve, FrontierPanel, FrontierPicture, FrontierRegion,
    MOST_PANELS, NumericAxis, PictureError, PictureLook, true_minus,
};
use crate::record::Picture;
use crate::scenario::frontier::Front;
use crate::scenario::point_selection::{AxisOrRules, PointSelection};
use crate::scenario::session::Session;
use crate::telling::{InputFormat, capital};
use mlua::{Lua, Value};
use railproof_engine::frontier::{BreakKind, Certificate, FrontierLine, Sheet, Strip};

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw(lua: &Lua, this: &Front, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &["x", "panels", "title", "subtitle", "legend", "size", "name"];
    let options = Options::open(lua, "draw", &argument, KEYS)?;
    let axes = PictureAxes::of(&this.picked);
    let x = across(&options, this, &axes)?;
    let panels = axes.axis(&options, "panels")?;
    let mut shown = vec![("x", x)];
    shown.extend(panels.map(|panels| ("panels", panels)));
    PictureAxes::apart(&options, &shown)?;
    if panels == Some(this.along) {
        return Err(options.complain("panels", "the frontier runs along this input").into());
    }
    let mut shown: Vec<usize> = shown.into_iter().map(|(_, axis)| axis).collect();
    shown.push(this.along);
    axes.nothing_left(&options, &shown, "`x` or `panels`")?;
    let panel_count = panels.map_or(1, |panels| axes.count_along(panels));
    if panel_count > MOST_PANELS {
        let error = PictureError::Panels { panels: panel_count, most: MOST_PANELS };
        return Err(options.complain("panels", error.to_string()).into());
    }
    let mut picture = picture(this, x, panels.map(|axis| this.picked.at(axis)));
    picture.finding =
        true_minus(&found(&picture, (axes_name(&this.picked, this.along), this.measured().unit())));
    (picture.title, picture.subtitles) =
        headline(&options, &picture.finding, picture.title, picture.subtitles)?;
    picture.look = picture_look(&options, PictureLook::default())?;
    Session::of(lua)?.add_drawing(&options, "frontier", Picture::Frontier(picture))?;
    Ok(())
}

/// The axis that goes along x: the one traced over, or else one of numbers.
fn across(options: &Options, front: &Front, axes: &PictureAxes) -> Result<usize, Fault> {
    match (axes.axis(options, "x")?, front.over) {
        (None, Some(over)) => Ok(over),
        (Some(at), Some(over)) if at == over => Ok(over),
        (Some(_), Some(over)) => {
            let name = &axes.axes[over].name;
            Err(options.complain(
                "x",
                format!("the edges were traced over `{name}`, so only `{name}` goes along x"),
            ))
        }
        (Some(at), None) if at == front.along => {
            Err(options.complain("x", "the frontier runs along this input, which goes up"))
        }
        (Some(at), None) if !axes.axes[at].amounts.is_empty() => Ok(at),
        (Some(_), None) => Err(options.complain("x", "`x` must be an axis of numbers")),
        (None, None) => Err(options
            .complain_of_call("draw needs `x`: an axis of numbers beside which the lines stand")),
    }
}

fn picture(front: &Front, x: usize, panels: Option<AxisOrRules>) -> FrontierPicture {
    let picked = &front.picked;
    let up = front.measured();
    let across = InputFormat::new(
        picked.text(x),
        front.record.search.across.map_or(f64::MIN_POSITIVE, |across| across.tolerance),
    );
    let parts: Vec<Front> = match panels {
        None => vec![front.clone()],
        Some(dimension) => {
            let only =
                |place: &usize| Front { picked: picked.only(dimension, *place), ..front.clone() };
            picked.places(dimension).iter().map(only).collect()
        }
    };
    let caption = |part: &Front| match panels {
        None => String::new(),
        Some(dimension) => picked.say(dimension, part.picked.places(dimension)[0]),
    };
    let panels = parts.iter().map(|part| panel(part, caption(part), x, (across, up))).collect();
    let values = &picked.plan().axes()[x].values;
    let places: Vec<f64> =
        picked.kept[x].iter().filter_map(|place| values.number(*place)).collect();
    let (low, high) = ends(places.iter().map(|si| across.amount(*si)));
    // Lines of their own have room beside them.
    let beside = match front.over {
        Some(_) => 0.0,
        None if places.len() > 1 => 0.5 * (high - low) / (places.len() - 1) as f64,
        None => 0.5,
    };
    let axis = |at: usize| {
        let text = picked.text(at);
        NumericAxis {
            title: text.title.to_owned(),
            unit: text.picture_unit(),
            ..NumericAxis::default()
        }
    };
    let telling = picked.telling();
    let rule = telling.rule();
    let title = if rule.is_empty() {
        "Where holding turns into breaking".to_owned()
    } else {
        format!("Where the rule stops holding: {rule}")
    };
    let mut notes = picked.telling().footer();
    notes.push(front.telling().certificate());
    FrontierPicture {
        title,
        finding: String::new(),
        subtitles: picked.telling().subtitles(),
        x: axis(x),
        y: axis(front.along),
        x_range: (low - beside, high + beside),
        y_range: ends(front.record.found.probes.iter().map(|si| up.amount(*si))),
        flag_label: flag_label([axes_name(picked, x), axes_name(picked, front.along)]),
        panels,
        notes,
        look: PictureLook::default(),
    }
}

fn axes_name(picked: &PointSelection, axis: usize) -> &'static str {
    picked.name_of(AxisOrRules::Axis(axis))
}

/// Where every line of a panel holds, panel by panel: `Contact 2: 4.1 to 7.8 m/s.` Empty when there are
/// too many panels to tell.
fn found(picture: &FrontierPicture, input: (&str, &str)) -> String {
    const MOST: usize = 4;
    if picture.panels.len() > MOST {
        return String::new();
    }
    let told = picture.panels.iter().map(|panel| {
        let all = panel.always.map_or_else(
            || "not all the way at any one value".to_owned(),
            |(low, high)| between((low, high), picture.y_range, input),
        );
        if panel.caption.is_empty() {
            format!("{all}.")
        } else {
            format!("{}: {all}.", panel.caption)
        }
    });
    told.map(|sentence| capital(&sentence)).collect::<Vec<_>>().join(" ")
}

/// A stretch in words, its ends rounded inwards to what can be set; a number without a unit has its
/// input's name before it.
fn between((low, high): (f64, f64), range: (f64, f64), (name, unit): (&str, &str)) -> String {
    let step = if range.1 - range.0 > 2.0 { 0.1 } else { 0.01 };
    let grain = 1e-6;
    let (from, to) = ((low / step - grain).ceil() * step, (high / step + grain).floor() * step);
    let whole = 1e-9 * (range.1 - range.0);
    let number = |value: f64| shown((value * 1e3).round() / 1e3).replace('-', "−");
    let (from, to) = (number(from), number(to));
    let told = |text: String| {
        if unit.is_empty() { format!("{name} {text}") } else { format!("{text} {unit}") }
    };
    match (low <= range.0 + whole, high >= range.1 - whole) {
        (true, true) => "all the way".to_owned(),
        (true, false) => format!("up to {}", told(to)),
        (false, true) => format!("{} or more", told(from)),
        (false, false) => told(format!("{from} to {to}")),
    }
}

/// The widest stretch that holds on every line, in the units of the picture.
fn always(part: &Front, up: InputFormat) -> Option<(f64, f64)> {
    let mut common: Option<Vec<(f64, f64)>> = None;
    for line in part.sheets().flat_map(|sheet| &sheet.lines) {
        let here = line.intervals.iter().map(|it| (it.low.place(), it.high.place()));
        let here: Vec<(f64, f64)> = here.collect();
        common = Some(match common {
            None => here,
            Some(known) => known
                .iter()
                .flat_map(|a| here.iter().map(move |b| (a.0.max(b.0), a.1.min(b.1))))
                .filter(|(low, high)| low < high)
                .collect(),
        });
    }
    let widest = common?.into_iter().max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))?;
    Some((up.amount(widest.0), up.amount(widest.1)))
}

/// The end of the checked range along the searched lines, to the probes: the first flagged place of each.
/// A run of them ends in the interval's own end where that is flagged already.
fn checked(sheet: &Sheet, least: f64) -> Vec<Vec<(f64, f64)>> {
    let mut runs: Vec<Vec<(f64, f64)>> = Vec::new();
    let mut run: Vec<(f64, f64)> = Vec::new();
    // Lines in between were looked at beside their edges only.
    let is_searched = |line: &&FrontierLine| matches!(line.looked, Certificate::Searched { .. });
    for line in sheet.lines.iter().filter(is_searched) {
        let flagged = line.intervals.iter().find_map(|it| Some((it.low.place(), it.flagged?.0)));
        let place = line.across.zip(flagged);
        run.extend(place.map(|(across, (_, from))| (across, from)));
        if place.is_none_or(|(_, (low, from))| from - low <= least) {
            runs.push(std::mem::take(&mut run));
        }
    }
    runs.push(run);
    runs.retain(|run| run.len() > 1);
    runs
}

fn ends(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    })
}

fn panel(
    part: &Front,
    caption: String,
    x: usize,
    (across, up): (InputFormat, InputFormat),
) -> FrontierPanel {
    let mut panel = FrontierPanel {
        caption,
        summary: format!("{}{}", summary(part), sureness(part)),
        regions: Vec::new(),
        curves: Vec::new(),
        lines: Vec::new(),
        bars: Vec::new(),
        checked: Vec::new(),
        always: always(part, up),
    };
    let placed = |points: Vec<(f64, f64)>| {
        points.into_iter().map(|(x, y)| (across.amount(x), up.amount(y))).collect()
    };
    // Speeds have a checked range; along anything else flags begin and end anywhere.
    let by_speed = is_speed(axes_name(&part.picked, part.along));
    for sheet in part.sheets() {
        if part.over.is_some() {
            for strip in &sheet.strips {
                panel.regions.push(FrontierRegion { outline: placed(outline(sheet, strip)) });
            }
            if by_speed {
                let runs = checked(sheet, part.record.search.tolerance);
                panel.checked.extend(runs.into_iter().map(placed));
            }
            panel.curves.extend(sheet.curves().into_iter().map(|curve| FrontierCurve {
                kind: kind(curve.way),
                lower: curve.lower,
                points: placed(curve.points),
            }));
            continue;
        }
        let Some(at) = part.picked.plan().axes()[x].values.number(sheet.digits[x]) else {
            continue;
        };
        panel.lines.push(across.amount(at));
        for interval in sheet.lines.iter().flat_map(|line| &line.intervals) {
            if let Some((from, _)) = interval.flagged
                && by_speed
                && from - interval.low.place() > part.record.search.tolerance
            {
                panel.checked.push(vec![(across.amount(at), up.amount(from))]);
            }
            panel.bars.push(FrontierBar {
                x: across.amount(at),
                from: up.amount(interval.low.place()),
                to: up.amount(interval.high.place()),
                below: interval.low.way().map(kind),
                above: interval.high.way().map(kind),
                agreement: None,
            });
        }
    }
    panel
}

const fn kind(way: BreakKind) -> BoundaryKind {
    match way {
        BreakKind::Long => BoundaryKind::Long,
        BreakKind::Short => BoundaryKind::Short,
        BreakKind::Stops => BoundaryKind::Stops,
        BreakKind::Elsewhere => BoundaryKind::Elsewhere,
    }
}

/// A strip's outline: along its lower ends and back along its upper ones.
fn outline(sheet: &Sheet, strip: &Strip) -> Vec<(f64, f64)> {
    let [opens, closes] = sheet.strip_ends(strip);
    let mut lower: Vec<(f64, f64)> = opens.iter().map(|ends| ends[0]).collect();
    let mut upper: Vec<(f64, f64)> = opens.iter().map(|ends| ends[1]).collect();
    for (line, interval) in sheet.along_strip(strip) {
        let Some(across) = line.across else { continue };
        lower.push((across, interval.low.place()));
        upper.push((across, interval.high.place()));
    }
    lower.extend(closes.iter().map(|ends| ends[0]));
    upper.extend(closes.iter().map(|ends| ends[1]));
    lower.into_iter().chain(upper.into_iter().rev()).collect()
}

/// Words for a panel in which something holds beyond the checked range.
fn sureness(part: &Front) -> &'static str {
    let mut intervals =
        part.sheets().flat_map(|sheet| &sheet.lines).flat_map(|line| &line.intervals);
    if intervals.any(|interval| interval.flagged.is_some()) { "; partly less sure" } else { "" }
}

/// Where along x anything holds, in a few words.
fn summary(part: &Front) -> String {
    let Some(over) = part.measured_over() else {
        let holding = part.lines().filter(|(_, line, _)| !line.intervals.is_empty()).count();
        return match (holding, part.lines().count()) {
            (0, 1) => "holds nowhere".to_owned(),
            (_, 1) => "holds somewhere".to_owned(),
            (1, all) => format!("1 of {all} lines holds somewhere"),
            (_, all) => format!("{holding} of {all} lines hold somewhere"),
        };
    };
    let across: Vec<f64> = part
        .sheets()
        .flat_map(|sheet| &sheet.lines)
        .filter(|line| !line.intervals.is_empty())
        .filter_map(|line| line.across)
        .collect();
    match (across.iter().copied().reduce(f64::min), across.iter().copied().reduce(f64::max)) {
        (Some(low), Some(high)) => {
            let (low, high) = (over.amount(low), over.tick(high));
            let low = shown((1e3 * low).round() / 1e3);
            format!("holds somewhere from {low} to {high}")
        }
        _ => "holds nowhere".to_owned(),
    }
}
