//! A bank on every table that measured banks allow, for other programs.

use crate::playing::{BankFindings, BankQuestion};
use railproof_engine::ask::{CredibleInterval, MemberShare};
use railproof_engine::bank::BankVerdict;
use serde::Serialize;
use std::collections::BTreeMap;

/// The shares of an ensemble's tables, and the start that they need.
#[derive(Debug, Clone, Serialize)]
pub struct KnownAnswer {
    /// The measured banks behind the ensemble.
    pub banks: usize,
    /// Its members.
    pub members: usize,
    /// The share of tables by verdict.
    pub verdicts: BTreeMap<&'static str, MemberShareAnswer>,
    /// The start through the middle of the mouth; null where no table has one.
    pub start_diamonds: Option<IntervalAnswer>,
    /// The share of tables that have such a start.
    pub has_start: MemberShareAnswer,
    /// The start that is advised; null where none is better.
    pub advised_start: Option<AdvisedShare>,
    /// The speed with the most room on the table in the middle, m/s, from the start as asked; null where there is none.
    pub advised_speed_m_s: Option<AdvisedShare>,
}

/// An advice, and how often it holds.
#[derive(Debug, Clone, Serialize)]
pub struct AdvisedShare {
    /// The number.
    pub number: f64,
    /// The share of tables on which it holds.
    pub holds: MemberShareAnswer,
}

/// A share and its standard error.
#[derive(Debug, Clone, Serialize)]
pub struct MemberShareAnswer {
    pub share: f64,
    pub error: f64,
}

/// A number with its intervals.
#[derive(Debug, Clone, Serialize)]
pub struct IntervalAnswer {
    pub middle: f64,
    /// From where to where half of all members say.
    pub half: (f64, f64),
    /// From where to where nine of ten say.
    pub ninety: (f64, f64),
}

impl KnownAnswer {
    pub(super) fn of(question: &BankQuestion, findings: &BankFindings) -> Option<Self> {
        let (known, found) = question.known.as_ref().zip(findings.known.as_ref())?;
        let verdict = |(verdict, share): &(BankVerdict, MemberShare)| {
            (verdict.name(), MemberShareAnswer::from(*share))
        };
        Some(Self {
            banks: known.banks(),
            members: known.ensemble.len(),
            verdicts: found.verdicts.iter().map(verdict).collect(),
            start_diamonds: found.start.map(IntervalAnswer::from),
            has_start: found.has_start.into(),
            advised_start: findings.known_advice.and_then(|it| it.start).map(AdvisedShare::from),
            advised_speed_m_s: findings
                .known_advice
                .and_then(|it| it.speed)
                .map(AdvisedShare::from),
        })
    }
}

impl From<(f64, MemberShare)> for AdvisedShare {
    fn from((number, holds): (f64, MemberShare)) -> Self {
        Self { number, holds: holds.into() }
    }
}

impl From<MemberShare> for MemberShareAnswer {
    fn from(share: MemberShare) -> Self {
        Self { share: share.share, error: share.error }
    }
}

impl From<CredibleInterval> for IntervalAnswer {
    fn from(interval: CredibleInterval) -> Self {
        Self { middle: interval.middle, half: interval.half, ninety: interval.ninety }
    }
}
