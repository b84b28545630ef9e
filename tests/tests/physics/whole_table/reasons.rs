//! Whole shots' misses as sums over their causes.

use super::{moving, played, table};
use railproof_engine::aim::{LineSetup, Setup};
use railproof_engine::attribution::{Cause, NotAttributed, ShotContext, of_bank, of_shot};
use railproof_engine::bank::{Bank, Launch};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::stroke::Stroke;
use railproof_engine::verdict::Target;
use railproof_tests::shipped_equipment;

const LINE: Line = Line { contact: 2.5, start: 5.5 };

fn share(why: &railproof_engine::attribution::Attribution, cause: Cause) -> Option<f64> {
    why.shares.iter().find(|share| share.cause == cause).map(|share| share.share_m)
}

/// Sent by the cue ball: the sum is the shot's miss; without side there is no squirt, straight on there
/// is no throw, and pointed at the ghost ball without either the aim is exact.
#[test]
fn squirt_throw_and_aim_have_their_shares() {
    let world = table(&shipped_equipment("nine-foot"));
    for (cut_deg, side_offset) in [(0.0, 0.0), (12.0, 0.0), (0.0, 0.2), (-15.0, 0.2)] {
        let at = LineSetup {
            rail: Rail::Left,
            pocket: Pocket::FootRight,
            line: LINE,
            off_rail_m: 0.3,
            cue_distance_m: 0.4,
            cut_rad: f64::to_radians(cut_deg),
        };
        let (setup, way) = Setup::on_line(&world, &at).unwrap();
        // Pointed at the ghost ball.
        let ghost = setup.object.state.position - way * setup.contact_m();
        let to = ghost - setup.cue.state.position;
        let stroke = Stroke { side_offset, ..Stroke::centre(3.5, to.y.atan2(to.x)) };
        let (shot, judged) = setup.judge(&stroke).unwrap();
        let squirt_rad = stroke.strike(&setup.cue.ball, &world.equipment().cue).unwrap().squirt_rad;
        let line = Some((Rail::Left, LINE));
        let facts = ShotContext { target: setup.target(), squirt_rad, line };
        let why = of_shot(&world, &shot, &facts).unwrap_or_else(|error| panic!("{error}"));
        let miss_m = judged.arrival.unwrap().miss_m;
        let sum = why.remainder_m + why.shares.iter().map(|share| share.share_m).sum::<f64>();
        assert_eq!(why.miss_m, miss_m);
        assert!((sum - miss_m).abs() < 1e-9, "{why:?}");
        // What is left is the frozen stun ball's miss on that line, but for the slight curve that the
        // spin from the cue ball gives the way to the rail. Measured: 0.34 mm.
        let bank =
            Bank::new(world.equipment(), Rail::Left, Pocket::FootRight, RailModel::NoseAndCloth);
        let frozen = bank.unwrap().play(LINE, Launch::frozen_stun(4.0)).unwrap().miss_m().unwrap();
        assert!((why.remainder_m - frozen).abs() < 1e-3, "{why:?} {frozen}");
        assert_eq!(share(&why, Cause::Squirt).is_some(), side_offset != 0.0);
        if side_offset != 0.0 {
            assert!(share(&why, Cause::Squirt).unwrap().abs() > 1e-3, "{why:?}");
        }
        let throw = share(&why, Cause::Throw).unwrap();
        assert_eq!(throw.abs() > 1e-3, cut_deg != 0.0 || side_offset != 0.0, "{why:?}");
        if side_offset == 0.0 {
            assert!(share(&why, Cause::Aim).unwrap().abs() < 1e-9, "{why:?}");
        }
    }
}

/// A ball sent off by itself has the shares of the same bank.
#[test]
fn a_ball_without_a_cue_ball_is_explained_as_its_bank() {
    let world = table(&shipped_equipment("nine-foot"));
    let bank = Bank::new(world.equipment(), Rail::Left, Pocket::FootRight, RailModel::NoseAndCloth)
        .unwrap();
    let launch = Launch { off_rail_m: 0.3, ..Launch::frozen_stun(2.5) };
    let outcome = bank.play(LINE, launch).unwrap();
    let geometry = bank.geometry();
    let (place, velocity) = (
        geometry.to_table(outcome.launch.position),
        geometry.direction_to_table(outcome.launch.velocity),
    );
    let shot = played(&world, &[moving(place.x, place.y, velocity.x, velocity.y)]);
    let target = Target { ball: 0, pocket: Pocket::FootRight, cue: None };
    let facts = ShotContext { target, squirt_rad: 0.0, line: Some((Rail::Left, LINE)) };
    let (ours, theirs) =
        (of_shot(&world, &shot, &facts).unwrap(), of_bank(&bank, LINE, &outcome).unwrap());
    assert!((ours.remainder_m - theirs.remainder_m).abs() < 1e-9);
    for (ours, theirs) in ours.shares.iter().zip(&theirs.shares) {
        assert_eq!(ours.cause, theirs.cause);
        assert!((ours.share_m - theirs.share_m).abs() < 1e-9, "{ours:?} {theirs:?}");
    }
    // Straight into the pocket it comes off no rail.
    let [a, b] = world.outline().mouth_points(Pocket::FootRight);
    let middle = (a + b) * 0.5;
    let direct = played(&world, &[moving(middle.x - 0.4, middle.y + 0.4, 1.0, -1.0)]);
    assert_eq!(of_shot(&world, &direct, &facts), Err(NotAttributed::NotOneRail));
}
