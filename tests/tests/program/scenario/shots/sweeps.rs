//! Sweeps of shots: every point once, the same for any number of threads, written with units.

use super::{BANK, printed};
use railproof::record::{Picture, Record};
use railproof::report::{PageStyle, full};
use railproof::scenario::{RunOptions, run_scenario};
use railproof::store::{TableCells, write_folder};

const SWEEP: &str =
    "local set = shots { over = { cut = { degrees(-10), degrees(0), degrees(10) }, \
                     speed = { mps(3), mps(4) }, word = { 'ghost', 'along' } },
  shot = function(p)
    local shot = bank { cut = p.cut }
    if p.word == 'ghost' then return shot, { speed = p.speed, ghost = 'line' } end
    return shot, { speed = p.speed, send = 'line' }
  end }
";

fn on_threads(count: usize, text: &str) -> Record {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(count).build().unwrap();
    pool.install(|| crate::scenario::run(text))
}

#[test]
fn each_point_is_played_as_if_alone() {
    let found = printed(&format!(
        "{SWEEP}print(set:count(), #set:rows())
local alike = true
for _, row in set:rows() do
  local shot = bank {{ cut = row.cut }}:play {{ stroke = row.stroke }}
  alike = alike and shot.verdict == row.verdict and shot.miss == row.miss
end
print(alike)
local one = set:where {{ cut = degrees(10), word = 'ghost', speed = {{ from = mps(3.5) }} }}
print(one:count(), one:rows()[1].speed, one:rows()[1].word)
local total = 0
for _, count in set:verdicts() do total += count end
print(total, set:share() >= 0 and set:share() <= 1)"
    ));
    assert_eq!(found, ["12\t12", "true", "1\t4 m/s\tghost", "12\ttrue"]);
}

#[test]
fn one_thread_and_two_write_the_same_bytes() {
    let text = format!(
        "{BANK}{SWEEP}set:draw {{ x = 'cut', y = 'speed', panels = 'word' }}
bank():play {{ speed = mps(4), send = 'line' }}:draw {{}}
expect(set):share_within(0, 1)
print(bank {{ cut = degrees(10) }}:ways {{ speed = {{ mps(3), mps(4) }}, tip_side = span(-0.2, 0.2, 0.2) }}.made)"
    );
    let (one, two) = (on_threads(1, &text), on_threads(2, &text));
    assert_eq!(one.shots[0].rows, two.shots[0].rows);
    let written = |record: &Record| {
        let folder = tempfile::tempdir().unwrap();
        let files = write_folder(record, folder.path(), TableCells::Plain).unwrap().files;
        files
            .into_iter()
            .map(|name| {
                let bytes = std::fs::read(folder.path().join(&name)).unwrap();
                (name, bytes)
            })
            .collect::<Vec<_>>()
    };
    let (one, two) = (written(&one), written(&two));
    assert_eq!(one.len(), 6);
    for (one, two) in one.iter().zip(&two) {
        assert_eq!(one.0, two.0);
        assert!(one.1 == two.1, "{} differs", one.0);
    }
}

#[test]
fn rows_are_written_with_units_and_can_be_told_from_the_record() {
    let record = crate::scenario::run(&format!("{BANK}{SWEEP}"));
    let folder = tempfile::tempdir().unwrap();
    write_folder(&record, folder.path(), TableCells::Plain).unwrap();
    let text = std::fs::read_to_string(folder.path().join("shots.csv")).unwrap();
    let mut lines = text.lines().map(|line| line.split(',').collect::<Vec<&str>>());
    let header = lines.next().unwrap();
    assert_eq!(header[..4], ["point", "cut_rad", "speed_m_s", "word"]);
    let rows: Vec<Vec<&str>> = lines.collect();
    assert_eq!(rows.len(), 12);
    let column = |name: &str| header.iter().position(|known| *known == name).unwrap();
    let miss: f64 = rows[5][column("miss_m")].parse().unwrap();
    assert_eq!(Some(miss), record.shots[0].rows[5].miss_m());
    assert_eq!(rows[5][column("verdict")], record.shots[0].rows[5].verdict_name());
    let run = std::fs::read_to_string(folder.path().join("run.json")).unwrap();
    let run: serde_json::Value = serde_json::from_str(&run).unwrap();
    let shots = &run["shots"][0];
    let verdicts = shots["summary"]["verdicts"].as_object().unwrap();
    assert_eq!(verdicts.values().filter_map(serde_json::Value::as_u64).sum::<u64>(), 12);
    assert_eq!(shots["axes"][1]["unit"], "m/s");
    assert!(shots["made_by"].as_str().unwrap().starts_with("function(p)"), "{shots}");
}

#[test]
fn what_can_not_be_aimed_is_a_row_with_its_reason() {
    let found = printed(
        "local set = shots { over = { angle = { degrees(0), degrees(180) } }, shot = function(p)
  return bank(), { speed = mps(3), send = { angle = p.angle } } end }
for _, row in set:rows() do print(row.verdict, row.why_not) end",
    );
    assert!(found.iter().any(|line| line.starts_with("no-shot\tno aim does it")), "{found:?}");
}

#[test]
fn seeded_random_layouts_are_the_same_every_time() {
    let text = "local set = shots { over = { number = span(1, 20, 1) }, shot = function(p)
  math.randomseed(p.number)
  return bank { contact = 2 + math.random(), cut = degrees(20 * math.random() - 10) }, { speed = mps(4), send = 'line' }
end }
for _, row in set:rows() do print(row.miss) end";
    let first = printed(text);
    assert_eq!(first, printed(text));
    assert!(first.iter().any(|line| *line != first[0]));
}

const LAYOUT: &str = "\
equipment: nine-foot
target: {pocket: foot-right, ball: object}
balls:
  cue: {position: [0.2 m, 0.1 m]}
  object: {position: [0.5 m, 0.3 m]}
stroke: {speed: 3 m/s, send: {ball: object, heading: {angle: 50 deg}}}
";

/// A scenario beside the layout.
fn beside_the_layout(text: &str) -> Result<Record, railproof::fault::Fault> {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("shot.yaml"), LAYOUT).unwrap();
    let path = folder.path().join("it.lua");
    std::fs::write(&path, text).unwrap();
    run_scenario(&path, &RunOptions::default()).and_then(Record::whole)
}

#[test]
fn a_value_that_its_key_can_not_take_is_refused_at_its_place_in_over() {
    let cases = [
        (
            "[\"stroke.speed\"] = { mps(3), mps(30) }",
            "30 m/s can't stand at `stroke.speed`",
            "3 m/s",
        ),
        ("[\"stroke.speed\"] = { 3, 4 }", "`speed` needs a unit", "3 m/s"),
        ("[\"target.pocket\"] = { 'foot-left', 'food-left' }", "`pocket` must be", "foot-right"),
        ("equipment = { 'nine-foot', 'ten-foot' }", "`ten-foot`", "nine-foot"),
    ];
    for call in ["shots", "plan"] {
        for (over, says, there) in cases {
            let text = format!("{call} {{ layout = 'shot.yaml', over = {{ {over} }} }}");
            let fault = beside_the_layout(&text).expect_err(&text);
            assert!(fault.message.contains(says), "{text}: {fault}");
            let place = fault.place.expect("it has a place");
            let key = over.split([']', ' ']).next().unwrap().trim_matches(['[', '"']);
            assert_eq!(place.source()[place.span()].trim_matches('"'), key, "{text}");
            let is_name = over.starts_with("equipment");
            assert!(is_name || fault.hint.is_some_and(|hint| hint.contains(there)), "{text}");
        }
    }
}

/// Words and speeds side by side, as a grid takes them.
#[test]
fn a_layouts_speeds_may_be_words_and_numbers() {
    let over = |speeds: &str| {
        let text = format!(
            "local set = shots {{ layout = 'shot.yaml', over = {{ [\"stroke.speed\"] = {speeds},
  [\"balls.object.position.y\"] = {{ metres(0.3), metres(0.31) }} }} }}
set:draw {{ x = 'stroke.speed', y = 'balls.object.position.y' }}"
        );
        beside_the_layout(&text).unwrap()
    };
    let [mixed, word, number] = ["{ 'firm', mps(3.25) }", "'firm'", "mps(3.25)"].map(over);
    let speeds = |record: &Record| -> Vec<f64> {
        record.shots[0].rows.iter().map(|row| row.stroke.unwrap().speed_m_s).collect()
    };
    let (mut apart, mut together) = ([speeds(&word), speeds(&number)].concat(), speeds(&mixed));
    apart.sort_by(f64::total_cmp);
    together.sort_by(f64::total_cmp);
    assert_eq!(apart, together);
    let Picture::Map(map) = &mixed.drawings[0].picture else { panic!("it is a map") };
    assert_eq!(map.x.ticks, ["firm", "3.25 m/s"]);
}

#[test]
fn axes_of_the_picture_are_no_axes_of_a_shot() {
    let layout = format!("{LAYOUT}title: mine\nsize: small\n");
    for (key, values) in [("title", "'a', 'b'"), ("size", "'small', 'large'")] {
        for call in ["shots", "plan"] {
            let folder = tempfile::tempdir().unwrap();
            std::fs::write(folder.path().join("shot.yaml"), &layout).unwrap();
            let path = folder.path().join("it.lua");
            let text =
                format!("{call} {{ layout = 'shot.yaml', over = {{ {key} = {{ {values} }} }} }}");
            std::fs::write(&path, text).unwrap();
            let fault =
                run_scenario(&path, &RunOptions::default()).and_then(Record::whole).expect_err(key);
            assert!(fault.message.contains("only changes the picture"), "{fault}");
        }
    }
}

#[test]
fn the_summary_says_why_the_first_shot_that_is_not_there_is_not() {
    let record = beside_the_layout(
        "shots { layout = 'shot.yaml',
           over = { [\"balls.object.position.x\"] = { metres(0.2), metres(0.5) },
                    [\"balls.object.position.y\"] = { metres(0.1), metres(0.3) } } }",
    );
    let text = full(&record.unwrap(), None, PageStyle { width: 400, color: false });
    assert!(text.contains("the first without a shot: the balls `cue` and `object`"), "{text}");
}
