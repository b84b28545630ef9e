//! The stroke of a layout.

use super::{BANK, ball, good, with};
use railproof_engine::vector::Vec2;

#[test]
fn the_cue_points_at_the_ghost_ball() {
    let layout = good(BANK);
    let stroke = layout.stroke.expect("it has one");
    let way = ball(&layout, "object").state.position - ball(&layout, "cue").state.position;
    assert!((stroke.stroke.aim_rad - way.y.atan2(way.x)).abs() < 1e-13);
    let ghost = stroke.ghost.expect("it is one");
    let apart = (ghost - ball(&layout, "object").state.position).norm();
    assert!((apart - layout.equipment.ball.diameter_m).abs() < 1e-15);
    let cue = ball(&layout, "cue").state;
    assert_eq!((cue.velocity, cue.spin), (stroke.struck.velocity, stroke.struck.spin));
    // The 3 m/s are along the cue, which the rail behind raises a little.
    let raised = stroke.stroke.elevation_rad;
    assert!(raised > 0.0 && raised < 0.1, "{raised}");
    assert!((cue.velocity.norm() - 3.0 * raised.cos()).abs() < 1e-12);
    assert_eq!(
        (layout.balls[stroke.ball].name.as_str(), stroke.stroke.allow_miscue),
        ("cue", false)
    );
}

#[test]
fn tip_and_elevation_reach_the_stroke() {
    let more = "  aim: 30 deg\n  tip_side: -0.2\n  tip_height: 0.1\n  elevation: 3 deg\n";
    let text =
        with(BANK, "  aim_at: {behind: object, heading: {line: {contact: 2, start: 4.4}}}\n", more);
    let layout = good(&text);
    let stroke = layout.stroke.expect("it has one").stroke;
    assert!((stroke.aim_rad - 30.0_f64.to_radians()).abs() < 1e-15);
    assert_eq!((stroke.side_offset, stroke.height_offset), (-0.2, 0.1));
    assert!((stroke.elevation_rad - 3.0_f64.to_radians()).abs() < 1e-15);
    // Left side turns the ball with the clock, and squirt sends it to the right of the aim.
    let cue = ball(&layout, "cue").state;
    assert!(cue.spin.z < 0.0);
    let aim = Vec2::new(stroke.aim_rad.cos(), stroke.aim_rad.sin());
    assert!(aim.cross(cue.velocity) < 0.0);
}

#[test]
fn a_point_or_a_ball_can_be_aimed_at() {
    let aim = "  aim_at: {behind: object, heading: {line: {contact: 2, start: 4.4}}}\n";
    for (to, at) in [
        ("  aim_at: object\n", None),
        ("  aim_at: {position: [1 m, 0 m]}\n", Some(Vec2::new(1.0, 0.0))),
        ("  aim_at: {pocket: side-left}\n", Some(Vec2::new(0.0, 0.635))),
    ] {
        let layout = good(&with(BANK, aim, to));
        let at = at.unwrap_or(ball(&layout, "object").state.position);
        let way = at - ball(&layout, "cue").state.position;
        let stroke = layout.stroke.expect("it has one");
        assert!((stroke.stroke.aim_rad - way.y.atan2(way.x)).abs() < 1e-15, "{to}");
        assert_eq!(stroke.ghost, None);
    }
}

/// With side, squirt and throw in it the cue must point elsewhere than at the ghost ball, and then
/// the object ball leaves along its line.
#[test]
fn a_ball_can_be_sent_along_a_line() {
    let geometric = with(BANK, "gap: 30 cm", "gap: 80 cm")
        .replace("  speed: 3 m/s\n", "  speed: 3 m/s\n  tip_side: 0.3\n");
    let sent = with(
        &geometric,
        "  aim_at: {behind: object, heading: {line: {contact: 2, start: 4.4}}}\n",
        "  send: {ball: object, heading: {line: {contact: 2, start: 4.4}}}\n",
    );
    let off = |text: &str| {
        let layout = good(text);
        let played = railproof::playing::PlayedShot::new(&layout).expect("it plays");
        let hit = played.shot.events.iter().find(|it| it.kind.name() == "ball").expect("they meet");
        let railproof_engine::shot::EventKind::Ball(touch) = hit.kind else { unreachable!() };
        let way = ball(&layout, "object").state.position - ball(&layout, "cue").state.position;
        way.unit_or_zero().cross(touch.other_after.velocity.unit_or_zero())
    };
    assert!(off(&geometric).abs() > 5e-3, "{}", off(&geometric));
    assert!(off(&sent).abs() < 1e-8, "{}", off(&sent));
}

#[test]
fn a_miscue_is_played_on_where_it_is_allowed() {
    let text = format!("{BANK}  tip_side: 0.6\n  allow_miscue: yes\n");
    let stroke = good(&text).stroke.expect("it has one");
    assert!(stroke.struck.miscue && stroke.stroke.allow_miscue);
    assert!(
        good(&with(&text, "tip_side: 0.6", "tip_side: 0.2"))
            .stroke
            .is_some_and(|it| !it.struck.miscue)
    );
}

#[test]
fn a_named_ball_can_be_struck() {
    let text = with(BANK, "  cue: {behind", "  white: {behind");
    let layout = good(&with(&text, "stroke:\n", "stroke:\n  ball: white\n"));
    assert!(ball(&layout, "white").state.velocity.norm() > 2.9);
    assert_eq!(layout.target.map(|it| (it.ball, it.pocket.name())), Some((1, "foot-right")));
    // The only ball that is not struck is the one that is meant.
    let short = with(BANK, "{pocket: foot-right, ball: object}", "{pocket: foot-right}");
    assert_eq!(good(&short).target, good(BANK).target);
}
