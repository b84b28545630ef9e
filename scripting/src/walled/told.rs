//! Faults and expectations in words, as they go from one process to another.

use crate::exit::Exit;
use crate::fault::{Fault, Place, Style, tame};
use crate::record::{Expectation, MovedParameter};
use crate::report::{PageStyle, as_fault, is_accepted, moved};
use serde::{Deserialize, Serialize};
use std::path::{Path, PathBuf};

/// A fault in words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ToldFault {
    /// The exit that it means.
    pub exit: Exit,
    /// Its message alone.
    pub message: String,
    /// In one line, with its place and hint.
    pub line: String,
    /// Over several lines, with its place, as it is shown.
    pub shown: String,
    /// The same without colour.
    pub plain: String,
    /// Its file, where that is another one than the scenario: a profile, a layout or a baseline.
    pub at_file: Option<String>,
    /// Its line in the file, from 1.
    pub at_line: Option<usize>,
}

impl ToldFault {
    /// Of a fault in a scenario, or in a file that it reads.
    pub fn of(fault: &Fault, scenario: &Path, style: Style) -> Self {
        let label = fault.place.as_ref().map(Place::label);
        let other = label.filter(|label| *label != scenario.display().to_string());
        // A text inside a file goes by no path, and its lines are not the file's.
        let at_file = other.filter(|label| Path::new(label).is_file());
        let is_placed = other.is_none() || at_file.is_some();
        let place = fault.place.as_ref().filter(|_| is_placed);
        Self {
            exit: fault.exit,
            message: tame(&fault.message),
            line: fault.to_string(),
            shown: fault.render(style),
            plain: fault.render(Style::PLAIN),
            at_file: at_file.map(str::to_owned),
            at_line: place.map(|place| place.line_column().0),
        }
    }
}

/// An expectation in words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ToldExpectation {
    /// The expectation.
    pub expected: String,
    /// The finding.
    pub found: String,
    /// Whether it held.
    pub held: bool,
    /// Whether it failed only against a baseline that is being rewritten.
    pub accepted: bool,
    /// Its line in the scenario, from 1.
    pub at_line: Option<usize>,
    /// Its baseline's file.
    #[serde(with = "crate::files::told_path::maybe")]
    pub baseline: Option<PathBuf>,
    /// The rows that moved against its baseline.
    pub moved: Vec<String>,
    /// The parameters that are not as stored with its baseline.
    pub parameters: Vec<MovedParameter>,
    /// Verdicts that changed at an edge, in words.
    pub warnings: Vec<String>,
    /// What else should be known of its baseline.
    pub notes: Vec<String>,
    /// The picture of before, after and the difference, where it was written.
    pub picture: Option<String>,
    /// The failure as it is shown; empty when it held, or when too many others are shown.
    pub shown: String,
}

/// Findings are cut there: they go through a pipe.
const LONGEST: usize = 4000;

impl ToldExpectation {
    /// Of an expectation, to be shown in this look or not at all.
    pub fn of(expectation: &Expectation, look: Option<(PageStyle, Style)>) -> Self {
        let accepted = is_accepted(expectation);
        let mut shown = String::new();
        if let Some((look, style)) = look.filter(|_| !expectation.held) {
            if !accepted {
                shown += &as_fault(expectation).render(style);
            }
            shown += &moved(expectation, look);
        }
        let cut = |text: &str| text.chars().take(LONGEST).collect();
        let baseline = expectation.baseline.as_ref();
        Self {
            expected: cut(&expectation.expected),
            found: cut(&expectation.found),
            held: expectation.held,
            accepted,
            at_line: expectation.place.as_ref().map(|place| place.line_column().0),
            baseline: baseline.map(|it| it.path.clone()),
            moved: baseline.map_or_else(Vec::new, |it| it.moved.clone()),
            parameters: baseline.map_or_else(Vec::new, |it| it.parameters.clone()),
            warnings: baseline.map_or_else(Vec::new, |it| it.warnings.clone()),
            notes: baseline
                .map_or_else(Vec::new, |it| it.notes.iter().chain(&it.refused).cloned().collect()),
            picture: None,
            shown,
        }
    }

    /// What is known of its baseline beside what moved, a line each.
    pub fn beside(&self) -> Vec<String> {
        let mut lines = Vec::new();
        for line in &self.warnings {
            let word = if line.starts_with(' ') { "  " } else { "warning: " };
            lines.push(format!("{word}{}", tame(line)));
        }
        lines.extend(self.notes.iter().map(|note| format!("note: {}", tame(note))));
        let picture = self.picture.iter();
        lines.extend(picture.map(|path| format!("before, after, difference: {}", tame(path))));
        lines
    }

    /// Whether it keeps nothing from passing.
    pub const fn passes(&self) -> bool {
        self.held || self.accepted
    }
}
