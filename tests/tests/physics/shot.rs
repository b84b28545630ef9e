//! One ball on a table with jaws, from a state to rest.
//!
//! Derived checks and invariants; the same bank played by the straight-rail shortcut must give the
//! same numbers.

#![expect(clippy::float_cmp, reason = "what is held to the bit is meant to be")]

use proptest::prelude::*;
use railproof::profile::{parse_profile, shipped_text};
use railproof_engine::bank::{Bank, BankEnding, Launch};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::motion::BallState;
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::shot::{
    End, Ending, EventKind, HELD_BELOW_M_S, MAX_EVENTS, Shot, ShotBall, ShotError, play,
};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::{Boundary, Meeting, Owner, World};

const IMPULSE_MODELS: [RailModel; 3] =
    [RailModel::NoseAndCloth, RailModel::NoseOnly, RailModel::Planar];

fn nine_foot(model: RailModel) -> Equipment {
    let text = shipped_text("nine-foot").expect("nine-foot ships");
    let mut equipment = parse_profile(text, "nine-foot").expect("it is whole");
    equipment.cushion.rail_model = model;
    // The numbers that the derived checks below are written with.
    equipment.cloth.sliding_friction = 0.2;
    equipment.cloth.rolling_resistance = 0.0128;
    equipment.cloth.pivot_deceleration_rad_s2 = 10.0;
    equipment
}

fn state(position: (f64, f64), velocity: (f64, f64), spin: (f64, f64, f64)) -> BallState {
    BallState {
        position: Vec2::new(position.0, position.1),
        velocity: Vec2::new(velocity.0, velocity.1),
        spin: Vec3::new(spin.0, spin.1, spin.2),
    }
}

fn world(equipment: &Equipment) -> World {
    World::new(equipment, &[]).unwrap_or_else(|error| panic!("{error}"))
}

/// Of the boundaries that a ball touches there, the one that lies most nearly in that direction.
fn touched_towards(world: &World, centre: Vec2, towards: Vec2) -> Option<Boundary> {
    let lies = |boundary: &Boundary| boundary.normal_at(centre).dot(towards);
    let touched = world.grown().touched(centre).filter(|it| lies(it) > 0.0);
    touched.max_by(|one, other| lies(one).total_cmp(&lies(other))).copied()
}

/// One of the equipment's own balls on a table without obstacles.
fn alone(equipment: &Equipment, start: BallState, until_s: Option<f64>) -> Result<Shot, ShotError> {
    play(&world(equipment), &[ShotBall::of(equipment, start)], until_s)
}

fn played(equipment: &Equipment, start: BallState) -> Shot {
    alone(equipment, start, None).unwrap_or_else(|error| panic!("{error}"))
}

fn end(shot: &Shot) -> End {
    shot.ends[0]
}

fn at(shot: &Shot, time_s: f64) -> BallState {
    shot.state_at(0, time_s).expect("there is one ball")
}

fn kinds(shot: &Shot) -> Vec<&'static str> {
    shot.events.iter().map(|event| event.kind.name()).collect()
}

fn numbers(state: &BallState) -> [f64; 7] {
    let BallState { position, velocity, spin } = state;
    [position.x, position.y, velocity.x, velocity.y, spin.x, spin.y, spin.z]
}

/// The state in a mirror: x → −x, y → −y, or both. Spin is an axial vector.
fn mirrored(state: &BallState, flip_x: bool, flip_y: bool) -> BallState {
    let sign = |flip: bool| if flip { -1.0 } else { 1.0 };
    let (x, y) = (sign(flip_x), sign(flip_y));
    BallState {
        position: Vec2::new(x * state.position.x, y * state.position.y),
        velocity: Vec2::new(x * state.velocity.x, y * state.velocity.y),
        spin: Vec3::new(y * state.spin.x, x * state.spin.y, x * y * state.spin.z),
    }
}

/// Rolling from 1 m/s in the middle of a table that is too long to be crossed: μr·g =
/// 0.0128·9.80665 m/s²; way v²/(2·μr·g), time v/(μr·g) (uniform deceleration; derived).
#[test]
fn a_rolling_ball_rolls_out_after_half_its_speed_squared_over_its_deceleration() {
    let mut equipment = nine_foot(RailModel::NoseAndCloth);
    equipment.table.length_m = 4.0;
    let speed = 0.6;
    let start =
        state((-1.5, 0.1), (speed, 0.0), (0.0, 0.0, 0.0)).rolling(equipment.ball.radius_m());
    let shot = played(&equipment, start);
    assert_eq!(kinds(&shot), ["start", "stop"]);
    let deceleration = 0.0128 * 9.806_65;
    let stop = shot.events[1];
    assert!((stop.time_s - speed / deceleration).abs() < 1e-12 * stop.time_s);
    let way = stop.after.position.x + 1.5;
    assert!((way - speed * speed / (2.0 * deceleration)).abs() < 1e-12);
    assert_eq!(stop.after.position.y, 0.1);
    assert_eq!(end(&shot).ending, Ending::AtRest);
}

/// Without spin at 1 m/s and μs = 0.2 the ball slides (2/7)·v/(μs·g), over (12/49)·v²/(μs·g), and
/// then rolls at (5/7)·v (Coriolis 1835; derived).
#[test]
fn a_stunned_ball_begins_to_roll_at_five_sevenths_of_its_speed() {
    let equipment = nine_foot(RailModel::NoseAndCloth);
    let shot = played(&equipment, state((-0.9, 0.0), (1.0, 0.0), (0.0, 0.0, 0.0)));
    let roll = shot.events[1];
    let friction = 0.2 * 9.806_65;
    assert_eq!(roll.kind, EventKind::Roll);
    assert!((roll.time_s - 2.0 / 7.0 / friction).abs() < 1e-14);
    assert!((roll.after.position.x + 0.9 - 12.0 / 49.0 / friction).abs() < 1e-14);
    assert!((roll.after.velocity.x - 5.0 / 7.0).abs() < 1e-14);
    let turned = roll.after.spin.y * equipment.ball.radius_m();
    assert!((turned - 5.0 / 7.0).abs() < 1e-14);
}

/// A square hit of a rolling ball on a frictionless wall with restitution e leaves it rolling at
/// (5e − 2)/7 of its speed (derived): friction acts only at the cloth, after the hit.
#[test]
fn a_square_hit_of_a_smooth_rail_leaves_the_rolling_speed_that_follows_from_restitution() {
    let mut equipment = nine_foot(RailModel::Planar);
    equipment.cushion.nose_friction = 0.0;
    equipment.cushion.restitution = 0.8;
    equipment.cushion.restitution_loss_s_m = 0.0;
    let radius = equipment.ball.radius_m();
    let start = state((0.3, 0.5), (0.0, 1.0), (0.0, 0.0, 0.0)).rolling(radius);
    let shot = played(&equipment, start);
    assert_eq!(&kinds(&shot)[..4], ["start", "cushion", "leave", "roll"]);
    let (cushion, roll) = (shot.events[1], shot.events[3]);
    let speed = cushion.before.velocity.y;
    let expected = -(5.0 * 0.8 - 2.0) / 7.0 * speed;
    assert!((roll.after.velocity.y - expected).abs() < 1e-14);
    let EventKind::Cushion(touch) = cushion.kind else { panic!("{cushion:?}") };
    assert_eq!((touch.rail, touch.touch.restitution), (Rail::Left, 0.8));
}

/// Spin about the vertical dies at its own rate (10 rad/s² in this profile), and only then has the
/// ball stopped.
#[test]
fn a_ball_that_spins_on_the_spot_stops_when_its_spin_has_died() {
    let equipment = nine_foot(RailModel::NoseAndCloth);
    let shot = played(&equipment, state((0.2, 0.1), (0.0, 0.0), (0.0, 0.0, -25.0)));
    assert_eq!(kinds(&shot), ["start", "stop"]);
    assert!((shot.events[1].time_s - 2.5).abs() < 1e-15);
    assert!((at(&shot, 1.0).spin.z + 15.0).abs() < 1e-13);
    assert_eq!(numbers(&end(&shot).state), [0.2, 0.1, 0.0, 0.0, 0.0, 0.0, 0.0]);
}

#[test]
fn a_ball_at_rest_has_stopped_already() {
    let equipment = nine_foot(RailModel::NoseAndCloth);
    let shot = played(&equipment, state((0.2, 0.1), (0.0, 0.0), (0.0, 0.0, 0.0)));
    assert_eq!(kinds(&shot), ["start"]);
    assert_eq!((end(&shot).ending, end(&shot).time_s), (Ending::AtRest, 0.0));
}

#[test]
fn a_ball_into_each_pocket_leaves_the_table_on_the_drop_line() {
    let equipment = nine_foot(RailModel::NoseAndCloth);
    for pocket in Pocket::ALL {
        let drop = world(&equipment).pocket(pocket).drop;
        let (from, velocity) = (drop.middle - drop.normal * 0.4, drop.normal * 3.0);
        let shot =
            played(&equipment, state((from.x, from.y), (velocity.x, velocity.y), (0.0, 0.0, 0.0)));
        assert_eq!(end(&shot).ending, Ending::Dropped(pocket));
        let last = shot.events.last().expect("there is a start");
        assert_eq!(last.kind, EventKind::Drop(pocket));
        assert!((last.after.position - drop.middle).norm() < 1e-12, "{pocket:?} {last:?}");
        assert_eq!(last.before, last.after);
        assert!(!kinds(&shot).contains(&"cushion") && !kinds(&shot).contains(&"jaw"));
    }
}

#[test]
fn a_frozen_ball_that_moves_into_its_cushion_meets_it_at_once() {
    for model in IMPULSE_MODELS {
        let equipment = nine_foot(model);
        let groove = 0.5 * equipment.table.width_m - equipment.groove_m();
        let shot = played(&equipment, state((0.5, groove), (-1.0, 2.0), (0.0, 0.0, 0.0)));
        assert_eq!(&kinds(&shot)[..2], ["start", "cushion"]);
        let cushion = shot.events[1];
        assert_eq!(cushion.time_s, 0.0);
        assert_eq!(cushion.after.position.y.to_bits(), groove.to_bits());
        assert!(cushion.after.velocity.y < 0.0);
    }
}

/// A ball with much follow, dead on the rail: the cloth drives it back time and again until its
/// bounces are no longer resolved and it stays on the groove, where the cloth rubs the follow off.
#[test]
fn a_ball_with_much_follow_ends_up_held_against_the_cushion() {
    for model in IMPULSE_MODELS {
        let mut equipment = nine_foot(model);
        // A dull cushion, so that the bounces die before the follow does.
        equipment.cushion.restitution = 0.5;
        equipment.cushion.restitution_floor = 0.3;
        let radius = equipment.ball.radius_m();
        let start = state((0.5, 0.55), (0.0, 1.0), (-12.0 / radius, 0.0, 0.0));
        let shot = played(&equipment, start);
        let cushions = kinds(&shot).iter().filter(|kind| **kind == "cushion").count();
        assert!(cushions > 2 && shot.events.len() < MAX_EVENTS, "{cushions}");
        assert_eq!(end(&shot).ending, Ending::AtRest, "{model:?}");
        let groove = 0.5 * equipment.table.width_m - equipment.groove_m();
        assert_eq!(end(&shot).state.position.y.to_bits(), groove.to_bits(), "{model:?}");
        assert!((end(&shot).state.position.x - 0.5).abs() < 1e-12);
        // Its last bounce is one that came back too slowly to be resolved.
        let last = shot.events.iter().rfind(|event| event.kind.name() == "cushion");
        let last = last.expect("it met the cushion");
        assert_eq!(last.after.velocity.y, 0.0);
        assert!(last.before.velocity.y < 10.0 * HELD_BELOW_M_S);
        // The planar cushion does not touch this spin, so the cloth alone rubs it off, at
        // (5/2)·μs·g (derived).
        if model == RailModel::Planar {
            let rubbed_s = -last.after.spin.x * radius / (2.5 * 0.2 * 9.806_65);
            assert!((end(&shot).time_s - last.time_s - rubbed_s).abs() < 1e-6);
        }
    }
}

/// A held ball that also rolls along the rail stays exactly on the groove, keeps going the way it
/// went, and comes to rest.
#[test]
fn a_held_ball_runs_along_the_cushion_and_rolls() {
    let equipment = nine_foot(RailModel::NoseAndCloth);
    let groove = 0.5 * equipment.table.width_m - equipment.groove_m();
    let radius = equipment.ball.radius_m();
    // Moving along +x with roll, and follow into the left rail.
    let start = state((0.2, groove), (0.3, 0.0), (-4.0 / radius, 0.3 / radius, 0.0));
    let shot = played(&equipment, start);
    for step in 0..200 {
        let now = at(&shot, 0.005 * f64::from(step));
        assert_eq!(now.position.y.to_bits(), groove.to_bits());
        assert_eq!(now.velocity.y, 0.0);
    }
    assert_eq!(end(&shot).ending, Ending::AtRest);
    assert!(end(&shot).state.position.x > 0.2);
}

#[test]
fn without_friction_the_shot_is_given_up_or_never_ends() {
    let mut equipment = nine_foot(RailModel::Planar);
    equipment.cloth.sliding_friction = 0.0;
    equipment.cloth.rolling_resistance = 0.0;
    equipment.cushion.restitution = 1.0;
    equipment.cushion.restitution_loss_s_m = 0.0;
    let across = state((0.4, 0.0), (0.0, 2.0), (0.0, 0.0, 0.0));
    let shot = played(&equipment, across);
    assert_eq!(end(&shot).ending, Ending::GivenUp);
    assert_eq!(shot.events.len(), MAX_EVENTS);
    let cut = alone(&equipment, across, Some(3.0)).expect("it is good");
    assert_eq!((end(&cut).ending, end(&cut).time_s), (Ending::TimeOver, 3.0));
    assert_eq!(numbers(&end(&cut).state), numbers(&at(&shot, 3.0)));

    let spinning = state((0.4, 0.0), (0.0, 0.0), (3.0, 0.0, 0.0));
    let shot = played(&equipment, spinning);
    assert_eq!(end(&shot).ending, Ending::Unending);
    assert_eq!(at(&shot, 1e6).spin.x, 3.0);
}

#[test]
fn an_end_time_cuts_the_same_shot_short() {
    let equipment = nine_foot(RailModel::NoseAndCloth);
    let start = state((0.1, -0.2), (1.0, 2.0), (0.0, 0.0, 30.0));
    let whole = played(&equipment, start);
    for until in [0.0, 0.1, 0.4, 1.0, 3.0] {
        let cut = alone(&equipment, start, Some(until)).expect("it is good");
        assert_eq!(end(&cut).ending, Ending::TimeOver);
        assert_eq!(end(&cut).time_s, until);
        let kept = whole.events.iter().filter(|event| event.time_s <= until).count();
        assert_eq!(cut.events, whole.events[..kept]);
        for (a, b) in numbers(&end(&cut).state).iter().zip(numbers(&at(&whole, until))) {
            assert!((a - b).abs() <= 1e-12 * (1.0 + b.abs()), "{a} {b}");
        }
    }
    let late = alone(&equipment, start, Some(1e3)).expect("it is good");
    assert_eq!(late, whole);
}

#[test]
fn starts_that_are_none_are_refused() {
    let equipment = nine_foot(RailModel::NoseAndCloth);
    let refused = |start, until| alone(&equipment, start, until).expect_err("it is bad");
    let good = state((0.0, 0.0), (1.0, 0.0), (0.0, 0.0, 0.0));
    let with = |change: fn(&mut BallState)| {
        let mut bad = good;
        change(&mut bad);
        bad
    };
    let not_finite = ShotError::NotFinite { ball: 0 };
    assert_eq!(refused(with(|bad| bad.velocity.x = f64::NAN), None), not_finite);
    assert_eq!(refused(with(|bad| bad.spin.z = f64::INFINITY), None), not_finite);
    assert!(matches!(
        refused(with(|bad| bad.position.x = 1.3), None),
        ShotError::Inside { ball: 0, owner: Owner::Nose(Rail::Foot), .. }
    ));
    // In the middle of the mouth a ball may lie, past the drop line it may not.
    let drop = world(&equipment).pocket(Pocket::HeadRight).drop;
    let towards = |past_m: f64| BallState { position: drop.middle + drop.normal * past_m, ..good };
    assert!(alone(&equipment, towards(-0.01), None).is_ok());
    assert!(matches!(
        refused(towards(0.001), None),
        ShotError::InPocket { ball: 0, pocket: Pocket::HeadRight, past_m }
            if (past_m - 0.001).abs() < 1e-12
    ));
    assert!(matches!(refused(with(|bad| bad.velocity.y = 1e9), None), ShotError::TooFast { .. }));
    assert!(matches!(refused(good, Some(f64::NAN)), ShotError::Until { .. }));
    assert!(matches!(refused(good, Some(-1.0)), ShotError::Until { .. }));
    let compliant = nine_foot(RailModel::Compliant);
    assert_eq!(alone(&compliant, good, None), Err(ShotError::Compliant));
    assert_eq!(play(&world(&equipment), &[], None), Err(ShotError::Count { count: 0 }));
}

/// Many banks by both ways: the straight-rail shortcut and the event loop. With and without
/// contact time. The shortcut ends at the mouth's line, from which the loop plays on.
#[test]
fn a_bank_plays_alike_by_the_shortcut_and_by_the_loop() {
    let mut arrived = 0;
    let contact_times = [0.0, nine_foot(RailModel::default()).cushion.contact_time_s];
    for (model, contact_time_s) in
        IMPULSE_MODELS.into_iter().flat_map(|model| contact_times.map(|time_s| (model, time_s)))
    {
        let mut equipment = nine_foot(model);
        equipment.cushion.contact_time_s = contact_time_s;
        for (rail, pocket) in [
            (Rail::Left, Pocket::FootRight),
            (Rail::Right, Pocket::HeadLeft),
            (Rail::Foot, Pocket::HeadRight),
            (Rail::Head, Pocket::FootLeft),
            (Rail::Left, Pocket::SideRight),
        ] {
            let bank = Bank::new(&equipment, rail, pocket, model).expect("it is a bank");
            for (contact, slope) in [(1.0, 2.2), (1.5, 2.2), (2.0, 2.2), (0.7, 2.0), (2.5, 2.25)] {
                for (off_rail_m, speed_m_s, roll, side) in
                    [(0.0, 3.0, 0.0, 0.0), (0.3, 2.0, 0.0, 0.3), (0.1, 4.0, 0.5, -0.2)]
                {
                    let launch = Launch { off_rail_m, speed_m_s, roll, side, aim_error_rad: 0.002 };
                    let line = Line::new(contact, slope * contact);
                    arrived += usize::from(same_bank(&bank, line, launch));
                }
            }
        }
    }
    assert!(arrived > 120, "only {arrived} banks came to their mouth");
}

/// Holds one bank to the loop; true when it came to the mouth.
fn same_bank(bank: &Bank, line: Line, launch: Launch) -> bool {
    let outcome = bank.play(line, launch).expect("it is in range");
    let geometry = bank.geometry();
    let to_table = |state: &BallState| BallState {
        position: geometry.to_table(state.position),
        velocity: geometry.direction_to_table(state.velocity),
        spin: geometry.spin_to_table(state.spin),
    };
    let close = |ours: &BallState, theirs: &BallState, what: &str| {
        let theirs = to_table(theirs);
        for (a, b) in numbers(ours).iter().zip(numbers(&theirs)) {
            // Spin in rad/s: 1e-12 of a metre per second at the ball's surface.
            assert!((a - b).abs() < 1e-12 * (1.0 + b.abs()), "{what}: {a} {b} {line:?} {launch:?}");
        }
    };
    let (Some(at_rail), Some(rebound)) = (outcome.at_rail, outcome.rebound) else { return false };
    let shot = played(bank.equipment(), to_table(&outcome.launch));
    let mut after = shot.events.iter().skip_while(|event| event.kind.name() != "cushion");
    let cushion = after.next().expect("the ball comes to the rail");
    assert!((cushion.time_s - at_rail.time_s).abs() < 1e-12);
    close(&cushion.before, &at_rail.state, "at the rail");
    let off = match shot.events.iter().find(|event| event.kind == EventKind::Leave) {
        Some(leave) if rebound.held_s > 0.0 => {
            assert!((leave.time_s - cushion.time_s - rebound.held_s).abs() < 1e-12);
            leave.after
        }
        _ => cushion.after,
    };
    close(&off, &rebound.state, "off the rail");
    let (BankEnding::AtMouth, Some(arrival)) = (outcome.ending, outcome.arrival) else {
        return false;
    };
    let at_mouth_s = cushion.time_s + arrival.time_s;
    let on_the_way: Vec<_> = after.take_while(|event| event.time_s < at_mouth_s).collect();
    let met_something =
        on_the_way.iter().any(|event| !matches!(event.kind, EventKind::Leave | EventKind::Roll));
    // A ball that passes the mouth's points at less than its own reach touches one of them first.
    let clearance_m = arrival.clearance_long_m.min(arrival.clearance_short_m);
    assert!(!met_something || clearance_m < 0.0, "{clearance_m} m {on_the_way:?}");
    if met_something {
        return false;
    }
    close(&at(&shot, at_mouth_s), &arrival.state, "at the mouth");
    true
}

/// The spin of a slow ball keeps it at the corner of a jaw all the way around.
#[test]
fn a_ball_that_its_spin_holds_around_a_jaws_corner_is_never_inside_it() {
    let mut equipment = nine_foot(RailModel::Planar);
    equipment.cushion.contact_time_s = 0.0;
    equipment.table.jaws.contact_time_s = 0.0;
    let start =
        state((1.035_202_517_4, -0.607_486_266_3), (0.386_692_7, 0.0), (113.8335, 0.0, 0.0));
    let (world, shot) = (world(&equipment), played(&equipment, start));
    let corner = world.grown().touched(at(&shot, 0.638).position).next();
    assert!(corner.is_some_and(|it| it.curvature_1_m() > 0.0), "{corner:?}");
    for step in 0..20_000 {
        let time_s = end(&shot).time_s * f64::from(step) / 20_000.0;
        let past_m = world.grown().obstructed(at(&shot, time_s).position).map_or(0.0, |it| it.0);
        assert!(past_m < 1e-12, "{past_m} m at {time_s} s");
    }
}

/// The number of cases: a few thousand unless the environment asks for another number.
fn cases() -> ProptestConfig {
    let asked = std::env::var("RAILPROOF_CASES").ok().and_then(|text| text.parse().ok());
    ProptestConfig { cases: asked.unwrap_or(3000), ..ProptestConfig::default() }
}

/// Tables by every impulse model, with contacts that last and with impulses only.
fn any_table() -> impl Strategy<Value = Equipment> {
    let model = prop::sample::select(&IMPULSE_MODELS[..]);
    let contact_time_s = prop_oneof![Just(0.0), Just(0.01)];
    (model, contact_time_s).prop_map(|(model, contact_time_s)| {
        let mut equipment = nine_foot(model);
        equipment.cushion.contact_time_s = contact_time_s;
        equipment.table.jaws.contact_time_s = contact_time_s;
        equipment
    })
}

/// Starts inside the grooves, some of them frozen to a long rail.
fn any_start() -> impl Strategy<Value = BallState> {
    let groove = {
        let equipment = nine_foot(RailModel::NoseAndCloth);
        0.5 * equipment.table.width_m - equipment.groove_m()
    };
    let y = prop_oneof![4 => -0.6..0.6_f64, 1 => Just(groove), 1 => Just(-groove)];
    let spin = prop_oneof![3 => -250.0..250.0_f64, 1 => Just(0.0)];
    let speed = prop_oneof![5 => -6.0..6.0_f64, 1 => Just(0.0)];
    (-1.1..1.1_f64, y, speed.clone(), speed, spin.clone(), spin.clone(), spin)
        .prop_map(|(x, y, vx, vy, wx, wy, wz)| state((x, y), (vx, vy), (wx, wy, wz)))
}

proptest! {
    #![proptest_config(cases())]

    #[test]
    fn mirrored_shots_match_to_the_bit(equipment in any_table(), start in any_start()) {
        let shot = played(&equipment, start);
        for (flip_x, flip_y) in [(true, false), (false, true), (true, true)] {
            let other = played(&equipment, mirrored(&start, flip_x, flip_y));
            prop_assert_eq!(kinds(&shot), kinds(&other));
            for (ours, theirs) in shot.events.iter().zip(&other.events) {
                prop_assert_eq!(ours.time_s.to_bits(), theirs.time_s.to_bits());
                for (a, b) in [(&ours.before, &theirs.before), (&ours.after, &theirs.after)] {
                    let back = numbers(&mirrored(b, flip_x, flip_y));
                    for (a, b) in numbers(a).iter().zip(back) {
                        // Zero and its mirror image are one number with two signs.
                        prop_assert!(a.to_bits() == b.to_bits() || (*a == 0.0 && b == 0.0));
                    }
                }
            }
        }
    }

    #[test]
    fn energy_never_grows_and_events_stand_in_order(
        equipment in any_table(),
        start in any_start(),
    ) {
        let world = world(&equipment);
        let shot = played(&equipment, start);
        let radius = equipment.ball.radius_m();
        // The integrated impact is held to 1e-9 of the energy it is given.
        let mut left = start.energy_per_mass(radius) * (1.0 + 1e-12);
        let mut time_s = 0.0;
        for event in &shot.events {
            prop_assert!(event.time_s >= time_s);
            time_s = event.time_s;
            for state in [&event.before, &event.after] {
                prop_assert!(state.is_finite());
                let energy = state.energy_per_mass(radius);
                prop_assert!(energy <= left * (1.0 + 1e-9) + 1e-18, "{} > {}", energy, left);
                left = energy.min(left);
            }
            if event.kind.touch().is_none() {
                prop_assert_eq!(event.before, event.after);
                continue;
            }
            let place = event.before.position;
            prop_assert_eq!(place, event.after.position);
            let boundary = touched_towards(&world, place, event.before.velocity);
            let boundary = boundary.expect("it touches what it moves into");
            let into = boundary.normal_at(place);
            prop_assert!(into.dot(event.before.velocity) > 0.0);
            match (event.kind, boundary.owner) {
                (EventKind::Cushion(touch), Owner::Nose(rail)) => {
                    prop_assert_eq!(touch.rail, rail);
                    let groove = world.grown().groove_offset_m(rail);
                    prop_assert_eq!(rail.outward().dot(place), groove);
                    prop_assert!(into.dot(event.after.velocity) <= 0.0);
                }
                (EventKind::Jaw { pocket, .. }, Owner::Jaw { pocket: other, .. }) => {
                    prop_assert_eq!(pocket, other);
                    let gap = boundary.gap(place).expect("it is over the jaw's length");
                    prop_assert!(gap.abs() < 1e-12, "{} m off the jaw", gap);
                    let off = into.dot(event.after.velocity);
                    prop_assert!(off <= 1e-12, "{} m/s into the jaw", off);
                }
                (kind, owner) => prop_assert!(false, "{:?} at {:?}", kind, owner),
            }
        }
        prop_assert!(matches!(end(&shot).ending, Ending::AtRest | Ending::Dropped(_)));
        prop_assert_eq!(shot.events.last().map(|event| event.after), Some(end(&shot).state));
    }

    #[test]
    fn the_ball_goes_on_where_it_was_and_never_enters_a_cushion(
        equipment in any_table(),
        start in any_start(),
    ) {
        let world = world(&equipment);
        let shot = played(&equipment, start);
        let steps = 400;
        let fastest = start.velocity.norm() + 0.03 * start.spin.norm();
        let mut before: Option<(f64, BallState)> = None;
        for step in 0..=steps {
            let time_s = end(&shot).time_s * f64::from(step) / f64::from(steps);
            let now = at(&shot, time_s);
            match world.grown().obstructed(now.position) {
                None => {}
                Some((past_m, Meeting::Touch(it))) => {
                    prop_assert!(past_m < 1e-12, "{} m inside {:?}", past_m, it.owner);
                }
                Some((past_m, Meeting::Drop(pocket))) => {
                    prop_assert!(past_m < 1e-12, "{} m down {:?}", past_m, pocket);
                }
            }
            if let Some((earlier, last)) = before {
                let way = (now.position - last.position).norm();
                prop_assert!(way <= fastest * (time_s - earlier) + 1e-12);
            }
            before = Some((time_s, now));
        }
        for event in &shot.events {
            let there = numbers(&at(&shot, event.time_s));
            let just_before = at(&shot, event.time_s * (1.0 - 1e-15));
            let before = event.before.position;
            // A ball that its spin holds against a jaw goes round its point in parabolas that end on
            // the point, each by at most (0.25 mm)⁴/(8·(34 mm)³) = 1.2e-11 m off it between.
            let groove = |rail| world.grown().groove_offset_m(rail);
            let in_opening =
                before.x.abs() > groove(Rail::Foot) || before.y.abs() > groove(Rail::Left);
            let jump = if in_opening { 1e-9 } else { 1e-12 * (1.0 + fastest) };
            prop_assert!((just_before.position - before).norm() < jump);
            // While a contact lasts the ball has the velocity along the cushion.
            let held = event.kind.touch().is_some() && equipment.cushion.contact_time_s > 0.0;
            let after = if held {
                let at_event = at(&shot, event.time_s);
                let boundary = touched_towards(&world, before, event.before.velocity);
                let into = boundary.expect("it touches something").normal_at(before);
                prop_assert!(into.dot(at_event.velocity).abs() < 1e-12 * (1.0 + fastest));
                numbers(&BallState { velocity: at_event.velocity, ..event.after })
            } else {
                numbers(&event.after)
            };
            for (a, b) in there.iter().zip(after) {
                // Two events can share a moment; then it is the later one's state.
                let shared = shot.events.iter().filter(|other| other.time_s == event.time_s);
                prop_assert!((a - b).abs() < 1e-9 * (1.0 + b.abs()) || shared.count() > 1);
            }
        }
    }
}
