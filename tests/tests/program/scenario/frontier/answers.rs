//! Answers of a frontier.

use super::{BANKS, FRONT, TRACED};
use crate::scenario::{HALL, number, printed, run};

#[test]
fn the_least_speed_is_the_one_that_is_found_by_other_means() {
    for distance in [4, 8, 12] {
        let text = format!(
            "{HALL}{BANKS}{FRONT}
local one = front:where {{ contact = 2, off_rail = inches({distance}) }}
local other = least_speed {{ equipment = hall:with {{ rail_model = 'nose-only', name = 'nose' }}, contact = 2, rule = ratio, \
 off_rail = inches({distance}), from = mps(1), to = mps(8), spin = 'stun' }}
print(one:least():to 'm/s' - other:to 'm/s')"
        );
        let apart = number(&text);
        // It is the outermost place seen to hold, so it lies above the edge.
        assert!((-1e-5..=0.01).contains(&apart), "{distance} in: {apart}");
    }
}

#[test]
fn intervals_come_with_their_line_and_units() {
    let lines = printed(&format!(
        "{HALL}{BANKS}{FRONT}
local rows = front:where {{ contact = 2, off_rail = inches(8) }}:intervals()
local row = rows[1]
print(#rows, row.contact, tostring(row.off_rail), row.rule, row.equipment)
print(row.from < row.to, row.from:to 'm/s' > 1, row.below, row.above, row.why_below ~= nil)
print(tostring(row.from):match '%S+$')
print(front:count(), front:where {{ contact = 2 }}:count(), tostring(front), front.name)
print(front:least() <= front:where {{ off_rail = inches(8) }}:least(), front:greatest() <= mps(8))"
    ));
    assert_eq!(lines[0], "1\t2\t8 in\tratio\tHarbour Hall (invented)");
    assert_eq!(lines[1], "true\ttrue\tlong\tlong\ttrue");
    assert_eq!(lines[2], "m/s");
    assert_eq!(lines[3], "10\t5\ta frontier of all 10 lines along speed\tfrontier");
    assert_eq!(lines[4], "true\ttrue");
}

#[test]
fn it_says_in_sentences_what_holds_and_why_it_breaks() {
    let lines = printed(&format!(
        "{HALL}{BANKS}{FRONT}print(front:where {{ contact = 2, off_rail = {{ inches(0), inches(12) }} }}.sentence)"
    ));
    assert!(lines[0].starts_with("Contact 2, frozen to the rail: it holds "), "{}", lines[0]);
    let far = &lines[1];
    assert!(far.starts_with("Contact 2, 12 in off the rail: it holds from "), "{far}");
    for said in [
        " m/s up to ",
        "; below that it goes long: ",
        "% of natural roll (",
        "; above that it goes ",
    ] {
        assert!(far.contains(said), "{said} is not in: {far}");
    }
    let certificate = lines.last().unwrap();
    for said in [
        "Edges to 0.01 m/s along speed at launch, from 15 probes a line",
        "narrower than 0.5 m/s",
        "times as many",
    ] {
        assert!(certificate.contains(said), "{said} is not in: {certificate}");
    }
    let nowhere = printed(&format!(
        "{HALL}local far = rule.linear {{ slope = 2.6 }}
local banks = grid {{ equipment = hall, rail_model = 'planar', contact = 2, speed = {{ lengths(2), lengths(6) }} }}
print(frontier {{ banks = banks, rule = far, along = 'speed', tolerance = 0.01, probes = 9 }}.sentence)"
    ));
    assert!(
        nowhere[0].starts_with(
            "It holds nowhere from 2 table lengths to 6 table lengths; it comes nearest at "
        ),
        "{}",
        nowhere[0]
    );
    assert!(nowhere[0].ends_with(" in on the long side."), "{}", nowhere[0]);
}

#[test]
fn the_certificate_says_what_was_looked_at_and_what_a_grid_takes() {
    let lines = printed(&format!(
        "{HALL}{BANKS}{TRACED}
local c = front:certificate()
print(c.probes, c.lines_searched >= 10, c.lines_followed > 0, c.unsettled, tostring(c.widest_gap), tostring(c.tolerance), \
 tostring(c.over_tolerance))
print(front.dense_banks, front.saving == front.dense_banks / front.banks_played, front.saving > 50)"
    ));
    assert_eq!(lines[0], "15\ttrue\ttrue\t0\t0.5 m/s\t0.02 m/s\t0.1 in");
    // 7 m/s in steps of 0.02, 16 in in steps of 0.1, two contacts.
    assert_eq!(lines[1], format!("{}\ttrue\ttrue", 2 * 351 * 161));
}

#[test]
fn any_input_of_numbers_will_do_and_so_will_a_function() {
    let found = printed(&format!(
        "{HALL}local bent = rule.func {{ name = 'bent', start = function(c) return 2.1 * c + 0.05 * c * c end }}
local function along(input, tolerance, with)
  local inputs = {{ equipment = hall, rail_model = 'planar', contact = 2, speed = mps(4) }}
  for key, value in with do inputs[key] = value end
  local front = frontier {{ banks = grid(inputs), rule = {{ bent, ratio }}, along = input, tolerance = tolerance, probes = 16 }}
  print(input, #front:where {{ rule = 'ratio' }}:intervals() > 0, front:count())
end
along('contact', 0.001, {{ contact = {{ 1, 3.5 }} }})
along('roll', 0.001, {{ roll = {{ -1, 1 }} }})
along('spin', 0.001, {{ spin = {{ 'draw', 'roll' }} }})
along('lag', 0.01, {{ speed = {{ lengths(1), lengths(3) }} }})
along('aim_error', milliradians(0.1), {{ aim_error = {{ milliradians(-40), milliradians(40) }} }})
along('restitution', 0.001, {{ restitution = {{ 0.8, 0.99 }} }})
along('corner_mouth', millimetres(0.1), {{ corner_mouth = {{ inches(4), inches(5) }} }})"
    ));
    assert_eq!(found.len(), 7);
    assert!(found.iter().all(|line| line.ends_with("\ttrue\t2")), "{found:?}");
    let started = printed(&format!(
        "{HALL}local banks = grid {{ equipment = hall, rail_model = 'planar', contact = 2, start = {{ 4, 5 }}, speed = mps(4) }}
local front = frontier {{ banks = banks, along = 'start', tolerance = 0.001, probes = 9 }}
print(#front:intervals(), front:intervals()[1].below, front:intervals()[1].above)"
    ));
    assert_eq!(started, ["1\tshort\tlong"]);
}

#[test]
fn one_thread_and_seven_give_the_same() {
    let text = format!(
        "{HALL}{BANKS}{TRACED}front:draw {{ panels = 'contact' }}
print(front.sentence)
expect(front):saves_at_least(50)"
    );
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| run(&text))
    };
    let (one, seven) = (on(1), on(7));
    assert_eq!(one.printed, seven.printed);
    assert_eq!(one.frontiers[0].found, seven.frontiers[0].found);
    assert_eq!(one.banks_played, seven.banks_played);
    assert_eq!(one.banks_played, one.frontiers[0].found.banks_played());
}

/// The one line is told by both readings, and a tolerance in the measure of its speeds.
#[test]
fn one_line_is_told_by_both_readings() {
    let front = "local front = frontier { rule = ratio, along = 'speed', tolerance = TOLERANCE, banks = grid {
  equipment = hall, contact = 2, speed = { lengths(1), lengths(3) } } }
print(front.sentence)";
    let text = format!("{HALL}{front}");
    let told = printed(&text.replace("TOLERANCE", "lengths(0.1)")).join("\n");
    assert!(
        told.contains("Contact 2 from 4.4 across the grooves; through the diamonds that is 1."),
        "{told}"
    );
    let fault = crate::scenario::try_run(&text.replace("TOLERANCE", "mps(0.1)")).unwrap_err();
    assert!(fault.message.contains("must be in lengths"), "{fault}");
    assert_eq!(fault.hint.as_deref(), Some("write lengths(0.05)"));
}
