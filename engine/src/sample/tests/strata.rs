//! Equal shares of the cube that have equal shares of the points, counted exactly.

use super::super::hash::DimensionKey;
use super::super::latin::first_step;
use super::super::permutation::permuted;
use super::super::{MAX_DIMENSIONS, MAX_POINTS, Sampling};
use super::{part, sample, steps};

fn each_once(parts: impl Iterator<Item = usize>, of: usize) -> bool {
    let mut hit = vec![0; of];
    for part in parts {
        hit[part] += 1;
    }
    hit.iter().all(|&count| count == 1)
}

#[test]
fn a_latin_hypercube_has_one_point_in_each_stratum() {
    for points in [1, 2, 3, 5, 7, 10, 49, 64, 100, 1000, 4097] {
        for seed in [0, 1, 12_345] {
            let latin = sample(Sampling::LatinHypercube, points, seed, MAX_DIMENSIONS);
            for dimension in [0, 1, 2, 17, MAX_DIMENSIONS - 1] {
                let parts = (0..points).map(|point| part(&latin, point, dimension, points));
                assert!(each_once(parts, usize::try_from(points).unwrap()), "{points} {dimension}");
            }
        }
    }
}

/// Strata of the largest hypercube are two steps wide; their ends are where they should be.
#[test]
fn strata_end_where_the_next_begins() {
    for points in [1, 3, 10, (1 << 40) + 1, MAX_POINTS - 1, MAX_POINTS] {
        for stratum in [0, 1, points / 3, points - 1] {
            let first = first_step(stratum, points);
            let stratum_of = |step: u64| (u128::from(step) * u128::from(points)) >> 53;
            assert_eq!(stratum_of(first), u128::from(stratum));
            assert!(first == 0 || stratum_of(first - 1) + 1 == u128::from(stratum));
            assert!(first_step(stratum + 1, points) > first);
        }
        assert_eq!(first_step(points, points), 1 << 53);
    }
}

#[test]
fn permutations_are_one_to_one() {
    for bound in (1..=300).chain([1023, 1024, 1025, 65_537]) {
        for seed in 0..3 {
            let key = DimensionKey::new(seed, 9, bound);
            let places =
                (0..bound).map(|place| usize::try_from(permuted(place, bound, key)).unwrap());
            assert!(each_once(places, usize::try_from(bound).unwrap()), "{bound} {seed}");
        }
    }
}

/// The first 2^m points, and every later block of as many, have one in each of 2^m equal parts of
/// every dimension: Sobol's points are (0, m, 1)-nets there. Scrambling keeps that.
#[test]
fn every_dimension_of_sobol_is_stratified() {
    for seed in [0, 1, 99] {
        let sobol = sample(Sampling::Sobol, 1 << 20, seed, MAX_DIMENSIONS);
        for dimension in 0..MAX_DIMENSIONS {
            for (block, m) in [(0, 0), (0, 1), (0, 5), (3, 5), (0, 10), (77, 8)] {
                let points = (block << m)..((block + 1) << m);
                let parts = points.map(|point| part(&sobol, point, dimension, 1 << m));
                assert!(each_once(parts, 1 << m), "{seed} {dimension} {block} {m}");
            }
        }
    }
}

/// The first two dimensions are (0, m, 2)-nets: blocks of 2^m points have one in each box of 2^a by
/// 2^(m - a) equal parts, for every a. I. Sobol' 1967, *On the distribution of points in a cube and
/// the approximate evaluation of integrals*, USSR Comput. Math. Math. Phys. 7(4):86–112.
#[test]
fn the_first_two_dimensions_of_sobol_are_a_net() {
    for seed in [0, 1, 99] {
        let sobol = sample(Sampling::Sobol, 1 << 20, seed, 2);
        for (block, m) in [(0, 1), (0, 4), (5, 7), (0, 10), (11, 10)] {
            for across in 0..=m {
                let boxes = ((block << m)..((block + 1) << m)).map(|point| {
                    part(&sobol, point, 0, 1 << across) << (m - across)
                        | part(&sobol, point, 1, 1 << (m - across))
                });
                assert!(each_once(boxes, 1 << m), "{seed} {block} {m} {across}");
            }
        }
    }
}

/// Nested: points that share their first digits share them after scrambling too, and only those.
#[test]
fn scrambling_keeps_shared_digits() {
    let plain = sample(Sampling::Sobol, 1 << 30, 0, 5);
    for seed in 1..20 {
        let scrambled = sample(Sampling::Sobol, 1 << 30, seed, 5);
        for point in 0..500 {
            let other = point * 7919 + 13;
            for dimension in 0..5 {
                let shared = |of| {
                    (steps(of, point, dimension) ^ steps(of, other, dimension)).leading_zeros()
                };
                assert_eq!(shared(&plain), shared(&scrambled), "{seed} {point} {dimension}");
            }
        }
    }
}
