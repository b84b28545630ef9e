//! A missed shot's remedy, done as it is told, makes the shot.

use super::support::{number, shot_json};
use railproof::layout::{Layout, parse_layout};
use railproof::playing::{GearingSide, HitChange, HitSide, PlayedShot, Remedy};
use railproof::telling::Detail;
use railproof_engine::motion::BallState;
use railproof_engine::stroke::Stroke;
use railproof_engine::units::INCH_M;
use railproof_engine::verdict::PocketVerdict;
use std::path::Path;

fn text_of(balls: &str, stroke: &str) -> String {
    format!(
        "equipment: nine-foot\ntarget: {{pocket: foot-right, ball: object}}\nballs:\n{balls}stroke: {{{stroke}}}\n"
    )
}

fn read(text: &str) -> Layout {
    parse_layout(text, "shot.yaml", Path::new("")).unwrap_or_else(|fault| panic!("{fault}\n{text}"))
}

fn laid(balls: &str, stroke: &str) -> Layout {
    read(&text_of(balls, stroke))
}

/// The layout with its cue ball struck otherwise.
fn struck(layout: &Layout, stroke: Stroke) -> Layout {
    let mut again = layout.clone();
    let mut laid = again.stroke.expect("it is struck");
    let ball = &mut again.balls[laid.ball];
    laid.stroke = stroke;
    laid.struck = stroke.strike(&ball.ball, &again.equipment.cue).expect("it can be struck");
    ball.state = BallState {
        position: ball.state.position,
        velocity: laid.struck.velocity,
        spin: laid.struck.spin,
    };
    again.stroke = Some(laid);
    again
}

fn made(layout: &Layout) -> bool {
    let played = PlayedShot::new(layout).unwrap_or_else(|fault| panic!("{fault}"));
    played.verdict().is_some_and(|verdict| verdict.is_made())
}

/// Made, and clean where the remedy says nothing of a jaw.
fn made_as_told(layout: &Layout, remedy: &Remedy) -> bool {
    let played = PlayedShot::new(layout).unwrap_or_else(|fault| panic!("{fault}"));
    let pocket = played.verdict().map(|verdict| verdict.pocket);
    pocket == Some(PocketVerdict::Clean) || remedy.off_jaw && pocket == Some(PocketVerdict::OffJaw)
}

fn missed(layout: &Layout) -> bool {
    let played = PlayedShot::new(layout).unwrap_or_else(|fault| panic!("{fault}"));
    let pocket = played.verdict().map(|verdict| verdict.pocket);
    !matches!(pocket, Some(PocketVerdict::Clean | PocketVerdict::OffJaw | PocketVerdict::Scratched))
}

/// A stroke's text with its aim written otherwise.
fn aimed(text: &str, aim: &str) -> String {
    let from = text.find("ghost: {").expect("it has a ghost");
    let mut open = 0;
    let end = text[from..].char_indices().find_map(|(at, letter)| {
        open += i32::from(letter == '{') - i32::from(letter == '}');
        (letter == '}' && open == 0).then_some(at)
    });
    let end = from + end.expect("its bracket closes") + 1;
    format!("{}{aim}{}", &text[..from], &text[end..])
}

fn at_speed(text: &str, speed: &str) -> String {
    let from = text.find("speed: ").expect("it has a speed");
    let end = from + text[from..].find([',', '}', '\n']).expect("it ends");
    format!("{}{speed}{}", &text[..from], &text[end..])
}

/// A layout with each change that its advice has written out made in it.
fn written(text: &str, told: &str) -> Vec<String> {
    let (_, changes) = told.split_once(" In a layout: ").expect("it is written out");
    let changes = changes.split_once(".\n").map_or(changes, |(first, _)| first);
    changes
        .split(", or ")
        .map(|change| {
            let keys: Vec<&str> = change.split('`').skip(1).step_by(2).collect();
            match keys.as_slice() {
                // Side that is given contradicts side that is found, and the advice says so.
                ["gear", old] | ["gear", old, "tip_side"] => {
                    let has_side =
                        TIPS.iter().any(|tip| tip.starts_with("tip_side") && text.contains(tip));
                    assert_eq!(has_side, keys.len() == 3, "{told}");
                    let solved = text.replace(&format!("{old}:"), "gear:");
                    TIPS.iter()
                        .filter(|tip| tip.starts_with("tip_side"))
                        .fold(solved, |text, tip| text.replace(&format!(", {tip}"), ""))
                }
                ["overcut", old] => text.replace(&format!("{old}:"), "overcut:"),
                [aim] if aim.starts_with("aim: ") => aimed(text, aim),
                ["overcut", old, speed] => {
                    at_speed(&text.replace(&format!("{old}:"), "overcut:"), speed)
                }
                [speed] if speed.starts_with("speed: ") => at_speed(text, speed),
                other => panic!("{other:?} of {told}"),
            }
        })
        .collect()
}

/// The aim after the cue ball's way past the object ball has been moved as the sentence says, to the
/// decimals that it says.
fn hit_as_told(layout: &Layout, hit: &HitChange, told_m: f64) -> Stroke {
    let struck = layout.stroke.expect("it is struck");
    let object = layout.target.expect("it has a target").ball;
    let apart = layout.balls[object].state.position - layout.balls[struck.ball].state.position;
    let line = apart.y.atan2(apart.x);
    // To the right of the object ball's middle.
    let was = apart.norm() * (line - struck.stroke.aim_rad).sin();
    let is = match hit.to {
        HitSide::Thinner => was + told_m.copysign(was),
        HitSide::Fuller => was - told_m.copysign(was),
        HitSide::Right => was + told_m,
        HitSide::Left => was - told_m,
    };
    Stroke { aim_rad: line - (is / apart.norm()).asin(), ..struck.stroke }
}

fn geared_as_told(layout: &Layout, gearing: &GearingSide, tips: f64) -> Stroke {
    let tip_m = layout.equipment.cue.shape.tip_diameter_m;
    let side = tips * tip_m / (0.5 * layout.equipment.ball.diameter_m);
    Stroke { side_offset: side.copysign(gearing.offset), ..gearing.stroke }
}

/// The number in front of some words; a part of an inch has a line in it.
fn told_before(sentence: &str, words: &str) -> f64 {
    let before = sentence.split(words).next().unwrap_or_default();
    let whole = |text: &str| text.parse::<f64>().ok();
    let part = |text: &str| match text.split_once('/') {
        Some((over, under)) => Some(whole(over)? / whole(under)?),
        None => whole(text),
    };
    let mut said = before.split(' ').rev().map_while(part);
    let last = said.next().unwrap_or_else(|| panic!("{sentence}"));
    last + said.next().filter(|_| last < 1.0).unwrap_or(0.0)
}

/// Plays a miss, then each remedy as told, and as it is written in the layout; whether it has another hit, gear,
/// speed, and hit and speed together.
fn cured(text: &str) -> [usize; 4] {
    let layout = &read(text);
    let played = PlayedShot::new(layout).unwrap_or_else(|fault| panic!("{fault}"));
    let verdict = played.verdict().expect("it has a target");
    let told = played.sentences(Detail::Full);
    assert!(!verdict.is_made(), "it was to miss: {told}");
    let reason = played.reason().unwrap_or_else(|| panic!("{told}"));
    let Some(remedy) = played.remedy() else {
        let none = ". No other hit, side or speed (from 0.5 to 5 m/s) was found that makes it with room to spare.";
        assert!(told.contains(none), "{told}");
        return [0; 4];
    };
    let words = played.remedy_words(&remedy);
    assert!(told.starts_with(&format!("{reason} {words} In a layout: ")), "{told}");
    for changed in written(text, &told) {
        assert!(made_as_told(&read(&changed), &remedy), "{told}\n{text}\n{changed}");
    }
    let json = shot_json(layout);
    assert_eq!(json["verdict"]["reason"], reason.as_str());
    assert_eq!(json["verdict"]["remedy"]["sentence"], words.as_str());
    if let Some(hit) = remedy.hit {
        let unit = if layout.in_inches { "in" } else { "mm" };
        let size = told_before(&words, &format!(" {unit} {}", hit.to.name()));
        let told_m = size * if layout.in_inches { INCH_M } else { 1e-3 };
        assert_eq!(number(&json, "/verdict/remedy/hit/by_m").to_bits(), hit.by_m.to_bits());
        assert!((told_m - hit.by_m).abs() < 1e-9, "{words}: {}", hit.by_m);
        assert!(made_as_told(&struck(layout, hit.stroke), &remedy), "{told}");
        let as_told = struck(layout, hit_as_told(layout, &hit, told_m));
        assert!(made_as_told(&as_told, &remedy), "{told}");
    }
    if let Some(gearing) = remedy.gearing {
        let without = words.contains("without side");
        let tips = if without { 0.0 } else { told_before(&words, " of a tip's width") };
        assert_eq!(
            number(&json, "/verdict/remedy/gear/tip_side").to_bits(),
            gearing.offset.to_bits()
        );
        assert_eq!(words.contains("right side"), !without && gearing.offset > 0.0, "{words}");
        assert_eq!(words.contains("outside"), !without && gearing.outside, "{words}");
        assert!(made_as_told(&struck(layout, gearing.stroke), &remedy), "{told}");
        let as_told = struck(layout, geared_as_told(layout, &gearing, tips));
        assert!(made_as_told(&as_told, &remedy), "{told}");
    }
    if let Some(speed) = remedy.speed {
        let told_speed = format!("{}, at {} {}", speed.to(), speed.amount, speed.unit);
        assert!(words.contains(&told_speed), "{words}");
        assert_eq!(json["verdict"]["remedy"]["speed"]["written"], speed.written().as_str());
        assert!(made_as_told(&struck(layout, speed.stroke), &remedy), "{told}");
    }
    assert_eq!(words.contains("drops off a jaw"), remedy.off_jaw, "{words}");
    assert_eq!(json["verdict"]["remedy"]["off_jaw"], remedy.off_jaw);
    let Remedy { hit, gearing, speed, both, .. } = remedy;
    [hit.is_some(), gearing.is_some(), speed.is_some(), both.is_some()].map(usize::from)
}

/// Stun, follow, draw, and side to either hand.
const TIPS: [&str; 5] =
    ["tip_height: 0", "tip_height: 0.4", "tip_height: -0.3", "tip_side: 0.3", "tip_side: -0.3"];

/// The angle of a heading from an object ball, degrees.
fn heading_deg(object: &str, heading: &str) -> f64 {
    let balls =
        format!("  object: {object}\n  cue: {{behind: object, heading: {heading}, gap: 20 cm}}\n");
    let straight = laid(&balls, "speed: 3 m/s, aim_at: object");
    straight.stroke.expect("it is struck").stroke.aim_rad.to_degrees()
}

/// Every cut of an object ball with every tip, aimed at the ghost ball of a heading that is some
/// degrees beside the line; the misses, how many have a remedy, and how many another hit, gear and another speed.
fn cures(object: &str, line: &str, beside: &[f64]) -> [usize; 5] {
    let line_deg = heading_deg(object, line);
    let mut counts = [0; 5];
    for cut in [-35.0, -15.0, 0.0, 15.0, 35.0] {
        for (tip, unit) in TIPS.iter().zip(["30 cm", "12 in"].iter().cycle()) {
            for off in beside {
                let cue = format!(
                    "{{behind: object, heading: {{angle: {} deg}}, gap: {unit}}}",
                    line_deg + cut
                );
                let way = line_deg + off;
                let text = text_of(
                    &format!("  object: {object}\n  cue: {cue}\n"),
                    &format!(
                        "speed: 3.5 m/s, ghost: {{ball: object, heading: {{angle: {way} deg}}}}, {tip}"
                    ),
                );
                if missed(&read(&text)) {
                    let found = cured(&text);
                    let any = usize::from(found != [0; 4]);
                    for (count, more) in counts.iter_mut().zip([1, any].iter().chain(&found)) {
                        *count += more;
                    }
                }
            }
        }
    }
    counts
}

#[test]
fn a_missed_bank_is_made_by_its_remedy() {
    let object = "{on_line: {contact: 2, start: 4.4}, off_rail: 4 in}";
    let line = "{line: {contact: 2, start: 4.4}}";
    let [misses, any, hits, geared, speeds] = cures(object, line, &[-3.0, 0.0, 3.0]);
    let all = format!("{misses}: {any}; {hits}, {geared}, {speeds}");
    // 59 misses, of which 54 have one: 44, 9 and 5.
    assert!(misses > 30 && any + 8 > misses, "{all}");
    assert!(3 * hits > 2 * misses && geared > 3 && speeds > 3, "{all}");
}

#[test]
fn a_missed_cut_straight_to_the_pocket_is_made_by_its_remedy() {
    let [misses, any, hits, geared, speeds] =
        cures("{position: [0.6 m, -0.1 m]}", "{to: {pocket: foot-right}}", &[-4.0, 4.0, 2.0]);
    let all = format!("{misses}: {any}; {hits}, {geared}, {speeds}");
    assert!(misses > 30 && any + 4 > misses, "{all}");
}

/// Whichever way the ball went instead, the hit that `overcut` finds is offered.
#[test]
fn a_hit_that_overcut_finds_is_offered() {
    let line = "{line: {contact: 2.5, start: 5.5}}";
    for gap in ["12 in", "24 in", "60 cm", "90 cm"] {
        for tip in ["tip_side: -0.3", "tip_side: 0.3"] {
            let text = text_of(
                &format!(
                    "  object: {{on_line: {{contact: 2.5, start: 5.5}}, off_rail: 6 in}}\n  \
                     cue: {{behind: object, heading: {line}, gap: {gap}}}\n"
                ),
                &format!("speed: 4 m/s, ghost: {{ball: object, heading: {line}}}, {tip}"),
            );
            assert!(missed(&read(&text)) && cured(&text)[0] == 1, "{text}");
        }
    }
}

/// So is it where the ball goes elsewhere.
#[test]
fn squirt_that_sends_a_ball_elsewhere_is_told() {
    let line = "{line: {contact: 2.5, start: 5.5}}";
    let layout = laid(
        &format!(
            "  object: {{on_line: {{contact: 2.5, start: 5.5}}, off_rail: 6 in}}\n  \
             cue: {{behind: object, heading: {line}, gap: 24 in}}\n"
        ),
        &format!("speed: 4.5 m/s, ghost: {{ball: object, heading: {line}}}, tip_side: 0.3"),
    );
    let played = PlayedShot::new(&layout).unwrap_or_else(|fault| panic!("{fault}"));
    let reason = played.reason().unwrap_or_default();
    assert!(reason.contains("the tip's right side pushed the cue ball"), "{reason}");
}

/// A ball that stops on its way is told to, with the speed that brings it there, in the unit of the file.
#[test]
fn a_ball_that_runs_out_of_speed_is_sent_harder() {
    let banks = [
        ("2", "4.4", "2 in", "soft", "m/s"),
        ("2", "4.4", "12 in", "soft", "m/s"),
        ("1.5", "3.3", "2 in", "soft", "m/s"),
        ("2", "4.4", "2 in", "3 mph", "mph"),
        ("2", "4.4", "5 cm", "4 km/h", "km/h"),
        ("2", "4.4", "5 cm", "\"0.3 lengths\"", "m/s"),
    ];
    for (contact, start, off_rail, speed, unit) in banks {
        for aim in ["ghost", "send", "gear"] {
            let line = format!("{{contact: {contact}, start: {start}}}");
            let text = text_of(
                &format!(
                    "  object: {{on_line: {line}, off_rail: {off_rail}}}\n  \
                     cue: {{behind: object, heading: {{line: {line}}}, gap: 12 in}}\n"
                ),
                &format!("speed: {speed}, {aim}: {{ball: object, heading: {{line: {line}}}}}"),
            );
            assert!(cured(&text)[2] == 1, "{text}");
            let layout = read(&text);
            let played = PlayedShot::new(&layout).unwrap_or_else(|fault| panic!("{fault}"));
            let told = played.sentences(Detail::Full);
            assert!(told.starts_with("It runs out of speed: it stops "), "{told}");
            assert!(told.contains("Hit it harder, at ") && told.contains(unit), "{told}");
        }
    }
}

/// Squirt alone takes the ball off its line where the cue points at the middle of the ball.
#[test]
fn squirt_is_told_where_it_is_the_cause() {
    let balls = "  object: {position: [0.6 m, -0.3 m]}\n  cue: {behind: object, heading: {to: \
                 {pocket: foot-right}}, gap: 60 cm}\n";
    for (tip, said) in [
        ("-0.3", "the tip's left side pushed the cue ball 1.8° to the right of its line (squirt)"),
        ("0.3", "the tip's right side pushed the cue ball 1.8° to the left of its line (squirt)"),
    ] {
        let layout = laid(balls, &format!("speed: 4 m/s, aim_at: object, tip_side: {tip}"));
        let played = PlayedShot::new(&layout).unwrap_or_else(|fault| panic!("{fault}"));
        let reason = played.reason().unwrap_or_else(|| played.sentences(Detail::Full));
        assert!(reason.contains(said), "{reason}");
        let remedy = played.remedy().expect("it has one");
        assert!(remedy.hit.is_some_and(|hit| made(&struck(&layout, hit.stroke))), "{remedy:?}");
    }
}

/// The file's `gear` and `overcut` are the remedies, found for the line itself.
#[test]
fn a_layout_gears_and_overcuts_by_its_own_words() {
    let object = "{on_line: {contact: 2, start: 4.4}, off_rail: 4 in}";
    let line = "{line: {contact: 2, start: 4.4}}";
    let angle = heading_deg(object, line) + 15.0;
    let balls = format!(
        "  object: {object}\n  cue: {{behind: object, heading: {{angle: {angle} deg}}, gap: 60 cm}}\n"
    );
    let shot = |aim: &str| {
        let stroke = format!("speed: 4 m/s, {aim}: {{ball: object, heading: {line}}}");
        let layout = laid(&balls, &stroke);
        let played = PlayedShot::new(&layout).unwrap_or_else(|fault| panic!("{fault}"));
        let miss_m = played.verdict().and_then(|it| it.arrival).expect("it arrives").miss_m;
        (layout.stroke.expect("it is struck").stroke, miss_m)
    };
    let (ghost, overcut, gear) = (shot("ghost"), shot("overcut"), shot("gear"));
    assert!(overcut.1.abs() < 1e-6 && ghost.1.abs() > 0.05, "{ghost:?} {overcut:?}");
    assert_eq!((overcut.0.side_offset, ghost.0.side_offset), (0.0, 0.0));
    assert!(gear.0.side_offset.abs() > 0.02 && gear.1.abs() < 0.02, "{gear:?}");
    let text = format!(
        "equipment: nine-foot\ntarget: {{pocket: foot-right, ball: object}}\nballs:\n{balls}stroke:\n  speed: 4 m/s\n  \
         gear: {{ball: object, heading: {line}}}\n  tip_side: 0.1\n"
    );
    let refused = parse_layout(&text, "shot.yaml", Path::new("")).expect_err("gear finds the side");
    assert!(refused.message.contains("`gear` and `tip_side` contradict"), "{refused}");
    let free = text.replace("target: {pocket: foot-right, ball: object}\n", "");
    let free = free
        .replace("gear:", "overcut:")
        .replace("{contact: 2, start: 4.4}", "{counted_from: foot-right, contact: 2, start: 4.4}");
    let refused = parse_layout(&free, "shot.yaml", Path::new("")).expect_err("no pocket");
    assert!(refused.message.contains("which pocket is the ball to be overcut for?"), "{refused}");
}

/// A slow bank with draw wants another hit and more speed at once; written out, they make it, and neither does
/// alone.
#[test]
fn a_hit_and_a_speed_that_make_it_together_only_are_told_together() {
    let line = "{contact: 2.5, start: 5}";
    let text = text_of(
        &format!(
            "  object: {{on_line: {line}, off_rail: 2 in}}\n  \
             cue: {{behind: object, heading: {{line: {line}}}, gap: 12 in}}\n"
        ),
        &format!(
            "speed: soft, ghost: {{ball: object, heading: {{line: {line}}}}}, tip_height: -0.3"
        ),
    );
    assert_eq!(cured(&text), [0, 0, 0, 1]);
    let layout = read(&text);
    let played = PlayedShot::new(&layout).unwrap_or_else(|fault| panic!("{fault}"));
    let told = played.sentences(Detail::Full);
    let remedy = played.remedy().expect("it has one");
    let both = remedy.both.expect("of both");
    assert!(
        told.contains(" and harder, at ") && told.contains("for neither makes it alone"),
        "{told}"
    );
    assert!(made(&struck(&layout, both.speed.stroke)), "{told}");
    let alone = [
        text.replace("ghost:", "overcut:"),
        at_speed(&text, &format!("speed: {}", both.speed.written())),
    ];
    for text in alone {
        assert!(
            !parse_layout(&text, "shot.yaml", Path::new("")).is_ok_and(|it| made(&it)),
            "{text}"
        );
    }
    assert_eq!(shot_json(&layout)["verdict"]["remedy"]["together"], true);
}

/// A cue ball that follows into the pocket: the scratch is told first, with a stroke that keeps it up.
#[test]
fn a_scratch_has_its_reason_and_remedy_first() {
    let text = text_of(
        "  object: {position: [0.9 m, -0.35 m]}\n  \
         cue: {behind: object, heading: {to: {pocket: foot-right}}, gap: 20 cm}\n",
        "speed: 3 m/s, tip_height: 0.4, aim_at: object",
    );
    let layout = read(&text);
    let played = PlayedShot::new(&layout).unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!(played.verdict().map(|it| it.pocket), Some(PocketVerdict::Scratched));
    let told = played.sentences(Detail::Full);
    assert!(
        told.starts_with("A scratch: the cue ball drops into the foot-right pocket. Hit it "),
        "{told}"
    );
    let speed = played.remedy().and_then(|remedy| remedy.speed).expect("softer keeps it up");
    assert!(!speed.harder && made(&struck(&layout, speed.stroke)), "{told}");
    assert!(told.contains(&format!("softer, at {}", speed.written())), "{told}");
}

/// A slow bank a little faster can drop off a jaw: the speed that is told drops it clean.
#[test]
fn a_slow_bank_is_cured_clean_or_the_jaw_is_told() {
    let mut clean = 0;
    for speed in ["1 m/s", "1.2 m/s", "1.4 m/s", "soft", "1.6 m/s"] {
        for (contact, start) in [("1", "2.2"), ("1.5", "3.3"), ("2", "4.4"), ("3", "6.6")] {
            let line = format!("{{contact: {contact}, start: {start}}}");
            let text = text_of(
                &format!(
                    "  object: {{on_line: {line}, off_rail: 2 in}}\n  \
                     cue: {{behind: object, heading: {{line: {line}}}, gap: 12 in}}\n"
                ),
                &format!("speed: {speed}, ghost: {{ball: object, heading: {{line: {line}}}}}"),
            );
            let layout = read(&text);
            if made(&layout) {
                continue;
            }
            cured(&text);
            let played = PlayedShot::new(&layout).unwrap_or_else(|fault| panic!("{fault}"));
            clean += usize::from(played.remedy().is_some_and(|remedy| !remedy.off_jaw));
        }
    }
    assert!(clean > 12, "{clean}");
}

/// A stroke that would make it in time only is none where the layout's time is over before.
#[test]
fn a_remedy_makes_the_shot_in_the_time_of_the_layout() {
    let line = "{contact: 2, start: 4.4}";
    let text = text_of(
        &format!(
            "  object: {{on_line: {line}, off_rail: 2 in}}\n  \
             cue: {{behind: object, heading: {{line: {line}}}, gap: 12 in}}\n"
        ),
        &format!("speed: 1 m/s, ghost: {{ball: object, heading: {{line: {line}}}}}"),
    );
    let whole = read(&text);
    let speed = |layout: &Layout| {
        let played = PlayedShot::new(layout).unwrap_or_else(|fault| panic!("{fault}"));
        played.remedy().and_then(|remedy| remedy.speed)
    };
    assert!(speed(&whole).is_some());
    let mut cut = whole.clone();
    cut.until_s = Some(0.5);
    // Even at the hardest that is advised the ball is on its way for longer.
    assert_eq!(speed(&cut), None);
}

/// The scratch first, then where the ball itself went; one stroke mends both.
#[test]
fn a_scratch_that_is_a_miss_as_well_tells_both() {
    let text = text_of(
        "  object: {position: [90 cm, -35 cm]}\n  \
         cue: {behind: object, heading: {to: {pocket: foot-right}}, gap: 15 cm}\n",
        "speed: 3 m/s, tip_height: 0.4, aim_at: {position: [90.5 cm, -33.2 cm]}",
    );
    let layout = read(&text);
    let played = PlayedShot::new(&layout).unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!(played.verdict().map(|it| it.pocket), Some(PocketVerdict::Scratched));
    let told = played.sentences(Detail::Full);
    let begins = "A scratch: the cue ball drops into the head-right pocket. And the object ball misses, to the right by ";
    assert!(told.starts_with(begins), "{told}");
    let hit = played.remedy().and_then(|remedy| remedy.hit).expect("a fuller hit makes it");
    assert!(made(&struck(&layout, hit.stroke)), "{told}");
    assert!(told.contains(" mm fuller"), "{told}");
}

/// A double kiss that sends the ball into another pocket: that pocket, the kiss and the stroke come first.
#[test]
fn a_kiss_into_the_wrong_pocket_begins_with_the_pocket_and_the_kiss() {
    let text = text_of(
        "  object: {on_line: {contact: 0.6, start: 1.32}, off_rail: 1 in}\n  \
         cue: {behind: object, heading: {line: {contact: 0.6, start: 0.72}}, gap: 12 in}\n",
        "speed: 3 m/s, ghost: {ball: object, heading: {line: {contact: 0.6, start: 1.32}}}",
    );
    let text = text.replace("foot-right", "side-right");
    let layout = read(&text);
    let played = PlayedShot::new(&layout).unwrap_or_else(|fault| panic!("{fault}"));
    let verdict = played.verdict().expect("it has a target");
    let PocketVerdict::OtherPocket(other) = verdict.pocket else { panic!("{verdict:?}") };
    assert!(verdict.kissed_at_s.is_some(), "{verdict:?}");
    let told = played.sentences(Detail::Full);
    let begins = format!(
        "Into the wrong pocket ({}): a double kiss turns it off its way. Hit it ",
        other.name()
    );
    assert!(told.starts_with(&begins), "{told}");
    cured(&text);
}

/// The comfortable speed and not the softest with which it goes in.
#[test]
fn a_speed_is_told_that_serves_a_little_softer_and_harder_too() {
    let line = "{contact: 2, start: 4.4}";
    let balls = format!(
        "  object: {{on_line: {line}, off_rail: 2 in}}\n  \
         cue: {{behind: object, heading: {{line: {line}}}, gap: 12 in}}\n"
    );
    let at = |m_s: f64| {
        let stroke =
            format!("speed: {m_s} m/s, ghost: {{ball: object, heading: {{line: {line}}}}}");
        laid(&balls, &stroke)
    };
    let soft = at(1.5);
    let remedy = PlayedShot::new(&soft).unwrap().remedy().unwrap();
    let told = remedy.speed.unwrap().amount;
    for share in [0.85, 1.0, 1.15] {
        assert!(made_as_told(&at(told * share), &remedy), "{share} of {told} m/s");
    }
    assert!(told > 1.7, "the nearest that makes it has no room: {told} m/s");
}

#[test]
fn a_cue_ball_on_the_wrong_side_is_named() {
    let line = "{contact: 2, start: 4.4}";
    let [near, far] = ["5 in", "20 in"].map(|off| format!("{{on_line: {line}, off_rail: {off}}}"));
    let stroke = format!("speed: 4 m/s, ghost: {{ball: object, heading: {{line: {line}}}}}");
    let told = |object: &str, cue: &str| {
        let layout = laid(&format!("  object: {object}\n  cue: {cue}\n"), &stroke);
        PlayedShot::new(&layout).unwrap().sentences(Detail::Brief)
    };
    let wrong = "The cue ball stands where the object ball was to go";
    assert!(told(&far, &near).starts_with(wrong), "{}", told(&far, &near));
    assert!(!told(&near, &far).contains(wrong));
}
