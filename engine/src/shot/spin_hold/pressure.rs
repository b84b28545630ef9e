//! Which of several surfaces press a ball: a linear complementarity problem in the plane.

use crate::vector::Vec2;
use smallvec::SmallVec;

/// Shares of the largest drive below this are rounding.
const ROUNDING: f64 = 1e-12;
/// Two normals whose angle has a squared sine below this are one direction, or two opposite ones.
const PARALLEL: f64 = 1e-14;

/// The things that press.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Press {
    /// Nothing.
    None,
    /// One surface, by the number it was given with.
    One(usize),
    /// Two surfaces, each with what it takes from the ball along its normal.
    Two([(usize, f64); 2]),
}

/// Which surfaces press, given for each a number, the unit vector into it and the strength with which the
/// ball is driven along that.
///
/// Sought are λᵢ ≥ 0 with dᵢ − Σⱼ (nᵢ·nⱼ)·λⱼ ≤ 0 for every surface, and = 0 where λᵢ > 0: what is
/// driven into a surface, that surface takes. In the plane at most two λ need differ from zero, so the
/// answer is found by trying one and two at a time. Where surfaces all but coincide, or rounding leaves
/// none that fits, the one with the least left over is taken.
pub(super) fn pressing(surfaces: impl Iterator<Item = (usize, Vec2, f64)>) -> Press {
    let surfaces: SmallVec<[(usize, Vec2, f64); 4]> = surfaces.collect();
    let most = surfaces.iter().fold(0.0, |most: f64, (_, _, drive)| drive.abs().max(most));
    let rounding = ROUNDING * most;
    let mut driven = surfaces.iter().filter(|(_, _, drive)| *drive > rounding);
    match (driven.next(), surfaces.as_slice()) {
        (None, _) => return Press::None,
        (Some((index, ..)), [_]) => return Press::One(*index),
        _ => {}
    }
    let left_over = |taken: Vec2| {
        surfaces
            .iter()
            .fold(0.0, |most: f64, (_, normal, drive)| (drive - normal.dot(taken)).max(most))
    };
    let mut best = (f64::INFINITY, Press::None);
    for (place, (one, normal, drive)) in surfaces.iter().enumerate() {
        let left = left_over(*normal * *drive);
        if *drive > rounding && left < best.0 - rounding {
            best = (left, Press::One(*one));
        }
        for (other, other_normal, other_drive) in &surfaces[place + 1..] {
            let cos = normal.dot(*other_normal);
            let sin = normal.cross(*other_normal);
            if sin * sin < PARALLEL {
                continue;
            }
            let by = 1.0 / (sin * sin);
            let (a, b) = ((drive - cos * other_drive) * by, (other_drive - cos * drive) * by);
            if a <= 0.0 || b <= 0.0 {
                continue;
            }
            let left = left_over(*normal * a + *other_normal * b);
            if left < best.0 - rounding {
                best = (left, Press::Two([(*one, a), (*other, b)]));
            }
        }
    }
    best.1
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(degrees: f64) -> Vec2 {
        Vec2::new(libm::cos(degrees.to_radians()), libm::sin(degrees.to_radians()))
    }

    fn driven(by: Vec2, normals: &[Vec2]) -> Press {
        pressing(normals.iter().enumerate().map(|(index, normal)| (index, *normal, normal.dot(by))))
    }

    #[test]
    fn a_surface_presses_where_the_ball_is_driven_into_it() {
        assert_eq!(driven(at(10.0), &[at(0.0)]), Press::One(0));
        assert_eq!(driven(at(100.0), &[at(0.0)]), Press::None);
        assert_eq!(driven(Vec2::ZERO, &[at(0.0), at(90.0)]), Press::None);
    }

    #[test]
    fn between_two_surfaces_the_drive_decides_which_press() {
        // Two surfaces whose normals are 120° apart; their wedge opens away from 60°.
        let wedge = [at(0.0), at(120.0)];
        assert_eq!(driven(at(-40.0), &wedge), Press::One(0));
        assert_eq!(driven(at(-20.0), &wedge), Press::One(0));
        assert_eq!(driven(at(160.0), &wedge), Press::One(1));
        let Press::Two([(0, a), (1, b)]) = driven(at(60.0), &wedge) else { panic!() };
        // A unit drive in the middle is held by two forces that add up to it.
        let sum = wedge[0] * a + wedge[1] * b - at(60.0);
        assert!(sum.norm() < 1e-15, "{sum:?}");
        assert!((a - 1.0).abs() < 1e-15 && (b - 1.0).abs() < 1e-15);
        assert!(matches!(driven(at(5.0), &wedge), Press::Two(_)));
    }

    #[test]
    fn a_drive_square_to_one_surface_is_held_by_it_alone() {
        // In a blunt wedge, whose normals are 60° apart …
        assert_eq!(driven(at(0.0), &[at(0.0), at(60.0)]), Press::One(0));
        // … and in one of 10°.
        assert_eq!(driven(at(0.0), &[at(0.0), at(170.0)]), Press::One(0));
    }

    #[test]
    fn what_one_surface_turns_aside_another_may_take() {
        // Driven off the second, but the first is so steep that the ball goes there along it.
        let wedge = [at(0.0), at(125.0)];
        for (first, second) in [(0, 1), (1, 0)] {
            let press = driven(at(34.0), &[wedge[first], wedge[second]]);
            let Press::Two([(0, a), (1, b)]) = press else { panic!("{press:?}") };
            let left = wedge[first] * a + wedge[second] * b - at(34.0);
            assert!(left.norm() < 1e-15, "{left:?}");
        }
    }

    #[test]
    fn surfaces_that_coincide_are_one() {
        assert!(matches!(driven(at(3.0), &[at(0.0), at(0.0), at(1e-9)]), Press::One(_)));
        // Opposite walls of a channel: one of them at most.
        assert_eq!(driven(at(30.0), &[at(0.0), at(180.0)]), Press::One(0));
        let walls = [Vec2::new(1.0, 0.0), Vec2::new(-1.0, 0.0)];
        assert_eq!(driven(Vec2::new(0.0, 1.0), &walls), Press::None);
    }

    #[test]
    fn three_surfaces_need_two_at_most() {
        let corner = [at(0.0), at(45.0), at(90.0)];
        let Press::Two([(one, a), (other, b)]) = driven(at(20.0), &corner) else { panic!() };
        assert_eq!((one, other), (0, 1));
        let left = corner.map(|normal| normal.dot(at(20.0) - corner[0] * a - corner[1] * b));
        assert!(left.iter().all(|it| *it < 1e-15), "{left:?}");
    }
}
