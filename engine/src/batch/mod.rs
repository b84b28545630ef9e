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

mod alone;
mod angle;
mod block;
mod block_outcomes;
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
mod ways;
mod whole;
mod width;

pub use inputs::Inputs;
pub use outcomes::{ColumnChoice, Outcomes};
pub use width::Width;

use crate::bank::Bank;
use table::LaneTable;

/// Plays all banks. What `outcomes` held is overwritten; its memory is used again.
///
/// A launch that [`Launch::validated`](crate::bank::Launch::validated) refuses, or a line that is not
/// a number, is not played: its bank has no room and no numbers. Callers that want to say why check
/// the launch themselves.
pub fn play(bank: &Bank, inputs: &Inputs, wanted: ColumnChoice, outcomes: &mut Outcomes) {
    play_at(Width::widest(), bank, inputs, wanted, outcomes);
}

/// As [`play`], at a width that is given. One that the processor lacks is replaced by the plain one.
pub fn play_at(
    width: Width,
    bank: &Bank,
    inputs: &Inputs,
    wanted: ColumnChoice,
    outcomes: &mut Outcomes,
) {
    outcomes.resize(inputs.len(), wanted);
    match LaneTable::new(bank) {
        Some(table) => width::play_blocks_at(width, bank, &table, inputs, wanted, outcomes),
        None => {
            for index in 0..inputs.len() {
                alone::play_one(bank, inputs, index, wanted, outcomes);
            }
        }
    }
}
