//! The answer for other programs.

use super::known::KnownAnswer;
use super::measures::measures;
use super::model::{ModelAnswer, StateAnswer};
use super::player::PlayerAnswer;
use super::reason::ReasonAnswer;
use crate::playing::{BankFindings, BankQuestion};
use crate::telling::caution::Cautions;
use crate::telling::{Detail, bank_sentences};
use railproof_engine::bank::{HoldingInterval, HoldingSpeeds, Outcome};
use railproof_engine::motion::BallState;
use railproof_engine::rail::{BankGeometry, Reading};
use railproof_engine::results::{BANK_MEASURES, BankResult, ResultPart};
use railproof_engine::rule::Rule;
use railproof_engine::sweep::Input;
use serde::Serialize;
use serde_json::{Map, Value};

/// The answer that `--json` prints. States are in the table frame; a part the ball never came to is null,
/// and so is a time that never comes.
#[derive(Debug, Clone, Serialize)]
pub struct BankAnswer {
    /// The question.
    pub inputs: BankInputs,
    /// The ball as it meets the rail.
    pub at_rail: Option<PartAnswer>,
    /// The ball as it comes off.
    pub rebound: Option<PartAnswer>,
    /// Its path where it crosses the mouth line, extended past any rail it met first.
    pub arrival: Option<PartAnswer>,
    /// The outcome in sentences.
    pub sentence: String,
    /// The same bank on every table that measured banks allow; null where none were measured.
    pub known_table: Option<KnownAnswer>,
    /// How often the player makes it.
    pub player: Option<PlayerAnswer>,
    /// The verdict on the line.
    pub verdict: VerdictAnswer,
    /// The miss as a sum over its causes.
    pub why: ReasonAnswer,
    /// The cautions of the answer.
    pub cautions: Cautions,
    /// Every parameter in use.
    pub model: ModelAnswer,
}

/// The question.
#[derive(Debug, Clone, Serialize)]
pub struct BankInputs {
    /// The inputs by the names of their columns.
    #[serde(flatten)]
    pub inputs: Map<String, Value>,
    pub cushion: Option<String>,
    pub rule: Option<String>,
    /// The rail, pocket and model that these came to.
    #[serde(flatten)]
    pub table: Map<String, Value>,
    pub diamond_m: f64,
    /// The line as it is read through the diamonds.
    pub contact_sight_diamonds: f64,
    pub start_sight_diamonds: f64,
    pub launch: StateAnswer,
}

/// The measures of a part of the bank, and the ball's state there.
#[derive(Debug, Clone, Serialize)]
pub struct PartAnswer {
    #[serde(flatten)]
    pub measures: Map<String, Value>,
    #[serde(flatten)]
    pub state: StateAnswer,
}

/// The verdict on the line.
#[derive(Debug, Clone, Serialize)]
pub struct VerdictAnswer {
    #[serde(flatten)]
    pub measures: Map<String, Value>,
    pub flags: Vec<&'static str>,
    pub exact_start_diamonds: Option<f64>,
    /// The line, groove reading, for a ball off the rail that stays where it lies, where the one asked for does not hold.
    pub contact_as_it_lies_diamonds: Option<f64>,
    pub start_as_it_lies_diamonds: Option<f64>,
    /// The least and the greatest start around it with which the contact holds.
    pub least_start_diamonds: Option<f64>,
    pub greatest_start_diamonds: Option<f64>,
    /// The speeds at which the line holds; null when it holds at none that was searched.
    pub speeds: Option<SpeedsAnswer>,
    pub aim_margin_long_rad: Option<f64>,
    pub aim_margin_short_rad: Option<f64>,
    pub aim_margin_long_diamonds: Option<f64>,
    pub aim_margin_short_diamonds: Option<f64>,
}

/// The speeds at which the line holds.
#[derive(Debug, Clone, Serialize)]
pub struct SpeedsAnswer {
    /// Every stretch that was found.
    pub holds: Vec<StretchAnswer>,
    /// The speed at which it has the most room, below that of a hard hit where it holds there; and that room.
    pub most_room_at_m_s: f64,
    pub most_room_m: f64,
    /// From here on the rail model is less sure of the line; null where it is sure everywhere.
    pub less_sure_from_m_s: Option<f64>,
    pub searched_from_m_s: f64,
    pub searched_to_m_s: f64,
    /// Neighbouring speeds that were looked at differ by this factor: less can hide between them.
    pub spacing_ratio: f64,
}

/// A stretch of speeds; it ends where it was seen to break, or where the search ends.
#[derive(Debug, Clone, Serialize)]
pub struct StretchAnswer {
    pub from_m_s: f64,
    pub to_m_s: f64,
    pub breaks_below: bool,
    pub breaks_above: bool,
}

impl SpeedsAnswer {
    fn of(holding: &HoldingSpeeds) -> Self {
        let stretch = |found: &HoldingInterval| StretchAnswer {
            from_m_s: found.from_m_s,
            to_m_s: found.to_m_s,
            breaks_below: found.breaks_below,
            breaks_above: found.breaks_above,
        };
        Self {
            holds: holding.intervals.iter().map(stretch).collect(),
            most_room_at_m_s: holding.most_room.speed_m_s,
            most_room_m: holding.most_room.clearance_m,
            less_sure_from_m_s: holding.less_sure_from_m_s,
            searched_from_m_s: holding.searched_m_s.0,
            searched_to_m_s: holding.searched_m_s.1,
            spacing_ratio: holding.spacing,
        }
    }
}

impl BankAnswer {
    /// The answer to a question.
    pub fn new(question: &BankQuestion, findings: &BankFindings) -> Self {
        let outcome = &findings.outcome;
        let result = BankResult { bank: &question.bank, line: question.line, outcome };
        let Outcome { at_rail, rebound, arrival, .. } = outcome;
        Self {
            inputs: inputs(question, &result),
            at_rail: part(&result, ResultPart::AtRail, at_rail.as_ref().map(|at| &at.state)),
            rebound: part(&result, ResultPart::Rebound, rebound.as_ref().map(|off| &off.state)),
            arrival: part(&result, ResultPart::Arrival, arrival.as_ref().map(|at| &at.state)),
            sentence: bank_sentences(question, findings, Detail::Full),
            known_table: KnownAnswer::of(question, findings),
            player: PlayerAnswer::of(question, findings),
            verdict: verdict(&result, findings),
            why: ReasonAnswer::of(&findings.why),
            cautions: findings.cautions(question),
            model: ModelAnswer::new(question.bank.equipment(), question.bank.model()),
        }
    }
}

fn in_table(geometry: &BankGeometry, state: &BallState) -> StateAnswer {
    StateAnswer::from(&geometry.state_to_table(state))
}

fn inputs(question: &BankQuestion, result: &BankResult<'_>) -> BankInputs {
    let BankQuestion { bank, line, launch, .. } = question;
    let inputs: [(Input, Value); 10] = [
        (Input::Equipment, bank.equipment().name.as_str().into()),
        (Input::Rail, question.rail.name().into()),
        (Input::Pocket, question.pocket.name().into()),
        (Input::Contact, line.contact.into()),
        (Input::Start, line.start.into()),
        (Input::OffRail, launch.off_rail_m.into()),
        (Input::Speed, launch.speed_m_s.into()),
        (Input::Roll, launch.roll.into()),
        (Input::RunningSide, launch.side.into()),
        (Input::AimError, launch.aim_error_rad.into()),
    ];
    let sights = line.read_as(Reading::Sight, bank.geometry());
    BankInputs {
        contact_sight_diamonds: sights.contact,
        start_sight_diamonds: sights.start,
        inputs: inputs.into_iter().map(|(input, value)| (input.column(), value)).collect(),
        cushion: question.cushion.clone(),
        rule: question.rule.as_ref().map(Rule::name),
        table: measures(BANK_MEASURES, result, ResultPart::Table),
        diamond_m: bank.geometry().diamond_m,
        launch: in_table(bank.geometry(), &result.outcome.launch),
    }
}

/// A part of the bank, where the ball came to it.
fn part(
    result: &BankResult<'_>,
    part: ResultPart,
    state: Option<&BallState>,
) -> Option<PartAnswer> {
    let state = in_table(result.bank.geometry(), state?);
    Some(PartAnswer { measures: measures(BANK_MEASURES, result, part), state })
}

fn verdict(result: &BankResult<'_>, findings: &BankFindings) -> VerdictAnswer {
    let rebound = result.outcome.rebound;
    let flags = [
        ("outside-checked-speed", rebound.is_some_and(|rebound| rebound.outside_checked_speed)),
        ("hop", rebound.is_some_and(|rebound| rebound.hop)),
        ("advised-speed-flagged", findings.holding_flagged),
    ];
    let margin = findings.margin;
    VerdictAnswer {
        measures: measures(BANK_MEASURES, result, ResultPart::Whole),
        flags: flags.into_iter().filter(|(_, set)| *set).map(|(name, _)| name).collect(),
        exact_start_diamonds: findings.exact_start,
        contact_as_it_lies_diamonds: findings.as_it_lies.map(|line| line.contact),
        start_as_it_lies_diamonds: findings.as_it_lies.map(|line| line.start),
        least_start_diamonds: findings.holding_starts.map(|(least, _)| least),
        greatest_start_diamonds: findings.holding_starts.map(|(_, greatest)| greatest),
        speeds: findings.holding.as_ref().map(SpeedsAnswer::of),
        aim_margin_long_rad: margin.map(|margin| margin.long_rad),
        aim_margin_short_rad: margin.map(|margin| margin.short_rad),
        aim_margin_long_diamonds: margin.map(|margin| margin.long_diamonds),
        aim_margin_short_diamonds: margin.map(|margin| margin.short_diamonds),
    }
}
