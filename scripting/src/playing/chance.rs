//! How often a player makes one bank.

use super::question::BankQuestion;
use crate::fault::Fault;
use crate::player::PlayerProfile;
use railproof_engine::bank::{BankError, exact_start};
use railproof_engine::chance::{
    AimedStart, Chance, Condition, HoldWindows, PossibleTables, Skill, SkillNumber, SpreadNodes,
};

/// A player's chance of one bank.
#[derive(Debug, Clone, Copy)]
pub struct BankChance {
    /// As it is asked for.
    pub chance: Chance,
    /// The start with the greatest chance, groove reading, and that chance; `None` where nothing holds.
    pub best: Option<(f64, Chance)>,
    /// The spread that draws that start away from the middle of the mouth: without it the best start lies nearest to
    /// the middle. `None` where they are one, or no spread alone does much.
    pub drawn_by: Option<SkillNumber>,
}

/// The best start and the middle of the mouth are one within this, diamonds.
const SAME_START: f64 = 0.015;
/// A spread that draws the best start by a smaller part of its way is no reason.
const LEAST_PART: f64 = 0.3;

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
        let best = windows.best_start(0, target.read_spread, skill);
        let best_of = |skill: &Skill| -> Option<f64> {
            let nodes = SpreadNodes::of(skill, SpreadNodes::USUAL);
            let windows = HoldWindows::find(&tables, bank.model(), nodes, &[condition]).ok()?;
            let target = match &question.rule {
                Some(rule) => AimedStart::by_rule(rule, &condition, skill, geometry).ok()?,
                None => AimedStart::at_start(line.start, skill, geometry),
            };
            Some(windows.best_start(0, target.read_spread, skill)?.0)
        };
        // Many tables take too long to be asked again and again.
        let one_table = question.known.is_none();
        let middle = exact_start(bank, line.contact, *launch).ok().filter(|_| one_table);
        let drawn_by = best.zip(middle).and_then(|((best, _), middle)| {
            drawn_by(skill, best - middle, |skill| Some(best_of(skill)? - middle))
        });
        Ok(Self { chance: windows.chance(0, target, skill), best, drawn_by })
    }
}

/// The spread without which the best start is off the middle by least, where that is much less than it is with all.
fn drawn_by(
    skill: &Skill,
    off: f64,
    off_of: impl Fn(&Skill) -> Option<f64>,
) -> Option<SkillNumber> {
    if off.abs() < SAME_START {
        return None;
    }
    let without = |number: SkillNumber| {
        let mut other = *skill;
        if skill.number(number) == 0.0 {
            return None;
        }
        other.set(number, 0.0);
        Some((number, off_of(&other)?.abs()))
    };
    let (number, left) =
        SkillNumber::ALL.into_iter().filter_map(without).min_by(|a, b| a.1.total_cmp(&b.1))?;
    (left < (1.0 - LEAST_PART) * off.abs()).then_some(number)
}
