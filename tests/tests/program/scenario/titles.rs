//! Titles of pictures: each its own, whole, and in plain words.

use super::{HALL, run};
use railproof::picture::Inset;
use railproof::record::{Picture, Record};
use railproof::report::{PageStyle, brief};
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
fn an_inset_stands_where_balls_meet_again_or_rattle_and_nowhere_else() {
    // The cue ball is caught by a steep bank; a cut by geometry alone rattles; a clear bank does neither.
    let record = run(
        "local hall = equipment 'nine-foot'; local ratio = rule.linear { slope = 2.2 }
local function bank(contact, off_rail, cut)
  return bank_shot { equipment = hall, contact = contact, rule = ratio, off_rail = inches(off_rail), cue_distance = inches(14), cut = cut }
end
bank(1, 0, degrees(0)):play { speed = mps(3.5), send = 'line' }:draw {}
bank(2.5, 6, degrees(5)):play { speed = mps(3.5), ghost = 'line' }:draw {}
bank(2.5, 6, degrees(0)):play { speed = mps(4), send = 'line' }:draw {}",
    );
    let inset = |at: usize| match &record.drawings[at].picture {
        Picture::Table(table) => table.inset.clone(),
        other => panic!("{other:?}"),
    };
    let kiss = inset(0).expect("they meet again");
    assert_eq!(kiss.title, "Enlarged: the double kiss");
    // At each meeting the two balls touch.
    for moment in kiss.circles.chunks(2) {
        let [a, b] = moment else { panic!("{moment:?}") };
        let apart = (a.at.0 - b.at.0).hypot(a.at.1 - b.at.1);
        assert!((apart - a.radius_m - b.radius_m).abs() < 1e-6, "{apart}");
        assert_eq!(a.moment, b.moment);
    }
    let rattle = inset(1).expect("it rattles");
    assert_eq!(rattle.title, "Enlarged: between the jaws");
    assert!(rattle.circles.len() > 1);
    let all = |inset: &Inset| {
        inset.circles.iter().all(|it| (it.at.0 - inset.centre.0).abs() + it.radius_m < inset.half_m)
    };
    assert!(all(&kiss) && all(&rattle));
    assert!(inset(2).is_none());
}

#[test]
fn a_cut_is_outside_where_it_turns_the_ball_along_the_rail() {
    let record = run(&format!(
        "{HALL}local function bank(cut)
  return bank_shot {{ equipment = hall, contact = 2, rule = ratio, off_rail = inches(6), cut = cut }}
end
local set = shots {{
  over = {{ cut = {{ degrees(-10), degrees(10) }}, speed = {{ mps(3), mps(4) }} }},
  shot = function(point) return bank(point.cut), {{ speed = point.speed, ghost = 'line' }} end,
}}
set:draw {{ x = 'cut', y = 'speed' }}
set:draw_lines {{ x = 'cut', y = 'miss', series = 'speed' }}
for _, cut in {{ -10, 0, 10 }} do
  bank(degrees(cut)):play {{ speed = mps(3), ghost = 'line' }}:draw {{}}
end"
    ));
    let Picture::Map(map) = &record.drawings[0].picture else { panic!("{record:?}") };
    assert_eq!(map.x.title, "angle of the cut: outside (+) or inside (−)");
    assert_eq!(map.x.unit, "deg");
    let Picture::Lines(lines) = &record.drawings[1].picture else { panic!("{record:?}") };
    assert_eq!(lines.x.title, map.x.title);
    // The trade's outside: the cue ball comes from the pocket's side and turns the object ball further along
    // the rail. Along the rail from the pocket it lies nearer than one that is straight behind.
    let from_pocket = |at: usize| {
        let Picture::Table(table) = &record.drawings[at].picture else { panic!("{record:?}") };
        let pocket = table.table.pockets.iter().find(|pocket| pocket.target).unwrap();
        let middle = f64::midpoint(pocket.mouth[0].0, pocket.mouth[1].0);
        let cue = table.balls.iter().find(|ball| ball.is_cue).unwrap();
        (cue.start.0 - middle).abs()
    };
    let [inside, straight, outside] = [2, 3, 4].map(from_pocket);
    assert!(outside + 0.02 < straight && straight + 0.02 < inside, "{outside} {straight} {inside}");
}

#[test]
fn pictures_with_one_finding_say_what_sets_them_apart() {
    let record = run(&format!(
        "{HALL}local map = compare(grid {{ equipment = hall, contact = {{ 2, 2.25 }}, off_rail = inches(0), \
         speed = {{ mps(1.4), mps(1.6) }}, spin = {{ 'stun', 'roll' }} }}, ratio)
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
    assert!(titles[5].starts_with("A bank (cue struck at 4 m/s"), "{titles:?}");
    assert_eq!(titles[6], "A bank (shot-3)");
}

/// Each of two spins on its own, side by side, and both ways round.
#[test]
fn no_two_headlines_over_two_spins_look_alike() {
    let record = run(&format!(
        "{HALL}local map = compare(grid {{ equipment = hall, contact = {{ 2, 2.25 }}, off_rail = {{ inches(0), inches(6) }}, \
         speed = {{ mps(3), mps(4) }}, spin = {{ 'stun', 'roll' }} }}, ratio)
for _, spin in {{ 'stun', 'roll' }} do
  local own = map:where {{ spin = spin }}
  own:draw {{ x = 'speed', y = 'contact', panels = 'off_rail' }}
  own:draw {{ x = 'contact', y = 'speed', panels = 'off_rail' }}
  own:where {{ off_rail = inches(0) }}:draw {{ x = 'speed', y = 'contact', panels = 'spin' }}
  own:where {{ contact = 2 }}:draw_lines {{ x = 'speed', y = 'miss', series = 'off_rail' }}
end
map:where {{ off_rail = inches(0) }}:draw {{ x = 'speed', y = 'contact', panels = 'spin' }}"
    ));
    assert_apart(&record, "two spins");
    for (at, drawing) in record.drawings.iter().take(8).enumerate() {
        let lines = match &drawing.picture {
            Picture::Map(map) => &map.subtitles,
            Picture::Lines(lines) => &lines.subtitles,
            other => panic!("{other:?}"),
        };
        let spin = if at < 4 { "stun" } else { "natural roll" };
        assert!(lines.iter().any(|line| line.contains(spin)), "{at}: {lines:?}");
    }
    let style = PageStyle { width: 1000, color: false };
    let text = brief(&record, None, style);
    let told: Vec<&str> = text.lines().skip(1).take(5).collect();
    let unlike: BTreeSet<&&str> = told.iter().collect();
    assert_eq!(unlike.len(), told.len(), "{text}");
    assert!(!text.contains("Natural roll. Natural roll:"), "{text}");
}
