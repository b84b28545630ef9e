//! The words of a run on the terminal: plain sentences, small maps in text, and where the files went.

mod brief;
mod expectations;
mod findings;
mod left_out;
mod page;
mod tables;
#[cfg(test)]
mod tests;

pub use brief::brief;
pub(crate) use expectations::{as_fault, is_accepted};
pub use page::PageStyle;

use crate::called;
use crate::exit::Exit;
use crate::fault::{parted, tame};
use crate::picture::text_map;
use crate::plan::SweepPlan;
use crate::record::{Expectation, FrontierRecord, MapRecord, Picture, Record, ShotsRecord};
use crate::store::RunFiles;
use crate::telling::amounts::grouped;
use crate::telling::{
    count, grouped_count, outcome_counts, shot_counts, sweep_conditions, things_played,
};
use page::Page;
use railproof_engine::sweep::Tally;
use railproof_engine::units::short_number;
use std::path::Path;

/// Printed lines that are shown; all that were kept are in `run.json`.
const MOST_PRINTED: usize = 200;

/// The most failed expectations that are shown; the others are counted.
pub const MOST_SHOWN: usize = 200;

/// Says how many more failed than are shown.
fn failed_beside_shown(page: &mut Page, record: &Record) {
    let failed = record.expectations.iter().filter(|it| !it.held).count();
    if failed > MOST_SHOWN {
        page.line(0, &format!("… and {} more that failed", failed - MOST_SHOWN));
    }
}

/// Says what should be known of maps that are as stored.
fn warned(page: &mut Page, record: &Record, folder: Option<&Path>) {
    let held = record.expectations.iter().filter(|it| it.held);
    held.take(MOST_SHOWN).for_each(|it| expectations::show_warnings(page, it, folder));
}

/// Everything about one run.
pub fn full(record: &Record, written: Option<&RunFiles>, look: PageStyle) -> String {
    let mut page = Page::new(look);
    page.heading(&tame(&record.file.display().to_string()));
    purpose(&mut page, record);
    printed(&mut page, record);
    for drawing in &record.drawings {
        page.gap();
        match &drawing.picture {
            // Its title is the scenario's.
            Picture::Map(map) => page.raw(&parted(text_map(map, look.width, look.color))),
            Picture::Difference(picture) => {
                page.line(0, &format!("{} ({}.svg, .png)", tame(&picture.title), drawing.name));
            }
            Picture::BeforeAfter(picture) => {
                page.line(0, &format!("{} ({}.svg, .png)", tame(&picture.title), drawing.name));
            }
            Picture::Lines(picture) => {
                page.line(0, &format!("{} ({}.svg, .png)", tame(&picture.title), drawing.name));
            }
            Picture::Fit(picture) => {
                page.line(0, &format!("{} ({}.svg, .png)", tame(&picture.title), drawing.name));
            }
            Picture::Frontier(picture) => {
                page.line(0, &format!("{} ({}.svg, .png)", tame(&picture.title), drawing.name));
            }
            Picture::Table(picture) => {
                page.line(0, &format!("{} ({}.svg, .png)", tame(&picture.title), drawing.name));
                page.line(2, &tame(&picture.verdict));
            }
        }
    }
    for map in &record.maps {
        map_section(&mut page, map);
    }
    for planned in &record.plans {
        page.gap();
        page.heading(&format!("plan `{}`", tame(&planned.1.name)));
        page.line(2, &not_played_here(record, planned));
    }
    for starts in &record.starts {
        page.gap();
        page.heading(&format!("exact starts `{}`", starts.name));
        page.line(2, &sweep_conditions(&starts.plan));
        for line in tables::fits(starts) {
            page.line(2, &line);
        }
    }
    for front in &record.frontiers {
        frontier_section(&mut page, front);
    }
    for shots in &record.shots {
        shots_section(&mut page, shots);
    }
    let cautions = record.cautions();
    if !cautions.is_empty() {
        page.gap();
        cautions.lines().iter().for_each(|caution| page.line(0, caution));
    }
    page.raw(&expectations_section(record, written, look));
    if let Some(written) = written {
        page.gap();
        page.line(
            0,
            &format!(
                "{} in {}",
                count(written.files.len() as u64, "file", "files"),
                tame(&written.folder.display().to_string())
            ),
        );
    }
    page.into_text()
}

/// The scenario's own words on its purpose, and remarks on it.
fn purpose(page: &mut Page, record: &Record) {
    if let Some(shows) = &record.shows {
        page.line(0, &format!("shows: {}", tame(shows)));
    }
    remarks(page, record);
}

/// Remarks on a scenario in which nothing is wrong.
fn remarks(page: &mut Page, record: &Record) {
    for words in &record.remarks {
        page.line(0, &format!("note: {}", tame(words)));
    }
}

/// A plan's size, and the command that plays it.
fn not_played_here(record: &Record, (which, plan): &(usize, SweepPlan)) -> String {
    let which = if *which > 1 { format!(" --which {which}") } else { String::new() };
    format!(
        "{}, {}, not played here; {} sweep {}{which} --into out/{} plays it",
        grouped_count(plan.points(), "point", "points"),
        things_played(plan),
        called::name(),
        tame(&record.file.display().to_string()),
        tame(&plan.name)
    )
}

/// The expectations alone, with their count.
pub fn expectations_section(
    record: &Record,
    written: Option<&RunFiles>,
    look: PageStyle,
) -> String {
    let folder = written.map(|files| files.folder.as_path());
    let mut page = Page::new(look);
    page.gap();
    if record.expectations.is_empty() && record.left_out.is_empty() && record.stopped.is_none() {
        page.line(0, "This scenario states no expectation, so nothing can fail.");
        return page.into_text();
    }
    for expectation in &record.expectations {
        expectations::show(&mut page, expectation, folder);
    }
    if !record.left_out.is_empty() || record.stopped.is_some() {
        page.gap();
        left_out::show(&mut page, record);
    }
    page.gap();
    page.line(0, &tally(record));
    page.into_text()
}

/// The expectations that failed, those of which a baseline was accepted, and all that is left out;
/// empty when there is none.
pub fn failures_only(record: &Record, written: Option<&RunFiles>, look: PageStyle) -> String {
    let folder = written.map(|files| files.folder.as_path());
    let mut page = Page::new(look);
    let failed = record.expectations.iter().filter(|expectation| !expectation.held);
    for expectation in failed.take(MOST_SHOWN) {
        expectations::show_briefly(&mut page, expectation, folder);
    }
    failed_beside_shown(&mut page, record);
    warned(&mut page, record, folder);
    left_out::show(&mut page, record);
    page.into_text()
}

/// The rows that moved against an expectation's baseline; empty when it holds the map to none.
pub(crate) fn moved(expectation: &Expectation, look: PageStyle) -> String {
    let mut page = Page::new(look);
    if let Some(baseline) = &expectation.baseline {
        expectations::moved(&mut page, baseline);
    }
    page.into_text()
}

/// Whether a verdict changed at an edge.
fn has_warning(expectation: &Expectation) -> bool {
    expectation.baseline.as_ref().is_some_and(|baseline| !baseline.warnings.is_empty())
}

/// Expectations and things left out, counted.
#[derive(Debug, Clone, Copy)]
pub struct ExpectationCounts {
    /// Expectations.
    pub all: usize,
    /// That held.
    pub held: usize,
    /// That failed, and whose baseline is being rewritten.
    pub accepted: usize,
    /// With a warning.
    pub warned: usize,
    /// Things left out.
    pub left_out: usize,
    /// Whether the run ended with all as it should be.
    pub passed: bool,
}

impl ExpectationCounts {
    /// In words.
    pub fn words(self) -> String {
        let failed = self.all - self.held - self.accepted;
        let mut parts = Vec::new();
        if self.all > 0 || self.passed {
            let expectations = count(self.all as u64, "expectation", "expectations");
            parts.push(format!("{} of {expectations} held", self.held));
        }
        if self.accepted > 0 {
            let baselines = count(self.accepted as u64, "baseline", "baselines");
            parts.push(format!("{baselines} to be stored"));
        }
        if failed > 0 {
            parts.push(format!("{failed} FAILED"));
        }
        if self.warned > 0 {
            parts.push(count(self.warned as u64, "warning", "warnings"));
        }
        if self.left_out > 0 {
            parts.push(format!("{} left out", count(self.left_out as u64, "thing", "things")));
        }
        parts.join(", ")
    }
}

/// The number of expectations that held, in words.
pub fn tally(record: &Record) -> String {
    let stated = record.expectations.iter();
    ExpectationCounts {
        all: record.expectations.len(),
        held: stated.clone().filter(|one| one.held).count(),
        accepted: stated.clone().filter(|one| !one.held && is_accepted(one)).count(),
        warned: stated.filter(|one| has_warning(one)).count(),
        left_out: record.left_out.len(),
        passed: record.exit() == Exit::Held,
    }
    .words()
}

fn printed(page: &mut Page, record: &Record) {
    if record.printed.is_empty() && record.printed_dropped == 0 {
        return;
    }
    page.gap();
    for line in record.printed.iter().take(MOST_PRINTED) {
        // Set in: a build server obeys some lines that begin at the edge.
        page.verbatim(&format!("  {}", tame(line)));
    }
    let hidden = record.printed.len().saturating_sub(MOST_PRINTED) + record.printed_dropped;
    if hidden > 0 {
        page.line(
            0,
            &format!(
                "({} not shown; {MOST_PRINTED} are at most)",
                count(hidden as u64, "printed line", "printed lines")
            ),
        );
    }
}

fn map_section(page: &mut Page, map: &MapRecord) {
    page.gap();
    page.heading(&format!("map `{}`", map.name));
    page.line(2, &sweep_conditions(&map.plan));
    if let [rule] = map.rules.as_slice() {
        page.line(2, &format!("rule: {}", tame(&rule.name)));
    }
    for line in outcome_counts(&Tally::of(&map.rows), map.units) {
        page.line(2, &line);
    }
    let ranking = tables::ranking(map);
    if !ranking.is_empty() {
        page.gap();
        for line in &ranking {
            page.verbatim(&format!("  {}", tame(line)));
        }
        page.line(2, &format!("({})", tables::HOLDS_OVER));
    }
}

fn frontier_section(page: &mut Page, front: &FrontierRecord) {
    page.gap();
    page.heading(&format!("frontier `{}`", front.name));
    page.line(2, &sweep_conditions(&front.plan));
    if let [rule] = front.rules.as_slice() {
        page.line(2, &format!("rule: {}", tame(&rule.name)));
    }
    let (searched, holding) = front.lines_searched();
    let along = front.search.along.meaning();
    let between = match searched.saturating_sub(front.lines_planned()) {
        0 => String::new(),
        added => format!(" ({added} of them added between the plan's, to trace the edges)"),
    };
    let lines = count(searched as u64, "line", "lines");
    page.line(2, &format!("along {along}: {holding} of {lines} hold somewhere{between}"));
    page.line(
        2,
        &format!(
            "{} banks played; a grid as fine takes {}, {} times as many",
            grouped(front.found.banks_played()),
            grouped(front.found.dense_banks),
            short_number(front.found.saving(), usize::from(front.found.saving() < 10.0))
        ),
    );
}

fn shots_section(page: &mut Page, shots: &ShotsRecord) {
    page.gap();
    page.heading(&format!("shots `{}`", shots.name));
    let over: Vec<String> = shots
        .axes
        .iter()
        .map(|axis| {
            format!("{} ({})", axis.name, count(axis.values.len() as u64, "value", "values"))
        })
        .collect();
    page.line(2, &tame(&format!("over {}", over.join(", "))));
    for line in shot_counts(&shots.tally()) {
        page.line(2, &line);
    }
    if let Some(why) = shots.rows.iter().find_map(|row| row.outcome.as_ref().err()) {
        page.line(2, &tame(&format!("the first without a shot: {why}")));
    }
}
