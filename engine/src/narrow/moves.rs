//! One move of every member: proposed along the difference of two others, taken or not by its likelihood.
//!
//! C. ter Braak 2006, *A Markov chain Monte Carlo version of the genetic algorithm Differential Evolution*,
//! Statistics and Computing 16:239–249. One half of the members moves at a time along differences of the other
//! half, so that each half is still a sample. A coordinate that leaves the cube comes in again at the other side:
//! the way back is then the opposite step, as likely as this one. (A mirror would turn one coordinate of the step
//! and not the others, which no step of correlated members undoes.)

use crate::ensemble::{Member, MemberNumber};
use crate::sample::{Sample, Sampling};

/// Random numbers of a stage's move, each by member and use.
pub(super) struct Dice {
    sample: Sample,
}

/// The uses of a member's random numbers: two partners, the step's kind, the taking, then a shake for each
/// coordinate.
const USES: usize = 4 + MemberNumber::COUNT;

impl Dice {
    pub(super) const fn new(members: usize, seed: u64) -> Self {
        let how = Sampling::Random;
        Self { sample: Sample { how, points: members as u64, seed, dimensions: USES } }
    }

    fn roll(&self, member: usize, usage: usize) -> f64 {
        self.sample.coordinate(member as u64, usage)
    }

    /// The share below which a proposal is taken.
    pub(super) fn taking(&self, member: usize) -> f64 {
        self.roll(member, 3)
    }

    /// A whole number below `count`.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "from 0 to the count"
    )]
    fn whole(&self, member: usize, usage: usize, count: usize) -> usize {
        ((self.roll(member, usage) * count as f64) as usize).min(count - 1)
    }

    /// A place along the difference of two of `others`, with a small shake.
    pub(super) fn proposal(
        &self,
        at: usize,
        member: &Member,
        others: &[Member],
        scale: f64,
    ) -> Member {
        let first = self.whole(at, 0, others.len());
        let second = (first + 1 + self.whole(at, 1, others.len() - 1)) % others.len();
        // One step in ten is the whole difference, which leads from one peak to another.
        let step = if self.roll(at, 2) < LEAPS { 1.0 } else { scale };
        let mut place = member.place;
        for (number, coordinate) in place.iter_mut().enumerate() {
            let difference = others[first].place[number] - others[second].place[number];
            let shake = SHAKE * (self.roll(at, 4 + number) - 0.5);
            *coordinate = wrapped(*coordinate + step * difference + shake);
        }
        Member { place }
    }
}

const LEAPS: f64 = 0.1;
/// The width of the shake that keeps a poor set of members from moving on lattices only.
const SHAKE: f64 = 1e-3;

/// The coordinate as it comes in again at the other side of the cube.
fn wrapped(coordinate: f64) -> f64 {
    (coordinate - coordinate.floor()).clamp(0.0, MOST)
}

/// The greatest coordinate below 1.
const MOST: f64 = 1.0 - f64::EPSILON / 2.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// The logarithm of a density that lies across a corner of the cube: two coordinates add up to little.
    fn corner(member: &Member) -> f64 {
        let off = (member.place[0] + member.place[1] - 0.1) / 0.05;
        -0.5 * off * off
    }

    /// Members of that density, by rejection.
    fn members(count: usize) -> Vec<Member> {
        let how = Sampling::Random;
        let points = 1 << 22;
        let sample = Sample { how, points, seed: 4, dimensions: MemberNumber::COUNT + 1 };
        (0..points)
            .filter_map(|index| {
                let place = core::array::from_fn(|at| sample.coordinate(index, at));
                let member = Member { place };
                let kept = sample.coordinate(index, MemberNumber::COUNT);
                (kept < libm::exp(corner(&member))).then_some(member)
            })
            .take(count)
            .collect()
    }

    #[test]
    fn members_of_a_density_stay_members_of_it() {
        const COUNT: usize = 6000;
        let mut all = members(COUNT);
        assert_eq!(all.len(), COUNT);
        let mean = |all: &[Member]| {
            all.iter().map(|member| member.place[0]).sum::<f64>() / all.len() as f64
        };
        let before = mean(&all);
        let square = |it: &Member| (it.place[0] - before) * (it.place[0] - before);
        let spread = all.iter().map(square).sum::<f64>();
        let error = (spread / COUNT as f64).sqrt() / (COUNT as f64).sqrt();
        for time in 0..60 {
            let dice = Dice::new(COUNT, 1000 + time);
            for mine in [0..COUNT / 2, COUNT / 2..COUNT] {
                let others: Vec<Member> = all
                    .iter()
                    .enumerate()
                    .filter(|(at, _)| !mine.contains(at))
                    .map(|(_, member)| *member)
                    .collect();
                for at in mine {
                    let proposal = dice.proposal(at, &all[at], &others, 0.3);
                    if dice.taking(at) < libm::exp(corner(&proposal) - corner(&all[at])) {
                        all[at] = proposal;
                    }
                }
            }
        }
        // Both means err by their number of members.
        let moved = (mean(&all) - before) / (error * 2.0_f64.sqrt());
        assert!(moved.abs() < 3.5, "the mean moved by {moved} errors");
    }
}
