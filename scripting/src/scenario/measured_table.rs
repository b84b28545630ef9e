//! `fit { banks, on }`, `measured_table "table.json"`, `unmeasured_table(hall)` and `practice_table(hall)`: all
//! the tables that one could be, as banks, published ranges or common practice let it be known.

use super::chance::on_tables::chances_on_tables;
use super::draw::fit::FIT_DRAWINGS;
use super::ensemble::{band, ranking, shares, starts};
use super::equipment::{EquipmentObject, KNOWN_TABLE, OneTable};
use super::fitted::{self, Fitted};
use super::left_out::add_picture;
use super::members;
use super::session::Session;
use crate::fault::Fault;
use crate::fitting::{
    FEWEST_MEMBERS, FitFindings, FitQuestion, MeasuredTable, NumberFindings, NumberUnit,
    TableFindings, TableOrigin, nine_foot, read_table,
};
use crate::lua::options::{Kind, Options, text, word};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::kind_of;
use crate::measured::read_measurements;
use crate::picture::MissUnit;
use crate::telling::caution::Cautions;
use crate::telling::set_up_words;
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value, Variadic};
use railproof_engine::bank::BankError;
use railproof_engine::equipment::RailModel;
use railproof_engine::narrow::NarrowSettings;
use railproof_engine::practice::{Fact, FactShares};
use std::cell::OnceCell;
use std::rc::Rc;

/// A measured table in a script's hands.
#[derive(Debug, Clone)]
pub struct MeasuredTableObject {
    pub known: Rc<MeasuredTable>,
    /// What its members say, once they are asked.
    told: Rc<OnceCell<TableFindings>>,
    facts: Rc<OnceCell<FactShares>>,
    /// The fit, where it was made here.
    fitted: Option<Rc<Fitted>>,
}

const FIT_KEYS: &[&str] = &["banks", "on", "rail_model"];
const FIELDS: &[&str] = &[
    "name",
    "banks",
    "members",
    "middle",
    "slope",
    "slope_before",
    "numbers",
    "next",
    "facts",
    "all_choosing",
    "tried",
    "misfit",
    "shares",
    "rank",
    "exact_starts",
    "frontier",
    "chances",
    "why_missed",
    "rail_models",
    "draw_banks",
    "draw_numbers",
    "draw_pairs",
];
const FACT: &[&str] = &["name", "told", "chose", "share", "error"];
const SHARE: &[&str] = &["share", "error"];
const INTERVAL: &[&str] = &["middle", "from", "to"];
const NUMBER: &[&str] = &["name", "middle", "from", "to", "unit", "narrower", "told"];

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set("fit", lua.create_function(fit)?)?;
    into.raw_set("measured_table", lua.create_function(measured_table)?)?;
    into.raw_set(
        "unmeasured_table",
        lua.create_function(|lua, table: Value| {
            let (table, in_inches) = sizes(lua, "unmeasured_table", &table)?;
            Ok(MeasuredTableObject::new(MeasuredTable::wide(&table.0, in_inches)))
        })?,
    )?;
    into.raw_set(
        "practice_table",
        lua.create_function(|lua, table: Value| {
            const CALL: &str = "practice_table";
            let (table, in_inches) = sizes(lua, CALL, &table)?;
            let at = || place::argument(lua, CALL, 1);
            let nine_foot = nine_foot()?;
            let known = Session::of(lua)?
                .work(lua, 1, |_| MeasuredTable::by_practice(&table.0, &nine_foot, in_inches))?
                .map_err(|error| Fault::bad_input(error.to_string()).placed(at()))?;
            if known.ensemble.len() < FEWEST_MEMBERS {
                let message = "common practice comes true on too few tables with this rail model";
                return Err(Fault::bad_input(message)
                    .with_hint("take the rail model nose-and-cloth, or unmeasured_table(…)")
                    .placed(at())
                    .into());
            }
            Ok(MeasuredTableObject::new(known))
        })?,
    )
}

/// The table that gives a call its sizes, and whether lengths are in inches.
fn sizes(lua: &Lua, call: &'static str, value: &Value) -> mlua::Result<(EquipmentObject, bool)> {
    let at = || place::argument(lua, call, 1);
    let table = OneTable.read(value).map_err(|mismatch| {
        let fault = Fault::bad_input(format!("what {call} takes {}", mismatch.message));
        let hint = format!("write it like {call}(equipment \"nine-foot\")");
        fault.with_hint(mismatch.hint.unwrap_or(hint)).placed(at())
    })?;
    if table.0.cushion.rail_model == RailModel::Compliant {
        return Err(Fault::bad_input("a stepped rail model is too slow for so many tables")
            .with_hint("hall:with { rail_model = \"nose-and-cloth\" }")
            .placed(at())
            .into());
    }
    let in_inches = Session::of(lua)?.miss_unit() == MissUnit::Inches;
    Ok((table, in_inches))
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn fit(lua: &Lua, argument: Value) -> mlua::Result<MeasuredTableObject> {
    let options = Options::open(lua, "fit", &argument, FIT_KEYS)?;
    let session = Session::of(lua)?;
    let path = session.folder().join(options.required("banks", text())?);
    let table = options.required("on", OneTable)?;
    let model = options.optional("rail_model", word::<RailModel>())?;
    let model = model.unwrap_or(table.0.cushion.rail_model);
    if model == RailModel::Compliant {
        let key = if options.has("rail_model") { "rail_model" } else { "on" };
        return Err(options
            .complain(key, "a stepped rail model is too slow for a fit")
            .with_hint("rail_model = \"nose-and-cloth\", \"nose-only\" or \"planar\"")
            .into());
    }
    let measurements = read_measurements(&path, &table.0)
        .map_err(|fault| fault.placed(options.complain("banks", "").place))?;
    let question = FitQuestion {
        table: (*table.0).clone(),
        in_inches: session.miss_unit() == MissUnit::Inches,
        model,
        measurements,
        settings: NarrowSettings::SHIPPED,
    };
    let found = session
        .work(lua, 1, |_| FitFindings::of(&question))?
        .map_err(|error| options.complain_of_call(error.to_string()))?;
    session.advise(&Cautions::of_fit(&found));
    let object = MeasuredTableObject::new(found.known.clone());
    let _ = object.told.set(found.told.clone());
    Ok(MeasuredTableObject { fitted: Some(Rc::new(Fitted { question, found })), ..object })
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn measured_table(lua: &Lua, file: Value) -> mlua::Result<MeasuredTableObject> {
    const CALL: &str = "measured_table";
    let at = || place::argument(lua, CALL, 1);
    let Value::String(name) = &file else {
        let message = format!("{CALL} takes the path of a table's file, not {}", kind_of(&file));
        return Err(Fault::bad_input(message)
            .with_hint("write it like measured_table \"out/table/table.json\"")
            .placed(at())
            .into());
    };
    let session = Session::of(lua)?;
    let path = session.folder().join(name.to_string_lossy());
    let known = read_table(&path).map_err(|fault| fault.placed(at()))?;
    Ok(MeasuredTableObject::new(known))
}

impl MeasuredTableObject {
    fn new(known: MeasuredTable) -> Self {
        Self { known: Rc::new(known), told: Rc::default(), facts: Rc::default(), fitted: None }
    }

    /// The fit, for words that need the banks.
    fn fitted(&self, lua: &Lua, name: &str) -> mlua::Result<&Fitted> {
        self.fitted.as_deref().ok_or_else(|| {
            Fault::bad_input(format!(
                "`{name}` needs the measured banks, which this table doesn't keep"
            ))
            .with_hint("`fit { banks = …, on = … }` has them")
            .placed(place::call(lua, None))
            .into()
        })
    }

    /// What its members say; they are asked once.
    fn told(&self, lua: &Lua) -> mlua::Result<&TableFindings> {
        if self.told.get().is_none() {
            let told = Session::of(lua)?
                .work(lua, 1, |_| TableFindings::of(&self.known))?
                .map_err(|error| refused(lua, &error))?;
            let _ = self.told.set(told);
        }
        self.told.get().ok_or_else(|| Fault::bad_input("its members say nothing").into())
    }

    /// On how many of its tables each fact of practice comes true; they are asked once.
    fn facts(&self, lua: &Lua) -> mlua::Result<&FactShares> {
        if self.facts.get().is_none() {
            let (nine_foot, known) = (nine_foot()?, &self.known);
            let facts = Session::of(lua)?
                .work(lua, 1, |_| FactShares::of(&nine_foot, known.model, &known.ensemble))?
                .map_err(|error| refused(lua, &error))?;
            let _ = self.facts.set(facts);
        }
        self.facts.get().ok_or_else(|| Fault::bad_input("its members say nothing").into())
    }

    /// True for a fact by which its members were chosen: it checks nothing.
    fn is_chosen_by(&self, fact: &Fact) -> bool {
        fact.chooses && matches!(self.known.origin, TableOrigin::Practice { .. })
    }
}

fn refused(lua: &Lua, error: &BankError) -> Fault {
    Fault::bad_input(format!("this table has no such banks: {error}"))
        .placed(place::call(lua, None))
}

impl UserData for MeasuredTableObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", KNOWN_TABLE);
        fields.add_field_method_get("name", |_, this| Ok(this.known.name()));
        fields.add_field_method_get("banks", |_, this| Ok(this.known.banks()));
        fields.add_field_method_get("members", |_, this| Ok(this.known.ensemble.len()));
        fields.add_field_method_get("middle", |lua, this| {
            let middle = Rc::new(this.known.middle());
            Session::of(lua)?.add_table(&middle);
            Ok(EquipmentObject(middle))
        });
        fields.add_field_method_get("slope", |lua, this| {
            interval(lua, this.told(lua)?, |slope| slope.after)
        });
        fields.add_field_method_get("slope_before", |lua, this| {
            interval(lua, this.told(lua)?, |slope| slope.before)
        });
        fields.add_field_method_get("numbers", |lua, this| {
            let list = lua.create_table()?;
            for number in &this.told(lua)?.numbers {
                list.raw_push(number_table(lua, number)?)?;
            }
            Ok(list)
        });
        fields.add_field_method_get("next", |lua, this| {
            let list = lua.create_table()?;
            for (set_up, _) in &this.told(lua)?.next {
                list.raw_push(set_up_words(set_up))?;
            }
            Ok(list)
        });
        fields.add_field_method_get("misfit", |lua, this| {
            fitted::misfit(lua, this.fitted(lua, "misfit")?)
        });
        fields.add_field_method_get("facts", |lua, this| {
            let list = lua.create_table()?;
            for (fact, share) in &this.facts(lua)?.facts {
                let table = lua.create_table()?;
                table.raw_set("name", fact.name)?;
                table.raw_set("told", fact.told)?;
                let chose = this.is_chosen_by(fact);
                table.raw_set("chose", chose)?;
                // A fact that chose the tables is true of them all, which says nothing.
                if !chose {
                    table.raw_set("share", share.share)?;
                    table.raw_set("error", share.error)?;
                }
                list.raw_push(members::seal(lua, table, "a fact", FACT)?)?;
            }
            Ok(list)
        });
        fields.add_field_method_get("all_choosing", |lua, this| {
            let share = this.facts(lua)?.all_choosing;
            let table = lua.create_table()?;
            table.raw_set("share", share.share)?;
            table.raw_set("error", share.error)?;
            members::seal(lua, table, "a share", SHARE)
        });
        fields.add_field_method_get("tried", |_, this| {
            Ok(match this.known.origin {
                TableOrigin::Practice { tried } => tried,
                TableOrigin::Banks(_) | TableOrigin::Wide => this.known.ensemble.len(),
            })
        });
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| Ok(this.known.name()));
        methods.add_method("shares", |lua, this, arguments: Variadic<Value>| {
            shares::shares(lua, &this.known, &arguments)
        });
        methods.add_method("rank", |lua, this, arguments: Variadic<Value>| {
            ranking::rank(lua, &this.known, &arguments)
        });
        methods.add_method("chances", |lua, this, arguments: Variadic<Value>| {
            chances_on_tables(lua, &this.known, &arguments)
        });
        methods.add_method("exact_starts", |lua, this, arguments: Variadic<Value>| {
            starts::exact_starts(lua, &this.known, &arguments)
        });
        methods.add_method("frontier", |lua, this, argument: Value| {
            band::frontier(lua, &this.known, &argument)
        });
        methods.add_method("why_missed", |lua, this, line: Value| {
            fitted::why_missed(lua, this.fitted(lua, "why_missed")?, &line)
        });
        methods.add_method("rail_models", |lua, this, ()| {
            fitted::rail_models_list(lua, this.fitted(lua, "rail_models")?)
        });
        for drawing in FIT_DRAWINGS {
            add_picture(methods, drawing.call, move |lua, this: &Self, argument: Value| {
                drawing.draw(lua, &this.fitted(lua, drawing.call)?.found, &argument)
            });
        }
        members::only(methods, "a known table", FIELDS);
    }
}

fn interval(
    lua: &Lua,
    found: &TableFindings,
    which: fn(&NumberFindings) -> railproof_engine::ask::CredibleInterval,
) -> mlua::Result<Table> {
    let interval = which(&found.slope);
    let table = lua.create_table()?;
    table.raw_set("middle", interval.middle)?;
    table.raw_set("from", interval.ninety.0)?;
    table.raw_set("to", interval.ninety.1)?;
    members::seal(lua, table, "an interval", INTERVAL)
}

fn number_table(lua: &Lua, number: &NumberFindings) -> mlua::Result<Table> {
    let NumberUnit { symbol, si, .. } = number.unit;
    let table = lua.create_table()?;
    table.raw_set("name", number.title)?;
    table.raw_set("middle", number.after.middle / si)?;
    table.raw_set("from", number.after.ninety.0 / si)?;
    table.raw_set("to", number.after.ninety.1 / si)?;
    table.raw_set("unit", symbol)?;
    table.raw_set("narrower", 1.0 - number.left())?;
    table.raw_set("told", number.is_determined())?;
    members::seal(lua, table, "a number", NUMBER)
}
