mod edges;
mod parameters;

use super::*;
use crate::record::testing::{linear, map, plan};
use std::fs;

fn sample(contacts: &[f64], speed: f64, slope: f64) -> MapRecord {
    map("sample", plan(contacts, &[speed, speed + 1.0]), vec![linear(slope)])
}

fn all(map: &MapRecord) -> Vec<usize> {
    (0..map.rows.len()).collect()
}

fn held(map: &MapRecord, path: &Path, within_mm: f64, accept: bool) -> BaselineReport {
    checked(map, path, within_mm, accept).unwrap().report
}

fn checked(
    map: &MapRecord,
    path: &Path,
    within_mm: f64,
    accept: bool,
) -> Result<BaselineCheck, Fault> {
    check(map, &all(map), path, (within_mm, MissUnit::Millimetres), accept)
}

fn store(map: &MapRecord, path: &Path) {
    let report = held(map, path, 0.0, true);
    assert!(report.accepted);
    assert_eq!(keep_accepted([&report]).1, None);
}

#[test]
fn a_missing_baseline_is_refused_until_it_is_accepted() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("deep/sample.baseline");
    let map = sample(&[1.5, 2.0], 3.0, 2.2);
    let missing = checked(&map, &path, 0.5, false).unwrap_err();
    assert!(missing.message.contains("there is no stored map"), "{missing:?}");
    assert!(missing.hint.is_some_and(|hint| hint.contains("--accept")));
    assert!(!path.exists());
    store(&sample(&[1.5, 2.0], 3.0, 2.2), &path);
    let again = held(&sample(&[1.5, 2.0], 3.0, 2.2), &path, 0.0, true);
    assert_eq!(again.moved, Vec::<String>::new());
    assert!(!again.accepted, "nothing moved, so there is nothing to accept");
    assert_eq!(fs::read_to_string(&path).unwrap(), again.text);
}

#[test]
fn the_file_reads_back_as_it_was_written() {
    let map = sample(&[1.5, 2.0, 9.0], 1.0, 2.2);
    let entries = BaselineRows::of(&map, &all(&map), "abc".to_owned());
    let text = text::write(&entries);
    let back = text::read(&InputText::new("b.baseline", &text).unwrap()).unwrap();
    assert_eq!(text::write(&back), text);
    assert_eq!(back.rows.len(), 6);
    // A checkout may have turned the line breaks.
    let turned = text.replace('\n', "\r\n");
    assert_eq!(text::read(&InputText::new("b.baseline", &turned).unwrap()).unwrap(), back);
}

#[test]
fn a_moved_miss_is_listed_beyond_the_tolerance_only() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sample.baseline");
    store(&sample(&[1.5], 3.0, 2.2), &path);
    let now = sample(&[1.5], 3.0, 2.205);
    let shift = |row: usize| {
        let old = sample(&[1.5], 3.0, 2.2);
        1e3 * (now.rows[row].outcome.miss_m().unwrap() - old.rows[row].outcome.miss_m().unwrap())
    };
    let largest = shift(0).abs().max(shift(1).abs());
    assert!(largest > 0.5, "the rules must differ enough for the test to mean something");
    // Rules are told apart by their names, so give the new one the old name.
    let mut now = now;
    now.rules[0].name = sample(&[1.5], 3.0, 2.2).rules[0].name.clone();
    let strict = held(&now, &path, largest - 0.01, false).moved;
    assert_eq!(strict[0], "the rule's slope was 2.2, is 2.205");
    assert!(strict[1].contains("moved by more than"), "{strict:?}");
    assert!(strict.last().unwrap().contains("rule"), "{strict:?}");
    assert_eq!(held(&now, &path, largest + 0.01, false).moved, Vec::<String>::new());
}

#[test]
fn a_changed_verdict_is_listed_whatever_the_tolerance() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sample.baseline");
    store(&sample(&[2.0], 3.0, 2.2), &path);
    let mut now = sample(&[2.0], 3.0, 2.6);
    now.rules[0].name = sample(&[2.0], 3.0, 2.2).rules[0].name.clone();
    let moved = held(&now, &path, 1e9, false).moved;
    assert!(moved[1].contains("verdicts changed"), "{moved:?}");
    assert!(moved[2].contains("contact_diamonds 2") && moved[2].contains("now"), "{moved:?}");
}

#[test]
fn points_that_came_and_went_are_told_apart() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sample.baseline");
    store(&sample(&[1.5, 2.0], 3.0, 2.2), &path);
    let moved = held(&sample(&[2.0, 2.5], 3.0, 2.2), &path, 0.0, false).moved;
    assert!(moved.iter().any(|line| line.starts_with("2 banks are new")), "{moved:?}");
    assert!(moved.iter().any(|line| line.starts_with("2 banks are gone")), "{moved:?}");
    assert!(!moved.iter().any(|line| line.contains("misses")), "{moved:?}");
    // An axis that shrank to one value is still the same input.
    let one = map("sample", plan(&[1.5, 2.0], &[3.0]), vec![linear(2.2)]);
    let moved = held(&one, &path, 0.0, false).moved;
    assert!(moved.iter().any(|line| line.starts_with("2 banks are gone")), "{moved:?}");
    assert!(!moved.iter().any(|line| line.contains("new")), "{moved:?}");
}

#[test]
fn a_long_list_is_cut_and_its_count_is_whole() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sample.baseline");
    store(&sample(&[2.0], 3.0, 2.2), &path);
    let many: Vec<f64> = (0..50).map(|step| 1.0 + 0.04 * f64::from(step)).collect();
    let moved = held(&sample(&many, 3.0, 2.2), &path, 0.0, false).moved;
    assert!(moved[0].starts_with("the contact number was 2, is 50 values from 1 to"), "{moved:?}");
    assert!(moved[1].starts_with("98 banks are new") || moved[1].starts_with("100"), "{moved:?}");
    assert!(moved.len() < 40, "{}", moved.len());
    assert!(moved.iter().any(|line| line.contains("more")), "{moved:?}");
}

#[test]
fn rows_that_read_alike_are_compared_one_by_one() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sample.baseline");
    let twice = || map("sample", plan(&[2.0, 2.0], &[3.0]), vec![linear(2.2)]);
    store(&twice(), &path);
    assert_eq!(held(&twice(), &path, 0.0, false).moved, Vec::<String>::new());
    let once = map("sample", plan(&[2.0], &[3.0]), vec![linear(2.2)]);
    let moved = held(&once, &path, 0.0, false).moved;
    assert!(moved[0].starts_with("1 bank is gone"), "{moved:?}");
}

#[test]
fn a_spoilt_file_is_refused_with_its_place() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sample.baseline");
    let map = sample(&[2.0], 3.0, 2.2);
    let good = held(&map, &path, 0.0, true).text;
    let spoil = |from: &str, to: &str| {
        assert!(good.contains(from), "{good}");
        fs::write(&path, good.replacen(from, to, 1)).unwrap();
        // Accepting must not overwrite a file that is not understood.
        let fault = checked(&map, &path, 0.0, true).unwrap_err();
        assert_eq!(fault.exit, crate::exit::Exit::BadInput);
        (fault.place.as_ref().unwrap().line_column(), fault)
    };
    let rows_from = good.lines().count() - 1;
    assert!(spoil("# railproof", "# other").1.message.contains("not a baseline"));
    assert!(spoil("format 2", "format 9").1.message.contains("format 9"));
    assert!(spoil("contact_diamonds", "contact_diamond").1.hint.unwrap().contains("contact_d"));
    let ((line, _), fault) = spoil("\tholds\t", "\thold\t");
    assert!(fault.hint.unwrap().contains("holds"));
    assert!(line >= rows_from, "{line}");
    assert!(spoil("\tholds\t", "\tholds\tnan\t").1.message.contains("fields"));
    let miss = good.lines().last().unwrap().rsplit('\t').next().unwrap();
    let ((line, _), fault) = spoil(&format!("\t{miss}\n"), "\tNaN\n");
    assert!(fault.message.contains("NaN") && line >= rows_from);
    // An empty file holds nothing that accepting could lose.
    fs::write(&path, "").unwrap();
    let empty = |accept| checked(&map, &path, 0.0, accept);
    assert!(empty(false).unwrap_err().message.contains("is empty"));
    assert!(empty(true).unwrap().report.accepted);
    fs::write(&path, good.lines().take(rows_from - 1).collect::<Vec<_>>().join("\n")).unwrap();
    assert!(checked(&map, &path, 0.0, true).is_err(), "no rows left");
}

#[test]
fn tolerances_and_selections_that_say_nothing_are_refused() {
    let map = sample(&[2.0], 3.0, 2.2);
    let path = Path::new("/nonexistent/baseline.baseline");
    for within_mm in [f64::NAN, f64::INFINITY, -1.0] {
        assert!(checked(&map, path, within_mm, false).is_err());
    }
    assert!(check(&map, &[], path, (1.0, MissUnit::Millimetres), false).is_err());
}

#[test]
fn two_maps_can_not_share_a_file() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sample.baseline");
    let report_of = |contacts: &[f64]| held(&sample(contacts, 3.0, 2.2), &path, 0.0, true);
    let fault = keep_accepted([&report_of(&[1.5]), &report_of(&[2.0])]).1.unwrap();
    assert!(fault.message.contains("two different maps"), "{fault}");
    assert!(!path.exists());
    assert_eq!(keep_accepted([&report_of(&[1.5]), &report_of(&[1.5])]).0.len(), 1);
}

#[test]
fn names_with_tabs_do_not_break_the_file() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sample.baseline");
    let mut odd = sample(&[2.0], 3.0, 2.2);
    odd.rules[0].name = "twice\tand\na bit".to_owned();
    let report = held(&odd, &path, 0.0, true);
    fs::write(&path, &report.text).unwrap();
    assert_eq!(held(&odd, &path, 0.0, false).moved, Vec::<String>::new());
}

#[test]
fn a_bank_that_is_stored_twice_is_told_so_and_not_as_gone_alone() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sample.baseline");
    store(&sample(&[1.5, 2.0], 3.0, 2.2), &path);
    let text = fs::read_to_string(&path).unwrap();
    let last = text.lines().last().unwrap();
    fs::write(&path, format!("{text}{last}\n")).unwrap();
    let moved = held(&sample(&[1.5, 2.0], 3.0, 2.2), &path, 0.0, false).moved;
    assert!(moved[1].ends_with("(stored more than once)"), "{moved:?}");
    // A baseline that is too long is no equipment.
    fs::write(&path, "#".repeat(2 << 20)).unwrap();
    let fault = checked(&sample(&[1.5], 3.0, 2.2), &path, 0.0, false).unwrap_err();
    let hint = fault.hint.unwrap_or_default();
    assert!(fault.message.contains("larger than") && !hint.contains("layout"), "{hint}");
}
