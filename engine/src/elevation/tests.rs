//! By hand, and what must hold anywhere.

use super::*;
use crate::equipment::{Cue, Equipment};
use crate::rail::Rail;
use crate::rail::testing::nine_foot;
use crate::stroke::Stroke;
use crate::units::DEGREE_RAD;
use crate::vector::Vec2;
use crate::world::{Obstacle, World};

const LEVEL: Stroke = Stroke::centre(3.0, 0.0);

fn degrees(
    world: &World,
    from: Vec2,
    stroke: &Stroke,
    others: &[StandingBall],
) -> (f64, Option<Obstruction>) {
    let ball = world.equipment().ball;
    let room = least_elevation(world, (&ball, from), others.iter().copied(), stroke, 0.0)
        .expect("there is room");
    (room.least_rad / DEGREE_RAD, room.over)
}

fn standing(position: Vec2) -> StandingBall {
    StandingBall { number: 3, position, radius_m: 0.028_575 }
}

/// A cue as thick at the butt as at the tip, whose radius then is known.
fn even(mut equipment: Equipment) -> Equipment {
    equipment.cue.shape.butt_diameter_m = equipment.cue.shape.tip_diameter_m;
    equipment
}

/// The nose stands asin(0.27) above the centre of a ball frozen to it, a ball's radius away; a cue of 6.5 mm
/// radius through the centre clears it from asin(6.5/28.575) more on.
#[test]
fn off_a_frozen_ball_at_its_centre() {
    let equipment = even(nine_foot());
    let world = World::new(&equipment, &[]).unwrap();
    let groove = world.outline().groove_offset_m(Rail::Head);
    let (least, over) = degrees(&world, Vec2::new(-groove, 0.1), &LEVEL, &[]);
    let radius = equipment.ball.radius_m();
    let wanted = libm::asin(equipment.sin_theta()) + libm::asin(0.0065 / radius);
    assert!((least * DEGREE_RAD - wanted).abs() < 1e-12, "{least}");
    assert!((28.0..30.0).contains(&least), "{least}");
    assert_eq!(over, Some(Obstruction::Rail(Rail::Head)));
    // Half the radius above the centre it needs little.
    let high = Stroke { height_offset: 0.5, ..LEVEL };
    let (least, _) = degrees(&world, Vec2::new(-groove, 0.1), &high, &[]);
    assert!((1.0..8.0).contains(&least), "{least}");
}

/// From the middle of the table the rail's upper edge decides: 42.86 mm over the cloth, 2 in behind the nose.
#[test]
fn over_a_rail_further_away() {
    let equipment = even(nine_foot());
    let world = World::new(&equipment, &[]).unwrap();
    for (aim, from, rail) in [
        (0.0, Vec2::new(-0.6, 0.1), Rail::Head),
        (180.0, Vec2::new(0.6, -0.1), Rail::Foot),
        (-90.0, Vec2::new(0.4, 0.1), Rail::Left),
        (90.0, Vec2::new(0.4, -0.1), Rail::Right),
    ] {
        let stroke = Stroke { aim_rad: aim * DEGREE_RAD, ..LEVEL };
        let (least, over) = degrees(&world, from, &stroke, &[]);
        assert_eq!(over, Some(Obstruction::Rail(rail)));
        let back = match rail {
            Rail::Head | Rail::Foot => 1.27 - 0.6,
            Rail::Left | Rail::Right => 0.635 - 0.1,
        } + 0.0508;
        let (rise, radius) = (0.042_862_5 - 0.028_575, 0.0065);
        let far = libm::hypot(back, rise);
        let wanted = libm::atan2(rise, back) + libm::asin(radius / far);
        assert!((least * DEGREE_RAD - wanted).abs() < 1e-9, "{least} at {aim}");
    }
}

/// Over a ball frozen behind the struck one: 2R·sinε clears R and the cue's radius.
#[test]
fn over_a_ball_frozen_behind() {
    let equipment = even(nine_foot());
    let world = World::new(&equipment, &[]).unwrap();
    let radius = equipment.ball.radius_m();
    let behind = standing(Vec2::new(-2.0 * radius, 0.0));
    let (least, over) = degrees(&world, Vec2::ZERO, &LEVEL, &[behind]);
    let wanted = libm::asin((radius + 0.0065) / (2.0 * radius));
    assert!((least * DEGREE_RAD - wanted).abs() < 1e-12, "{least}");
    assert_eq!(over, Some(Obstruction::Ball(3)));
    // In front, or a ball's breadth aside, it does not matter.
    let free = degrees(&world, Vec2::ZERO, &LEVEL, &[]).0;
    for place in [Vec2::new(0.06, 0.0), Vec2::new(-0.1, 0.0355), Vec2::new(-1.6, 0.0)] {
        assert_eq!(degrees(&world, Vec2::ZERO, &LEVEL, &[standing(place)]).0, free, "{place:?}");
    }
}

/// A cue low on the ball can pass beside another ball under its widest part, and is refused where it would
/// have to come up past it.
#[test]
fn a_low_cue_passes_beside_a_ball() {
    let equipment = even(nine_foot());
    let world = World::new(&equipment, &[]).unwrap();
    let low = Stroke { height_offset: -0.45, ..LEVEL };
    let ball = equipment.ball;
    let aside = standing(Vec2::new(-0.06, 0.0335));
    let least = |from_rad: f64| {
        let others = [aside];
        least_elevation(&world, (&ball, Vec2::ZERO), others, &low, from_rad).unwrap().least_rad
    };
    let alone = degrees(&world, Vec2::ZERO, &low, &[]).0 * DEGREE_RAD;
    assert!((least(0.0) - alone).abs() < 1e-15, "{}", least(0.0));
    let within = 8.0 * DEGREE_RAD;
    assert!(least(within) > within, "{}", least(within) / DEGREE_RAD);
}

#[test]
fn an_obstacle_counts_by_its_height_and_can_leave_no_room() {
    let equipment = nine_foot();
    let least = |height_m: f64, gap_m: f64| {
        let rectangle = Obstacle::rectangle("box", Vec2::new(-gap_m - 0.05, 0.0), 0.1, 0.1, 0.2);
        let world = World::new(&equipment, &[Obstacle { height_m, ..rectangle }]).unwrap();
        let ball = equipment.ball;
        least_elevation(&world, (&ball, Vec2::ZERO), [], &LEVEL, 0.0)
    };
    let free = least(0.001, 0.3).unwrap();
    assert_ne!(free.over, Some(Obstruction::Obstacle(0)));
    let mut before = free.least_rad;
    for height in [0.06, 0.1, 0.2] {
        let room = least(height, 0.2).unwrap();
        assert_eq!(room.over, Some(Obstruction::Obstacle(0)));
        assert!(room.least_rad > before, "{height}");
        before = room.least_rad;
    }
    let none = least(0.4, 0.04).expect_err("there is none");
    assert_eq!(none.over, Obstruction::Obstacle(0));
    assert!(none.to_string().contains("even at 80°"), "{none}");
}

#[test]
fn nearer_the_rail_the_cue_is_raised_further() {
    let world = World::new(&nine_foot(), &[]).unwrap();
    let groove = world.outline().groove_offset_m(Rail::Head);
    let mut before = f64::INFINITY;
    for off in [0.0, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0] {
        let (least, over) = degrees(&world, Vec2::new(off - groove, 0.2), &LEVEL, &[]);
        assert!(least < before, "{off}: {least}");
        assert_eq!(over, Some(Obstruction::Rail(Rail::Head)));
        before = least;
    }
    // Practice: a few degrees are common.
    assert!((0.5..3.0).contains(&before), "{before}");
}

#[test]
fn a_thicker_or_shorter_cue() {
    let from = Vec2::new(-0.9, 0.1);
    let with = |change: &dyn Fn(&mut Cue)| {
        let mut equipment = nine_foot();
        change(&mut equipment.cue);
        degrees(&World::new(&equipment, &[]).unwrap(), from, &LEVEL, &[]).0
    };
    let usual = with(&|_| {});
    assert!(with(&|cue| cue.shape.butt_diameter_m = 0.05) > usual);
    // It ends before the rail.
    assert!(with(&|cue| cue.shape.length_m = 0.3) < 0.5);
}

/// A box that stands higher than a raised cue's butt is as much in its way as a lower one, or more.
#[test]
fn room_does_not_grow_with_the_height_of_an_obstacle() {
    let equipment = nine_foot();
    let ball = equipment.ball;
    for gap_m in [0.03, 0.05, 0.3, 1.0] {
        let mut before = 0.0;
        for height_m in [0.05, 0.2, 0.5, 1.0, 1.4, 1.5, 1.55, 2.0] {
            let at = Vec2::new(-gap_m - 0.05, 0.0);
            let obstacle = Obstacle::rectangle("box", at, 0.1, 0.1, 0.2);
            let world = World::new(&equipment, &[Obstacle { height_m, ..obstacle }]).unwrap();
            let room = least_elevation(&world, (&ball, Vec2::ZERO), [], &LEVEL, 0.0);
            let least = room.map_or(f64::INFINITY, |room| room.least_rad);
            assert!(least >= before - 1e-12, "{gap_m} m behind, {height_m} m: {least}");
            before = least;
        }
        // A cue of 1.47 m that points down by 80° stands 0.25 m behind the ball.
        assert_eq!(before.is_infinite(), gap_m < 0.2, "{gap_m} m behind: {before}");
        if before.is_finite() {
            // Its butt's lower corner is this side of the box, whose nearest corner is 0.98 of 5 cm on.
            let reach = (equipment.cue.shape.length_m + ball.radius_m()) * libm::cos(before);
            assert!((reach - gap_m).abs() < 0.04, "{gap_m} m behind: {reach}");
        }
    }
}

/// Whole numbers that look drawn, as a share of 1 (Knuth's multiplier for 64 bits).
fn drawn(state: &mut u64) -> f64 {
    *state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
    (*state >> 11) as f64 / (1_u64 << 53) as f64
}

/// The deepest that points of the cue's skin stand in the cushions, m; negative when they are clear. Points
/// near pockets are left out: a cue that comes in over a pocket's opening meets the slope beside it with no
/// nose before it.
fn in_the_rails_m(world: &World, from: Vec2, stroke: &Stroke, least_rad: f64) -> f64 {
    let (equipment, outline) = (world.equipment(), world.outline());
    let (nose, top) = (equipment.cushion.nose_height_m, equipment.table.rail_top);
    let ball = equipment.ball.radius_m();
    let (sin_aim, cos_aim) = libm::sincos(stroke.aim_rad);
    let (sin, cos) = libm::sincos(least_rad);
    let shape = equipment.cue.shape;
    let behind = ball * (1.0 - stroke.offset() * stroke.offset()).sqrt();
    let mut deepest = f64::NEG_INFINITY;
    for part in 0..=200 {
        let share = f64::from(part) / 200.0;
        let q = behind + shape.length_m * share;
        let radius =
            0.5 * (shape.tip_diameter_m + (shape.butt_diameter_m - shape.tip_diameter_m) * share);
        for turn in 0..48 {
            let (up, right) = libm::sincos(f64::from(turn) * core::f64::consts::TAU / 48.0);
            let above = ball * stroke.height_offset + radius * up;
            let beside = ball * stroke.side_offset + radius * right;
            let back = q * cos - above * sin;
            let x = from.x - cos_aim * back + sin_aim * beside;
            let y = from.y - sin_aim * back - cos_aim * beside;
            let z = ball + q * sin + above * cos;
            let beyond = (x.abs() - outline.half_length_m).max(y.abs() - outline.half_width_m);
            let near_a_pocket = (x.abs() > outline.half_length_m - 0.4 || x.abs() < 0.4)
                && y.abs() > outline.half_width_m - 0.4;
            if beyond > 0.0 && !near_a_pocket {
                let slope = (top.height_m - nose) / top.setback_m;
                deepest = deepest.max(nose + slope * beyond.min(top.setback_m) - z);
            }
        }
    }
    deepest
}

/// The cue's skin, butt's end and all, by dense sampling (independent of how the room is found).
#[test]
fn no_part_of_the_cue_stands_in_a_rail() {
    let world = World::new(&nine_foot(), &[]).unwrap();
    let mut state = 7;
    let mut butts = 0;
    for _ in 0..2000 {
        let mut spread = |half: f64| half * (2.0 * drawn(&mut state) - 1.0);
        let from = Vec2::new(spread(1.2), spread(0.57));
        let stroke = Stroke {
            aim_rad: spread(core::f64::consts::PI),
            side_offset: spread(0.34),
            height_offset: spread(0.34),
            ..LEVEL
        };
        let ball = world.equipment().ball;
        let room = least_elevation(&world, (&ball, from), [], &stroke, 0.0).unwrap();
        let deep = in_the_rails_m(&world, from, &stroke, room.least_rad);
        assert!(deep < 1e-4, "{deep} m: {from:?} {stroke:?} {room:?}");
        let level = in_the_rails_m(&world, from, &stroke, 0.0);
        butts += usize::from(level > 0.0 && room.least_rad > 0.0);
    }
    assert!(butts > 500, "only {butts} strokes needed room");
}
