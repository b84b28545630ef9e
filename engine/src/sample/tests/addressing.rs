//! Points by index alone, and what is refused.

use super::super::{MAX_DIMENSIONS, MAX_POINTS, Sample, SampleError, Sampling};
use super::{sample, steps};

#[test]
fn a_point_alone_is_the_point_in_its_sequence() {
    for how in Sampling::ALL {
        for seed in [0, 1, u64::MAX] {
            let points = 97;
            let sample = sample(how, points, seed, MAX_DIMENSIONS);
            let whole: Vec<Vec<f64>> = (0..points)
                .map(|point| {
                    let mut coordinates = vec![f64::NAN; MAX_DIMENSIONS];
                    sample.point(point, &mut coordinates);
                    coordinates
                })
                .collect();
            // 41 has no factor in common with 97, so this visits every point once.
            for turn in 0..points {
                let point = turn * 41 % points;
                let fresh = Sample::new(how, points, seed, MAX_DIMENSIONS).unwrap();
                for dimension in (0..MAX_DIMENSIONS).rev() {
                    let before = whole[usize::try_from(point).unwrap()][dimension];
                    assert_eq!(fresh.coordinate(point, dimension).to_bits(), before.to_bits());
                }
            }
        }
    }
}

/// Fewer dimensions, and for all but Latin hypercubes fewer points, are the start of more.
#[test]
fn a_smaller_sample_is_the_start_of_a_larger_one() {
    for how in [Sampling::Sobol, Sampling::Random] {
        let (small, large) = (sample(how, 10, 5, 2), sample(how, 10_000, 5, 7));
        for point in 0..10 {
            for dimension in 0..2 {
                assert_eq!(small.coordinate(point, dimension), large.coordinate(point, dimension));
            }
        }
    }
    let (small, large) =
        (sample(Sampling::LatinHypercube, 10, 5, 2), sample(Sampling::LatinHypercube, 10, 5, 7));
    for point in 0..10 {
        assert_eq!(small.coordinate(point, 1), large.coordinate(point, 1));
    }
}

#[test]
fn seeds_give_different_samples() {
    for how in Sampling::ALL {
        for (one, other) in [(0, 1), (1, 2), (7, 7 + (1 << 40)), (0, u64::MAX)] {
            let (one, other) = (sample(how, 64, one, 3), sample(how, 64, other, 3));
            let same = (0..64)
                .filter(|&point| one.coordinate(point, 2) == other.coordinate(point, 2))
                .count();
            assert!(same <= 1, "{how:?}: {same}");
        }
    }
}

#[test]
fn the_last_point_of_the_largest_sample_can_be_had() {
    for how in Sampling::ALL {
        let sample = sample(how, MAX_POINTS, 3, MAX_DIMENSIONS);
        let last = sample.coordinate(MAX_POINTS - 1, MAX_DIMENSIONS - 1);
        assert!((0.0..1.0).contains(&last));
    }
}

#[test]
fn what_cannot_be_sampled_is_refused() {
    for how in Sampling::ALL {
        assert_eq!(Sample::new(how, 0, 0, 1), Err(SampleError::NoPoints));
        assert_eq!(Sample::new(how, 1, 0, 0), Err(SampleError::NoDimensions));
        let points = MAX_POINTS + 1;
        assert_eq!(Sample::new(how, points, 0, 1), Err(SampleError::TooManyPoints { points }));
        let dimensions = MAX_DIMENSIONS + 1;
        assert_eq!(
            Sample::new(how, 1, 0, dimensions),
            Err(SampleError::TooManyDimensions { dimensions })
        );
    }
}

#[test]
fn names_are_what_files_say() {
    for how in Sampling::ALL {
        assert_eq!(serde_json::to_string(&how).unwrap(), format!("\"{}\"", how.name()));
        assert_eq!(Sampling::from_name(how.name()), Some(how));
    }
    assert_eq!(Sampling::from_name("grid"), None);
}

#[test]
fn a_sample_read_from_a_file_is_checked() {
    let written = sample(Sampling::Sobol, 100, 3, 5);
    let text = serde_json::to_string(&written).unwrap();
    assert_eq!(text, r#"{"how":"sobol","points":100,"seed":3,"dimensions":5}"#);
    assert_eq!(serde_json::from_str::<Sample>(&text).unwrap(), written);
    for wrong in ["\"points\":0", "\"points\":4503599627370497", "\"points\":-1"] {
        let text = text.replace("\"points\":100", wrong);
        assert!(serde_json::from_str::<Sample>(&text).is_err(), "{text}");
    }
    assert!(serde_json::from_str::<Sample>(&text.replace(":5}", ":65}")).is_err());
}

/// The numbers of the first release: kept results name a sample by its seed, so they must stay.
#[test]
fn the_numbers_stay_what_they_were() {
    for (how, kept) in [
        (Sampling::Sobol, [6_626_800_738_635_190, 6_791_501_956_414_835, 7_534_336_965_122_955]),
        (
            Sampling::LatinHypercube,
            [2_532_003_881_679_349, 4_843_964_912_553_174, 1_214_526_806_549_172],
        ),
        (Sampling::Random, [1_880_425_396_407_963, 2_300_645_595_533_773, 5_217_678_400_416_027]),
    ] {
        let sample = sample(how, 1000, 42, 5);
        let now =
            [(0, 0), (123, 1), (999, 4)].map(|(point, dimension)| steps(&sample, point, dimension));
        assert_eq!(now, kept, "{how:?}");
    }
}
