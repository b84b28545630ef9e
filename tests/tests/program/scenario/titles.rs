//! Titles of pictures: each its own, whole, and in plain words.

use super::{HALL, run};
use railproof::record::Record;
use railproof::scenario::{RunOptions, run_scenario};
use std::collections::BTreeSet;
use std::path::Path;

fn assert_apart(record: &Record, name: &str) {
    let titles: Vec<&str> = record.drawings.iter().map(|it| it.picture.title()).collect();
    let unlike: BTreeSet<&str> = titles.iter().copied().collect();
    assert_eq!(unlike.len(), titles.len(), "{name}: {titles:#?}");
}

#[test]
fn no_two_pictures_of_a_shipped_scenario_share_a_title() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let mut pictures = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let file = entry.unwrap().path();
        if file.extension().is_none_or(|extension| extension != "lua") {
            continue;
        }
        let name = file.display().to_string();
        let record = run_scenario(&file, &RunOptions::default())
            .and_then(Record::whole)
            .unwrap_or_else(|fault| panic!("{name}: {fault}"));
        pictures += record.drawings.len();
        assert_apart(&record, &name);
    }
    assert!(pictures > 30, "{pictures}");
}

#[test]
fn pictures_with_one_finding_say_what_sets_them_apart() {
    let record = run(&format!(
        "{HALL}local map = compare(grid {{ equipment = hall, contact = {{ 2, 2.25 }}, off_rail = inches(0), \
         speed = {{ mps(3), mps(4) }}, spin = {{ 'stun', 'roll' }} }}, ratio)
map:where {{ spin = 'stun' }}:draw {{ x = 'speed', y = 'contact' }}
map:where {{ spin = 'roll' }}:draw {{ x = 'speed', y = 'contact', title = 'Holds at any speed.' }}
map:where {{ spin = 'stun' }}:draw {{ x = 'contact', y = 'speed', title = 'Holds at any speed.' }}
map:where {{ contact = 2 }}:draw_lines {{ x = 'speed', y = 'arrival_speed', series = 'spin', title = 'Holds at any speed.' }}
local shot = bank_shot {{ equipment = hall, contact = 2, rule = ratio }}
shot:play {{ speed = mps(3), send = 'line' }}:draw {{ title = 'A bank' }}
shot:play {{ speed = mps(4), send = 'line' }}:draw {{ title = 'A bank' }}
shot:play {{ speed = mps(4), send = 'line' }}:draw {{ title = 'A bank' }}"
    ));
    assert_apart(&record, "made up");
    let titles: Vec<&str> = record.drawings.iter().map(|it| it.picture.title()).collect();
    assert_eq!(titles[0], "Holds at any speed.");
    assert_eq!(titles[1], "Holds at any speed (frozen to the rail, natural roll).");
    assert_eq!(titles[2], "Holds at any speed (map-3).");
    assert_eq!(titles[4], "A bank");
    assert!(titles[5].starts_with("A bank (cue struck at 4.00 m/s"), "{titles:?}");
    assert_eq!(titles[6], "A bank (shot-3)");
}
