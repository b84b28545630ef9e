//! The answer for other programs.

use super::{Facts, Question};
use crate::caution::Cautions;
use crate::command::model::{Model, State};
use crate::reason::ReasonAnswer;
use railproof_engine::bank::{Direction, HoldingInterval, HoldingSpeeds, Verdict};
use railproof_engine::motion::BallState;
use railproof_engine::rail::BankGeometry;
use railproof_engine::rule::Rule;
use serde::Serialize;

/// What `--json` prints. States are in the table frame; a part the ball never came to is null, and
/// so is a time that never comes.
#[derive(Debug, Clone, Serialize)]
pub struct BankAnswer {
    /// What was asked.
    pub inputs: Inputs,
    /// The ball as it meets the rail.
    pub at_rail: Option<AtRail>,
    /// The ball as it comes off.
    pub rebound: Option<Rebound>,
    /// Its path where it crosses the mouth line, extended past any rail it met first.
    pub arrival: Option<Arrival>,
    /// What that means for the line.
    pub verdict: VerdictAnswer,
    /// The miss as a sum over its causes.
    pub why: ReasonAnswer,
    /// What to be careful of.
    pub cautions: Cautions,
    /// Every parameter in use.
    pub model: Model,
}

/// What was asked.
#[derive(Debug, Clone, Serialize)]
pub struct Inputs {
    pub on: String,
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
    pub side_fraction: f64,
    pub aim_error_mrad: f64,
    pub launch: State,
}

/// The ball as it meets the rail.
#[derive(Debug, Clone, Serialize)]
pub struct AtRail {
    pub time_s: f64,
    pub contact_diamonds: f64,
    pub speed_m_s: f64,
    pub normal_speed_m_s: f64,
    /// Of natural roll.
    pub roll_fraction: Option<f64>,
    /// Surface speed of the side spin over the speed, positive running.
    pub side_fraction: Option<f64>,
    /// From the rail's normal.
    pub incidence_deg: f64,
    #[serde(flatten)]
    pub state: State,
}

/// The ball as it comes off the rail.
#[derive(Debug, Clone, Serialize)]
pub struct Rebound {
    pub speed_m_s: f64,
    pub restitution: f64,
    /// How long the rail held it.
    pub held_s: f64,
    /// Where it left the rail.
    pub departure_diamonds: f64,
    /// From the rail's normal, along the way it came.
    pub angle_deg: f64,
    /// Positive comes off longer than the rule implies.
    pub angle_difference_from_rule_deg: Option<f64>,
    pub rolls_after_s: f64,
    /// How much the path turns until the ball rolls, positive longer.
    pub bend_deg: f64,
    pub outside_checked_speed: bool,
    pub hop: bool,
    #[serde(flatten)]
    pub state: State,
}

/// The ball at the mouth line.
#[derive(Debug, Clone, Serialize)]
pub struct Arrival {
    /// Since it met the rail.
    pub time_s: f64,
    pub speed_m_s: f64,
    /// Square to the path from the mouth's midpoint, positive long.
    pub miss_mm: f64,
    pub miss_diamonds: f64,
    pub clearance_long_mm: f64,
    pub clearance_short_mm: f64,
    #[serde(flatten)]
    pub state: State,
}

/// What it means for the line.
#[derive(Debug, Clone, Serialize)]
pub struct VerdictAnswer {
    pub verdict: &'static str,
    pub direction: Option<&'static str>,
    pub miss_mm: Option<f64>,
    pub miss_diamonds: Option<f64>,
    pub clearance_mm: Option<f64>,
    pub ending: &'static str,
    pub ending_at: Option<&'static str>,
    pub ending_position_m: Option<[f64; 2]>,
    pub flags: Vec<&'static str>,
    pub exact_start_diamonds: Option<f64>,
    /// The speeds at which the line holds; null when it holds at none that was searched.
    pub speeds: Option<Speeds>,
    pub aim_margin_long_mrad: Option<f64>,
    pub aim_margin_short_mrad: Option<f64>,
    pub aim_margin_long_diamonds: Option<f64>,
    pub aim_margin_short_diamonds: Option<f64>,
}

/// The speeds at which the line holds.
#[derive(Debug, Clone, Serialize)]
pub struct Speeds {
    /// Every stretch that was found.
    pub holds: Vec<HoldingStretch>,
    /// The speed at which it has the most room, and that room.
    pub most_room_at_m_s: f64,
    pub most_room_mm: f64,
    pub searched_from_m_s: f64,
    pub searched_to_m_s: f64,
    /// Neighbouring speeds that were looked at differ by this factor: less can hide between them.
    pub spacing_ratio: f64,
}

/// A stretch of speeds; it ends where it was seen to break, or where the search ends.
#[derive(Debug, Clone, Serialize)]
pub struct HoldingStretch {
    pub from_m_s: f64,
    pub to_m_s: f64,
    pub breaks_below: bool,
    pub breaks_above: bool,
}

impl Speeds {
    fn of(holding: &HoldingSpeeds) -> Self {
        let stretch = |found: &HoldingInterval| HoldingStretch {
            from_m_s: found.from_m_s,
            to_m_s: found.to_m_s,
            breaks_below: found.breaks_below,
            breaks_above: found.breaks_above,
        };
        Self {
            holds: holding.intervals.iter().map(stretch).collect(),
            most_room_at_m_s: holding.most_room.speed_m_s,
            most_room_mm: 1e3 * holding.most_room.clearance_m,
            searched_from_m_s: holding.searched_m_s.0,
            searched_to_m_s: holding.searched_m_s.1,
            spacing_ratio: holding.spacing,
        }
    }
}

impl BankAnswer {
    /// The answer to a question.
    pub fn new(question: &Question, facts: &Facts) -> Self {
        let geometry = question.bank.geometry();
        Self {
            inputs: inputs(question, facts),
            at_rail: at_rail(geometry, facts),
            rebound: rebound(geometry, facts),
            arrival: arrival(geometry, facts),
            verdict: verdict(geometry, facts),
            why: ReasonAnswer::of(&facts.why),
            cautions: facts.cautions(question),
            model: Model::new(question.bank.equipment(), question.bank.model()),
        }
    }
}

fn in_table(geometry: &BankGeometry, state: &BallState) -> State {
    State::from(&BallState {
        position: geometry.to_table(state.position),
        velocity: geometry.direction_to_table(state.velocity),
        spin: geometry.spin_to_table(state.spin),
    })
}

fn inputs(question: &Question, facts: &Facts) -> Inputs {
    let geometry = question.bank.geometry();
    Inputs {
        on: question.on.clone(),
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
        side_fraction: question.launch.side,
        aim_error_mrad: 1e3 * question.launch.aim_error_rad,
        launch: in_table(geometry, &facts.outcome.launch),
    }
}

fn at_rail(geometry: &BankGeometry, facts: &Facts) -> Option<AtRail> {
    let at_rail = facts.outcome.at_rail?;
    Some(AtRail {
        time_s: at_rail.time_s,
        contact_diamonds: at_rail.contact,
        speed_m_s: at_rail.state.velocity.norm(),
        normal_speed_m_s: at_rail.state.velocity.y,
        roll_fraction: facts.roll_at_rail,
        side_fraction: facts.side_at_rail,
        incidence_deg: at_rail.incidence_rad().to_degrees(),
        state: in_table(geometry, &at_rail.state),
    })
}

fn rebound(geometry: &BankGeometry, facts: &Facts) -> Option<Rebound> {
    let incoming = facts.outcome.at_rail?.state.velocity;
    let rebound = facts.outcome.rebound?;
    let difference = facts.outcome.angle_difference_rad();
    Some(Rebound {
        speed_m_s: rebound.state.velocity.norm(),
        restitution: rebound.restitution,
        held_s: rebound.held_s,
        departure_diamonds: rebound.departure,
        angle_deg: rebound.angle_rad(incoming).to_degrees(),
        angle_difference_from_rule_deg: difference.map(f64::to_degrees),
        rolls_after_s: rebound.rolls_after_s,
        bend_deg: rebound.bend_rad(incoming).to_degrees(),
        outside_checked_speed: rebound.outside_checked_speed,
        hop: rebound.hop,
        state: in_table(geometry, &rebound.state),
    })
}

fn arrival(geometry: &BankGeometry, facts: &Facts) -> Option<Arrival> {
    let arrival = facts.outcome.arrival?;
    Some(Arrival {
        time_s: arrival.time_s,
        speed_m_s: arrival.state.velocity.norm(),
        miss_mm: 1e3 * arrival.miss_m,
        miss_diamonds: arrival.miss_m / geometry.diamond_m,
        clearance_long_mm: 1e3 * arrival.clearance_long_m,
        clearance_short_mm: 1e3 * arrival.clearance_short_m,
        state: in_table(geometry, &arrival.state),
    })
}

fn verdict(geometry: &BankGeometry, facts: &Facts) -> VerdictAnswer {
    let outcome = &facts.outcome;
    let verdict: Verdict = outcome.verdict();
    let miss_m = outcome.miss_m();
    let rebound = outcome.rebound;
    let flags = [
        ("outside-checked-speed", rebound.is_some_and(|rebound| rebound.outside_checked_speed)),
        ("hop", rebound.is_some_and(|rebound| rebound.hop)),
        ("advised-speed-flagged", facts.holding_flagged),
    ];
    let margin = facts.margin;
    VerdictAnswer {
        verdict: verdict.name(),
        direction: verdict.direction().map(|direction| match direction {
            Direction::Long => "long",
            Direction::Short => "short",
        }),
        miss_mm: miss_m.map(|miss| 1e3 * miss),
        miss_diamonds: miss_m.map(|miss| miss / geometry.diamond_m),
        clearance_mm: outcome.clearance_m().map(|clearance| 1e3 * clearance),
        ending: outcome.ending.name(),
        ending_at: outcome.ending.at(geometry),
        ending_position_m: outcome
            .ending_place()
            .map(|place| geometry.to_table(place))
            .map(|place| [place.x, place.y]),
        flags: flags.into_iter().filter(|(_, set)| *set).map(|(name, _)| name).collect(),
        exact_start_diamonds: facts.exact_start,
        speeds: facts.holding.as_ref().map(Speeds::of),
        aim_margin_long_mrad: margin.map(|margin| 1e3 * margin.long_rad),
        aim_margin_short_mrad: margin.map(|margin| 1e3 * margin.short_rad),
        aim_margin_long_diamonds: margin.map(|margin| margin.long_diamonds),
        aim_margin_short_diamonds: margin.map(|margin| margin.short_diamonds),
    }
}
