//! The forces of an impact as rates of slip per normal impulse, in each regime of contact.
//!
//! Speeds are scaled so that mass and radius drop out; spins are surface speeds w·R. With k = 5/2:
//! the nose's normal direction, its friction vector `f` (μw·ŝ while it slips) and the cloth's `q`
//! (μs·N·û while it slips) give, per unit of normal impulse at the nose,
//!
//! ```text
//! dsx = −(1+k)·fx − (1−k·S)·qx          ds' = S·C − (k+S²)·f' − (k−S)·qy
//! dux = −(1−k·S)·fx − (1+k)·qx          duy = −C − (k−S)·f' − (1+k)·qy
//! N = S + f'·C
//! ```
//!
//! with S = sinθ, C = cosθ: the equations of Mathavan, Jackson & Parkin 2010 (Proc. `IMechE` C
//! 224(9):1863–1873) written for the four slip components, which close among themselves.

/// m·R²/I of a ball of even density.
pub(super) const K: f64 = 2.5;

/// A point of the reduced motion: nose slip along and up, cloth slip along and into.
pub(super) type Slips = [f64; 4];

/// Friction at both contacts, per unit of normal impulse at the nose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Traction {
    /// Nose friction along and up, against which the slip works.
    pub nose: [f64; 2],
    /// Cloth friction along and into.
    pub cloth: [f64; 2],
    /// Cloth normal force; negative where the cloth would have to pull.
    pub cloth_normal: f64,
}

/// The constants of one impact.
#[derive(Debug, Clone, Copy)]
pub(super) struct Law {
    pub sin: f64,
    pub cos: f64,
    pub nose_friction: f64,
    pub impact_cloth_friction: f64,
    /// 1 − k·S.
    pub cross: f64,
    /// k − S.
    pub lift: f64,
    /// k + S².
    pub up: f64,
    /// Bound on the force by which the nose turns its slip.
    pub nose_turning: f64,
    /// Bound on the force by which the cloth turns its slip.
    pub cloth_turning: f64,
    /// The cloth presses whatever the nose does: μw ≤ tanθ.
    pub never_lifts: bool,
}

impl Law {
    pub fn new(sin: f64, cos: f64, nose_friction: f64, impact_cloth_friction: f64) -> Self {
        Self {
            sin,
            cos,
            nose_friction,
            impact_cloth_friction,
            cross: 1.0 - K * sin,
            lift: K - sin,
            up: K + sin * sin,
            nose_turning: (1.0 + K) * nose_friction,
            cloth_turning: (1.0 + K) * impact_cloth_friction * (sin + nose_friction * cos),
            never_lifts: nose_friction * cos < sin,
        }
    }

    /// Rates of the four slips under a traction.
    #[inline]
    pub fn rates(&self, traction: &Traction) -> Slips {
        let ([fx, fy], [qx, qy]) = (traction.nose, traction.cloth);
        [
            -(1.0 + K) * fx - self.cross * qx,
            self.sin * self.cos - self.up * fy - self.lift * qy,
            -self.cross * fx - (1.0 + K) * qx,
            -self.cos - self.lift * fy - (1.0 + K) * qy,
        ]
    }

    /// Speed into the cushion, from the slips.
    #[inline]
    pub fn speed_in(&self, y: &Slips) -> f64 {
        (y[3] - y[1]) / (1.0 + self.sin)
    }

    /// Tractions with the nose slipping along the unit vector `nose` and the cloth along `cloth`;
    /// `pressed` is whether the cloth carries the ball.
    #[inline]
    pub fn both_slip(&self, nose: [f64; 2], cloth: [f64; 2], pressed: bool) -> Traction {
        let f = [self.nose_friction * nose[0], self.nose_friction * nose[1]];
        let raw = self.sin + f[1] * self.cos;
        let grip = if pressed { self.impact_cloth_friction * raw } else { 0.0 };
        Traction { nose: f, cloth: [grip * cloth[0], grip * cloth[1]], cloth_normal: raw }
    }

    /// Tractions with the nose stuck and the cloth slipping along the unit vector `cloth`.
    #[inline]
    pub fn nose_sticks(&self, cloth: [f64; 2]) -> Traction {
        let friction = self.impact_cloth_friction;
        let fy = (self.sin * self.cos - self.lift * friction * self.sin * cloth[1])
            / (self.up + self.lift * friction * self.cos * cloth[1]);
        let raw = self.sin + fy * self.cos;
        let grip = friction * raw.max(0.0);
        let q = [grip * cloth[0], grip * cloth[1]];
        Traction { nose: [-self.cross * q[0] / (1.0 + K), fy], cloth: q, cloth_normal: raw }
    }

    /// Tractions with the nose slipping along the unit vector `nose` and the cloth stuck.
    #[inline]
    pub fn cloth_sticks(&self, nose: [f64; 2]) -> Traction {
        let f = [self.nose_friction * nose[0], self.nose_friction * nose[1]];
        Traction {
            nose: f,
            cloth: [-self.cross * f[0] / (1.0 + K), -(self.cos + self.lift * f[1]) / (1.0 + K)],
            cloth_normal: self.sin + f[1] * self.cos,
        }
    }

    /// Tractions with both contacts stuck.
    pub fn both_stick(&self) -> Traction {
        let determinant = self.up - self.lift * self.lift / (1.0 + K);
        let fy = (self.sin * self.cos + self.lift * self.cos / (1.0 + K)) / determinant;
        Traction {
            nose: [0.0, fy],
            cloth: [0.0, -(self.cos + self.lift * fy) / (1.0 + K)],
            cloth_normal: self.sin + fy * self.cos,
        }
    }

    /// The distance of the nose's traction outside its friction cone; negative inside.
    pub fn nose_excess(&self, traction: &Traction) -> f64 {
        let [x, y] = traction.nose;
        (x * x + y * y).sqrt() - self.nose_friction
    }

    /// The distance of the cloth's traction outside its friction cone; negative inside.
    pub fn cloth_excess(&self, traction: &Traction) -> f64 {
        let [x, y] = traction.cloth;
        (x * x + y * y).sqrt() - self.impact_cloth_friction * traction.cloth_normal.max(0.0)
    }

    /// The direction in which a cloth contact without slip begins to slip while the nose slips
    /// along `nose`.
    pub fn cloth_departure(&self, nose: [f64; 2]) -> [f64; 2] {
        let f = self.nose_friction;
        self.cloth_departure_under([f * nose[0], f * nose[1]])
    }

    /// The same under a given friction at the nose. The cloth's friction is alike in all
    /// directions, so the slip goes where the other forces drive it.
    pub fn cloth_departure_under(&self, nose: [f64; 2]) -> [f64; 2] {
        unit([-self.cross * nose[0], -self.cos - self.lift * nose[1]])
    }

    /// The direction along which a nose slip that was nothing begins: ds(n) = λ·n with λ > 0.
    ///
    /// The rates are a + L·n with L upper triangular, so n(λ) = (λ − L)⁻¹·a, and |n(λ)| falls from
    /// above 1 at λ = 0 (the nose cannot stick) to 0. Newton on 1/|n| finds where it is 1.
    pub fn settled_direction(&self, cloth: [f64; 2]) -> [f64; 2] {
        let pressed = self.settled_with(cloth, self.impact_cloth_friction);
        if self.sin + self.nose_friction * self.cos * pressed[1] >= 0.0 {
            pressed
        } else {
            self.settled_with(cloth, 0.0)
        }
    }

    fn settled_with(&self, cloth: [f64; 2], impact_cloth_friction: f64) -> [f64; 2] {
        let f = self.nose_friction;
        let grip = impact_cloth_friction * self.sin;
        let a = [-self.cross * grip * cloth[0], self.sin * self.cos - self.lift * grip * cloth[1]];
        let grip_slope = impact_cloth_friction * self.cos * f;
        let shear = -self.cross * grip_slope * cloth[0];
        let (along, up) = ((1.0 + K) * f, self.up * f + self.lift * grip_slope * cloth[1]);
        let back = |v: [f64; 2], lambda: f64| {
            let y = v[1] / (lambda + up);
            [(v[0] + shear * y) / (lambda + along), y]
        };
        // Without friction at the nose any λ gives the direction.
        let mut lambda = if f > 0.0 { 0.0 } else { 1.0 };
        let mut n = back(a, lambda);
        for _ in 0..30 {
            let size = (n[0] * n[0] + n[1] * n[1]).sqrt();
            let slope = back(n, lambda);
            let change = size * size * (size - 1.0) / (n[0] * slope[0] + n[1] * slope[1]);
            if !change.is_finite() || change.abs() < 1e-15 {
                break;
            }
            lambda = (lambda + change).max(0.0);
            n = back(a, lambda);
        }
        unit(n)
    }
}

/// The unit vector along `v`, or zero for zero.
#[inline]
pub(super) fn unit(v: [f64; 2]) -> [f64; 2] {
    let squared = v[0] * v[0] + v[1] * v[1];
    if squared > 0.0 {
        let inverse = 1.0 / squared.sqrt();
        [v[0] * inverse, v[1] * inverse]
    } else {
        [0.0, 0.0]
    }
}
