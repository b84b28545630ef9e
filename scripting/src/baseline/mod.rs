//! A map held to a stored one: a small text file that reads well in a diff, compared bank by bank.
//!
//! Nothing here decides what to do about a difference; that is for the scenario and its user.

mod compare;
mod entries;
#[cfg(test)]
mod tests;
mod text;
mod writer;

pub use compare::OTHER_QUESTION;
pub use writer::keep_accepted;

use crate::fault::Fault;
use crate::record::{BaselineReport, MapRecord};
use crate::store::question_sha256;
use crate::yaml::{InputText, LARGEST_FILE};
use entries::BaselineRows;
use std::path::Path;

/// Holds rows of a map (indices into its rows) to the baseline in a file.
///
/// The report lists what moved: verdicts that changed, misses that moved by more than `within_mm`,
/// and points that were added or removed. With
/// `accept` a report on which something moved, or of which nothing is stored yet, is marked as accepted; the file
/// itself is written by [`keep_accepted`], once the report has been shown.
///
/// # Errors
/// A tolerance that is not a finite number from 0 up, no rows, a file that is not there, can't be read or is not a
/// baseline (placed in that file), a map too large for one.
pub fn check(
    map: &MapRecord,
    rows: &[usize],
    path: &Path,
    within_mm: f64,
    accept: bool,
) -> Result<BaselineReport, Fault> {
    if !(within_mm.is_finite() && within_mm >= 0.0) {
        return Err(Fault::bad_input(format!(
            "a baseline's tolerance must be a finite length from 0 up, not {within_mm} mm"
        )));
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
    let stored = match std::fs::symlink_metadata(path) {
        Ok(_) => Some(InputText::open(path)?).filter(|stored| !stored.is_blank()),
        Err(_) => None,
    };
    let moved = match stored {
        Some(stored) => compare::moved(&text::read(&stored)?, &now, within_mm),
        None if accept => vec![format!("it is a new map, of {} banks", now.rows.len())],
        None => {
            return Err(Fault::bad_input(format!(
                "there is no stored map `{}` to hold this one to",
                path.display()
            ))
            .with_hint("--accept stores it"));
        }
    };
    let accepted = accept && !moved.is_empty();
    Ok(BaselineReport { path: path.to_owned(), moved, text, accepted })
}
