//! Profiles that hold some of the sections, laid over a complete one.

use super::assert_fault;
use railproof::profile::{find_profile, load_partial, parse_partial};
use std::path::Path;

const SOFT: &str = "\
name: Soft cushion
about: An example that is only in this test.
cushion:
  nose_height: 1.42875 in
  restitution: 0.85
  restitution_loss: 0.03 s/m
  friction: 0.2
";

#[test]
fn a_cushion_from_a_file_laid_over_a_table() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("soft.yaml");
    std::fs::write(&path, SOFT).expect("it can be written");
    let partial = load_partial(&path).expect("it is a partial profile");
    assert_eq!(partial.name(), "Soft cushion");
    assert_eq!(partial.about(), Some("An example that is only in this test."));

    let base = find_profile("nine-foot", Path::new("")).expect("it ships");
    let soft = partial.over(base.clone()).expect("it fits");
    assert_eq!(soft.name, "Nine-foot table, Soft cushion");
    assert!((soft.cushion.restitution - 0.85).abs() < 1e-15);
    // Everything else is the table's; what the cushion leaves out has the default, not the old
    // cushion's value.
    assert_eq!((soft.table, soft.ball, soft.cloth), (base.table, base.ball, base.cloth));
    assert_eq!(soft.cushion.cloth_friction, None);
}

#[test]
fn a_section_that_does_not_fit_is_named_in_the_file_it_came_from() {
    let base = || find_profile("nine-foot", Path::new("")).expect("it ships");
    let ball = "name: Big ball\nball:\n  diameter: 75 mm\n  mass: 300 g\n";
    let fault = parse_partial(ball, "big.yaml")
        .expect("it is a partial profile")
        .over(base())
        .expect_err("the nose is too low for it");
    assert_fault(&fault, ball, "diameter", "the nose is at 48.4 %", "37.500 mm");

    let high = SOFT.replace("1.42875 in", "45 mm");
    let fault = parse_partial(&high, "high.yaml")
        .expect("it is a partial profile")
        .over(base())
        .expect_err("the nose is too high");
    assert_fault(&fault, &high, "nose_height", "the nose is at 78.7 %", "28.575 mm");
}

#[test]
fn a_partial_profile_is_no_complete_one_and_an_empty_one_is_none() {
    let fault = railproof::profile::parse_profile(SOFT, "soft.yaml").expect_err("no table");
    assert_fault(&fault, SOFT, "name", "no `table` section", "laid over");
    let empty = "name: nothing\n";
    let fault = parse_partial(empty, "empty.yaml").expect_err("no section");
    assert_fault(&fault, empty, "name", "none of the sections", "give it a table");
}
