//! A run in about ten lines: the findings, the claims, and the picture to look at.

use super::expectations;
use super::findings::findings;
use super::page::{Page, PageStyle};
use super::{
    MOST_SHOWN, failed_beside_shown, left_out, not_played_here, printed, remarks, tally, warned,
};
use crate::exit::Exit;
use crate::fault::tame;
use crate::record::{Drawing, Expectation, Picture, Record};
use crate::store::RunFiles;
use crate::telling::caution::LESS_SURE;
use crate::telling::{
    PlayedLines, count, less_sure, slope_of_sweep, sweep_place, without_sureness,
};
use railproof_engine::sweep::Tally;

/// The most findings, and the most pictures that are named; the others are counted.
const MOST: usize = 5;
/// The most places that are named.
const MOST_PLACES: usize = 2;

/// The answer of a run; [`full`](super::full) tells the rest.
pub fn brief(record: &Record, written: Option<&RunFiles>, look: PageStyle) -> String {
    let mut page = Page::new(look);
    // How sure they are stands below them, once.
    let told = sureness(record);
    let found = findings(record).into_iter().map(|line| match told {
        Some(_) => without_sureness(&line),
        None => line,
    });
    let found: Vec<String> = found.collect();
    found.iter().take(MOST).for_each(|line| page.line(0, &tame(line)));
    if found.len() > MOST {
        page.line(0, &format!("… and {} more; --full shows them", found.len() - MOST));
    }
    for way_out in record.maps.iter().filter_map(|map| map.way_out()) {
        page.line(0, &slope_of_sweep(&way_out));
    }
    if let Some(told) = told {
        page.line(0, &told);
    }
    for told in places(record) {
        page.line(0, &tame(&told));
    }
    for plan in &record.plans {
        page.line(0, &not_played_here(record, plan));
    }
    remarks(&mut page, record);
    printed(&mut page, record);
    let failed = record.expectations.iter().filter(|it| !it.held);
    let shown = failed.take(MOST_SHOWN);
    let folder = written.map(|files| files.folder.as_path());
    shown.for_each(|failed: &Expectation| expectations::show_briefly(&mut page, failed, folder));
    failed_beside_shown(&mut page, record);
    warned(&mut page, record, folder);
    left_out::show(&mut page, record);
    let file = tame(&record.file.display().to_string());
    let claims = match tally(record) {
        told if told.is_empty() => told,
        _ if record.expectations.is_empty() && record.exit() == Exit::Held => String::new(),
        told => format!(": {told}"),
    };
    page.line(0, &format!("{file}{claims}; --full tells more"));
    record.cautions().lines().iter().for_each(|caution| page.line(0, caution));
    if let Some(written) = written {
        files(&mut page, record, written);
    }
    page.into_text()
}

/// Where the banks were played, and their lines by both readings; of several rules or places, the places alone.
fn places(record: &Record) -> Vec<String> {
    let maps = record.maps.iter().map(|map| (&map.plan, &map.rules));
    let fronts = record.frontiers.iter().map(|front| (&front.plan, &front.rules));
    let mut told: Vec<(String, String)> = Vec::new();
    for (plan, rules) in maps.chain(fronts) {
        let kept: Vec<Vec<usize>> =
            plan.axes().iter().map(|axis| (0..axis.values.len()).collect()).collect();
        let lines = PlayedLines { plan, kept: &kept };
        let told_lines = match rules.as_slice() {
            [] => lines.brief(None),
            [only] => lines.brief(Some(&only.rule)),
            _ => None,
        };
        let this = (sweep_place(plan), told_lines.unwrap_or_default());
        if !told.contains(&this) {
            told.push(this);
        }
    }
    if let [(place, lines)] = told.as_slice() {
        return vec![format!("{place} {lines}").trim_end().to_owned()];
    }
    told.dedup_by(|a, b| a.0 == b.0);
    told.into_iter().map(|(place, _)| place).take(MOST_PLACES).collect()
}

/// The results of which the model is less sure.
fn sureness(record: &Record) -> Option<String> {
    let maps = record.maps.iter().map(|map| Tally::of(&map.rows));
    let tallies: Vec<Tally> = maps.chain(record.shots.iter().map(|it| it.tally())).collect();
    let sheets = record.frontiers.iter().flat_map(|front| &front.found.sheets);
    let mut lines = sheets.flat_map(|sheet| &sheet.lines).flat_map(|line| &line.intervals);
    let of_lines = || {
        lines
            .any(|interval| interval.flagged.is_some())
            .then(|| format!("Less sure: some of these {LESS_SURE}."))
    };
    less_sure(&tallies).or_else(of_lines)
}

/// The picture to look at, and how many files lie beside it.
fn files(page: &mut Page, record: &Record, written: &RunFiles) {
    let files = count(written.files.len() as u64, "file", "files");
    let asked = |it: &&Drawing| !matches!(it.picture, Picture::BeforeAfter(_));
    let first = record.drawings.iter().find(asked).or(record.drawings.first());
    let Some(first) = first else {
        return page
            .line(0, &format!("{files} in {}", tame(&written.folder.display().to_string())));
    };
    let picture = written.folder.join(format!("{}.png", first.name));
    let others: Vec<String> = record
        .drawings
        .iter()
        .filter(|drawing| drawing.name != first.name)
        .map(|drawing| format!("{}.png", drawing.name))
        .collect();
    let more = others.len().saturating_sub(MOST_PICTURES);
    let also = match others[..others.len() - more].join(", ") {
        named if named.is_empty() => named,
        named if more > 0 => format!(", also {named} and {more} more"),
        named => format!(", also {named}"),
    };
    page.verbatim(&format!("{} ({files} there{also})", tame(&picture.display().to_string())));
}

/// Other pictures than the first are named up to so many.
const MOST_PICTURES: usize = 4;
