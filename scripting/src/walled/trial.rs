//! One scenario as it was played, in words: all that a report of it needs.

use super::told::{ToldExpectation, ToldFault};
use crate::exit::Exit;
use crate::fault::{Fault, Style, tame};
use crate::record::{BaselineReport, Record};
use crate::report::{ExpectationCounts, MOST_SHOWN, PageStyle};
use serde::{Deserialize, Serialize};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// A scenario that was played, to its end or not.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Trial {
    /// Its file.
    #[serde(with = "crate::files::told_path::one")]
    pub file: PathBuf,
    /// How it ended.
    pub exit: Exit,
    /// Its expectations, in the order in which they were stated.
    pub expectations: Vec<ToldExpectation>,
    /// More expectations, which the user did not ask for.
    pub uncounted: usize,
    /// What it asks for and does not get.
    pub left_out: Vec<ToldFault>,
    /// What kept it from its last line.
    pub stopped: Option<ToldFault>,
    /// What it printed.
    pub printed: Vec<String>,
    /// What is shown of it.
    pub text: String,
    /// Faults beside those of the scenario: files that could not be written.
    pub troubles: Vec<ToldFault>,
    /// The baselines that its maps are held to; those that are accepted are to be stored, once they were shown.
    pub baselines: Vec<BaselineReport>,
    /// From its beginning to its end.
    pub took: Duration,
}

impl Trial {
    /// Of a record that is complete, or of the fault that let it not begin.
    pub fn of(
        file: &Path,
        outcome: Result<&Record, &Fault>,
        look: PageStyle,
        style: Style,
    ) -> Self {
        let mut trial = Self {
            file: file.to_owned(),
            exit: Exit::Held,
            expectations: Vec::new(),
            uncounted: 0,
            left_out: Vec::new(),
            stopped: None,
            printed: Vec::new(),
            text: String::new(),
            troubles: Vec::new(),
            baselines: Vec::new(),
            took: Duration::ZERO,
        };
        match outcome {
            Err(fault) => {
                trial.exit = fault.exit;
                trial.stopped = Some(ToldFault::of(fault, file, style));
            }
            Ok(record) => {
                trial.exit = record.exit();
                let mut failed = 0;
                let told = record.expectations.iter().map(|one| {
                    failed += usize::from(!one.held);
                    ToldExpectation::of(one, (failed <= MOST_SHOWN).then_some((look, style)))
                });
                trial.expectations = told.collect();
                let left_out = record.left_out.iter();
                trial.left_out =
                    left_out.map(|one| ToldFault::of(&one.fault, file, style)).collect();
                trial.stopped =
                    record.stopped.as_ref().map(|fault| ToldFault::of(fault, file, style));
                trial.printed.clone_from(&record.printed);
                let held_to = record.expectations.iter().filter_map(|it| it.baseline.clone());
                trial.baselines = held_to.collect();
            }
        }
        trial
    }

    /// Of one whose process ended before it told its end: what came before, and why.
    pub fn cut_short(
        file: &Path,
        expectations: Vec<ToldExpectation>,
        why: &Fault,
        style: Style,
    ) -> Self {
        let failed = expectations.iter().any(|one| !one.passes());
        let stated = if failed { Exit::ExpectationFailed } else { Exit::Held };
        let exit = stated.or_worse(why.exit);
        Self { exit, expectations, ..Self::of(file, Err(why), PageStyle::PLAIN, style) }
    }

    /// Takes back that baselines are stored, where they were not written: `why` kept them from it.
    pub fn not_stored(&mut self, written: &[PathBuf], why: &ToldFault) {
        let is_written =
            |it: &ToldExpectation| it.baseline.as_ref().is_some_and(|path| written.contains(path));
        let mut taken_back = false;
        for one in self.expectations.iter_mut().filter(|it| it.accepted && !is_written(it)) {
            one.accepted = false;
            taken_back = true;
        }
        if taken_back {
            self.exit = self.exit.or_worse(Exit::ExpectationFailed).or_worse(why.exit);
            self.troubles.push(why.clone());
        }
    }

    /// One line, and below it what failed.
    pub fn test_text(&self) -> String {
        let file = tame(&self.file.display().to_string());
        let word = match self.exit {
            Exit::Held => "ok    ",
            Exit::ExpectationFailed => "FAILED",
            _ => "ERROR ",
        };
        let states_nothing = self.expectations.is_empty() && self.exit == Exit::Held;
        let counts = match self.uncounted {
            0 if states_nothing => "(states no expectation)".into(),
            _ if states_nothing => "(states none that is counted)".into(),
            _ => self.tally().words(),
        };
        let mut text = format!("{word}  {file}  {counts}").trim_end().to_owned() + "\n";
        for one in self.expectations.iter().take(MOST_SHOWN) {
            text += &one.shown;
            text.extend(one.beside().into_iter().map(|line| format!("    {line}\n")));
        }
        text.extend(self.left_out.iter().chain(&self.stopped).map(|fault| fault.shown.as_str()));
        text
    }

    fn tally(&self) -> ExpectationCounts {
        let (all, held, failed) = self.counts();
        let accepted = all - held - failed;
        let passed = self.exit == Exit::Held;
        let warned = self.expectations.iter().filter(|one| !one.warnings.is_empty()).count();
        ExpectationCounts { all, held, accepted, warned, left_out: self.left_out.len(), passed }
    }

    /// The number of its expectations, of those that held, and of those that failed.
    pub fn counts(&self) -> (usize, usize, usize) {
        let held = self.expectations.iter().filter(|one| one.held).count();
        let failed = self.expectations.iter().filter(|one| !one.passes()).count();
        (self.expectations.len(), held, failed)
    }
}
