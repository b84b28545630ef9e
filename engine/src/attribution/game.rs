//! Shapley values of any game of a few players.

/// The share of each of `players` in `value` of everybody, over that of nobody; `value` takes a set of
/// players, a bit each, and is asked once for each of the 2^players sets.
///
/// The shares add up to value(everybody) − value(nobody), but for rounding, and do not depend on the
/// order in which the players are numbered, to the bit: the changes that a player makes are added up
/// in the order of their size.
///
/// # Errors
/// The first set without a value.
pub fn shapley<E>(
    players: usize,
    mut value: impl FnMut(usize) -> Result<f64, E>,
) -> Result<Vec<f64>, E> {
    let values = (0..1_usize << players).map(&mut value).collect::<Result<Vec<f64>, E>>()?;
    let share = |player: usize| {
        let bit = 1_usize << player;
        let mut share = 0.0;
        for size in 0..players {
            let mut changes: Vec<f64> = (0..values.len())
                .filter(|set| set & bit == 0 && set.count_ones() as usize == size)
                .map(|set| values[set | bit] - values[set])
                .collect();
            changes.sort_by(f64::total_cmp);
            // All sets of one size weigh alike, and all sizes do.
            let count = changes.len().max(1) as f64;
            share += changes.iter().sum::<f64>() / count;
        }
        share / players as f64
    };
    Ok((0..players).map(share).collect())
}

#[cfg(test)]
mod tests {
    use super::shapley;
    use std::convert::Infallible;

    fn shares(players: usize, value: impl Fn(usize) -> f64) -> Vec<f64> {
        let Ok(shares) = shapley(players, |set| Ok::<f64, Infallible>(value(set)));
        shares
    }

    /// Derived: a glove game. Player 0 has the left glove, 1 and 2 a right one each; a pair is worth
    /// 1. The shares are 2/3, 1/6 and 1/6.
    #[test]
    fn a_pair_of_gloves_is_shared_as_by_hand() {
        let pair = |set: usize| if set & 1 != 0 && set & 6 != 0 { 1.0 } else { 0.0 };
        let shares = shares(3, pair);
        for (share, expected) in shares.iter().zip([2.0 / 3.0, 1.0 / 6.0, 1.0 / 6.0]) {
            assert!((share - expected).abs() < 1e-15, "{shares:?}");
        }
    }

    #[test]
    fn who_changes_nothing_has_nothing_and_nobody_shares_nothing() {
        let first_alone = |set: usize| if set & 1 != 0 { 0.3 } else { 0.1 };
        assert_eq!(shares(2, first_alone), [0.3 - 0.1, 0.0]);
        assert_eq!(shares(0, |_| 7.0), [0.0; 0]);
    }

    #[test]
    fn a_set_without_a_value_is_an_error() {
        assert_eq!(shapley(2, |set| if set == 2 { Err(set) } else { Ok(0.0) }), Err(2));
    }
}
