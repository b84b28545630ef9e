//! The cost of keeping a map: few shards that are large beside their cells, and an estimate that says so.

use super::support::{Recipe, json_of, play_all, rows_of_file};
use parquet::record::Field;
use railproof::files::RealDisk;
use railproof::plan::{Keep, map_cells};
use railproof::scenario::FunctionShots;
use railproof::shards::estimate;
use serde_json::Value;
use std::time::Duration;

/// 32,768 points by one rule, whose map has 41,088 cells.
fn many_cells(keep: Keep) -> Recipe {
    let banks = r#"sample { equipment = equipment "harbour-hall", pocket = "corner", seed = 5,
  points = 32768, contact = from_to(1, 4), off_rail = from_to(inches(0), inches(20)),
  speed = from_to(mps(1.5), mps(6)), roll = from_to(0, 1), running_side = from_to(-0.1, 0.1),
  rail_model = { "planar", "nose-only" } }"#;
    Recipe { banks: banks.into(), rules: "rule.mirror {}".into(), keep, shard_points: 64 }
}

/// Misses add up to the same bits in whatever shards they are counted.
#[test]
fn the_counts_of_a_sweep_do_not_depend_on_what_is_kept() {
    let tallies = [Keep::Rows, Keep::Map, Keep::Failures].map(|keep| {
        // Shards of other sizes, as the program's own are.
        let shard_points = if keep == Keep::Map { 333 } else { 64 };
        let planned = Recipe { shard_points, ..Recipe::with_failures().keeping(keep) }.placed();
        planned.uninterrupted("out");
        planned.place.run("verify out").code(0);
        json_of(&planned.place.path("out/manifest.json"))["rules"].clone()
    });
    assert!(tallies[0][0]["mean_miss_m"].is_number() && tallies[0][1]["failed"] != 0);
    assert_eq!((&tallies[1], &tallies[2]), (&tallies[0], &tallies[0]));
}

#[test]
fn a_miss_that_nothing_has_is_absent_everywhere() {
    let banks = r#"grid { equipment = equipment "harbour-hall", pocket = "corner", contact = { 2, 3 },
  off_rail = inches(20), speed = mps(0.1) }"#;
    let recipe = Recipe { banks: banks.into(), keep: Keep::Map, ..Recipe::grid() };
    let planned = recipe.placed();
    planned.uninterrupted("out");
    let tally = &json_of(&planned.place.path("out/manifest.json"))["rules"][0];
    for cell in rows_of_file(&planned.place.path("out/map.parquet")) {
        for key in ["worst_miss_m", "mean_miss_m", "rms_miss_m"] {
            assert_eq!((&cell[key], &tally[key]), (&Field::Null, &Value::Null), "{key}");
        }
    }
    assert_eq!(tally["with_miss"], 0);
    planned.place.run("verify out").code(0);
}

#[test]
fn a_map_is_kept_in_few_shards_and_takes_what_was_said() {
    for keep in [Keep::Map, Keep::Rows, Keep::Failures] {
        let given = many_cells(keep).plan();
        // The plan's own shards, as the program makes them.
        let plan = railproof::plan::SweepPlan::new(
            given.name.clone(),
            given.banks().unwrap().clone(),
            given.rules().to_vec(),
            keep,
        );
        if keep == Keep::Map {
            assert_eq!(map_cells(&plan.axes(), plan.ways()), 10 * 64 * 64 + 5 * 64 * 2);
            assert_eq!(plan.shards(), 1, "fewer banks than cells want no second file of cells");
        }
        let place = super::support::Place::new();
        let shards: Vec<u64> = (0..plan.shards()).collect();
        let said = estimate(&plan, &shards, 1, Duration::from_secs(5), &FunctionShots).unwrap();
        play_all(&plan, &place.path("out"), &RealDisk).unwrap();
        let manifest = json_of(&place.path("out/manifest.json"));
        let map = std::fs::metadata(place.path("out/map.parquet")).map_or(0, |about| about.len());
        let took = (manifest["bytes"].as_u64().unwrap() + map) as f64;
        let ratio = said.disk as f64 / took;
        assert!((0.7..1.4).contains(&ratio), "{keep:?}: said {}, took {took}", said.disk);
    }
}
