//! Layouts: balls on a table for a single shot.

use super::assert_fault;
use railproof::fault::Fault;
use railproof::layout::{Layout, load_layout, parse_layout};
use std::path::Path;

const GOOD: &str = "\
equipment: nine-foot
until: 2.5 s
balls:
  red:
    position: [\"0.10 m\", \"-0.20 m\"]
    velocity: [\"1.0 m/s\", \"2.0 m/s\"]
    spin: [\"0 rad/s\", \"10 rad/s\", \"-60 rpm\"]
  another ball:
    position: [10 in, 0 m]
";

fn read(text: &str) -> Result<Layout, Fault> {
    parse_layout(text, "shot.yaml", Path::new("/nowhere"))
}

fn refused(text: &str) -> Fault {
    match read(text) {
        Ok(layout) => panic!("accepted as {layout:?}:\n{text}"),
        Err(fault) => fault,
    }
}

#[test]
fn values_arrive_in_si_units() {
    let layout = read(GOOD).unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!(layout.until_s, Some(2.5));
    assert_eq!(layout.equipment.name, "Nine-foot table");
    let names: Vec<&str> = layout.balls.iter().map(|ball| ball.name.as_str()).collect();
    assert_eq!(names, ["red", "another ball"]);
    let red = layout.balls[0].state;
    assert_eq!((red.position.x, red.position.y), (0.10, -0.20));
    assert_eq!((red.velocity.x, red.velocity.y), (1.0, 2.0));
    assert_eq!((red.spin.x, red.spin.y), (0.0, 10.0));
    assert!((red.spin.z + core::f64::consts::TAU).abs() < 1e-12);
    let other = layout.balls[1].state;
    assert!((other.position.x - 0.254).abs() < 1e-15);
    assert_eq!((other.velocity.norm(), other.spin.norm()), (0.0, 0.0));
}

#[test]
fn one_wrong_part() {
    let cases: &[(&str, &str, &str, &str, &str)] = &[
        ("\"0.10 m\"", "\"0.10\"", "\"0.10\"", "has no unit", ""),
        ("\"1.0 m/s\"", "\"60 m/s\"", "\"60 m/s\"", "from -50 m/s to 50 m/s", ""),
        ("\"1.0 m/s\"", "\"-49.99 m/s\"", "[\"-49.99 m/s\"", "more than 50 m/s", ""),
        ("\"10 rad/s\"", "\"5001 rad/s\"", "\"5001 rad/s\"", "from -5000 rad/s", ""),
        ("\"10 rad/s\"", "\"nan rad/s\"", "\"nan rad/s\"", "not a finite number", ""),
        (", \"-0.20 m\"", "", "[\"0.10 m\"]", "`position` takes 2 quantities", "along x and y"),
        ("\"-60 rpm\"", "1 rpm, 1 rpm", "[\"0 rad/s\"", "`spin` takes 3", "along x, y and z"),
        ("[10 in, 0 m]", "10 in", "10 in", "found string", ""),
        (
            "    velocity:",
            "    velocty:",
            "velocty",
            "the ball `red` has no field `velocty`",
            "did you mean `velocity`?",
        ),
        ("until: 2.5 s", "until: -1 s", "-1 s", "`until` cannot be -1 s", ""),
        ("until: 2.5 s", "untill: 1 s", "untill", "a layout has no field", "`until`"),
        ("  another ball:", "  red :", "red :", "`balls` has `red` twice", ""),
        (
            "    position: [10 in, 0 m]",
            "    spin: [0 rpm, 0 rpm, 0 rpm]",
            "another",
            "the ball `another ball` has no place",
            "for instance",
        ),
        (
            "equipment: nine-foot",
            "equipment: nine-feet",
            "equipment",
            "no shipped profile",
            "did you mean `nine-foot`?",
        ),
        ("equipment: nine-foot", "equipment: [nine-foot]", "[nine", "found sequence where a", ""),
        ("equipment: nine-foot\n", "", "until", "the layout has no `equipment`", "nine-foot"),
        ("equipment: nine-foot", "equipment: gone/x.yaml", "equipment", "there is no file", ""),
        // Half of 100 in is 1.27 m, less the groove's 27.514 mm.
        ("[10 in, 0 m]", "[1.2425 m, 0 m]", "position: [1.2425", "x is 1.242500 m", "1.242486 m"),
        (
            "[10 in, 0 m]",
            "[10 in, -25 in]",
            "position: [10 in, -",
            "y is -0.635000 m",
            "-0.607486 m",
        ),
        ("[10 in, 0 m]", "[5 m, 0 m]", "5 m, 0", "from -4 m to 4 m", ""),
        (
            "[10 in, 0 m]",
            "[0.12 m, -0.2 m]",
            "position: [0.12",
            "inside one another by 37.150 mm",
            "",
        ),
    ];
    for &(from, to, at, message, hint) in cases {
        assert_eq!(GOOD.matches(from).count(), 1, "`{from}` must be in the layout once");
        let text = GOOD.replace(from, to);
        assert_fault(&refused(&text), &text, at, message, hint);
    }
    let text = "equipment: nine-foot\nballs: {}\n";
    assert_fault(&refused(text), text, "balls", "there are no balls", "");
    let text = "equipment: nine-foot\n";
    assert_fault(&refused(text), text, "equipment", "the layout has no `balls`", "position");
}

#[test]
fn a_frozen_ball_written_to_the_micrometre_is_on_the_groove() {
    // The groove is at 0.635 m less R·cosθ = 27.51373 mm: 0.60748627 m.
    let layout = read(&GOOD.replace("[10 in, 0 m]", "[10 in, 0.607487 m]")).expect("it is on");
    let groove = 0.5 * layout.equipment.table.width_m - layout.equipment.groove_m();
    assert!(groove < 0.607_487);
    assert_eq!(layout.balls[1].state.position.y.to_bits(), groove.to_bits());
}

#[test]
fn equipment_written_out_in_the_layout() {
    let profile = railproof::profile::shipped_text("seven-foot").expect("it ships");
    let inner = format!("  {}\n", profile.trim_end().replace('\n', "\n  "));
    let text = GOOD.replace("equipment: nine-foot\n", &format!("equipment:\n{inner}"));
    assert_eq!(read(&text).expect("it is whole").equipment.name, "Seven-foot table");
    let wrong = text.replace("    friction: 0.13", "    fricton: 0.13");
    assert_fault(&refused(&wrong), &wrong, "fricton", "no field `fricton`", "`friction`");
    let high = text.replace("nose_height: 1.42875 in", "nose_height: 2 in");
    assert_fault(&refused(&high), &high, "nose_height", "the nose is at 88.9 %", "mm high");
    let no_mass = text.replace("    mass: 170 g\n", "");
    assert_fault(&refused(&no_mass), &no_mass, "ball:", "has no `mass`", "");
    let bare = "equipment:\n  name: a\nballs: {a: {position: [0 m, 0 m]}}\n";
    assert_fault(&refused(bare), bare, "equipment", "no `table` section", "complete");
}

#[test]
fn a_path_is_relative_to_the_layout() {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: &str, text: &str| {
        let path = folder.path().join(name);
        std::fs::write(&path, text).expect("it can be written");
        path
    };
    let profile = railproof::profile::shipped_text("eight-foot").expect("it ships");
    write("ours.yaml", profile);
    let shot = write("shot.yaml", &GOOD.replace("nine-foot", "ours.yaml"));
    assert_eq!(load_layout(&shot).expect("both are good").equipment.name, "Eight-foot table");

    // A fault in the profile stands in the profile.
    let wrong = profile.replace("mass: 170 g", "mass: 17 g");
    write("ours.yaml", &wrong);
    let fault = load_layout(&shot).expect_err("the mass is out of range");
    assert_fault(&fault, &wrong, "17 g", "`mass` cannot be 17 g", "");
    assert!(fault.place.expect("it has a place").label().ends_with("ours.yaml"));

    // A missing profile is a fault of the layout, with the near name beside it.
    let text = GOOD.replace("nine-foot", "our.yaml");
    let fault = load_layout(&write("shot.yaml", &text)).expect_err("no such profile");
    assert_fault(&fault, &text, "equipment", "there is no file", "`ours.yaml`");
}
