//! Results as `JUnit` XML: a suite for each scenario, a case for each expectation, named by its words, so that
//! a case keeps its name when lines are added above it.

use crate::exit::Exit;
use crate::fault::{Fault, visible, visible_line};
use crate::files::check_free_for_file;
use crate::walled::{ToldExpectation, ToldFault, Trial};
use quick_junit::{NonSuccessKind, Report, TestCase, TestCaseStatus, TestSuite};
use std::collections::BTreeMap;
use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

const TO_ITS_END: &str = "the scenario runs to its end";
/// The suite of what is wrong with the run as a whole.
const WHOLE: &str = "the run as a whole";

/// Refuses a place where the file can't be written: a long run does not find out at its end.
///
/// # Errors
/// Bad input with the place.
pub(super) fn check_place(path: &Path) -> Result<(), Fault> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    match folder.filter(|folder| !folder.is_dir()) {
        None => check_free_for_file(path).and_then(|()| check_replaceable(path)),
        Some(folder) => {
            let message = format!("there is no folder `{}` for the JUnit file", folder.display());
            Err(Fault::bad_input(message).with_hint("make the folder first, and give a file in it"))
        }
    }
}

/// Refuses a file that holds something else than an earlier run's results.
fn check_replaceable(path: &Path) -> Result<(), Fault> {
    let mut beginning = Vec::new();
    let read = File::open(path).and_then(|file| file.take(BEGINNING).read_to_end(&mut beginning));
    let text = String::from_utf8_lossy(&beginning);
    let text = text.trim_start_matches('\u{feff}').trim_start();
    if read.is_err() || text.is_empty() || text.starts_with('<') {
        return Ok(());
    }
    let message = format!("`{}` holds no test results, and is not replaced", path.display());
    Err(Fault::bad_input(message).with_hint("give another file, or delete this one first"))
}

/// So much of a file tells XML from other things, bytes.
const BEGINNING: u64 = 256;

/// A scenario as a suite's name: its path, with what is not seen in it as escapes. XML has no place for some of that.
pub(super) fn path_name(path: &Path) -> String {
    visible_line(&path.display().to_string())
}

/// The document; what was not run stands in it as skipped, and the troubles of the run as a whole as a
/// suite of their own.
///
/// # Errors
/// The writer's own error, in words.
pub(super) fn document(
    tested: &[Trial],
    not_run: &[PathBuf],
    of_run: &[ToldFault],
) -> Result<String, String> {
    let mut report = Report::new("railproof");
    for trial in tested {
        let name = path_name(&trial.file);
        let mut suite = TestSuite::new(name.as_str());
        suite.set_time(trial.took);
        suite.extra.insert("file".into(), name.as_str().into());
        if !trial.printed.is_empty() {
            suite.set_system_out(visible(&trial.printed.join("\n")).replace('\t', "    "));
        }
        suite.add_test_cases(cases(trial));
        for case in &mut suite.test_cases {
            case.set_classname(name.as_str());
            // Of a fault elsewhere it says so already.
            case.extra.entry("file".into()).or_insert_with(|| name.as_str().into());
        }
        report.add_test_suite(suite);
    }
    for file in not_run {
        let name = path_name(file);
        let mut suite = TestSuite::new(name.as_str());
        let mut case = TestCase::new(TO_ITS_END, TestCaseStatus::skipped());
        case.set_classname(name.as_str());
        suite.add_test_case(case);
        report.add_test_suite(suite);
    }
    if !of_run.is_empty() {
        let mut suite = TestSuite::new(WHOLE);
        let mut names = CaseNames::default();
        suite.add_test_cases(
            of_run.iter().map(|fault| case(names.own(&fault.message), at(fault), of_fault(fault))),
        );
        for case in &mut suite.test_cases {
            case.set_classname(WHOLE);
        }
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
            let mut case = case(names.own(&one.expected), (None, one.at_line), of_expectation(one));
            let beside = one.beside();
            if !beside.is_empty() {
                case.set_system_out(visible(&beside.join("\n")));
            }
            case
        })
        .collect();
    let left_out = trial.left_out.iter();
    cases.extend(left_out.map(|fault| {
        case(names.own(&format!("left out: {}", fault.message)), at(fault), of_fault(fault))
    }));
    match &trial.stopped {
        Some(fault) => cases.push(case(TO_ITS_END.to_owned(), at(fault), of_fault(fault))),
        None if cases.is_empty() && trial.exit == Exit::Held => {
            let of = if trial.uncounted > 0 { " that is counted" } else { "" };
            let name = format!("{TO_ITS_END} (it states no expectation{of})");
            cases.push(case(name, (None, None), TestCaseStatus::success()));
        }
        None => {}
    }
    cases.extend(
        trial
            .troubles
            .iter()
            .map(|fault| case(names.own(&fault.message), at(fault), of_fault(fault))),
    );
    cases
}

/// CaseNames that nothing else in a suite has: an expectation in a loop has the same words many times.
#[derive(Default)]
struct CaseNames(BTreeMap<String, usize>);

impl CaseNames {
    fn own(&mut self, words: &str) -> String {
        let words = visible(words);
        let count = self.0.entry(words.clone()).or_insert(0);
        *count += 1;
        if *count > 1 { format!("{words} ({count})") } else { words }
    }
}

/// A fault's file, where it is another one than the scenario, and its line there.
fn at(fault: &ToldFault) -> (Option<&str>, Option<usize>) {
    (fault.at_file.as_deref(), fault.at_line)
}

fn case(
    name: String,
    (file, line): (Option<&str>, Option<usize>),
    status: TestCaseStatus,
) -> TestCase {
    let mut case = TestCase::new(name, status);
    if let Some(file) = file {
        case.extra.insert("file".into(), visible_line(file).into());
    }
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
        .set_message(visible(&fault.line))
        .set_description(visible(&fault.plain));
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
        .set_message(visible(&format!("found: {}", one.found)))
        .set_description(visible(&format!(
            "expected: {}\nfound: {}{moved}",
            one.expected, one.found
        )));
    status
}
