//! `mine:shares(banks, rule)`: on how many of the tables that yours could be each bank holds.

use super::question::EnsembleQuestion;
use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use crate::lua::place::Placed;
use crate::scenario::draw;
use crate::scenario::left_out::{add_picture, add_selection};
use crate::scenario::members;
use crate::scenario::point_selection::PointSelection;
use crate::scenario::selection::narrowed;
use crate::scenario::session::{Session, fault_here, here};
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::ask::{Agreement, MemberShare, holding_shares};
use std::rc::Rc;

const CALL: &str = "shares";

/// The share of tables on which each bank of a sweep holds, or some of them.
#[derive(Debug, Clone)]
pub struct Shares {
    pub known: Rc<MeasuredTable>,
    pub found: Rc<Vec<MemberShare>>,
    pub picked: PointSelection,
}

pub fn shares(lua: &Lua, known: &Rc<MeasuredTable>, arguments: &[Value]) -> mlua::Result<Shares> {
    let asked = EnsembleQuestion::read(lua, CALL, known, arguments)?;
    let complain = |message: String| Fault::bad_input(message).placed(here(lua, CALL));
    if asked.rules.len() > 1 {
        return Err(complain("shares takes one rule".into())
            .with_hint("mine:rank(banks, { rules }) puts several in order")
            .into());
    }
    let set_ups = asked.set_ups(lua, CALL, 1, true)?;
    let session = Session::of(lua)?;
    let found = session
        .work(lua, known.ensemble.len(), |tick| match session.kept_shares() {
            Some(kept) => kept.shares(known, &set_ups, tick),
            None => holding_shares(&known.table, known.model, &known.ensemble, &set_ups, tick),
        })?
        .map_err(|error| complain(error.to_string()))?;
    Ok(Shares {
        known: Rc::clone(known),
        found: Rc::new(found),
        picked: PointSelection::all(&asked.banks.0, asked.named()),
    })
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

/// What tables say together, in a word.
pub const fn state(agreement: Agreement) -> &'static str {
    match agreement {
        Agreement::All => STATES[0],
        Agreement::Depends => STATES[1],
        Agreement::None => STATES[2],
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
    table.raw_set("state", state(share.agreement()))?;
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
