//! The equations of each regime, as something a Runge–Kutta step can follow.

use super::choice::most;
use super::law::{K, Law, Slips};
use super::pair::Pair;
use core::ops::{Add, Mul};

/// The slips that move in one regime, and how.
pub(super) trait Flow {
    /// Where the moving slips are.
    type Point: Copy + Add<Output = Self::Point> + Mul<f64, Output = Self::Point>;
    /// Rates of the moving slips per unit of normal impulse.
    fn rates(&self, at: &Self::Point) -> Self::Point;
    /// Speed into the cushion.
    fn speed_in(&self, at: &Self::Point) -> f64;
    /// Square of the length.
    fn squared(at: &Self::Point) -> f64;
    /// Picks the moving slips out of all four.
    fn pick(&self, slips: &Slips) -> Self::Point;
    /// All four slips of a point.
    fn slips(&self, at: &Self::Point) -> Slips;
}

/// Slips at both contacts: along the cushion, and across it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Four {
    pub along: Pair,
    pub across: Pair,
}

impl Add for Four {
    type Output = Self;
    #[inline(always)]
    fn add(self, other: Self) -> Self {
        Self { along: self.along + other.along, across: self.across + other.across }
    }
}

impl Mul<f64> for Four {
    type Output = Self;
    #[inline(always)]
    fn mul(self, factor: f64) -> Self {
        Self { along: self.along * factor, across: self.across * factor }
    }
}

/// Both contacts slip.
#[derive(Debug, Clone, Copy)]
pub(super) struct BothSlip {
    /// Cloth friction is `grip` + `grip_slope`·n', n' the nose slip's direction upward.
    grip: f64,
    grip_slope: f64,
    drive: Pair,
    nose_along: Pair,
    nose_across: Pair,
    cloth_along: Pair,
    cloth_across: Pair,
    per_speed: f64,
}

impl BothSlip {
    /// `pressed` is whether the cloth carries the ball.
    pub fn new(law: &Law, pressed: bool) -> Self {
        let nose = law.nose_friction;
        let cloth = if pressed { law.impact_cloth_friction } else { 0.0 };
        Self {
            grip: cloth * law.sin,
            grip_slope: cloth * law.cos * nose,
            drive: Pair(law.sin * law.cos, -law.cos),
            nose_along: Pair(-(1.0 + K) * nose, -law.cross * nose),
            nose_across: Pair(-law.up * nose, -law.lift * nose),
            cloth_along: Pair(-law.cross, -(1.0 + K)),
            cloth_across: Pair(-law.lift, -(1.0 + K)),
            per_speed: 1.0 / (1.0 + law.sin),
        }
    }

    /// Rates under given directions of slip.
    #[inline(always)]
    pub fn rates_along(&self, along: Pair, across: Pair) -> Four {
        let grip = self.grip + self.grip_slope * across.0;
        Four {
            along: self.nose_along * along.0 + self.cloth_along * (grip * along.1),
            across: self.drive
                + self.nose_across * across.0
                + self.cloth_across * (grip * across.1),
        }
    }

    /// The change of the rates when the nose slip turns (per radian, anticlockwise).
    #[inline(always)]
    pub fn slopes_by_turning(&self, along: Pair, across: Pair) -> Four {
        let grip = self.grip_slope * along.0;
        Four {
            along: self.nose_along * -across.0 + self.cloth_along * (grip * along.1),
            across: self.nose_across * along.0 + self.cloth_across * (grip * across.1),
        }
    }
}

impl Flow for BothSlip {
    type Point = Four;

    #[inline(always)]
    fn rates(&self, at: &Four) -> Four {
        let squared = at.along * at.along + at.across * at.across;
        let inverse = Pair(inverse_root(squared.0), inverse_root(squared.1));
        self.rates_along(at.along * inverse, at.across * inverse)
    }

    #[inline(always)]
    fn speed_in(&self, at: &Four) -> f64 {
        (at.across.1 - at.across.0) * self.per_speed
    }

    #[inline(always)]
    fn squared(at: &Four) -> f64 {
        let squares = at.along * at.along + at.across * at.across;
        squares.0 + squares.1
    }

    #[inline(always)]
    fn pick(&self, y: &Slips) -> Four {
        Four { along: Pair(y[0], y[2]), across: Pair(y[1], y[3]) }
    }

    #[inline(always)]
    fn slips(&self, at: &Four) -> Slips {
        [at.along.0, at.across.0, at.along.1, at.across.1]
    }
}

/// Slips at both contacts with the inverses of their sizes carried along.
#[derive(Debug, Clone, Copy)]
pub(super) struct Six {
    pub slips: Four,
    pub inverse: Pair,
}

impl Add for Six {
    type Output = Self;
    #[inline(always)]
    fn add(self, other: Self) -> Self {
        Self { slips: self.slips + other.slips, inverse: self.inverse + other.inverse }
    }
}

impl Mul<f64> for Six {
    type Output = Self;
    #[inline(always)]
    fn mul(self, factor: f64) -> Self {
        Self { slips: self.slips * factor, inverse: self.inverse * factor }
    }
}

/// Both contacts slip, and neither turns sharply.
///
/// With p = 1/|s| as a variable of its own, dp = −p²·(n·ds), n the slip's direction, a stage needs neither root nor
/// division, whose latency is otherwise half of its cost. Each step sets p anew.
#[derive(Debug, Clone, Copy)]
pub(super) struct Smooth<'a>(pub &'a BothSlip);

impl Flow for Smooth<'_> {
    type Point = Six;

    #[inline(always)]
    fn rates(&self, at: &Six) -> Six {
        let Six { slips: Four { along, across }, inverse } = *at;
        let squared = along * along + across * across;
        let inverse_squared = inverse * inverse;
        let better = inverse * (Pair(1.5, 1.5) - squared * (inverse_squared * 0.5));
        let (along, across) = (along * better, across * better);
        let slips = self.0.rates_along(along, across);
        let growth = along * slips.along + across * slips.across;
        Six { slips, inverse: growth * (inverse_squared * -1.0) }
    }

    #[inline(always)]
    fn speed_in(&self, at: &Six) -> f64 {
        self.0.speed_in(&at.slips)
    }

    #[inline(always)]
    fn squared(at: &Six) -> f64 {
        BothSlip::squared(&at.slips)
    }

    #[inline(always)]
    fn pick(&self, y: &Slips) -> Six {
        let slips = self.0.pick(y);
        let squared = slips.along * slips.along + slips.across * slips.across;
        Six { slips, inverse: Pair(inverse_root(squared.0), inverse_root(squared.1)) }
    }

    #[inline(always)]
    fn slips(&self, at: &Six) -> Slips {
        self.0.slips(&at.slips)
    }
}

/// Both contacts slip, the cloth so little that its direction follows the forces.
///
/// The cloth's friction has no preferred direction, so its slip u settles along the drive d (its
/// rate without the cloth's friction) at the rate |d|/|u|. Where that is far faster than anything
/// else, u points along d but for a lag of |u|·(turning of d)/|d|; what is left out is of the
/// second order in the lag.
#[derive(Debug, Clone, Copy)]
pub(super) struct ClothFollows<'a>(pub &'a BothSlip);

impl ClothFollows<'_> {
    /// The cloth slip's direction, and the share of the drive that the friction leaves for growth.
    #[inline(always)]
    pub fn direction(self, at: &Four) -> (Pair, f64) {
        let flow = self.0;
        let squared = at.along * at.along + at.across * at.across;
        let nose = inverse_root(squared.0);
        let (n_along, n_across) = (at.along.0 * nose, at.across.0 * nose);
        let drive = Pair(flow.nose_along.1 * n_along, flow.drive.1 + flow.nose_across.1 * n_across);
        let inverse = inverse_root(drive.0 * drive.0 + drive.1 * drive.1);
        let d = drive * inverse;
        // How fast the nose slip turns, and the drive with it.
        let rates = flow.rates_along(Pair(n_along, d.0), Pair(n_across, d.1));
        let turning = (n_along * rates.across.0 - n_across * rates.along.0) * nose;
        let change =
            Pair(-flow.nose_along.1 * n_across * turning, flow.nose_across.1 * n_along * turning);
        let drive_turns = (d.0 * change.1 - d.1 * change.0) * inverse;
        let lag = squared.1.sqrt() * drive_turns * inverse;
        let grip = flow.grip + flow.grip_slope * n_across;
        (Pair(d.0 + lag * d.1, d.1 - lag * d.0), 1.0 + flow.cloth_along.1 * grip * inverse)
    }
}

impl Flow for ClothFollows<'_> {
    type Point = Four;

    #[inline(always)]
    fn rates(&self, at: &Four) -> Four {
        let nose = inverse_root(at.along.0 * at.along.0 + at.across.0 * at.across.0);
        let (cloth, _) = self.direction(at);
        self.0.rates_along(Pair(at.along.0 * nose, cloth.0), Pair(at.across.0 * nose, cloth.1))
    }

    #[inline(always)]
    fn speed_in(&self, at: &Four) -> f64 {
        self.0.speed_in(at)
    }

    #[inline(always)]
    fn squared(at: &Four) -> f64 {
        BothSlip::squared(at)
    }

    #[inline(always)]
    fn pick(&self, y: &Slips) -> Four {
        self.0.pick(y)
    }

    #[inline(always)]
    fn slips(&self, at: &Four) -> Slips {
        self.0.slips(at)
    }
}

/// The nose sticks, the cloth slips.
#[derive(Debug, Clone, Copy)]
pub(super) struct NoseSticks<'a>(pub &'a Law);

impl Flow for NoseSticks<'_> {
    type Point = Pair;

    #[inline(always)]
    fn rates(&self, at: &Pair) -> Pair {
        let inverse = inverse_root(at.0 * at.0 + at.1 * at.1);
        let rates = self.0.rates(&self.0.nose_sticks([at.0 * inverse, at.1 * inverse]));
        Pair(rates[2], rates[3])
    }

    #[inline(always)]
    fn speed_in(&self, at: &Pair) -> f64 {
        at.1 / (1.0 + self.0.sin)
    }

    #[inline(always)]
    fn squared(at: &Pair) -> f64 {
        at.0 * at.0 + at.1 * at.1
    }

    #[inline(always)]
    fn pick(&self, y: &Slips) -> Pair {
        Pair(y[2], y[3])
    }

    #[inline(always)]
    fn slips(&self, at: &Pair) -> Slips {
        [0.0, 0.0, at.0, at.1]
    }
}

/// The cloth sticks, the nose slips.
#[derive(Debug, Clone, Copy)]
pub(super) struct ClothSticks<'a>(pub &'a Law);

impl Flow for ClothSticks<'_> {
    type Point = Pair;

    #[inline(always)]
    fn rates(&self, at: &Pair) -> Pair {
        let inverse = inverse_root(at.0 * at.0 + at.1 * at.1);
        let rates = self.0.rates(&self.0.cloth_sticks([at.0 * inverse, at.1 * inverse]));
        Pair(rates[0], rates[1])
    }

    #[inline(always)]
    fn speed_in(&self, at: &Pair) -> f64 {
        -at.1 / (1.0 + self.0.sin)
    }

    #[inline(always)]
    fn squared(at: &Pair) -> f64 {
        at.0 * at.0 + at.1 * at.1
    }

    #[inline(always)]
    fn pick(&self, y: &Slips) -> Pair {
        Pair(y[0], y[1])
    }

    #[inline(always)]
    fn slips(&self, at: &Pair) -> Slips {
        [at.0, at.1, 0.0, 0.0]
    }
}

/// 1/√x, or something finite at 0: a slip that is nothing then has the direction (0, 0). No
/// branch, so that both contacts go through one instruction.
#[inline(always)]
fn inverse_root(squared: f64) -> f64 {
    1.0 / most(squared, 1e-300).sqrt()
}
