//! Where balls lie.

use super::{BANK, ball, good, of_balls};
use railproof_engine::bank::{Bank, Launch};
use railproof_engine::rail::{Line, Pocket, Rail, Reading};
use railproof_engine::units::INCH_M;
use railproof_engine::vector::Vec2;

/// 100 by 50 in between the noses: a diamond is 12.5 in.
const DIAMOND: f64 = 12.5 * INCH_M;

#[test]
fn by_rail_and_number_frozen_or_off_it() {
    let layout = good(&of_balls(
        "  object: {on_rail: left, number: 2}\n  \
           off: {on_rail: left, number: 3, off_rail: 4 in}\n  \
           end: {on_rail: head, number: 1.5, off_rail: 1 in}\n  \
           other: {on_rail: right, number: 1, counted_from: side-left}\n",
    ));
    let groove = layout.equipment.groove_m();
    let (y, x) = (25.0 * INCH_M - groove, 50.0 * INCH_M - groove);
    let place = |name: &str| ball(&layout, name).state.position;
    assert_eq!(
        place("object").y.to_bits(),
        (0.5 * layout.equipment.table.width_m - groove).to_bits()
    );
    assert!((place("object") - Vec2::new(50.0 * INCH_M - 2.0 * DIAMOND, y)).norm() < 1e-15);
    let off = Vec2::new(50.0 * INCH_M - 3.0 * DIAMOND, y - 4.0 * INCH_M);
    assert!((place("off") - off).norm() < 1e-15);
    // Along an end rail too the count begins at the target's side.
    let end = Vec2::new(INCH_M - x, -25.0 * INCH_M + 1.5 * DIAMOND);
    assert!((place("end") - end).norm() < 1e-15);
    assert!((place("other") - Vec2::new(-DIAMOND, -y)).norm() < 1e-15);
}

#[test]
fn on_a_line_read_in_the_groove_or_through_the_sights() {
    for (reading, name) in [(Reading::Groove, "groove"), (Reading::Sight, "sight")] {
        let line = format!("{{contact: 2, start: 4.4, reading: {name}}}");
        let layout = good(&of_balls(&format!("  object: {{on_line: {line}, off_rail: 12 in}}\n")));
        let model = layout.equipment.cushion.rail_model;
        let bank = Bank::new(&layout.equipment, Rail::Left, Pocket::FootRight, model);
        let bank = bank.expect("it is a bank");
        let groove = Line::new(2.0, 4.4).groove_from(reading, bank.geometry());
        let launch = Launch { off_rail_m: 12.0 * INCH_M, ..Launch::frozen_stun(2.0) };
        let start = bank.play(groove, launch).expect("it is in range").launch.position;
        let wanted = bank.geometry().to_table(start);
        assert!((ball(&layout, "object").state.position - wanted).norm() < 1e-15, "{name}");
        assert_eq!(layout.lines.len(), 1);
    }
}

/// The target pocket decides which long rail a line is on, and which end rail.
#[test]
fn a_line_is_across_from_its_pocket() {
    let cases = [
        ("foot-right", "long", Rail::Left),
        ("foot-left", "long", Rail::Right),
        ("side-left", "long", Rail::Right),
        ("foot-right", "end", Rail::Head),
        ("head-left", "end", Rail::Foot),
        ("foot-right", "left", Rail::Left),
    ];
    for (pocket, rail, expected) in cases {
        let layout = good(&format!(
            "equipment: nine-foot\ntarget: {{pocket: {pocket}}}\nballs:\n  object: {{on_line: \
             {{contact: 1.5, start: 2.5, rail: {rail}}}, off_rail: 12 in}}\n"
        ));
        assert_eq!(layout.lines[0].rail, expected, "{pocket} {rail}");
    }
}

#[test]
fn between_balls_pockets_and_points() {
    let layout = good(&of_balls(
        "  object: {between: [one, {pocket: side-left}]}\n  \
           quarter: {between: [one, {position: [0 m, -0.4 m]}], share: 0.25}\n  \
           one: {position: [0 m, 0.1 m]}\n",
    ));
    let place = |name: &str| ball(&layout, name).state.position;
    assert!((place("object") - Vec2::new(0.0, 0.5 * (0.1 + 0.635))).norm() < 1e-15);
    assert!((place("quarter") - Vec2::new(0.0, -0.025)).norm() < 1e-15);
}

#[test]
fn behind_and_in_front_on_the_way_to_a_place() {
    let layout = good(&of_balls(
        "  object: {position: [0.3 m, 0.1 m]}\n  \
           ghost: {behind: object, heading: {to: {pocket: foot-left}}}\n  \
           guard: {in_front_of: object, heading: {to: {pocket: foot-left}}, gap: 2 in}\n  \
           east: {behind: object, heading: {angle: 180 deg}, gap: 10 cm}\n",
    ));
    let diameter = layout.equipment.ball.diameter_m;
    let place = |name: &str| ball(&layout, name).state.position;
    let object = place("object");
    assert!((place("ghost") - object).norm() >= diameter);
    assert!((place("ghost") - object).norm() - diameter < 1e-15);
    // All on one line: the ghost, the object ball, the guard and the pocket's middle.
    let mouth = layout.equipment.table.corner_mouth_m * 0.5 / 2.0_f64.sqrt();
    let way = (Vec2::new(1.27 - mouth, 0.635 - mouth) - object).unit_or_zero();
    assert!((place("ghost") - (object - way * diameter)).norm() < 1e-14);
    assert!((place("guard") - (object + way * (diameter + 2.0 * INCH_M))).norm() < 1e-14);
    assert!((place("east") - (object + Vec2::new(diameter + 0.1, 0.0))).norm() < 1e-14);
}

#[test]
fn the_straight_bank_lies_on_one_line() {
    let layout = good(BANK);
    let (cue, object) = (ball(&layout, "cue").state, ball(&layout, "object").state);
    let apart = object.position - cue.position;
    assert!((apart.norm() - layout.equipment.ball.diameter_m - 0.3).abs() < 1e-14);
    let line = layout.lines[0].line;
    assert_eq!((layout.lines.len(), line.contact, line.start), (1, 2.0, 4.4));
    // 2.4 diamonds along for one span across.
    let span = layout.equipment.table.width_m - 2.0 * layout.equipment.groove_m();
    assert!((apart.x / apart.y - 2.4 * DIAMOND / span).abs() < 1e-13);
}

#[test]
fn balls_may_differ_and_numbers_may_be_names() {
    let layout = good(
        "equipment: nine-foot\nballs:\n  8: {on_rail: left, number: 2, counted_from: foot-right, \
         diameter: 54 mm, mass: 150 g}\n  9: {behind: 8, heading: {angle: 90 deg}}\n",
    );
    let eight = ball(&layout, "8");
    assert_eq!((eight.ball.diameter_m, eight.ball.mass_kg), (0.054, 0.15));
    // Its own groove: √(h(2R − h)) for the nose height h.
    let height = layout.equipment.cushion.nose_height_m;
    let groove = (height * (0.054 - height)).sqrt();
    assert!((eight.state.position.y - (0.635 - groove)).abs() < 1e-15);
    // Unlike balls on one plane touch at √(d₁·d₂).
    let apart = (ball(&layout, "9").state.position - eight.state.position).norm();
    let touching = (0.054 * layout.equipment.ball.diameter_m).sqrt();
    assert!((apart - touching).abs() < 1e-15);
}

#[test]
fn touching_balls_written_to_the_micrometre_are_moved_apart() {
    let layout = good(&of_balls(
        "  object: {position: [0 m, 0 m]}\n  \
           next: {position: [57.1495 mm, 0 m]}\n  \
           third: {position: [28.5748 mm, 49.4930 mm]}\n",
    ));
    let diameter = layout.equipment.ball.diameter_m;
    for (one, other) in [("object", "next"), ("object", "third"), ("next", "third")] {
        let apart = ball(&layout, one).state.position - ball(&layout, other).state.position;
        assert!(apart.norm() >= diameter && apart.norm() < diameter + 2e-6, "{apart:?}");
    }
    assert!((ball(&layout, "third").state.position.y - 0.049_493).abs() < 2e-6);
}
