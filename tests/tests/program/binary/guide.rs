//! The blocks of code in the guide, run as they are printed.

use super::support::{Place, words};

/// Pages and the blocks in them.
const PAGES: &[(&str, &str, usize)] = &[
    ("baselines", include_str!("../../../../scenarios/guide/baselines.md"), 1),
    ("edges", include_str!("../../../../scenarios/guide/edges.md"), 1),
    ("model", include_str!("../../../../scenarios/guide/model.md"), 0),
    ("nights", include_str!("../../../../scenarios/guide/nights.md"), 4),
    ("rules", include_str!("../../../../scenarios/guide/rules.md"), 6),
    ("shots", include_str!("../../../../scenarios/guide/shots.md"), 4),
    ("speed", include_str!("../../../../scenarios/guide/speed.md"), 0),
    ("table", include_str!("../../../../scenarios/guide/table.md"), 12),
    ("walls", include_str!("../../../../scenarios/guide/walls.md"), 1),
    ("words", include_str!("../../../../scenarios/guide/words.md"), 0),
];

/// Lines that are not run here, with why.
const NOT_RUN: &[(&str, &str)] = &[
    ("parallel ", "another program, which shares the work among processes"),
    ("bash night.sh", "it hands the work to a cluster"),
    ("railproof merge out/night", "the sweep before it plays for hours"),
    ("cargo run --release -- sweep scenarios/overnight.lua --into out/night", "it plays for hours"),
];

/// The names that a page has from before.
const BEFORE: &str = "local hall = equipment \"harbour-hall\"\n\
                      local ratio = rule.linear { slope = 2.2, reading = \"groove\" }\n";

/// Language and text of each block.
fn blocks(page: &str) -> Vec<(&str, &str)> {
    let fenced = page.split("```").skip(1).step_by(2);
    fenced.map(|block| block.split_once('\n').expect("a block has lines")).collect()
}

#[cfg(unix)]
#[test]
fn every_block_runs_as_it_is_printed() {
    let place = Place::new();
    let scenarios = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios");
    // A link would lead out of the folder that a scenario may read.
    place.copy_folder(scenarios, "scenarios");
    for (page, text, wanted) in PAGES {
        let blocks = blocks(text);
        assert_eq!(blocks.len(), *wanted, "{page}");
        for (language, block) in blocks {
            match language {
                "lua" => {
                    place.write("mine.lua", &format!("{BEFORE}{block}"));
                    place.run(&["run", "mine.lua"]).code(0);
                }
                "yaml" => {
                    place.write("mine.yaml", block);
                    place.run(&["shot", "mine.yaml"]).code(0);
                }
                // The libraries of another language are no part of the tests here.
                "python" => {}
                _ => commands(&place, block),
            }
        }
    }
}

#[cfg(unix)]
fn commands(place: &Place, block: &str) {
    for line in block.lines() {
        if NOT_RUN.iter().any(|(start, _)| {
            if start.ends_with(' ') { line.starts_with(start) } else { line == *start }
        }) {
            continue;
        }
        let own = line.strip_prefix("cargo run --release -- ").or(line.strip_prefix("railproof "));
        let own = words(own.unwrap_or_else(|| panic!("{line} is run by nothing")));
        place.run(&own.iter().map(String::as_str).collect::<Vec<_>>()).code(0);
    }
}
