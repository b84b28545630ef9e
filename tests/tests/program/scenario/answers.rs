//! Numbers that follow from geometry alone, worked out here by hand.

use super::{HALL, MIRROR, number, printed, run, try_run};
use railproof::scenario::RunOptions;

/// Nose line to groove on the hall's table, inches: √(h(2R − h)).
fn groove_in() -> f64 {
    (1.42875_f64 * (2.25 - 1.42875)).sqrt()
}

#[test]
fn a_mirror_rail_sends_mirror_lines_through_the_middle_of_the_mouth() {
    let record = run(&format!(
        "{MIRROR}local map = compare(grid {{ equipment = ideal, contact = span(1, 3, 0.5), \
         speed = {{ mps(2), mps(5) }} }}, rule.mirror {{}})
expect(map):holds():misses_within(millimetres(1e-6))
expect(map):spread_within(millimetres(1e-6))"
    ));
    assert_eq!(record.banks_played, 10);
    assert_eq!(record.maps[0].rows.len(), 10);
    for expectation in &record.expectations {
        assert!(expectation.held, "{} — {}", expectation.expected, expectation.found);
    }
    assert!(record.all_held());
}

#[test]
fn a_bank_meets_the_rail_at_the_angle_of_its_numbers() {
    let span_in = 50.0 - 2.0 * groove_in();
    let by_hand = ((4.4 - 2.0) * 12.5 / span_in).atan().to_degrees();
    let degrees = number(&format!(
        "{HALL}print(bank {{ equipment = hall, contact = 2, start = 4.4, off_rail = inches(8), \
         speed = mps(4) }}.at_rail.incidence.amount)"
    ));
    assert!((degrees - by_hand).abs() < 1e-9, "{degrees} {by_hand}");
}

#[test]
fn a_stun_ball_gathers_roll_as_it_slides() {
    // A sliding ball loses speed at μg and gains R·ω at 5/2·μg until R·ω = v.
    let (friction, speed, gravity) = (0.18, 3.0, 9.80665_f64);
    let distance_m = 8.0 * 0.0254 / ((2.4 * 12.5 / (50.0 - 2.0 * groove_in())).atan().cos());
    let deceleration = friction * gravity;
    let at_rail = (speed * speed - 2.0 * deceleration * distance_m).sqrt();
    let roll = 2.5 * (speed - at_rail) / at_rail;
    let found = printed(&format!(
        "{HALL}local one = bank {{ equipment = hall, contact = 2, rule = ratio, off_rail = inches(8), \
         speed = mps(3) }} print(one.at_rail.speed.amount) print(one.at_rail.roll_fraction)"
    ));
    let number = |at: usize| found[at].parse::<f64>().unwrap();
    assert!((number(0) - at_rail).abs() < 1e-9, "{found:?} {at_rail}");
    assert!((number(1) - roll).abs() < 1e-9, "{found:?} {roll}");
}

#[test]
fn a_line_is_read_both_ways() {
    // The sights stand setback + groove outside both grooves, so by similar triangles each number
    // moves by (start − contact)·(setback + groove)/span.
    let moved = 2.4 * (3.6875 + groove_in()) / (50.0 - 2.0 * groove_in());
    let found = printed(&format!(
        "{HALL}local read = line {{ equipment = hall, contact = 2, start = 4.4 }}
print(read.sight.contact) print(read.sight.start)
print(line {{ equipment = hall, contact = read.sight.contact, start = read.sight.start, \
              reading = 'sight' }}.groove.start)"
    ));
    let number = |at: usize| found[at].parse::<f64>().unwrap();
    assert!((number(0) - (2.0 - moved)).abs() < 1e-9, "{found:?}");
    assert!((number(1) - (4.4 + moved)).abs() < 1e-9, "{found:?}");
    assert!((number(2) - 4.4).abs() < 1e-9, "{found:?}");
}

#[test]
fn rules_answer_for_contacts_starts_and_balls_anywhere() {
    assert_eq!(
        printed(&format!("{HALL}print(ratio:start(2)) print(ratio:contact(4.4)) print(ratio)")),
        ["4.4", "2", "ratio"]
    );
    // contact + (start − contact)·d/span = the ball's number; on the line of contact 2 by hand.
    let share = 10.0 / (50.0 - 2.0 * groove_in());
    let along = 2.0 + 2.4 * share;
    let found = number(&format!(
        "{HALL}print(ratio:aim {{ equipment = hall, x = {along}, off_rail = inches(10) }}.contact)"
    ));
    assert!((found - 2.0).abs() < 1e-9, "{found}");
    // The gain by the same triangles: −start′·d/(span − d).
    let gain = -2.2 * share / (1.0 - share);
    let found = number(&format!(
        "{HALL}print(ratio:aim {{ equipment = hall, contact = 2, off_rail = inches(10) }}.contact_error_gain)"
    ));
    assert!((found - gain).abs() < 1e-9, "{found} {gain}");
}

#[test]
fn known_lines_are_gone_between_as_asked() {
    let lines = "lines = { {1, 2}, {2, 5} }";
    let start =
        |rest: &str| number(&format!("print(rule.lines {{ {lines}, {rest} }}:start(1.25))"));
    assert_eq!(start("way = 'interpolate'"), 2.75);
    assert_eq!(start("way = 'parallel', from = 'lower'"), 2.25);
    assert_eq!(start("way = 'parallel', from = 'upper'"), 4.25);
    assert_eq!(start("way = 'proportional', ratio = 2"), 2.5);
}

#[test]
fn ways_between_lines_are_measured_against_a_rule() {
    // Lines of start = 2·contact: interpolation is exact, a parallel shift errs by the distance.
    let found = printed(&format!(
        "{HALL}local report = rule.ways {{ equipment = hall, lines = {{ {{1, 2}}, {{2, 4}} }}, ratio = 2, \
         reference = rule.linear {{ slope = 2 }}, contact = {{ 1, 1.25, 1.75 }} }}
for _, row in report:rows() do print(row.from_line, row.interpolated, row.proportional, row.parallel) end
report:draw_lines {{ x = 'from_line' }}"
    ));
    assert_eq!(found, ["0\t0\t0\t0", "0.25\t0\t0\t-0.25", "-0.25\t0\t0\t0.25"]);
}

#[test]
fn a_lua_rule_is_asked_at_every_point() {
    let record = run(&format!(
        "{HALL}local bent = rule.func {{ name = 'bent', start = function(contact)
  if contact < 2 then return 2 * contact end
  return 2.5 * contact - 1
end }}
compare(grid {{ equipment = hall, contact = {{ 1, 1.5, 2, 3 }}, speed = {{ mps(3), mps(4) }} }}, bent)"
    ));
    let starts: Vec<f64> = record.maps[0].rows.iter().map(|row| row.line.start).collect();
    assert_eq!(starts, [2.0, 2.0, 3.0, 3.0, 4.0, 4.0, 6.5, 6.5]);
    assert_eq!(record.maps[0].rules[0].name, "bent");
}

#[test]
fn exact_starts_on_a_mirror_rail_are_the_mirror_rule() {
    let found = printed(&format!(
        "{MIRROR}local banks = grid {{ equipment = ideal, contact = span(1, 3, 1), speed = mps(4) }}
local starts = exact_starts(banks)
local mirror = rule.mirror {{}}
for contact = 1, 3 do print(starts:at {{ contact = contact }} - mirror:start(contact, ideal)) end
print(starts:unsolved().count, starts:fit_with_offset().rms < 1e-9, starts:count())
starts:draw_lines {{ x = 'contact' }}"
    ));
    for difference in &found[..3] {
        assert!(difference.parse::<f64>().unwrap().abs() < 1e-9, "{found:?}");
    }
    assert_eq!(found[3], "0\ttrue\t3");
}

#[test]
fn equipment_is_changed_and_read_back_with_units() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(
        folder.path().join("soft.yaml"),
        "name: soft\ncushion:\n  rail_model: nose-only\n  nose_height: 36 mm\n  restitution: 0.8\n  \
         restitution_loss: 0.02 s/m\n  nose_friction: 0.2\n",
    )
    .unwrap();
    let path = folder.path().join("case.lua");
    std::fs::write(
        &path,
        "local hall = equipment 'harbour-hall'
local soft = hall:with { cushion 'soft.yaml', sliding_friction = 0.25, ball_diameter = millimetres(57) }
print(soft.restitution, soft.rail_model, soft.sliding_friction, soft.ball_diameter:to('mm'))
print(soft.name)
print(hall.sliding_friction, hall:with(cushion 'soft.yaml').restitution)
local other = hall:with { friction_law = 'exponential', jaw_contact_time = milliseconds(1) }
print(hall.friction_law, other.friction_law, other.jaw_contact_time:to('ms'))
print(other.name)",
    )
    .unwrap();
    let record = railproof::scenario::run_scenario(&path, &RunOptions::default())
        .and_then(railproof::record::Record::whole)
        .unwrap();
    assert_eq!(
        record.printed,
        [
            "0.8\tnose-only\t0.25\t57",
            "Harbour Hall (invented), soft, ball diameter 57 mm, sliding friction 0.25",
            "0.18\t0.8",
            "log-linear\texponential\t1",
            "Harbour Hall (invented), exponential friction between balls, jaw contact time 1 ms",
        ]
    );
}

#[test]
fn speeds_come_in_any_unit_and_in_table_lengths() {
    // Without cushions a lag of n lengths takes v = √(2·μr·g·n·L); they take more.
    let by_hand = (2.0 * 0.0115 * 9.80665 * 3.0 * 2.54_f64).sqrt();
    let record = run(&format!(
        "{HALL}compare(grid {{ equipment = hall, contact = 2, speed = lengths(3) }}, ratio)
compare(grid {{ equipment = hall, contact = 2, lag = 3 }}, ratio)
compare(grid {{ equipment = hall, contact = 2, speed = kmh(7.2) }}, ratio)"
    ));
    let speed = |map: usize| record.maps[map].rows[0].outcome.launch.velocity.norm();
    assert!(speed(0) > 1.05 * by_hand && speed(0) < 3.0 * by_hand, "{} {by_hand}", speed(0));
    assert_eq!(speed(0), speed(1));
    assert!((speed(2) - 2.0).abs() < 1e-12, "{}", speed(2));
}

#[test]
fn speeds_come_by_words_that_the_table_says() {
    let record = run(&format!(
        "{HALL}local quick = hall:with {{ speed_firm = mps(6) }}
local map = compare(grid {{ equipment = quick, contact = 2, speed = {{ 'soft', 'firm' }} }}, ratio)
expect(map:where {{ speed = 'firm' }}):holds()"
    ));
    let speed = |row: usize| record.maps[0].rows[row].outcome.launch.velocity.norm();
    assert!((speed(0) - 1.5).abs() < 1e-12 && (speed(1) - 6.0).abs() < 1e-12);
    let two = try_run(&format!(
        "{HALL}local quick = hall:with {{ speed_firm = mps(6) }}
grid {{ equipment = {{ hall, quick }}, contact = 2, speed = 'firm' }}"
    ))
    .expect_err("they do not agree");
    assert!(two.to_string().contains("no one table says how fast"), "{two}");
}

#[test]
fn least_speed_and_margin_agree_with_single_banks() {
    let found = printed(&format!(
        "{HALL}local least = least_speed {{ equipment = hall, contact = 2, rule = ratio, off_rail = inches(10) }}
local function holds(speed)
  return bank {{ equipment = hall, contact = 2, rule = ratio, off_rail = inches(10), speed = speed }}.holds
end
print(holds(least * 1.001), holds(least * 0.999))
local margin = aim_margin {{ equipment = hall, contact = 2, rule = ratio, speed = mps(3) }}
local function turned(error)
  return bank {{ equipment = hall, contact = 2, rule = ratio, speed = mps(3), aim_error = error }}.holds
end
print(turned(margin.long * 0.99), turned(margin.long * 1.01))"
    ));
    assert_eq!(found, ["true\tfalse", "true\tfalse"]);
}

/// A miss is the sum of what `why` says, in inches where the table is; where there is none, it says why not.
#[test]
fn an_outcome_says_why_as_a_sum() {
    let found = printed(&format!(
        "{HALL}local far = bank {{ equipment = hall, contact = 3, rule = ratio, off_rail = inches(10), speed = mps(9) }}
local why = far:why()
local sum = why.line_itself
for _, cause in {{ 'aim', 'roll', 'side', 'restitution', 'carry', 'bend' }} do sum = sum + why[cause] end
print(math.abs((sum - far.miss):to 'mm') < 1e-6, why.aim:to 'mm', why.side:to 'mm', why.squirt, why.why_not)
print(string.find(why.sentence, 'In inches: the line itself', 1, true))
local slow = bank {{ equipment = hall, contact = 3, rule = ratio, speed = mps(0.1) }}
print(slow:why().why_not)"
    ));
    assert_eq!(
        found,
        ["true\t0\t0\tnil\tnil", "1\t26", "the ball never comes to the pocket's mouth line"]
    );
}

/// A lag that no stroke rolls is refused at its key, with a hint, wherever a speed is read.
#[test]
fn a_lag_that_no_stroke_rolls_is_refused_everywhere() {
    let asked = "equipment = hall, contact = 2, rule = ratio";
    for call in [
        format!("bank {{ {asked}, speed = lengths(150) }}"),
        format!("bank {{ {asked}, lag = 150 }}"),
        "grid { equipment = hall, contact = 2, lag = { 2, 150 } }".to_owned(),
        "grid { equipment = hall, contact = 2, speed = lengths(150) }".to_owned(),
        format!("least_speed {{ {asked}, to = lengths(150) }}"),
    ] {
        let fault = try_run(&format!("{HALL}{call}")).map(drop).expect_err(&call);
        assert!(fault.message.contains("rolls a ball that many lengths"), "{call}: {fault}");
        assert!(!fault.message.contains("inf"), "{call}: {fault}");
        assert!(fault.place.is_some(), "{call}: {fault}");
        assert!(
            fault.hint.as_deref().is_some_and(|it| it.contains("fewer lengths")),
            "{call}: {fault}"
        );
    }
}

/// A word is a speed where a speed is searched for and where banks are picked out.
#[test]
fn words_are_speeds_where_they_are_searched_and_picked() {
    let lines = printed(&format!(
        "{HALL}local asked = {{ equipment = hall, contact = 2, rule = ratio, from = 'soft', to = 'firm' }}
print(least_speed(asked) ~= nil)
local banks = grid {{ equipment = hall, contact = {{ 1, 2 }}, speed = {{ 'soft', 'medium', 'firm' }} }}
local map = compare(banks, ratio)
print(map:where {{ speed = 'medium' }}:count(), map:where {{ speed = {{ from = 'soft', to = 'medium' }} }}:count())"
    ));
    assert_eq!(lines, ["true", "2\t4"]);
}

/// The summary and pictures of lines say that hard speeds are less sure; a soft run says nothing of it.
#[test]
fn less_sure_results_are_told_at_a_glance() {
    let style = railproof::report::PageStyle { width: 400, color: false };
    for (hard, speeds) in
        [(true, "span(mps(2), mps(12), mps(2))"), (false, "span(mps(1), mps(2), mps(0.5))")]
    {
        let record = run(&format!(
            "{HALL}compare(grid {{ equipment = hall, contact = 2, speed = {speeds} }}, ratio):draw_lines {{ x = 'speed', y = 'miss' }}"
        ));
        let summary = railproof::report::brief(&record, None, style);
        assert_eq!(summary.contains("Less sure: "), hard, "{summary}");
        let railproof::record::Picture::Lines(picture) = &record.drawings[0].picture else {
            panic!("it is of lines")
        };
        let subtitle = picture
            .subtitles
            .iter()
            .any(|it| it.starts_with("From ") && it.contains("m/s on, less sure"));
        assert_eq!(subtitle, hard, "{:?}", picture.subtitles);
        assert_eq!(picture.title.contains("less sure)"), hard, "{}", picture.title);
    }
}

/// One bank is told by both readings, as `bank` tells it.
#[test]
fn the_reason_of_a_bank_names_its_line_by_both_readings() {
    let lines = printed(&format!(
        "{HALL}local row = compare(grid {{ equipment = hall, contact = 2, speed = mps(2) }}, ratio):rows()[1]
print(row.why().sentence)"
    ));
    let readings = "Contact 2 from 4.4 across the grooves; through the diamonds that is 1.";
    assert!(lines[0].starts_with("In ") && lines[0].contains(readings), "{lines:?}");
}

/// A scenario in inches is answered in inches.
#[test]
fn a_shot_laid_in_inches_is_told_in_inches() {
    for (unit, known) in [("inches(6)", " in"), ("millimetres(150)", " mm")] {
        let lines = printed(&format!(
            "{HALL}local b = bank_shot {{ equipment = hall, contact = 2, rule = ratio, off_rail = {unit}, cue_distance = {unit}, cut = degrees(15) }}
local shot = b:play {{ speed = mps(4), ghost = 'line' }}
print(shot.made) print(shot.reason)"
        ));
        assert_eq!(lines[0], "false", "{lines:?}");
        assert!(lines[1].split(':').next().unwrap_or_default().ends_with(known), "{lines:?}");
    }
}

/// A whole shot is told by both readings of its line, and its remedy in the unit of its stroke.
#[test]
fn a_whole_shot_answers_in_both_readings_and_in_the_unit_of_its_stroke() {
    for (speed, slow, unit) in [
        ("mph(9)", "mph(2)", " mph"),
        ("mps(4)", "mps(1)", " m/s"),
        ("kmh(14.4)", "kmh(3.6)", " km/h"),
    ] {
        let lines = printed(&format!(
            "local laid = lay {{ equipment = equipment 'nine-foot', pocket = 'foot-right', ball = 'object',
  balls = {{ object = {{ on_line = {{ contact = 2, start = 4.4 }}, off_rail = inches(8) }},
            cue = {{ position = {{ inches(10), inches(-18) }} }} }} }}
local shot = laid:play {{ speed = {speed}, ghost = {{ line = {{ contact = 2, start = 4.4 }} }} }}
local straight = lay {{ equipment = equipment 'nine-foot', pocket = 'foot-right', ball = 'object',
  balls = {{ object = {{ on_line = {{ contact = 2, start = 4.4 }}, off_rail = inches(2) }},
            cue = {{ behind = 'object', heading = {{ line = {{ contact = 2, start = 4.4 }} }}, gap = inches(12) }} }} }}
local slow = straight:play {{ speed = {slow}, ghost = {{ line = {{ contact = 2, start = 4.4 }} }} }}
print(shot:why().sentence) print(slow:remedy().sentence)"
        ));
        let readings =
            "Contact 2 from 4.4 across the grooves; through the diamonds that is 1.76 from 4.64.";
        assert!(lines[0].starts_with("In inches: ") && lines[0].ends_with(readings), "{lines:?}");
        assert!(lines[1].ends_with(&format!("{unit}.")), "{lines:?}");
    }
}
