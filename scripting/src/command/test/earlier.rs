//! What failed last time is run first, by the results that are about to be replaced.

use super::junit::path_name;
use crate::files::ordinary;
use quick_junit::{Report, TestCaseStatus};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Results that are longer are not looked into.
const LONGEST: u64 = 64 << 20;

/// Puts the files in front that failed in an earlier run's JUnit file. One that is missing or foreign changes
/// nothing.
pub(super) fn first(junit: &Path, files: &mut [PathBuf]) {
    let Ok(bytes) = ordinary::read_at_most(junit, LONGEST) else { return };
    let Some(failed) = String::from_utf8(bytes).ok().and_then(|text| failed_in(&text)) else {
        return;
    };
    files.sort_by_key(|file| !failed.contains(&path_name(file)));
}

/// The suites in which something failed.
fn failed_in(text: &str) -> Option<BTreeSet<String>> {
    let report = Report::deserialize_from_str(text).ok()?;
    let failed = report.test_suites.iter().filter(|suite| {
        let bad = |status: &TestCaseStatus| matches!(status, TestCaseStatus::NonSuccess { .. });
        suite.test_cases.iter().any(|case| bad(&case.status))
    });
    Some(failed.map(|suite| suite.name.as_str().to_owned()).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn failures_come_first_and_foreign_files_change_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let junit = folder.path().join("junit.xml");
        let files = || ["a.lua", "b.lua", "c.lua"].map(PathBuf::from);
        let ordered = |text: &str| {
            std::fs::write(&junit, text).unwrap();
            let mut files = files();
            first(&junit, &mut files);
            files
        };
        let failed = r#"<?xml version="1.0"?><testsuites name="railproof" tests="1" failures="1" errors="0">
            <testsuite name="c.lua" tests="1" disabled="0" errors="0" failures="1">
            <testcase name="it" classname="c.lua"><failure type="t" message="m"/></testcase></testsuite>
            <testsuite name="a.lua" tests="1" disabled="0" errors="0" failures="0">
            <testcase name="it" classname="a.lua"></testcase></testsuite></testsuites>"#;
        assert_eq!(ordered(failed), ["c.lua", "a.lua", "b.lua"].map(PathBuf::from));
        for foreign in ["", "<a/>", "not xml", "<testsuites><"] {
            assert_eq!(ordered(foreign), files());
        }
    }
}
