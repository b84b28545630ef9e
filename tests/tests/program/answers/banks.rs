//! The answer of `railproof bank`, in words and as JSON.

use super::support::{A_FOOT_OFF, bank, flags, keys, layout, number, shot_json, told};

/// Common practice, no source: a foot off the rail and slowly, contact 2 goes long.
#[test]
fn a_foot_off_the_rail_is_answered_as_a_coach_would() {
    let text = told(&flags(&A_FOOT_OFF)).expect("it plays");
    let first = text.lines().next().unwrap_or_default();
    let answer = bank(&A_FOOT_OFF);
    // The advice comes first, and holds.
    let start = number(&answer, "/verdict/exact_start_diamonds");
    let advice = format!("Aim from {start:.2} instead of 4.4, or hit it at ");
    assert!(first.starts_with(&advice), "{first}");
    let advised = bank(&[&A_FOOT_OFF[..], &["--start", &format!("{start:.2}")]].concat());
    assert_eq!(advised["verdict"]["verdict"], "holds");
    let speed = first.split("hit it at ").nth(1).and_then(|rest| rest.split(" or harder").next());
    let harder = bank(&[&A_FOOT_OFF[..4], &["--speed", speed.unwrap_or_default()]].concat());
    assert_eq!(harder["verdict"]["verdict"], "holds", "{first}");
    // Whoever asks in inches is answered in inches.
    let miss = (number(&answer, "/verdict/miss_m") / 0.0254 * 8.0).round() / 8.0;
    assert!(first.contains(&format!("As asked, it goes long by {} ", miss.trunc())), "{first}");
    assert!(!text.contains(" mm"), "{text}");
    let why = text.lines().nth(1).unwrap_or_default();
    assert!(why.starts_with("Why: the ball has picked up "), "{why}");
    assert!(why.contains("of its roll by the rail (+"), "{why}");
    let roll = number(&answer, "/at_rail/roll_fraction");
    assert!(why.contains(&format!("{:.0} %", 100.0 * roll)), "{why}");
    // Both readings.
    let sight = |path: &str| number(&answer, &format!("/inputs/{path}_sight_diamonds"));
    let through = format!(
        "contact 2 from 4.4 across the grooves; through the diamonds that is {:.2} from {:.2} (",
        sight("contact"),
        sight("start")
    );
    assert!(text.contains(&through), "{text}");
    assert!(text.contains("\nFrom 4.4 it holds "), "{text}");
    // The speed that is advised is outside the checked range: a flag in the data, a word here.
    assert!(!text.contains("checked"), "{text}");
    assert!(
        text.contains(" or harder (less sure). If the ball stays where it lies, aim at contact "),
        "{text}"
    );
    assert!(text.contains(" (less sure), with most room at "), "{text}");
    let set = answer["verdict"]["flags"].as_array().expect("flags");
    assert!(set.contains(&"advised-speed-flagged".into()), "{set:?}");
    // It holds at hard speeds too, but none of them is asked for or advised: no caution is needed.
    assert!(number(&answer, "/verdict/speeds/holds/0/to_m_s") > 5.0, "{answer}");
    assert!(number(&answer, "/verdict/speeds/most_room_at_m_s") < 5.0, "{answer}");
    assert!(!text.contains("can leave the table"), "{text}");
    assert_eq!(answer["cautions"].as_array().map(Vec::len), Some(0));
    // Where the advice is hard the caution stands beside, and where the question is.
    for hard in [["3", "10 in", "1.5 m/s"], ["2", "0", "5 m/s"]] {
        let [contact, off_rail, speed] = hard;
        let asked = flags(&["--contact", contact, "--off-rail", off_rail, "--speed", speed]);
        let text = told(&asked).expect("it plays");
        assert!(text.contains("can leave the table"), "{text}");
    }
}

/// The number is the one that `fit` asks for, worked out from the place of the data.
#[test]
fn a_miss_is_told_by_the_number_where_it_meets_the_rail() {
    let answer = bank(&A_FOOT_OFF);
    assert_eq!(answer["verdict"]["ending_at"], "foot");
    let number = (0.635 + number(&answer, "/verdict/ending_y_m")) / 0.3175;
    let text = told(&flags(&A_FOOT_OFF)).expect("it plays");
    let met = format!(" at the mouth and meets the foot rail at {number:.2}.");
    let first = text.lines().next().unwrap_or_default();
    assert!(first.ends_with(&met), "{first} has no{met}");
    assert!(!text.contains("diamond)"), "{text}");
}

#[test]
fn frozen_is_a_distance() {
    assert_eq!(
        bank(&["--contact", "2", "--off-rail", "frozen", "--speed", "3 m/s"]),
        bank(&["--contact", "2", "--off-rail", "0", "--speed", "3 m/s"])
    );
}

#[test]
fn an_aim_error_says_its_side_and_a_sum_stands_only_under_a_miss() {
    let first = |given: &[&str]| told(&flags(given)).expect("it plays");
    let off = |error: &str| {
        first(&[&A_FOOT_OFF[..4], &["--speed", "4 m/s", "--aim-error", error]].concat())
    };
    assert!(off("-15 mrad").contains(", aimed 15 mrad towards short, "), "{}", off("-15 mrad"));
    assert!(off("15 mrad").contains(", aimed 15 mrad towards long, "), "{}", off("15 mrad"));
    let elsewhere =
        first(&["--contact", "2", "--pocket", "side", "--rail", "end", "--speed", "3 m/s"]);
    assert!(
        elsewhere.contains(" runs into the mouth of the ") && !elsewhere.contains("In mm"),
        "{elsewhere}"
    );
    let stepped = first(&["--contact", "3.5", "--speed", "6 m/s", "--rail-model", "compliant"]);
    assert!(stepped.contains("Its causes are not worked out: the compliant"), "{stepped}");
}

#[test]
fn a_bank_answers_with_its_parts_and_they_agree() {
    let answer = bank(&A_FOOT_OFF);
    assert_eq!(
        keys(&answer),
        [
            "arrival",
            "at_rail",
            "cautions",
            "inputs",
            "known_table",
            "model",
            "player",
            "rebound",
            "sentence",
            "verdict",
            "why"
        ]
    );
    assert!(answer["known_table"].is_null(), "nothing was measured");
    assert_eq!(answer["verdict"]["verdict"], "long");
    assert_eq!(number(&answer, "/inputs/off_rail_m"), 0.3048);
    let miss = 1e3 * number(&answer, "/verdict/miss_m");
    assert_eq!(1e3 * number(&answer, "/verdict/miss_m"), miss);
    // A diamond of a nine-foot table is 12.5 in.
    assert!((number(&answer, "/verdict/miss_diamonds") - miss / 317.5).abs() < 1e-12);
    let velocity =
        (number(&answer, "/at_rail/velocity_m_s/0"), number(&answer, "/at_rail/velocity_m_s/1"));
    let speed = (velocity.0 * velocity.0 + velocity.1 * velocity.1).sqrt();
    assert!((number(&answer, "/at_rail/speed_m_s") - speed).abs() < 1e-12);
    let angle = (velocity.0.abs() / velocity.1.abs()).atan();
    assert!((number(&answer, "/at_rail/incidence_rad") - angle).abs() < 1e-9);

    // The exact start goes through the middle, and the least holding speed holds.
    let start = number(&answer, "/verdict/exact_start_diamonds").to_string();
    let exact =
        bank(&["--contact", "2", "--off-rail", "12 in", "--speed", "2 m/s", "--start", &start]);
    assert!(number(&exact, "/verdict/miss_m").abs() < 1e-9);
    let least = number(&answer, "/verdict/speeds/holds/0/from_m_s");
    for (factor, holds) in [(1.0001, true), (0.9999, false)] {
        let speed = format!("{} m/s", factor * least);
        let there = bank(&["--contact", "2", "--off-rail", "12 in", "--speed", &speed]);
        assert_eq!(there["verdict"]["verdict"] == "holds", holds, "{speed}");
    }
    // As long as the aim stays inside its margin the bank holds.
    let frozen = bank(&["--contact", "2", "--speed", "4 m/s"]);
    let margin = 1e3 * number(&frozen, "/verdict/aim_margin_long_rad");
    let at = |mrad: f64| {
        let aim = format!("{mrad} mrad");
        bank(&["--contact", "2", "--speed", "4 m/s", "--aim-error", &aim])["verdict"]["verdict"]
            .clone()
    };
    assert!(
        [margin, -margin]
            .iter()
            .any(|edge| at(0.999 * edge) == "holds" && at(1.001 * edge) != "holds")
    );
}

/// The launch of a bank's answer, played as a shot, gives the answer's rebound.
#[test]
fn a_banks_launch_plays_alike_as_a_shot() {
    let answer = bank(&A_FOOT_OFF);
    let at = |path: &str| number(&answer, &format!("/inputs/launch/{path}"));
    let balls = format!(
        "  red:\n    position: [{} m, {} m]\n    velocity: [{} m/s, {} m/s]\n",
        at("position_m/0"),
        at("position_m/1"),
        at("velocity_m_s/0"),
        at("velocity_m_s/1")
    );
    let shot = shot_json(&layout(&balls, ""));
    let events = shot["events"].as_array().expect("a list");
    let cushion = events.iter().find(|event| event["kind"] == "cushion").expect("it banks");
    for part in ["velocity_m_s/0", "velocity_m_s/1", "spin_rad_s/0", "spin_rad_s/1", "spin_rad_s/2"]
    {
        let (ours, theirs) = (
            number(cushion, &format!("/after/{part}")),
            number(&answer, &format!("/rebound/{part}")),
        );
        assert!((ours - theirs).abs() < 1e-12 * (1.0 + theirs.abs()), "{part}: {ours} {theirs}");
    }
}

#[test]
fn every_ending_has_its_words() {
    let cases: &[(&[&str], &str)] = &[
        (
            &["--contact", "2", "--off-rail", "40 in", "--speed", "0.2 m/s"],
            "stops before it reaches the rail",
        ),
        (&["--contact", "3", "--speed", "0.4 m/s"], "stops on its way"),
        (&["--contact", "0.1", "--speed", "3 m/s"], "pocket on its way"),
        (
            &["--contact", "2", "--start", "9", "--off-rail", "1.2 m", "--speed", "3 m/s"],
            "can't be played: it would start off the cloth",
        ),
        (&["--contact", "2", "--mirror", "--speed", "3 m/s"], "mirror geometry"),
        (
            &["--contact", "2", "--speed", "3 m/s", "--running-side", "-0.5"],
            "with reverse side (50 %)",
        ),
        (&["--contact", "2", "--speed", "6 m/s"], "leave the table"),
        (&["--contact", "2", "--speed", "6 m/s", "--equipment", "eight-foot"], "Eight-foot table"),
        (&["--contact", "1", "--speed", "4 m/s", "--rail", "end"], "foot rail"),
        (&["--contact", "2", "--speed", "4 m/s", "--rail-model", "planar"], "planar rail model"),
    ];
    for (given, words) in cases {
        let text = told(&flags(given)).unwrap_or_else(|fault| panic!("{given:?}: {fault}"));
        assert!(text.contains(words), "{given:?}: {text}");
    }
}

#[test]
fn a_hair_off_the_rail_is_frozen() {
    let frozen = bank(&["--contact", "2", "--speed", "3 m/s"]);
    for hair in ["1e-300 m", "1e-17 m", "1e-16 m"] {
        let close = bank(&["--contact", "2", "--speed", "3 m/s", "--off-rail", hair]);
        assert_eq!(close["verdict"]["verdict"], frozen["verdict"]["verdict"], "{hair}");
    }
}

/// A number through the diamonds that no diamond has is said to be none.
#[test]
fn a_reading_past_the_end_of_the_rail_is_said_to_be() {
    let said = |start: &str| {
        told(&flags(&["--contact", "4", "--start", start, "--speed", "3 m/s"])).expect("it plays")
    };
    let far = said("9");
    let past = "that is 3.5 from 9.5 (over the head rail, 0.6 diamonds from the corner)";
    assert!(far.contains(past), "{far}");
    // Just past the corner, where no sight is near.
    let near = said("7.9");
    assert!(near.contains("(past the last diamond)"), "{near}");
    assert!(!said("7").contains("past the rail's end"), "{}", said("7"));
}
