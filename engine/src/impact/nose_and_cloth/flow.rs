//! The equations of each regime, as something a Runge–Kutta step can follow.

use super::choice::most;
use super::law::{K, Law, Slips};
use super::pair::NoseClothPair;
use core::ops::{Add, Mul};

/// The slips that move in one regime, and their motion.
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
    pub along: NoseClothPair,
    pub across: NoseClothPair,
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
    drive: NoseClothPair,
    nose_along: NoseClothPair,
    nose_across: NoseClothPair,
    cloth_along: NoseClothPair,
    cloth_across: NoseClothPair,
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
            drive: NoseClothPair(law.sin * law.cos, -law.cos),
            nose_along: NoseClothPair(-(1.0 + K) * nose, -law.cross * nose),
            nose_across: NoseClothPair(-law.up * nose, -law.lift * nose),
            cloth_along: NoseClothPair(-law.cross, -(1.0 + K)),
            cloth_across: NoseClothPair(-law.lift, -(1.0 + K)),
            per_speed: 1.0 / (1.0 + law.sin),
        }
    }

    /// Rates under given directions of slip.
    #[inline(always)]
    pub fn rates_along(&self, along: NoseClothPair, across: NoseClothPair) -> Four {
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
    pub fn slopes_by_turning(&self, along: NoseClothPair, across: NoseClothPair) -> Four {
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
        let inverse = NoseClothPair(inverse_root(squared.0), inverse_root(squared.1));
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
        Four { along: NoseClothPair(y[0], y[2]), across: NoseClothPair(y[1], y[3]) }
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
    pub inverse: NoseClothPair,
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
/// With p = 1/|s| as a variable of its own, dp = −p²·(n·ds), n the slip's direction, a stage needs neither
/// root nor division, whose latency is otherwise half of its cost. Each step sets p anew.
#[derive(Debug, Clone, Copy)]
pub(super) struct Smooth<'a>(pub &'a BothSlip);

impl Flow for Smooth<'_> {
    type Point = Six;

    #[inline(always)]
    fn rates(&self, at: &Six) -> Six {
        let Six { slips: Four { along, across }, inverse } = *at;
        let squared = along * along + across * across;
        let inverse_squared = inverse * inverse;
        let better = inverse * (NoseClothPair(1.5, 1.5) - squared * (inverse_squared * 0.5));
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
        Six { slips, inverse: NoseClothPair(inverse_root(squared.0), inverse_root(squared.1)) }
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
    pub fn direction(self, at: &Four) -> (NoseClothPair, f64) {
        let flow = self.0;
        let squared = at.along * at.along + at.across * at.across;
        let nose = inverse_root(squared.0);
        let (n_along, n_across) = (at.along.0 * nose, at.across.0 * nose);
        let drive = NoseClothPair(
            flow.nose_along.1 * n_along,
            flow.drive.1 + flow.nose_across.1 * n_across,
        );
        let inverse = inverse_root(drive.0 * drive.0 + drive.1 * drive.1);
        let d = drive * inverse;
        // How fast the nose slip turns, and the drive with it.
        let rates = flow.rates_along(NoseClothPair(n_along, d.0), NoseClothPair(n_across, d.1));
        let turning = (n_along * rates.across.0 - n_across * rates.along.0) * nose;
        let change = NoseClothPair(
            -flow.nose_along.1 * n_across * turning,
            flow.nose_across.1 * n_along * turning,
        );
        let drive_turns = (d.0 * change.1 - d.1 * change.0) * inverse;
        let lag = squared.1.sqrt() * drive_turns * inverse;
        let grip = flow.grip + flow.grip_slope * n_across;
        (NoseClothPair(d.0 + lag * d.1, d.1 - lag * d.0), 1.0 + flow.cloth_along.1 * grip * inverse)
    }
}

impl Flow for ClothFollows<'_> {
    type Point = Four;

    #[inline(always)]
    fn rates(&self, at: &Four) -> Four {
        let nose = inverse_root(at.along.0 * at.along.0 + at.across.0 * at.across.0);
        let (cloth, _) = self.direction(at);
        self.0.rates_along(
            NoseClothPair(at.along.0 * nose, cloth.0),
            NoseClothPair(at.across.0 * nose, cloth.1),
        )
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
    type Point = NoseClothPair;

    #[inline(always)]
    fn rates(&self, at: &NoseClothPair) -> NoseClothPair {
        let inverse = inverse_root(at.0 * at.0 + at.1 * at.1);
        let rates = self.0.rates(&self.0.nose_sticks([at.0 * inverse, at.1 * inverse]));
        NoseClothPair(rates[2], rates[3])
    }

    #[inline(always)]
    fn speed_in(&self, at: &NoseClothPair) -> f64 {
        at.1 / (1.0 + self.0.sin)
    }

    #[inline(always)]
    fn squared(at: &NoseClothPair) -> f64 {
        at.0 * at.0 + at.1 * at.1
    }

    #[inline(always)]
    fn pick(&self, y: &Slips) -> NoseClothPair {
        NoseClothPair(y[2], y[3])
    }

    #[inline(always)]
    fn slips(&self, at: &NoseClothPair) -> Slips {
        [0.0, 0.0, at.0, at.1]
    }
}

/// The cloth sticks, the nose slips.
#[derive(Debug, Clone, Copy)]
pub(super) struct ClothSticks<'a>(pub &'a Law);

impl Flow for ClothSticks<'_> {
    type Point = NoseClothPair;

    #[inline(always)]
    fn rates(&self, at: &NoseClothPair) -> NoseClothPair {
        let inverse = inverse_root(at.0 * at.0 + at.1 * at.1);
        let rates = self.0.rates(&self.0.cloth_sticks([at.0 * inverse, at.1 * inverse]));
        NoseClothPair(rates[0], rates[1])
    }

    #[inline(always)]
    fn speed_in(&self, at: &NoseClothPair) -> f64 {
        -at.1 / (1.0 + self.0.sin)
    }

    #[inline(always)]
    fn squared(at: &NoseClothPair) -> f64 {
        at.0 * at.0 + at.1 * at.1
    }

    #[inline(always)]
    fn pick(&self, y: &Slips) -> NoseClothPair {
        NoseClothPair(y[0], y[1])
    }

    #[inline(always)]
    fn slips(&self, at: &NoseClothPair) -> Slips {
        [at.0, at.1, 0.0, 0.0]
    }
}

/// 1/√x, or something finite at 0: a slip that is nothing then has the direction (0, 0). No
/// branch, so that both contacts go through one instruction.
#[inline(always)]
fn inverse_root(squared: f64) -> f64 {
    1.0 / most(squared, 1e-300).sqrt()
}
