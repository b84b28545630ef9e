//! Lines that were sent again and again.

use crate::column::SetUp;
use crate::evidence::{MeasuredBank, Scatter, Seen};

/// One line, and all that was seen of it.
#[derive(Debug, Clone)]
pub struct RepeatedLine {
    /// The line.
    pub set_up: SetUp,
    /// Each result, and how often it was seen.
    pub seen: Vec<(Seen, u32)>,
}

/// Why shots tell nothing of a person's spreads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotTold {
    /// The cue ball sent them.
    ByCueBall,
    /// Some rest before they come to a rail, or come to none.
    NearRest,
}

impl RepeatedLine {
    /// The number of shots.
    pub fn shots(&self) -> u32 {
        self.seen.iter().map(|(_, repeats)| repeats).sum()
    }
}

/// The lines among measured banks that were sent with the tip, and the number of all other shots.
pub fn repeated_lines(banks: &[MeasuredBank]) -> (Vec<RepeatedLine>, u32) {
    let mut lines: Vec<RepeatedLine> = Vec::new();
    let mut others = 0;
    for bank in banks {
        if bank.scatter != Scatter::CAREFUL {
            others += bank.repeats;
            continue;
        }
        let seen = (bank.seen, bank.repeats);
        match lines.iter_mut().find(|line| line.set_up == bank.set_up) {
            Some(line) => match line.seen.iter_mut().find(|it| it.0 == bank.seen) {
                Some(again) => again.1 += bank.repeats,
                None => line.seen.push(seen),
            },
            None => lines.push(RepeatedLine { set_up: bank.set_up, seen: vec![seen] }),
        }
    }
    (lines, others)
}
