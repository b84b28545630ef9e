//! Scripts and files that mean harm, or could not mean it more: each is contained within its budget and a second,
//! ends with a documented code, touches nothing outside its output folder, and leaves the next run as it was.

#![cfg(unix)]

mod case;
mod corpus;
mod crashes;
mod exits;
mod fuzzed;
mod interrupted;
mod place;
mod readable;
mod scarce;

use case::Case;
use place::HostilePlace;
use std::collections::BTreeSet;
use std::time::Duration;

/// The whole corpus, one after another: each is to be held by the walls, and not by a lack of processors.
#[test]
fn every_hostile_input_is_contained() {
    let cases = corpus::all();
    let names: BTreeSet<&str> = cases.iter().map(|case| case.name).collect();
    assert_eq!(names.len(), cases.len(), "two cases of one name");
    assert!(cases.len() >= 120, "{}", cases.len());
    let wanted = std::env::var("RAILPROOF_HOSTILE").unwrap_or_default();
    let clean = HostilePlace::new().clean_run();
    let mut longest = (Duration::ZERO, "");
    let mut loose = Vec::new();
    let picked: Vec<&Case> = cases.iter().filter(|case| case.name.contains(&wanted)).collect();
    for case in &picked {
        let place = HostilePlace::new();
        match case.contained(&place) {
            Ok(took) if took.saturating_sub(case.budget) > longest.0 => {
                longest = (took.saturating_sub(case.budget), case.name);
            }
            Ok(_) => {}
            Err(why) => loose.push(format!("{}: {why}", case.name)),
        }
        if place.clean_run() != clean {
            loose.push(format!("{}: the next run is another one", case.name));
        }
    }
    eprintln!(
        "{} cases, {} contained; the longest took {:.2} s more than its budget: {}",
        picked.len(),
        picked.len() - loose.len(),
        longest.0.as_secs_f64(),
        longest.1
    );
    assert!(loose.is_empty(), "{} are not contained:\n{}", loose.len(), loose.join("\n"));
}
