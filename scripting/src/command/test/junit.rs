//! Results as `JUnit` XML: a suite for each scenario, a case for each expectation, named by its words, so that
//! a case keeps its name when lines are added above it.

use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::check_free_for_file;
use crate::walled::{ToldExpectation, ToldFault, Trial};
use quick_junit::{NonSuccessKind, Report, TestCase, TestCaseStatus, TestSuite};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

const TO_ITS_END: &str = "the scenario runs to its end";

/// Refuses a place where the file can't be written: a long run does not find out at its end.
///
/// # Errors
/// Bad input with the place.
pub(super) fn check_place(path: &Path) -> Result<(), Fault> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    match folder.filter(|folder| !folder.is_dir()) {
        None => check_free_for_file(path),
        Some(folder) => {
            let message = format!("there is no folder `{}` for the JUnit file", folder.display());
            Err(Fault::bad_input(message).with_hint("make the folder first, and give a file in it"))
        }
    }
}

/// The document; what was not run stands in it as skipped.
///
/// # Errors
/// The writer's own error, in words.
pub(super) fn document(tested: &[Trial], not_run: &[PathBuf]) -> Result<String, String> {
    let mut report = Report::new("railproof");
    for trial in tested {
        let name = trial.file.display().to_string();
        let mut suite = TestSuite::new(name.as_str());
        suite.set_time(trial.took);
        suite.extra.insert("file".into(), name.as_str().into());
        if !trial.printed.is_empty() {
            suite.set_system_out(trial.printed.join("\n").replace('\t', "    "));
        }
        suite.add_test_cases(cases(trial));
        for case in &mut suite.test_cases {
            case.set_classname(name.as_str());
            case.extra.insert("file".into(), name.as_str().into());
        }
        report.add_test_suite(suite);
    }
    for file in not_run {
        let name = file.display().to_string();
        let mut suite = TestSuite::new(name.as_str());
        let mut case = TestCase::new(TO_ITS_END, TestCaseStatus::skipped());
        case.set_classname(name.as_str());
        suite.add_test_case(case);
        report.add_test_suite(suite);
    }
    report.to_string().map_err(|error| error.to_string())
}

fn cases(trial: &Trial) -> Vec<TestCase> {
    let mut names = CaseNames::default();
    let mut cases: Vec<TestCase> = trial
        .expectations
        .iter()
        .map(|one| {
            let mut case = case(names.own(&one.expected), one.at_line, of_expectation(one));
            let beside = one.beside();
            if !beside.is_empty() {
                case.set_system_out(beside.join("\n"));
            }
            case
        })
        .collect();
    let left_out = trial.left_out.iter();
    cases.extend(left_out.map(|fault| {
        case(names.own(&format!("left out: {}", fault.message)), fault.at_line, of_fault(fault))
    }));
    match &trial.stopped {
        Some(fault) => cases.push(case(TO_ITS_END.to_owned(), fault.at_line, of_fault(fault))),
        None if cases.is_empty() && trial.exit == Exit::Held => {
            let name = format!("{TO_ITS_END} (it states no expectation)");
            cases.push(case(name, None, TestCaseStatus::success()));
        }
        None => {}
    }
    cases.extend(
        trial
            .troubles
            .iter()
            .map(|fault| case(names.own(&fault.message), fault.at_line, of_fault(fault))),
    );
    cases
}

/// CaseNames that nothing else in a suite has: an expectation in a loop has the same words many times.
#[derive(Default)]
struct CaseNames(BTreeMap<String, usize>);

impl CaseNames {
    fn own(&mut self, words: &str) -> String {
        let count = self.0.entry(words.to_owned()).or_insert(0);
        *count += 1;
        if *count > 1 { format!("{words} ({count})") } else { words.to_owned() }
    }
}

fn case(name: String, line: Option<usize>, status: TestCaseStatus) -> TestCase {
    let mut case = TestCase::new(name, status);
    if let Some(line) = line {
        case.extra.insert("line".into(), line.to_string().into());
    }
    case
}

/// A thing that kept the scenario from being played as it is written.
fn of_fault(fault: &ToldFault) -> TestCaseStatus {
    let mut status = TestCaseStatus::non_success(NonSuccessKind::Error);
    status
        .set_type(fault.exit.meaning())
        .set_message(fault.line.as_str())
        .set_description(fault.plain.as_str());
    status
}

fn of_expectation(one: &ToldExpectation) -> TestCaseStatus {
    if one.passes() {
        return TestCaseStatus::success();
    }
    let mut status = TestCaseStatus::non_success(NonSuccessKind::Failure);
    let moved = one.moved.iter().fold(String::new(), |text, line| text + "\n" + line);
    status
        .set_type("expectation")
        .set_message(format!("found: {}", one.found))
        .set_description(format!("expected: {}\nfound: {}{moved}", one.expected, one.found));
    status
}
