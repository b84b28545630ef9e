//! By hand, against the banks and the numbers, and the refusals.

use super::{FORGIVEN_M, Heading, LaidBall, LayError, LineSpot, Spot, direction, lay, place};
use crate::bank::{Bank, Launch};
use crate::equipment::{Ball, Equipment, RailModel};
use crate::rail::testing::nine_foot;
use crate::rail::{GeometryError, Line, Pocket, Rail};
use crate::shot::{ShotError, groove_m, touching_m};
use crate::vector::Vec2;
use crate::verdict::number_along;
use crate::world::{Obstacle, Owner, World};

fn world() -> World {
    World::new(&nine_foot(), &[]).expect("it is a table")
}

fn usual(spot: Spot) -> LaidBall {
    LaidBall { ball: nine_foot().ball, spot }
}

fn at(x: f64, y: f64) -> Spot {
    Spot::At(Vec2::new(x, y))
}

fn laid(spots: &[Spot]) -> Result<Vec<Vec2>, LayError> {
    let balls: Vec<LaidBall> = spots.iter().cloned().map(usual).collect();
    lay(&world(), &balls)
}

fn placed(spots: &[Spot]) -> Vec<Vec2> {
    laid(spots).unwrap_or_else(|error| panic!("{error}"))
}

fn on_rail(rail: Rail, number: f64, counted_from: Pocket, off_rail_m: f64) -> Spot {
    Spot::OnRail { rail, number, counted_from, off_rail_m }
}

fn behind(ball: usize, heading: Heading, gap_m: f64) -> Spot {
    Spot::Beside { ball, heading: Box::new(heading), ahead: false, gap_m }
}

/// A diamond is an eighth of 100 in along a long rail and a quarter of 50 in along an end rail.
#[test]
fn numbers_count_diamonds_from_the_pocket() {
    let groove = 0.635 - nine_foot().groove_m();
    let place = placed(&[on_rail(Rail::Left, 2.0, Pocket::FootRight, 0.3)])[0];
    assert!((place - Vec2::new(1.27 - 2.0 * 0.3175, groove - 0.3)).norm() < 1e-15);
    let place = placed(&[on_rail(Rail::Head, 1.5, Pocket::FootLeft, 0.1)])[0];
    let end_groove = 1.27 - nine_foot().groove_m();
    assert!((place - Vec2::new(0.1 - end_groove, 0.635 - 1.5 * 0.3175)).norm() < 1e-15);
    // From a side pocket towards the head.
    let place = placed(&[on_rail(Rail::Right, 1.0, Pocket::SideLeft, 0.0)])[0];
    assert_eq!(place, Vec2::new(-0.3175, -groove));
}

#[test]
fn frozen_is_on_the_groove_to_the_bit_and_numbers_come_back() {
    let (equipment, world) = (nine_foot(), world());
    for rail in Rail::ALL {
        for counted_from in Pocket::ALL {
            for number in [0.8, 1.0, 2.25, 3.0] {
                let place = placed(&[on_rail(rail, number, counted_from, 0.0)])[0];
                let across = rail.outward().dot(place);
                assert_eq!(across.to_bits(), world.grown().groove_offset_m(rail).to_bits());
                let back = number_along(&equipment, rail, counted_from, place);
                assert!((back - number).abs() < 1e-14, "{rail:?} {counted_from:?} {back}");
            }
        }
    }
}

#[test]
fn a_small_ball_is_frozen_on_its_own_groove() {
    let equipment = nine_foot();
    let small = Ball { diameter_m: 0.054, mass_kg: 0.14 };
    let spot = on_rail(Rail::Left, 2.0, Pocket::FootRight, 0.0);
    let place = lay(&world(), &[LaidBall { ball: small, spot }]).expect("it has room")[0];
    assert_eq!(place.y, 0.635 - groove_m(&equipment, &small));
    assert!(groove_m(&equipment, &small) < equipment.groove_m());
}

/// The lone-ball bank puts its ball on the same line.
#[test]
fn a_line_is_the_banks_line() {
    let equipment = nine_foot();
    for (rail, pocket) in [
        (Rail::Left, Pocket::FootRight),
        (Rail::Right, Pocket::HeadLeft),
        (Rail::Foot, Pocket::HeadRight),
        (Rail::Left, Pocket::SideRight),
    ] {
        let bank = Bank::new(&equipment, rail, pocket, RailModel::Planar).expect("it is a bank");
        let line = Line::new(1.2, 2.5);
        let at = LineSpot { rail, pocket, line };
        for off_rail_m in [0.0, 0.25] {
            let launch = Launch { off_rail_m, ..Launch::frozen_stun(2.0) };
            let start = bank.play(line, launch).expect("it is in range").launch;
            let theirs = bank.geometry().to_table(start.position);
            let ours = placed(&[Spot::OnLine { line: at, off_rail_m }])[0];
            assert!((ours - theirs).norm() < 1e-15, "{rail:?} {ours:?} {theirs:?}");
            let way = direction(&world(), &[], 0, ours, &Heading::Along(at)).expect("it has one");
            let sent = bank.geometry().direction_to_table(start.velocity).unit_or_zero();
            assert!((way - sent).norm() < 1e-15);
        }
    }
}

#[test]
fn between_is_a_share_of_the_way() {
    let spots = [
        at(0.1, 0.2),
        at(0.5, -0.2),
        Spot::Between { one: Box::new(Spot::Ball(0)), other: Box::new(Spot::Ball(1)), share: 0.25 },
    ];
    assert!((placed(&spots)[2] - Vec2::new(0.2, 0.1)).norm() < 1e-15);
    // And the order in the list does not matter.
    let spots = [
        Spot::Between {
            one: Box::new(Spot::Ball(1)),
            other: Box::new(Spot::Pocket(Pocket::SideLeft)),
            share: 0.5,
        },
        at(0.0, 0.0),
    ];
    assert!((placed(&spots)[0] - Vec2::new(0.0, 0.3175)).norm() < 1e-15);
}

/// The ghost ball: on the far side of the object ball, seen from where that is to go.
#[test]
fn touching_is_two_radii_and_never_less() {
    let diameter = nine_foot().ball.diameter_m;
    for step in 0..500 {
        let angle = 0.0126 * f64::from(step);
        let object = at(0.3 + 1e-4 * f64::from(step), -0.1234);
        let places = placed(&[object, behind(0, Heading::Angle(angle), 0.0)]);
        let apart = places[1] - places[0];
        assert!(apart.norm() >= diameter && apart.norm() < diameter + 1e-15);
        let wanted = Vec2::new(-libm::cos(angle), -libm::sin(angle));
        assert!((apart.unit_or_zero() - wanted).norm() < 1e-14);
    }
    let pocket = Heading::To(Spot::Pocket(Pocket::FootLeft));
    let places = placed(&[at(0.5, 0.0), behind(0, pocket, 0.3)]);
    assert!(((places[1] - places[0]).norm() - diameter - 0.3).abs() < 1e-15);
    assert!(places[1].x < 0.5 && places[1].y < 0.0);
}

#[test]
fn unlike_balls_touch_off_the_horizontal() {
    let (usual, small) = (nine_foot().ball, Ball { diameter_m: 0.052, mass_kg: 0.12 });
    let spot = behind(0, Heading::Angle(1.0), 0.0);
    let balls = [LaidBall { ball: usual, spot: at(0.0, 0.0) }, LaidBall { ball: small, spot }];
    let places = lay(&world(), &balls).expect("they have room");
    assert!((places[1].norm() - touching_m(&usual, &small)).abs() < 1e-15);
}

#[test]
fn what_overlaps_by_a_micrometre_is_moved_apart() {
    let equipment: Equipment = nine_foot();
    let (world, diameter) = (world(), equipment.ball.diameter_m);
    let groove = world.grown().groove_offset_m(Rail::Left);
    // A row of three, each 0.9 µm into the next, the first as much past the groove.
    let step = diameter - 0.9e-6;
    let places =
        placed(&[at(0.3, groove + 0.9e-6), at(0.3 + step, groove), at(0.3, groove - step)]);
    assert_eq!(places[0].y, groove);
    for (one, other) in [(0, 1), (0, 2), (1, 2)] {
        assert!((places[one] - places[other]).norm() >= diameter);
    }
    assert!((places[1] - Vec2::new(0.3 + diameter, groove)).norm() < 1e-9);
    let deep = laid(&[at(0.0, 0.0), at(diameter - 1.5 * FORGIVEN_M, 0.0)]);
    assert!(matches!(
        deep,
        Err(LayError::Start(ShotError::Overlap { one: 0, other: 1, deep_m })) if deep_m > 1e-6
    ));
}

#[test]
fn what_overlaps_a_box_by_a_micrometre_is_put_on_the_side_it_is_at() {
    let middle = Vec2::new(0.2, 0.1);
    let obstacle = Obstacle::rectangle("box", middle, 0.2, 0.1, 0.0);
    let world = World::new(&nine_foot(), &[obstacle]).expect("it fits");
    let reach = 0.5 * nine_foot().ball.diameter_m;
    for (x, y) in [(0.2, 0.15 + reach), (0.2, 0.05 - reach), (0.3 + reach, 0.1), (0.1 - reach, 0.1)]
    {
        let touching = Vec2::new(x, y);
        let inside = touching + (middle - touching).unit_or_zero() * 5e-7;
        let places = lay(&world, &[usual(Spot::At(inside))]).expect("it is forgiven");
        assert!((places[0] - touching).norm() < 1e-12, "{touching:?} {places:?}");
    }
    let inside = lay(&world, &[usual(at(0.2, 0.1))]);
    assert!(matches!(
        inside,
        Err(LayError::Start(ShotError::Inside { ball: 0, owner: Owner::Obstacle(0), .. }))
    ));
}

#[test]
fn circles_and_what_is_no_place_are_refused() {
    let circle = [
        at(0.0, 0.0),
        behind(2, Heading::Angle(0.0), 0.0),
        Spot::Between { one: Box::new(Spot::Ball(0)), other: Box::new(Spot::Ball(1)), share: 0.5 },
    ];
    assert_eq!(laid(&circle), Err(LayError::Circular { ball: 1, through: vec![1, 2] }));
    assert_eq!(laid(&[Spot::Ball(0)]), Err(LayError::Circular { ball: 0, through: vec![0] }));
    assert_eq!(laid(&[Spot::Ball(7)]), Err(LayError::NoSuchBall { ball: 0, other: 7 }));
    assert_eq!(laid(&[at(f64::NAN, 0.0)]), Err(LayError::NotFinite { ball: 0 }));
    let nowhere = behind(0, Heading::To(Spot::Ball(0)), 0.0);
    assert_eq!(laid(&[at(0.0, 0.0), nowhere]), Err(LayError::NoDirection { ball: 1 }));
    // The side pocket opens at 4, and past 8 the rail has ended.
    for number in [4.0, 0.1, 8.4] {
        let rail = Rail::Left;
        let refused = laid(&[on_rail(rail, number, Pocket::FootRight, 0.0)]);
        assert_eq!(refused, Err(LayError::NoCushion { ball: 0, rail, number }));
    }
    let line = LineSpot { rail: Rail::Left, pocket: Pocket::FootLeft, line: Line::new(1.0, 2.0) };
    let error = GeometryError::PocketOnRail { rail: Rail::Left, pocket: Pocket::FootLeft };
    assert_eq!(
        laid(&[Spot::OnLine { line, off_rail_m: 0.0 }]),
        Err(LayError::Geometry { ball: 0, error })
    );
    assert!(matches!(
        laid(&[on_rail(Rail::Left, 2.0, Pocket::FootRight, 1.5)]),
        Err(LayError::Start(ShotError::Inside { ball: 0, owner: Owner::Nose(Rail::Right), .. }))
    ));
}

#[test]
fn a_place_to_aim_at_need_not_be_free() {
    let ball = nine_foot().ball;
    let balls = [(ball, Vec2::new(0.3, 0.1)), (ball, Vec2::new(-0.5, 0.0))];
    assert_eq!(place(&world(), &balls, 1, &Spot::Ball(0)), Ok(Vec2::new(0.3, 0.1)));
    let ghost = place(&world(), &balls, 1, &behind(0, Heading::To(Spot::Ball(1)), 0.0));
    assert!(ghost.expect("it is a place").x > 0.3);
}
