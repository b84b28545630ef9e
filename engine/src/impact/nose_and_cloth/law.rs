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
//! with S = sinθ, C = cosθ: the equations of Mathavan, Jackson & Parkin 2010 (Proc. IMechE C
//! 224(9):1863–1873) written for the four slip components, which close among themselves.

use super::runge_kutta::Slips;

const K: f64 = 2.5;

/// What one contact does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Contact {
    /// Coulomb friction at its limit, against the slip.
    Slip,
    /// No slip; the traction is whatever keeps it so.
    Stick,
    /// Slip just born: so small that its direction follows the forces without delay. Only the nose
    /// has this regime (the cloth's friction has no preferred direction and needs none).
    Creep,
}

/// Both contacts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Regime {
    pub nose: Contact,
    pub cloth: Contact,
}

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
    pub cloth_friction: f64,
    /// 1 − k·S.
    cross: f64,
    /// k − S.
    lift: f64,
    /// k + S².
    up: f64,
}

impl Law {
    pub fn new(sin: f64, cos: f64, nose_friction: f64, cloth_friction: f64) -> Self {
        Self {
            sin,
            cos,
            nose_friction,
            cloth_friction,
            cross: 1.0 - K * sin,
            lift: K - sin,
            up: K + sin * sin,
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

    /// Tractions with the nose slipping along the unit vector `nose` and the cloth along `cloth`.
    #[inline]
    pub fn both_slip(&self, nose: [f64; 2], cloth: [f64; 2]) -> Traction {
        let f = [self.nose_friction * nose[0], self.nose_friction * nose[1]];
        let raw = self.sin + f[1] * self.cos;
        let grip = self.cloth_friction * raw.max(0.0);
        Traction { nose: f, cloth: [grip * cloth[0], grip * cloth[1]], cloth_normal: raw }
    }

    /// Tractions with the nose stuck and the cloth slipping along the unit vector `cloth`.
    #[inline]
    pub fn nose_sticks(&self, cloth: [f64; 2]) -> Traction {
        let friction = self.cloth_friction;
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

    /// True when the nose can hold this traction without slipping.
    pub fn nose_holds(&self, traction: &Traction) -> bool {
        self.nose_excess(traction) <= 0.0
    }

    /// How far the nose's traction is beyond its friction cone; negative inside.
    pub fn nose_excess(&self, traction: &Traction) -> f64 {
        let [x, y] = traction.nose;
        (x * x + y * y).sqrt() - self.nose_friction
    }

    /// How far the cloth's traction is beyond its friction cone; negative inside.
    pub fn cloth_excess(&self, traction: &Traction) -> f64 {
        let [x, y] = traction.cloth;
        (x * x + y * y).sqrt() - self.cloth_friction * traction.cloth_normal.max(0.0)
    }

    /// The direction in which a cloth contact without slip begins to slip.
    pub fn cloth_departure(&self, nose: [f64; 2]) -> [f64; 2] {
        unit([-self.cross * nose[0], -self.cos - self.lift * nose[1]])
    }

    /// The direction along which small nose slip settles, found by Newton from `guess`:
    /// n⊥·ds(n) = r·dφ/dP, where `slip` r is its size and dφ/dP the turning of the settled
    /// direction itself. Returns the direction.
    pub fn settled_direction(
        &self,
        guess: [f64; 2],
        cloth: [f64; 2],
        cloth_speed: f64,
        slip: f64,
    ) -> [f64; 2] {
        let mut n = guess;
        for _ in 0..3 {
            let traction = self.both_slip(n, cloth);
            let rates = self.rates(&traction);
            let turning = -n[1] * rates[0] + n[0] * rates[1];
            let (by_nose, by_cloth) = self.turning_slopes(n, cloth, &traction, &rates);
            if by_nose >= 0.0 {
                break;
            }
            let cloth_turns = if cloth_speed > 0.0 {
                (-cloth[1] * rates[2] + cloth[0] * rates[3]) / cloth_speed
            } else {
                0.0
            };
            let drift = -by_cloth * cloth_turns / by_nose;
            let change = (slip * drift - turning) / by_nose;
            n = unit([n[0] - change * n[1], n[1] + change * n[0]]);
            if change.abs() < 1e-12 {
                break;
            }
        }
        n
    }

    /// How the turning force on the nose slip changes with the nose's and with the cloth's
    /// direction of slip (per radian).
    pub fn turning_slopes(
        &self,
        n: [f64; 2],
        cloth: [f64; 2],
        traction: &Traction,
        rates: &Slips,
    ) -> (f64, f64) {
        let across = [-n[1], n[0]];
        let pressed = traction.cloth_normal > 0.0;
        let normal_slope = if pressed {
            self.nose_friction * self.cos * across[1] * self.cloth_friction
        } else {
            0.0
        };
        let nose_x =
            -(1.0 + K) * self.nose_friction * across[0] - self.cross * cloth[0] * normal_slope;
        let nose_y =
            -self.up * self.nose_friction * across[1] - self.lift * cloth[1] * normal_slope;
        let by_nose =
            -(n[0] * rates[0] + n[1] * rates[1]) + across[0] * nose_x + across[1] * nose_y;
        let grip = self.cloth_friction * traction.cloth_normal.max(0.0);
        let by_cloth =
            across[0] * self.cross * grip * cloth[1] - across[1] * self.lift * grip * cloth[0];
        (by_nose, by_cloth)
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
