//! Draws of a miss's parts, kept by their weights.

use super::{CauseOdds, MissCause};

const CAUSES: usize = MissCause::ALL.len();

/// Draws by their weights.
pub(super) struct Kept {
    whole: f64,
    squares: f64,
    /// The weight of each member's draws, by the cause that was the main one.
    of_member: Vec<[f64; CAUSES]>,
    parts_m: [f64; CAUSES],
}

impl Kept {
    pub(super) fn new(members: usize) -> Self {
        let nothing = [0.0; CAUSES];
        Self { whole: 0.0, squares: 0.0, of_member: vec![nothing; members], parts_m: nothing }
    }

    pub(super) fn add(&mut self, member: usize, parts: &[f64; CAUSES], weight: f64) {
        if weight <= 0.0 {
            return;
        }
        self.whole += weight;
        self.squares += weight * weight;
        let toward = parts.iter().sum::<f64>().signum();
        let mut main = 0;
        for (at, part) in parts.iter().enumerate() {
            self.parts_m[at] += weight * part;
            if toward * part > toward * parts[main] {
                main = at;
            }
        }
        self.of_member[member][main] += weight;
    }

    /// The sum of the weights.
    pub(super) const fn whole(&self) -> f64 {
        self.whole
    }

    /// The number of even draws that tell as much.
    pub(super) fn effective(&self) -> f64 {
        if self.squares > 0.0 { self.whole * self.whole / self.squares } else { 0.0 }
    }

    /// Every cause with its odds.
    pub(super) fn causes(&self) -> Vec<CauseOdds> {
        let odds = |cause: MissCause| CauseOdds {
            cause,
            odds: self.weight_of(cause) / self.whole,
            part_m: self.parts_m[cause.place()] / self.whole,
        };
        MissCause::ALL.into_iter().map(odds).collect()
    }

    /// Each member's share of the draws of which this cause was the main one.
    pub(super) fn shares_of(&self, cause: MissCause) -> Vec<f64> {
        let whole = self.weight_of(cause);
        self.of_member.iter().map(|main| main[cause.place()] / whole).collect()
    }

    fn weight_of(&self, cause: MissCause) -> f64 {
        self.of_member.iter().map(|main| main[cause.place()]).sum()
    }
}
