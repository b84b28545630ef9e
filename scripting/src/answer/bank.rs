//! The answer for other programs.

use super::model::{ModelAnswer, StateAnswer};
use super::reason::ReasonAnswer;
use crate::playing::{BankFindings, BankQuestion};
use crate::telling::caution::Cautions;
use crate::telling::{bank_sentences, long_or_short};
use railproof_engine::bank::{HoldingInterval, HoldingSpeeds, Verdict};
use railproof_engine::motion::BallState;
use railproof_engine::rail::BankGeometry;
use railproof_engine::rule::Rule;
use serde::Serialize;

/// What `--json` prints. States are in the table frame; a part the ball never came to is null, and
/// so is a time that never comes.
#[derive(Debug, Clone, Serialize)]
pub struct BankAnswer {
    /// What was asked.
    pub inputs: BankInputs,
    /// The ball as it meets the rail.
    pub at_rail: Option<AtRailAnswer>,
    /// The ball as it comes off.
    pub rebound: Option<ReboundAnswer>,
    /// Its path where it crosses the mouth line, extended past any rail it met first.
    pub arrival: Option<MouthAnswer>,
    /// What became of it, in sentences.
    pub sentence: String,
    /// What that means for the line.
    pub verdict: VerdictAnswer,
    /// The miss as a sum over its causes.
    pub why: ReasonAnswer,
    /// What to be careful of.
    pub cautions: Cautions,
    /// Every parameter in use.
    pub model: ModelAnswer,
}

/// What was asked.
#[derive(Debug, Clone, Serialize)]
pub struct BankInputs {
    pub equipment: String,
    pub cushion: Option<String>,
    pub rail: &'static str,
    pub pocket: &'static str,
    pub rule: Option<String>,
    /// Groove reading, like the start.
    pub contact_diamonds: f64,
    pub start_diamonds: f64,
    pub diamond_m: f64,
    pub off_rail_m: f64,
    pub speed_m_s: f64,
    pub roll_fraction: f64,
    pub running_side: f64,
    pub aim_error_rad: f64,
    pub launch: StateAnswer,
}

/// The ball as it meets the rail.
#[derive(Debug, Clone, Serialize)]
pub struct AtRailAnswer {
    pub time_s: f64,
    pub contact_diamonds: f64,
    pub speed_m_s: f64,
    pub normal_speed_m_s: f64,
    /// Of natural roll.
    pub roll_fraction: Option<f64>,
    /// Surface speed of the side spin over the speed, positive running.
    pub running_side: Option<f64>,
    /// From the rail's normal.
    pub incidence_rad: f64,
    #[serde(flatten)]
    pub state: StateAnswer,
}

/// The ball as it comes off the rail.
#[derive(Debug, Clone, Serialize)]
pub struct ReboundAnswer {
    pub speed_m_s: f64,
    pub restitution: f64,
    /// How long the rail held it.
    pub held_s: f64,
    /// Where it left the rail.
    pub departure_diamonds: f64,
    /// From the rail's normal, along the way it came.
    pub angle_rad: f64,
    /// Positive comes off longer than the rule implies.
    pub angle_difference_rad: Option<f64>,
    pub rolls_after_s: f64,
    /// How much the path turns until the ball rolls, positive longer.
    pub bend_rad: f64,
    pub outside_checked_speed: bool,
    pub hop: bool,
    #[serde(flatten)]
    pub state: StateAnswer,
}

/// The ball at the mouth line.
#[derive(Debug, Clone, Serialize)]
pub struct MouthAnswer {
    /// Since it met the rail.
    pub time_s: f64,
    pub speed_m_s: f64,
    /// Square to the path from the mouth's midpoint, positive long.
    pub miss_m: f64,
    pub miss_diamonds: f64,
    pub clearance_long_m: f64,
    pub clearance_short_m: f64,
    #[serde(flatten)]
    pub state: StateAnswer,
}

/// What it means for the line.
#[derive(Debug, Clone, Serialize)]
pub struct VerdictAnswer {
    pub verdict: &'static str,
    pub long_or_short: Option<&'static str>,
    pub miss_m: Option<f64>,
    pub miss_diamonds: Option<f64>,
    pub clearance_m: Option<f64>,
    pub ending: &'static str,
    pub ending_at: Option<&'static str>,
    pub ending_position_m: Option<[f64; 2]>,
    pub flags: Vec<&'static str>,
    pub exact_start_diamonds: Option<f64>,
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
    /// The speed at which it has the most room, and that room.
    pub most_room_at_m_s: f64,
    pub most_room_m: f64,
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
            searched_from_m_s: holding.searched_m_s.0,
            searched_to_m_s: holding.searched_m_s.1,
            spacing_ratio: holding.spacing,
        }
    }
}

impl BankAnswer {
    /// The answer to a question.
    pub fn new(question: &BankQuestion, findings: &BankFindings) -> Self {
        let geometry = question.bank.geometry();
        Self {
            inputs: inputs(question, findings),
            at_rail: at_rail(geometry, findings),
            rebound: rebound(geometry, findings),
            arrival: arrival(geometry, findings),
            sentence: bank_sentences(question, findings),
            verdict: verdict(geometry, findings),
            why: ReasonAnswer::of(&findings.why),
            cautions: findings.cautions(question),
            model: ModelAnswer::new(question.bank.equipment(), question.bank.model()),
        }
    }
}

fn in_table(geometry: &BankGeometry, state: &BallState) -> StateAnswer {
    StateAnswer::from(&BallState {
        position: geometry.to_table(state.position),
        velocity: geometry.direction_to_table(state.velocity),
        spin: geometry.spin_to_table(state.spin),
    })
}

fn inputs(question: &BankQuestion, findings: &BankFindings) -> BankInputs {
    let geometry = question.bank.geometry();
    BankInputs {
        equipment: question.equipment.clone(),
        cushion: question.cushion.clone(),
        rail: geometry.rail.name(),
        pocket: geometry.pocket.name(),
        rule: question.rule.as_ref().map(Rule::name),
        contact_diamonds: question.line.contact,
        start_diamonds: question.line.start,
        diamond_m: geometry.diamond_m,
        off_rail_m: question.launch.off_rail_m,
        speed_m_s: question.launch.speed_m_s,
        roll_fraction: question.launch.roll,
        running_side: question.launch.side,
        aim_error_rad: question.launch.aim_error_rad,
        launch: in_table(geometry, &findings.outcome.launch),
    }
}

fn at_rail(geometry: &BankGeometry, findings: &BankFindings) -> Option<AtRailAnswer> {
    let at_rail = findings.outcome.at_rail?;
    Some(AtRailAnswer {
        time_s: at_rail.time_s,
        contact_diamonds: at_rail.contact,
        speed_m_s: at_rail.state.velocity.norm(),
        normal_speed_m_s: at_rail.state.velocity.y,
        roll_fraction: findings.roll_at_rail,
        running_side: findings.side_at_rail,
        incidence_rad: at_rail.incidence_rad(),
        state: in_table(geometry, &at_rail.state),
    })
}

fn rebound(geometry: &BankGeometry, findings: &BankFindings) -> Option<ReboundAnswer> {
    let incoming = findings.outcome.at_rail?.state.velocity;
    let rebound = findings.outcome.rebound?;
    let difference = findings.outcome.angle_difference_rad();
    Some(ReboundAnswer {
        speed_m_s: rebound.state.velocity.norm(),
        restitution: rebound.restitution,
        held_s: rebound.held_s,
        departure_diamonds: rebound.departure,
        angle_rad: rebound.angle_rad(incoming),
        angle_difference_rad: difference,
        rolls_after_s: rebound.rolls_after_s,
        bend_rad: rebound.bend_rad(incoming),
        outside_checked_speed: rebound.outside_checked_speed,
        hop: rebound.hop,
        state: in_table(geometry, &rebound.state),
    })
}

fn arrival(geometry: &BankGeometry, findings: &BankFindings) -> Option<MouthAnswer> {
    let arrival = findings.outcome.arrival?;
    Some(MouthAnswer {
        time_s: arrival.time_s,
        speed_m_s: arrival.state.velocity.norm(),
        miss_m: arrival.miss_m,
        miss_diamonds: arrival.miss_m / geometry.diamond_m,
        clearance_long_m: arrival.clearance_long_m,
        clearance_short_m: arrival.clearance_short_m,
        state: in_table(geometry, &arrival.state),
    })
}

fn verdict(geometry: &BankGeometry, findings: &BankFindings) -> VerdictAnswer {
    let outcome = &findings.outcome;
    let verdict: Verdict = outcome.verdict();
    let miss_m = outcome.miss_m();
    let rebound = outcome.rebound;
    let flags = [
        ("outside-checked-speed", rebound.is_some_and(|rebound| rebound.outside_checked_speed)),
        ("hop", rebound.is_some_and(|rebound| rebound.hop)),
        ("advised-speed-flagged", findings.holding_flagged),
    ];
    let margin = findings.margin;
    VerdictAnswer {
        verdict: verdict.name(),
        long_or_short: verdict.direction().map(long_or_short),
        miss_m,
        miss_diamonds: miss_m.map(|miss| miss / geometry.diamond_m),
        clearance_m: outcome.clearance_m(),
        ending: outcome.ending.name(),
        ending_at: outcome.ending.at(geometry),
        ending_position_m: outcome
            .ending_place()
            .map(|place| geometry.to_table(place))
            .map(|place| [place.x, place.y]),
        flags: flags.into_iter().filter(|(_, set)| *set).map(|(name, _)| name).collect(),
        exact_start_diamonds: findings.exact_start,
        speeds: findings.holding.as_ref().map(SpeedsAnswer::of),
        aim_margin_long_rad: margin.map(|margin| margin.long_rad),
        aim_margin_short_rad: margin.map(|margin| margin.short_rad),
        aim_margin_long_diamonds: margin.map(|margin| margin.long_diamonds),
        aim_margin_short_diamonds: margin.map(|margin| margin.short_diamonds),
    }
}
