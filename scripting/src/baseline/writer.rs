//! Writing the baselines that were accepted.

use crate::fault::Fault;
use crate::files::{make_folder, write_whole};
use crate::record::BaselineReport;
use std::path::PathBuf;

/// Writes every accepted baseline of these reports, each file whole or not at all, and gives the
/// paths that were written, and what kept the others from it: two expectations that would store different maps in one
/// file (nothing is written then), or a file that can't be written.
pub fn keep_accepted<'a>(
    reports: impl IntoIterator<Item = &'a BaselineReport>,
) -> (Vec<PathBuf>, Option<Fault>) {
    let mut written = Vec::new();
    let fault = wanted(reports).and_then(|wanted| {
        for report in wanted.into_iter().filter(|report| report.accepted) {
            if let Some(folder) = report.path.parent() {
                make_folder(folder)?;
            }
            write_whole(&report.path, |out| out.write_all(report.text.as_bytes()))?;
            written.push(report.path.clone());
        }
        Ok(())
    });
    (written, fault.err())
}

/// The reports, one for each file.
fn wanted<'a>(
    reports: impl IntoIterator<Item = &'a BaselineReport>,
) -> Result<Vec<&'a BaselineReport>, Fault> {
    let mut wanted: Vec<(PathBuf, &BaselineReport)> = Vec::new();
    for report in reports {
        let path = std::path::absolute(&report.path).unwrap_or_else(|_| report.path.clone());
        match wanted.iter().find(|(other, _)| *other == path) {
            Some((_, other)) if other.text != report.text => {
                if report.accepted || other.accepted {
                    return Err(Fault::bad_input(format!(
                        "two different maps are held to the baseline `{}`",
                        report.path.display()
                    ))
                    .with_hint("give each map a file of its own; nothing was accepted"));
                }
            }
            Some(_) => {}
            None => wanted.push((path, report)),
        }
    }
    Ok(wanted.into_iter().map(|(_, report)| report).collect())
}
