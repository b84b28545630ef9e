//! The pictures of a bank that was asked for.

use crate::command::shot::write_picture;
use crate::fault::Fault;
use crate::playing::{BankFindings, BankQuestion};
use crate::shot_picture::{bank_page, bank_picture};
use std::path::{Path, PathBuf};

/// Draws a bank into a folder, under the word of its speed where there are several, and its page where that is asked
/// for.
///
/// # Errors
/// A bank that can't be played as a shot, such as one off the compliant cushion, or a folder that can't be
/// written.
pub(super) fn write(
    with_page: bool,
    question: &BankQuestion,
    findings: &BankFindings,
    several: bool,
    folder: &Path,
) -> Result<Vec<PathBuf>, Fault> {
    let name = |what: &str| {
        if several { format!("{what}-{}", question.speed_text) } else { what.to_owned() }
    };
    let picture = bank_picture(question, findings)?;
    let mut written = write_picture(&picture, Path::new(&name("bank")), folder)?;
    if with_page {
        let page = bank_page(question, findings)?;
        written.extend(write_picture(&page, Path::new(&name("page")), folder)?);
    }
    Ok(written)
}
