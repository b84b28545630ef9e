//! `railproof shot`: one layout in, sentences, JSON or a picture out.

use super::support::Place;

const LAYOUT: &str = "\
equipment: harbour-hall
target: {pocket: foot-right, ball: object}
balls:
  cue: {behind: object, heading: {to: {pocket: foot-right}}, gap: 20 cm}
  object: {position: [1.0 m, -0.365 m]}
stroke: {speed: 1.5 m/s, aim_at: object, tip_height: -0.3}
";

#[test]
fn a_shot_is_told_answered_and_drawn() {
    let place = Place::new();
    place.write("straight.yaml", LAYOUT);
    let told = place.run(&["shot", "straight.yaml"]).code(0);
    assert!(
        told.out.starts_with("The object ball drops clean into the foot-right pocket"),
        "{told:#?}"
    );
    assert!(!told.out.contains("0.000 s") && place.files("out").is_empty(), "{told:#?}");
    let moments = place.run(&["shot", "straight.yaml", "--moments"]).code(0);
    assert!(moments.out.starts_with(&told.out) && moments.out.contains("0.000 s"), "{moments:#?}");

    let drawn = place.run(&["shot", "straight.yaml", "--json", "--into", "out"]).code(0);
    let answer: serde_json::Value = serde_json::from_str(&drawn.out).expect("it is JSON alone");
    assert_eq!(answer["verdict"]["made"], true);
    let files = place.files("out");
    assert_eq!(files.keys().collect::<Vec<_>>(), ["straight.png", "straight.svg"]);
    assert!(files["straight.png"].starts_with(b"\x89PNG"));
    let again = place.run(&["shot", "straight.yaml", "--into", "out"]).code(0);
    assert!(again.out.contains("picture written: out/straight.svg"), "{again:#?}");
    assert_eq!(place.files("out"), files);
}

/// A cut bank, aimed at the ghost ball.
const CUT: &str = "\
equipment: nine-foot
target: {pocket: foot-right, ball: object}
balls:
  object: {on_line: {contact: 2.5, start: 5.5}, off_rail: 6 in}
  cue: {behind: object, heading: {angle: 30 deg}, gap: 30 cm}
stroke: {speed: 4 m/s, aim_at: {behind: object, heading: {line: {contact: 2.5, start: 5.5}}}}
";

#[test]
fn the_other_law_of_friction_between_balls_is_one_flag_away() {
    let place = Place::new();
    place.write("cut.yaml", CUT);
    let own = place.run(&["shot", "cut.yaml"]).code(0);
    assert!(own.out.contains("--full tells more") && !own.out.contains("law"), "{own:#?}");
    let own = place.run(&["shot", "cut.yaml", "--full"]).code(0);
    assert!(own.out.contains("friction between balls by the log-linear law"), "{own:#?}");
    assert!(own.out.contains("`--friction-law exponential`"), "{own:#?}");
    let same = place.run(&["shot", "cut.yaml", "--full", "--friction-law", "log-linear"]).code(0);
    assert_eq!(own.out, same.out);
    let other = place.run(&["shot", "cut.yaml", "--full", "--friction-law", "exponential"]).code(0);
    assert!(other.out.contains("friction between balls by the exponential law"), "{other:#?}");
    assert!(other.out.contains("`--friction-law log-linear`"), "{other:#?}");

    // The stroke is the same, the throw is not.
    let answer = |arguments: &[&str]| -> serde_json::Value {
        let all: Vec<&str> =
            ["shot", "cut.yaml", "--json"].into_iter().chain(arguments.iter().copied()).collect();
        serde_json::from_str(&place.run(&all).code(0).out).expect("it is JSON alone")
    };
    let (own, other) = (answer(&[]), answer(&["--friction-law", "exponential"]));
    assert_eq!(own["stroke"], other["stroke"]);
    assert_eq!(own["model"]["ball_friction_law"], "log-linear");
    assert_eq!(other["model"]["ball_friction_law"], "exponential");
    let miss = |answer: &serde_json::Value| answer["verdict"]["arrival"]["miss_m"].as_f64();
    let apart = miss(&own).zip(miss(&other)).map(|(a, b)| (a - b).abs());
    assert!(apart.is_some_and(|apart| apart > 5e-3), "{apart:?}");

    // Where no balls rub nothing is said of it.
    place.write(
        "alone.yaml",
        "equipment: nine-foot\nballs: {one: {position: [0 m, 0 m], velocity: [1 m/s, 0.3 m/s]}}\n",
    );
    let alone = place.run(&["shot", "alone.yaml"]).code(0);
    assert!(!alone.out.contains("friction"), "{alone:#?}");
    let refused = place.run(&["shot", "cut.yaml", "--friction-law", "linear"]).code(2);
    assert!(
        refused.err.contains("log-linear") && refused.err.contains("exponential"),
        "{refused:#?}"
    );
}

#[test]
fn a_slip_is_shown_in_its_line() {
    let place = Place::new();
    place.write("slip.yaml", &LAYOUT.replace("aim_at: object", "aim_at: objekt"));
    let ended = place.run(&["shot", "slip.yaml"]).code(2);
    assert!(ended.err.contains("slip.yaml:6:") && ended.err.contains("`object`"), "{ended:#?}");
    assert!(ended.out.is_empty(), "{ended:#?}");
    place.run(&["shot", "missing.yaml"]).code(2);
    place.run(&["shot", "slip.yaml", "--json", "--moments"]).code(2);
    place.write("taken", "a file where a folder should be");
    place.write("straight.yaml", LAYOUT);
    place.run(&["shot", "straight.yaml", "--into", "taken"]).code(2);
}

/// Nothing slows this ball, and it goes to and fro between the long rails without end.
#[test]
fn a_shot_that_is_given_up_says_what_happened_and_exits_3() {
    let place = Place::new();
    let nine_foot = railproof::profile::shipped_text("nine-foot").expect("it ships");
    let mut smooth = String::new();
    for line in nine_foot.lines() {
        let name = line.trim_start().split(':').next().unwrap_or_default();
        let value = match name {
            "sliding_friction" | "rolling_resistance" | "restitution_loss" => "0",
            "rail_model" => "planar",
            "restitution" => "1",
            _ => "",
        };
        let unit = if name == "restitution_loss" { " s/m" } else { "" };
        if value.is_empty() {
            smooth.push_str(line);
        } else {
            for part in ["  ", name, ": ", value, unit] {
                smooth.push_str(part);
            }
        }
        smooth.push('\n');
    }
    place.write("smooth.yaml", &smooth);
    let layout = "\
equipment: smooth.yaml
target: {pocket: foot-left, ball: a}
balls:
  a: {position: [0.4 m, 0 m], velocity: [0 m/s, 2 m/s]}
";
    place.write("endless.yaml", layout);
    let told = place.run(&["shot", "endless.yaml"]).code(3);
    assert!(
        told.out.starts_with("It is not known whether a comes to the foot-left pocket."),
        "{told:#?}"
    );
    assert!(told.out.contains("Given up after 50000 events"), "{told:#?}");
    assert!(told.out.lines().filter(|line| line.contains("meets the")).count() >= 10, "{told:#?}");
    let answer = place.run(&["shot", "endless.yaml", "--json"]).code(3).out;
    let answer: serde_json::Value = serde_json::from_str(&answer).expect("it is JSON");
    assert_eq!(answer["ends"][0]["ending"], "given-up");
    assert_eq!(answer["verdict"]["verdict"], "given-up");
    place.write("ended.yaml", &format!("{layout}until: 3 s\n"));
    place.run(&["shot", "ended.yaml"]).code(0);
}

#[test]
fn words_shows_the_groups_and_every_word_of_one() {
    let place = Place::new();
    let groups = place.run(&["words"]).code(0).out;
    for group in ["stroke", "ball", "obstacle", "profile.cushion"] {
        assert!(groups.lines().any(|line| line.starts_with(&format!("{group} "))), "{groups}");
        let words = place.run(&["words", group]).code(0).out;
        assert!(words.starts_with("word") && words.lines().count() > 5, "{words}");
    }
    let ended = place.run(&["words", "strok"]).code(2);
    assert!(ended.err.contains("did you mean `stroke`?"), "{ended:#?}");
}

#[test]
fn a_flag_of_old_is_told_by_its_new_name() {
    let ended = Place::new().run(&["bank", "--side", "0.1", "--contact", "2"]).code(2);
    assert!(ended.err.contains("`--side` is called `--running-side` here"), "{ended:#?}");
}

#[test]
fn help_lists_every_key_of_a_layout() {
    let help = Place::new().run(&["shot", "--help"]).code(0).out;
    for key in ["on_rail", "counted_from", "behind", "heading", "send", "allow_miscue", "turned"] {
        let line = format!("{key} ");
        assert!(help.lines().any(|shown| shown.starts_with(&line)), "{key}: {help}");
    }
}

/// A lone ball with room for a level cue; `{}` stands for the stroke.
const LONE: &str = "\
equipment: nine-foot
balls:
  cue: {position: [0.9 m, 0 m]}
stroke: {speed: 3 m/s, STROKE}
";

fn lone(stroke: &str) -> Place {
    let place = Place::new();
    place.write("lone.yaml", &LONE.replace("STROKE", stroke));
    place
}

#[test]
fn a_level_cue_is_forced_by_nothing_and_the_answer_says_so() {
    let ended = lone("aim: 0 deg").run(&["shot", "lone.yaml", "--json"]).code(0);
    let answer: serde_json::Value = serde_json::from_str(&ended.out).unwrap();
    assert_eq!(answer["stroke"]["least_elevation_rad"], 0.0);
    assert_eq!(answer["stroke"].get("forced_by"), Some(&serde_json::Value::Null), "{answer:#}");
}

#[test]
fn a_refused_stroke_is_told_in_numbers_that_differ() {
    let ended = lone("aim: 0 deg, tip_side: 0.50001").run(&["shot", "lone.yaml"]).code(2);
    assert!(ended.err.contains("stands 0.50001 of"), "{ended:#?}");
    assert!(ended.err.contains("beyond 0.50000 it slips off"), "{ended:#?}");
    let ended = lone("aim: 0").run(&["shot", "lone.yaml"]).code(2);
    assert!(ended.err.contains("`aim` needs a unit"), "{ended:#?}");
}

#[cfg(unix)]
#[test]
fn a_link_that_leads_nowhere_or_round_is_bad_input() {
    use std::os::unix::fs::symlink;
    let place = Place::new();
    symlink("nowhere.yaml", place.path("dangling.yaml")).unwrap();
    symlink("loop.yaml", place.path("loop.yaml")).unwrap();
    for file in ["dangling.yaml", "loop.yaml", "loop.yaml/below.yaml"] {
        let ended = place.run(&["shot", file]).code(2);
        assert!(ended.err.contains("leads to no file"), "{ended:#?}");
        assert!(!ended.err.contains("did you mean"), "{ended:#?}");
    }
}

#[test]
fn a_miss_is_told_with_its_reason_and_a_remedy_that_can_be_typed() {
    let place = Place::new();
    let shipped = std::path::Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../scenarios/shots/thrown-short.yaml");
    let text = std::fs::read_to_string(shipped).unwrap();
    place.write("short.yaml", &text);
    let missed = place.run(&["shot", "short.yaml"]).code(0).out;
    let first = missed.lines().next().unwrap_or_default();
    for said in ["Short by 4 1/2 in", "throws it", "reverse side", "thinner", "`overcut`", "`gear`"]
    {
        assert!(first.contains(said), "{said}: {first}");
    }
    place.run(&["shot", "short.yaml", "--into", "out"]).code(0);
    let picture = place.read("out/short.svg");
    assert!(
        picture.contains(">Hit it 7/32 in thinner, or as full as it was with")
            && picture.contains("Short by 4 1/2 in")
    );
    for stroke in ["overcut:", "gear:"] {
        place.write("short.yaml", &text.replace("ghost:", stroke));
        let made = place.run(&["shot", "short.yaml"]).code(0).out;
        assert!(made.starts_with("The object ball drops clean"), "{stroke} {made}");
    }
}
