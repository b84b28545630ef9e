//! Places, strokes and solved aims: what is asked of the words is what the engine answers.

use super::{numbers, printed};
use railproof::scenario::{RunOptions, run_scenario};
use railproof_engine::aim::{LineSetup, Setup, aim_along, gear, overcut};
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::stroke::Stroke;
use railproof_engine::world::World;
use railproof_tests::shipped_equipment;

fn setup_of(world: &World, cut_deg: f64) -> LineSetup {
    assert!(world.obstacles().is_empty());
    LineSetup {
        rail: Rail::Left,
        pocket: Pocket::FootRight,
        line: Line::new(2.5, 5.5),
        off_rail_m: 6.0 * 0.0254,
        cue_distance_m: 14.0 * 0.0254,
        cut_rad: cut_deg.to_radians(),
    }
}

#[test]
fn solved_aims_are_the_engines() {
    let world = World::new(&shipped_equipment("nine-foot"), &[]).unwrap();
    let (setup, line) = Setup::on_line(&world, &setup_of(&world, 12.0)).unwrap();
    let stroke = Stroke { side_offset: 0.2, ..Stroke::centre(4.0, 0.0) };
    let aim = aim_along(&setup, &stroke, line).unwrap();
    let geared = gear(&setup, &Stroke::centre(4.0, 0.0), line).unwrap();
    let over = overcut(&setup, &Stroke::centre(4.0, 0.0), line).unwrap();
    let found = numbers(
        "local b = bank { cut = degrees(12) }
local aim = b:aim { speed = mps(4), tip_side = 0.2 }
print(aim.aim / degrees(1)) print(aim.throw / degrees(1)) print(aim.correction / milliradians(1))
print(b:gear { speed = mps(4) }.tip_side)
local over = b:overcut { speed = mps(4) }
print(over.overcut / milliradians(1)) print(over.at_ball / millimetres(1)) print(over.miss / millimetres(1))",
    );
    let expected = [
        aim.stroke.aim_rad.to_degrees(),
        aim.hit.throw_rad().to_degrees(),
        1e3 * aim.correction_rad(),
        geared.stroke.side_offset,
        1e3 * over.overcut_rad,
        1e3 * over.overcut_at_ball_m,
        0.0,
    ];
    for (found, expected) in found.iter().zip(expected) {
        assert!((found - expected).abs() < 1e-6, "{found}, not {expected}");
    }
}

#[test]
fn places_are_told_as_in_layouts() {
    let found = printed(
        "local l = lay { equipment = hall, pocket = 'foot-right', balls = {
  cue = { position = { metres(-0.5), metres(0.1) } },
  object = { on_rail = 'left', number = 2, off_rail = inches(3) },
  frozen = { on_rail = 'foot', number = 2 },
  middle = { between = { 'cue', { pocket = 'foot-right' } }, share = 0.25 },
  touching = { behind = 'object', heading = { to = { pocket = 'side-right' } } },
} }
local b = l:balls()
print(b.cue.x, b.cue.y) print(b.object.x) print(b.frozen.y)
print(math.abs((b.touching.x - b.object.x) / metres(1)) < 0.06)
print(b.object.diameter)",
    );
    // 2 diamonds of 12.5 in from the foot's nose line at 50 in; the foot rail counts across.
    assert_eq!(found[0], "-0.5 m\t0.1 m");
    assert_eq!(found[1], format!("{} m", 25.0 * 0.0254));
    assert_eq!(found[2], "0 m");
    assert_eq!(found[3], "true");
    assert_eq!(found[4], "57.15 mm");
}

#[test]
fn a_bank_shot_lies_on_its_line_and_its_number_comes_out() {
    let found = numbers(
        "local shot = bank():play { speed = mps(4), send = 'line' }
print(shot:numbers()[1].number)
print(bank().contact) print(bank().start)",
    );
    assert!((found[0] - 2.5).abs() < 0.05, "{}", found[0]);
    assert_eq!(found[1..], [2.5, 5.5]);
}

#[test]
fn a_launched_ball_needs_no_stroke_and_its_states_are_those_at_that_time() {
    let found = printed(
        "local shot = lay { equipment = hall, pocket = 'foot-right', balls = { object = {
  position = { metres(0), metres(0) },
  launch = { speed = mps(0.4), heading = { angle = degrees(0) }, roll = 1 } } } }:play()
local first = shot:at('object', seconds(0))
print(first.speed, first.direction, math.abs(first.roll - 1) < 1e-12, first.spin_side)
print(#shot:path('object', seconds(0.1)) > 5, shot:ends().object.ending, shot.verdict)
print(shot:events()[1].kind, shot:events()[1].ball)",
    );
    assert_eq!(found[0], "0.4 m/s\t0 deg\ttrue\t0");
    assert_eq!(found[1], "true\tat-rest\tnot-reached");
    assert_eq!(found[2], "start\tobject");
}

#[test]
fn windows_break_just_outside() {
    let found = printed(
        "local b = bank()
local over = b:overcut { speed = mps(4) }
local w = b:aims { stroke = over.stroke }.widest
local function made(aim) return b:play { speed = mps(4), aim = aim }.made end
local hair = milliradians(0.001)
print(made(w.from + hair), made(w.to - hair), made(w.from - hair), made(w.to + hair))
local s = b:speeds { stroke = over.stroke, from = mps(1), to = mps(7) }
print(s.widest.from < mps(4) and s.widest.to > mps(4))",
    );
    assert_eq!(found, ["true\ttrue\tfalse\tfalse", "true"]);
}

#[test]
fn no_answer_is_a_value_with_its_reason() {
    let found = printed(
        "local b = bank()
print(b:aim { speed = mps(4), send = { angle = degrees(-90) } }.why_not)
print(b:aim { speed = mps(0.05) }.why_not)
print(bank { contact = 0.5, off_rail = inches(0), distance = millimetres(1) }:least_gap { speed = mps(3), to = millimetres(5) }.why_not)
print(route { equipment = hall, from = { position = { metres(0), metres(0) } }, rails = { 'head', 'foot' }, pocket = 'head-left', speed = mps(0.2) }.why_not)
print(b:speeds { speed = mps(4), send = 'line', from = mps(0.1), to = mps(0.2) }.why_not)
print(b:aim { speed = mps(4) }.why_not)",
    );
    for (line, part) in found.iter().zip([
        "past 90°",
        "the cue ball stops after",
        "the balls kiss",
        "no direction",
        "none from 0.1 to 0.2 m/s",
        "nil",
    ]) {
        assert!(line.contains(part), "{line}");
    }
}

#[test]
fn ways_say_for_each_why_not() {
    let found = printed(
        "local ways = bank { contact = 1, off_rail = inches(1), distance = inches(12) }:ways {
  speed = { mps(3), mps(4) }, tip_side = { -0.3, 0, 0.3 } }
print(ways.count)
for _, way in ways.all do print(way.made, way.made == (way.why_not == nil)) end",
    );
    assert_eq!(found[0], "6");
    assert_eq!(found.len(), 7);
    for line in &found[1..] {
        assert!(line.ends_with("\ttrue"), "{line}");
    }
}

#[test]
fn routes_and_kicks_come_off_their_rails() {
    let found = printed(
        "local r = route { equipment = hall, from = { position = { metres(0.2), metres(-0.25) } }, rails = { 'foot', 'left' },
  pocket = 'head-right', speed = mps(4) }
for _, s in r.starts do print(s.numbers[1].rail, s.numbers[2].rail, math.abs(s.miss / millimetres(1)) < 0.001) end
local l = lay { equipment = hall, pocket = 'foot-right', balls = { cue = { position = { metres(-0.6), metres(-0.3) } },
  object = { position = { metres(0.35), metres(-0.35) } } } }
local k = l:kick { rails = { 'left' }, speed = mps(4), tip_height = 0.2 }
print(k.strokes[1].numbers[1].rail, l:play { stroke = k.strokes[1].stroke }.verdict == k.strokes[1].verdict)",
    );
    let (last, routes) = found.split_last().unwrap();
    assert!(!routes.is_empty());
    assert!(routes.iter().all(|line| line == "foot\tleft\ttrue"), "{routes:?}");
    assert_eq!(last, "left\ttrue");
}

#[test]
fn a_layouts_file_is_played_as_it_says() {
    let folder = tempfile::tempdir().unwrap();
    let layout = "equipment: nine-foot\ntarget: {pocket: foot-right}\nballs:\n  object: {on_line: {contact: 2, \
                  start: 4.4}, off_rail: 6 in}\n  cue: {behind: object, heading: {line: {contact: 2, start: 4.4}}, \
                  gap: 20 cm}\nstroke: {speed: 4 m/s, aim_at: object}\n";
    std::fs::write(folder.path().join("mine.yaml"), layout).unwrap();
    let script =
        "local shot = play_file 'mine.yaml'\nprint(shot:numbers()[1].rail, shot.stroke.speed)";
    std::fs::write(folder.path().join("case.lua"), script).unwrap();
    let run = |name: &str| {
        run_scenario(&folder.path().join(name), &RunOptions::default())
            .and_then(railproof::record::Record::whole)
    };
    assert_eq!(run("case.lua").unwrap().printed, ["left\t4 m/s"]);
    std::fs::write(folder.path().join("mine.yaml"), layout.replace("4 m/s", "fast")).unwrap();
    let fault = run("case.lua").unwrap_err();
    assert!(fault.place.unwrap().label().ends_with("mine.yaml"));
    std::fs::write(folder.path().join("other.lua"), "play_file 'gone.yaml'").unwrap();
    let fault = run("other.lua").unwrap_err();
    assert!(fault.place.unwrap().label().ends_with("other.lua"), "{}", fault.message);
}

/// A miss has its reason and its remedy in the words of `railproof shot`, and each stroke makes it.
#[test]
fn a_missed_shot_has_a_reason_and_a_remedy() {
    let said = printed(
        "local b = bank { cut = degrees(12) }
local missed = b:play { speed = mps(4), ghost = 'line' }
local remedy = missed:remedy()
print(missed.made, string.find(missed.sentence, missed.reason .. ' ' .. remedy.sentence, 1, true))
print(remedy.hit, remedy.by > millimetres(0.2), string.find(remedy.sentence, remedy.hit, 1, true) ~= nil)
print(b:play { stroke = remedy.stroke }.made, b:play { stroke = remedy.gear }.made)
print(remedy.gear.tip_side == remedy.tip_side, b:play { speed = mps(4), gear = 'line' }.made)
local over = b:play { speed = mps(4), overcut = 'line' }
print(over.made, over.reason, over:remedy().why_not)
print(pcall(function() return b:play { speed = mps(4), gear = 'line', tip_side = 0.1 } end))",
    );
    let soft = printed(
        "local b = bank {}
local missed = b:play { speed = mps(1), ghost = 'line' }
local remedy = missed:remedy()
print(missed.reason)
print(remedy.sentence)
print(b:play { speed = remedy.speed, ghost = 'line' }.made, b:play { stroke = remedy.at_speed }.made)",
    );
    assert!(soft[0].starts_with("It runs out of speed: it stops "), "{soft:?}");
    assert!(soft[1].contains("harder, at ") && soft[2] == "true\ttrue", "{soft:?}");
    assert!(said[0].starts_with("false\t1\t"), "{said:?}");
    assert!(said[1] == "thinner\ttrue\ttrue" || said[1] == "fuller\ttrue\ttrue", "{said:?}");
    assert_eq!((said[2].as_str(), said[3].as_str()), ("true\ttrue", "true\ttrue"));
    assert_eq!(said[4], "true\tnil\tit drops as it is");
    assert!(said[5].contains("`gear` and `tip_side` contradict each other"), "{said:?}");
}
