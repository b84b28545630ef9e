//! A map held to a stored one: a small text file that reads well in a diff, compared bank by bank.
//!
//! Nothing here decides what to do about a difference; that is for the scenario and its user.

mod align;
mod compare;
mod edge;
mod entries;
mod names;
mod pairing;
mod parameters;
mod picture;
mod rules;
mod table_lines;
mod tables;
#[cfg(test)]
mod tests;
mod text;
mod writer;

pub use compare::{NO_NUMBERS, OTHER_QUESTION, OTHER_ROWS, SAME_QUESTION};
pub use edge::EDGE_BAND_MM;
pub use writer::keep_accepted;

use crate::fault::Fault;
use crate::picture::{BeforeAfterPicture, MissUnit};
use crate::record::{BaselineReport, MapRecord};
use crate::store::question_sha256;
use crate::yaml::{InputText, LARGEST_FILE};
use compare::differences;
use entries::BaselineRows;
use std::path::Path;

/// A map held to a stored one.
#[derive(Debug)]
pub struct BaselineCheck {
    /// What differs.
    pub report: BaselineReport,
    /// The stored map, this one and the difference, where anything differs.
    pub picture: Option<BeforeAfterPicture>,
}

/// Holds rows of a map (indices into its rows) to the baseline in a file.
///
/// The report lists the parameters and rows that moved: verdicts that changed, misses that moved by more than
/// `within_mm`, and points that were added or removed. A verdict that changed within [`EDGE_BAND_MM`] of an edge is a
/// warning. With `accept` a report on which something moved, or of which nothing, or less than now, is stored, is
/// marked as accepted; the file itself is written by [`keep_accepted`], once the report has been shown. The picture
/// shows misses in `unit`.
///
/// # Errors
/// A tolerance that is not a finite number from 0 up, no rows, a file that is not there, can't be read or is not a
/// baseline (placed in that file), a map too large for one.
pub fn check(
    map: &MapRecord,
    rows: &[usize],
    path: &Path,
    (within_mm, unit): (f64, MissUnit),
    accept: bool,
) -> Result<BaselineCheck, Fault> {
    if !(within_mm.is_finite() && within_mm >= 0.0) {
        return Err(Fault::bad_input(format!(
            "a baseline's tolerance must be a finite length from 0 up, not {within_mm} mm"
        )));
    }
    if path.as_os_str().as_encoded_bytes().contains(&0) {
        return Err(Fault::bad_input(
            "the name of a baseline holds a character that no file's name can have",
        ));
    }
    let now = BaselineRows::of(map, rows, question_sha256(&map.plan, &map.rules));
    if now.rows.is_empty() {
        return Err(Fault::bad_input("there are no banks to hold to a baseline"));
    }
    let text = text::write(&now);
    if text.len() as u64 > LARGEST_FILE {
        return Err(Fault::bad_input(format!(
            "a baseline of {} banks would be {} KiB; at most {} KiB are stored",
            now.rows.len(),
            text.len() >> 10,
            LARGEST_FILE >> 10,
        ))
        .with_hint("hold fewer banks to it: narrow the map down first"));
    }
    // A link to nowhere is not a missing baseline: it is read, and refused with its reason.
    let found = match std::fs::symlink_metadata(path) {
        Ok(_) => Some(InputText::open(path)?),
        Err(_) => None,
    };
    let is_empty = found.is_some();
    let stored = found.filter(|stored| !stored.is_blank());
    let mut report = BaselineReport { path: path.to_owned(), text, ..BaselineReport::default() };
    let Some(stored) = stored else {
        if !accept {
            let shown = path.display();
            let (message, hint) = if is_empty {
                (
                    format!("the baseline `{shown}` is empty: it holds no map to hold this one to"),
                    "--accept stores the map as it is now",
                )
            } else {
                (
                    format!("there is no stored map `{shown}` to hold this one to"),
                    "--accept stores it",
                )
            };
            return Err(Fault::bad_input(message).with_hint(hint));
        }
        report.moved = vec![format!("it is a new map, of {} banks", now.rows.len())];
        report.accepted = true;
        return Ok(BaselineCheck { report, picture: None });
    };
    let stored = text::read(&stored)?;
    let found = differences(&stored, &now, within_mm);
    let file = path.file_name().unwrap_or_default().to_string_lossy();
    let picture = picture::picture(&file, &found, within_mm, unit);
    let differs = !(found.moved.is_empty()
        && found.parameters.is_empty()
        && found.warnings.is_empty()
        && found.notes.is_empty());
    report.accepted = accept && differs;
    report.moved = found.moved;
    report.parameters = found.parameters;
    report.warnings = found.warnings;
    report.notes = found.notes;
    Ok(BaselineCheck { report, picture })
}
