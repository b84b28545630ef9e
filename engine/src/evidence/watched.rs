//! Banks played by a member's player and watched: made-up measurements with a known truth.

use super::draws::NormalDraws;
use super::{MeasuredBank, Scatter, Seen};
use crate::bank::{BankError, BankVerdict};
use crate::column::{Hand, Landing, SetUp, columns};
use crate::ensemble::Member;
use crate::equipment::{Equipment, RailModel};
use crate::rail::BankGeometry;

/// How a result is written down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Watching {
    /// In a word.
    Words,
    /// By the number where a miss meets a rail, read with this standard deviation, m; a ball that drops or
    /// touches in a word.
    Numbers {
        /// The standard deviation, m.
        read_to_m: f64,
    },
}

/// A table whose truth is known, and its player.
#[derive(Debug, Clone, Copy)]
pub struct MadeUpTable<'a> {
    /// The sizes and the ball.
    pub table: &'a Equipment,
    /// The rail model.
    pub model: RailModel,
    /// The truth.
    pub member: &'a Member,
    /// The player's scatter.
    pub scatter: &'a Scatter,
    /// Which of many series of shots.
    pub seed: u64,
}

impl MadeUpTable<'_> {
    /// Plays and watches each set-up once; a ball that neither comes to a place beside its pocket nor rests
    /// before it leaves no measurement.
    ///
    /// # Errors
    /// As [`columns`].
    pub fn watched(&self, set_ups: &[(SetUp, Watching)]) -> Result<Vec<MeasuredBank>, BankError> {
        let mut sent = Vec::with_capacity(set_ups.len());
        for (index, (set_up, _)) in set_ups.iter().enumerate() {
            let diamond_m = BankGeometry::new(self.table, set_up.rail, set_up.pocket)?.diamond_m;
            sent.push(self.scattered(set_up, diamond_m, index as u64));
        }
        let members = core::slice::from_ref(self.member);
        let seen = columns(self.table, self.model, members, &sent, Hand::Members)?;
        Ok(set_ups
            .iter()
            .zip(seen)
            .enumerate()
            .filter_map(|(index, (&(set_up, watching), column))| {
                let seen = self.seen(&column[0], watching, index as u64)?;
                Some(MeasuredBank { set_up, seen, scatter: *self.scatter, repeats: 1 })
            })
            .collect())
    }

    fn scattered(&self, set_up: &SetUp, diamond_m: f64, index: u64) -> SetUp {
        let mut sent = *set_up;
        let [aim, speed, side, roll, contact, start] = self.scatter.causes();
        let by = |sd: f64, usage: usize| sd * self.draws().normal(index, usage);
        sent.aim_error_rad += by(aim, 0);
        sent.speed_ratio *= 1.0 + by(speed, 1);
        sent.side += by(side, 2);
        sent.roll += by(roll, 3);
        sent.line.contact += by(contact, 4) / diamond_m;
        sent.line.start += by(start, 5) / diamond_m;
        sent
    }

    fn seen(&self, landing: &Landing, watching: Watching, index: u64) -> Option<Seen> {
        if landing.is_stopped() {
            return Some(Seen::Stops);
        }
        if !landing.is_told() {
            return None;
        }
        match (landing.verdict, watching) {
            (BankVerdict::Holds, _) => Some(Seen::Holds),
            (BankVerdict::TouchesPoint(_), _) => Some(Seen::Touches),
            (_, Watching::Numbers { read_to_m }) => {
                let along_m = landing.along_m + read_to_m * self.draws().normal(index, 6);
                Some(Seen::At { along_m, read_to_m })
            }
            (BankVerdict::Long, Watching::Words) => Some(Seen::Long),
            (BankVerdict::Short, Watching::Words) => Some(Seen::Short),
            _ => None,
        }
    }

    const fn draws(&self) -> NormalDraws {
        NormalDraws { seed: self.seed, uses: USES }
    }
}

/// Aim, speed, side, roll, contact, start, reading.
const USES: usize = 7;
