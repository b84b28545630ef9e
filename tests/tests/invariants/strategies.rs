//! Random valid inputs: the limits come from the engine's own parameters, and both ends of a range
//! are tried often.

use proptest::prelude::*;
use proptest::test_runner::FileFailurePersistence;
use railproof_engine::bank::{Bank, Launch};
use railproof_engine::equipment::{
    Ball, BallContact, Cloth, Cue, Cushion, Equipment, Jaws, Parameter, RailModel, RailTop,
    SpokenSpeeds, Table,
};
use railproof_engine::impact::{Bounce, CushionContact};
use railproof_engine::motion::{BallState, ClothMotion};
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_tests::shipped_equipment;

/// Inputs for each property unless `RAILPROOF_CASES` says otherwise.
pub const DEFAULT_CASES: u32 = 5_000;

/// The configuration of a property for which one case costs `share` times as much as usual.
pub fn cases(share: u32) -> ProptestConfig {
    let cases = match std::env::var("RAILPROOF_CASES") {
        Ok(text) => text.parse().unwrap_or_else(|error| panic!("RAILPROOF_CASES={text}: {error}")),
        Err(_) => DEFAULT_CASES,
    };
    ProptestConfig {
        cases: cases.div_ceil(share),
        failure_persistence: Some(Box::new(FileFailurePersistence::SourceParallel(
            "proptest-regressions",
        ))),
        ..ProptestConfig::default()
    }
}

/// A value from `low` to `high`, one in eight of them at an end.
pub fn between(low: f64, high: f64) -> impl Strategy<Value = f64> + Clone {
    (0.0..1.0_f64, 0_u8..16).prop_map(move |(share, end)| match end {
        0 => low,
        1 => high,
        _ => (low + share * (high - low)).min(high),
    })
}

/// A value of which every order of magnitude from `low` to `high` is as likely.
pub fn any_size(low: f64, high: f64) -> impl Strategy<Value = f64> + Clone {
    (0.0..=1.0_f64).prop_map(move |share| (low * (high / low).powf(share)).clamp(low, high))
}

/// Anything that a parameter accepts, in SI units.
pub fn accepted(parameter: Parameter) -> impl Strategy<Value = f64> + Clone {
    let units = parameter.dimension.units();
    let si = units.iter().find(|unit| unit.symbol == parameter.unit).map_or(1.0, |unit| unit.si);
    between(parameter.low * si, parameter.high * si)
}

/// The shipped nine-foot table by each impulse model, with cushions of any friction that hold a ball for
/// one of these times and jaws that hold it for a tenth.
pub fn nine_foot(held_s: &[f64]) -> impl Strategy<Value = Equipment> + use<> {
    (impulse_model(), prop::sample::select(held_s.to_vec()), 0.0..0.3_f64).prop_map(
        |(model, contact_time_s, friction)| {
            let mut equipment = shipped_equipment("nine-foot");
            equipment.cushion.rail_model = model;
            equipment.cushion.contact_time_s = contact_time_s;
            equipment.table.jaws.contact_time_s = 0.1 * contact_time_s;
            equipment.cushion.nose_friction = friction;
            equipment
        },
    )
}

fn table() -> impl Strategy<Value = Table> {
    (
        accepted(Table::LENGTH),
        accepted(Table::WIDTH),
        accepted(Table::CORNER_MOUTH),
        accepted(Table::SIDE_MOUTH),
        accepted(Table::SIGHT_SETBACK),
    )
        .prop_map(|(length_m, width_m, corner_mouth_m, side_mouth_m, sight_setback_m)| Table {
            length_m,
            width_m,
            corner_mouth_m,
            side_mouth_m,
            sight_setback_m,
            jaws: Jaws::USUAL,
            rail_top: RailTop::USUAL,
        })
}

fn cloth() -> impl Strategy<Value = Cloth> {
    (
        accepted(Cloth::SLIDING_FRICTION),
        accepted(Cloth::ROLLING_RESISTANCE),
        accepted(Cloth::PIVOT_DECELERATION),
    )
        .prop_map(|(sliding_friction, rolling_resistance, pivot_deceleration_rad_s2)| Cloth {
            sliding_friction,
            rolling_resistance,
            pivot_deceleration_rad_s2,
        })
}

fn cushion(diameter_m: f64, nose_ratio: f64) -> impl Strategy<Value = Cushion> {
    (
        accepted(Cushion::RESTITUTION),
        accepted(Cushion::RESTITUTION_LOSS),
        accepted(Cushion::RESTITUTION_FLOOR),
        accepted(Cushion::NOSE_FRICTION),
        proptest::option::weighted(0.7, accepted(Cushion::IMPACT_CLOTH_FRICTION)),
        accepted(Cushion::CHECKED_SPEED),
        accepted(Cushion::CONTACT_TIME),
    )
        .prop_map(move |(restitution, loss, floor, friction, cloth, checked, time)| Cushion {
            rail_model: RailModel::NoseAndCloth,
            nose_height_m: nose_ratio * diameter_m,
            restitution,
            restitution_loss_s_m: loss,
            restitution_floor: floor,
            nose_friction: friction,
            impact_cloth_friction: cloth,
            checked_speed_m_s: checked,
            contact_time_s: time,
        })
}

/// Anything that passes for equipment.
pub fn equipment() -> impl Strategy<Value = Equipment> {
    (accepted(Ball::DIAMETER), accepted(Ball::MASS), accepted(Cushion::NOSE_RATIO))
        .prop_flat_map(|(diameter_m, mass_kg, nose_ratio)| {
            (
                table(),
                Just(Ball { diameter_m, mass_kg }),
                cloth(),
                cushion(diameter_m, nose_ratio),
                accepted(Equipment::GRAVITY),
            )
        })
        .prop_map(|(table, ball, cloth, cushion, gravity_m_s2)| {
            let name = "any".to_owned();
            let (ball_contact, cue) = (BallContact::USUAL, Cue::USUAL);
            let speeds = SpokenSpeeds::USUAL;
            Equipment { name, table, ball, cloth, cushion, ball_contact, cue, speeds, gravity_m_s2 }
                .validated()
                .expect("every part is inside its range")
        })
}

/// A table as halls have them: a cushion that gives back speed, a cloth that slows a ball. Questions
/// about where a bank holds mostly have an answer here.
pub fn playable() -> impl Strategy<Value = Equipment> {
    let numbers =
        (0.75..1.0_f64, 0.0..0.03_f64, 0.05..0.25_f64, 0.05..0.25_f64, 0.15..0.25_f64, 0.62..0.65);
    (numbers, 1.8..2.6_f64).prop_map(
        |((restitution, loss, friction, impact_cloth_friction, sliding, nose), length_m)| {
            let diameter_m = 0.057_15;
            Equipment {
                name: "playable".to_owned(),
                table: Table {
                    length_m,
                    width_m: 0.5 * length_m,
                    corner_mouth_m: 0.116,
                    side_mouth_m: 0.129,
                    sight_setback_m: 0.094,
                    jaws: Jaws::USUAL,
                    rail_top: RailTop::USUAL,
                },
                ball: Ball { diameter_m, mass_kg: 0.165 },
                cloth: Cloth {
                    sliding_friction: sliding,
                    rolling_resistance: 0.0128,
                    pivot_deceleration_rad_s2: 10.0,
                },
                cushion: Cushion {
                    rail_model: RailModel::NoseAndCloth,
                    nose_height_m: nose * diameter_m,
                    restitution,
                    restitution_loss_s_m: loss,
                    restitution_floor: 0.5,
                    nose_friction: friction,
                    impact_cloth_friction: Some(impact_cloth_friction),
                    checked_speed_m_s: 2.5,
                    contact_time_s: 0.01,
                },
                ball_contact: BallContact::USUAL,
                cue: Cue::USUAL,
                speeds: SpokenSpeeds::USUAL,
                gravity_m_s2: 9.806_65,
            }
            .validated()
            .expect("every part is inside its range")
        },
    )
}

/// The models that are solved rather than stepped in time.
pub fn impulse_model() -> impl Strategy<Value = RailModel> {
    prop::sample::select(vec![RailModel::NoseAndCloth, RailModel::NoseOnly, RailModel::Planar])
}

/// Every rail and pocket that make a bank.
pub fn rail_and_pocket() -> impl Strategy<Value = (Rail, Pocket)> {
    let mut pairs = Vec::new();
    for rail in Rail::ALL {
        for pocket in Pocket::ALL {
            if opens_elsewhere(rail, pocket) {
                pairs.push((rail, pocket));
            }
        }
    }
    prop::sample::select(pairs)
}

fn opens_elsewhere(rail: Rail, pocket: Pocket) -> bool {
    let (x, y) = pocket.signs();
    match rail {
        Rail::Head => x >= 0.0,
        Rail::Foot => x <= 0.0,
        Rail::Left => y < 0.0,
        Rail::Right => y > 0.0,
    }
}

/// Any bank by an impulse model.
pub fn any_bank() -> impl Strategy<Value = Bank> {
    (equipment(), rail_and_pocket(), impulse_model()).prop_map(
        |(equipment, (rail, pocket), model)| {
            Bank::new(&equipment, rail, pocket, model).expect("the pocket opens elsewhere")
        },
    )
}

/// Any launch; the distance off the rail is a share of the room there is.
pub fn launch() -> impl Strategy<Value = (f64, Launch)> {
    let usual = prop_oneof![Just(0.0), Just(1.0), accepted(Launch::ROLL)];
    (
        between(0.0, 1.0),
        any_size(0.01, 20.0),
        usual,
        accepted(Launch::RUNNING_SIDE),
        prop_oneof![2 => Just(0.0), 1 => accepted(Launch::AIM_ERROR)],
    )
        .prop_map(|(share, speed_m_s, roll, side, aim_error_rad)| {
            (share, Launch { off_rail_m: 0.0, speed_m_s, roll, side, aim_error_rad })
        })
}

/// The launch with its distance off the rail on this table.
pub fn placed(bank: &Bank, (share, launch): (f64, Launch)) -> Launch {
    Launch { off_rail_m: (share * bank.geometry().span_m).min(4.0), ..launch }
}

/// Any line, most of them across the table.
pub fn line() -> impl Strategy<Value = Line> {
    prop_oneof![
        6 => (-1.0..8.0_f64, -4.0..12.0_f64),
        2 => (0.0..4.0_f64, 1.5..3.0_f64).prop_map(|(contact, ratio)| (contact, ratio * contact)),
        1 => (between(-40.0, 40.0), between(-200.0, 200.0)),
    ]
    .prop_map(|(contact, start)| Line::new(contact, start))
}

/// Any cushion contact.
pub fn contact() -> impl Strategy<Value = CushionContact> {
    equipment().prop_map(|equipment| CushionContact::new(&equipment))
}

/// A cushion whose restitution is the same at every speed.
pub fn constant_contact() -> impl Strategy<Value = CushionContact> {
    contact().prop_map(|contact| CushionContact { restitution_loss_s_m: 0.0, ..contact })
}

/// Any motion into a cushion of balls with this radius.
pub fn motion_in(radius_m: f64) -> impl Strategy<Value = Bounce> {
    let angle = prop_oneof![
        6 => -1.57..1.57_f64,
        1 => Just(0.0),
        // Nearly along the cushion.
        1 => any_size(1e-6, 1e-1).prop_map(|off| core::f64::consts::FRAC_PI_2 - off),
    ];
    let spin = || prop_oneof![1 => Just(0.0), 4 => between(-4.0, 4.0)];
    let rolls = prop::bool::weighted(0.3);
    (any_size(0.01, 20.0), angle, rolls, spin(), spin(), spin()).prop_map(
        move |(speed, angle, rolls, x, y, z)| {
            let velocity = Vec2::new(speed * angle.sin(), speed * angle.cos());
            let level = if rolls { (-velocity.y, velocity.x) } else { (x * speed, y * speed) };
            let spin = Vec3::new(level.0, level.1, z * speed) * (1.0 / radius_m);
            Bounce { velocity, spin }
        },
    )
}

/// A cushion contact and a motion into it.
pub fn impact() -> impl Strategy<Value = (CushionContact, Bounce)> {
    contact().prop_flat_map(|contact| (Just(contact), motion_in(contact.radius_m)))
}

/// As [`impact`], with constant restitution.
pub fn constant_impact() -> impl Strategy<Value = (CushionContact, Bounce)> {
    constant_contact().prop_flat_map(|contact| (Just(contact), motion_in(contact.radius_m)))
}

/// As [`constant_impact`], on cushions like those in use: a nose at 60 to 66 % of the ball, frictions
/// from 0.05 to 0.3.
pub fn plausible_impact() -> impl Strategy<Value = (CushionContact, Bounce)> {
    let like_in_use = (constant_contact(), 0.2..0.32_f64, 0.05..0.3_f64, 0.05..0.3_f64);
    like_in_use.prop_flat_map(|(contact, sin_theta, nose_friction, impact_cloth_friction)| {
        let contact = CushionContact {
            sin_theta,
            cos_theta: (1.0 - sin_theta * sin_theta).sqrt(),
            nose_friction,
            impact_cloth_friction,
            ..contact
        };
        (Just(contact), motion_in(contact.radius_m))
    })
}

/// Any ball on any cloth.
pub fn free_ball() -> impl Strategy<Value = (BallState, ClothMotion)> {
    (equipment(), motion_in(1.0), 0.0..core::f64::consts::TAU).prop_map(
        |(equipment, motion, turn)| {
            let cloth = ClothMotion::new(&equipment);
            let (sin, cos) = turn.sin_cos();
            let turned = |x: f64, y: f64| Vec2::new(x * cos - y * sin, x * sin + y * cos);
            let level = turned(motion.spin.x, motion.spin.y) * (1.0 / cloth.radius_m);
            let state = BallState {
                position: Vec2::new(0.3, -0.2),
                velocity: turned(motion.velocity.x, motion.velocity.y),
                spin: Vec3::new(level.x, level.y, motion.spin.z / cloth.radius_m),
            };
            (state, cloth)
        },
    )
}

/// Size of a motion: speed and surface speed together.
pub fn size(before: &Bounce, radius_m: f64) -> f64 {
    before.velocity.norm() + radius_m * before.spin.norm()
}
