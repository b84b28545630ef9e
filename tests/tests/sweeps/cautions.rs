//! A sweep says what to be careful of: hard speeds, and a load of many hours.

use super::support::{Place, text_of_file};
use serde_json::Value;

fn scenario(to_m_s: f64, points: u64) -> String {
    format!(
        "local banks = sample {{ equipment = equipment 'harbour-hall', points = {points}, contact = from_to(1, 4), \
         speed = from_to(mps(1.5), mps({to_m_s})), name = 'night' }}
plan(banks, rule.linear {{ slope = 2.2 }})\n"
    )
}

#[test]
fn hard_speeds_are_cautioned_about_in_the_dry_run_the_ending_and_the_manifest() {
    for (hard, to_m_s) in [(true, 6.0), (false, 4.0)] {
        let place = Place::new();
        place.write("night.lua", scenario(to_m_s, 2000));
        let mut shown = vec![
            place.run("sweep night.lua --into out --dry-run").code(0).out,
            place.run("sweep night.lua --into out").code(0).out,
            place.run("merge out").code(0).out,
        ];
        let manifest = text_of_file(&place.path("out/manifest.json"));
        let manifest: Value = serde_json::from_str(&manifest).unwrap();
        shown.push(manifest["cautions"].to_string());
        for text in shown {
            assert_eq!(text.contains("leave the table"), hard, "{to_m_s} m/s: {text}");
            assert!(!text.contains("ventilated"), "{text}");
        }
    }
}

#[test]
fn the_dry_run_of_a_night_speaks_of_the_load() {
    let place = Place::new();
    place.write("night.lua", scenario(4.0, 500_000_000_000));
    // There may be no room for it on this disk, which is another matter.
    let told = place.run("sweep night.lua --into out --keep map --dry-run").out;
    assert!(told.contains("ventilated") && told.contains("--threads"), "{told}");
}
