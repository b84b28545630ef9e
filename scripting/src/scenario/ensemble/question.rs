//! What is asked of all the tables that one could be: a grid with its rules, as set-ups.

use super::cost;
use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use crate::lua::place::{self, Placed};
use crate::scenario::compare::{any_banks_argument, rules, rules_fit};
use crate::scenario::grid::Banks;
use crate::scenario::rule_object::ScriptRule;
use crate::scenario::session::{Session, here};
use crate::telling::AxisText;
use crate::telling::caution::Cautions;
use mlua::{Lua, Value};
use railproof_engine::column::SetUp;
use railproof_engine::equipment::Equipment;
use railproof_engine::rail::Line;
use railproof_engine::rule::{NamedRule, Rule};
use railproof_engine::sweep::{Axis, Input, Plan, Values};
use railproof_engine::units::{Speed, SpeedWord};
use std::rc::Rc;

/// Inputs that a table decides itself.
const MEMBERS_OWN: &str = "each of these tables has its own";

/// A grid and the rules that aim it.
pub struct EnsembleQuestion {
    pub known: Rc<MeasuredTable>,
    pub banks: Banks,
    pub rules: Vec<Rc<ScriptRule>>,
}

impl EnsembleQuestion {
    /// Reads the arguments of a call: a grid, and rules.
    pub fn read(
        lua: &Lua,
        call: &'static str,
        known: &Rc<MeasuredTable>,
        arguments: &[Value],
    ) -> Result<Self, Fault> {
        let banks = any_banks_argument(lua, call, arguments.first())?;
        let rules = rules(lua, call, arguments.get(1..).unwrap_or_default())?;
        rules_fit(lua, call, &banks.0.plan, rules.len())?;
        Self { known: Rc::clone(known), banks, rules }
            .checked(|fault| fault.placed(here(lua, call)))
    }

    /// Refuses inputs that each table has for itself.
    pub fn checked(self, placed: impl Fn(Fault) -> Fault) -> Result<Self, Fault> {
        let middle = self.known.middle();
        let axes = self.banks.0.plan.axes();
        let Some(own) = axes.iter().find(|axis| !is_of(axis, &middle)) else { return Ok(self) };
        let message = format!("`{}` can't be chosen here: {MEMBERS_OWN}", own.input.name());
        Err(placed(Fault::bad_input(message).with_hint(
            "in the grid, write equipment = mine, where mine is the table that you ask",
        )))
    }

    /// The rules with their names.
    pub fn named(&self) -> Vec<NamedRule> {
        self.rules.iter().map(|rule| rule.named.clone()).collect()
    }

    /// The grid's banks by each rule in turn, none of them aimed where `aimed` is false; `each` is the banks
    /// that one takes on one table. Refuses too many, and tells of many.
    pub fn set_ups(
        &self,
        lua: &Lua,
        call: &'static str,
        each: usize,
        aimed: bool,
    ) -> Result<Vec<SetUp>, Fault> {
        let complain = |message: String| Fault::bad_input(message).placed(here(lua, call));
        let plan = &self.banks.0.plan;
        let ways: Vec<Option<&Rule>> = if self.rules.is_empty() {
            vec![None]
        } else {
            self.rules.iter().map(|rule| Some(&rule.named.rule)).collect()
        };
        let points = plan.checked_len(ways.len()).map_err(|error| complain(error.to_string()))?;
        cost::check(&self.known, (points * ways.len(), each), complain)?;
        let of = (plan, self.banks.0.texts.as_slice());
        let set_ups = ways.into_iter().flat_map(|rule| {
            (0..points).map(move |point| set_up(of, &plan.digits(point), None, (rule, aimed)))
        });
        let set_ups: Vec<SetUp> = set_ups
            .collect::<Result<_, _>>()
            .map_err(|message| Fault::bad_input(message).placed(place::argument(lua, call, 2)))?;
        if let Ok(session) = Session::of(lua) {
            session.advise(&Cautions::of_part(plan, |_, _| true));
            cost::tell(&session, &self.known, &set_ups, each);
        }
        Ok(set_ups)
    }
}

/// True for an axis that leaves each table what is its own: the grid plays on the middle table as it is.
fn is_of(axis: &Axis, middle: &Equipment) -> bool {
    match (axis.input, &axis.values) {
        (Input::Equipment, Values::Equipment(tables)) => tables.iter().all(|table| table == middle),
        (Input::RailModel, Values::Models(models)) => {
            models.iter().all(|model| *model == middle.cushion.rail_model)
        }
        (Input::Number(_), _) => false,
        _ => true,
    }
}

/// Inputs whose value can be any on a line: `set_up` puts it in.
pub const ALONG: [Input; 7] = [
    Input::Contact,
    Input::Start,
    Input::OffRail,
    Input::Speed,
    Input::Roll,
    Input::RunningSide,
    Input::AimError,
];

/// The speed of a point as it is meant of any table: a word is another speed for every player, and a lag on every cloth.
fn speed_of(plan: &Plan, texts: &[AxisText], digits: &[usize]) -> Option<Speed> {
    if let Some(lengths) = plan.number(Input::Lag, digits) {
        return Some(Speed::TableLengths(lengths));
    }
    let m_s = plan.number(Input::Speed, digits)?;
    let spoken = texts.iter().find(|text| text.input == Input::Speed && text.by_word())?;
    let at = spoken.amounts.iter().position(|amount| *amount == m_s)?;
    let name = (*spoken.words.get(at)?)?;
    SpeedWord::ALL.into_iter().find(|word| word.name() == name).map(Speed::Word)
}

/// The bank of a point, with another value of one input.
///
/// # Errors
/// A message where there is no such bank.
pub fn set_up(
    (plan, texts): (&Plan, &[AxisText]),
    digits: &[usize],
    instead: Option<(Input, f64)>,
    (rule, aimed): (Option<&Rule>, bool),
) -> Result<SetUp, String> {
    let bank = plan.bank(digits).map_err(|error| error.to_string())?;
    let launch = plan.launch(digits, &bank);
    let geometry = bank.geometry();
    let value = |input: Input, otherwise: f64| match instead {
        Some((put_in, value)) if put_in == input => value,
        _ => otherwise,
    };
    let contact = value(Input::Contact, plan.number(Input::Contact, digits).unwrap_or_default());
    let start = plan.number(Input::Start, digits).map(|start| value(Input::Start, start));
    let line = match (start, rule) {
        (Some(start), _) => Line::new(contact, start),
        (None, Some(rule)) => rule
            .line_for_contact(contact, geometry)
            .map_err(|error| format!("the rule gives no start number: {error}"))?,
        (None, None) if !aimed => Line::new(contact, contact),
        (None, None) => return Err("a bank needs a start number or a rule".to_owned()),
    };
    let launch = railproof_engine::bank::Launch {
        off_rail_m: value(Input::OffRail, launch.off_rail_m),
        speed_m_s: value(Input::Speed, launch.speed_m_s),
        roll: value(Input::Roll, launch.roll),
        side: value(Input::RunningSide, launch.side),
        aim_error_rad: value(Input::AimError, launch.aim_error_rad),
    }
    .validated(geometry.span_m)
    .map_err(|error| error.to_string())?;
    let spoken = || speed_of(plan, texts, digits);
    let put_in = instead.is_some_and(|(put_in, _)| matches!(put_in, Input::Speed | Input::Lag));
    let speed = if put_in { None } else { spoken() };
    Ok(SetUp {
        roll: launch.roll,
        side: launch.side,
        aim_error_rad: launch.aim_error_rad,
        ..SetUp::stun(
            geometry.rail,
            geometry.pocket,
            line,
            launch.off_rail_m,
            speed.unwrap_or(Speed::MetresPerSecond(launch.speed_m_s)),
        )
    })
}
