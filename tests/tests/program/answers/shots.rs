//! The answer of `railproof shot`, in words and as JSON.

use super::support::{RED, keys, layout, number, shot_json};
use railproof::playing::PlayedShot;
use railproof::telling::Detail;
use serde_json::Value;

#[test]
fn a_shot_has_exactly_these_keys() {
    let answer = shot_json(&layout(RED, ""));
    assert_eq!(
        keys(&answer),
        ["balls", "cautions", "ends", "events", "model", "pieces", "sentence"]
    );
    assert_eq!(keys(&answer["balls"][0]), ["mass_kg", "name", "radius_m", "start"]);
    assert_eq!(keys(&answer["ends"][0]), ["ball", "ending", "state", "time_s"]);
    let piece = &answer["pieces"][0];
    assert_eq!(keys(piece), ["ball", "curve_m", "duration_s", "kind", "time_s"]);
    let events = answer["events"].as_array().expect("a list");
    for event in events {
        let mut expected = vec!["after", "ball", "before", "kind", "phase", "time_s"];
        if event["kind"] == "cushion" {
            expected.extend(["hop", "outside_checked_speed", "rail", "restitution"]);
        }
        expected.sort_unstable();
        assert_eq!(keys(event), expected);
        for side in ["before", "after"] {
            assert_eq!(keys(&event[side]), ["position_m", "spin_rad_s", "velocity_m_s"]);
            assert_eq!(event[side]["spin_rad_s"].as_array().map(Vec::len), Some(3));
        }
        let kind = event["kind"].as_str().expect("a word");
        assert_eq!(event["ball"], "red");
        assert_eq!(event["before"] == event["after"], kind != "cushion", "{event}");
    }
    assert_eq!(events.first().map(|event| &event["kind"]), Some(&Value::from("start")));
    assert_eq!(events.last().map(|event| &event["kind"]), Some(&Value::from("stop")));
    assert!(events.iter().any(|event| event["kind"] == "cushion"));
}

/// The numbers of an answer are enough to compute it again, and are those of the engine to the bit.
#[test]
fn a_shot_carries_its_model_and_its_numbers_come_back_whole() {
    let layout = layout(RED, "until: 1.5 s\n");
    let answer = shot_json(&layout);
    let played = PlayedShot::new(&layout).expect("it plays");
    for (index, event) in played.shot.events.iter().enumerate() {
        let at = |path: &str| number(&answer, &format!("/events/{index}/{path}"));
        assert_eq!(at("time_s").to_bits(), event.time_s.to_bits());
        assert_eq!(at("after/position_m/1").to_bits(), event.after.position.y.to_bits());
        assert_eq!(at("after/spin_rad_s/2").to_bits(), event.after.spin.z.to_bits());
    }
    let model = |key: &str| number(&answer, &format!("/model/{key}"));
    assert_eq!(model("until_s"), 1.5);
    let equipment = &layout.equipment;
    assert_eq!(model("sliding_friction"), equipment.cloth.sliding_friction);
    assert_eq!(model("restitution"), equipment.cushion.restitution);
    assert_eq!(model("ball_mass_kg"), equipment.ball.mass_kg);
    assert_eq!(model("gravity_m_s2"), equipment.gravity_m_s2);
    // WPA equipment specifications: 100 by 50 in.
    assert_eq!((model("table_length_m"), model("table_width_m")), (2.54, 1.27));
    let (radius, sin) = (0.5 * model("ball_diameter_m"), model("sin_theta"));
    assert!((model("nose_height_m") - radius * (1.0 + sin)).abs() < 1e-15);
    assert!((model("groove_m") - radius * (1.0 - sin * sin).sqrt()).abs() < 1e-15);
    assert_eq!(answer["model"]["rail_model"], "nose-and-cloth");
    assert_eq!(answer["model"]["railproof_version"], env!("CARGO_PKG_VERSION"));
}

#[test]
fn a_shot_is_told_in_a_sentence_and_moment_by_moment() {
    let layout = layout(RED, "");
    let played = PlayedShot::new(&layout).expect("it plays");
    let text = played.sentences(Detail::Full);
    let first = text.lines().next().unwrap_or_default();
    assert!(first.starts_with("Red starts at 2.04 m/s, comes off the left rail, "), "{text}");
    assert!(
        first.contains(", and stops ") && first.contains(" from the ") && first.ends_with(" s."),
        "{text}"
    );
    let text = played.moments();
    assert!(text.contains("red meets the left rail") && text.contains("red stops at"), "{text}");
    let fast = RED.replace("2.0 m/s", "9 m/s");
    let hard = self::layout(&fast, "until: 1 s\n");
    let played = PlayedShot::new(&hard).expect("it plays");
    let text = played.sentences(Detail::Full);
    assert!(text.contains("is still moving at ") && text.contains("leave the table"), "{text}");
    assert!(played.moments().contains("when the time is over, still moving at "), "{text}");
}

#[test]
fn the_compliant_model_is_refused() {
    let mut soft = layout(RED, "");
    soft.equipment.cushion.rail_model = railproof_engine::equipment::RailModel::Compliant;
    let fault = PlayedShot::new(&soft).map(|_| ()).expect_err("it lasts in time");
    assert!(fault.hint.as_deref().unwrap_or_default().contains("railproof bank"), "{fault}");
}

/// The red runs at the blue along the line of their centres.
#[test]
fn balls_that_meet_are_both_in_the_answer() {
    let blue = "  blue:\n    position: [\"0.18 m\", \"0.20 m\"]\n";
    let layout = layout(&format!("{RED}{blue}"), "");
    let answer = shot_json(&layout);
    let events = answer["events"].as_array().expect("a list");
    let meets: Vec<_> = events.iter().filter(|event| event["kind"] == "ball").collect();
    let first = meets.first().expect("they meet");
    assert_eq!((&first["ball"], &first["other"]), (&Value::from("red"), &Value::from("blue")));
    let speed = |state: &str| {
        let part = |axis| number(first, &format!("/{state}/velocity_m_s/{axis}"));
        part(0).hypot(part(1))
    };
    assert_eq!(speed("other_before"), 0.0);
    // Square on: they part with (1 + e)/2 and (1 − e)/2 of the speed (momentum; derived).
    let share = 0.5 * (1.0 + layout.equipment.ball_contact.restitution);
    assert!((speed("other_after") - share * speed("before")).abs() < 1e-9, "{first}");
    assert!((number(first, "/approach_m_s") - speed("before")).abs() < 1e-9);
    let played = PlayedShot::new(&layout).expect("it plays");
    let text = played.moments();
    assert!(text.contains("red meets blue at") && text.contains("blue lies at"), "{text}");
    let text = played.sentences(Detail::Full);
    assert!(
        text.contains(" m/s, hits blue at ") && text.contains("Blue is hit by red and leaves at"),
        "{text}"
    );
}
