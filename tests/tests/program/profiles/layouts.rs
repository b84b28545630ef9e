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
    assert_fault(&fault, &wrong, "17 g", "`mass` is 17 g", "");
    assert!(fault.place.expect("it has a place").label().ends_with("ours.yaml"));

    // A missing profile is a fault of the layout, with the near name beside it.
    let text = GOOD.replace("nine-foot", "our.yaml");
    let fault = load_layout(&write("shot.yaml", &text)).expect_err("no such profile");
    assert_fault(&fault, &text, "equipment", "there is no file", "`ours.yaml`");
}
