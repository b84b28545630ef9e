//! The cautions of a played bank, shot or layout.

use super::{Caution, Cautions};
use crate::playing::{BankFindings, BankQuestion, PlayedShot, SteppedPlay};
use railproof_engine::bank::HoldingSpeeds;

impl BankFindings {
    /// The cautions of the answer: a speed at which it is said to hold is as good as one that was asked for.
    pub fn cautions(&self, question: &BankQuestion) -> Cautions {
        let advised_m_s = self.holding.as_ref().map_or(0.0, HoldingSpeeds::greatest_m_s);
        Cautions::of_speed(question.launch.speed_m_s.max(advised_m_s))
            .and(&Cautions::of_table(&question.bank.equipment().table))
            .with(Caution::Hop, self.outcome.rebound.is_some_and(|rebound| rebound.hop))
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
