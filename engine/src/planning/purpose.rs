//! What the next banks are measured for, as numbers that each member has.

use super::WantedNumber;
use crate::bank::BankError;
use crate::column::{Hand, Landings, SetUp, columns};
use crate::ensemble::Member;
use crate::equipment::{Equipment, RailModel};
use crate::normal::share_below;
use crate::rail::{Line, Pocket, Rail};
use crate::units::{INCH_M, Speed};

/// Distances off the rail, inches, from which the usual purpose asks where a ball comes to.
const OFF_RAIL_IN: [f64; 2] = [4.0, 12.0];

/// The banks off the rail of the usual purpose: contact 2 from 4.4 at 3 m/s.
pub fn usual_banks() -> [SetUp; 2] {
    OFF_RAIL_IN.map(|inches| {
        let speed = Speed::MetresPerSecond(3.0);
        let line = Line::new(2.0, 4.4);
        SetUp::stun(Rail::Left, Pocket::FootRight, line, inches * INCH_M, speed)
    })
}

/// The usual purpose: the slope of the rule on each member's table, and where [`usual_banks`] come to, all alike. A
/// plan for the slope alone leaves the rest as it was.
///
/// # Errors
/// As [`columns`].
pub fn usual_numbers(
    table: &Equipment,
    model: RailModel,
    members: &[Member],
    slopes: &[f64],
) -> Result<Vec<WantedNumber>, BankError> {
    let mut wanted = vec![WantedNumber { values: slopes.to_vec() }];
    wanted.extend(places(table, model, members, &usual_banks())?);
    Ok(wanted)
}

/// Where banks come to, sent exactly, m along the unrolled rails.
///
/// # Errors
/// As [`columns`].
pub fn places(
    table: &Equipment,
    model: RailModel,
    members: &[Member],
    banks: &[SetUp],
) -> Result<Vec<WantedNumber>, BankError> {
    let columns = columns(table, model, members, banks, Hand::Exact)?;
    let values = |column: Landings| WantedNumber {
        values: column.iter().map(|landing| landing.along_m).collect(),
    };
    Ok(columns.into_iter().map(values).collect())
}

/// Every member with the first cushion, then every one with the second; wanted is which one it has.
///
/// Cloth and player are the members' own, so a bank that tells the cushions apart does so whatever they are.
pub fn either_cushion(
    members: &[Member],
    cushions: [&Equipment; 2],
) -> (Vec<Member>, WantedNumber) {
    let both = cushions.iter().flat_map(|it| members.iter().map(|at| at.with_cushion_of(it)));
    let which = [0.0, 1.0].into_iter().flat_map(|which| members.iter().map(move |_| which));
    (both.collect(), WantedNumber { values: which.collect() })
}

/// The chance to name the right one of two cushions, when so much of the deviation of which one it is is left.
///
/// Of two normal laws of equal width a distance d apart, in their deviations, a share 1/(1 + d²/4) of the variance of which
/// one it is stays, and the nearer middle is the right one with the chance Φ(d/2) (R. Fisher 1936, *Annals of
/// Eugenics* 7:179–188; T. Anderson 2003, *An Introduction to Multivariate Statistical Analysis*, section 6.4).
pub fn chance_of_the_right_one(left: f64) -> f64 {
    share_below((1.0 / (left * left) - 1.0).max(0.0).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ensemble::Ensemble;

    #[test]
    fn what_is_left_of_a_choice_of_two_tells_the_chance_to_be_right() {
        // Nothing known: a toss. A distance of 2 deviations leaves 1/(1 + 1) of the variance: Φ(1) = 0.841345.
        assert_eq!(chance_of_the_right_one(1.0), 0.5);
        let two = chance_of_the_right_one(0.5_f64.sqrt());
        assert!((two - 0.841_344_746).abs() < 1e-8, "{two}");
    }

    #[test]
    fn each_player_stands_once_with_each_cushion() {
        let wide = Ensemble::wide(8, 1);
        let mut ball = Equipment::unset();
        ball.ball.diameter_m = 0.05715;
        let tables = [3, 6].map(|at| wide.members()[at].equipment(&ball));
        let (members, which) = either_cushion(wide.members(), [&tables[0], &tables[1]]);
        assert_eq!(members.len(), 16);
        for (at, member) in members.iter().enumerate() {
            assert_eq!(which.values[at], (at / 8) as f64);
            let has = member.equipment(&ball).cushion.restitution;
            assert!((has - tables[at / 8].cushion.restitution).abs() < 1e-12);
            assert_eq!(member.place[8..], wide.members()[at % 8].place[8..]);
        }
    }
}
