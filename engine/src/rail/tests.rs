//! The bank frame held to the table it stands for, over every rail and pocket.

use super::testing::nine_foot;
use super::{BankGeometry, GeometryError, Line, Pocket, Rail, Side};
use crate::motion::BallState;
use crate::vector::{Vec2, Vec3};

/// Every bank there is: (frame, rail, pocket).
fn banks() -> Vec<BankGeometry> {
    let equipment = nine_foot();
    let mut frames = Vec::new();
    for rail in Rail::ALL {
        for pocket in Pocket::ALL {
            frames.extend(BankGeometry::new(&equipment, rail, pocket));
        }
    }
    frames
}

fn near(a: Vec2, b: Vec2) -> bool {
    (a - b).norm() < 1e-12
}

/// Where a pocket is in the table frame: half lengths times its signs.
fn pocket_place(pocket: Pocket) -> Vec2 {
    let table = nine_foot().table;
    let (x, y) = pocket.signs();
    Vec2::new(0.5 * table.length_m * x, 0.5 * table.width_m * y)
}

/// Outward from the table's centre to a rail.
fn outward(rail: Rail) -> Vec2 {
    match rail {
        Rail::Head => Vec2::new(-1.0, 0.0),
        Rail::Foot => Vec2::new(1.0, 0.0),
        Rail::Left => Vec2::new(0.0, 1.0),
        Rail::Right => Vec2::new(0.0, -1.0),
    }
}

#[test]
fn a_rail_serves_the_pockets_that_do_not_open_into_it() {
    let equipment = nine_foot();
    for rail in Rail::ALL {
        for pocket in Pocket::ALL {
            let opens_into_rail = match rail {
                Rail::Head => matches!(pocket, Pocket::HeadLeft | Pocket::HeadRight),
                Rail::Foot => matches!(pocket, Pocket::FootLeft | Pocket::FootRight),
                Rail::Left => {
                    matches!(pocket, Pocket::HeadLeft | Pocket::SideLeft | Pocket::FootLeft)
                }
                Rail::Right => {
                    matches!(pocket, Pocket::HeadRight | Pocket::SideRight | Pocket::FootRight)
                }
            };
            let frame = BankGeometry::new(&equipment, rail, pocket);
            if opens_into_rail {
                assert_eq!(frame, Err(GeometryError::PocketOnRail { rail, pocket }));
            } else {
                assert!(frame.is_ok(), "{rail:?} {pocket:?}");
            }
        }
    }
    assert_eq!(banks().len(), 14);
}

#[test]
fn the_mouth_lies_at_its_own_pocket() {
    let table = nine_foot().table;
    let cut = table.corner_mouth_m / 2.0_f64.sqrt();
    for frame in banks() {
        // Each corner point stands `cut` from the corner along its own rail.
        let (x, y) = frame.pocket.signs();
        let expected = pocket_place(frame.pocket)
            - if frame.pocket.is_side() { Vec2::ZERO } else { Vec2::new(x, y) * (0.5 * cut) };
        let found = frame.to_table(frame.mouth.midpoint);
        assert!(near(found, expected), "{:?} {:?}: {found:?}", frame.rail, frame.pocket);
        let width = if frame.pocket.is_side() { table.side_mouth_m } else { table.corner_mouth_m };
        assert!((frame.mouth.width_m - width).abs() < 1e-12);
    }
}

#[test]
fn numbers_start_at_the_pocket_and_grow_away_from_it() {
    for frame in banks() {
        let zero = frame.to_table(Vec2::new(0.0, frame.span_m));
        let one = frame.to_table(Vec2::new(frame.diamond_m, frame.span_m));
        let pocket = pocket_place(frame.pocket);
        let along = one - zero;
        assert!((along.norm() - frame.diamond_m).abs() < 1e-12);
        // Zero is level with the pocket along the rail.
        assert!((pocket - zero).dot(along).abs() < 1e-12, "{:?} {:?}", frame.rail, frame.pocket);
        assert!((pocket - one).norm() > (pocket - zero).norm());
        // The middle of the table has a positive number, or zero off the rail straight across.
        let middle = frame.from_table(Vec2::ZERO).x;
        let straight_across = frame.pocket.is_side() && !frame.rail.is_end();
        let expected = match (straight_across, frame.rail.is_end()) {
            (true, _) => 0.0,
            (false, true) => 2.0,
            (false, false) => 4.0,
        };
        assert!((middle / frame.diamond_m - expected).abs() < 1e-12);
        // The groove that is banked off is one R·cosθ inside that rail's nose.
        let table = nine_foot().table;
        let half = Vec2::new(0.5 * table.length_m, 0.5 * table.width_m);
        let out = outward(frame.rail);
        let reach = out.x.abs() * half.x + out.y.abs() * half.y;
        assert!((zero.dot(out) - (reach - frame.groove_m)).abs() < 1e-12);
    }
}

#[test]
fn the_long_point_is_the_one_further_from_where_the_ball_left() {
    for frame in banks() {
        let contact = Vec2::new(2.0 * frame.diamond_m, frame.span_m);
        let to_long = frame.mouth.long_point - contact;
        let to_short = frame.mouth.short_point - contact;
        // Travel along the rail for each step across the table: a flatter rebound has more.
        let slope = |d: Vec2| d.x / d.y;
        if frame.pocket.is_side() && frame.rail.is_end() {
            // Off an end rail the ball is long when it reaches the pocket's side further down it.
            assert!(slope(to_long) < slope(to_short));
            assert!(frame.mouth.long_point.y < frame.mouth.short_point.y);
        } else {
            assert!(slope(to_long) > slope(to_short));
            assert!(frame.mouth.long_point.x < frame.mouth.short_point.x);
        }
    }
}

#[test]
fn sides_and_openings_are_those_of_the_table() {
    let table = nine_foot().table;
    for frame in banks() {
        assert_eq!(frame.side_of(frame.rail), Side::Banked);
        for side in [Side::Banked, Side::Opposite, Side::Low, Side::High] {
            assert_eq!(frame.side_of(frame.rail_of(side)), side);
            // A point pushed towards that side's groove goes towards that rail.
            let step = match side {
                Side::Banked => Vec2::new(0.0, 1.0),
                Side::Opposite => Vec2::new(0.0, -1.0),
                Side::Low => Vec2::new(-1.0, 0.0),
                Side::High => Vec2::new(1.0, 0.0),
            };
            assert!(near(frame.direction_to_table(step), outward(frame.rail_of(side))));
        }
        // Four corners open into two rails each, two side pockets into one.
        assert_eq!(frame.openings.len(), 10);
        for opening in &frame.openings {
            let middle = 0.5 * (opening.from_m + opening.to_m);
            let nose = frame.groove_m;
            let point = match opening.side {
                Side::Banked => Vec2::new(middle, frame.span_m + nose),
                Side::Opposite => Vec2::new(middle, -nose),
                Side::Low => Vec2::new(frame.low_groove_m - nose, middle),
                Side::High => Vec2::new(frame.high_groove_m + nose, middle),
            };
            let width = opening.to_m - opening.from_m;
            let from_pocket = (frame.to_table(point) - pocket_place(opening.pocket)).norm();
            if opening.pocket.is_side() {
                assert!((width - table.side_mouth_m).abs() < 1e-12);
                assert!(from_pocket < 1e-12);
            } else {
                assert!((width - table.corner_mouth_m / 2.0_f64.sqrt()).abs() < 1e-12);
                assert!((from_pocket - 0.5 * width).abs() < 1e-12);
            }
        }
    }
}

#[test]
fn points_go_out_and_back() {
    for frame in banks() {
        for point in [Vec2::ZERO, Vec2::new(0.3, 0.7), Vec2::new(-0.2, 1.9)] {
            assert!(near(frame.from_table(frame.to_table(point)), point));
        }
    }
}

#[test]
fn mirrored_banks_share_one_frame_to_the_bit() {
    let equipment = nine_foot();
    let frame = |rail, pocket| BankGeometry::new(&equipment, rail, pocket).unwrap();
    for (first, second) in [
        ((Rail::Left, Pocket::FootRight), (Rail::Right, Pocket::FootLeft)),
        ((Rail::Left, Pocket::FootRight), (Rail::Left, Pocket::HeadRight)),
        ((Rail::Left, Pocket::FootRight), (Rail::Right, Pocket::HeadLeft)),
        ((Rail::Left, Pocket::SideRight), (Rail::Right, Pocket::SideLeft)),
        ((Rail::Head, Pocket::FootRight), (Rail::Foot, Pocket::HeadLeft)),
        ((Rail::Head, Pocket::SideRight), (Rail::Foot, Pocket::SideLeft)),
    ] {
        let (a, b) = (frame(first.0, first.1), frame(second.0, second.1));
        let mouth_bits = |g: &BankGeometry| {
            let (long, short) = (g.mouth.long_point, g.mouth.short_point);
            [long.x, long.y, short.x, short.y].map(f64::to_bits)
        };
        assert_eq!(mouth_bits(&a), mouth_bits(&b));
        assert_eq!(a.span_m.to_bits(), b.span_m.to_bits());
        let bits = |g: &BankGeometry| {
            let mut all: Vec<_> = g
                .openings
                .iter()
                .map(|o| (format!("{:?}", o.side), o.from_m.to_bits(), o.to_m.to_bits()))
                .collect();
            all.sort();
            all
        };
        assert_eq!(bits(&a), bits(&b), "{first:?} {second:?}");
    }
}

#[test]
fn a_rolling_ball_rolls_in_every_frame() {
    let radius = nine_foot().ball.radius_m();
    for frame in banks() {
        let velocity = Vec2::new(-0.8, 1.7);
        let ball = BallState { position: Vec2::ZERO, velocity, spin: Vec3::ZERO }.rolling(radius);
        let seen = BallState {
            position: Vec2::ZERO,
            velocity: frame.direction_to_table(ball.velocity),
            spin: frame.spin_to_table(ball.spin),
        };
        assert!(seen.cloth_slip(radius).norm() < 1e-12, "{:?} {:?}", frame.rail, frame.pocket);
    }
}

#[test]
fn side_that_runs_along_the_rail_runs_along_it_in_every_frame() {
    let radius = nine_foot().ball.radius_m();
    for frame in banks() {
        // Spin about the vertical moves the point that touches the nose, a radius towards the
        // rail, by spin × (towards the rail): a vector, so it must map as velocities do.
        let spin = Vec3::new(0.0, 0.0, 3.0);
        let at_nose = |spin: f64, toward: Vec2| Vec2::new(-spin * toward.y, spin * toward.x);
        let inside = at_nose(spin.z, Vec2::new(0.0, radius));
        let outside = at_nose(frame.spin_to_table(spin).z, outward(frame.rail) * radius);
        assert!(near(frame.direction_to_table(inside), outside));
    }
}

#[test]
fn pockets_without_cushion_between_them_are_refused() {
    let mut equipment = nine_foot();
    equipment.table.length_m = 0.4;
    equipment.table.corner_mouth_m = 0.2;
    assert!(matches!(
        BankGeometry::new(&equipment, Rail::Left, Pocket::FootRight),
        Err(GeometryError::NoCushion { .. })
    ));
}

/// The mark over which a line begins is on the line, as far out as the sights of the rail past whose corner it begins.
#[test]
fn a_line_that_begins_past_a_corner_passes_over_the_rail_beside_it() {
    let table = nine_foot().table;
    let mut seen = 0;
    for frame in banks() {
        let zero = 0.5 * (frame.low_groove_m + frame.high_groove_m) / frame.diamond_m;
        for start in [zero - 9.0, zero - 5.5, zero, zero + 5.5, zero + 9.0] {
            let line = Line::new(zero, start);
            let place =
                |number: f64, into_m| frame.to_table(Vec2::new(number * frame.diamond_m, into_m));
            let (from, to) = (place(start, 0.0), place(zero, frame.span_m));
            let Some((rail, number)) = line.over_rail_beside(&frame) else { continue };
            seen += 1;
            let (length_m, diamonds) =
                if rail.is_end() { (table.width_m, 4.0) } else { (table.length_m, 8.0) };
            let out_m = if rail.is_end() { table.length_m } else { table.width_m };
            // From the corner on the side of the start, inwards.
            let inwards = outward(frame.rail);
            let over = outward(rail) * (0.5 * out_m + table.sight_setback_m)
                + inwards * (number * length_m / diamonds - 0.5 * length_m);
            let off = (to - from).cross(over - from).abs() / (to - from).norm();
            assert!(off < 1e-12, "{rail:?} {number}: {off}");
            assert!((over - from).dot(outward(rail)) < 0.0, "the start is farther out");
        }
        assert_eq!(Line::new(zero, zero + 0.5).over_rail_beside(&frame), None);
    }
    assert!(seen > 20, "{seen}");
}
