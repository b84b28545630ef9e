//! Places over time by least squares of second order.

use crate::vector::Vec2;
use nalgebra::{Matrix3, Vector3};

/// A place at a time, on the table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct TimedPlace {
    pub(super) time_s: f64,
    pub(super) place: Vec2,
}

/// Both coordinates as c₀ + c₁τ + c₂τ², τ = (t − middle) / half.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Parabola {
    middle_s: f64,
    half_s: f64,
    /// The coefficients of x and of y.
    pub(super) of: [Vector3<f64>; 2],
    /// (XᵀX)⁻¹.
    inverse: Matrix3<f64>,
    /// The sum of squares that it leaves, m².
    pub(super) left_m2: f64,
}

impl Parabola {
    /// The best one; none for fewer than three times.
    pub(super) fn new(places: &[TimedPlace]) -> Option<Self> {
        let (first, last) = (places.first()?.time_s, places.last()?.time_s);
        let (middle_s, half_s) = (0.5 * (first + last), 0.5 * (last - first));
        if places.len() < 3 || half_s <= 0.0 {
            return None;
        }
        let row = |time_s: f64| {
            let tau = (time_s - middle_s) / half_s;
            Vector3::new(1.0, tau, tau * tau)
        };
        let (mut normal, mut x, mut y) = (Matrix3::zeros(), Vector3::zeros(), Vector3::zeros());
        for place in places {
            let row = row(place.time_s);
            normal += row * row.transpose();
            x += row * place.place.x;
            y += row * place.place.y;
        }
        let inverse = normal.try_inverse()?;
        let mut fit =
            Self { middle_s, half_s, of: [inverse * x, inverse * y], inverse, left_m2: 0.0 };
        let left = |it: &TimedPlace| fit.place_at(it.time_s) - it.place;
        fit.left_m2 = places.iter().map(|it| left(it).dot(left(it))).sum();
        Some(fit)
    }

    fn along(&self, row: Vector3<f64>) -> Vec2 {
        Vec2::new(self.of[0].dot(&row), self.of[1].dot(&row))
    }

    /// What a place at a time adds to the coefficients of its coordinate.
    pub(super) fn weights(&self, time_s: f64) -> Vector3<f64> {
        let tau = (time_s - self.middle_s) / self.half_s;
        self.inverse * Vector3::new(1.0, tau, tau * tau)
    }

    pub(super) fn place_at(&self, time_s: f64) -> Vec2 {
        let tau = (time_s - self.middle_s) / self.half_s;
        self.along(Vector3::new(1.0, tau, tau * tau))
    }

    pub(super) fn velocity_at(&self, time_s: f64) -> Vec2 {
        let tau = (time_s - self.middle_s) / self.half_s;
        self.along(Vector3::new(0.0, 1.0, 2.0 * tau)) * (1.0 / self.half_s)
    }

    pub(super) fn acceleration(&self) -> Vec2 {
        self.along(Vector3::new(0.0, 0.0, 2.0)) * (1.0 / (self.half_s * self.half_s))
    }

    /// The time at which it comes to `direction`·p = `offset_m`, straight on from a time next to it: the way between is
    /// too short to bend. None when it doesn't go there.
    pub(super) fn crossing(&self, direction: Vec2, offset_m: f64, near_s: f64) -> Option<f64> {
        let off_m = offset_m - direction.dot(self.place_at(near_s));
        let takes_s = off_m / direction.dot(self.velocity_at(near_s));
        (takes_s.abs() < FURTHEST_S).then_some(near_s + takes_s)
    }
}

/// A rail further in time from the points next to it is not that of the bank.
const FURTHEST_S: f64 = 0.5;
