//! Defects that the properties found, one test each, named for what was seen.

use railproof::profile::{parse_profile, shipped_text};
use railproof_engine::bank::{Bank, BankEnding, BankVerdict, Launch, Outcome};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::impact::{Bounce, CushionContact, nose_only, planar};
use railproof_engine::motion::{BallState, ClothMotion, Path};
use railproof_engine::rail::{Line, Pocket, Rail, Side};
use railproof_engine::vector::{Vec2, Vec3};

fn nine_foot() -> Equipment {
    let text = shipped_text("nine-foot").expect("it ships");
    parse_profile(text, "nine-foot").unwrap_or_else(|fault| panic!("{fault}"))
}

fn play(equipment: &Equipment, model: RailModel, line: Line, launch: Launch) -> (Bank, Outcome) {
    let bank = Bank::new(equipment, Rail::Left, Pocket::FootRight, model).expect("it is a bank");
    let outcome = bank.play(line, launch).expect("it is valid");
    (bank, outcome)
}

/// A low restitution under a high nose left the ball on its way into the cushion.
#[test]
fn a_dead_cushion_with_a_high_nose_stops_the_ball() {
    let mut equipment = nine_foot();
    equipment.cushion.nose_height_m = 0.7 * equipment.ball.diameter_m;
    equipment.cushion.restitution = 0.0;
    equipment.cushion.nose_friction = 0.0;
    let contact = CushionContact::new(&equipment);
    let before = Bounce { velocity: Vec2::new(0.3, 1.0), spin: Vec3::ZERO };
    assert_eq!(nose_only(&contact, before).velocity, Vec2::new(0.3, 0.0));
}

/// A ball on its way out was thrown back into the cushion.
#[test]
fn a_ball_that_leaves_the_cushion_is_left_alone() {
    let contact = CushionContact::new(&nine_foot());
    let before = Bounce { velocity: Vec2::new(0.3, -1.0), spin: Vec3::new(1.0, 2.0, 3.0) };
    for after in [planar(&contact, before), nose_only(&contact, before)] {
        assert_eq!((after.velocity, after.spin), (before.velocity, before.spin));
    }
}

/// The difference of two times, rounded, left 1e-15 m/s in a ball that rests.
#[test]
fn a_ball_at_rest_rests() {
    let cloth = ClothMotion {
        radius_m: 0.02,
        sliding_deceleration_m_s2: 1.7,
        rolling_deceleration_m_s2: 0.3,
        pivot_deceleration_rad_s2: 9.0,
    };
    for step in 1..200 {
        let start = BallState {
            position: Vec2::ZERO,
            velocity: Vec2::new(0.01 * f64::from(step), 0.7),
            spin: Vec3::ZERO,
        };
        let path = Path::new(start, cloth);
        let rest = path.state_at(path.centre_rests_from_s());
        assert_eq!((rest.velocity, rest.spin.norm()), (Vec2::ZERO, 0.0), "{start:?}");
    }
}

/// Strong draw on a cloth without rolling resistance ended at a place that is no number.
#[test]
fn a_ball_drawn_back_for_good_meets_the_opposite_rail() {
    let mut equipment = nine_foot();
    equipment.cloth.rolling_resistance = 0.0;
    let launch = Launch { off_rail_m: 0.6, roll: -3.0, ..Launch::frozen_stun(0.5) };
    let (_, outcome) = play(&equipment, RailModel::Planar, Line::new(2.0, 3.0), launch);
    match outcome.ending {
        BankEnding::OtherRail(Side::Opposite, place) => {
            assert!(place.is_finite() && place.y == 0.0);
        }
        other => panic!("{other:?}"),
    }
    assert_eq!(outcome.verdict(), BankVerdict::OtherRail);
}

/// A ball that would have crossed the end rail before it came to the banked one was said to have
/// stopped, or to have met the end rail beyond it.
#[test]
fn a_ball_meets_the_end_rail_before_the_banked_one() {
    for speed in [0.5, 4.0] {
        let launch = Launch { off_rail_m: 1.0, ..Launch::frozen_stun(speed) };
        let line = Line::new(12.0, 3.0);
        let (bank, outcome) = play(&nine_foot(), RailModel::Planar, line, launch);
        match outcome.ending {
            BankEnding::OtherRail(Side::High, place) if speed > 1.0 => {
                assert!((place.x - bank.geometry().high_groove_m).abs() < 1e-12);
                assert!(place.y > 0.0 && place.y < bank.geometry().span_m);
            }
            BankEnding::StoppedBeforeRail(place) if speed < 1.0 => {
                assert!(place.x < bank.geometry().high_groove_m);
            }
            other => panic!("{other:?}"),
        }
    }
}

/// A cushion that gives nothing back held a ball whose topspin then drove it through the cushion.
#[test]
fn topspin_off_a_dead_cushion_stays_at_the_rail() {
    let mut equipment = nine_foot();
    equipment.cushion.restitution = 0.0;
    equipment.cushion.restitution_floor = 0.0;
    // An impulse: it stays where it met the rail.
    equipment.cushion.contact_time_s = 0.0;
    let launch = Launch { roll: 1.0, ..Launch::frozen_stun(3.0) };
    let (bank, outcome) = play(&equipment, RailModel::Planar, Line::new(2.0, 4.4), launch);
    let place = Vec2::new(2.0 * bank.geometry().diamond_m, bank.geometry().span_m);
    assert_eq!(outcome.ending, BankEnding::OtherRail(Side::Banked, place));
}

/// A frozen ball whose aim error turns it away from the rail was bounced off it all the same.
#[test]
fn a_frozen_ball_aimed_away_from_the_rail_does_not_bounce() {
    for aim_error_rad in [-0.3, 0.3] {
        let launch = Launch { aim_error_rad, ..Launch::frozen_stun(1.0) };
        let line = Line::new(2.0, 40.0);
        let (_, outcome) = play(&nine_foot(), RailModel::Planar, line, launch);
        assert_eq!(outcome.at_rail.is_some(), outcome.launch.velocity.y > 0.0);
    }
}
