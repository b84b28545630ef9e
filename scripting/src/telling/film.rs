//! The films of a fit, as they were seen and as the rest lets expect them.

use super::wording::percent;
use crate::fitting::{FitFindings, FitQuestion};
use railproof_engine::evidence::{FilmExpected, FilmedImpact, LIKELY_SLIP};
use railproof_engine::units::DEGREE_RAD;
use std::fmt::Write;

/// Nine times in ten, in deviations of the normal law.
const NINETY: f64 = 1.645;

/// Each film beside what the others and the banks lead one to expect.
pub(super) fn film_sentences(question: &FitQuestion, found: &FitFindings) -> String {
    let mut text = String::from(
        "Each film as seen after the rail, and as all else leads one to expect, nine times in ten:\n",
    );
    let films = &question.films;
    for (at, expected) in found.films.iter().enumerate() {
        let name = match films.names[at].as_str() {
            "" => String::new(),
            name => format!(" ({name})"),
        };
        let _ = writeln!(
            text,
            "  line {}{name}: {}",
            films.lines[at],
            film(&films.films[at], expected)
        );
    }
    text
}

fn film(film: &FilmedImpact, expected: &FilmExpected) -> String {
    let units = [
        ("left at ", 1.0, 2, " m/s"),
        ("", DEGREE_RAD, 1, "\u{b0} from square"),
        ("stayed ", 1e-3, 0, " ms"),
        ("slowed by ", 1.0, 1, " m/s\u{b2}"),
    ];
    let mut parts = Vec::new();
    for (at, (before, si, digits, unit)) in units.into_iter().enumerate() {
        if film.is_taken()[at] {
            let (middle, sd) = expected.amounts[at];
            let told = |value: f64| format!("{:.digits$}", value / si);
            parts.push(format!(
                "{before}{}{unit}, expected {} to {}",
                told(film.told[2 + at]),
                told(middle - NINETY * sd),
                told(middle + NINETY * sd)
            ));
        }
    }
    let slip = if expected.slip > LIKELY_SLIP {
        format!("; likely a slip ({}): film it again", percent(expected.slip))
    } else {
        String::new()
    };
    parts.join("; ") + &slip
}
