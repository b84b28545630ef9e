//! The pictures of a bank that was asked for.

use crate::command::shot::write_picture;
use crate::fault::Fault;
use crate::playing::{BankFindings, BankQuestion};
use crate::shot_picture::{bank_page, bank_picture};
use std::path::{Path, PathBuf};

/// What is drawn, and where.
pub(super) struct PicturesAsked<'a> {
    /// A page to print beside the picture.
    pub with_page: bool,
    /// A title of the asker's own.
    pub title: Option<&'a str>,
    /// There are banks at other speeds beside it.
    pub several: bool,
    pub folder: &'a Path,
}

/// Draws a bank into a folder, under the word of its speed where there are several, and its page where that is asked
/// for.
///
/// # Errors
/// A bank that can't be played as a shot, such as one off the compliant cushion, or a folder that can't be
/// written.
pub(super) fn write(
    asked: &PicturesAsked<'_>,
    question: &BankQuestion,
    findings: &BankFindings,
) -> Result<Vec<PathBuf>, Fault> {
    let PicturesAsked { with_page, title, several, folder } = *asked;
    let name = |what: &str| {
        if several { format!("{what}-{}", question.speed_text) } else { what.to_owned() }
    };
    let mut picture = bank_picture(question, findings)?;
    if let Some(title) = title {
        picture.retitle(title.to_owned());
    }
    let mut written = write_picture(&picture, Path::new(&name("bank")), folder)?;
    if with_page {
        let mut page = bank_page(question, findings)?;
        if let Some(title) = title {
            page.retitle(title.to_owned());
        }
        written.extend(write_picture(&page, Path::new(&name("page")), folder)?);
    }
    Ok(written)
}
