//! Plans of whole shots: the same promises as for banks, and the rows of a scenario.

use super::support::{
    Place, Planned, change, digests, files, json_of, play, play_all, quiet, rows_of, rows_of_file,
    words,
};
use parquet::file::reader::{FileReader, SerializedFileReader};
use parquet::record::Field;
use railproof::files::RealDisk;
use railproof::plan::{Keep, SweepPlan, plan_of_text};
use railproof::scenario::{RunOptions, plan_of_scenario};
use railproof::shards::{Folder, play_shards};
use serde_json::Value;
use std::path::Path;
use std::sync::atomic::AtomicBool;

/// A bank whose object ball, at some places, lies in the cue ball: there is no such shot.
const LAYOUT: &str = "\
equipment: harbour-hall
target: {pocket: foot-right, ball: object}
balls:
  cue: {position: [0.2 m, 0.1 m]}
  object: {position: [0.5 m, 0.3 m]}
stroke: {speed: 3 m/s, send: {ball: object, heading: {angle: 50 deg}}, tip_side: 0}
";
const SHOTS: &str = r#"{
  layout = "shot.yaml", name = "shots",
  over = {
    ["stroke.speed"] = span(mps(1), mps(6), mps(0.5)),
    ["balls.object.position.y"] = { metres(0.1), metres(0.3), metres(0.5) },
    ["balls.object.position.x"] = span(millimetres(200), millimetres(500), millimetres(100)),
    equipment = { "harbour-hall", "nine-foot" },
  },
}"#;
/// The same from a function: a helper of its own, a unit, `with`, and places without an aim.
const MADE: &str = r#"{
  name = "made",
  over = {
    speed = span(mps(1), mps(6), mps(0.5)),
    y = { metres(0.2), metres(0.3), metres(0.5) },
    x = span(millimetres(200), millimetres(500), millimetres(100)),
    table = { "hall", "home" },
  },
  with = { hall = equipment "harbour-hall", home = equipment "nine-foot" },
  shot = function(point, with)
    -- The bank of the other test.
    local half = function(length) return length / 2 end
    local layout = lay {
      equipment = with[point.table], pocket = "foot-right",
      balls = {
        cue = { position = { half(metres(0.4)), metres(0.1) } },
        object = { position = { point.x, point.y } },
      },
    }
    -- No aim sends the ball the second way.
    local way = point.x < millimetres(450) and degrees(50) or degrees(-60)
    return layout, { speed = point.speed, send = { angle = way } }
  end,
}"#;
/// 11 speeds, 3 × 4 places, 2 tables.
const POINTS: usize = 264;

fn placed(keep: Keep) -> Planned {
    placed_of(SHOTS, keep)
}

fn placed_of(shots: &str, keep: Keep) -> Planned {
    let place = Place::new();
    place.write("shot.yaml", LAYOUT);
    let path = place.write("plan.lua", format!("plan {shots}\n"));
    let plan = plan_of_scenario(&path, 1, &RunOptions::default()).unwrap().keeping(keep);
    let plan = SweepPlan { shard_points: 50, ..plan };
    let plan = plan_of_text("plan.json", &plan.text()).unwrap();
    place.write("plan.json", plan.text());
    Planned { place, plan }
}

#[test]
fn threads_shares_and_interruptions_change_no_byte() {
    let each = [SHOTS, MADE].into_iter();
    let each =
        each.flat_map(|shots| [Keep::Rows, Keep::Map, Keep::Failures].map(|keep| (shots, keep)));
    for (shots, keep) in each {
        let planned = placed_of(shots, keep);
        let (place, plan) = (&planned.place, &planned.plan);
        assert_eq!(plan.shards(), 6);
        let expected = planned.uninterrupted("whole");
        for threads in [1, 2] {
            let into = format!("by-{threads}");
            place
                .run(&format!("sweep plan.json --into {into} --threads {threads} --quiet"))
                .code(0);
            assert_eq!(digests(&place.path(&into)), expected, "{threads} threads");
        }
        let verified = place.run("verify whole").code(0);
        assert!(verified.out.contains("264 shots"), "{verified:?}");

        // Two shares, put together.
        for share in ["2/2", "1/2"] {
            place.run(&format!("sweep plan.json --into apart --shard {share} --quiet")).code(0);
        }
        place.run("merge apart").code(0);
        assert_eq!(digests(&place.path("apart")), expected);

        // Stopped before it began and after two shards, with a third that is damaged.
        let out = place.path("stopped");
        let folder = Folder::new(&out);
        folder.open(plan, &RealDisk).unwrap();
        let stop = AtomicBool::new(true);
        let all: Vec<u64> = (0..plan.shards()).collect();
        assert!(play_shards(plan, &all, &folder, quiet(&RealDisk, &stop)).is_err());
        assert!(files(&out.join("shards")).is_empty());
        play(plan, &[4, 1, 2], &out, &RealDisk).unwrap();
        change(&files(&out.join("shards"))[1], |bytes| bytes[40] ^= 1);
        place.run("sweep plan.json --into stopped --quiet").code(0);
        assert_eq!(digests(&out), expected);
    }
}

/// A field as a CSV has it.
fn text(field: &Field) -> String {
    match field {
        Field::Null => String::new(),
        Field::Str(word) => word.clone(),
        Field::Double(number) => number.to_string(),
        Field::Long(number) => number.to_string(),
        Field::Bool(flag) => flag.to_string(),
        other => panic!("{other}"),
    }
}

#[test]
fn rows_are_those_of_the_scenario() {
    rows_are_the_same(SHOTS);
}

#[test]
fn rows_of_a_function_are_those_of_the_scenario() {
    rows_are_the_same(MADE);
}

fn rows_are_the_same(shots: &str) {
    let planned = placed_of(shots, Keep::Rows);
    let place = &planned.place;
    play_all(&planned.plan, &place.path("whole"), &RealDisk).unwrap();
    let rows = rows_of(&place.path("whole"));
    assert_eq!(rows.len(), POINTS);
    place.write("same.lua", format!("shots {shots}\n"));
    place.run("run same.lua --full --into same").code(0);
    let csv =
        std::fs::read_to_string(place.path(&format!("same/{}.csv", planned.plan.name))).unwrap();
    let mut reader = csv::Reader::from_reader(csv.as_bytes());
    let header = reader.headers().unwrap().clone();
    let names: std::collections::BTreeSet<&str> = header.iter().collect();
    assert_eq!(names, rows[0].keys().map(String::as_str).collect());
    let mut read = 0;
    for (line, row) in reader.records().zip(&rows) {
        for (name, value) in header.iter().zip(&line.unwrap()) {
            assert_eq!(text(&row[name]), value, "{name}");
        }
        read += 1;
    }
    assert_eq!(read, POINTS);
    let verdicts = words(&rows, "verdict");
    let without = verdicts.iter().filter(|word| *word == "no-shot").count();
    assert!(0 < without && without < POINTS / 2, "{without}");
    let why = words(&rows, "why_not");
    assert!(
        verdicts.iter().zip(&why).all(|(verdict, why)| (verdict == "no-shot") != why.is_empty())
    );
    // The same shots played alone.
    let made = rows.iter().find(|row| row["made"] == Field::Bool(true));
    assert!(made.is_some(), "{verdicts:?}");
}

#[test]
fn a_map_counts_the_rows_and_failures_keeps_what_is_not_made() {
    let all = placed(Keep::Rows);
    all.uninterrupted("whole");
    let rows = rows_of(&all.place.path("whole"));
    let verdicts = words(&rows, "verdict");
    let (map, failures) = (placed(Keep::Map), placed(Keep::Failures));
    map.uninterrupted("whole");
    let cells = rows_of_file(&map.place.path("whole/map.parquet"));
    let pair = |row: &&std::collections::BTreeMap<String, Field>| {
        row["x"] == Field::Str("balls.object.position.x".into())
            && row["y"] == Field::Str("stroke.speed".into())
    };
    for verdict in ["dropped-clean", "not-reached", "missed-long", "missed-left", "no-shot"] {
        let column = format!("shots_{}", verdict.replace('-', "_"));
        let counted: i64 = cells
            .iter()
            .filter(pair)
            .map(|row| match row[&column] {
                Field::Long(count) => count,
                ref other => panic!("{other}"),
            })
            .sum();
        let expected = verdicts.iter().filter(|word| *word == verdict).count();
        assert_eq!(usize::try_from(counted).unwrap(), expected, "{verdict}");
    }
    // The counts of the whole, of the scenario's own record too: the same to the bit.
    map.place.write("same.lua", format!("shots {SHOTS}\n"));
    let told = map.place.run("run same.lua --full --into same").code(0).out;
    assert!(told.contains(" flagged ("), "{told}");
    let document = json_of(&map.place.path("same/run.json"));
    let summary = document["shots"][0]["summary"].clone();
    let none = verdicts.iter().filter(|word| *word == "no-shot").count();
    assert_eq!(summary["verdicts"]["no-shot"], none);
    // A shot that is not there is not made, but was asked for.
    let made = verdicts.iter().filter(|word| word.starts_with("dropped")).count();
    assert_eq!(summary["share_made"], made as f64 / verdicts.len() as f64);
    assert!(told.contains(&format!("{made} of {} shots made", verdicts.len())), "{told}");
    assert_eq!(
        (document["shots_played"].as_u64(), document["banks_played"].as_u64()),
        (Some(264), Some(0))
    );
    assert!(summary["worst_miss_m"].is_number() && summary["kissed"].is_u64(), "{summary}");
    failures.uninterrupted("whole");
    for place in [&all.place, &map.place, &failures.place] {
        let manifest = json_of(&place.path("whole/manifest.json"));
        let mut tally = manifest["rules"][0].clone();
        assert_eq!(tally.as_object_mut().unwrap().remove("rule"), Some(Value::Null));
        assert_eq!(tally, summary);
        let of_shards = manifest["shards"].as_array().unwrap().iter();
        let shots: u64 = of_shards.map(|shard| shard["no_shot"].as_u64().unwrap()).sum();
        assert_eq!(shots, none as u64);
    }
    let kept = rows_of(&failures.place.path("whole"));
    let expected: Vec<_> =
        rows.into_iter().filter(|row| row["made"] == Field::Bool(false)).collect();
    assert_eq!(kept, expected);
}

/// The unit and meaning of a column, from its file's notes.
fn header(file: &Path, column: &str) -> (String, String) {
    let bytes = bytes::Bytes::from(std::fs::read(file).unwrap());
    let reader = SerializedFileReader::new(bytes).unwrap();
    let notes = reader.metadata().file_metadata().key_value_metadata().unwrap();
    let note = notes.iter().find(|note| note.key == "railproof.columns").unwrap();
    let columns: Value = serde_json::from_str(note.value.as_ref().unwrap()).unwrap();
    let of = |key: &str| columns[column][key].as_str().unwrap_or("none").to_owned();
    (of("unit"), of("meaning"))
}

#[test]
fn rail_numbers_and_table_lengths_have_their_units_and_flags_their_meaning() {
    let place = Place::new();
    let guard = LAYOUT.replace("stroke:", "  guard: {on_rail: left, number: 2}\nstroke:");
    place.write("shot.yaml", guard);
    let over = "{ ['balls.guard.number'] = { 1, 2 }, ['stroke.tip_side'] = { 0, 0.1 } }";
    let given = format!("{{ layout = 'shot.yaml', name = 'guard', over = {over} }}");
    place.write("plan.lua", format!("plan {given}\n"));
    place.run("plan plan.lua --out plan.json").code(0);
    for keep in ["rows", "map"] {
        place.run(&format!("sweep plan.json --into {keep} --keep {keep} --quiet")).code(0);
    }
    let shard = &files(&place.path("rows/shards"))[0];
    assert_eq!(header(shard, "balls.guard.number_diamonds").0, "diamonds");
    assert_eq!(header(shard, "stroke.tip_side").0, "");
    let flagged = header(shard, "flagged").1;
    assert!(flagged.contains("hop or jump"), "{flagged}");
    assert!(header(&place.path("map/map.parquet"), "flagged").1.ends_with(&flagged));
    place.write("run.lua", format!("shots {given}\n"));
    place.run("run run.lua --into run").code(0);
    let document = json_of(&place.path("run/run.json"));
    assert_eq!(document["shots"][0]["axes"][0]["unit"], "diamonds");
    assert_eq!(document["shots"][0]["axes"][1]["unit"], "");

    let lag = "grid { equipment = equipment 'harbour-hall', pocket = 'corner', contact = 2, lag = { 1, 2 } }";
    place.write("lag.lua", format!("plan({lag}, rule.mirror {{}})\n"));
    let told = place.run("sweep lag.lua --into lag").code(0).out;
    assert!(told.contains("lag: 2 points, 2 banks in 1 shard, keeping rows"), "{told}");
    let shard = &files(&place.path("lag/shards"))[0];
    assert_eq!(header(shard, "lag_table_lengths").0, "table lengths");
}

#[test]
fn a_run_tells_how_each_of_its_plans_is_played() {
    let place = Place::new();
    place.write("shot.yaml", LAYOUT);
    let grid = "grid { equipment = equipment 'harbour-hall', pocket = 'corner', contact = { 2, 3 }, \
                speed = lengths(1) }";
    let shots = "{ layout = 'shot.yaml', name = 'shots', over = { ['stroke.speed'] = { mps(2), mps(3) } } }";
    place.write(
        "both.lua",
        format!("local banks = {grid}\ncompare(banks, rule.mirror {{}})\nplan {shots}\nprint(lengths(1))\n"),
    );
    let run = place.run("run both.lua --full").code(0);
    let told = run.out.split_whitespace().collect::<Vec<_>>().join(" ");
    let hint = "railproof sweep both.lua --which 2 --into out/shots";
    assert!(
        told.contains(&format!("2 points, 2 shots, not played here; {hint} plays it")),
        "{told}"
    );
    assert!(told.contains(" 1 length ") && told.contains("speed 1 table length;"), "{told}");
    // Obeyed, it plays these shots.
    let told = place.run(hint.strip_prefix("railproof ").unwrap()).code(0).out;
    assert!(told.contains("of 2 shots are made"), "{told}");
    let refused = "`--which` chooses among a scenario's plans";
    place.run("plan out/shots/plan.json --which 2").code(2).says(refused);
}

#[test]
fn what_can_not_be_planned_is_refused() {
    let place = Place::new();
    place.write("shot.yaml", LAYOUT);
    place.write("aimless.yaml", LAYOUT.replace("target: {pocket: foot-right, ball: object}\n", ""));
    let cases = [
        (
            "{ layout = 'shot.yaml', over = { ['stroke.sped'] = mps(3) } }",
            "has no key `stroke.sped`",
        ),
        ("{ layout = 'shot.yaml', over = { target = 'x' } }", "is a group of keys"),
        ("{ layout = 'shot.yaml' }", "needs `over`"),
        ("{ layout = 'none.yaml', over = { ['stroke.speed'] = mps(3) } }", "can't read the layout"),
        ("{ layout = 'aimless.yaml', over = { ['stroke.speed'] = mps(3) } }", "has no pocket"),
        (
            "{ layout = 'shot.yaml', with = {}, over = { ['stroke.speed'] = mps(3) } }",
            "`with` is for a function",
        ),
        (
            "{ over = { speed = mps(3) }, with = { hall = 3 }, shot = function() end }",
            "`hall` must be equipment, not",
        ),
        (
            "{ over = { speed = mps(3) }, shot = function() return bank { cut = 1 } end }",
            "`bank` comes from outside the function",
        ),
        (
            "{ over = { speed = mps(3) }, shot = function() print(1) end }",
            "`print` comes from outside the function",
        ),
        (
            "{ over = { speed = mps(3) }, shot = function() return math.random() end }",
            "math.random",
        ),
        (
            "{ layout = 'shot.yaml', over = { speed = mps(3) }, shot = function() end }",
            "both say what is played",
        ),
        (
            "({ layout = 'shot.yaml', over = { ['stroke.speed'] = mps(3) } }, rule.mirror {})",
            "not by rules",
        ),
    ];
    for (given, says) in cases {
        place.write("case.lua", format!("plan {given}\n"));
        place.run("plan case.lua").code(2).says(says).says(":1:");
    }
    let planned = placed(Keep::Rows);
    planned.place.run("sweep plan.json --into out --details").code(2).says("every measure already");
    let text = planned.plan.text();
    let cases = [
        (text.replace("\"harbour-hall\":{", "\"harbor\":{"), "has no equipment `harbour-hall`"),
        (text.replace("\"unit\":\"mm\"", "\"unit\":\"in\""), "says one thing in its unit"),
        (text.replace("\"over\": [", "\"axes\": [], \"over\": ["), "is for banks and"),
        (
            text.replace("[\"harbour-hall\",\"nine-foot\"]", "[\"nine-foot\",\"nine-foot\"]"),
            "twice",
        ),
        (text.replace("speed: 3 m/s", "speed: 3 m/h"), "m/h"),
    ];
    for (changed, says) in cases {
        assert_ne!(changed, text);
        planned.place.write("changed.json", changed);
        planned.place.run("plan changed.json").code(2).says(says);
    }
}

#[test]
fn a_function_that_fails_at_a_point_leaves_a_row_with_its_reason() {
    let made = MADE.replace(
        "local half",
        "if point.speed > mps(5.2) then error('too hard') end\n    \
         if point.speed > mps(4.8) then return 7 end\n    local half",
    );
    assert_ne!(made, MADE);
    let planned = placed_of(&made, Keep::Rows);
    planned.uninterrupted("whole");
    let why = words(&rows_of(&planned.place.path("whole")), "why_not");
    let said = |part: &str| why.iter().filter(|why| why.contains(part)).count();
    assert_eq!((said("too hard"), said("must return a layout, not")), (48, 24));
    planned.place.run("sweep plan.json --into stops --stop-on-error --quiet").code(3);
}

#[test]
fn a_function_out_of_time_ends_the_sweep() {
    let made = MADE.replace("local half", "while point.speed > mps(5) do end\n    local half");
    let planned = placed_of(&made, Keep::Rows);
    let ended = planned.place.run("sweep plan.json --into out --quiet --threads 1").code(4);
    ended.says("the shot function gave up at point");
}

#[test]
fn a_plan_that_was_changed_is_refused_as_its_scenario_is() {
    let planned = placed_of(MADE, Keep::Rows);
    let text = planned.plan.text();
    for (from, to, says) in [
        ("lay {", "grid {", "`grid` comes from outside the function"),
        ("\"name\":\"speed\"", "\"name\":\"verdict\"", "can't name what varies"),
        ("\"shot\": \"return", "\"shot\": \"print(1) return", "must begin with"),
        ("\"over\": [", "\"layout\": \"\", \"over\": [", "both say what is played"),
    ] {
        let changed = text.replace(from, to);
        assert_ne!(changed, text);
        planned.place.write("changed.json", changed);
        planned.place.run("plan changed.json").code(2).says(says);
    }
}
