//! One move of every member: proposed along the difference of two others, taken or not by its likelihood.
//!
//! C. ter Braak 2006, *A Markov chain Monte Carlo version of the genetic algorithm Differential Evolution*,
//! Statistics and Computing 16:239–249. One half of the members moves at a time along differences of the other
//! half, so that each half is still a sample. A coordinate that leaves the cube comes back as from a mirror.

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
            *coordinate = mirrored(*coordinate + step * difference + shake);
        }
        Member { place }
    }
}

const LEAPS: f64 = 0.1;
/// The width of the shake that keeps a poor set of members from moving on lattices only.
const SHAKE: f64 = 1e-3;

/// The coordinate as mirrors at 0 and 1 send it back.
fn mirrored(coordinate: f64) -> f64 {
    let folded = coordinate - 2.0 * (0.5 * coordinate).floor();
    let inside = if folded > 1.0 { 2.0 - folded } else { folded };
    inside.clamp(0.0, MOST)
}

/// The greatest coordinate below 1.
const MOST: f64 = 1.0 - f64::EPSILON / 2.0;
