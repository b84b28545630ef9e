//! The facts of common practice, each as banks and a claim about where they come to.

use crate::bank::BankVerdict;
use crate::column::{Landing, SetUp};
use crate::rail::{Line, Pocket, Rail};
use crate::units::Speed;

/// Something that players say of banks off a long rail of a nine-foot table. Common practice, no source.
#[derive(Debug, Clone, Copy)]
pub struct Fact {
    /// Its name.
    pub name: &'static str,
    /// The fact in words.
    pub told: &'static str,
    /// True for a fact by which members are chosen; it can't check them then.
    pub chooses: bool,
    banks: &'static [FactBank],
    claim: fn(&[Landing]) -> bool,
}

/// A bank by 2.2 × contact, sent as a stun ball or rolling.
#[derive(Debug, Clone, Copy)]
struct FactBank {
    contact: f64,
    off_rail_m: f64,
    speed_m_s: f64,
    roll: f64,
}

const fn stun(contact: f64, off_rail_m: f64, speed_m_s: f64) -> FactBank {
    FactBank { contact, off_rail_m, speed_m_s, roll: 0.0 }
}

const SLOPE: f64 = 2.2;
const FOOT_M: f64 = 0.3048;

/// All of them.
pub const FACTS: [Fact; 6] = [
    Fact {
        name: "rule-of-thumb",
        told: "frozen, sliding, at 3 to 5 m/s: 2.2 x contact holds from contact 1.5 to 3.5",
        chooses: true,
        banks: &[
            stun(1.5, 0.0, 3.0),
            stun(2.5, 0.0, 3.0),
            stun(3.5, 0.0, 3.0),
            stun(1.5, 0.0, 4.0),
            stun(2.5, 0.0, 4.0),
            stun(3.5, 0.0, 4.0),
            stun(1.5, 0.0, 5.0),
            stun(2.5, 0.0, 5.0),
            stun(3.5, 0.0, 5.0),
        ],
        claim: |seen| seen.iter().all(|landing| landing.verdict == BankVerdict::Holds),
    },
    Fact {
        name: "slow-off-the-rail",
        told: "a foot off the rail at 1.5 m/s it goes long off contact 2",
        chooses: true,
        banks: &[stun(2.0, FOOT_M, 1.5)],
        claim: |seen| seen[0].verdict == BankVerdict::Long,
    },
    Fact {
        name: "harder-is-shorter",
        told: "a foot off the rail off contact 2 it comes shorter at 4.5 m/s than at 2 m/s",
        chooses: true,
        banks: &[stun(2.0, FOOT_M, 2.0), stun(2.0, FOOT_M, 4.5)],
        claim: |seen| seen[1].along_m < seen[0].along_m,
    },
    Fact {
        name: "further-is-longer",
        told: "at 3 m/s off contact 2 it comes longer from a foot off the rail than from half a foot",
        chooses: false,
        banks: &[stun(2.0, 0.5 * FOOT_M, 3.0), stun(2.0, FOOT_M, 3.0)],
        claim: |seen| seen[1].along_m > seen[0].along_m,
    },
    Fact {
        name: "roll-is-longer",
        told: "frozen at 3 m/s, a rolling ball comes longer off contact 2.5 than a sliding one",
        chooses: false,
        banks: &[
            stun(2.5, 0.0, 3.0),
            FactBank { contact: 2.5, off_rail_m: 0.0, speed_m_s: 3.0, roll: 1.0 },
        ],
        claim: |seen| seen[1].along_m > seen[0].along_m,
    },
    Fact {
        name: "small-numbers-long",
        told: "frozen at 4 m/s, the line of contact 0.5 runs longer than the one of 2.5",
        chooses: false,
        banks: &[stun(2.5, 0.0, 4.0), stun(0.5, 0.0, 4.0)],
        claim: |seen| seen[1].along_m > seen[0].along_m,
    },
];

impl Fact {
    /// The banks that it speaks of.
    pub fn set_ups(&self) -> impl Iterator<Item = SetUp> + '_ {
        self.banks.iter().map(|bank| SetUp {
            roll: bank.roll,
            ..SetUp::stun(
                Rail::Left,
                Pocket::FootRight,
                Line::new(bank.contact, SLOPE * bank.contact),
                bank.off_rail_m,
                Speed::MetresPerSecond(bank.speed_m_s),
            )
        })
    }

    /// True where its banks came to these places.
    pub fn is_true_of(&self, seen: &[Landing]) -> bool {
        (self.claim)(seen)
    }
}
