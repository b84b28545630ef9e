//! The content of pictures: ticks as written, conditions in words, nothing left out unsaid.

use super::{HALL, run};
use railproof::picture::{CellKind, DifferencePicture, LinesPicture, MapPicture};
use railproof::record::{Picture, Record};
use std::path::Path;

fn map(record: &Record, at: usize) -> &MapPicture {
    match &record.drawings[at].picture {
        Picture::Map(map) => map,
        other => panic!("{other:?}"),
    }
}

fn lines(record: &Record, at: usize) -> &LinesPicture {
    match &record.drawings[at].picture {
        Picture::Lines(lines) => lines,
        other => panic!("{other:?}"),
    }
}

fn difference(record: &Record, at: usize) -> &DifferencePicture {
    match &record.drawings[at].picture {
        Picture::Difference(difference) => difference,
        other => panic!("{other:?}"),
    }
}

/// Lines are told as they are read through the diamonds too, whether starts are given or a rule's.
#[test]
fn one_line_is_told_in_both_readings() {
    let record = run(&format!(
        "{HALL}local function drawn(contact, panels)
  local banks = grid {{ equipment = hall, contact = contact, start = 4.4, off_rail = {{ inches(0), feet(1) }}, \
         speed = span(mps(2), mps(4), mps(1)) }}
  compare(banks):draw {{ x = 'speed', y = 'off_rail', panels = panels }}
end
drawn(2)
drawn({{ 2, 2.5 }}, 'contact')
local function by_rule(contact, tables, name)
  local banks = grid {{ equipment = tables, contact = contact, off_rail = inches(0), speed = span(mps(2), mps(4), mps(1)) }}
  compare(banks, ratio):draw {{ x = 'speed', y = 'contact', panels = 'equipment', name = name }}
end
by_rule(2, hall, 'one')
by_rule({{ 3, 1.5, 2 }}, hall, 'several')
by_rule(2, {{ hall, equipment 'seven-foot' }}, 'tables')"
    ));
    let told = |at: usize| map(&record, at).subtitles.join("; ");
    assert!(told(0).contains("contact 2, start 4.4"), "{}", told(0));
    assert!(told(0).contains("through the diamonds 1.76 from 4.64"), "{}", told(0));
    let ends = "Contact 2 from 4.4 across the grooves is 1.76 from 4.64 through the diamonds; contact 2.5 from 4.4 is ";
    assert!(told(1).contains(ends), "{}", told(1));
    assert!(
        told(2).contains(
            "contact 2 from 4.4, frozen to the rail, stun, through the diamonds 1.76 from 4.64"
        ),
        "{}",
        told(2)
    );
    let ends = "Contact 1.5 from 3.3 across the grooves is 1.32 from 3.48 through the diamonds; contact 3 from 6.6 is \
                2.64 from 6.96.";
    assert!(told(3).contains(ends), "{}", told(3));
    // The same line reads otherwise on another table.
    assert!(!told(4).contains("through the diamonds"), "{}", told(4));
}

#[test]
fn a_map_shows_units_as_written_and_each_bank_in_its_cell() {
    let record = run(&format!(
        "{HALL}local map = compare(grid {{ equipment = hall, contact = {{ 1.5, 2 }}, \
         off_rail = {{ inches(0), feet(1) }}, speed = span(kmh(8), kmh(16), kmh(4)), spin = 'stun' }}, ratio)
map:draw {{ x = 'speed', y = 'contact', panels = 'off_rail' }}
map:draw {{ x = 'contact', y = 'speed', panels = 'off_rail', name = 'turned', title = 'Turned' }}"
    ));
    let (first, turned) = (map(&record, 0), map(&record, 1));
    assert_eq!(first.x.ticks, ["8", "12", "16"]);
    assert_eq!(first.x.unit, "km/h");
    assert_eq!((first.y.ticks[0].as_str(), first.y.unit.as_str()), ("1.5", "diamonds, groove"));
    let captions: Vec<&str> = first.panels.iter().map(|panel| panel.caption.as_str()).collect();
    assert_eq!(captions, ["frozen to the rail", "1 ft off the rail"]);
    assert_eq!(first.rule, "ratio");
    assert_eq!(
        first.subtitles,
        [
            "Where the rule holds: ratio",
            "Harbour Hall (invented), off the long rail, corner pocket; stun",
            "Contact 1.5 from 3.3 across the grooves is 1.32 from 3.48 through the diamonds; contact 2 from 4.4 is \
             1.76 from 4.64.",
        ]
    );
    assert!(first.model.starts_with("nose-and-cloth rail"), "{}", first.model);
    assert_eq!((turned.title.as_str(), record.drawings[1].name.as_str()), ("Turned", "turned"));
    // Rows of the plan: contact, then distance, then speed, the last fastest.
    let rows = &record.maps[0].rows;
    for contact in 0..2 {
        for off_rail in 0..2 {
            for speed in 0..3 {
                let miss = rows[contact * 6 + off_rail * 3 + speed].outcome.miss_m();
                let miss_mm = miss.map(|miss| 1e3 * miss);
                assert_eq!(first.panels[off_rail].cells[contact * 3 + speed].miss_mm, miss_mm);
                assert_eq!(turned.panels[off_rail].cells[speed * 2 + contact].miss_mm, miss_mm);
            }
        }
    }
    first.to_svg().unwrap();
}

#[test]
fn speeds_by_words_are_told_by_them() {
    let record = run(&format!(
        "{HALL}local function map(speed) return compare(grid {{ equipment = hall, \
         contact = span(1, 3, 0.5), off_rail = {{ inches(0), inches(12) }}, speed = speed, spin = 'stun' }}, ratio) end
map({{ 'soft', 'medium', 'firm' }}):draw {{ x = 'speed', y = 'contact', panels = 'off_rail' }}
map('medium'):draw {{ x = 'speed', y = 'contact', panels = 'off_rail' }}
map({{ mph(4), 'firm' }}):draw {{ x = 'speed', y = 'contact', panels = 'off_rail' }}"
    ));
    let (words, one, mixed) = (map(&record, 0), map(&record, 1), map(&record, 2));
    assert_eq!((words.x.ticks.join(" ").as_str(), words.x.unit.as_str()), ("soft medium firm", ""));
    assert_eq!((mixed.x.ticks.join(" ").as_str(), mixed.x.unit.as_str()), ("4 firm", "mph"));
    for title in [words, one, mixed].map(|picture| &picture.title) {
        assert!(!title.contains("m/s") && !title.contains("roll"), "{title}");
        assert!(!title.contains("firm mph"), "{title}");
    }
    // One speed says nothing along the speeds.
    assert!(!one.title.contains("any speed"), "{}", one.title);
    assert_eq!(one.flag_label, "");
    assert_eq!(words.flag_label, "harder than here: less sure");
}

/// A line between cells of one speed has no room for words: the line under the title has them.
#[test]
fn less_sure_banks_of_one_speed_are_told_in_words() {
    let record = run(&format!(
        "{HALL}for _, speed in {{ 2, 4, 9 }} do
  compare(grid {{ equipment = hall, contact = span(0.5, 4, 0.5), speed = mps(speed) }}, ratio):draw {{ x = 'speed', y = 'contact' }}
end"
    ));
    let told = |at: usize| {
        let picture = map(&record, at);
        let cells = &picture.panels[0].cells;
        let flagged = cells.iter().filter(|cell| cell.flagged).count();
        let parted = flagged > 0 && flagged < cells.len();
        let said = picture.subtitles.iter().any(|line| line.starts_with("Less sure: "));
        assert_eq!(said, parted, "{:?}", picture.subtitles);
        assert!(!picture.to_svg().unwrap().contains("on this side"));
        parted
    };
    assert!([told(0), told(1), told(2)].contains(&true));
}

#[test]
fn a_bank_without_room_is_no_miss_of_the_headline() {
    let record = run(&format!(
        "{HALL}local map = compare(grid {{ equipment = equipment 'seven-foot', pocket = 'side', spin = 'stun', \
         contact = span(1.25, 3.5, 0.25), off_rail = inches(10), speed = span(mps(1.5), mps(5), mps(0.5)) }}, ratio)
map:draw {{ x = 'speed', y = 'contact' }}"
    ));
    let picture = map(&record, 0);
    let without = |cell: &&railproof::picture::MapCell| cell.kind == CellKind::NoRoom;
    let lost = picture.panels[0].cells.iter().filter(without).count();
    assert!(lost > 0 && lost < picture.panels[0].cells.len(), "{lost}");
    assert!(picture.title.contains("that can be played"), "{}", picture.title);
}

/// A miss is shown in the unit of the script's lengths, or else of its table's.
#[test]
fn misses_are_shown_in_the_unit_that_was_written() {
    let drawn = |table: &str, off_rail: &str| {
        run(&format!(
            "local map = compare(grid {{ equipment = equipment '{table}', contact = {{ 1, 2, 3 }}, {off_rail} \
             speed = {{ mps(2), mps(3) }} }}, rule.linear {{ slope = 2.2 }})
map:draw {{ x = 'speed', y = 'contact' }}
map:draw_lines {{ x = 'speed', y = 'miss', series = 'contact' }}
map:draw_lines {{ x = 'speed', y = 'arrival_speed', series = 'contact' }}"
        ))
    };
    let unit = |table: &str, off_rail: &str| {
        let record = drawn(table, off_rail);
        let (map, line) = (map(&record, 0), lines(&record, 1));
        assert_eq!(map.unit.symbol(), line.y.unit);
        assert_eq!(lines(&record, 2).y.unit, "m/s");
        let miss_mm = 1e3 * record.maps[0].rows[0].outcome.miss_m().unwrap();
        let shown = line.series[0].points[0].1 * map.unit.mm();
        assert!((shown - miss_mm).abs() < 1e-9, "{shown} {miss_mm}");
        line.y.unit.clone()
    };
    assert_eq!(unit("nine-foot", "off_rail = inches(6),"), "in");
    assert_eq!(unit("nine-foot", "off_rail = centimetres(15),"), "mm");
    assert_eq!(unit("nine-foot", "off_rail = quantity '15 cm',"), "mm");
    assert_eq!(unit("nine-foot", ""), "in");
}

#[test]
fn a_title_of_its_own_has_the_finding_under_it() {
    let record = run(&format!(
        "{HALL}local map = compare(grid {{ equipment = hall, contact = {{ 1.5, 2 }}, \
         speed = {{ mps(3), mps(4) }}, spin = 'stun' }}, ratio)
map:draw {{ x = 'speed', y = 'contact' }}
map:draw {{ x = 'speed', y = 'contact', title = 'Saturday' }}"
    ));
    let (plain, own) = (map(&record, 0), map(&record, 1));
    assert_eq!(own.title, "Saturday");
    assert_eq!(own.subtitles[0], plain.title);
    assert_eq!(own.finding, plain.title);
}

#[test]
fn rules_make_panels_or_one_is_chosen() {
    let record = run(&format!(
        "{HALL}local map = compare(grid {{ equipment = hall, contact = {{ 1.5, 2 }}, speed = {{ mps(3), mps(4) }} }}, \
         ratio, rule.mirror {{}})
map:draw {{ x = 'speed', y = 'contact', panels = 'rule' }}
map:draw {{ x = 'speed', y = 'contact', rule = 'mirror geometry' }}
map:where {{ contact = 2 }}:draw_lines {{ x = 'speed', y = 'miss', series = 'rule', rule = {{ ratio, 'mirror geometry' }}, name = 'l' }}"
    ));
    let captions: Vec<&str> =
        map(&record, 0).panels.iter().map(|panel| panel.caption.as_str()).collect();
    assert_eq!(captions, ["ratio", "mirror geometry"]);
    assert_eq!(map(&record, 1).rule, "mirror geometry");
    assert_eq!(map(&record, 1).panels.len(), 1);
    let labels: Vec<&str> =
        lines(&record, 2).series.iter().map(|line| line.label.as_str()).collect();
    assert_eq!(labels, ["ratio", "mirror geometry"]);
}

#[test]
fn lines_show_the_miss_with_the_mouth_as_a_band() {
    let record = run(&format!(
        "{HALL}local map = compare(grid {{ equipment = hall, contact = 2, off_rail = {{ centimetres(0), centimetres(24) }}, \
         speed = {{ mps(4), mps(3) }} }}, ratio)
map:draw_lines {{ x = 'speed', y = 'miss', series = 'off_rail' }}
map:draw_lines {{ x = 'speed', y = 'arrival_speed', series = 'off_rail' }}"
    ));
    let picture = lines(&record, 0);
    let rows = &record.maps[0].rows;
    let miss = |row: usize| 1e3 * rows[row].outcome.miss_m().unwrap();
    assert_eq!(picture.series[1].label, "24 cm off the rail");
    assert_eq!(picture.series[1].points, [(3.0, miss(3)), (4.0, miss(2))]);
    for (band, line) in picture.bands.iter().zip(&picture.series) {
        for ((_, miss), at) in line.points.iter().zip(&band.edges) {
            let row =
                rows.iter().find(|row| row.outcome.miss_m().is_some_and(|m| 1e3 * m == *miss));
            let holds = row.expect("a row").outcome.clearance_m().expect("it arrives") > 0.0;
            assert_eq!(at.from < *miss && *miss < at.to, holds, "{miss} in {at:?}");
        }
    }
    assert_eq!(picture.bands.len(), 2, "each line has its own mouth");
    assert!(lines(&record, 1).bands.is_empty());
    assert_eq!(lines(&record, 1).y.unit, "m/s");
}

#[test]
fn a_difference_holds_two_rail_models_against_each_other() {
    let record = run(&format!(
        "{HALL}local map = compare(grid {{ equipment = hall, contact = {{ 1.5, 3.5 }}, speed = {{ mps(2), mps(5) }}, \
         rail_model = {{ 'planar', 'nose-and-cloth', 'nose-only' }} }}, ratio)
map:draw_difference {{ of = 'rail_model', between = {{ 'nose-and-cloth', 'planar' }}, x = 'speed', y = 'contact' }}"
    ));
    let picture = difference(&record, 0);
    assert_eq!(picture.first, "nose-and-cloth rail");
    assert_eq!(picture.second, "planar rail");
    // Contact slowest, then model as listed in the scenario is the slower axis: model, contact, speed.
    let axes: Vec<&str> = record.maps[0].plan.axes().iter().map(|axis| axis.input.name()).collect();
    assert_eq!(axes[..4], ["equipment", "rail_model", "contact", "speed"]);
    let kind = |row: usize| match record.maps[0].rows[row].outcome.verdict().name() {
        "holds" => CellKind::Holds,
        "long" => CellKind::Long,
        "short" => CellKind::Short,
        _ => CellKind::TouchesPoint,
    };
    for cell in 0..4 {
        assert_eq!(picture.panels[0].cells[cell].first, kind(4 + cell));
        assert_eq!(picture.panels[0].cells[cell].second, kind(cell));
    }
}

fn shipped(name: &str) -> Record {
    use railproof::scenario::{RunOptions, run_scenario};
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios").join(name);
    run_scenario(&file, &RunOptions::default())
        .and_then(Record::whole)
        .unwrap_or_else(|fault| panic!("{fault}"))
}

#[test]
fn the_two_pictures_of_shifted_lines_show_each_way_alike() {
    let record = shipped("shifting_lines.lua");
    let labels = |at: usize| -> Vec<String> {
        lines(&record, at).series.iter().map(|line| line.label.clone()).collect()
    };
    assert_eq!(labels(0), labels(1), "the same order gives the same colours, dashes and markers");
}

#[test]
fn on_every_size_of_the_ladder_a_bank_holds_inside_its_own_mouth() {
    let record = shipped("ladder.lua");
    let picture = lines(&record, 1);
    assert_eq!(picture.bands.len(), picture.series.len());
    let (rows, count) = (&record.maps[0].rows, picture.series[0].points.len());
    let mut holding = 0;
    for (at, (line, band)) in picture.series.iter().zip(&picture.bands).enumerate() {
        assert_eq!(band.line, Some(at));
        for (place, ((x, miss), edges)) in line.points.iter().zip(&band.edges).enumerate() {
            let row = &rows[at * count + place];
            // The ladder is written in inches.
            let miss_in = row.outcome.miss_m().unwrap() / 0.0254;
            assert!((miss - miss_in).abs() < 1e-9, "{miss} {miss_in}");
            let holds = row.outcome.verdict().name() == "holds";
            assert_eq!(edges.from < *miss && *miss < edges.to, holds, "{} at {x}", line.label);
            holding += usize::from(holds);
        }
    }
    assert!(holding > 5, "{holding} of {}", rows.len());
}

/// The guide's numbers of the shipped frontier are those of a run, as nearly as `about` says.
#[test]
fn the_guide_says_what_the_frontier_takes() {
    let guide = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios/guide/edges.md");
    let guide = std::fs::read_to_string(guide).expect("the guide is there");
    let words: Vec<&str> = guide.split_whitespace().collect();
    let number = |before: &[&str]| -> f64 {
        let at = words.windows(before.len()).position(|found| found == before);
        let at = at.unwrap_or_else(|| panic!("{before:?} is not in the guide")) + before.len();
        words[at].trim_end_matches('.').replace(',', "").parse().expect("a number")
    };
    let record = shipped("frontier.lua");
    let found = &record.frontiers[0].found;
    for (said, is) in [
        (number(&["plays", "about"]), found.banks_played() as f64),
        (number(&["as", "fine", "takes", "about"]), found.dense_banks as f64),
    ] {
        assert!((said / is - 1.0).abs() < 0.02, "the guide says {said}, the run {is}");
    }
}
