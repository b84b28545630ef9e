//! Results as `JUnit` XML: a suite for each scenario, a case for each expectation. Times are left
//! out, so that the same results give the same bytes.

use super::trial::ScenarioTrial;
use crate::exit::Exit;
use crate::fault::{Fault, Style};
use crate::record::{Expectation, Record};
use crate::report::is_accepted;
use quick_junit::{NonSuccessKind, Report, TestCase, TestCaseStatus, TestSuite};
use std::collections::BTreeMap;

const TO_ITS_END: &str = "the scenario runs to its end";

/// The document.
///
/// # Errors
/// The writer's own error, in words.
pub(super) fn document(tested: &[ScenarioTrial]) -> Result<String, String> {
    let mut report = Report::new("railproof");
    for scenario in tested {
        let name = scenario.file.display().to_string();
        let mut suite = TestSuite::new(name.as_str());
        match &scenario.outcome {
            Ok(record) => suite.add_test_cases(cases(record)),
            Err(fault) => suite.add_test_case(TestCase::new(TO_ITS_END, error(fault))),
        };
        for case in &mut suite.test_cases {
            case.set_classname(name.as_str());
        }
        report.add_test_suite(suite);
    }
    report.to_string().map_err(|error| error.to_string())
}

/// A thing that kept the scenario from being played as it is written.
fn error(fault: &Fault) -> TestCaseStatus {
    let mut status = TestCaseStatus::non_success(NonSuccessKind::Error);
    status
        .set_type(fault.exit.meaning())
        .set_message(fault.to_string())
        .set_description(fault.render(Style::PLAIN));
    status
}

fn cases(record: &Record) -> Vec<TestCase> {
    if record.expectations.is_empty() && record.exit() == Exit::Held {
        let name = format!("{TO_ITS_END} (it states no expectation)");
        return vec![TestCase::new(name, TestCaseStatus::success())];
    }
    let mut names: BTreeMap<String, usize> = BTreeMap::new();
    let mut cases: Vec<TestCase> = record
        .expectations
        .iter()
        .map(|expectation| {
            let name = name(expectation);
            let count = names.entry(name.clone()).or_insert(0);
            *count += 1;
            // An expectation in a loop stands on one line many times.
            let name = if *count > 1 { format!("{name} ({count})") } else { name };
            TestCase::new(name, status(expectation))
        })
        .collect();
    cases.extend(record.left_out.iter().map(|one| {
        let line = one.line().map_or_else(String::new, |line| format!("line {line}: "));
        TestCase::new(format!("{line}left out: {}", one.fault.message), error(&one.fault))
    }));
    cases.extend(record.stopped.iter().map(|fault| TestCase::new(TO_ITS_END, error(fault))));
    cases
}

fn name(expectation: &Expectation) -> String {
    match &expectation.place {
        Some(place) => format!("line {}: {}", place.line_column().0, expectation.expected),
        None => expectation.expected.clone(),
    }
}

fn status(expectation: &Expectation) -> TestCaseStatus {
    if expectation.held || is_accepted(expectation) {
        return TestCaseStatus::success();
    }
    let mut status = TestCaseStatus::non_success(NonSuccessKind::Failure);
    let moved = expectation
        .baseline
        .as_ref()
        .map_or_else(String::new, |baseline| format!("\n{}", baseline.moved.join("\n")));
    status
        .set_type("expectation")
        .set_message(format!("found: {}", expectation.found))
        .set_description(format!(
            "expected: {}\nfound: {}{moved}",
            expectation.expected, expectation.found
        ));
    status
}
