//! The cautions of a played bank, shot or layout.

use super::{Caution, Cautions};
use crate::discovering::AskedBalls;
use crate::playing::{
    BankFindings, BankQuestion, HARDEST_M_S, PlayedShot, SpotFindings, SteppedPlay,
};
use railproof_engine::bank::{Bank, HoldingSpeeds, Outcome};
use railproof_engine::units::SpeedWord;

impl Cautions {
    /// Those of a bank that was played, with a speed that is told beside its own, m/s.
    pub fn of_bank(bank: &Bank, fastest_m_s: f64, outcome: &Outcome) -> Self {
        let off_rail_m_s = outcome.rebound.map_or(0.0, |rebound| rebound.state.velocity.norm());
        Self::of_speed(fastest_m_s.max(off_rail_m_s))
            .and(&Self::of_table(&bank.equipment().table))
            .with(Caution::Hop, outcome.rebound.is_some_and(|rebound| rebound.hop))
    }
}

impl BankFindings {
    /// The cautions of the answer: a speed that is advised, the most comfortable one or the least that holds, is as
    /// good as one that was asked for.
    pub fn cautions(&self, question: &BankQuestion) -> Cautions {
        let advised =
            |holding: &HoldingSpeeds| holding.least_m_s().max(holding.most_room.speed_m_s);
        // Nothing harder is advised.
        let advised_m_s = self.holding.as_ref().map(advised).filter(|m_s| *m_s <= HARDEST_M_S);
        let fastest_m_s = question.launch.speed_m_s.max(advised_m_s.unwrap_or(0.0));
        Cautions::of_bank(&question.bank, fastest_m_s, &self.outcome)
    }

    /// Those of the page for a lesson, which advises a start at every speed that has a word.
    pub fn page_cautions(&self, question: &BankQuestion) -> Cautions {
        let words = SpeedWord::ALL.map(|word| question.bank.equipment().speeds.m_s(word));
        let fastest_m_s = words.into_iter().fold(0.0, f64::max);
        self.cautions(question).and(&Cautions::of_speed(fastest_m_s))
    }
}

impl SpotFindings {
    /// The cautions of the answer.
    pub fn cautions(&self) -> Cautions {
        Cautions::of_speed(self.speed_m_s)
    }
}

impl AskedBalls {
    /// Those of balls struck at the speeds that are asked, on the table in the middle where it could be many.
    pub fn cautions(&self) -> Cautions {
        let speeds = self.balls.words().into_iter().map(|word| self.table.speeds.m_s(word));
        Cautions::of_speed(speeds.fold(0.0, f64::max)).and(&Cautions::of_table(&self.table.table))
    }
}

impl PlayedShot<'_> {
    /// The cautions of the answer.
    pub fn cautions(&self) -> Cautions {
        Cautions::of_shot(self.layout, &self.shot)
    }
}

impl SteppedPlay<'_> {
    /// The cautions of the answer.
    pub fn cautions(&self) -> Cautions {
        Cautions::of_layout(self.layout)
    }
}
