//! One explicit Runge–Kutta step of order 8: the twelve stages of Dormand and Prince as given in
//! Hairer, Nørsett & Wanner 1993, *Solving Ordinary Differential Equations I*, section II.10.

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

/// A point of the reduced motion: nose slip along and up, cloth slip along and into.
pub(super) type Slips = [f64; 4];

fn array(component: impl Fn(usize) -> f64) -> Slips {
    [component(0), component(1), component(2), component(3)]
}

/// Steps `y` by `h` and integrates `integrand` along the way with the same order.
///
/// `rates_at_start` is `rates(y)`, which the caller has at hand.
#[inline]
pub(super) fn step(
    y: &Slips,
    rates_at_start: &Slips,
    h: f64,
    rates: impl Fn(&Slips) -> Slips,
    integrand: impl Fn(&Slips) -> f64,
) -> (Slips, f64) {
    let k0 = *rates_at_start;
    let y1 = array(|i| y[i] + h * (A1_0 * k0[i]));
    let k1 = rates(&y1);
    let y2 = array(|i| y[i] + h * (A2_0 * k0[i] + A2_1 * k1[i]));
    let k2 = rates(&y2);
    let y3 = array(|i| y[i] + h * (A3_0 * k0[i] + A3_2 * k2[i]));
    let k3 = rates(&y3);
    let y4 = array(|i| y[i] + h * (A4_0 * k0[i] + A4_2 * k2[i] + A4_3 * k3[i]));
    let k4 = rates(&y4);
    let y5 = array(|i| y[i] + h * (A5_0 * k0[i] + A5_3 * k3[i] + A5_4 * k4[i]));
    let k5 = rates(&y5);
    let y6 = array(|i| y[i] + h * (A6_0 * k0[i] + A6_3 * k3[i] + A6_4 * k4[i] + A6_5 * k5[i]));
    let k6 = rates(&y6);
    let y7 = array(|i| {
        y[i] + h * (A7_0 * k0[i] + A7_3 * k3[i] + A7_4 * k4[i] + A7_5 * k5[i] + A7_6 * k6[i])
    });
    let k7 = rates(&y7);
    let y8 = array(|i| {
        y[i] + h
            * (A8_0 * k0[i]
                + A8_3 * k3[i]
                + A8_4 * k4[i]
                + A8_5 * k5[i]
                + A8_6 * k6[i]
                + A8_7 * k7[i])
    });
    let k8 = rates(&y8);
    let y9 = array(|i| {
        y[i] + h
            * (A9_0 * k0[i]
                + A9_3 * k3[i]
                + A9_4 * k4[i]
                + A9_5 * k5[i]
                + A9_6 * k6[i]
                + A9_7 * k7[i]
                + A9_8 * k8[i])
    });
    let k9 = rates(&y9);
    let y10 = array(|i| {
        y[i] + h
            * (A10_0 * k0[i]
                + A10_3 * k3[i]
                + A10_4 * k4[i]
                + A10_5 * k5[i]
                + A10_6 * k6[i]
                + A10_7 * k7[i]
                + A10_8 * k8[i]
                + A10_9 * k9[i])
    });
    let k10 = rates(&y10);
    let y11 = array(|i| {
        y[i] + h
            * (A11_0 * k0[i]
                + A11_3 * k3[i]
                + A11_4 * k4[i]
                + A11_5 * k5[i]
                + A11_6 * k6[i]
                + A11_7 * k7[i]
                + A11_8 * k8[i]
                + A11_9 * k9[i]
                + A11_10 * k10[i])
    });
    let k11 = rates(&y11);
    let end = array(|i| {
        y[i] + h
            * (B0 * k0[i]
                + B5 * k5[i]
                + B6 * k6[i]
                + B7 * k7[i]
                + B8 * k8[i]
                + B9 * k9[i]
                + B10 * k10[i]
                + B11 * k11[i])
    });
    let integral = h
        * (B0 * integrand(y)
            + B5 * integrand(&y5)
            + B6 * integrand(&y6)
            + B7 * integrand(&y7)
            + B8 * integrand(&y8)
            + B9 * integrand(&y9)
            + B10 * integrand(&y10)
            + B11 * integrand(&y11));
    (end, integral)
}
