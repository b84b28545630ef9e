//! Every shipped profile loads and satisfies the equipment standards.

use railproof::profile::{
    find_partial, find_profile, load_profile, parse_profile, shipped_names, shipped_text,
};
use railproof_engine::equipment::{BallContact, Cue, Equipment, Jaws, RailModel};
use railproof_engine::units::{INCH_M, OUNCE_KG};
use std::path::Path;

/// The complete ones; a name with a folder is a part to be laid over one of them.
fn shipped() -> impl Iterator<Item = (&'static str, Equipment)> {
    shipped_names().filter(|name| !name.contains('/')).map(|name| {
        let text = shipped_text(name).expect("a listed name has a text");
        (name, parse_profile(text, name).unwrap_or_else(|fault| panic!("{fault}")))
    })
}

fn close(value: f64, wanted: f64) -> bool {
    (value - wanted).abs() <= 1e-12
}

/// Nine- and eight-foot sizes: WPA equipment specifications (published). The others are trade
/// sizes (common practice, no source).
#[test]
fn playing_areas() {
    let inches = [
        ("nine-foot", 100.0, 50.0),
        ("eight-foot", 92.0, 46.0),
        ("home-eight-foot", 88.0, 44.0),
        ("seven-foot", 78.0, 39.0),
        ("harbour-hall", 100.0, 50.0),
    ];
    let profiles: Vec<_> = shipped().collect();
    assert_eq!(profiles.len(), inches.len());
    for ((name, equipment), (wanted, length, width)) in profiles.iter().zip(inches) {
        assert_eq!(*name, wanted);
        assert!(close(equipment.table.length_m, length * INCH_M), "{name}");
        assert!(close(equipment.table.width_m, width * INCH_M), "{name}");
    }
}

/// WPA equipment specifications (published): corner mouth 4.5 to 4.625 in, side mouth 5 to
/// 5.125 in, point to point; sights 3 11/16 in (±1/8) behind the nose, spaced an eighth of the
/// length: 12.5 in and 11.5 in on the nine- and eight-foot tables.
#[test]
fn mouths_and_sights() {
    let within = |value: f64, low: f64, high: f64| {
        value >= low * INCH_M - 1e-12 && value <= high * INCH_M + 1e-12
    };
    for (name, equipment) in shipped() {
        let table = &equipment.table;
        assert!(within(table.corner_mouth_m, 4.5, 4.625), "{name}");
        assert!(within(table.side_mouth_m, 5.0, 5.125), "{name}");
        assert!(within(table.sight_setback_m, 3.6875 - 0.125, 3.6875 + 0.125), "{name}");
        let spacing = table.long_rail_diamond_m();
        assert!(close(spacing, table.length_m / 8.0), "{name}");
        // A table twice as long as wide has one spacing all round.
        assert!(close(spacing, table.end_rail_diamond_m()), "{name}");
        match name {
            "nine-foot" => assert!(close(spacing, 12.5 * INCH_M)),
            "eight-foot" => assert!(close(spacing, 11.5 * INCH_M)),
            _ => {}
        }
    }
}

/// WPA equipment specifications: cut angles 142° and 104°, 1° either way (published); shelves 1 to
/// 2.25 in at a corner and 0 to 3/8 in at a side (from memory).
#[test]
fn jaws_and_shelves() {
    for (name, equipment) in shipped() {
        let jaws = &equipment.table.jaws;
        assert!((jaws.corner_angle_rad.to_degrees() - 142.0).abs() <= 1.0, "{name}");
        assert!((jaws.side_angle_rad.to_degrees() - 104.0).abs() <= 1.0, "{name}");
        assert!((1.0..=2.25).contains(&(jaws.corner_shelf_m / INCH_M)), "{name}");
        assert!((0.0..=0.375).contains(&(jaws.side_shelf_m / INCH_M)), "{name}");
    }
}

/// Friction between balls 0.11, 0.06 and 0.01 at a slip of 0.1, 1 and 10 m/s (Marlow 1995, *The
/// Physics of Pocket Billiards*, from memory). Restitution above 0.9 and a shaft's end of a tenth to
/// a thirtieth of the ball: common practice.
#[test]
fn contacts_and_cues() {
    for (name, equipment) in shipped() {
        let contact = &equipment.ball_contact;
        for (slip, friction) in [(0.1, 0.11), (1.0, 0.06), (10.0, 0.01)] {
            assert!(close(contact.friction_at(slip), friction), "{name}");
        }
        assert!((0.9..=1.0).contains(&contact.restitution), "{name}");
        let ratio = equipment.ball.mass_kg / equipment.cue.end_mass_kg;
        assert!((10.0..=30.0).contains(&ratio), "{name}: {ratio}");
    }
}

/// WPA equipment specifications (published): ball 2.25 in (±0.005), 5.5 to 6 oz; nose at 62.5 to
/// 64.5 % of the ball's diameter.
#[test]
fn balls_and_noses() {
    for (name, equipment) in shipped() {
        assert!((equipment.ball.diameter_m / INCH_M - 2.25).abs() <= 0.005, "{name}");
        let ounces = equipment.ball.mass_kg / OUNCE_KG;
        assert!((5.5..=6.0).contains(&ounces), "{name}: {ounces} oz");
        let nose = equipment.cushion.nose_height_m / equipment.ball.diameter_m;
        assert!((0.625..=0.645).contains(&nose), "{name}: {nose}");
        assert_eq!(equipment.cushion.rail_model, RailModel::NoseAndCloth, "{name}");
    }
}

/// Sliding friction 0.18 to 0.24 and rolling deceleration over gravity 0.0127 to 0.0129 (published:
/// Mathavan, Jackson & Parkin 2009, Am. J. Phys. 77:788, read second-hand). The invented hall's
/// worn cloth rolls further than that, as its comment says.
#[test]
fn cloths() {
    for (name, equipment) in shipped() {
        let cloth = &equipment.cloth;
        assert!((0.18..=0.24).contains(&cloth.sliding_friction), "{name}");
        if name == "harbour-hall" {
            assert!(cloth.rolling_resistance < 0.0127);
        } else {
            assert!((0.0127..=0.0129).contains(&cloth.rolling_resistance), "{name}");
        }
    }
}

/// A cushion replaces the cushion and nothing else.
#[test]
fn shipped_cushions_lie_over_the_nine_foot_profile() {
    let base = find_profile("nine-foot", Path::new("")).expect("nine-foot ships");
    let names: Vec<_> = shipped_names().filter(|name| name.starts_with("cushions/")).collect();
    assert!(names.len() >= 3, "{names:?}");
    for name in names {
        let cushion = find_partial(name, Path::new("")).expect("a listed name is found");
        let laid = cushion.over(&base).unwrap_or_else(|fault| panic!("{name}: {fault}"));
        assert_ne!(laid.cushion, base.cushion, "{name}");
        let own = Equipment { cushion: base.cushion, name: base.name.clone(), ..laid.clone() };
        assert_eq!(own, base, "{name}");
        let nose = laid.cushion.nose_height_m / laid.ball.diameter_m;
        assert!((0.625..=0.645).contains(&nose), "{name}: {nose}");
        assert!(parse_profile(shipped_text(name).unwrap_or_default(), name).is_err(), "{name}");
    }
}

#[test]
fn the_invented_hall_says_that_it_is_invented() {
    let text = shipped_text("harbour-hall").expect("harbour-hall ships");
    assert!(text.contains("INVENTED"));
    let hall = find_profile("harbour-hall", Path::new("")).expect("harbour-hall is found");
    assert!(hall.name.contains("invented"));
}

#[test]
fn a_file_and_a_bare_name_give_the_same() {
    let path =
        Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios/profiles/nine-foot.yaml"));
    let by_name = find_profile("nine-foot", Path::new("/nowhere")).expect("it ships");
    assert_eq!(load_profile(path).expect("the file is there"), by_name);
}

#[test]
fn defaults_hold_when_fields_are_left_out() {
    let text = super::nine_foot_with("  contact_time: 15 ms\n", "");
    let equipment = parse_profile(&text, "x").expect("contact_time may be left out");
    let cushion = &equipment.cushion;
    assert!(close(cushion.restitution_floor, 0.5));
    assert!(close(cushion.checked_speed_m_s, 2.5));
    assert!(close(cushion.contact_time_s, 0.015));
    assert!(close(equipment.gravity_m_s2, 9.80665));
    // A cushion without its own cloth friction takes the sliding one.
    let text = super::nine_foot_with("  impact_cloth_friction: 0.18\n", "");
    let without = parse_profile(&text, "x").expect("impact_cloth_friction may be left out");
    assert_eq!(without.cushion.impact_cloth_friction, None);
    assert!(close(without.impact_cloth_friction(), without.cloth.sliding_friction));
}

/// A profile without a word of jaws, of how balls meet and of the cue has the usual ones.
#[test]
fn a_profile_without_jaws_ball_contact_and_cue_has_the_usual_ones() {
    let text = shipped_text("nine-foot").expect("it ships");
    let later = ["corner_angle", "side_angle", "corner_radius", "side_radius", "corner_shelf"];
    let (text, _) = text.split_once("ball_contact:").expect("it has that section");
    let without: Vec<_> = text
        .lines()
        .filter(|line| {
            let field = line.trim_start().split(':').next().unwrap_or_default();
            !later.contains(&field) && field != "side_shelf"
        })
        .collect();
    assert_eq!(text.lines().count() - without.len(), 6);
    let short =
        parse_profile(&without.join("\n"), "short").expect("nothing that is needed is gone");
    let whole = find_profile("nine-foot", Path::new("")).expect("it ships");
    assert_eq!(short, whole);
    assert_eq!(short.table.jaws, Jaws::USUAL);
    assert_eq!((short.ball_contact, short.cue), (BallContact::USUAL, Cue::USUAL));
}
