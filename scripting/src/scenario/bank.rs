//! One bank, and the questions that run it backwards: `bank`, `least_speed`, `aim_margin`.

use super::grid::{contradiction, read_plan};
use super::inputs::{Keys, SpeedOn, input_keys};
use super::members;
use super::outcome::outcome_table;
use super::rule_answers::failed;
use super::rule_object::RuleObject;
use super::session::Session;
use super::table_checks::{check_tables, placed_at_key};
use crate::fault::Fault;
use crate::lua::options::{Options, object};
use crate::lua::place::Placed;
use crate::lua::quantity::Quantity;
use crate::telling::AxisText;
use crate::telling::caution::Cautions;
use mlua::{Lua, Table, Value};
use railproof_engine::bank::{
    Bank, Launch, NoAnswer, SEARCHED_SPEEDS_M_S, aim_margin, holding_speeds,
};
use railproof_engine::rail::Line;
use railproof_engine::rule::Rule;
use railproof_engine::sweep::{Input, Plan};

static KEYS: Keys = Keys::new(|| input_keys(&["rule"]));
static SPEED_KEYS: Keys = Keys::new(|| input_keys(&["rule", "from", "to"]));

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set("bank", lua.create_function(bank)?)?;
    into.raw_set("least_speed", lua.create_function(least_speed)?)?;
    into.raw_set("aim_margin", lua.create_function(margin)?)
}

/// One bank with the words in which it was asked for.
pub(super) struct SingleBank {
    pub(super) bank: Bank,
    pub(super) line: Line,
    pub(super) launch: Launch,
    /// The rule that gave the start.
    pub(super) rule: Option<Rule>,
    pub(super) plan: Plan,
    pub(super) texts: Vec<AxisText>,
}

/// The one bank that the options describe.
pub(super) fn single(options: &Options) -> Result<SingleBank, Fault> {
    let (plan, texts) = read_plan(options)?;
    for (axis, text) in plan.axes().iter().zip(&texts) {
        if axis.values.len() > 1 {
            let key = text.name();
            let key = if options.has(key) { key } else { "speed" };
            return Err(options
                .complain(key, format!("one bank needs one `{key}`, not {}", axis.values.len()))
                .with_hint("lists and spans go in grid { … }"));
        }
    }
    SingleBank::of(options, plan, texts, || {
        Err(options.complain_of_call("a bank needs a `start` number or a `rule`"))
    })
}

impl SingleBank {
    /// The one bank of a plan; `other_rule` gives the rule where neither it nor a start is there.
    pub(super) fn of(
        options: &Options,
        plan: Plan,
        texts: Vec<AxisText>,
        other_rule: impl FnOnce() -> Result<Rule, Fault>,
    ) -> Result<Self, Fault> {
        contradiction(options, "start", "rule")?;
        check_tables(options, &plan)?;
        let digits = vec![0; plan.axes().len()];
        let bank = plan.bank(&digits).map_err(|error| placed_at_key(options, &error))?;
        let launch = plan.launch(&digits, &bank);
        let contact = plan.number(Input::Contact, &digits).unwrap_or_default();
        let rule = options.optional("rule", object::<RuleObject>("a rule"))?;
        if let Some(start) = plan.number(Input::Start, &digits) {
            let line = Line::new(contact, start);
            return Ok(Self { bank, line, launch, rule: None, plan, texts });
        }
        let (line, rule) = match &rule {
            Some(rule) => {
                let line = rule.0.named.rule.line_for_contact(contact, bank.geometry());
                let line = line.map_err(|error| {
                    failed(&rule.0, &error).placed(options.complain("rule", "").place)
                })?;
                (line, rule.0.named.rule.clone())
            }
            None => {
                let rule = other_rule()?;
                let line = rule.line_for_contact(contact, bank.geometry());
                (line.map_err(|error| options.complain_of_call(error.to_string()))?, rule)
            }
        };
        Ok(Self { bank, line, launch, rule: Some(rule), plan, texts })
    }
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn bank(lua: &Lua, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "bank", &argument, &KEYS)?;
    let SingleBank { bank, line, launch, .. } = single(&options)?;
    let session = Session::of(lua)?;
    let outcome = session
        .work(lua, 1, |_| bank.play(line, launch))?
        .map_err(|error| options.complain_of_call(error.to_string()))?;
    session.count_bank();
    session.advise(&Cautions::of_bank(&bank, launch.speed_m_s, &outcome));
    outcome_table(lua, &bank, line, &outcome)
}

/// The answer of `least_speed`: the least speed, the end of its stretch, cautions, the most room.
type Speeds = (Quantity, Option<Quantity>, Vec<String>, Quantity);

/// `least_speed { … }`: the least speed at which it holds, where it breaks again, if it does, what to
/// be careful of, and the speed with the most room.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn least_speed(lua: &Lua, argument: Value) -> mlua::Result<Speeds> {
    let argument = with_some_speed(lua, &argument)?;
    let options = Options::open(lua, "least_speed", &argument, &SPEED_KEYS)?;
    let SingleBank { bank, line, launch, .. } = single(&options)?;
    let from = options.optional("from", SpeedOn(bank.equipment()))?;
    let to = options.optional("to", SpeedOn(bank.equipment()))?;
    let (slowest, fastest) = SEARCHED_SPEEDS_M_S;
    let range = (from.unwrap_or(slowest), to.unwrap_or(fastest));
    if range.0 >= range.1 {
        let key = if to.is_some() { "to" } else { "from" };
        return Err(options.complain(key, "`from` must be below `to`").into());
    }
    let answer = Session::of(lua)?.work(lua, 1, |_| holding_speeds(&bank, line, launch, range))?;
    let found = answer.map_err(|why| no_answer(&options, &why))?;
    let speed = |m_s: f64| Quantity::new(m_s, "m/s");
    let (least_m_s, best_m_s) = (found.least_m_s(), found.most_room.speed_m_s);
    let until = found.until_m_s().map(speed).transpose()?;
    let cautions =
        Cautions::of_speed(found.greatest_m_s()).and(&Cautions::of_table(&bank.equipment().table));
    Session::of(lua)?.advise(&cautions);
    Ok((speed(least_m_s)?, until, cautions.lines(), speed(best_m_s)?))
}

/// The speed is what is asked for; the engine's plan still wants one.
fn with_some_speed(lua: &Lua, argument: &Value) -> mlua::Result<Value> {
    let Value::Table(given) = argument else { return Ok(argument.clone()) };
    let options = Options::open(lua, "least_speed", argument, &SPEED_KEYS)?;
    for key in ["speed", "lag"] {
        if options.has(key) {
            return Err(options
                .complain(key, format!("least_speed finds the speed; leave out `{key}`"))
                .with_hint("`from` and `to` bound the search")
                .into());
        }
    }
    let copy = lua.create_table()?;
    for pair in given.pairs::<Value, Value>() {
        let (key, value) = pair?;
        copy.raw_set(key, value)?;
    }
    copy.raw_set("speed", Quantity::new(1.0, "m/s")?)?;
    Ok(Value::Table(copy))
}

const MARGIN: &[&str] = &["long", "short", "long_diamonds", "short_diamonds"];

/// `aim_margin { … }`: the angles by which the line may be turned to either side while it holds.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn margin(lua: &Lua, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, "aim_margin", &argument, &KEYS)?;
    let SingleBank { bank, line, launch, .. } = single(&options)?;
    Session::of(lua)?.advise(&Cautions::of_table(&bank.equipment().table));
    let answer = Session::of(lua)?.work(lua, 1, |_| aim_margin(&bank, line, launch))?;
    let found = answer.map_err(|why| no_answer(&options, &why))?;
    let table = lua.create_table()?;
    table.raw_set("long", Quantity::new(1e3 * found.long_rad, "mrad")?)?;
    table.raw_set("short", Quantity::new(1e3 * found.short_rad, "mrad")?)?;
    table.raw_set("long_diamonds", found.long_diamonds)?;
    table.raw_set("short_diamonds", found.short_diamonds)?;
    members::seal(lua, table, "an aim margin", MARGIN)
}

fn no_answer(options: &Options, why: &NoAnswer) -> Fault {
    let fault = options.complain_of_call(why.to_string());
    match why {
        NoAnswer::NeverHolds { .. } => {
            fault.with_hint("widen `from` and `to`, or choose another line")
        }
        _ => fault,
    }
}
