//! Speeds and sides at which shots are played, and their weights.

use super::Skill;
use crate::normal::below_which;
use crate::root::bracketed_root;

/// One speed and side of a person's shots, as the ratio to the speed that is meant and the side that is got.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpreadNode {
    /// Speed over the speed that is meant.
    pub speed_ratio: f64,
    /// Side, as R·wz/v.
    pub side: f64,
    /// Its share of the law.
    pub weight: f64,
    /// Its weight in the integral without the outermost speeds and sides, by which the error is judged.
    pub rough_weight: f64,
}

/// The nodes over which chances are integrated.
#[derive(Debug, Clone, PartialEq)]
pub struct SpreadNodes {
    nodes: Vec<SpreadNode>,
    between: Option<Between>,
}

/// Many speeds and sides of equal weight, between the nodes: whatever is known at the nodes is known there as well, by
/// the polynomial through them.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Between {
    /// For each of them, the share of every node.
    pub(super) shares: Vec<Vec<f64>>,
}

/// Strata by speed and by side.
const STRATA: (u16, u16) = (48, 12);
/// A person whose aim and reading spread a start by less, diamonds, has a chance that falls in steps with the speed.
const SHARP: f64 = 0.07;
/// Diamonds of start for a radian of aim, about, on a nine-foot table.
const STARTS_A_RAD: f64 = 4.0;

/// A speed that falls below is taken as so much of what was meant: a stroke is not turned round.
pub(super) const LEAST_RATIO: f64 = 0.05;

impl SpreadNodes {
    /// The numbers of nodes by speed and by side that are used where nothing else is said.
    pub const USUAL: (usize, usize) = (7, 5);

    /// The same for means over many balls and tables, where the errors of single ones go both ways.
    pub const FEW: (usize, usize) = (5, 3);

    /// Of a person, with so many speeds and sides; one each where they do not spread. The first node is the shot
    /// as it is meant.
    pub fn of(skill: &Skill, (speeds, sides): (usize, usize)) -> Self {
        let speeds = with_rough(&gauss_hermite(if skill.speed > 0.0 { speeds } else { 1 }));
        let sides = with_rough(&gauss_hermite(if skill.side > 0.0 { sides } else { 1 }));
        let places: Vec<(f64, f64)> = speeds
            .iter()
            .flat_map(|(speed, _)| sides.iter().map(move |(side, _)| (*speed, *side)))
            .collect();
        let nodes: Vec<SpreadNode> = speeds
            .iter()
            .flat_map(|(speed_z, speed_share)| {
                sides.iter().map(move |(side_z, side_share)| SpreadNode {
                    speed_ratio: (1.0 + skill.speed * speed_z).max(LEAST_RATIO),
                    side: skill.side * side_z,
                    weight: speed_share.whole * side_share.whole,
                    rough_weight: speed_share.rough * side_share.rough,
                })
            })
            .collect();
        // Nearest to what is meant first, in a fixed order.
        let far = |(speed, side): (f64, f64)| speed * speed + side * side;
        let mut order: Vec<usize> = (0..nodes.len()).collect();
        order.sort_by(|a, b| far(places[*a]).total_cmp(&far(places[*b])));
        let between = (is_sharp(skill) && nodes.len() > 1).then(|| {
            let zs = |points: &[(f64, PointWeights)]| -> Vec<f64> {
                points.iter().map(|(z, _)| *z).collect()
            };
            Between::of(&zs(&speeds), &zs(&sides), &order)
        });
        Self { nodes: order.into_iter().map(|at| nodes[at]).collect(), between }
    }

    /// Speeds and sides between the nodes, where the nodes alone are too few.
    pub(super) const fn between(&self) -> Option<&Between> {
        self.between.as_ref()
    }

    /// The nodes.
    pub fn nodes(&self) -> &[SpreadNode] {
        &self.nodes
    }
}

fn is_sharp(skill: &Skill) -> bool {
    let spreads = [
        STARTS_A_RAD * skill.aim_rad,
        2.0 * skill.contact_read,
        skill.start_read,
        skill.reckoned(),
    ];
    spreads.iter().map(|spread| spread * spread).sum::<f64>().sqrt() < SHARP
}

impl Between {
    /// `order` puts nodes, speeds outermost, in the order in which they are kept.
    fn of(speeds: &[f64], sides: &[f64], order: &[usize]) -> Self {
        let middles = |points: &[f64], strata: u16| -> Vec<f64> {
            let strata = if points.len() > 1 { strata } else { 1 };
            let share = |at: u16| (f64::from(at) + 0.5) / f64::from(strata);
            (0..strata).map(|at| below_which(share(at))).collect()
        };
        let side_places = middles(sides, STRATA.1);
        let shares = middles(speeds, STRATA.0)
            .into_iter()
            .flat_map(|speed| side_places.iter().map(move |side| (speed, *side)))
            .map(|(speed, side)| {
                let (by_speed, by_side) = (bases(speeds, speed), bases(sides, side));
                let both = |at: usize| by_speed[at / sides.len()] * by_side[at % sides.len()];
                order.iter().map(|&at| both(at)).collect()
            })
            .collect();
        Self { shares }
    }
}

impl Between {
    /// The weight of each, alike, and in an integral with every second of them.
    pub(super) fn weights(&self) -> impl Iterator<Item = (f64, f64)> {
        let weight = 1.0 / self.shares.len() as f64;
        // As on a chequered board of speeds and sides.
        let is_kept = |at: usize| (at + at / usize::from(STRATA.1)).is_multiple_of(2);
        (0..self.shares.len()).map(move |at| (weight, if is_kept(at) { 2.0 * weight } else { 0.0 }))
    }
}

/// The share of every point in a polynomial through all of them, at a place (J. L. Lagrange's form).
fn bases(points: &[f64], place: f64) -> Vec<f64> {
    let base = |own: &f64| {
        let others = points.iter().filter(|other| *other != own);
        others.map(|other| (place - other) / (own - other)).product()
    };
    points.iter().map(base).collect()
}

/// The weights of one point in two integrals over the same law.
#[derive(Debug, Clone, Copy)]
struct PointWeights {
    whole: f64,
    rough: f64,
}

/// The same points, each also with its weight in the integral that leaves the outermost pair out: that which is
/// exact for the polynomial through the others.
fn with_rough(points: &[(f64, f64)]) -> Vec<(f64, PointWeights)> {
    let kept = if points.len() < 3 { points } else { &points[1..points.len() - 1] };
    let rough = |at: usize| {
        let z = points[at].0;
        if !kept.iter().any(|(other, _)| *other == z) {
            return 0.0;
        }
        // The whole integral is exact for a polynomial of this degree.
        let basis = |at: f64| {
            let others = kept.iter().filter(|(other, _)| *other != z);
            others.map(|(other, _)| (at - other) / (z - other)).product::<f64>()
        };
        points.iter().map(|(point, share)| share * basis(*point)).sum()
    };
    let shares = |at: usize| PointWeights { whole: points[at].1, rough: rough(at) };
    (0..points.len()).map(|at| (points[at].0, shares(at))).collect()
}

/// Points and weights of the normal law of mean 0 and deviation 1, exact for polynomials below degree 2·count.
///
/// The points are the roots of that law's Hermite polynomial, Heₙ₊₁ = z·Heₙ − n·Heₙ₋₁, each between two of the
/// polynomial before; the weights are n!/(n·Heₙ₋₁)² (Abramowitz & Stegun 25.4.46 with z = x√2).
fn gauss_hermite(count: usize) -> Vec<(f64, f64)> {
    let mut roots = Vec::new();
    for degree in 1..=count {
        // No root lies outside (A & S 22.16.8 leaves room).
        let bound = 2.0 * (degree as f64).sqrt();
        let ends: Vec<f64> =
            [-bound].into_iter().chain(roots.iter().copied()).chain([bound]).collect();
        roots = ends.windows(2).map(|pair| root_between(degree, pair[0], pair[1])).collect();
    }
    let n = count as f64;
    let factorial: f64 = (1..=count).map(|n| n as f64).product();
    let weight = |z: f64| {
        let (_, before) = hermite(count, z);
        factorial / (n * before * (n * before))
    };
    roots.into_iter().map(|z| (z, weight(z))).collect()
}

/// The polynomial of a degree, and that before it.
fn hermite(degree: usize, z: f64) -> (f64, f64) {
    let (mut before, mut own) = (0.0, 1.0);
    for n in 0..degree {
        (before, own) = (own, z * own - n as f64 * before);
    }
    (own, before)
}

fn root_between(degree: usize, low: f64, high: f64) -> f64 {
    let value = |z: f64| -> Result<f64, core::convert::Infallible> { Ok(hermite(degree, z).0) };
    let Ok(low_value) = value(low);
    let Ok(high_value) = value(high);
    let Ok((root, _)) = bracketed_root(value, (low, low_value), (high, high_value));
    // In the middle of a bracket that is even about it the root is nothing.
    if root.abs() < 1e-12 { 0.0 } else { root }
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::f64::consts::PI;

    #[test]
    fn points_and_weights_are_the_printed_ones() {
        // Abramowitz & Stegun 1964, table 25.10, for the weight e^(-x²): z = x√2, share = w/√π.
        let printed: [(usize, &[(f64, f64)]); 3] = [
            (3, &[(0.0, 1.181_635_900_604), (1.224_744_871_391_589, 0.295_408_975_150_9)]),
            (
                5,
                &[
                    (0.0, 0.945_308_720_482_9),
                    (0.958_572_464_613_819, 0.393_619_323_152_2),
                    (2.020_182_870_456_086, 0.019_953_242_059_05),
                ],
            ),
            (
                7,
                &[
                    (0.0, 0.810_264_617_556_8),
                    (0.816_287_882_858_965, 0.425_607_252_610_1),
                    (1.673_551_628_767_471, 0.054_515_582_819_13),
                    (2.651_961_356_835_233, 0.000_971_781_245_099_5),
                ],
            ),
        ];
        for (count, points) in printed {
            let own = gauss_hermite(count);
            assert_eq!(own.len(), count);
            for (place, (x, w)) in points.iter().enumerate() {
                let (z, share) = own[count / 2 + place];
                assert!((z - x * 2.0_f64.sqrt()).abs() < 1e-12, "{count}: {z}");
                assert!((share - w / PI.sqrt()).abs() < 1e-11, "{count}: {share}");
                assert!((own[count / 2 - place].0 + z).abs() < 1e-12);
            }
        }
    }

    #[test]
    fn moments_of_the_normal_law_come_out_up_to_their_degree() {
        for count in 1..=16 {
            let points = gauss_hermite(count);
            let mut known = 1.0;
            for degree in (0..2 * count.min(8)).step_by(2) {
                let moment: f64 =
                    points.iter().map(|(z, share)| share * libm::pow(*z, degree as f64)).sum();
                assert!((moment / known - 1.0).abs() < 1e-9, "{count} points, degree {degree}");
                known *= degree as f64 + 1.0;
            }
        }
    }

    #[test]
    fn the_rough_integral_is_exact_for_low_degrees_and_leaves_the_outermost_out() {
        let points = with_rough(&gauss_hermite(7));
        assert_eq!([points[0].1.rough, points[6].1.rough], [0.0, 0.0]);
        for (degree, known) in [(0, 1.0), (1, 0.0), (2, 1.0), (4, 3.0), (5, 0.0)] {
            let moment: f64 = points
                .iter()
                .map(|(z, share)| share.rough * libm::pow(*z, f64::from(degree)))
                .sum();
            assert!((moment - known).abs() < 1e-9, "degree {degree}: {moment}");
        }
    }

    #[test]
    fn between_the_nodes_a_polynomial_is_known() {
        let skill = Skill { speed: 0.1, side: 0.05, ..Skill::EXACT };
        let spread = SpreadNodes::of(&skill, SpreadNodes::USUAL);
        let between = spread.between().expect("nobody is surer");
        let value =
            |ratio: f64, side: f64| ratio * ratio * ratio - 2.0 * ratio * side + side * side;
        let known: Vec<f64> =
            spread.nodes().iter().map(|node| value(node.speed_ratio, node.side)).collect();
        let zs = |strata: u16, at: usize| below_which((at as f64 + 0.5) / f64::from(strata));
        for (at, shares) in between.shares.iter().enumerate() {
            let sides = usize::from(STRATA.1);
            let (speed, side) = (zs(STRATA.0, at / sides), zs(STRATA.1, at % sides));
            let told: f64 = shares.iter().zip(&known).map(|(share, it)| share * it).sum();
            assert!((told - value(1.0 + 0.1 * speed, 0.05 * side)).abs() < 1e-12);
        }
        let reads = Skill { start_read: 0.1, ..skill };
        assert!(SpreadNodes::of(&reads, SpreadNodes::USUAL).between().is_none());
    }

    #[test]
    fn the_first_node_is_the_shot_as_it_is_meant() {
        let skill = Skill { speed: 0.1, side: 0.05, ..Skill::EXACT };
        let spread = SpreadNodes::of(&skill, SpreadNodes::USUAL);
        assert_eq!(spread.nodes().len(), 35);
        assert!((spread.nodes()[0].speed_ratio - 1.0).abs() < 1e-14);
        assert!(spread.nodes()[0].side.abs() < 1e-14);
        let whole: f64 = spread.nodes().iter().map(|node| node.weight).sum();
        assert!((whole - 1.0).abs() < 1e-12);
        assert_eq!(SpreadNodes::of(&Skill::EXACT, (7, 5)).nodes().len(), 1);
    }
}
