//! Each expectation: whether it held, the expectation and the finding.

use super::page::Page;
use crate::fault::{Fault, tame};
use crate::record::{BaselineReport, Expectation};

/// One expectation over a few lines. A failed one shows its line of the scenario.
pub(super) fn show(page: &mut Page, expectation: &Expectation) {
    let accepted = is_accepted(expectation);
    let (word, rendition) = match (expectation.held, accepted) {
        (true, _) => ("held", "32"),
        (false, true) => ("accepted", "33"),
        (false, false) => ("FAILED", "1;31"),
    };
    let look = page.look;
    let place = expectation.place.as_ref().map_or_else(String::new, |place| {
        format!(" ({}:{})", tame(place.label()), place.line_column().0)
    });
    let head = format!("{}: {}{place}", look.marked(word, rendition), tame(&expectation.expected));
    page.line(0, &head);
    page.line(2, &format!("found: {}", found(expectation)));
    if let Some(baseline) = &expectation.baseline {
        moved(page, baseline);
    }
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
        page.line(4, &format!("accepted into {}", tame(&baseline.path.display().to_string())));
    } else if !baseline.moved.is_empty() {
        page.line(4, "run with --accept to store the map as it is now");
    }
}
