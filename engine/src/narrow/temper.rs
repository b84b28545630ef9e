//! The next power of the likelihood, and the members drawn again by their weights.

/// The weights of a step of the power, their sum's logarithm over the members' number, and their effective
/// number.
pub(super) struct Weighed {
    pub(super) weights: Vec<f64>,
    pub(super) log_mean: f64,
    pub(super) effective: f64,
}

/// Weighs members of equal weight for a step of the power.
pub(super) fn weighed(log_likelihoods: &[f64], step: f64) -> Weighed {
    let most = log_likelihoods.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let weights: Vec<f64> =
        log_likelihoods.iter().map(|log| libm::exp(step * (log - most))).collect();
    let whole: f64 = weights.iter().sum();
    let squares: f64 = weights.iter().map(|weight| weight * weight).sum();
    let count = weights.len() as f64;
    Weighed {
        log_mean: step * most + libm::log(whole / count),
        effective: whole * whole / squares,
        weights,
    }
}

/// The greatest step of the power that leaves this share of the members effective, at most up to 1.
pub(super) fn next_power(log_likelihoods: &[f64], power: f64, share: f64) -> f64 {
    let wanted = share * log_likelihoods.len() as f64;
    let effective = |next: f64| weighed(log_likelihoods, next - power).effective;
    if effective(1.0) >= wanted {
        return 1.0;
    }
    let (mut low, mut high) = (power, 1.0);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if effective(middle) >= wanted {
            low = middle;
        } else {
            high = middle;
        }
    }
    // A step that is lost in rounding would never end.
    if low > power { low } else { high }
}

const HALVINGS: usize = 40;

/// The members drawn again: each as often as its weight says, to within one.
///
/// Systematic resampling; Carpenter, Clifford and Fearnhead 1999, *Improved particle filter for nonlinear
/// problems*, IEE Proc. Radar Sonar Navig. 146(1):2–7.
pub(crate) fn drawn_again(weights: &[f64], offset: f64) -> Vec<usize> {
    let count = weights.len();
    let step = weights.iter().sum::<f64>() / count as f64;
    let mut drawn = Vec::with_capacity(count);
    let (mut below, mut at) = (weights[0], 0);
    for index in 0..count {
        let mark = (index as f64 + offset) * step;
        while mark >= below && at + 1 < count {
            at += 1;
            below += weights[at];
        }
        drawn.push(at);
    }
    drawn
}
