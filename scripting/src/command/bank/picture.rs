//! The picture of a bank that was asked for.

use crate::command::shot::write_picture;
use crate::fault::Fault;
use crate::playing::{BankFindings, BankQuestion, PlayedShot};
use crate::telling::{bank_advice, bank_readings, bank_sent};
use std::path::{Path, PathBuf};

/// Draws a bank into a folder, under the word of its speed where there are several.
///
/// # Errors
/// A bank that can't be played as a shot, such as one off the compliant cushion, or a folder that can't be
/// written.
pub(super) fn write(
    question: &BankQuestion,
    findings: &BankFindings,
    several: bool,
    folder: &Path,
) -> Result<Vec<PathBuf>, Fault> {
    let layout = question.layout(&findings.outcome);
    let mut picture = PlayedShot::new(&layout)?.picture(false);
    picture.title = bank_advice(question, findings);
    picture.verdict.clone_from(&picture.title);
    picture.subtitle =
        format!("{}; {}; {}", bank_readings(question), bank_sent(question), picture.subtitle);
    // The advice may be harder than the bank that is drawn.
    let cautions = findings.cautions(question).lines().into_iter();
    let further: Vec<String> = cautions.filter(|it| !picture.notes.contains(it)).collect();
    picture.notes.extend(further);
    let name = if several { format!("bank-{}", question.speed_text) } else { "bank".to_owned() };
    write_picture(&picture, Path::new(&name), folder)
}
