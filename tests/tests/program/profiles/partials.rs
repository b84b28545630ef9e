//! Profiles that hold some of the sections, laid over a complete one.

use super::assert_fault;
use railproof::profile::{find_profile, load_partial, parse_partial, parse_profile};
use railproof_engine::equipment::{
    Ball, BallContact, Cloth, Cue, CueShape, Cushion, Equipment, FrictionLaw, Jaws, RailModel,
    RailTop, SpokenSpeeds, Table,
};
use std::path::Path;

const SOFT: &str = "\
name: Soft cushion
about: An example that is only in this test.
cushion:
  nose_height: 1.42875 in
  restitution: 0.85
  restitution_loss: 0.03 s/m
  nose_friction: 0.2
";

#[test]
fn a_cushion_from_a_file_laid_over_a_table() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("soft.yaml");
    std::fs::write(&path, SOFT).expect("it can be written");
    let partial = load_partial(&path).expect("it is a partial profile");
    assert_eq!(partial.name(), "Soft cushion");
    assert_eq!(partial.about(), Some("An example that is only in this test."));

    let base = find_profile("nine-foot", Path::new("")).expect("it ships");
    let soft = partial.over(&base).expect("it fits");
    assert_eq!(soft.name, "Nine-foot table, Soft cushion");
    assert!((soft.cushion.restitution - 0.85).abs() < 1e-15);
    // Everything else is the table's; what the cushion leaves out has the default, not the old
    // cushion's value.
    assert_eq!((soft.table, soft.ball, soft.cloth), (base.table, base.ball, base.cloth));
    assert_eq!(soft.cushion.impact_cloth_friction, None);
}

#[test]
fn a_section_that_does_not_fit_is_named_in_the_file_it_came_from() {
    let base = || find_profile("nine-foot", Path::new("")).expect("it ships");
    let ball = "name: Big ball\nball:\n  diameter: 75 mm\n  mass: 300 g\n";
    let fault = parse_partial(ball, "big.yaml")
        .expect("it is a partial profile")
        .over(&base())
        .expect_err("the nose is too low for it");
    assert_fault(&fault, ball, "diameter", "nose_height in ball diameters is 0.48387", "37.500 mm");

    let high = SOFT.replace("1.42875 in", "45 mm");
    let fault = parse_partial(&high, "high.yaml")
        .expect("it is a partial profile")
        .over(&base())
        .expect_err("the nose is too high");
    assert_fault(
        &fault,
        &high,
        "nose_height",
        "nose_height in ball diameters is 0.787402",
        "28.575 mm",
    );
}

#[test]
fn a_partial_profile_is_no_complete_one_and_an_empty_one_is_none() {
    let fault = parse_profile(SOFT, "soft.yaml").expect_err("no table");
    assert_fault(&fault, SOFT, "name", "no `table` section", "laid over");
    let empty = "name: nothing\n";
    let fault = parse_partial(empty, "empty.yaml").expect_err("no section");
    assert_fault(&fault, empty, "name", "none of the sections", "give it a table");
}

/// Every field has another value, so that two of them changed over would show.
#[test]
fn every_field_arrives_where_it_belongs() {
    let text = "
name: All
gravity: 9.8 m/s^2
cushion:
  contact_time: 8 ms
  checked_speed: 3 m/s
  impact_cloth_friction: 0.21
  nose_friction: 0.22
  restitution_floor: 0.53
  restitution_loss: 0.014 s/m
  restitution: 0.95
  nose_height: 36 mm
  rail_model: planar
cloth: {pivot_deceleration: 11 rad/s^2, rolling_resistance: 0.012, sliding_friction: 0.19}
ball: {mass: 0.2 kg, diameter: 56 mm}
ball_contact: {friction_law: exponential, friction_far: 0.01, friction_fall: 1.1 s/m, friction_rise: 0.1, friction_at_10: 0.02, friction_at_1: 0.07, friction_at_0_1: 0.12, restitution: 0.93}
speeds: {soft: 1 m/s, medium: 2 m/s, firm: 4 m/s}
cue: {miscue_offset: 0.55, end_mass: 9 g, cue_length: 1.5 m, butt_diameter: 31 mm, tip_diameter: 12 mm}
table:
  jaw_contact_time: 3 ms
  rail_setback: 52 mm
  rail_height: 44 mm
  side_shelf: 6 mm
  corner_shelf: 41 mm
  side_radius: 8 mm
  corner_radius: 7 mm
  side_angle: 1.8 rad
  corner_angle: 2.5 rad
  sight_setback: 94 mm
  side_mouth: 131 mm
  corner_mouth: 116 mm
  width: 1.2 m
  length: 2.4 m
";
    let wanted = Equipment {
        name: "All".to_owned(),
        table: Table {
            length_m: 2.4,
            width_m: 1.2,
            corner_mouth_m: 0.116,
            side_mouth_m: 0.131,
            sight_setback_m: 0.094,
            jaws: Jaws {
                corner_angle_rad: 2.5,
                side_angle_rad: 1.8,
                corner_radius_m: 0.007,
                side_radius_m: 0.008,
                corner_shelf_m: 0.041,
                side_shelf_m: 0.006,
                contact_time_s: 0.003,
            },
            rail_top: RailTop { height_m: 0.044, setback_m: 0.052 },
        },
        ball: Ball { diameter_m: 0.056, mass_kg: 0.2 },
        cloth: Cloth {
            sliding_friction: 0.19,
            rolling_resistance: 0.012,
            pivot_deceleration_rad_s2: 11.0,
        },
        cushion: Cushion {
            rail_model: RailModel::Planar,
            nose_height_m: 0.036,
            restitution: 0.95,
            restitution_loss_s_m: 0.014,
            restitution_floor: 0.53,
            nose_friction: 0.22,
            impact_cloth_friction: Some(0.21),
            checked_speed_m_s: 3.0,
            contact_time_s: 0.008,
        },
        ball_contact: BallContact {
            restitution: 0.93,
            friction_law: FrictionLaw::Exponential,
            friction_at_0_1: 0.12,
            friction_at_1: 0.07,
            friction_at_10: 0.02,
            friction_far: 0.01,
            friction_rise: 0.1,
            friction_fall_s_m: 1.1,
        },
        cue: Cue {
            end_mass_kg: 0.009,
            miscue_offset: 0.55,
            shape: CueShape { tip_diameter_m: 0.012, butt_diameter_m: 0.031, length_m: 1.5 },
        },
        speeds: SpokenSpeeds { soft_m_s: 1.0, medium_m_s: 2.0, firm_m_s: 4.0 },
        gravity_m_s2: 9.8,
    };
    assert_eq!(parse_profile(text, "all.yaml").expect("it is whole"), wanted);
    let base = find_profile("nine-foot", Path::new("")).expect("it ships");
    let over = parse_partial(text, "all.yaml").and_then(|all| all.over(&base)).expect("it fits");
    assert_eq!(Equipment { name: wanted.name.clone(), ..over }, wanted);
}

#[test]
fn a_cue_alone_or_a_ball_contact_alone_is_a_partial_profile() {
    let base = find_profile("nine-foot", Path::new("")).expect("it ships");
    let lay = |text: &str| parse_partial(text, "part.yaml").and_then(|part| part.over(&base));
    let cue = lay("name: Stiff\ncue:\n  end_mass: 17 g\n").expect("it fits");
    assert!((cue.cue.end_mass_kg - 0.017).abs() < 1e-15);
    assert_eq!((cue.ball_contact, cue.table), (base.ball_contact, base.table));
    let dirty = lay("name: Dirty\nball_contact:\n  friction_at_1: 0.1\n").expect("it fits");
    assert!((dirty.ball_contact.friction_at_1 - 0.1).abs() < 1e-15);
    assert_eq!(
        (dirty.ball_contact.restitution, dirty.cue),
        (base.ball_contact.restitution, base.cue)
    );
}
