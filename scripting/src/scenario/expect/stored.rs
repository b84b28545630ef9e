//! `:matches_baseline("first.baseline", { within = millimetres(0.5) })`: a map held to a stored one.

use super::subject::{ExpectationSubject, argument};
use crate::baseline;
use crate::baseline::{EDGE_BAND_MM, NO_NUMBERS, OTHER_QUESTION, OTHER_ROWS, SAME_QUESTION};
use crate::fault::Fault;
use crate::files::reach;
use crate::lua::options::{Options, quantity, text};
use crate::lua::place::{self, Placed};
use crate::record::{BaselineReport, Expectation, Picture};
use crate::scenario::session::{Session, here};
use mlua::{Lua, Value};
use railproof_engine::units::Dimension;

const CALL: &str = "matches_baseline";
/// The distance by which a miss may have moved unless said, mm: less than anyone sees, more than another
/// machine's rounding.
const WITHIN_MM: f64 = 0.01;
/// Most parameters and counts that the words of a failed expectation show.
const SHOWN: usize = 6;

pub fn matches(
    lua: &Lua,
    this: &ExpectationSubject,
    (file, options): (Value, Value),
) -> mlua::Result<ExpectationSubject> {
    let file = argument(lua, CALL, 1, &file, text())?;
    let at_file = || place::argument(lua, CALL, 1);
    let path = std::path::Path::new(&file);
    // A baseline is rewritten by the program: it stays beside or under its scenario.
    let inside = path.components().all(|part| matches!(part, std::path::Component::Normal(_)));
    let session = Session::of(lua)?;
    let inside = inside && reach::lies_in(session.folder(), &session.folder().join(path));
    if file.is_empty() || !inside {
        return Err(Fault::bad_input("a baseline lies in the scenario's folder or under it")
            .with_hint("write a relative path without `..`, and without links that lead elsewhere")
            .placed(at_file())
            .into());
    }
    if path.extension().is_none_or(|ending| ending != "baseline") {
        return Err(Fault::bad_input("a baseline's file name ends in .baseline")
            .placed(at_file())
            .into());
    }
    let within_mm = match options {
        Value::Nil => WITHIN_MM,
        given => {
            let options = Options::open(lua, CALL, &given, &["within"])?;
            1e3 * options.required("within", quantity(Dimension::Length))?
        }
    };
    let map = this.map(lua, CALL)?;
    let rows = map.picked.rows();
    let accept = session.accepts_baselines();
    let checked = baseline::check(
        &map.record,
        &rows,
        &session.folder().join(path),
        (within_mm, session.miss_unit()),
        accept,
    )
    .map_err(|fault| fault.placed(at_file()))?;
    let mut report = checked.report;
    if let Some(picture) = checked.picture {
        let stem = path.file_stem().unwrap_or_default().to_string_lossy();
        let picture = Picture::BeforeAfter(picture);
        report.picture = session.add_picture(&format!("baseline-{stem}"), picture);
    }
    let found = found(&report);
    session.add_expectation(Expectation {
        expected: format!("{}: as stored in {file}", map.picked.subject()),
        found,
        held: report.moved.is_empty(),
        place: here(lua, CALL),
        baseline: Some(report),
    })?;
    Ok(this.clone())
}

/// The finding in one line: the parameters that moved, then the counts.
fn found(report: &BaselineReport) -> String {
    let said = [OTHER_QUESTION, OTHER_ROWS, SAME_QUESTION, NO_NUMBERS];
    let is_head = |line: &&String| !line.starts_with(' ') && !said.contains(&line.as_str());
    let heads = report.moved.iter().filter(is_head);
    let heads: Vec<&str> =
        heads.map(|line| line.trim_end_matches(':').trim_end_matches(", the most first")).collect();
    if heads.is_empty() {
        let told = "nothing moved";
        return if report.warnings.is_empty() {
            told.to_owned()
        } else {
            format!("{told}, but for verdicts within {EDGE_BAND_MM} mm of an edge")
        };
    }
    let more = heads.len().saturating_sub(SHOWN);
    let more = if more > 0 { format!("; and {more} more") } else { String::new() };
    format!("{}{more}", heads[..heads.len().min(SHOWN)].join("; "))
}
