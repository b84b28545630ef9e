//! Many banks on one table at once: a column for each input, a column for each answer, and the same
//! bits as [`Bank::play`](crate::bank::Bank::play).
//!
//! Banks are played in blocks, several lanes at a time. Every step of the usual way (to the rail,
//! off it, to the mouth line or another side) is done for the whole block without branches, by the
//! operations of the single bank in their order; nothing is fused, so the width changes no bit. A
//! bank that leaves the usual way (no room, no contact with the rail, another pocket at the rail, a
//! case at the edge of rounding) is played alone, as is every bank of a model that is stepped.
//!
//! No rules, plans or threads live here: callers cut their work into pieces and own the columns.

#![expect(clippy::inline_always, reason = "lanes form only where everything is in one function")]
#![expect(
    clippy::needless_range_loop,
    reason = "one index for many columns is what lanes form from"
)]
#![expect(clippy::needless_bitwise_bool, reason = "a lazy operator is a branch")]
#![expect(clippy::eq_op, reason = "only what is not a number differs from itself")]

mod angle;
mod block;
mod crossing;
mod impact;
mod inputs;
mod lane;
mod leg;
mod outcomes;
mod sides;
mod table;
mod to_mouth;
mod to_rail;
mod width;

pub use inputs::Inputs;
pub use outcomes::{Outcomes, Verdicts};
pub use width::Width;

use crate::bank::{Bank, LaunchError};
use outcomes::Answers;
use table::Table;
use thiserror::Error;

/// A bank of a batch that is refused.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("bank {index} of the batch: {error}")]
pub struct Refused {
    /// Which.
    pub index: usize,
    /// Why.
    pub error: LaunchError,
}

/// Plays all banks and says everything about them. What `outcomes` held is overwritten; its memory
/// is used again.
///
/// # Errors
/// [`Refused`] for the first launch outside its ranges; the outcomes are then empty.
pub fn play(bank: &Bank, inputs: &Inputs, outcomes: &mut Outcomes) -> Result<(), Refused> {
    play_at(Width::widest(), bank, inputs, outcomes)
}

/// Plays all banks and says how they ended, which is less to write down than [`play`] has.
///
/// # Errors
/// As [`play`].
pub fn play_verdicts(bank: &Bank, inputs: &Inputs, verdicts: &mut Verdicts) -> Result<(), Refused> {
    fill(Width::widest(), bank, inputs, verdicts)
}

/// As [`play`], at a width that is given. One that the processor lacks is replaced by the plain one.
///
/// # Errors
/// As [`play`].
pub fn play_at(
    width: Width,
    bank: &Bank,
    inputs: &Inputs,
    outcomes: &mut Outcomes,
) -> Result<(), Refused> {
    fill(width, bank, inputs, outcomes)
}

/// As [`play_verdicts`], at a width that is given.
///
/// # Errors
/// As [`play`].
pub fn play_verdicts_at(
    width: Width,
    bank: &Bank,
    inputs: &Inputs,
    verdicts: &mut Verdicts,
) -> Result<(), Refused> {
    fill(width, bank, inputs, verdicts)
}

fn fill<A: Answers>(
    width: Width,
    bank: &Bank,
    inputs: &Inputs,
    answers: &mut A,
) -> Result<(), Refused> {
    answers.resize(inputs.len());
    let played = match Table::new(bank) {
        Some(table) => width::play_at(width, bank, &table, inputs, answers),
        None => {
            (0..inputs.len()).try_for_each(|index| block::play_one(bank, inputs, index, answers))
        }
    };
    if played.is_err() {
        answers.resize(0);
    }
    played
}
