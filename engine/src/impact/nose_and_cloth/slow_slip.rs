//! A step in which the nose begins to slip, or slips so slowly that the forces hold its direction.
//!
//! The direction of a small slip settles at the rate force/|s|, and no explicit step may be much
//! longer than that. Collocation at the five right Radau points (order 9; Hairer & Wanner 1996,
//! *Solving Ordinary Differential Equations II*, section IV.5) has no such bound. It asks for no
//! rates at the start either, so the slip may begin at nothing, where it has no direction: of all
//! solutions through that point the polynomial can only follow the one that leaves smoothly.

use super::flow::{BothSlip, Flow, Four};
use super::law::Slips;
use super::pair::NoseClothPair;

const NODES: usize = 5;
/// Radau points of the step.
const C: [f64; NODES] = [
    0.057_104_196_114_517_68,
    0.276_843_013_638_123_8,
    0.583_590_432_368_916_8,
    0.860_240_135_656_219_4,
    1.0,
];
/// Integrals from 0 to each point of the Lagrange polynomials on the points.
const A: [[f64; NODES]; NODES] = [
    [
        0.072_998_864_317_903_32,
        -0.026_735_331_107_945_572,
        0.018_676_929_763_984_354,
        -0.012_879_106_093_306_44,
        0.005_042_839_233_882_015,
    ],
    [
        0.153_775_231_479_182_47,
        0.146_214_867_847_493_5,
        -0.036_444_568_905_128_09,
        0.021_233_063_119_304_72,
        -0.007_935_579_902_728_778,
    ],
    [
        0.140_063_045_684_809_87,
        0.298_967_129_491_283_5,
        0.167_585_070_135_248_96,
        -0.033_969_101_686_617_74,
        0.010_944_288_744_192_252,
    ],
    [
        0.144_894_308_109_534_76,
        0.276_500_068_760_159_23,
        0.325_797_922_910_421_03,
        0.128_756_753_254_909_76,
        -0.015_708_917_378_805_328,
    ],
    [
        0.143_713_560_791_225_94,
        0.281_356_015_149_462_06,
        0.311_826_522_975_741_25,
        0.223_103_901_083_570_74,
        0.04,
    ],
];
/// The Lagrange polynomials at 0.
const AT_START: [f64; NODES] = [
    1.586_407_900_186_328_2,
    -1.008_117_881_498_373,
    0.730_974_866_159_787_5,
    -0.509_264_884_847_742_7,
    0.2,
];

/// Where such a step led.
pub(super) struct SlowSlip {
    pub end: Slips,
    /// Integral of the speed into the cushion.
    pub distance: f64,
    /// The angle between the polynomial's direction at the start and the true one (rad).
    pub misfit: f64,
}

/// Steps from `y` by `h`; `heading` is the nose slip's direction at the start. `None` when the
/// equations of the step do not settle: the step is too long.
pub(super) fn leave(flow: &BothSlip, y: &Slips, heading: [f64; 2], h: f64) -> Option<SlowSlip> {
    let start = flow.pick(y);
    let cloth = unit([y[2], y[3]]);
    let first =
        flow.rates_along(NoseClothPair(heading[0], cloth[0]), NoseClothPair(heading[1], cloth[1]));
    let growth = first.along.0 * heading[0] + first.across.0 * heading[1];
    let mut points = C.map(|c| {
        let mut point = start + first * (c * h);
        if start.along.0 == 0.0 && start.across.0 == 0.0 {
            // At the very edge of the cone the slip begins with rate 0 and grows as the square.
            let size = c * h * growth.max(0.05 * c * h);
            (point.along.0, point.across.0) = (size * heading[0], size * heading[1]);
        }
        point
    });
    for _ in 0..14 {
        let sizes = points.map(|at| size(at.along.0, at.across.0));
        let headings = points.map(|at| unit([at.along.0, at.across.0]));
        let mut rates = [start; NODES];
        let mut slopes = [start; NODES];
        for j in 0..NODES {
            let cloth = unit([points[j].along.1, points[j].across.1]);
            let (along, across) =
                (NoseClothPair(headings[j][0], cloth[0]), NoseClothPair(headings[j][1], cloth[1]));
            rates[j] = flow.rates_along(along, across);
            slopes[j] = flow.slopes_by_turning(along, across);
        }
        let misses: [Four; NODES] =
            core::array::from_fn(|i| sum(&A[i], &rates, h) + start + points[i] * -1.0);
        let mut matrix = [[0.0; NODES]; NODES];
        let mut right = [0.0; NODES];
        for i in 0..NODES {
            let [x, y] = headings[i];
            for j in 0..NODES {
                matrix[i][j] = -h * A[i][j] * (x * slopes[j].across.0 - y * slopes[j].along.0);
            }
            matrix[i][i] += sizes[i];
            right[i] = x * misses[i].across.0 - y * misses[i].along.0;
        }
        let turns = solve(matrix, right)?;
        let mut turned = slopes;
        for (slope, turn) in turned.iter_mut().zip(turns) {
            *slope = *slope * turn;
        }
        let mut moved: f64 = 0.0;
        for i in 0..NODES {
            let change = misses[i] + sum(&A[i], &turned, h);
            points[i] = points[i] + change;
            moved = moved.max(BothSlip::squared(&change));
        }
        // The next change would be a hundredth of this one, seldom more than a twenty-fifth: what is
        // left is less than a step's tolerance.
        if moved < 1e-19 {
            let headings = points.map(|at| unit([at.along.0, at.across.0]));
            let mut miss = [-heading[0], -heading[1]];
            for (weight, n) in AT_START.iter().zip(headings) {
                miss = [miss[0] + weight * n[0], miss[1] + weight * n[1]];
            }
            let mut distance = 0.0;
            for (weight, at) in A[NODES - 1].iter().zip(&points) {
                distance += weight * flow.speed_in(at);
            }
            return Some(SlowSlip {
                end: flow.slips(&points[NODES - 1]),
                distance: h * distance,
                misfit: size(miss[0], miss[1]),
            });
        }
    }
    None
}

#[inline]
fn sum(weights: &[f64; NODES], rates: &[Four; NODES], h: f64) -> Four {
    let mut total = rates[0] * (h * weights[0]);
    for j in 1..NODES {
        total = total + rates[j] * (h * weights[j]);
    }
    total
}

fn size(x: f64, y: f64) -> f64 {
    (x * x + y * y).sqrt()
}

fn unit(v: [f64; 2]) -> [f64; 2] {
    super::law::unit(v)
}

/// Gaussian elimination with row exchange; `None` for a singular or non-finite system.
fn solve(mut m: [[f64; NODES]; NODES], mut b: [f64; NODES]) -> Option<[f64; NODES]> {
    for column in 0..NODES {
        let mut pivot = column;
        for row in column + 1..NODES {
            if m[row][column].abs() > m[pivot][column].abs() {
                pivot = row;
            }
        }
        m.swap(column, pivot);
        b.swap(column, pivot);
        let inverse = 1.0 / m[column][column];
        if !inverse.is_finite() {
            return None;
        }
        for row in column + 1..NODES {
            let factor = m[row][column] * inverse;
            let above = m[column];
            for (entry, above) in m[row].iter_mut().zip(above).skip(column) {
                *entry -= factor * above;
            }
            b[row] -= factor * b[column];
        }
    }
    for row in (0..NODES).rev() {
        for k in row + 1..NODES {
            b[row] -= m[row][k] * b[k];
        }
        b[row] /= m[row][row];
    }
    Some(b)
}
