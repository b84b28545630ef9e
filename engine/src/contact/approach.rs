//! The motion of one centre as seen from another, and the quartic that its distance makes.

use crate::vector::Vec2;

/// r(t) = p + v·t + ½·a·t², to be compared with a distance D.
///
/// With f(t) = |r|² − D² and c(t) = r·ṙ = ½ḟ, f is a quartic whose leading coefficient ¼a² is not
/// negative: it falls in at most two stretches of time. Its values are taken from r itself and not from
/// its coefficients, which lose digits where the terms cancel.
#[derive(Debug, Clone, Copy)]
pub(super) struct Approach {
    pub p: Vec2,
    pub v: Vec2,
    pub a: Vec2,
    /// D², m².
    pub distance_squared: f64,
    /// 4·ε·D and the sums of the components' magnitudes: the parts of [`Approach::rounding`].
    sizes: [f64; 3],
}

/// The quartic at one time.
#[derive(Debug, Clone, Copy)]
pub(super) struct QuarticValue {
    /// Time t, s.
    pub t: f64,
    /// f = |r|² − D², m².
    pub f: f64,
    /// c = r·ṙ, half of f's slope; negative while closing.
    pub c: f64,
    /// ċ = ṙ² + r·a, half of f's second derivative.
    pub bend: f64,
}

impl Approach {
    pub fn new(p: Vec2, v: Vec2, a: Vec2, distance_m: f64) -> Self {
        let size = |u: Vec2| 4.0 * f64::EPSILON * distance_m * (u.x.abs() + u.y.abs());
        let sizes = [size(p), size(v), 0.5 * size(a)];
        Self { p, v, a, distance_squared: distance_m * distance_m, sizes }
    }

    pub fn at(&self, t: f64) -> QuarticValue {
        let r = self.p + (self.v + self.a * (0.5 * t)) * t;
        let u = self.v + self.a * t;
        QuarticValue {
            t,
            f: r.dot(r) - self.distance_squared,
            c: r.dot(u),
            bend: u.dot(u) + r.dot(self.a),
        }
    }

    /// The error that rounding may put on f near a contact at this time, m²: a few units in the last place
    /// of the terms of r, times 2D.
    pub fn rounding(&self, t: f64) -> f64 {
        let [p, v, a] = self.sizes;
        p + (v + a * t) * t
    }

    /// The times between which f is bent downwards, (∞, ∞) when it nowhere is: the roots of
    /// ċ = (3/2)a²·t² + 3(v·a)·t + v² + p·a.
    pub fn bent_down(&self) -> (f64, f64) {
        let never = (f64::INFINITY, f64::INFINITY);
        let (a2, va) = (self.a.dot(self.a), self.v.dot(self.a));
        let bend = self.v.dot(self.v) + self.p.dot(self.a);
        if bend >= 0.0 && va >= 0.0 {
            return never;
        }
        let product = (2.0 / 3.0) * bend;
        let discriminant = va * va - a2 * product;
        if discriminant <= 0.0 {
            return never;
        }
        let root = discriminant.sqrt();
        // The root that would lose digits comes from the product of both.
        if va <= 0.0 {
            let q = root - va;
            (product / q, q / a2)
        } else {
            let q = -root - va;
            (q / a2, product / q)
        }
    }

    /// A time after which the distance only grows (the bound of Fujiwara 1916 on the roots of a
    /// polynomial, here c).
    pub fn only_parts_after(&self) -> f64 {
        let a2 = self.a.dot(self.a);
        let bend = self.v.dot(self.v) + self.p.dot(self.a);
        let second = 3.0 * self.v.dot(self.a).abs() / a2;
        let third = (2.0 * bend.abs() / a2).sqrt();
        let last = libm::cbrt(self.p.dot(self.v).abs() / a2);
        2.0 * second.max(third).max(last)
    }
}

impl QuarticValue {
    /// True when the two tangents show that f, bent upwards between these times, stays positive: it
    /// falls at the first, rises at the second, and lies above both tangents.
    pub fn tangents_clear(&self, later: &Self) -> bool {
        let lift = self.f * later.c - self.c * later.f;
        lift + 2.0 * self.c * later.c * (later.t - self.t) > 0.0
    }
}
