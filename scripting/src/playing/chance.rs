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
    /// As it is for whoever is told the start that was asked for, and finds its mark by eye.
    pub told: Chance,
    /// The start with the greatest chance for whoever is told it, at the same contact number, groove reading, and that
    /// chance; `None` where nothing holds. The ball lies on the line, so it lies elsewhere for another start.
    pub best: Option<(f64, Chance)>,
    /// The spread that draws that start away from the middle of the mouth: without it the best start lies nearest to
    /// the middle. `None` where they are one, or no spread alone does much.
    pub drawn_by: Option<SkillNumber>,
}

/// The best start and the middle of the mouth are one within this, diamonds.
const SAME_START: f64 = 0.015;
/// A spread that draws the best start by a smaller part of its way is no reason.
const LEAST_PART: f64 = 0.3;
/// The best start is closed in on to this, diamonds, in so many steps at most.
const CLOSE: f64 = 2e-3;
const MOST_STEPS: usize = 8;
/// The start of a line that leads into a corner grows about so much with its contact.
const START_PER_CONTACT: f64 = 2.2;
/// No ball lies nearer to its start than this, as a share of the way across.
const LEAST_SHARE: f64 = 0.01;
/// A secant leads so many times as far as the new start at most.
const FURTHEST: f64 = 5.0;

impl BankChance {
    /// Of the bank's ball where it lies, aimed by its rule or from its start.
    ///
    /// # Errors
    /// A [`Fault`] where the rule has no line through the ball.
    pub fn of(question: &BankQuestion, player: &PlayerProfile) -> Result<Self, Fault> {
        let skill = &player.skill;
        let asked = AskedBall::of(question);
        let windows = asked.windows(question.line.start, skill)?;
        let mut target = asked.target(skill)?;
        let mut told = asked.told(question.line.start, skill);
        // A line that is turned on purpose begins elsewhere; positive turns it towards low numbers at the rail.
        let condition = asked.condition(question.line.start);
        let geometry = question.bank.geometry();
        let turned = condition.on(geometry).start_per_rad(target.start);
        let turned = question.launch.aim_error_rad * turned;
        target.start += turned;
        told.start += turned;
        let best = asked.best(skill)?;
        // Many tables take too long to be asked again and again.
        let one_table = question.known.is_none();
        let middle = exact_start(&question.bank, question.line.contact, question.launch);
        let drawn_by =
            best.zip(middle.ok().filter(|_| one_table)).and_then(|((best, _), middle)| {
                drawn_by(skill, best - middle, |skill| Some(asked.best(skill).ok()??.0 - middle))
            });
        Ok(Self {
            chance: windows.chance(0, target, skill),
            told: windows.chance(0, told, skill),
            best,
            drawn_by,
        })
    }

    /// The best start of a bank for this player, and its chance.
    ///
    /// # Errors
    /// As [`BankChance::of`].
    pub fn best_of(
        question: &BankQuestion,
        player: &PlayerProfile,
    ) -> Result<Option<(f64, Chance)>, Fault> {
        AskedBall::of(question).best(&player.skill)
    }
}

/// The ball of a bank on lines to one contact number.
struct AskedBall<'q> {
    question: &'q BankQuestion,
    tables: PossibleTables,
}

impl<'q> AskedBall<'q> {
    fn of(question: &'q BankQuestion) -> Self {
        let tables = match &question.known {
            Some(known) => PossibleTables::of(&known.table, &known.ensemble),
            None => PossibleTables::one(question.bank.equipment().clone()),
        };
        Self { question, tables }
    }

    /// The ball on the line from this start.
    fn condition(&self, start: f64) -> Condition {
        let BankQuestion { bank, line, launch, .. } = self.question;
        let geometry = bank.geometry();
        let share = launch.off_rail_m / geometry.span_m;
        Condition {
            rail: geometry.rail,
            pocket: geometry.pocket,
            number: line.contact + (start - line.contact) * share,
            off_rail_m: launch.off_rail_m,
            speed: self.question.set_up().speed,
            roll: launch.roll,
            side: launch.side,
        }
    }

    /// The starts that hold of the ball on the line from this start.
    fn windows(&self, start: f64, skill: &Skill) -> Result<HoldWindows, Fault> {
        let nodes = SpreadNodes::on_tables(skill, self.tables.len());
        let condition = [self.condition(start)];
        HoldWindows::find(&self.tables, self.question.bank.model(), nodes, &condition)
            .map_err(|error: BankError| Fault::bad_input(error.to_string()))
    }

    fn target(&self, skill: &Skill) -> Result<AimedStart, Fault> {
        let BankQuestion { bank, line, rule, .. } = self.question;
        match rule {
            Some(rule) => {
                AimedStart::by_rule(rule, &self.condition(line.start), skill, bank.geometry())
                    .map_err(|error| Fault::bad_input(format!("the rule has no line: {error}")))
            }
            None => Ok(self.told(line.start, skill)),
        }
    }

    /// For whoever is told the line from this start.
    fn told(&self, start: f64, skill: &Skill) -> AimedStart {
        let geometry = self.question.bank.geometry();
        AimedStart::at_start(start, &self.condition(start), skill, geometry)
    }

    /// The start with the greatest chance whose line leads to the contact number. The best start of a ball where it
    /// lies leads to another contact unless the ball lay on that line: so the ball is laid there, and asked again.
    fn best(&self, skill: &Skill) -> Result<Option<(f64, Chance)>, Fault> {
        let BankQuestion { bank, line, launch, .. } = self.question;
        let best_from = |start: f64| {
            let read_spread = self.told(start, skill).read_spread;
            Ok::<_, Fault>(self.windows(start, skill)?.best_start(0, read_spread, skill))
        };
        // The same ball has the same best start, from wherever it was asked.
        let mut from = exact_start(bank, line.contact, *launch).unwrap_or(line.start);
        let share = launch.off_rail_m / bank.geometry().span_m;
        // The nearer the ball lies to its start, the less the start moves with it: about so much further both go.
        let lead = 1.0 + START_PER_CONTACT * share / (1.0 - share).max(LEAST_SHARE);
        let Some(mut best) = best_from(from)? else { return Ok(None) };
        let mut before: Option<(f64, f64)> = None;
        for _ in 0..MOST_STEPS {
            let off = best.0 - from;
            if (lead * off).abs() < CLOSE {
                break;
            }
            // A secant tells how far, once there are two places to lay one through.
            let step = before.map_or(lead * off, |(from_before, off_before)| {
                let slope = (off - off_before) / (from - from_before);
                let step = -off / slope;
                if (1.0..=FURTHEST * lead).contains(&(step / off)) { step } else { lead * off }
            });
            before = Some((from, off));
            from += step;
            match best_from(from)? {
                Some(found) => best = found,
                None => return Ok(None),
            }
        }
        Ok(Some(best))
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
