//! Members with their weights, and what they say together.

use super::{Member, MemberNumber};
use crate::sample::{Sample, Sampling};
use core::ops::Range;

/// Members, each with the weight of its word.
#[derive(Debug, Clone, PartialEq)]
pub struct Ensemble {
    members: Vec<Member>,
    weights: Vec<f64>,
}

impl Ensemble {
    /// The most members.
    pub const MOST: usize = 1 << 16;

    /// Members of equal weight.
    pub fn even(members: Vec<Member>) -> Self {
        let weight = 1.0 / members.len() as f64;
        Self { weights: vec![weight; members.len()], members }
    }

    /// Members with weights in these proportions.
    pub fn weighted(members: Vec<Member>, mut weights: Vec<f64>) -> Self {
        let whole: f64 = weights.iter().sum();
        for weight in &mut weights {
            *weight /= whole;
        }
        Self { members, weights }
    }

    /// The wide ensemble: published ranges and nothing else, evenly spread.
    ///
    /// The same seed gives the same members; more of them begin with the same ones.
    pub fn wide(count: usize, seed: u64) -> Self {
        Self::even(Self::wide_members(0..count, seed))
    }

    /// The members of the wide ensemble with these indices.
    pub fn wide_members(indices: Range<usize>, seed: u64) -> Vec<Member> {
        let sample = Sample {
            how: Sampling::Sobol,
            points: Self::MOST as u64,
            seed: seed.max(1),
            dimensions: MemberNumber::COUNT,
        };
        indices
            .map(|index| {
                let mut place = [0.0; MemberNumber::COUNT];
                sample.point(index as u64, &mut place);
                Member { place }
            })
            .collect()
    }

    /// The members.
    pub fn members(&self) -> &[Member] {
        &self.members
    }

    /// Their weights, which add up to 1.
    pub fn weights(&self) -> &[f64] {
        &self.weights
    }

    /// The number of members.
    pub fn len(&self) -> usize {
        self.members.len()
    }

    /// True without members.
    pub fn is_empty(&self) -> bool {
        self.members.is_empty()
    }

    /// The member nearest to the middle of every coordinate, each told by its own width: a table that is among
    /// the likely ones in all its numbers together.
    pub fn middle_member(&self) -> Option<&Member> {
        let weighted = |at: usize| self.members.iter().map(move |member| member.place[at]);
        let moments: [(f64, f64); MemberNumber::COUNT] = core::array::from_fn(|at| {
            let mean: f64 = weighted(at).zip(&self.weights).map(|(place, w)| w * place).sum();
            let square = |place: f64| (place - mean) * (place - mean);
            let spread: f64 =
                weighted(at).zip(&self.weights).map(|(place, w)| w * square(place)).sum();
            (mean, spread.max(f64::MIN_POSITIVE))
        });
        let distance = |member: &Member| -> f64 {
            let places = member.place.iter().zip(&moments);
            places.map(|(place, (mean, spread))| (place - mean) * (place - mean) / spread).sum()
        };
        self.members.iter().min_by(|a, b| distance(a).total_cmp(&distance(b)))
    }

    /// The number of equal members that would say as much, (Σw)²/Σw² (Kish 1965, *Survey Sampling*).
    pub fn effective_size(&self) -> f64 {
        let squares: f64 = self.weights.iter().map(|weight| weight * weight).sum();
        1.0 / squares
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_members_stand_inside_their_ranges_and_spread_evenly() {
        let wide = Ensemble::wide(4096, 1);
        for number in MemberNumber::all() {
            let mut values: Vec<f64> =
                wide.members().iter().map(|member| member.value(number)).collect();
            values.sort_by(f64::total_cmp);
            for twentieth in [1_u8, 5, 10, 15, 19] {
                let share = 0.05 * f64::from(twentieth);
                let at = values[usize::from(twentieth) * 4096 / 20];
                let wanted = number.spread().value_at(share);
                let width = number.spread().width_of(0.9);
                assert!((at - wanted).abs() < 0.01 * width, "{} at {share}", number.name());
            }
        }
    }

    #[test]
    fn every_member_is_a_table_that_equipment_accepts() {
        let mut table = crate::equipment::Equipment::unset();
        table.table.length_m = 2.54;
        table.table.width_m = 1.27;
        table.table.corner_mouth_m = 0.1159;
        table.table.side_mouth_m = 0.13;
        table.table.sight_setback_m = 0.0937;
        table.ball.diameter_m = 0.05715;
        table.ball.mass_kg = 0.17;
        table.cloth.pivot_deceleration_rad_s2 = 10.0;
        for member in Ensemble::wide(64, 3).members() {
            member.equipment(&table).validated().expect("in range");
        }
    }

    #[test]
    fn more_members_begin_with_the_same_ones_and_weights_tell_the_effective_number() {
        let (few, more) = (Ensemble::wide(16, 7), Ensemble::wide(64, 7));
        assert_eq!(few.members(), &more.members()[..16]);
        assert!((few.effective_size() - 16.0).abs() < 1e-9);
        let one = Ensemble::weighted(few.members().to_vec(), {
            let mut weights = vec![0.0; 16];
            weights[3] = 2.0;
            weights
        });
        assert!((one.effective_size() - 1.0).abs() < 1e-12);
    }
}
