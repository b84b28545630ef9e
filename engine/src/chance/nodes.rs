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
    /// Its share of the law; none on a grid, where the strata between the nodes have theirs.
    pub weight: f64,
    /// Its weight in the integral without the outermost speeds and sides, by which the error is judged.
    pub rough_weight: f64,
}

/// The nodes over which chances are integrated.
#[derive(Debug, Clone, PartialEq)]
pub struct SpreadNodes {
    nodes: Vec<SpreadNode>,
    grid: Option<SpreadGrid>,
}

/// Speeds and sides on a grid, and the strata of the law between them.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct SpreadGrid {
    /// Speeds in order, standard deviations.
    pub(super) speeds: Vec<f64>,
    /// Sides in order, standard deviations.
    pub(super) sides: Vec<f64>,
    /// The places of the nodes, speeds outermost.
    places: Vec<usize>,
    /// The middles of strata of equal shares, by speed and by side.
    pub(super) strata: [Vec<f64>; 2],
    /// The same with half as many.
    pub(super) rough_strata: [Vec<f64>; 2],
    /// The spreads of speed and side.
    spreads: (f64, f64),
}

/// Strata by speed and by side.
const STRATA: (u16, u16) = (48, 48);
/// The same where the chance falls in steps with them, and of either where the other does not spread.
const SHARP_STRATA: (u16, u16) = (128, 64);
const SHARP_ALONE: u16 = 1024;
/// The same of both on many tables.
const STRATA_OF_MANY: (u16, u16) = (24, 24);
/// The outermost nodes of a grid, standard deviations.
const GRID_ENDS: f64 = 3.0;

/// How finely a grid is laid.
#[derive(Debug, Clone, Copy)]
struct GridSteps {
    /// The longest step of speed, as a share of it.
    speed: f64,
    /// Sides, as far as they go. The cloth rubs off a little side before the rail, so near nothing edges stand still and
    /// then move: there they lie close.
    sides: &'static [f64],
}

const CLOSE_SIDES: [f64; 12] =
    [0.005, 0.01, 0.015, 0.02, 0.03, 0.045, 0.07, 0.1, 0.15, 0.25, 0.5, 1.0];
/// Of a hand so sure that the chance falls in steps, of any other, and on many tables, where what is left out goes both
/// ways.
const SURE: GridSteps = GridSteps { speed: 0.03, sides: &CLOSE_SIDES };
const USUAL: GridSteps = GridSteps { speed: 0.05, sides: &CLOSE_SIDES };
const OF_MANY: GridSteps = GridSteps { speed: 0.15, sides: &[0.015, 0.05, 0.15, 0.5] };
/// Steps from the middle of the speeds to their ends, at least and at most.
const SPEED_STEPS: (f64, f64) = (3.0, 30.0);
/// A side that lies nearer to the outermost one than this share of it is left out.
const NEAR_END: f64 = 0.8;
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
        Self { nodes: order.into_iter().map(|at| nodes[at]).collect(), grid: None }
    }

    /// Of a person, on a grid as fine as this; one speed or side where they do not spread. The first node is the shot as
    /// it is meant.
    fn gridded(skill: &Skill, steps: GridSteps, many: bool) -> Self {
        let speeds = speeds(skill.speed, steps.speed);
        let sides = sides(skill.side, steps.sides);
        let strata = match (speeds.len() > 1, sides.len() > 1, is_sharp(skill)) {
            (true, true, _) if many => STRATA_OF_MANY,
            (true, true, true) => SHARP_STRATA,
            (true, true, false) => STRATA,
            (true, false, sharp) => (if sharp { SHARP_ALONE } else { STRATA.0 }, 1),
            (false, true, sharp) => (1, if sharp { SHARP_ALONE } else { STRATA.1 }),
            (false, false, _) => (1, 1),
        };
        let strata: [u16; 2] = strata.into();
        let mut grid = SpreadGrid {
            places: Vec::new(),
            strata: strata.map(middles),
            rough_strata: strata.map(|count| middles(count.div_ceil(2))),
            spreads: (skill.speed, skill.side),
            speeds,
            sides,
        };
        let count = grid.sides.len();
        let place = |at: usize| (grid.speeds[at / count], grid.sides[at % count]);
        let far = |(speed, side): (f64, f64)| speed * speed + side * side;
        let mut order: Vec<usize> = (0..grid.speeds.len() * count).collect();
        order.sort_by(|a, b| far(place(*a)).total_cmp(&far(place(*b))));
        let node = |at: &usize| {
            let (speed, side) = place(*at);
            grid.at(speed, side)
        };
        let nodes = order.iter().map(node).collect();
        let mut places = vec![0; order.len()];
        for (kept, at) in order.into_iter().enumerate() {
            places[at] = kept;
        }
        grid.places = places;
        Self { nodes, grid: Some(grid) }
    }

    /// Of a person on so many tables, as finely as it takes.
    pub fn on_tables(skill: &Skill, tables: usize) -> Self {
        let steps = match (tables, is_sharp(skill)) {
            (1, true) => SURE,
            (1, false) => USUAL,
            _ => OF_MANY,
        };
        Self::gridded(skill, steps, tables > 1)
    }

    /// The grid, where they lie on one.
    pub(super) const fn grid(&self) -> Option<&SpreadGrid> {
        self.grid.as_ref()
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

/// Speeds at even distances about the one that is meant, standard deviations.
fn speeds(spread: f64, step: f64) -> Vec<f64> {
    if spread <= 0.0 {
        return vec![0.0];
    }
    let half = (GRID_ENDS * spread / step - 1e-9).ceil().clamp(SPEED_STEPS.0, SPEED_STEPS.1);
    let places = core::iter::successors(Some(-half), |at| Some(at + 1.0));
    places.take_while(|at| *at <= half).map(|at| GRID_ENDS * at / half).collect()
}

/// Sides about the one that is meant, standard deviations.
fn sides(spread: f64, close: &[f64]) -> Vec<f64> {
    if spread <= 0.0 {
        return vec![0.0];
    }
    let inside = close.iter().map(|side| side / spread);
    let half: Vec<f64> =
        inside.take_while(|z| *z < NEAR_END * GRID_ENDS).chain([GRID_ENDS]).collect();
    let other = half.iter().rev().map(|z| -z);
    other.chain([0.0]).chain(half.iter().copied()).collect()
}

impl SpreadGrid {
    /// The place of a node among the nodes.
    pub(super) fn node(&self, speed: usize, side: usize) -> usize {
        self.places[speed * self.sides.len() + side]
    }

    /// The shot at a speed and side, standard deviations; without a weight.
    pub(super) fn at(&self, speed: f64, side: f64) -> SpreadNode {
        SpreadNode {
            speed_ratio: (1.0 + self.spreads.0 * speed).max(LEAST_RATIO),
            side: self.spreads.1 * side,
            weight: 0.0,
            rough_weight: 0.0,
        }
    }

    /// The standard error of a step that lies anywhere within a stratum.
    pub(super) fn grain(&self) -> f64 {
        let one = self.strata[0].len().max(self.strata[1].len());
        let usual = usize::from(STRATA.0.max(STRATA.1));
        if one > usual { 1.0 / (one as f64 * 12.0_f64.sqrt()) } else { 0.0 }
    }
}

fn middles(strata: u16) -> Vec<f64> {
    let share = |at: u16| (f64::from(at) + 0.5) / f64::from(strata);
    (0..strata).map(|at| below_which(share(at))).collect()
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
    fn a_grid_has_its_places_and_the_strata_share_the_law() {
        let skill = Skill { speed: 0.1, side: 0.05, ..Skill::EXACT };
        let spread = SpreadNodes::on_tables(&skill, 1);
        let grid = spread.grid().expect("it is one");
        assert_eq!((grid.speeds.len(), grid.sides.len()), (21, 19));
        assert_eq!((grid.speeds[0], grid.speeds[10], grid.sides[9]), (-GRID_ENDS, 0.0, 0.0));
        assert_eq!((grid.sides[0], grid.sides[18]), (-GRID_ENDS, GRID_ENDS));
        assert!(grid.sides.is_sorted());
        for (at, speed) in grid.speeds.iter().enumerate() {
            for (beside, side) in grid.sides.iter().enumerate() {
                let node = spread.nodes()[grid.node(at, beside)];
                assert!((node.speed_ratio - 1.0 - 0.1 * speed).abs() < 1e-15);
                assert!((node.side - 0.05 * side).abs() < 1e-15);
            }
        }
        assert_eq!((spread.nodes()[0].speed_ratio, spread.nodes()[0].side), (1.0, 0.0));
        let [speeds, sides] = &grid.strata;
        for (strata, count) in [(speeds, SHARP_STRATA.0), (sides, SHARP_STRATA.1)] {
            assert_eq!(strata.len(), usize::from(count));
            // Middles of strata have nearly the variance of the law.
            let square: f64 = strata.iter().map(|z| z * z).sum::<f64>() / f64::from(count);
            assert!((square - 1.0).abs() < 0.2 && square < 1.0, "{square}");
        }
        let reads = Skill { start_read: 0.1, ..skill };
        let spread = SpreadNodes::on_tables(&reads, 2);
        assert_eq!(
            spread.grid().expect("it is one").strata[0].len(),
            usize::from(STRATA_OF_MANY.0)
        );
        assert_eq!(SpreadNodes::on_tables(&Skill::EXACT, 1).nodes().len(), 1);
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
