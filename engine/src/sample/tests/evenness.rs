//! Randomness as statistics see it, with fixed seeds: all within five standard deviations.

use super::super::hash::DimensionKey;
use super::super::permutation::permuted;
use super::super::sobol::scrambled;
use super::super::{MAX_DIMENSIONS, Sampling};
use super::{deviations, part, sample};

fn assert_random(counts: &[u64], what: &str) {
    let off = deviations(counts);
    assert!(off.abs() < 5.0, "{what}: {off} standard deviations");
}

#[test]
fn random_points_are_even_in_every_dimension() {
    let random = sample(Sampling::Random, 20_000, 7, MAX_DIMENSIONS);
    for dimension in 0..MAX_DIMENSIONS {
        let mut counts = [0; 64];
        for point in 0..random.points {
            counts[part(&random, point, dimension, 64)] += 1;
        }
        assert_random(&counts, "parts of a dimension");
    }
}

/// Pairs of coordinates in 16 by 16 boxes: of neighbouring dimensions, of dimensions far apart, of
/// neighbouring points, of the same point with the next seed.
#[test]
fn random_coordinates_are_independent() {
    for (dimensions, ahead, seeds) in
        [((0, 1), 0, (7, 7)), ((1, 63), 0, (7, 7)), ((2, 2), 1, (7, 7)), ((2, 2), 0, (7, 8))]
    {
        let one = sample(Sampling::Random, 50_001, seeds.0, MAX_DIMENSIONS);
        let other = sample(Sampling::Random, 50_001, seeds.1, MAX_DIMENSIONS);
        let mut counts = [0; 256];
        for point in 0..50_000 {
            let across = part(&one, point, dimensions.0, 16);
            let along = part(&other, point + ahead, dimensions.1, 16);
            counts[16 * across + along] += 1;
        }
        assert_random(&counts, "pairs of coordinates");
    }
}

/// Strata of a hypercube are taken independently in each dimension: over many seeds, the boxes that
/// the first point is in. Within a stratum every part is as likely.
#[test]
fn latin_strata_are_independent() {
    let mut boxes = [0; 100];
    let mut within = [0; 16];
    for seed in 0..20_000 {
        let latin = sample(Sampling::LatinHypercube, 10, seed, 2);
        boxes[10 * part(&latin, 0, 0, 10) + part(&latin, 0, 1, 10)] += 1;
        within[part(&latin, 3, 1, 160) % 16] += 1;
    }
    assert_random(&boxes, "strata of two dimensions");
    assert_random(&within, "parts of a stratum");
}

/// All orders of few places are as likely.
#[test]
fn permutations_of_few_places_are_even() {
    for (bound, orders) in [(2, 2), (3, 6), (4, 24), (5, 120)] {
        let mut counts = vec![0; orders];
        for seed in 0..400 * orders as u64 {
            let key = DimensionKey::new(seed, 9, 0);
            let order: Vec<u64> = (0..bound).map(|place| permuted(place, bound, key)).collect();
            // The number of an order: each place's rank among those after it, in mixed radix.
            let number = (0..order.len()).fold(0, |number, place| {
                let smaller = order[place..].iter().filter(|&&later| later < order[place]).count();
                number * (order.len() - place) + smaller
            });
            counts[number] += 1;
        }
        assert_random(&counts, "orders of places");
    }
}

/// Where one place goes with where the next goes, over keys, for narrow and wide words.
#[test]
fn permutations_do_not_keep_neighbours_together() {
    for bound in [11, 200, 257] {
        let pairs = bound * (bound - 1);
        let mut counts = vec![0; usize::try_from(pairs).unwrap()];
        for seed in 0..10 * pairs {
            let key = DimensionKey::new(seed, 9, 0);
            let (one, next) = (permuted(4, bound, key), permuted(5, bound, key));
            let gap = (next + bound - one) % bound;
            counts[usize::try_from(one * (bound - 1) + gap - 1).unwrap()] += 1;
        }
        assert_random(&counts, "pairs of places");
    }
}

/// Nested scrambling flips a digit at random for each start of digits before it. Over seeds: the
/// seven flips of the first three digits together, and flips further down.
#[test]
fn scrambling_flips_digits_independently() {
    // What becomes of a start of digits followed by 0: the flip is the digit after it.
    let flip = |key, start: u64, digits: u32| {
        let digits_before = if digits == 0 { 0 } else { start << (64 - digits) };
        usize::from(scrambled(digits_before, key) >> (63 - digits) & 1 == 1)
    };
    let mut together = [0; 128];
    let mut deep = [0; 16];
    for seed in 0..50_000 {
        let key = DimensionKey::new(seed, Sampling::Sobol as u64, 3);
        let flips = (0..3).flat_map(|digits| (0..1 << digits).map(move |start| (start, digits)));
        together[flips.fold(0, |all, (start, digits)| 2 * all + flip(key, start, digits))] += 1;
        let starts = [(0b0000_0000, 8), (0b1000_0000, 8), (0b0000_0001, 8), (0b1_0000_0000, 9)];
        deep[starts.iter().fold(0, |all, &(start, digits)| 2 * all + flip(key, start, digits))] +=
            1;
    }
    assert_random(&together, "flips of the first three digits");
    assert_random(&deep, "flips of the ninth and tenth digit");
}

/// The purpose of scrambling: the mean of a smooth function over a net with random digits is far
/// closer than over as many random points, and off by something else with each seed.
#[test]
fn scrambled_sobol_integrates_better_than_random_points() {
    let spread = |how| {
        let errors = (1..=64).map(|seed| {
            let sample = sample(how, 1 << 10, seed, 5);
            let mut at = [0.0; 5];
            let mean = (0..sample.points)
                .map(|point| {
                    sample.point(point, &mut at);
                    at.iter().map(|x| 12.0_f64.sqrt() * (x - 0.5)).fold(1.0, |f, x| f * (1.0 + x))
                })
                .sum::<f64>()
                / sample.points as f64;
            (mean - 1.0) * (mean - 1.0)
        });
        (errors.sum::<f64>() / 64.0).sqrt()
    };
    let (sobol, random) = (spread(Sampling::Sobol), spread(Sampling::Random));
    // The variance of the product is 2^5 - 1, so random points spread by 0.174.
    assert!((0.12..0.24).contains(&random), "{random}");
    assert!(sobol < 0.5 * random && sobol > 0.0, "{sobol} {random}");
}
