//! Spring and damper for a wanted restitution and contact time.

use core::f64::consts::TAU;
use rapier2d::prelude::SpringCoefficients;

/// A linear spring and damper on the ball: ẍ = −ω₀²·x − 2ζω₀·ẋ while that pushes, else no force.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Softness {
    /// Undamped angular frequency ω₀, rad/s.
    pub angular_frequency_rad_s: f64,
    /// Damping ratio ζ.
    pub damping_ratio: f64,
}

impl Softness {
    /// Restitution below this is taken as this: no finite damper gives 0.
    pub const LEAST_RESTITUTION: f64 = 1e-3;

    /// The spring and damper whose contact lasts `contact_time_s` and gives back `restitution`.
    ///
    /// The cushion cannot pull, so the contact ends when its force ends, not when the ball is back
    /// at the line of first touch (Schwager & Pöschel 2007, Granular Matter 9:465–469, cited from
    /// memory; derived here). With x = (v/ω)·exp(−ζω₀t)·sin ωt, ω = ω₀√(1−ζ²), the force ends at
    /// ẍ = 0, that is ωt = π − 2·asin ζ = 2·acos ζ, and there ẋ = −v·exp(−ζω₀t). Hence, with T the
    /// contact time, ω₀·T = 2·acos ζ/√(1−ζ²) and e = exp(−ζ·ω₀·T); past ζ = 1, acosh ζ/√(ζ²−1)
    /// takes the place of acos ζ/√(1−ζ²).
    pub fn new(restitution: f64, contact_time_s: f64) -> Self {
        let wanted = -libm::log(restitution.clamp(Self::LEAST_RESTITUTION, 1.0));
        // −ln e grows with ζ from 0, and is past 9 at ζ = 64.
        let (mut low, mut high) = (0.0, 64.0);
        for _ in 0..100 {
            let middle = 0.5 * (low + high);
            if 2.0 * middle * half_phase(middle) < wanted {
                low = middle;
            } else {
                high = middle;
            }
        }
        // Full restitution is ζ = 0 exactly, which bisection only approaches.
        let damping_ratio = if wanted == 0.0 { 0.0 } else { 0.5 * (low + high) };
        Self {
            angular_frequency_rad_s: 2.0 * half_phase(damping_ratio) / contact_time_s,
            damping_ratio,
        }
    }

    /// The coefficients for a solver that integrates the spring by the implicit Euler rule with this
    /// step, s.
    ///
    /// That rule is v' = v − h·(ω₀²·(x + h·v') + 2ζω₀·v'): its extra term h²·ω₀²·v' acts as a
    /// damping ratio of ½·ω₀·h. Passing ζ − ½·ω₀·h leaves the semi-implicit rule with ζ alone,
    /// which neither gains nor loses at ζ = 0 but for one step's worth at the end of contact: up to
    /// (ω₀h)²/8 of the speed, hence the floor under ζ, with which energy cannot grow.
    pub fn for_step(&self, step_s: f64) -> SpringCoefficients<f64> {
        let phase = self.angular_frequency_rad_s * step_s;
        let passed = self.damping_ratio.max(phase * phase / 8.0) - 0.5 * phase;
        // The solver divides by the ratio unless it is exactly 0.
        let passed = if passed.abs() < 1e-6 * phase { 0.0 } else { passed };
        SpringCoefficients::new(self.angular_frequency_rad_s / TAU, passed)
    }
}

/// acos ζ/√(1−ζ²), and what it continues to past ζ = 1.
fn half_phase(damping_ratio: f64) -> f64 {
    let off = 1.0 - damping_ratio;
    if off.abs() < 1e-5 {
        // Its series about ζ = 1; the next term is below 1e-15.
        1.0 + off / 3.0 + off * off * (2.0 / 15.0)
    } else if off > 0.0 {
        libm::acos(damping_ratio) / (off * (1.0 + damping_ratio)).sqrt()
    } else {
        libm::acosh(damping_ratio) / (-off * (1.0 + damping_ratio)).sqrt()
    }
}
