//! The binomial law, to judge counts by.

/// The chance of a count as far from what is expected as this one, or further, on its side; doubled.
pub fn two_sided(count: usize, of: usize, chance: f64) -> f64 {
    let below: f64 = (0..=count).map(|k| share(k, of, chance)).sum();
    let above: f64 = (count..=of).map(|k| share(k, of, chance)).sum();
    (2.0 * below.min(above)).min(1.0)
}

fn share(k: usize, of: usize, chance: f64) -> f64 {
    let mut log = 0.0;
    for at in 0..k {
        log += (((of - at) as f64) / ((k - at) as f64)).ln();
    }
    (log + k as f64 * chance.ln() + (of - k) as f64 * (1.0 - chance).ln()).exp()
}

#[test]
fn the_tails_are_those_of_the_law() {
    // By hand: of 4 fair tosses, none or four: 2 × 1/16; the middle: everything.
    assert!((two_sided(0, 4, 0.5) - 0.125).abs() < 1e-12);
    assert!((two_sided(2, 4, 0.5) - 1.0).abs() < 1e-12);
    // scipy.stats.binom.cdf(261, 300, 0.9) = 0.0557…: twice that.
    assert!((two_sided(261, 300, 0.9) - 0.1).abs() < 0.03);
}
