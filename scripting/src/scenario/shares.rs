//! `mine:shares(banks, rule)`: on how many of the tables that yours could be each bank holds.

use super::compare::{banks_argument, rules, rules_fit};
use super::draw;
use super::left_out::{add_picture, add_selection};
use super::members;
use super::point_selection::PointSelection;
use super::selection::narrowed;
use super::session::{Session, fault_here, here};
use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use crate::lua::place::{self, Placed};
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value, Variadic};
use railproof_engine::ask::{Agreement, MemberShare, holding_shares};
use railproof_engine::column::SetUp;
use railproof_engine::equipment::Equipment;
use railproof_engine::rail::Line;
use railproof_engine::rule::Rule;
use railproof_engine::sweep::{Axis, Input, Plan, Values};
use railproof_engine::units::Speed;
use std::rc::Rc;

const CALL: &str = "shares";
/// The most landings that are held together: a point on a member's table each.
const MOST_LANDINGS: usize = 8_000_000;
/// Inputs that a member decides itself.
const MEMBERS_OWN: &str = "each table has its own";

/// The share of tables on which each bank of a sweep holds, or some of them.
#[derive(Debug, Clone)]
pub struct Shares {
    pub known: Rc<MeasuredTable>,
    pub found: Rc<Vec<MemberShare>>,
    pub picked: PointSelection,
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn shares(
    lua: &Lua,
    known: &Rc<MeasuredTable>,
    arguments: Variadic<Value>,
) -> mlua::Result<Shares> {
    let banks = banks_argument(lua, CALL, arguments.first())?;
    let plan = &banks.0.plan;
    let rules = rules(lua, CALL, arguments.get(1..).unwrap_or_default())?;
    rules_fit(lua, CALL, plan, rules.len())?;
    let complain = |message: String| Fault::bad_input(message).placed(here(lua, CALL));
    if rules.len() > 1 {
        return Err(complain("shares takes one rule".into())
            .with_hint("ask for the shares of each rule in turn")
            .into());
    }
    let middle = known.middle();
    if let Some(own) = plan.axes().iter().find(|axis| !is_of(axis, &middle)) {
        return Err(complain(format!(
            "`{}` can't be chosen here: {MEMBERS_OWN}",
            own.input.name()
        ))
        .with_hint("the grid takes the measured table's own: equipment = mine.middle")
        .into());
    }
    let points = plan.checked_len(1).map_err(|error| complain(error.to_string()))?;
    if points * known.ensemble.len() > MOST_LANDINGS {
        let most = MOST_LANDINGS / known.ensemble.len();
        return Err(complain(format!(
            "{points} banks on {} tables each are too many",
            known.ensemble.len()
        ))
        .with_hint(format!("take coarser steps: at most {most} banks"))
        .into());
    }
    let rule = rules.first().map(|rule| &rule.named.rule);
    let set_ups = set_ups(plan, rule, points)
        .map_err(|message| Fault::bad_input(message).placed(place::argument(lua, CALL, 2)))?;
    let found = Session::of(lua)?
        .work(lua, points, |_| {
            holding_shares(&known.table, known.model, &known.ensemble, &set_ups)
        })?
        .map_err(|error| complain(error.to_string()))?;
    let names = rules.iter().map(|rule| rule.named.name.clone()).collect();
    Ok(Shares {
        known: Rc::clone(known),
        found: Rc::new(found),
        picked: PointSelection::all(&banks.0, names),
    })
}

/// True for an axis that leaves each member what is its own: the grid plays on the middle table as it is.
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

fn set_ups(plan: &Plan, rule: Option<&Rule>, points: usize) -> Result<Vec<SetUp>, String> {
    (0..points)
        .map(|point| {
            let digits = plan.digits(point);
            let bank = plan.bank(&digits).map_err(|error| error.to_string())?;
            let launch = plan.launch(&digits, &bank);
            let geometry = bank.geometry();
            let contact = plan.number(Input::Contact, &digits).unwrap_or_default();
            let line = match (plan.number(Input::Start, &digits), rule) {
                (Some(start), _) => Line::new(contact, start),
                (None, Some(rule)) => rule
                    .line_for_contact(contact, geometry)
                    .map_err(|error| format!("the rule gives no start number: {error}"))?,
                (None, None) => return Err("a bank needs a start number or a rule".to_owned()),
            };
            let speed = Speed::MetresPerSecond(launch.speed_m_s);
            Ok(SetUp {
                roll: launch.roll,
                side: launch.side,
                aim_error_rad: launch.aim_error_rad,
                ..SetUp::stun(geometry.rail, geometry.pocket, line, launch.off_rail_m, speed)
            })
        })
        .collect()
}

const MEMBERS: &[&str] = &["where", "at", "count", "states", "least", "most", "draw"];
const SHARE: &[&str] = &["share", "error", "state"];
const STATES: &[&str] = &["sure", "depends", "misses"];

impl Shares {
    /// The kept shares, in order.
    pub fn kept(&self) -> impl Iterator<Item = MemberShare> {
        self.picked.points().into_iter().filter_map(|point| self.found.get(point).copied())
    }
}

impl UserData for Shares {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "list of shares");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            Ok(format!("the shares of {}", this.picked.subject()))
        });
        methods.add_method("count", |_, this, ()| Ok(this.picked.count() as f64));
        add_selection(methods, "where", |lua, this, argument: Value| {
            let picked = narrowed(lua, "where", &this.picked, &argument)?;
            Ok(Self { picked, ..this.clone() })
        });
        methods.add_method("at", at);
        methods.add_method("states", states);
        methods
            .add_method("least", |_, this, ()| Ok(this.kept().map(|it| it.share).reduce(f64::min)));
        methods
            .add_method("most", |_, this, ()| Ok(this.kept().map(|it| it.share).reduce(f64::max)));
        add_picture(methods, "draw", draw::shares::draw);
        members::only(methods, "a list of shares", MEMBERS);
    }
}

/// `shares:at { contact = 2 }`: the one share there.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn at(lua: &Lua, this: &Shares, argument: Value) -> mlua::Result<Table> {
    let picked = narrowed(lua, "at", &this.picked, &argument)?;
    let only = Shares { picked, ..this.clone() };
    let mut kept = only.kept();
    let (Some(share), None) = (kept.next(), kept.next()) else {
        let message = format!("this leaves {} banks; `at` needs one", only.picked.count());
        return Err(fault_here(lua, "at", message).into());
    };
    let table = lua.create_table()?;
    table.raw_set("share", share.share)?;
    table.raw_set("error", share.error)?;
    let state = match share.agreement() {
        Agreement::All => STATES[0],
        Agreement::Depends => STATES[1],
        Agreement::None => STATES[2],
    };
    table.raw_set("state", state)?;
    members::seal(lua, table, "a share", SHARE)
}

/// `shares:states()`: how many banks are sure to hold, depend on the table, and are sure to miss.
fn states(lua: &Lua, this: &Shares, (): ()) -> mlua::Result<Table> {
    let of = |wanted| this.kept().filter(|share| share.agreement() == wanted).count();
    let table = lua.create_table()?;
    for (name, wanted) in STATES.iter().zip([Agreement::All, Agreement::Depends, Agreement::None]) {
        table.raw_set(*name, of(wanted))?;
    }
    members::seal(lua, table, "the states", STATES)
}
