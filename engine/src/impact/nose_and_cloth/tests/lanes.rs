//! Many impacts at once are the same to the bit as each alone, whatever the instructions.

use super::super::lanes::{InstructionSet, with_width};
use super::*;

type Bits = ([u64; 6], bool, bool);

fn bits(after: &Rebound) -> Bits {
    let [vx, vy, wx, wy, wz] = numbers(after).map(f64::to_bits);
    let numbers = [vx, vy, wx, wy, wz, after.restitution.to_bits()];
    (numbers, after.outside_checked_speed, after.hop)
}

/// The rebound that stands before anybody writes one.
fn unwritten() -> Rebound {
    Rebound {
        velocity: Vec2::new(9e9, 9e9),
        spin: Vec3::ZERO,
        restitution: 9.0,
        outside_checked_speed: true,
        hop: true,
    }
}

fn assert_same(contact: &CushionContact, before: &[Bounce]) {
    let alone: Vec<Bits> =
        before.iter().map(|ball| bits(&nose_and_cloth(contact, *ball))).collect();
    for width in InstructionSet::all() {
        let mut after = vec![unwritten(); before.len()];
        with_width(width, contact, before, &mut after);
        for ((alone, after), ball) in alone.iter().zip(&after).zip(before) {
            assert_eq!(*alone, bits(after), "{width:?} {contact:?} {ball:?}");
        }
    }
    let mut after = vec![unwritten(); before.len()];
    nose_and_cloth_many(contact, before, &mut after);
    assert_eq!(alone, after.iter().map(bits).collect::<Vec<_>>());
}

#[test]
fn same_bits_as_alone_inside_the_accepted_ranges() {
    let mut dice = Dice(7);
    for size in 0..200 {
        let (contact, _) = if size % 2 == 0 { dice.any() } else { dice.bank() };
        let balls: Vec<Bounce> = (0..size)
            .map(|ball| if ball % 2 == 0 { dice.any().1 } else { dice.bank().1 })
            .collect();
        assert_same(&contact, &balls);
    }
}

#[test]
fn same_bits_where_slips_die_and_leave_again() {
    let mut dice = Dice(8);
    let balls: Vec<Bounce> = (0..500).map(|_| dice.bank().1).collect();
    for _ in 0..40 {
        assert_same(&dice.bank().0, &balls);
    }
}

#[test]
fn same_bits_at_the_edges() {
    let mut balls = Vec::new();
    for angle in [-90.0, -1e-9, 0.0, 1e-9, 1e-3, 30.0, 89.999, 90.0] {
        for spin in [0.0, 1e-9, 1.0, -1.0, 1e6, f64::INFINITY] {
            let mut ball = rolling(angle, spin);
            ball.spin = ball.spin * spin;
            balls.push(ball);
        }
    }
    balls.push(Bounce { velocity: Vec2::new(f64::NAN, 1.0), spin: Vec3::ZERO });
    balls.push(Bounce { velocity: Vec2::new(0.0, f64::INFINITY), spin: Vec3::ZERO });
    for sin in [0.0, 0.27, 0.5] {
        for e in [0.0, 1e-9, 0.5, 1.0] {
            for (nose, cloth) in [(0.0, 0.0), (0.0, 0.3), (1e-6, 0.3), (0.3, 1e-6), (0.5, 0.5)] {
                assert_same(&contact(sin, e, nose, cloth), &balls);
            }
        }
    }
}

#[test]
#[should_panic(expected = "one rebound for each ball")]
fn lengths_must_agree() {
    nose_and_cloth_many(&contact(0.27, 0.9, 0.15, 0.2), &[rolling(45.0, 0.0)], &mut []);
}
