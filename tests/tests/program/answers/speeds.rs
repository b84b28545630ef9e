//! Speeds of a bank, by every unit and word, and those that hold.

use super::support::{A_FOOT_OFF, bank, flags, layout, number, shot_json, told};
use railproof::playing::BankFindings;
use railproof::telling::{Detail, speeds_side_by_side};
use serde_json::Value;

#[test]
fn speeds_mean_the_same_in_every_unit() {
    let metres = bank(&["--contact", "2", "--speed", "3.12928 m/s"]);
    let miles = bank(&["--contact", "2", "--speed", "7 mph"]);
    let (a, b) =
        (1e3 * number(&metres, "/verdict/miss_m"), 1e3 * number(&miles, "/verdict/miss_m"));
    assert!((a - b).abs() < 1e-6, "{a} {b}");
    let word = bank(&["--contact", "2", "--speed", "medium"]);
    assert_eq!(number(&word, "/inputs/speed_m_s"), number(&word, "/model/speed_medium_m_s"));
}

/// A bank that was asked for has no more room than the speed with the most, if that is no harder.
#[test]
fn the_speed_with_the_most_room_has_the_most() {
    for (asked, hardest) in [("5.5 m/s", 8.0), ("6 m/s", 8.0), ("7 m/s", 8.0), ("3 m/s", 8.0)] {
        for off_rail in ["0 in", "10 in", "30 in"] {
            let asked = ["--contact", "2.5", "--off-rail", off_rail, "--speed", asked];
            let found = bank(&asked);
            if found["verdict"]["verdict"] != "holds" {
                continue;
            }
            let room = number(&found, "/verdict/clearance_m");
            let (most, at) = (
                number(&found, "/verdict/speeds/most_room_m"),
                number(&found, "/verdict/speeds/most_room_at_m_s"),
            );
            assert!(at <= hardest && room <= most + 1e-3, "{asked:?}: {room}, and {most} at {at}");
        }
    }
}

/// A lag of so many lengths rolls so far in a shot of its own, the cushions' share paid.
#[test]
fn a_lag_rolls_as_many_lengths_as_it_says() {
    for lengths in [0.75, 1.5, 2.0, 3.25] {
        let lag = bank(&["--contact", "2", "--speed", &format!("{lengths} lengths")]);
        let m_s = number(&lag, "/inputs/speed_m_s");
        // Down the table's middle, from groove to groove.
        let end = 1.27 - groove_m(&lag);
        let balls = format!(
            "  red:\n    position: [{} m, 0.2 m]\n    launch: {{speed: {m_s} m/s, roll: 1, heading: {{angle: 0 deg}}}}\n",
            -end
        );
        let shot = shot_json(&layout(&balls, ""));
        let rails = shot["events"].as_array().expect("a list");
        let rails = rails.iter().filter(|event| event["kind"] == "cushion").count();
        let rests = number(&shot, "/ends/0/state/position_m/0");
        let last = if rails % 2 == 0 { rests + end } else { end - rests };
        let rolled = rails as f64 + last / (2.0 * end);
        assert!((rolled - lengths).abs() < 1e-4, "{lengths}: {rolled}");
    }
}

/// Distance of the groove from the nose, √(h(2R − h)).
fn groove_m(answer: &Value) -> f64 {
    let at = |name: &str| number(answer, &format!("/model/{name}"));
    let (height, ball) = (at("nose_height_m"), at("ball_diameter_m"));
    (height * (ball - height)).sqrt()
}

/// Without a speed all three words are answered, each as it is alone.
#[test]
fn a_bank_without_a_speed_is_answered_at_every_word() {
    let questions = flags(&A_FOOT_OFF[..4]).questions().expect("they are read");
    let played: Vec<_> = questions
        .into_iter()
        .map(|question| {
            let findings = BankFindings::of(&question).expect("it plays");
            (question, findings)
        })
        .collect();
    let text = speeds_side_by_side(&played, Detail::Full);
    for (word, speed) in [("soft", "1.5"), ("medium", "3"), ("firm", "4.5")] {
        let alone =
            told(&flags(&[&A_FOOT_OFF[..4], &["--speed", word]].concat())).expect("it plays");
        let alone = alone.lines().next().unwrap_or_default();
        let capital = word[..1].to_uppercase() + &word[1..];
        assert!(text.contains(&format!("{capital} ({speed} m/s): {alone}\n")), "{text}");
    }
}

/// The speeds that are said to hold include those that do and no others, the fast end too.
#[test]
fn the_speeds_that_hold_do_not_contradict_the_bank() {
    let frozen = ["--contact", "3"];
    let foot = ["--contact", "2", "--off-rail", "30.48 cm"];
    for (given, fast) in [(&foot[..], 13.4), (&frozen[..], 13.4), (&frozen[..], 3.0)] {
        let speed = format!("{fast} m/s");
        let answer = bank(&[given, &["--speed", &speed]].concat());
        let holds = answer["verdict"]["verdict"] == "holds";
        let Some(stretches) = answer["verdict"]["speeds"]["holds"].as_array() else {
            assert!(!holds);
            continue;
        };
        let inside = stretches.iter().any(|stretch| {
            fast >= number(stretch, "/from_m_s") && fast <= number(stretch, "/to_m_s")
        });
        assert_eq!(inside, holds, "{answer}");
        let text = told(&flags(&[given, &["--speed", &speed]].concat())).expect("it plays");
        for stretch in stretches {
            let above = stretch["breaks_above"] == true;
            assert_eq!(text.contains("or harder (looked at up to 14 m/s)"), !above, "{text}");
        }
        // The speed that is named is the one with the most room, not an edge.
        let best = number(&answer, "/verdict/speeds/most_room_at_m_s");
        let there = bank(&[given, &["--speed", &format!("{best} m/s")]].concat());
        let room = 1e3 * number(&there, "/verdict/clearance_m");
        assert!((room - 1e3 * number(&answer, "/verdict/speeds/most_room_m")).abs() < 1e-9);
        let best = format!("{best:.1}");
        let best = best.trim_end_matches('0').trim_end_matches('.');
        // Others may have as much.
        let one = text.contains(&format!("with most room at {best} m/s"));
        assert!(one || text.contains("with most room from "), "{text}");
    }
}

/// Numbers through the diamonds are the line that the same numbers across the grooves are.
#[test]
fn a_line_through_the_diamonds_is_the_same_line_across_the_grooves() {
    let groove = bank(&["--contact", "2", "--start", "4.4", "--speed", "3 m/s"]);
    let read = |name: &str| number(&groove, &format!("/inputs/{name}_sight_diamonds")).to_string();
    let (contact, start) = (read("contact"), read("start"));
    let sight = ["--contact", &contact, "--start", &start, "--reading", "sight"];
    let given = [&sight[..], &["--off-rail", "12 in", "--speed", "3 m/s"]].concat();
    let answer = bank(&given);
    assert!((number(&answer, "/inputs/contact_diamonds") - 2.0).abs() < 1e-9, "{answer}");
    assert!((number(&answer, "/inputs/start_diamonds") - 4.4).abs() < 1e-9, "{answer}");
    let text = told(&flags(&given)).expect("it plays");
    assert!(text.starts_with("Aim at 1.78 from 4.42 through the diamonds instead of "), "{text}");
    assert!(
        text.contains(
            "contact 1.76 from 4.64 through the diamonds; across the grooves that is 2 from 4.4"
        ),
        "{text}"
    );
    assert!(text.contains(" across the grooves, with most room from "), "{text}");
}
