//! Set-ups played over members.

use super::shared_bank::{SharedBank, by_bank};
use super::{Landing, SetUp};
use crate::bank::{Bank, BankError};
use crate::batch::{self, ColumnChoice, Inputs, Outcomes};
use crate::ensemble::Member;
use crate::equipment::{Equipment, RailModel};
use rayon::prelude::*;

/// The landings of one set-up, a member each.
pub type Landings = Vec<Landing>;

/// Whose hand sends the balls.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hand {
    /// One that does exactly what the set-up says.
    Exact,
    /// The member's player, who always errs in the same way.
    Members,
}

/// Plays every set-up on every member's table: a column for each set-up.
///
/// `table` gives the sizes and the ball; the members give cloth, cushions and the speeds of words.
///
/// # Errors
/// [`BankError`] for a rail and a pocket that make no bank.
pub fn columns(
    table: &Equipment,
    model: RailModel,
    members: &[Member],
    set_ups: &[SetUp],
    hand: Hand,
) -> Result<Vec<Landings>, BankError> {
    let rows = over_members(table, model, members, set_ups, hand, |_, row| row.to_vec())?;
    Ok((0..set_ups.len()).map(|at| rows.iter().map(|row| row[at]).collect()).collect())
}

/// Plays every set-up on every member's table, and keeps of each member only what `of` makes of it and its landings,
/// one for each set-up. `of` is called from any thread.
///
/// # Errors
/// As [`columns`].
pub fn over_members<T: Send>(
    table: &Equipment,
    model: RailModel,
    members: &[Member],
    set_ups: &[SetUp],
    hand: Hand,
    of: impl Fn(&Member, &[Landing]) -> T + Sync,
) -> Result<Vec<T>, BankError> {
    let groups = by_bank(set_ups.iter().map(|set_up| (set_up.rail, set_up.pocket)));
    members
        .par_iter()
        .with_min_len(MEMBERS_AT_ONCE)
        .map_init(PlayRoom::default, |room, member| {
            row(table, model, member, set_ups, &groups, hand, room).map(|row| of(member, &row))
        })
        .collect()
}

/// Fewer are not worth a thread's turn.
const MEMBERS_AT_ONCE: usize = 8;

/// A thread's memory for the banks of one member.
#[derive(Default)]
struct PlayRoom {
    inputs: Inputs,
    outcomes: Outcomes,
}

fn row(
    table: &Equipment,
    model: RailModel,
    member: &Member,
    set_ups: &[SetUp],
    groups: &[SharedBank],
    hand: Hand,
    room: &mut PlayRoom,
) -> Result<Vec<Landing>, BankError> {
    let equipment = member.equipment(table);
    let mut row: Vec<Option<Landing>> = vec![None; set_ups.len()];
    for ((rail, pocket), places) in groups {
        let bank = Bank::new(&equipment, *rail, *pocket, model)?;
        room.inputs.clear();
        for &at in places {
            let set_up = match hand {
                Hand::Exact => set_ups[at],
                Hand::Members => set_ups[at].sent_by(member, bank.geometry()),
            };
            room.inputs.push(set_up.line, set_up.launch(&equipment));
        }
        batch::play(&bank, &room.inputs, ColumnChoice::Whole, &mut room.outcomes);
        for (&at, outcome) in places.iter().zip(&room.outcomes.whole) {
            row[at] = Some(Landing::of(bank.geometry(), outcome));
        }
    }
    Ok(row.into_iter().flatten().collect())
}
