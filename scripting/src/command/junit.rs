//! Results as `JUnit` XML: a suite for each scenario, a case for each expectation. Times are left
//! out, so that the same results give the same bytes.

use super::trial::ScenarioTrial;
use crate::fault::Style;
use crate::record::{Expectation, Record};
use crate::report::is_accepted;
use quick_junit::{NonSuccessKind, Report, TestCase, TestCaseStatus, TestSuite};
use std::collections::BTreeMap;

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
            Err(fault) => {
                let mut status = TestCaseStatus::non_success(NonSuccessKind::Error);
                status
                    .set_type(fault.exit.meaning())
                    .set_message(fault.to_string())
                    .set_description(fault.render(Style::PLAIN));
                suite.add_test_case(TestCase::new("the scenario runs to its end", status))
            }
        };
        for case in &mut suite.test_cases {
            case.set_classname(name.as_str());
        }
        report.add_test_suite(suite);
    }
    report.to_string().map_err(|error| error.to_string())
}

fn cases(record: &Record) -> Vec<TestCase> {
    if record.expectations.is_empty() {
        let name = "the scenario runs to its end (it states no expectation)";
        return vec![TestCase::new(name, TestCaseStatus::success())];
    }
    let mut names: BTreeMap<String, usize> = BTreeMap::new();
    record
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
        .collect()
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
