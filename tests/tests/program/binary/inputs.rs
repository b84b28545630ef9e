//! Files that a command reads are never written over by it.

use super::support::{HOLDS, Place, scenario};

#[test]
fn no_command_writes_over_a_file_that_it_reads() {
    let text = scenario("2.2", HOLDS);
    let place = Place::with(&text);
    place.run(&["plan", "bank.lua", "--out", "plan.json"]).code(0);
    let plan = place.read("plan.json");
    for command in [
        &["plan", "bank.lua", "--out", "./bank.lua"][..],
        &["test", ".", "--junit", "bank.lua"],
        &["slurm", "plan.json", "--into", "out/all", "--script", "plan.json"],
    ] {
        let refused = place.run(command).code(2);
        assert!(refused.err.contains("is read here and can't be written over"), "{refused:?}");
    }
    assert_eq!((place.read("bank.lua"), place.read("plan.json")), (text, plan));
}

#[test]
fn a_junit_file_without_its_folder_is_refused_before_anything_is_played() {
    let place = Place::with(&scenario("2.2", HOLDS));
    let refused = place.run(&["test", ".", "--junit", "later/junit.xml"]).code(2);
    assert!(refused.err.contains("there is no folder `later` for the JUnit file"), "{refused:?}");
    assert!(!refused.out.contains("bank.lua"), "{refused:?}");
}
