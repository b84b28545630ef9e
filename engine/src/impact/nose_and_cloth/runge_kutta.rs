//! One explicit Runge–Kutta step of order 8 with an estimate of its error: the twelve stages of
//! Dormand and Prince as given in Hairer, Nørsett & Wanner 1993, *Solving Ordinary Differential
//! Equations I*, section II.10; and the classical step of order 4 for short ends.

use super::choice::choose;
use super::flow::Flow;

const A1_0: f64 = 0.05260015195876773;
const A2_0: f64 = 0.0197250569845379;
const A2_1: f64 = 0.0591751709536137;
const A3_0: f64 = 0.02958758547680685;
const A3_2: f64 = 0.08876275643042054;
const A4_0: f64 = 0.2413651341592667;
const A4_2: f64 = -0.8845494793282861;
const A4_3: f64 = 0.924834003261792;
const A5_0: f64 = 0.037037037037037035;
const A5_3: f64 = 0.17082860872947386;
const A5_4: f64 = 0.12546768756682242;
const A6_0: f64 = 0.037109375;
const A6_3: f64 = 0.17025221101954405;
const A6_4: f64 = 0.06021653898045596;
const A6_5: f64 = -0.017578125;
const A7_0: f64 = 0.03709200011850479;
const A7_3: f64 = 0.17038392571223998;
const A7_4: f64 = 0.10726203044637328;
const A7_5: f64 = -0.015319437748624402;
const A7_6: f64 = 0.008273789163814023;
const A8_0: f64 = 0.6241109587160757;
const A8_3: f64 = -3.3608926294469414;
const A8_4: f64 = -0.868219346841726;
const A8_5: f64 = 27.59209969944671;
const A8_6: f64 = 20.154067550477894;
const A8_7: f64 = -43.48988418106996;
const A9_0: f64 = 0.47766253643826434;
const A9_3: f64 = -2.4881146199716677;
const A9_4: f64 = -0.590290826836843;
const A9_5: f64 = 21.230051448181193;
const A9_6: f64 = 15.279233632882423;
const A9_7: f64 = -33.28821096898486;
const A9_8: f64 = -0.020331201708508627;
const A10_0: f64 = -0.9371424300859873;
const A10_3: f64 = 5.186372428844064;
const A10_4: f64 = 1.0914373489967295;
const A10_5: f64 = -8.149787010746927;
const A10_6: f64 = -18.52006565999696;
const A10_7: f64 = 22.739487099350505;
const A10_8: f64 = 2.4936055526796523;
const A10_9: f64 = -3.0467644718982196;
const A11_0: f64 = 2.273310147516538;
const A11_3: f64 = -10.53449546673725;
const A11_4: f64 = -2.0008720582248625;
const A11_5: f64 = -17.9589318631188;
const A11_6: f64 = 27.94888452941996;
const A11_7: f64 = -2.8589982771350235;
const A11_8: f64 = -8.87285693353063;
const A11_9: f64 = 12.360567175794303;
const A11_10: f64 = 0.6433927460157636;
const B0: f64 = 0.054293734116568765;
const B5: f64 = 4.450312892752409;
const B6: f64 = 1.8915178993145003;
const B7: f64 = -5.801203960010585;
const B8: f64 = 0.3111643669578199;
const B9: f64 = -0.1521609496625161;
const B10: f64 = 0.20136540080403034;
const B11: f64 = 0.04471061572777259;

const E5_0: f64 = 0.01312004499419488;
const E5_5: f64 = -1.2251564463762044;
const E5_6: f64 = -0.4957589496572502;
const E5_7: f64 = 1.6643771824549864;
const E5_8: f64 = -0.35032884874997366;
const E5_9: f64 = 0.3341791187130175;
const E5_10: f64 = 0.08192320648511571;
const E5_11: f64 = -0.022355307863886294;
const E3_0: f64 = -0.18980075407240762;
const E3_5: f64 = 4.450312892752409;
const E3_6: f64 = 1.8915178993145003;
const E3_7: f64 = -5.801203960010585;
const E3_8: f64 = -0.42268232132379197;
const E3_9: f64 = -0.1521609496625161;
const E3_10: f64 = 0.20136540080403034;
const E3_11: f64 = 0.022651792198360825;

/// Where a step led.
#[derive(Debug, Clone, Copy)]
pub(super) struct Step<P> {
    pub end: P,
    /// Integral of the speed into the cushion.
    pub distance: f64,
    /// Estimated error of `end`, on the safe side.
    pub error: f64,
}

/// Steps from `y`, where the rates are `k0`, by `h`.
///
/// Every stage adds the newest rates last: the sums are then one multiplication and one addition
/// deep, and depth is what this loop waits for.
#[inline(always)]
pub(super) fn step<F: Flow>(flow: &F, y: F::Point, k0: F::Point, h: f64) -> Step<F::Point> {
    let y1 = y + k0 * (h * A1_0);
    let k1 = flow.rates(&y1);
    let y2 = y + k0 * (h * A2_0) + k1 * (h * A2_1);
    let k2 = flow.rates(&y2);
    let y3 = y + k0 * (h * A3_0) + k2 * (h * A3_2);
    let k3 = flow.rates(&y3);
    let y4 = y + k0 * (h * A4_0) + k2 * (h * A4_2) + k3 * (h * A4_3);
    let k4 = flow.rates(&y4);
    let y5 = y + k0 * (h * A5_0) + k3 * (h * A5_3) + k4 * (h * A5_4);
    let k5 = flow.rates(&y5);
    let y6 = y + k0 * (h * A6_0) + k3 * (h * A6_3) + k4 * (h * A6_4) + k5 * (h * A6_5);
    let k6 = flow.rates(&y6);
    let y7 =
        y + k0 * (h * A7_0) + k3 * (h * A7_3) + k4 * (h * A7_4) + k5 * (h * A7_5) + k6 * (h * A7_6);
    let k7 = flow.rates(&y7);
    let y8 = y
        + k0 * (h * A8_0)
        + k3 * (h * A8_3)
        + k4 * (h * A8_4)
        + k5 * (h * A8_5)
        + k6 * (h * A8_6)
        + k7 * (h * A8_7);
    let k8 = flow.rates(&y8);
    let y9 = y
        + k0 * (h * A9_0)
        + k3 * (h * A9_3)
        + k4 * (h * A9_4)
        + k5 * (h * A9_5)
        + k6 * (h * A9_6)
        + k7 * (h * A9_7)
        + k8 * (h * A9_8);
    let k9 = flow.rates(&y9);
    let y10 = y
        + k0 * (h * A10_0)
        + k3 * (h * A10_3)
        + k4 * (h * A10_4)
        + k5 * (h * A10_5)
        + k6 * (h * A10_6)
        + k7 * (h * A10_7)
        + k8 * (h * A10_8)
        + k9 * (h * A10_9);
    let k10 = flow.rates(&y10);
    let y11 = y
        + k0 * (h * A11_0)
        + k3 * (h * A11_3)
        + k4 * (h * A11_4)
        + k5 * (h * A11_5)
        + k6 * (h * A11_6)
        + k7 * (h * A11_7)
        + k8 * (h * A11_8)
        + k9 * (h * A11_9)
        + k10 * (h * A11_10);
    let k11 = flow.rates(&y11);
    let end = y
        + k0 * (h * B0)
        + k5 * (h * B5)
        + k6 * (h * B6)
        + k7 * (h * B7)
        + k8 * (h * B8)
        + k9 * (h * B9)
        + k10 * (h * B10)
        + k11 * (h * B11);
    let distance = h
        * (B0 * flow.speed_in(&y)
            + B5 * flow.speed_in(&y5)
            + B6 * flow.speed_in(&y6)
            + B7 * flow.speed_in(&y7)
            + B8 * flow.speed_in(&y8)
            + B9 * flow.speed_in(&y9)
            + B10 * flow.speed_in(&y10)
            + B11 * flow.speed_in(&y11));
    let fifth = k0 * E5_0
        + k5 * E5_5
        + k6 * E5_6
        + k7 * E5_7
        + k8 * E5_8
        + k9 * E5_9
        + k10 * E5_10
        + k11 * E5_11;
    let third = k0 * E3_0
        + k5 * E3_5
        + k6 * E3_6
        + k7 * E3_7
        + k8 * E3_8
        + k9 * E3_9
        + k10 * E3_10
        + k11 * E3_11;
    let (fifth, third) = (F::squared(&fifth), F::squared(&third));
    let both = fifth + 0.01 * third;
    // Not a number compares false and stays one: such a step is refused.
    let error = choose(both == 0.0, 0.0, h.abs() * fifth / both.sqrt());
    Step { end, distance, error }
}

/// The classical step of order 4, for an end so short that it is exact enough.
#[inline]
pub(super) fn short_step<F: Flow>(flow: &F, y: F::Point, k0: F::Point, h: f64) -> (F::Point, f64) {
    let y1 = y + k0 * (0.5 * h);
    let k1 = flow.rates(&y1);
    let y2 = y + k1 * (0.5 * h);
    let k2 = flow.rates(&y2);
    let y3 = y + k2 * h;
    let k3 = flow.rates(&y3);
    let end = y + (k0 + (k1 + k2) * 2.0 + k3) * (h / 6.0);
    let middle = 2.0 * (flow.speed_in(&y1) + flow.speed_in(&y2));
    (end, h / 6.0 * (flow.speed_in(&y) + middle + flow.speed_in(&y3)))
}
