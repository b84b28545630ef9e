//! The answers to one bank: the bank itself, and its inverses.

use super::chance::BankChance;
use super::question::BankQuestion;
use super::shot::PlayedShot;
use super::way_out::{FittingSlope, NearestBank};
use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use railproof_engine::ask::{KnownBank, MemberShare, holding_shares};
use railproof_engine::attribution::{Attribution, NotAttributed, of_bank};
use railproof_engine::bank::{
    AimMargin, BankError, BankVerdict, HoldingSpeeds, Launch, MostRoom, Outcome,
    SEARCHED_SPEEDS_M_S, aim_margin, exact_start, holding_speeds, holding_starts, line_as_it_lies,
};
use railproof_engine::chance::Chance;
use railproof_engine::column::SetUp;
use railproof_engine::rail::Line;
use railproof_engine::shot::{Ending, Event, EventKind};
use railproof_engine::units::Speed;

/// One bank and its surroundings.
#[derive(Debug, Clone)]
pub struct BankFindings {
    /// The bank.
    pub outcome: Outcome,
    /// Where it goes off the point or the rail that it misses by.
    pub afterwards: Afterwards,
    /// The start number that sends the ball through the middle of the mouth, as it is launched
    /// here; `None` when none does.
    pub exact_start: Option<f64>,
    /// The least and the greatest start around that one with which it holds; `None` without it.
    pub holding_starts: Option<(f64, f64)>,
    /// The line through the middle of the mouth for a ball off the rail that stays where it lies; `None` where the line
    /// that was asked for holds, and where none near it does.
    pub as_it_lies: Option<Line>,
    /// The speeds at which the line holds, with the most room below [`HARD_M_S`] where a good part of all its room is there; `None` when it
    /// holds at none.
    pub holding: Option<HoldingSpeeds>,
    /// The error of aim with which the bank still holds; `None` when it does not hold.
    pub margin: Option<AimMargin>,
    /// Its miss as a sum over its causes, or why there is none.
    pub why: Result<Attribution, NotAttributed>,
    /// What becomes of it on every table that measured banks allow.
    pub known: Option<KnownBank>,
    /// How often the advice holds on those tables.
    pub known_advice: Option<KnownAdvice>,
    /// How often the player makes it.
    pub chance: Option<BankChance>,
    /// The bank at the speed with the most room is outside the model's checked range.
    pub holding_flagged: bool,
    /// A slope with which balls sent so hold, where the line holds at no speed.
    pub slope: Option<FittingSlope>,
    /// Banks beside it that go in, where neither its contact number nor its line does.
    pub nearest: Vec<NearestBank>,
    /// The least and the greatest speed around that one with as much room as is told, m/s; `None` when it holds
    /// at none.
    pub most_room_m_s: Option<(f64, f64)>,
    /// The least and the greatest speed around it with at least half as much room, m/s; `None` when it holds at none.
    pub half_room_m_s: Option<(f64, f64)>,
}

/// A better start is told where it makes so much more, as a share.
const WORTH_TELLING: f64 = 0.03;
/// A start that was asked for and leaves so much room is as good as the best, m. Chosen: half the room of a corner.
const COMFORTABLE_M: f64 = 0.014;
/// From this speed on a ball is hit hard, m/s. Chosen, not measured: about what a firm break of the balls is, by
/// common practice less than half of a hard one.
pub const HARD_M_S: f64 = 5.0;
/// Nobody sends a bank harder than this, m/s, and no answer asks for it. Chosen: about the hardest stroke of common
/// practice, a good half of what a hard break gives the cue ball.
pub const HARDEST_M_S: f64 = 8.0;
/// A gentler speed is taken where it has this part of the most room. Chosen.
const GOOD_PART: f64 = 0.5;
/// Starts nearer than this are one, diamonds.
const SAME_START: f64 = 0.005;
/// Room that differs by less is told alike, m.
const SAME_ROOM_M: f64 = 5e-4;
/// Speeds are looked at in steps of this ratio for as much room.
const ROOM_STEP: f64 = 1.01;

impl BankFindings {
    /// Plays the bank and asks around it.
    ///
    /// # Errors
    /// A launch that the engine refuses.
    pub fn of(question: &BankQuestion) -> Result<Self, Fault> {
        let BankQuestion { bank, line, launch, .. } = question;
        let outcome = bank
            .play(*line, *launch)
            .map_err(|error| Fault::bad_input(format!("the bank can't be played: {error}")))?;
        let holding = holding_speeds(bank, *line, *launch, SEARCHED_SPEEDS_M_S).ok();
        // A speed is comfortable where nobody hits hard, if it holds there with a good part of the most room.
        let most_below = |most_m_s: f64| {
            let below = (SEARCHED_SPEEDS_M_S.0, most_m_s);
            holding_speeds(bank, *line, *launch, below).ok().map(|it| it.most_room)
        };
        let comfortable = |found: MostRoom| {
            let limits = [HARD_M_S, HARDEST_M_S];
            let limits =
                limits.into_iter().filter(|it| (launch.speed_m_s..found.speed_m_s).contains(it));
            let mut gentler = limits.filter_map(most_below);
            let roomy = |it: &MostRoom| it.clearance_m >= GOOD_PART * found.clearance_m;
            gentler.find(roomy).unwrap_or(found)
        };
        let holding =
            holding.map(|it| HoldingSpeeds { most_room: comfortable(it.most_room), ..it });
        let holding_flagged =
            holding.as_ref().is_some_and(|it| it.less_sure_at(it.most_room.speed_m_s));
        let roomy = |least_room: fn(f64) -> f64| {
            holding.as_ref().map(|holding| roomy_speeds(question, holding, least_room))
        };
        let most_room_m_s = roomy(|most_m| most_m - SAME_ROOM_M);
        let half_room_m_s = roomy(|most_m| 0.5 * most_m);
        let holds = outcome.verdict() == BankVerdict::Holds;
        let known = match &question.known {
            Some(known) => {
                let asked =
                    KnownBank::of(&known.table, known.model, &known.ensemble, &question.set_up());
                Some(asked.map_err(|error| Fault::bad_input(error.to_string()))?)
            }
            None => None,
        };
        let exact_start = exact_start(bank, line.contact, *launch).ok();
        let player = question.player.as_ref();
        let chance = player.map(|player| BankChance::of(question, player)).transpose()?;
        let holding_starts =
            exact_start.and_then(|start| holding_starts(bank, line.contact, *launch, start));
        let at_some_speed = holding.as_ref().is_some_and(|it| it.least_m_s() <= HARDEST_M_S);
        let slope = || FittingSlope::of_bank(question);
        let nearest = || NearestBank::of(question);
        let found = Self {
            outcome,
            afterwards: Afterwards::of(question, &outcome),
            slope: (!at_some_speed).then(slope).flatten(),
            nearest: if !at_some_speed && holding_starts.is_none() {
                nearest()
            } else {
                Vec::new()
            },
            exact_start,
            as_it_lies: if holds { None } else { line_as_it_lies(bank, *line, *launch) }
                .filter(|it| (it.contact - line.contact).abs() >= SAME_START),
            holding_starts,
            holding,
            margin: if holds { aim_margin(bank, *line, *launch).ok() } else { None },
            why: of_bank(bank, *line, &outcome),
            known,
            known_advice: None,
            chance,
            holding_flagged,
            most_room_m_s,
            half_room_m_s,
        };
        let known_advice = question.known.as_ref().map(|known| {
            KnownAdvice::of(known, question, &found)
                .map_err(|error| Fault::bad_input(error.to_string()))
        });
        Ok(Self { known_advice: known_advice.transpose()?, ..found })
    }
}

impl BankFindings {
    /// The start that is advised in place of the one asked for: the one from which the player makes most; without a
    /// player the one through the middle of the mouth, over all tables that are possible. `None` where none is better.
    pub fn better_start(&self, question: &BankQuestion) -> Option<f64> {
        let of_player = self.chance.and_then(|chance| chance.best);
        let start = if self.chance.is_some() && self.outcome.verdict() == BankVerdict::Holds {
            self.better_for_player()?.0
        } else if let Some((start, _)) = of_player {
            start
        } else if let Some(known) = &self.known {
            known.start.as_ref()?.middle
        } else {
            self.exact_start.filter(|_| self.holding_starts.is_some())?
        };
        let start = told_start(start);
        ((start - question.line.start).abs() >= SAME_START).then_some(start)
    }

    /// The start that a page teaches: the one with the most room, or with which the player makes most.
    pub fn best_start(&self, question: &BankQuestion) -> Option<f64> {
        // One that was asked for and serves is left as it is.
        let holds = self.outcome.verdict() == BankVerdict::Holds;
        let roomy = self.outcome.clearance_m().is_some_and(|room_m| room_m >= COMFORTABLE_M);
        let serves = match self.chance {
            Some(_) => holds && self.better_for_player().is_none(),
            None => holds && roomy,
        };
        if serves && self.known.is_none() {
            return Some(question.line.start);
        }
        let start = match self.chance.and_then(|chance| chance.best) {
            Some((start, _)) if self.known.is_none() => Some(start),
            _ if self.known.is_some() => self.better_start(question),
            _ => self.exact_start.filter(|_| self.holding_starts.is_some()),
        };
        start.map(told_start)
    }

    /// The start from which the player makes more, and its chance.
    pub fn better_for_player(&self) -> Option<(f64, Chance)> {
        let chance = self.chance?;
        chance.best.filter(|(_, best)| best.chance > chance.told.chance + WORTH_TELLING)
    }

    /// Whether whoever reads the start by eye makes more than from the start itself.
    pub fn eye_makes_more(&self) -> bool {
        self.chance.is_some_and(|it| it.chance.chance > it.told.chance + WORTH_TELLING)
    }

    /// The start through the middle of the mouth, where it is told as another one than this.
    pub fn better_middle(&self, than: f64) -> Option<f64> {
        self.exact_start.filter(|middle| (middle - than).abs() >= 2.0 * SAME_START)
    }
}

/// A start as it is told: whoever follows it starts there, and all else is said of that one.
fn told_start(start: f64) -> f64 {
    (100.0 * start).round() / 100.0
}

/// How often advice holds on the tables that a table could be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KnownAdvice {
    /// The better start, and the share of tables on which it holds.
    pub start: Option<(f64, MemberShare)>,
    /// The speed with the most room on the middle table, m/s, and the share for the line that was asked for.
    pub speed: Option<(f64, MemberShare)>,
}

impl KnownAdvice {
    fn of(
        known: &MeasuredTable,
        question: &BankQuestion,
        found: &BankFindings,
    ) -> Result<Self, BankError> {
        let set_up = question.set_up();
        let start = found.better_start(question);
        let speed_m_s = found.holding.as_ref().map(|it| it.most_room.speed_m_s);
        let from = start.map(|start| {
            let line = Line { start, ..set_up.line };
            (start, SetUp { line, ..set_up })
        });
        let at = speed_m_s.map(|speed_m_s| {
            (speed_m_s, SetUp { speed: Speed::MetresPerSecond(speed_m_s), ..set_up })
        });
        let share = |(number, set_up): (f64, SetUp)| {
            let MeasuredTable { table, model, ensemble, .. } = known;
            let shares = holding_shares(table, *model, ensemble, &[set_up], &|| ())?;
            Ok::<_, BankError>((number, shares[0]))
        };
        Ok(Self { start: from.map(share).transpose()?, speed: at.map(share).transpose()? })
    }
}

/// Where a ball that misses its pocket's mouth, or touches a point of it, goes off that.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Afterwards {
    /// It holds, or runs away.
    Elsewhere,
    /// It drops into its pocket all the same.
    Drops,
    /// It meets the jaws of its pocket more than once, and stays out.
    Rattles,
}

impl Afterwards {
    fn of(question: &BankQuestion, outcome: &Outcome) -> Self {
        let comes_by = |verdict: BankVerdict| {
            matches!(verdict, BankVerdict::Long | BankVerdict::Short | BankVerdict::TouchesPoint(_))
        };
        let layout = comes_by(outcome.verdict()).then(|| question.layout(outcome));
        // No whole shot is played off the compliant cushion.
        let played = layout.as_ref().and_then(|layout| PlayedShot::new(layout).ok());
        let Some(played) = played else { return Self::Elsewhere };
        let target = question.bank.geometry().pocket;
        let is_jaw = |event: &&Event| matches!(event.kind, EventKind::Jaw { pocket, .. } if pocket == target);
        match played.shot.ends.first() {
            Some(ball) if ball.ending == Ending::Dropped(target) => Self::Drops,
            _ if played.shot.events.iter().filter(is_jaw).count() > 1 => Self::Rattles,
            _ => Self::Elsewhere,
        }
    }
}

/// The speeds around the one with the most room that have at least a room that goes by the most.
fn roomy_speeds(
    question: &BankQuestion,
    holding: &HoldingSpeeds,
    least_room: fn(f64) -> f64,
) -> (f64, f64) {
    let BankQuestion { bank, line, launch, .. } = question;
    let best = holding.most_room;
    let least_room_m = least_room(best.clearance_m);
    let roomy = |speed_m_s: &f64| {
        let (least, most) = holding.searched_m_s;
        let played = bank.play(*line, Launch { speed_m_s: *speed_m_s, ..*launch });
        let room_m = played.ok().filter(|it| it.verdict() == BankVerdict::Holds);
        let limits = [HARD_M_S, HARDEST_M_S, most];
        let most = limits.into_iter().find(|it| best.speed_m_s <= *it).unwrap_or(most);
        (least..=most).contains(speed_m_s)
            && room_m.and_then(|it| it.clearance_m()).is_some_and(|room_m| room_m > least_room_m)
    };
    let last = |ratio: f64| {
        let next = |speed_m_s: &f64| Some(speed_m_s * ratio);
        let speeds = std::iter::successors(Some(best.speed_m_s), next);
        speeds.take_while(roomy).last().unwrap_or(best.speed_m_s)
    };
    (last(1.0 / ROOM_STEP), last(ROOM_STEP))
}
