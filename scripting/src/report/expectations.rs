//! Each expectation: whether it held, the expectation and the finding.

use super::page::Page;
use crate::baseline::OTHER_QUESTION;
use crate::fault::{Fault, tame};
use crate::record::{BaselineReport, Expectation, MovedParameter};
use std::path::Path;

/// One expectation over a few lines. A failed one shows its line of the scenario, and all that moved
/// against its baseline.
pub(super) fn show(page: &mut Page, expectation: &Expectation, folder: Option<&Path>) {
    head(page, expectation);
    page.line(2, &format!("found: {}", found(expectation)));
    if let Some(baseline) = &expectation.baseline {
        moved(page, baseline);
        beside(page, baseline, folder);
    }
}

/// As [`show`], but of what moved the counts and the largest only, unless it is being accepted: nobody
/// accepts what was not shown.
pub(super) fn show_briefly(page: &mut Page, expectation: &Expectation, folder: Option<&Path>) {
    let baseline = expectation.baseline.as_ref().filter(|it| !it.accepted && it.moved.len() > 1);
    let Some(baseline) = baseline else { return show(page, expectation, folder) };
    head(page, expectation);
    show_counts(page, baseline);
    beside(page, baseline, folder);
}

/// The counts of what moved, and the largest.
fn show_counts(page: &mut Page, baseline: &BaselineReport) {
    let is_detail = |line: &&String| line.starts_with(' ');
    let heads = baseline.moved.iter().filter(|line| !is_detail(line));
    let (counts, others): (Vec<&str>, Vec<&str>) =
        heads.map(String::as_str).partition(|line| line.ends_with(':'));
    let counts: Vec<&str> = counts
        .into_iter()
        .map(|line| line.trim_end_matches(':').trim_end_matches(", the largest first"))
        .collect();
    if asks_for_another(baseline) {
        page.line(
            2,
            &format!(
                "found: other numbers are played than those stored{}",
                tame(&first_of(&baseline.parameters))
            ),
        );
        if baseline.refused.is_none() {
            page.line(4, OTHER_REMEDY);
        }
        return;
    }
    page.line(2, &format!("found: {}", tame(&counts.join(", "))));
    let of_misses = baseline.moved.iter().position(|line| line.contains(" moved by more than "));
    let details = &baseline.moved[of_misses.unwrap_or(0)..];
    if let Some(largest) = details.iter().find(is_detail) {
        let which = if of_misses.is_some() { "the largest" } else { "the first" };
        page.line(4, &format!("{which}: {}", tame(largest.trim_start())));
    }
    if !others.is_empty() {
        page.line(4, &tame(&others.join("; ")));
    }

    page.line(4, "--full lists them; --accept stores the map as it is now");
}

/// A few parameters are told one by one.
const FEW: usize = 2;

/// The first parameters that moved, behind what is said of all: `: the rule's slope was 2.2, is 2.1; and 2 more`.
fn first_of(parameters: &[MovedParameter]) -> String {
    let told: Vec<&str> = parameters.iter().take(FEW).map(|it| it.words.as_str()).collect();
    match (told.as_slice(), parameters.len().saturating_sub(FEW)) {
        ([], _) => String::new(),
        (told, 0) => format!(": {}", told.join("; ")),
        (told, more) => format!(": {}; and {more} more", told.join("; ")),
    }
}

/// Warnings and notes of a baseline that held, if it has any.
pub(super) fn show_warnings(page: &mut Page, expectation: &Expectation, folder: Option<&Path>) {
    let baseline = expectation.baseline.as_ref();
    let told = |it: &&BaselineReport| !(it.warnings.is_empty() && it.notes.is_empty());
    let Some(baseline) = baseline.filter(told) else { return };
    let file = tame(&baseline.path.display().to_string());
    if baseline.warnings.is_empty() {
        baseline
            .notes
            .iter()
            .for_each(|note| page.line(0, &format!("note: {file}: {}", tame(note))));
        return;
    }
    let word = page.look.marked("warning", "1;33");
    page.line(0, &format!("{word}: the map is as stored in {file}, but for this:"));
    beside(page, baseline, folder);
}

/// What else there is to know of a map that is held to a baseline.
fn beside(page: &mut Page, baseline: &BaselineReport, folder: Option<&Path>) {
    for line in &baseline.warnings {
        let inner = line.len() - line.trim_start().len();
        page.line(4 + inner, &tame(line));
    }
    for line in baseline.notes.iter().chain(&baseline.refused) {
        page.line(4, &format!("note: {}", tame(line)));
    }
    if let (Some(name), Some(folder)) = (&baseline.picture, folder) {
        let path = folder.join(format!("{name}.png"));
        page.verbatim(&format!(
            "    before, after, difference: {}",
            tame(&path.display().to_string())
        ));
    }
}

/// Whether the map is of something else than the stored one.
fn asks_for_another(baseline: &BaselineReport) -> bool {
    baseline.moved.last().is_some_and(|last| last == OTHER_QUESTION)
}

const OTHER_REMEDY: &str = "nothing broke: in a copy whose numbers you change, take this line out, or store the map \
                            as it is now with --accept";

/// Whether it held, what is expected, and its line.
fn head(page: &mut Page, expectation: &Expectation) {
    let accepted = is_accepted(expectation);
    let (word, rendition) = match (expectation.held, accepted) {
        (true, _) => ("held", "32"),
        (false, true) => ("to be stored", "33"),
        (false, false) => ("FAILED", "1;31"),
    };
    let look = page.look;
    let place = expectation.place.as_ref().map_or_else(String::new, |place| {
        format!(" ({}:{})", tame(place.label()), place.line_column().0)
    });
    let head = format!("{}: {}{place}", look.marked(word, rendition), tame(&expectation.expected));
    page.line(0, &head);
}

/// The finding; for a map that moved the list that follows says it better.
fn found(expectation: &Expectation) -> String {
    match &expectation.baseline {
        Some(baseline) if !baseline.moved.is_empty() => "it is not as stored".to_owned(),
        _ => tame(&expectation.found),
    }
}

/// The failure as a fault, so that it is drawn with its line and a caret.
pub(crate) fn as_fault(expectation: &Expectation) -> Fault {
    let mut fault = Fault::new(
        crate::exit::Exit::ExpectationFailed,
        format!("expected: {}; found: {}", expectation.expected, found(expectation)),
    );
    fault.place.clone_from(&expectation.place);
    fault
}

/// True when it failed only against a baseline that is being rewritten.
pub(crate) fn is_accepted(expectation: &Expectation) -> bool {
    expectation.baseline.as_ref().is_some_and(|baseline| baseline.accepted)
}

pub(super) fn moved(page: &mut Page, baseline: &BaselineReport) {
    for line in &baseline.moved {
        let inner = line.len() - line.trim_start().len();
        page.line(4 + inner, &tame(line));
    }
    if baseline.accepted {
        page.line(4, &format!("to be stored in {}", tame(&baseline.path.display().to_string())));
    } else if baseline.refused.is_some() {
        // Said beside it, instead of what would be refused again.
    } else if asks_for_another(baseline) {
        page.line(4, OTHER_REMEDY);
    } else if !baseline.moved.is_empty() {
        page.line(4, "run with --accept to store the map as it is now");
    }
}
