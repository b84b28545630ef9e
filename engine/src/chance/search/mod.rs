//! The search for hold windows on one table.
//!
//! Both clearances of the mouth are smooth in the start number, and nearly straight. So for the shot as it is
//! meant a coarse row of starts brackets every change of their signs ([`scan`]); the other speeds and sides follow
//! each edge from there by secants ([`follow`]). Where one gets lost its own row is scanned. All looks of a round
//! are played together.

mod follow;
mod looks;
mod scan;

use super::Condition;
use super::nodes::SpreadNode;
use super::window::Windows;
use crate::bank::{Bank, BankError};
use crate::column::by_bank;
use crate::ensemble::Habit;
use crate::equipment::{Equipment, RailModel};
use looks::BankLooks;

/// The windows of each condition in turn, a node each.
///
/// # Errors
/// [`BankError`] for a rail and a pocket that make no bank.
pub(super) fn windows_on(
    (equipment, habit): (&Equipment, Habit),
    model: RailModel,
    nodes: &[SpreadNode],
    conditions: &[Condition],
) -> Result<Vec<Vec<Windows>>, BankError> {
    let mut found = vec![Vec::new(); conditions.len()];
    for ((rail, pocket), places) in by_bank(conditions.iter().map(|it| (it.rail, it.pocket))) {
        let bank = Bank::new(equipment, rail, pocket, model)?;
        let asked: Vec<Condition> = places.iter().map(|&at| conditions[at]).collect();
        let mut looks = BankLooks::new(&bank, habit, nodes, &asked);
        let meant: Vec<(usize, usize)> = (0..asked.len()).map(|condition| (condition, 0)).collect();
        let scanned = scan::windows(&mut looks, &meant);
        let followed = follow::windows(&mut looks, &scanned);
        for (at, windows) in places.into_iter().zip(followed) {
            found[at] = windows;
        }
    }
    Ok(found)
}
