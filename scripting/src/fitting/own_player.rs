//! A player by their own repeated banks.

use super::MeasuredTable;
use crate::fault::Fault;
use crate::measured::Measurements;
use crate::player::PlayerProfile;
use railproof_engine::repeated::OwnSpreads;

/// What repeated banks tell of the person who sent them.
#[derive(Debug, Clone)]
pub struct OwnPlayer {
    /// The person.
    pub player: PlayerProfile,
    /// The one they are said to be like, in all that the banks don't tell.
    pub like: PlayerProfile,
    /// The spreads of aim, speed and side, and what they rest on.
    pub own: OwnSpreads,
}

/// Fewer shots than this more than lines say next to nothing.
const FEWEST_AGAIN: u32 = 3;

impl OwnPlayer {
    /// The tables that yours could be over which a spread is told.
    pub const TABLES: usize = 32;

    /// Of measured banks of one person on a table that could be any of these.
    ///
    /// # Errors
    /// A [`Fault`] for banks that the table doesn't have, or that are not repeated.
    pub fn of(
        known: &MeasuredTable,
        measurements: &Measurements,
        like: PlayerProfile,
        name: String,
    ) -> Result<Self, Fault> {
        let members = known.ensemble.members();
        // They weigh the same; some of them spread as widely as all.
        let step = (members.len() / Self::TABLES).max(1);
        let members: Vec<_> = members.iter().step_by(step).copied().collect();
        let of = (&known.table, known.model);
        let own = OwnSpreads::of(of, &members, &measurements.banks, &like.skill)
            .map_err(|error| Fault::bad_input(format!("this table has no such banks: {error}")))?;
        if u64::from(own.shots) < own.lines as u64 + u64::from(FEWEST_AGAIN) {
            return Err(Fault::bad_input(format!(
                "{} shots along {} lines tell no spread: the same line must be sent again and again",
                own.shots, own.lines
            ))
            .with_hint("send each of five lines a dozen times with the tip, the ball put back each time"));
        }
        let player = PlayerProfile { name, skill: own.skill };
        Ok(Self { player, like, own })
    }
}
