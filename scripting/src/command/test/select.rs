//! Which scenarios are run, and which of their expectations count.

use crate::exit::Exit;
use crate::fault::{Fault, Style};
use crate::shards::Share;
use crate::walled::{ToldExpectation, Trial};
use std::path::PathBuf;

/// What the user picks.
#[derive(Debug, Clone, Copy)]
pub(super) struct Selection<'a> {
    /// Texts of which a path contains one; all paths when there is none.
    pub(super) filter: &'a [String],
    /// Texts of which an expectation contains one; all when there is none.
    pub(super) expecting: &'a [String],
}

impl Selection<'_> {
    /// The files to run.
    ///
    /// # Errors
    /// Nothing is left: a test of nothing is no test. A share may be empty, when there are more shares than files.
    pub(super) fn files(
        &self,
        all: &[PathBuf],
        share: Option<Share>,
    ) -> Result<Vec<PathBuf>, Fault> {
        let picked = all.iter().filter(|file| {
            let path = file.display().to_string();
            self.filter.is_empty() || self.filter.iter().any(|text| path.contains(text.as_str()))
        });
        let picked: Vec<PathBuf> = picked.cloned().collect();
        if picked.is_empty() && !all.is_empty() {
            let told: Vec<String> = self.filter.iter().map(|text| format!("`{text}`")).collect();
            return Err(Fault::bad_input(format!(
                "none of the {} scenarios has {} in its path",
                all.len(),
                told.join(" or ")
            ))
            .with_hint("--list shows their paths"));
        }
        let own = |at: usize| share.is_none_or(|share| share.holds(at as u64));
        Ok(picked.into_iter().enumerate().filter(|(at, _)| own(*at)).map(|(_, it)| it).collect())
    }

    /// Keeps the expectations that count. A scenario that has none of them says nothing, and never passes for
    /// what it does not say.
    pub(super) fn narrow(&self, trial: &mut Trial) {
        if self.expecting.is_empty() {
            return;
        }
        let stated = trial.expectations.len();
        let counts = |words: &str| self.expecting.iter().any(|text| words.contains(text.as_str()));
        trial.expectations.retain(|one| counts(&one.expected));
        trial.uncounted = stated - trial.expectations.len();
        let (_, _, failed) = trial.counts();
        if trial.exit == Exit::ExpectationFailed && failed == 0 {
            trial.exit = Exit::Held;
        }
    }
}

impl Selection<'_> {
    /// Refuses texts that no expectation contains.
    ///
    /// # Errors
    /// That.
    pub(super) fn check_counted(&self, tested: &[Trial]) -> Result<(), Fault> {
        let none = tested.iter().all(|trial| trial.expectations.is_empty());
        if self.expecting.is_empty() || tested.is_empty() || !none {
            return Ok(());
        }
        let told: Vec<String> = self.expecting.iter().map(|text| format!("`{text}`")).collect();
        Err(Fault::bad_input(format!("no expectation contains {}", told.join(" or ")))
            .with_hint("take words of an expectation as `test` or `run --full` shows it"))
    }
}

/// Fails a scenario that states no expectation.
pub(super) fn require_expectations(trial: &mut Trial, style: Style) {
    if !trial.expectations.is_empty() || trial.exit != Exit::Held {
        return;
    }
    let fault = Fault::new(
        Exit::ExpectationFailed,
        format!(
            "`{}` states no expectation, and --require-expectations asks for one",
            trial.file.display()
        ),
    );
    trial.exit = fault.exit;
    trial.expectations.push(ToldExpectation {
        expected: "it states an expectation".to_owned(),
        found: "it states none".to_owned(),
        held: false,
        accepted: false,
        at_line: None,
        baseline: None,
        moved: Vec::new(),
        parameters: Vec::new(),
        warnings: Vec::new(),
        notes: Vec::new(),
        picture: None,
        shown: fault.render(style),
    });
}
