//! A known table in a script's hands: its fields and its calls.

use super::{answers, planned};
use crate::fault::Fault;
use crate::fitting::{
    FitFindings, FitQuestion, MeasuredTable, TableFindings, TableOrigin, nine_foot,
};
use crate::lua::place::{self, Placed};
use crate::scenario::chance::on_tables::chances_on_tables;
use crate::scenario::draw::fit::FIT_DRAWINGS;
use crate::scenario::ensemble::{band, ranking, shares, starts};
use crate::scenario::equipment::{EquipmentObject, KNOWN_TABLE};
use crate::scenario::fitted::{self, Fitted};
use crate::scenario::left_out::add_picture;
use crate::scenario::members;
use crate::scenario::missed;
use crate::scenario::session::Session;
use crate::telling::set_up_words;
use mlua::{Lua, MetaMethod, UserData, UserDataFields, UserDataMethods, Value, Variadic};
use railproof_engine::bank::BankError;
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

const FIELDS: &[&str] = &[
    "name",
    "banks",
    "members",
    "middle",
    "slope",
    "slope_before",
    "numbers",
    "tied",
    "next",
    "next_for",
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
    "draw_next",
];

impl MeasuredTableObject {
    pub(super) fn new(known: MeasuredTable) -> Self {
        Self { known: Rc::new(known), told: Rc::default(), facts: Rc::default(), fitted: None }
    }

    /// Of a fit that was made here.
    pub(super) fn fitted_here(question: FitQuestion, found: FitFindings) -> Self {
        let object = Self::new(found.known.clone());
        let _ = object.told.set(found.told.clone());
        Self { fitted: Some(Rc::new(Fitted { question, found })), ..object }
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
        self.told.get().ok_or_else(|| Fault::bad_input("none of its tables gives an answer").into())
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
        self.facts
            .get()
            .ok_or_else(|| Fault::bad_input("none of its tables gives an answer").into())
    }

    /// True for a fact by which its members were chosen: it checks nothing.
    fn is_chosen_by(&self, fact: &Fact) -> bool {
        fact.chooses && matches!(self.known.origin, TableOrigin::Practice { .. })
    }
}

/// The refusal of a table without the banks.
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
            answers::interval(lua, &this.told(lua)?.slope.after)
        });
        fields.add_field_method_get("slope_before", |lua, this| {
            answers::interval(lua, &this.told(lua)?.slope.before)
        });
        fields.add_field_method_get("numbers", |lua, this| {
            answers::numbers(lua, &this.told(lua)?.numbers)
        });
        fields.add_field_method_get("tied", |lua, this| answers::tied(lua, &this.told(lua)?.tied));
        fields.add_field_method_get("next", |lua, this| {
            let list = lua.create_table()?;
            for (set_up, _) in &this.told(lua)?.next.banks {
                list.raw_push(set_up_words(set_up))?;
            }
            Ok(list)
        });
        fields.add_field_method_get("misfit", |lua, this| {
            fitted::misfit(lua, this.fitted(lua, "misfit")?)
        });
        fields.add_field_method_get("facts", |lua, this| {
            answers::facts(lua, this.facts(lua)?, |fact| this.is_chosen_by(fact))
        });
        fields.add_field_method_get("all_choosing", |lua, this| {
            answers::share(lua, &this.facts(lua)?.all_choosing)
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
            if line.is_table() {
                return missed::why_seen(lua, &this.known, &line);
            }
            let of_banks = this.fitted.as_deref().ok_or_else(|| missed::keeps_no_banks(lua))?;
            fitted::why_missed(lua, of_banks, &line)
        });
        methods.add_method("rail_models", |lua, this, ()| {
            fitted::rail_models_list(lua, this.fitted(lua, "rail_models")?)
        });
        methods.add_method("next_for", |lua, this, argument: Value| {
            planned::next_for(lua, &this.known, &argument)
        });
        add_picture(methods, planned::DRAW_NEXT, |lua, this: &Self, argument: Value| {
            planned::draw_next(lua, &this.known, &argument)
        });
        for drawing in FIT_DRAWINGS {
            add_picture(methods, drawing.call, move |lua, this: &Self, argument: Value| {
                drawing.draw(lua, &this.fitted(lua, drawing.call)?.found, &argument)
            });
        }
        members::only(methods, "a known table", FIELDS);
    }
}
