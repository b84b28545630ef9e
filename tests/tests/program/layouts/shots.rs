//! Shots played from layouts: the verdict, the sentences and the answer for programs.

use super::{BANK, good, with};
use railproof::command::to_json;
use railproof::layout::Layout;
use railproof::playing::{PlayedShot, SteppedPlay};
use railproof::telling::Detail;
use serde_json::Value;
use std::fmt::Write;

fn played(layout: &Layout) -> PlayedShot<'_> {
    PlayedShot::new(layout).unwrap_or_else(|fault| panic!("{fault}"))
}

fn json(layout: &Layout) -> Value {
    let text = to_json(&played(layout).answer()).expect("it has a form in JSON");
    assert!(!text.contains("-0.0,") && !text.contains("-0.0\n"), "a negative zero: {text}");
    serde_json::from_str(&text).expect("it is JSON")
}

/// The object ball close to the pocket and straight in.
const STRAIGHT: &str = "\
equipment: nine-foot
target: {pocket: foot-right}
balls:
  cue: {behind: object, heading: {to: {pocket: foot-right}}, gap: 20 cm}
  object: {position: [1.0 m, -0.365 m]}
stroke: {speed: 1.5 m/s, aim_at: object, tip_height: -0.3}
";

#[test]
fn a_straight_shot_drops_clean() {
    let layout = good(STRAIGHT);
    let answer = json(&layout);
    let verdict = &answer["verdict"];
    assert_eq!((&verdict["verdict"], &verdict["made"]), (&"dropped-clean".into(), &true.into()));
    assert_eq!((&verdict["ball"], &verdict["pocket"]), (&"object".into(), &"foot-right".into()));
    assert!(
        verdict["arrival"]["miss_m"].as_f64().is_some_and(|miss| miss.abs() < 1e-3),
        "{verdict}"
    );
    let text = played(&layout).sentences(Detail::Full);
    assert!(
        text.starts_with("The object ball drops clean into the foot-right pocket, dead centre."),
        "{text}"
    );
    assert!(
        text.contains("\nThe cue ball is struck and leaves at 1.5 m/s, hits the object ball at 1."),
        "{text}"
    );
    assert!(text.contains("\nThe object ball is hit by the cue ball and leaves at "), "{text}");
    assert!(text.contains(", and drops into the foot-right pocket after "), "{text}");
    assert_eq!(answer["sentence"], text);
    assert_eq!(answer["ends"][1]["pocket"], "foot-right");
    assert_eq!(answer["stroke"]["tip_height"], -0.3);
}

#[test]
fn misses_and_scratches_are_told() {
    let thin = with(STRAIGHT, "aim_at: object", "aim_at: {position: [1.0 m, -0.39 m]}");
    let text = played(&good(&thin)).sentences(Detail::Full);
    assert!(text.starts_with("To the ") && text.contains("\nThe object ball misses "), "{text}");
    let follow = with(&with(STRAIGHT, "tip_height: -0.3", "tip_height: 0.45"), "1.5 m/s", "3 m/s");
    let layout = good(&follow);
    let text = played(&layout).sentences(Detail::Full);
    assert!(
        text.starts_with("A scratch: the cue ball drops into the foot-right pocket. Hit it "),
        "{text}"
    );
    assert!(
        text.contains("\nA scratch: the struck ball drops into the foot-right pocket.\n"),
        "{text}"
    );
    assert_eq!(json(&layout)["verdict"]["verdict"], "scratched");
    let soft = with(STRAIGHT, "1.5 m/s", "0.2 m/s");
    let text = played(&good(&soft)).sentences(Detail::Full);
    assert!(
        text.starts_with(
            "The cue ball stops before it comes to the object ball. Hit it harder, at 1.1 m/s. "
        ),
        "{text}"
    );
    assert!(text.contains("\nThe object ball never comes to the foot-right pocket."), "{text}");
    let answer = json(&good(&soft));
    let verdict = answer["verdict"].as_object().expect("an object");
    assert_eq!(verdict.get("arrival"), Some(&Value::Null));
    assert_eq!(verdict["events"].as_u64(), answer["events"].as_array().map(|all| all.len() as u64));
}

/// Spin speeds a ball up on the cloth and off what it meets: it is hard from then on.
#[test]
fn a_ball_that_its_spin_speeds_up_has_the_caution_of_a_hard_one() {
    let cautions = |spin: &str| {
        let layout = good(&format!(
            "equipment: nine-foot\nballs:\n  red: {{position: [-0.9 m, 0 m], velocity: [4.6 m/s, 0 m/s], \
             spin: [0 rad/s, {spin} rad/s, 0 rad/s]}}\n"
        ));
        played(&layout).cautions().lines().join(" ")
    };
    assert!(!cautions("0").contains("hit at 5 m/s (11 mph)"));
    assert!(cautions("600").contains("hit at 5 m/s (11 mph)"));
}

/// A raised cue sends less of its speed along the table than level, which the words say.
#[test]
fn a_raised_cues_ball_leaves_along_the_table() {
    let raised = with(STRAIGHT, "tip_height: -0.3", "tip_height: -0.3, elevation: 30 deg");
    let layout = good(&raised);
    assert_eq!(json(&layout)["stroke"]["speed_m_s"], 1.5);
    let text = played(&layout).sentences(Detail::Full);
    let (_, told) = text.split_once("leaves at ").expect("it is struck");
    let (speed, _) = told.split_once(" m/s along the table").expect("it says along what");
    assert!(speed.parse::<f64>().is_ok_and(|speed| speed < 1.4), "{text}");
}

/// An aim that allows for squirt and throw is no cause of the miss: what is left of the three is.
#[test]
fn an_aim_that_was_solved_is_not_blamed() {
    let sent = "\
equipment: nine-foot
target: {pocket: foot-right, ball: object}
balls:
  object: {on_line: {contact: 2.5, start: 5.5}, off_rail: 6 in}
  cue: {position: [-10 cm, 10 cm]}
stroke: {speed: 4 m/s, tip_side: 0.3, send: {ball: object, heading: {line: {contact: 2.5, start: 5.5}}}}
";
    let layout = good(sent);
    let text = played(&layout).sentences(Detail::Full);
    let why = played(&layout).reason().unwrap_or_default();
    assert!(why.contains("side at the rail") && !why.contains("aim"), "{text}");
    let sum = text.lines().find(|line| line.starts_with("In mm: ")).unwrap_or_default();
    let (_, together) = sum.split_once(", sent off ").unwrap_or_default();
    let (left, parts) = together.split_once(" (aim ").unwrap_or_default();
    let number = |text: &str| text.replace('−', "-").parse::<f64>().unwrap();
    let parts = parts.split_once(')').unwrap().0.replace("squirt ", "").replace("throw ", "");
    let parts: f64 = parts.split(", ").map(number).sum();
    assert!((number(left) - parts).abs() < 1e-9, "{sum}");
    // Where nothing works against it, it is: no side, and well off the line.
    let aside = with(
        sent,
        "tip_side: 0.3, send: {ball: object, heading",
        "aim_at: {behind: object, heading",
    );
    let text = played(&good(&aside)).sentences(Detail::Full);
    assert!(text.contains("In mm: ") && !text.contains("sent off ("), "{text}");
}

/// A missed bank says first by how much and why, in inches where the layout is written in inches.
#[test]
fn a_miss_begins_with_its_reason() {
    let side = "\
equipment: nine-foot
target: {pocket: foot-right, ball: object}
balls:
  cue: {behind: object, heading: {line: {contact: 2, start: 4.4}}, gap: 12 in}
  object: {on_line: {contact: 2, start: 4.4}, off_rail: 2 in}
stroke: {speed: medium, tip_side: -0.3, ghost: {ball: object, heading: {line: {contact: 2, start: 4.4}}}}
";
    let layout = good(side);
    let text = played(&layout).sentences(Detail::Full);
    let first = text.lines().next().unwrap_or_default();
    assert!(first.contains(" by ") && first.contains(" in: ") && !first.contains(" mm"), "{text}");
}

/// A ball that comes to the pocket's mouth off a second rail says so, and why no cause is given.
#[test]
fn a_miss_off_a_second_rail_names_it() {
    let mut found = 0;
    for tenth in 360..375 {
        let layout = good(&format!(
            "equipment: nine-foot\ntarget: {{pocket: foot-right, ball: object}}\nballs:\n  object: \
             {{on_line: {{contact: 2.5, start: 5.5}}, off_rail: 6 in}}\n  cue: {{position: [-10 cm, 10 \
             cm]}}\nstroke: {{speed: 4 m/s, tip_side: 0.3, aim: {} deg}}\n",
            f64::from(tenth) / 10.0
        ));
        let answer = json(&layout);
        let text = played(&layout).sentences(Detail::Full);
        let off_foot = answer["verdict"]["arrival"]["last_rail"] == "foot";
        assert_eq!(text.contains(" off the foot rail, "), off_foot, "{text}");
        if off_foot {
            found += 1;
            assert!(text.contains("Its causes are not worked out: "), "{text}");
        }
    }
    assert!(found > 0, "no ball came off a second rail");
}

/// Every event of the loop is in the answer, with both balls where two meet.
#[test]
fn events_carry_both_balls_surfaces_and_phases() {
    let layout = good(&format!(
        "{BANK}obstacles:\n  box: {{middle: [85 cm, 30 cm], length: 20 cm, width: 10 cm}}\n"
    ));
    let answer = json(&layout);
    let shot = &played(&layout).shot;
    let events = answer["events"].as_array().expect("a list");
    assert_eq!(events.len(), shot.events.len());
    for (event, ours) in events.iter().zip(&shot.events) {
        assert_eq!(event["kind"], ours.kind.name());
        assert_eq!(event["time_s"].as_f64(), Some(ours.time_s));
        let has = |key: &str| event.get(key).is_some();
        assert_eq!(has("rail"), event["kind"] == "cushion");
        assert_eq!(has("jaw"), event["kind"] == "jaw");
        assert_eq!(has("obstacle"), event["kind"] == "obstacle");
        assert_eq!(has("other_before") && has("other_after"), event["kind"] == "ball");
        let phase = event["phase"].as_str().expect("a word");
        let known = ["slides", "rolls", "pivots", "rests", "held", "off-table"];
        assert!(known.contains(&phase), "{phase}");
        match event["kind"].as_str() {
            Some("roll") => assert_eq!(phase, "rolls"),
            Some("stop") => assert_eq!(phase, "rests"),
            Some("cushion") => assert_eq!(phase, "held"),
            _ => {}
        }
    }
    assert!(events.iter().any(|it| it["obstacle"] == "box"), "{}", answer["sentence"]);
    assert!(answer["sentence"].as_str().is_some_and(|it| it.contains("comes off the box")));
    // The pieces of each ball hang together, from its start to its end.
    for (index, ball) in answer["balls"].as_array().expect("a list").iter().enumerate() {
        let pieces: Vec<&Value> = answer["pieces"]
            .as_array()
            .expect("a list")
            .iter()
            .filter(|piece| piece["ball"] == ball["name"])
            .collect();
        let point = |value: &Value| {
            let part = |axis: usize| value[axis].as_f64().expect("a number");
            (part(0), part(1))
        };
        let near = |one: &Value, other: &Value| {
            let (a, b) = (point(one), point(other));
            assert!((a.0 - b.0).hypot(a.1 - b.1) < 1e-9, "{one} {other}");
        };
        near(&pieces[0]["curve_m"][0], &ball["start"]["position_m"]);
        for pair in pieces.windows(2) {
            near(&pair[0]["curve_m"][2], &pair[1]["curve_m"][0]);
        }
        let last = pieces.last().expect("it moves");
        near(&last["curve_m"][2], &answer["ends"][index]["state"]["position_m"]);
    }
}

/// Common practice, no source: with the cue ball straight behind it, stun, a bank frozen to the rail
/// at contact 2 from 4.4 comes near the corner.
#[test]
fn the_bank_comes_near_its_corner() {
    let verdict = json(&good(BANK))["verdict"].clone();
    let miss = verdict["arrival"]["miss_m"].as_f64().expect("it arrives");
    assert!(miss.abs() < 0.2 && verdict["arrival"]["last_rail"] == "left", "{verdict}");
}

#[test]
fn a_rack_is_told_shortly() {
    let mut balls = String::from("  cue: {position: [-0.635 m, 0.05 m]}\n");
    for row in 0..5_u32 {
        for place in 0..=row {
            let (row, place) = (f64::from(row), f64::from(place));
            let (x, y) = (0.635 + row * 0.0495, (place - 0.5 * row) * 0.0572);
            let name = format!("r{row}-{place}");
            writeln!(balls, "  {name}: {{position: [{x:.4} m, {y:.4} m]}}").expect("it fits");
        }
    }
    let text = format!(
        "equipment: nine-foot\nballs:\n{balls}stroke: {{speed: 8 m/s, aim_at: {{position: [0.635 m, 0 m]}}}}\n"
    );
    let layout = good(&text);
    let text = played(&layout).sentences(Detail::Full);
    assert!(text.lines().all(|line| line.len() < 900), "{text}");
    assert!(text.contains("Mind people nearby"), "{text}");
}

#[test]
fn what_ships_plays_and_is_made() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios/shots");
    let mut seen = 0;
    for entry in std::fs::read_dir(folder).expect("the folder ships") {
        let path = entry.expect("it can be read").path();
        let layout =
            railproof::layout::load_layout(&path).unwrap_or_else(|fault| panic!("{fault}"));
        let played = played(&layout);
        let text = played.sentences(Detail::Full);
        // One is a miss, to show what is told of it.
        let misses = path.ends_with("thrown-short.yaml");
        let made = played.verdict().is_some_and(|it| it.is_made());
        assert_eq!(made, !misses, "{}: {text}", path.display());
        played.picture(true).to_svg().expect("it can be drawn");
        seen += 1;
    }
    assert!(seen >= 2);
}

/// The layout of the guide plays.
#[test]
fn the_layout_in_the_guide_plays() {
    let guide = include_str!("../../../../scenarios/guide/shots.md");
    let mut seen = 0;
    for block in guide.split("```yaml\n").skip(1) {
        let text = block.split("```").next().unwrap_or_default();
        if text.contains("\nballs:") {
            let layout = good(text);
            assert!(layout.stroke.is_some() && layout.obstacles.len() == 1);
            assert!(played(&layout).sentences(Detail::Full).contains("Free starts at 1 m/s"));
            seen += 1;
        }
    }
    assert_eq!(seen, 1);
}

/// The second opinion on the straight shot: the same first contact, and the same pocket.
#[test]
fn the_stepped_engine_plays_the_same_layout() {
    let layout = good(&format!("{STRAIGHT}engine: stepped\n"));
    let stepped = SteppedPlay::new(&layout).unwrap_or_else(|fault| panic!("{fault}"));
    let told = stepped.sentences();
    assert!(told.starts_with("The object ball drops into the foot-right pocket."), "{told}");
    assert!(
        told.contains("a second opinion") && told.contains("The cue ball is in contact once"),
        "{told}"
    );
    let text = to_json(&stepped.answer()).expect("it has a form in JSON");
    let answer: Value = serde_json::from_str(&text).expect("it is JSON");
    let contact = &answer["contacts"][0];
    assert_eq!((&contact["kind"], &contact["with"]), (&"ball".into(), &"object".into()));
    let events = played(&layout);
    let hit = events.shot.events.iter().find(|it| it.kind.name() == "ball").expect("they meet");
    let began_s = contact["began_s"].as_f64().expect("a number");
    assert!((began_s - hit.time_s).abs() < 1e-6, "{began_s} {}", hit.time_s);
    assert!(contact["other_after"]["velocity_m_s"][0].as_f64().is_some_and(|speed| speed > 0.5));
    assert_eq!(answer["ends"][1]["pocket"], "foot-right");
    assert!(stepped.moments().contains("cue touches object for "), "{}", stepped.moments());
    let picture = stepped.picture(true);
    assert!(
        picture.balls.iter().all(railproof::picture::BallTrack::moves) && picture.marks.len() == 1
    );
    picture.to_svg().expect("it can be drawn");
}

/// A steep bank off the left rail, its cue ball straight behind.
fn steep(contact: f64, speed_m_s: f64, height: f64) -> String {
    let line = format!("{{line: {{contact: {contact}, start: {}}}}}", 2.2 * contact);
    format!(
        "equipment: nine-foot
target: {{pocket: foot-right}}
balls:
  cue: {{behind: object, heading: {line}, gap: 20 cm}}
  object: {{on_line: {{contact: {contact}, start: {}}}, off_rail: 3 in}}
stroke: {{speed: {speed_m_s} m/s, tip_height: {height}, send: {{ball: object, heading: {line}}}}}
",
        2.2 * contact
    )
}

/// A ball across the table with the cue ball after it, so that they meet once more when both have come
/// off several rails.
fn followed(degrees: u32) -> String {
    format!(
        "equipment: nine-foot
target: {{pocket: foot-right, ball: object}}
balls:
  cue: {{behind: object, heading: {{angle: {degrees} deg}}, gap: 10 cm}}
  object: {{position: [0 m, 0 m]}}
stroke: {{speed: 7 m/s, tip_height: 0.45, aim_at: object}}
"
    )
}

/// A double kiss is one thing in the answer for programs, in the sentence and by the events: the two
/// balls meet, the object ball comes off one rail and nothing else, the two meet again.
#[test]
fn a_double_kiss_is_one_thing_everywhere() {
    let (mut kisses, mut later, mut neither) = (0, 0, 0);
    let mut layouts = Vec::new();
    for contact in [0.2, 0.5, 1.0, 2.0] {
        for speed in [2.0, 4.0, 7.0] {
            layouts.extend([-0.3, 0.0, 0.4].map(|height| steep(contact, speed, height)));
        }
    }
    layouts.extend((62..120).step_by(4).map(followed));
    for yaml in layouts {
        let layout = good(&yaml);
        let answer = json(&layout);
        let told = played(&layout).target_sentence().expect("it has a target");
        let (mut met, mut off) = (false, Vec::new());
        let (mut kissed, mut again) = (None, None);
        for event in answer["events"].as_array().expect("events") {
            let is = |name: &str| event["ball"] == name || event["other"] == name;
            match event["kind"].as_str().expect("a kind") {
                "ball" if is("cue") && is("object") => {
                    if met && !off.is_empty() {
                        again = again.or(event["time_s"].as_f64());
                    }
                    if off.len() == 1 && off[0] != "jaw" {
                        kissed = kissed.or(event["time_s"].as_f64());
                    }
                    met = true;
                }
                "cushion" if met && event["ball"] == "object" => {
                    off.push(event["rail"].as_str().expect("a rail").to_owned());
                    off.dedup();
                }
                "jaw" if met && event["ball"] == "object" => off.push("jaw".to_owned()),
                _ => {}
            }
        }
        let verdict = &answer["verdict"];
        let what = format!("{yaml}{verdict} {told}");
        assert_eq!(verdict["kissed_at_s"].as_f64(), kissed, "{what}");
        assert_eq!(verdict["met_again_at_s"].as_f64(), again, "{what}");
        assert_eq!(told.contains("double kiss"), kissed.is_some(), "{what}");
        assert_eq!(told.contains("meet again"), again.is_some(), "{what}");
        match (kissed, again) {
            (Some(_), _) => kisses += 1,
            (None, Some(_)) => later += 1,
            (None, None) => neither += 1,
        }
    }
    assert!(kisses > 5 && later > 2 && neither > 5, "{kisses}, {later}, {neither}");
}

/// Each way in which a ball can end has one word, the same for programs and in scripts.
#[test]
fn how_a_ball_ended_has_one_word() {
    use railproof_engine::rail::Pocket;
    use railproof_engine::shot::Ending;
    let words = [
        (Ending::AtRest, "at-rest"),
        (Ending::Dropped(Pocket::FootRight), "dropped"),
        (Ending::TimeOver, "time-over"),
        (Ending::GivenUp, "given-up"),
        (Ending::Unending, "unending"),
    ];
    for (ending, word) in words {
        assert_eq!(ending.name(), word);
    }
    let layout = good(STRAIGHT);
    assert_eq!(json(&layout)["ends"][1]["ending"], "dropped");
    assert_eq!(json(&layout)["ends"][0]["ending"], "at-rest");
    let cut_short = good(&format!("{STRAIGHT}until: 0.1 s\n"));
    assert_eq!(json(&cut_short)["ends"][0]["ending"], "time-over");
}

#[test]
fn a_ball_that_moves_when_the_time_is_over_is_told_and_drawn_so() {
    for engine in ["event", "stepped"] {
        let layout = good(&format!("{STRAIGHT}until: 0.3 s\nengine: {engine}\n"));
        let (sentence, picture) = if engine == "event" {
            let shot = played(&layout);
            (shot.target_sentence(), shot.picture(true))
        } else {
            let shot = SteppedPlay::new(&layout).expect("it plays");
            (shot.target_sentence(), shot.picture(true))
        };
        let sentence = sentence.expect("it has a target");
        assert!(sentence.contains("still moving when the time was over"), "{sentence}");
        let svg = picture.to_svg().expect("it can be drawn");
        assert!(svg.contains("still moving"), "{engine}");
        assert!(svg.contains("object runs and is still moving."), "{engine}");
    }
}

/// Numbers of a side pocket stand without a sign, by their side.
#[test]
fn numbers_past_a_side_pocket_are_told_by_their_side() {
    let text = "\
equipment: nine-foot
target: {pocket: side-right}
balls:
  object: {on_line: {contact: -0.8, start: -1.9}, off_rail: 8 in, launch: {speed: 3 m/s, heading: {line: {contact: -0.8, start: -1.9}}}}
";
    let layout = good(text);
    let played = played(&layout);
    let told = played.sentences(Detail::Full);
    let off = "comes off the left rail at 0.80 on the foot side of the side pocket";
    assert!(told.contains(off) && !told.contains("-0.") && !told.contains('−'), "{told}");
    // Towards the head it is the number alone, as in a corner.
    let head = good(&text.replace("contact: -0.8, start: -1.9", "contact: 0.8, start: 1.9"));
    let told = self::played(&head).sentences(Detail::Full);
    assert!(told.contains("comes off the left rail at 0.80, "), "{told}");
}
