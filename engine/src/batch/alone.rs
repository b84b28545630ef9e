//! A bank that is played alone among others that are played together.

use super::inputs::Inputs;
use super::outcomes::{ColumnChoice, Outcomes};
use crate::bank::Bank;

/// Plays one bank as it is played alone.
#[inline(never)]
pub(super) fn play_one(
    bank: &Bank,
    inputs: &Inputs,
    index: usize,
    wanted: ColumnChoice,
    outcomes: &mut Outcomes,
) {
    let outcome = bank.play(inputs.line(index), inputs.launch(index)).ok();
    outcomes.put(index, outcome.as_ref(), wanted, bank.cloth().radius_m);
}
