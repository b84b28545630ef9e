//! Room for the cue, in scenarios as in layouts.

use super::{BANK, numbers, printed};

const NEAR: &str = "local near = lay { equipment = hall, pocket = 'foot-right', balls = {
  cue = { position = { metres(-1.17), metres(0.1) } }, object = { position = { metres(0), metres(0.1) } } } }
";

#[test]
fn a_shot_says_its_elevation_and_what_forces_it() {
    let script = format!(
        "{NEAR}local shot = near:play {{ speed = mps(3), aim = degrees(0) }}
print(shot.forced_by) print(shot.jumps) print(shot.stroke.elevation == shot.elevation)
print(shot.elevation > degrees(8) and shot.elevation < degrees(9))
print(shot.least_elevation == shot.elevation)
local asked = near:play {{ speed = mps(3), aim = degrees(0), elevation = 'least' }}
print(asked.elevation == shot.elevation)
local steep = near:play {{ speed = mps(4), aim = degrees(0), elevation = degrees(60) }}
print(steep.jumps) print(steep:events()[1].flagged) print(steep.least_elevation == shot.elevation)
print(near:play {{ stroke = shot.stroke }}.elevation == shot.elevation)"
    );
    assert_eq!(
        printed(&script),
        ["the head rail", "false", "true", "true", "true", "true", "true", "true", "true", "true"]
    );
}

#[test]
fn a_blocked_stroke_is_refused_at_its_elevation() {
    let script = format!(
        "{BANK}{NEAR}near:play {{ speed = mps(3), aim = degrees(0), elevation = degrees(2) }}"
    );
    let fault = crate::scenario::try_run(&script).expect_err("it is refused");
    let place = fault.place.as_ref().expect("it has a place");
    assert_eq!(&place.source()[place.span()], "elevation");
    assert_eq!(place.line_column().0, 4);
    assert!(fault.message.contains("pointing down by 2° it would go through the head rail"));
    assert!(
        fault.hint.as_deref().is_some_and(|hint| hint.contains("least elevation that works is 8."))
    );
}

/// In a sweep and in a question the reason stands beside the place where there is no answer.
#[test]
fn a_sweep_and_a_question_go_on_where_the_cue_has_no_room() {
    let script = format!(
        "{NEAR}print(near:aim {{ speed = mps(3), send = {{ to = {{ pocket = 'foot-right' }} }}, \
         elevation = degrees(2) }}.why_not)
local set = shots {{ over = {{ elevation = {{ degrees(2), degrees(10) }} }}, shot = function(point)
  return near, {{ speed = mps(3), aim = degrees(0), elevation = point.elevation }} end }}
for _, row in ipairs(set:rows()) do
  print(row.why_not or row.stroke.elevation > degrees(9.99))
end"
    );
    let lines = printed(&script);
    assert!(lines[0].contains("it would go through the head rail; the least"), "{lines:?}");
    assert!(
        lines[1].contains("pointing down by 2° it would go through the head rail"),
        "{lines:?}"
    );
    assert_eq!(lines[2], "true");
}

/// The least elevation makes side swerve: about 40 mm over a long shot at 3° is what a level cue leaves out.
#[test]
fn three_degrees_move_a_long_side_spin_shot_by_centimetres() {
    let script = "local cue = lay { equipment = hall, balls = { cue = { position = { metres(-0.9), metres(0) } } } }
local function across(elevation)
  local shot = cue:play { speed = mps(3), aim = degrees(0), tip_side = 0.3, elevation = elevation }
  for _, event in ipairs(shot:events()) do
    if event.kind == 'cushion' then return event.y / millimetres(1) end
  end
end
print(across(degrees(3.5)) - across(degrees(6.5)))";
    let moved = numbers(script)[0];
    assert!((15.0..80.0).contains(&moved), "{moved}");
}
