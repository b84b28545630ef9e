//! Room for the cue: how far it points down, what forces that, and what is refused where.

use super::{good, read};
use railproof::fault::Style;
use railproof::layout::Layout;
use railproof::playing::PlayedShot;
use railproof::telling::Detail;
use serde_json::Value;

/// A cue ball at a place, the cue pointed at an angle, and what else stands on the table.
fn text(at: &str, aim: &str, stroke: &str, rest: &str) -> String {
    format!(
        "equipment: nine-foot\nballs:\n  cue: {{position: {at}}}\n{rest}stroke:\n  speed: 3 m/s\n  \
         aim: {aim}\n{stroke}"
    )
}

fn degrees(layout: &Layout) -> f64 {
    layout.stroke.expect("it has one").stroke.elevation_rad.to_degrees()
}

fn json(layout: &Layout) -> Value {
    let played = PlayedShot::new(layout).expect("it plays");
    serde_json::to_value(played.answer()).expect("it is JSON")
}

/// A refusal's line, column and words.
fn refused(text: &str) -> (usize, usize, String) {
    let fault = read(text).expect_err("it is refused");
    let (line, column) = fault.place.as_ref().expect("it has a place").line_column();
    (line, column, fault.render(Style::PLAIN))
}

/// Each rail with the cue ball 10 cm off its nose and the cue straight over it.
const RAILS: [(&str, &str, &str); 4] = [
    ("head", "[-1.17 m, 0.1 m]", "0 deg"),
    ("foot", "[1.17 m, -0.1 m]", "180 deg"),
    ("left", "[0.4 m, 0.535 m]", "-90 deg"),
    ("right", "[-0.4 m, -0.535 m]", "90 deg"),
];

#[test]
fn over_every_rail_the_cue_is_raised_alike_and_says_so() {
    // The nose stands 36.29 mm over the cloth, 10 cm from the ball's centre; the rail's upper edge 42.86 mm
    // and 2 in further (common trade sizes, from memory). The cue's underside has to clear both.
    let wanted = [(36.290_25e-3, 0.1), (42.862_5e-3, 0.1508_f64)].map(|(height, run)| {
        let rise: f64 = height - 28.575e-3;
        let thick = 0.5 * (0.013 + 0.017 * (run - 0.0286) / (58.0 * 0.0254));
        (rise.atan2(run) + (thick / run.hypot(rise)).asin()).to_degrees()
    });
    let wanted = wanted[0].max(wanted[1]);
    for (rail, at, aim) in RAILS {
        for elevation in ["", "  elevation: least\n"] {
            let layout = good(&text(at, aim, elevation, ""));
            assert!((degrees(&layout) - wanted).abs() < 0.02, "{rail}: {}", degrees(&layout));
            let told = PlayedShot::new(&layout).expect("it plays").sentences(Detail::Full);
            let said = format!("the least that clears the {rail} rail.");
            assert!(told.contains("The cue points down by 8.") && told.contains(&said), "{told}");
            let answer = &json(&layout)["stroke"];
            assert_eq!(answer["forced_by"], format!("the {rail} rail"));
            assert_eq!(answer["elevation_rad"], answer["least_elevation_rad"]);
            assert_eq!(answer["jumps"], false);
        }
    }
}

#[test]
fn an_elevation_below_the_least_is_refused_with_the_least() {
    for (rail, at, aim) in RAILS {
        let level = text(at, aim, "  elevation: 0 deg\n", "");
        let (line, column, shown) = refused(&level);
        assert_eq!((line, column), (7, 3), "{shown}");
        let said = format!("pointing down by 0° it would go through the {rail} rail");
        assert!(shown.contains(&said), "{shown}");
        // What is said works, and a twentieth of a degree less does not.
        let (_, after) = shown.split_once("the least elevation that works is ").expect("it says");
        let (least, _) = after.split_once(" deg").expect("it says");
        let least: f64 = least.parse().expect("a number");
        let given = |degrees: f64| text(at, aim, &format!("  elevation: {degrees} deg\n"), "");
        assert!((degrees(&good(&given(least))) - least).abs() < 1e-9);
        refused(&given(least - 0.05));
        let more = good(&given(20.0));
        assert!((degrees(&more) - 20.0).abs() < 1e-9);
        let told = PlayedShot::new(&more).expect("it plays").sentences(Detail::Full);
        assert!(told.contains("The cue points down by 20°, as given; the least"), "{told}");
    }
}

#[test]
fn in_a_corner_the_nearer_rail_or_the_jaw_decides() {
    let off = |x: f64, y: f64, aim: f64| {
        let at = format!("[{x} m, {y} m]");
        let layout = good(&text(&at, &format!("{aim} deg"), "", ""));
        (degrees(&layout), json(&layout)["stroke"]["forced_by"].as_str().map(str::to_owned))
    };
    // Out of the head left corner along the long rail, the cue lies over the head rail.
    let (least, over) = off(-1.1, 0.59, 0.0);
    assert!(least > 4.0, "{least}");
    assert!(over.is_some_and(|it| it.contains("head")), "over the head rail or its jaw");
    // Out of the jaws along the diagonal.
    let (least, over) = off(-1.2, 0.565, -45.0);
    assert!((3.0..30.0).contains(&least), "{least}");
    assert!(over.is_some(), "something stands behind");
}

#[test]
fn a_ball_or_an_obstacle_behind_asks_for_more() {
    let behind = "  stop: {position: [-80 mm, 0 m]}\n";
    let layout = good(&text("[0 m, 0 m]", "0 deg", "", behind));
    // 80 mm behind, the axis has to run a ball's and the cue's radius above the ball's centre.
    let wanted = ((0.028_575_f64 + 0.0068) / 0.08).asin().to_degrees();
    assert!((degrees(&layout) - wanted).abs() < 0.2, "{}", degrees(&layout));
    assert_eq!(json(&layout)["stroke"]["forced_by"], "the ball stop");
    let (line, column, shown) =
        refused(&text("[0 m, 0 m]", "0 deg", "  elevation: 10 deg\n", behind));
    assert_eq!((line, column), (8, 3), "{shown}");
    assert!(shown.contains("it would go through the ball stop"), "{shown}");

    let boxed = |height: &str| {
        let obstacle = format!(
            "obstacles:\n  box: {{middle: [-30 cm, 0 cm], length: 20 cm, width: 20 cm{height}}}\n"
        );
        good(&(text("[0 m, 0 m]", "0 deg", "", "") + &obstacle))
    };
    let usual = boxed("");
    assert_eq!(json(&usual)["stroke"]["forced_by"], "the obstacle box");
    assert!((degrees(&usual) - degrees(&boxed(", height: 6 cm"))).abs() < 1e-12);
    assert!(degrees(&boxed(", height: 12 cm")) > degrees(&usual) + 5.0);
    assert_ne!(json(&boxed(", height: 1 cm"))["stroke"]["forced_by"], "the obstacle box");
}

#[test]
fn no_room_at_all_is_refused_at_the_aim() {
    let text = text("[0 m, 0 m]", "0 deg", "", "")
        + "obstacles:\n  wall: {middle: [-10 cm, 0 cm], length: 10 cm, width: 20 cm, height: 1 m}\n";
    let (line, column, shown) = refused(&text);
    assert_eq!((line, column), (6, 3), "{shown}");
    assert!(
        shown.contains("even pointing down by 80° it would go through the obstacle wall"),
        "{shown}"
    );
}

#[test]
fn a_word_that_is_no_elevation_is_refused() {
    let (line, column, shown) = refused(&text("[0 m, 0 m]", "0 deg", "  elevation: leest\n", ""));
    assert_eq!((line, column), (7, 14), "{shown}");
    assert!(shown.contains("or `least`"), "{shown}");
}

#[test]
fn a_ball_is_sent_with_the_elevation_that_its_aim_asks_for() {
    let text = "equipment: nine-foot\ntarget: {pocket: foot-right, ball: object}\nballs:\n  cue: \
                {position: [-1.1 m, 0.2 m]}\n  object: {position: [0.2 m, -0.1 m]}\nstroke:\n  speed: 3 \
                m/s\n  tip_side: 0.3\n  send: {ball: object, heading: {to: {pocket: foot-right}}}\n";
    let layout = good(text);
    let stroke = layout.stroke.expect("it has one");
    assert!(
        stroke.stroke.elevation_rad > 0.05 && stroke.stroke.elevation_rad == stroke.room.least_rad
    );
    let played = PlayedShot::new(&layout).expect("it plays");
    let hit = played.shot.events.iter().find(|it| it.kind.name() == "ball").expect("they meet");
    let railproof_engine::shot::EventKind::Ball(touch) = hit.kind else { unreachable!() };
    let pocket = railproof_engine::vector::Vec2::new(1.27, -0.635);
    let way = pocket - touch.other_before.position;
    let off = way.unit_or_zero().cross(touch.other_after.velocity.unit_or_zero());
    // The mouth's middle is not quite the corner of the noses.
    assert!(off.abs() < 0.05, "{off}");
    let (_, _, shown) = refused(&format!("{text}  elevation: 1 deg\n"));
    assert!(shown.contains("it would go through the head rail"), "{shown}");
}

#[test]
fn a_steep_hard_stroke_is_flagged_and_cautioned() {
    let hard = |speed: &str, elevation: &str| {
        let text = text("[0 m, 0 m]", "0 deg", &format!("  elevation: {elevation}\n"), "");
        good(&text.replace("3 m/s", speed))
    };
    let masse = hard("4 m/s", "60 deg");
    let answer = json(&masse);
    assert_eq!(answer["stroke"]["jumps"], true);
    assert!(answer["stroke"]["hop_m"].as_f64().is_some_and(|hop| hop > 0.1));
    assert_eq!(answer["events"][0]["kind"], "start");
    assert_eq!(answer["events"][0]["jumps"], true);
    let told = PlayedShot::new(&masse).expect("it plays").sentences(Detail::Full);
    assert!(told.contains("makes the ball jump"), "{told}");
    let hop_mm = 1e3 * answer["stroke"]["hop_m"].as_f64().unwrap();
    let how_high = format!("A ball struck like this jumps by about {hop_mm:.0} mm.");
    assert!(told.contains(&how_high), "{told}");
    assert!(told.contains("keep to the house's rules"), "{told}");
    for mild in [hard("4 m/s", "4 deg"), hard("0.5 m/s", "60 deg")] {
        assert_eq!(json(&mild)["stroke"]["jumps"], false);
        assert!(
            !PlayedShot::new(&mild)
                .expect("it plays")
                .sentences(Detail::Full)
                .contains("makes the ball jump")
        );
    }
}
