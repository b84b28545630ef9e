//! Starts that can't be played.

use super::{at_rest, moving, table};
use railproof_engine::equipment::RailModel;
use railproof_engine::motion::BallState;
use railproof_engine::shot::{MOST_BALLS, ShotBall, ShotError, play};
use railproof_engine::world::Owner;
use railproof_tests::shipped_equipment;

fn refused(states: &[BallState]) -> ShotError {
    let equipment = shipped_equipment("nine-foot");
    let world = table(&equipment);
    let balls: Vec<ShotBall> = states.iter().map(|it| ShotBall::of(&equipment, *it)).collect();
    play(&world, &balls, None).unwrap_err()
}

#[test]
fn balls_that_can_not_lie_there_are_refused_with_what_is_in_the_way() {
    let overlap = refused(&[at_rest(0.0, 0.0), at_rest(0.05, 0.0)]);
    assert!(matches!(overlap, ShotError::Overlap { one: 0, other: 1, .. }), "{overlap}");
    let in_rail = refused(&[at_rest(0.3, 0.62)]);
    assert!(
        matches!(in_rail, ShotError::Inside { ball: 0, owner: Owner::Nose(_), .. }),
        "{in_rail}"
    );
    let off = refused(&[at_rest(0.0, 0.0), at_rest(5.0, 0.0)]);
    assert!(
        matches!(off, ShotError::Inside { ball: 1, .. } | ShotError::InPocket { ball: 1, .. }),
        "{off}"
    );
    let in_pocket = refused(&[at_rest(0.0, 0.66)]);
    assert!(matches!(in_pocket, ShotError::InPocket { .. }), "{in_pocket}");
    let in_jaw = refused(&[at_rest(0.06, 0.63)]);
    assert!(
        matches!(in_jaw, ShotError::Inside { owner: Owner::Jaw { .. } | Owner::Nose(_), .. }),
        "{in_jaw}"
    );
}

#[test]
fn counts_numbers_and_models_are_checked() {
    assert_eq!(refused(&[]), ShotError::Count { count: 0 });
    let many: Vec<BallState> = (0..=MOST_BALLS)
        .map(|i| at_rest(-1.0 + 0.1 * f64::from(u32::try_from(i).unwrap()), 0.0))
        .collect();
    assert_eq!(refused(&many), ShotError::Count { count: MOST_BALLS + 1 });
    assert_eq!(refused(&[at_rest(f64::NAN, 0.0)]), ShotError::NotFinite { ball: 0 });
    assert!(matches!(refused(&[moving(0.0, 0.0, 1e9, 0.0)]), ShotError::TooFast { .. }));
    let mut equipment = shipped_equipment("nine-foot");
    let world = table(&equipment);
    let ball = ShotBall::of(&equipment, at_rest(0.0, 0.0));
    assert!(matches!(play(&world, &[ball], Some(-1.0)), Err(ShotError::Until { .. })));
    assert!(matches!(play(&world, &[ball], Some(f64::NAN)), Err(ShotError::Until { .. })));
    let mut wrong = ball;
    wrong.ball.diameter_m = 0.02;
    assert!(matches!(play(&world, &[wrong], None), Err(ShotError::Ball { ball: 0, .. })));
    equipment.cushion.rail_model = RailModel::Compliant;
    let soft = table(&equipment);
    assert_eq!(play(&soft, &[ball], None), Err(ShotError::Compliant));
}
