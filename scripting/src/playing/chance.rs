//! How often a player makes one bank.

use super::question::BankQuestion;
use crate::fault::Fault;
use crate::player::PlayerProfile;
use railproof_engine::bank::BankError;
use railproof_engine::chance::{
    AimedStart, Chance, Condition, HoldWindows, PossibleTables, SpreadNodes,
};

/// A player's chance of one bank.
#[derive(Debug, Clone, Copy)]
pub struct BankChance {
    /// As it is asked for.
    pub chance: Chance,
    /// The start with the greatest chance, groove reading, and that chance; `None` where nothing holds.
    pub best: Option<(f64, Chance)>,
}

impl BankChance {
    /// Of the bank's ball where it lies, aimed by its rule or from its start.
    ///
    /// # Errors
    /// A [`Fault`] where the rule has no line through the ball.
    pub fn of(question: &BankQuestion, player: &PlayerProfile) -> Result<Self, Fault> {
        let BankQuestion { bank, line, launch, .. } = question;
        let (geometry, skill) = (bank.geometry(), &player.skill);
        let set_up = question.set_up();
        let share = launch.off_rail_m / geometry.span_m;
        let condition = Condition {
            rail: geometry.rail,
            pocket: geometry.pocket,
            number: line.contact + (line.start - line.contact) * share,
            off_rail_m: launch.off_rail_m,
            speed: set_up.speed,
            roll: launch.roll,
            side: launch.side,
        };
        let tables = match &question.known {
            Some(known) => PossibleTables::of(&known.table, &known.ensemble),
            None => PossibleTables::one(bank.equipment().clone()),
        };
        let nodes = SpreadNodes::of(skill, SpreadNodes::USUAL);
        let no_bank = |error: BankError| Fault::bad_input(error.to_string());
        let windows =
            HoldWindows::find(&tables, bank.model(), nodes, &[condition]).map_err(no_bank)?;
        let mut target = match &question.rule {
            Some(rule) => AimedStart::by_rule(rule, &condition, skill, geometry)
                .map_err(|error| Fault::bad_input(format!("the rule has no line: {error}")))?,
            None => AimedStart::at_start(line.start, skill, geometry),
        };
        // A line that is turned on purpose begins elsewhere; positive turns it towards low numbers at the rail.
        target.start += launch.aim_error_rad * condition.on(geometry).start_per_rad(target.start);
        Ok(Self {
            chance: windows.chance(0, target, skill),
            best: windows.best_start(0, target.read_spread, skill),
        })
    }
}
