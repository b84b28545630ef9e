//! Sine, cosine and arctangent without branches, with the bits of the `libm` crate.
//!
//! The polynomials and reductions are those of the freely usable mathematical library of Sun
//! Microsystems (1993), which the `libm` crate follows too; its operations come in the same order.

use super::lane::select;
use core::f64::consts::{FRAC_PI_2, FRAC_PI_4, PI};

/// The difference between π and its nearest number.
const PI_REST: f64 = 1.224_646_799_147_353_2e-16;

/// Below this the cosine is 1 to rounding.
const TINY: f64 = f64::from_bits(0x3e46_a09e_0000_0000);

/// Sine and cosine of an angle within ±π/4, rad.
#[inline(always)]
pub(super) fn sin_cos_near_zero(x: f64) -> (f64, f64) {
    let z = x * x;
    let w = z * z;
    let r = 8.333_333_333_322_49e-3
        + z * (-1.984_126_982_985_795e-4 + z * 2.755_731_370_707_006_8e-6)
        + z * w * (-2.505_076_025_340_686_3e-8 + z * 1.589_690_995_211_55e-10);
    let v = z * x;
    let sin = x + v * (-1.666_666_666_666_663_2e-1 + z * r);
    let r = z
        * (4.166_666_666_666_66e-2
            + z * (-1.388_888_888_887_411e-3 + z * 2.480_158_728_947_673e-5))
        + w * w
            * (-2.755_731_435_139_066_3e-7
                + z * (2.087_572_321_298_175e-9 + z * -1.135_964_755_778_819_5e-11));
    let half = 0.5 * z;
    let w = 1.0 - half;
    // The second operand of the source's sum is 0 here.
    let cos = w + (((1.0 - w) - half) + (z * r - x * 0.0));
    let tiny = x.abs() < TINY;
    (select(tiny, x, sin), select(tiny, 1.0, cos))
}

/// Where an arctangent is reduced about: the number, its arctangent and the rest of that beyond its nearest
/// number.
const HALF: (f64, f64) = (4.636_476_090_008_061e-1, 2.269_877_745_296_168_7e-17);
const ONE: (f64, f64) = (FRAC_PI_4, 3.061_616_997_868_383e-17);
const THREE_HALVES: (f64, f64) = (9.827_937_232_473_29e-1, 1.390_331_103_123_099_8e-17);
const INFINITE: (f64, f64) = (FRAC_PI_2, 6.123_233_995_736_766e-17);

/// Arctangent of a number ≥ 0.
#[inline(always)]
fn arctan(t: f64) -> f64 {
    // 7/16, 11/16, 19/16 and 39/16.
    let (small, half, one, more) = (t < 0.4375, t < 0.6875, t < 1.1875, t < 2.4375);
    let pick = |s: f64, h: f64, o: f64, m: f64, i: f64| {
        select(small, s, select(half, h, select(one, o, select(more, m, i))))
    };
    let over = pick(t, 2.0 * t - 1.0, t - 1.0, t - 1.5, -1.0);
    let under = pick(1.0, 2.0 + t, t + 1.0, 1.0 + 1.5 * t, t);
    let x = over / under;
    let high = pick(0.0, HALF.0, ONE.0, THREE_HALVES.0, INFINITE.0);
    let low = pick(0.0, HALF.1, ONE.1, THREE_HALVES.1, INFINITE.1);
    let z = x * x;
    let w = z * z;
    let odd = z
        * (3.333_333_333_333_293e-1
            + w * (1.428_571_427_250_346_6e-1
                + w * (9.090_887_133_436_507e-2
                    + w * (6.661_073_137_387_531e-2
                        + w * (4.976_877_994_615_932e-2 + w * 1.628_582_011_536_578_2e-2)))));
    let even = w
        * (-1.999_999_999_987_648_3e-1
            + w * (-1.111_111_040_546_235_6e-1
                + w * (-7.691_876_205_044_83e-2
                    + w * (-5.833_570_133_790_573_5e-2 + w * -3.653_157_274_421_691_6e-2))));
    let tail = x * (odd + even);
    let about = high - (tail - low - x);
    // Below 2^-27 it is the number itself; from 2^66 on a quarter turn.
    let near = select(t < f64::from_bits(0x3e40_0000_0000_0000), t, x - tail);
    let about = select(t >= f64::from_bits(0x4410_0000_0000_0000), INFINITE.0, about);
    select(small, near, about)
}

/// Angle of the direction (x, y) from the x axis, rad; as `libm::atan2` for finite numbers.
#[inline(always)]
pub(super) fn arctan2(y: f64, x: f64) -> f64 {
    let high = |number: f64| (number.abs().to_bits() >> 32).cast_signed();
    let apart = high(y) - high(x);
    let (far, near) = (apart > 64 << 20, -apart > 64 << 20);
    let back = x.is_sign_negative();
    let angle = arctan((y / x).abs());
    let angle = select(back & near, 0.0, angle);
    let angle = select(back, PI - (angle - PI_REST), angle);
    let angle = select((x == 0.0) | far, FRAC_PI_2, angle);
    let angle = select(y == 0.0, select(back, PI, 0.0), angle);
    select(y.is_sign_negative(), -angle, angle)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Numbers of all sizes, both signs, thick around `about`.
    fn numbers(about: f64) -> impl Iterator<Item = f64> {
        let spread = (0..200_000).map(move |i| about * (f64::from(i) * 1e-5 - 1.0));
        let sizes = (-1074..1024).flat_map(|power| {
            let size = libm::ldexp(1.0, power);
            [size, -size, 1.37 * size, -1.37 * size]
        });
        spread.chain(sizes).chain([0.0, -0.0, TINY, -TINY])
    }

    #[test]
    fn sine_and_cosine_have_the_library_s_bits() {
        for angle in numbers(0.785).filter(|angle| angle.abs() < 0.785) {
            let (sin, cos) = sin_cos_near_zero(angle);
            let (known_sin, known_cos) = libm::sincos(angle);
            assert_eq!(sin.to_bits(), known_sin.to_bits(), "sine of {angle:e}");
            assert_eq!(cos.to_bits(), known_cos.to_bits(), "cosine of {angle:e}");
        }
    }

    #[test]
    fn the_arctangent_has_the_library_s_bits() {
        for y in numbers(4.0) {
            for x in [1.0, -1.0, 1.3, -0.7, 1e-30, -1e-30, 1e300, -1e300, 3e-310, 0.0, -0.0] {
                let (ours, known) = (arctan2(y, x), libm::atan2(y, x));
                assert_eq!(ours.to_bits(), known.to_bits(), "of {y:e} over {x:e}");
            }
        }
    }
}
